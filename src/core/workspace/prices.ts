import { fail, type Issue, ok, type Result } from '../issue/index.ts';
import { daysIn, type Edit, type Plan, readersFor } from '../plan/index.ts';
import { parseMoney } from '../quantity/index.ts';
import { foldedName } from './folded-name.ts';
import type { NewPrice, Price } from './protocol.ts';
import { readTable, writeTable } from './table.ts';

const COLUMNS = ['stock', 'size', 'supplier', 'price', 'currency', 'date', 'remark'] as const;

/** The book, or a part of it, as a table that `readPrices` takes back. */
export const writePrices = (prices: readonly NewPrice[]): string =>
  writeTable(
    COLUMNS,
    prices
      .filter((price) => !price.withdrawn)
      .map(({ stock, size, supplier, price, currency, date, remark = '' }) => ({
        stock,
        size,
        supplier,
        price,
        currency,
        date,
        remark,
      })),
  );

/** Prices from a table. Ids are made of what a row says, so that the same list read twice is in the book once. */
export function readPrices(
  csv: string,
  otherwise: { readonly currency: string; readonly date: string },
): Result<readonly NewPrice[]> {
  const table = readTable(csv, COLUMNS, ['stock', 'price']);
  if (!table.ok) return table;
  const issues: Issue[] = [];
  const prices = table.value.map(({ line, cells: written }): NewPrice => {
    // a cell may be broken into lines, a name of a thing is one
    const cells = Object.fromEntries(
      COLUMNS.map((column) => [column, written[column]!.replace(/\s*[\n\u2028\u2029]\s*/g, ' ')]),
    );
    const price: Omit<NewPrice, 'id'> = {
      stock: cells.stock!,
      size: cells.size!,
      supplier: cells.supplier!,
      price: cells.price!,
      currency: (cells.currency || otherwise.currency).toUpperCase(),
      date: isoDay(cells.date!) || otherwise.date,
      ...(cells.remark && { remark: cells.remark }),
    };
    issues.push(...priceFaults(price).map((issue) => ({ ...issue, place: { line, column: 1 } })));
    return { id: idOf(price), ...price };
  });
  return issues.length > 0 ? fail(...issues.slice(0, 50)) : ok(prices);
}

/** `20.11.2026`, as spreadsheets write it where commas are decimal, is read with its day first; with slashes nobody knows which is first. */
const isoDay = (written: string): string =>
  written.replace(/^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$/, (_, day: string, month: string, year: string) =>
    [year, month.padStart(2, '0'), day.padStart(2, '0')].join('-'),
  );

/** Line ends and control characters: no name of a thing holds them. */
const UNSEEN = /[\p{Cc}\p{Zl}\p{Zp}]/u;

/** What keeps a price out of the book. */
export function priceFaults(price: Omit<NewPrice, 'id'>): readonly Issue[] {
  const issues: Issue[] = [];
  const need = (right: boolean, path: string, message: string, found: string, expected: string): void => {
    if (!right) issues.push({ path: [path], message, found: `'${found.slice(0, 40)}'`, expected });
  };
  const { stock, size, supplier, currency, date, remark = '' } = price;
  need(stock.trim() !== '' && stock.length <= 120, 'stock', 'the price is of nothing', stock, 'the id of a stock');
  need(size.length <= 120, 'size', 'the size is too long', size, 'at most 120 characters');
  need(supplier.length <= 120, 'supplier', 'the supplier is too long', supplier, 'at most 120 characters');
  need(remark.length <= 500, 'remark', 'the remark is too long', remark, 'at most 500 characters');
  need(/^[A-Z]{3}$/.test(currency), 'currency', 'this is no currency', currency, 'a code such as USD or EUR');
  need(isDay(date), 'date', 'this is no date', date, 'a date such as 2026-10-02');
  for (const [path, written] of Object.entries({ stock, size, supplier, remark }))
    need(!UNSEEN.test(written), path, 'there is a letter here that cannot be seen', written, 'one line');
  const money = parseMoney(price.price, currency);
  if (!money.ok) issues.push({ ...money.issues[0]!, path: ['price'] });
  else need(money.value >= 0, 'price', 'a price is not negative', price.price, '0 or more');
  return issues;
}

export function isDay(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month);
}

/** 2 × 32 bits of FNV-1a over what the row says. Source: the FNV specification, IETF draft-eastlake-fnv: offset basis and prime. */
function idOf(price: Omit<NewPrice, 'id'>): string {
  const text = COLUMNS.map((column) => price[column] ?? '').join('\u001f');
  const hash = (seed: number): string => {
    let h = seed;
    for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
    return (h >>> 0).toString(16).padStart(8, '0');
  };
  return `row-${hash(0x811c9dc5)}${hash(Math.imul(0x811c9dc5 ^ text.length, 0x01000193))}`;
}

/** The price of each stock, size and supplier that holds on a day: the last one before its end that was not withdrawn. */
export function currentPrices(prices: readonly Price[], today: string): readonly Price[] {
  const withdrawn = new Set(prices.filter((price) => price.withdrawn).map((price) => price.id));
  const current = new Map<string, Price>();
  for (const price of prices) {
    if (withdrawn.has(price.id) || price.date > today) continue;
    const key = [price.stock, price.size, price.supplier, price.currency].join('\u001f');
    const known = current.get(key);
    if (!known || price.date > known.date || (price.date === known.date && price.number > known.number))
      current.set(key, price);
  }
  return [...current.values()];
}

/** A stock or a supplier by its id, or by its name where only one has it: who sends a list of prices knows no ids. */
function idIn(all: readonly { readonly id: string; readonly name?: string | undefined }[], said: string): string {
  if (all.some(({ id }) => id === said)) return said;
  const plain = foldedName(said);
  const named = all.filter(
    ({ id, name }) => foldedName(id) === plain || (name !== undefined && foldedName(name) === plain),
  );
  return named.length === 1 ? named[0]!.id : said;
}
const stocksOf = ({ stock }: Plan) => [...stock.panels, ...stock.boards, ...stock.packs];

/** What prices are of that a plan has no stock of, each once. */
export const strangeTo = (plan: Plan, prices: readonly Pick<NewPrice, 'stock'>[]): readonly string[] => {
  const all = stocksOf(plan);
  const known = new Set(all.map(({ id }) => id));
  return [...new Set(prices.map(({ stock }) => stock))].filter((said) => !known.has(idIn(all, said)));
};

/**
 * The edits that bring a plan's prices up to the book: where stock, size, supplier and currency are the same and the book's price is of
 * a later day. Sizes are compared as lengths, however they are written; of a pack, what it holds may stand for a size.
 */
export function priceEdits(plan: Plan, prices: readonly Price[], today: string): readonly Edit[] {
  const { length, money } = readersFor(plan.units);
  const sizeKey = (size: readonly number[]): string =>
    [...size]
      .sort((a, b) => b - a)
      .map((v) => v.toFixed(2))
      .join(' × ');
  const written = (size: string): string | undefined => {
    if (size.trim() === '') return '';
    const sides = size.split(/\s*[×x*]\s*/i).map((side) => length(side));
    return sides.every((side) => side.ok) ? sizeKey(sides.map((side) => (side.ok ? side.value : 0))) : undefined;
  };
  const all = stocksOf(plan);
  const holds = new Map(plan.stock.packs.map((pack) => [pack.id, foldedName(`${pack.holds}`)]));
  const offers = new Map<string, Price>();
  for (const price of currentPrices(prices, today))
    if (price.currency === plan.units.currency) {
      const id = idIn(all, price.stock);
      const isWhole = holds.get(id) === foldedName(price.size.replace(/^pack of /i, ''));
      // what cannot be read is of no size there is
      const size = isWhole ? '' : (written(price.size) ?? price.size);
      const key = [id, size, price.supplier && idIn(plan.stock.suppliers, price.supplier)].join('\u001f');
      const known = offers.get(key);
      if (!known || price.date > known.date || (price.date === known.date && price.number > known.number))
        offers.set(key, price);
    }
  const edits: Edit[] = [];
  const take = (
    path: readonly (string | number)[],
    stock: string,
    size: readonly number[],
    entry: {
      readonly price?: number | undefined;
      readonly supplier?: string | undefined;
      readonly date?: string | undefined;
    },
  ): void => {
    const offer = offers.get([stock, sizeKey(size), entry.supplier ?? ''].join('\u001f'));
    const value = offer && money(offer.price);
    if (!offer || !value?.ok || (entry.date ?? '') >= offer.date) return;
    if (entry.price !== value.value) edits.push({ op: 'set', path: [...path, 'price'], value: offer.price });
    edits.push({ op: 'set', path: [...path, 'date'], value: offer.date });
  };
  plan.stock.panels.forEach((panel, i) => {
    panel.sizes.forEach((size, j) => {
      take(['stock', 'panels', i, 'sizes', j], panel.id, [size.length, size.width], size);
    });
  });
  plan.stock.boards.forEach((board, i) => {
    board.lengths.forEach((size, j) => {
      take(['stock', 'boards', i, 'lengths', j], board.id, [size.length], size);
    });
  });
  plan.stock.packs.forEach((pack, i) => {
    take(['stock', 'packs', i], pack.id, [], pack);
  });
  return edits;
}
