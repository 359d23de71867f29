import { type Issue, nearest, type Result } from '../issue/index.ts';
import { type LengthUnit, parseLength } from '../quantity/index.ts';
import type { LengthPart, LengthStock, PanelPart, PanelStock } from './problem.ts';

/**
 * Lists a maker keeps: rows of cells, the first row that names a length being the head. Heads may be written in many ways, columns may
 * stand in any order, lengths any way `parseLength` takes, and columns that mean nothing here are passed over. A list with a width
 * column is of panels, one without of boards or mouldings.
 */
export type CutList<P, B> =
  | { readonly kind: 'panels'; readonly rows: readonly P[] }
  | { readonly kind: 'lengths'; readonly rows: readonly B[] };
export type PartList = CutList<PanelPart, LengthPart>;
export type StockList = CutList<PanelStock, LengthStock>;

const HEADS = {
  id: ['id', 'name', 'part', 'label', 'mark', 'item', 'description', 'stock', 'board', 'panel', 'sheet', 'offcut'],
  length: ['length', 'len', 'long', 'l', 'x', 'height', 'h'],
  width: ['width', 'wide', 'w', 'y', 'breadth', 'depth', 'd'],
  count: ['count', 'qty', 'quantity', 'number', 'pieces', 'pcs', 'no', 'n', 'off', 'have', 'on hand'],
  turn: ['turn', 'can turn', 'may turn', 'rotate', 'free'],
  grain: ['grain'],
  cost: ['cost', 'price', 'each', 'unit price', 'cost each', 'price each'],
} as const;
type Head = keyof typeof HEADS;
type Columns = Partial<Readonly<Record<Head, number>>>;

/** Letters only, small: "Qty." and "QTY" are one word, "Length (mm)" is length. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\([^)]*\)|\[[^\]]*\]/g, ' ')
    .replace(/[^\p{L}]+/gu, ' ')
    .trim();

function headOf(text: string): Head | undefined {
  const word = plain(text);
  for (const head of Object.keys(HEADS) as Head[]) if ((HEADS[head] as readonly string[]).includes(word)) return head;
  // One slip of the finger in a longer word.
  const near =
    word.length >= 4
      ? nearest(
          word,
          Object.values(HEADS)
            .flat()
            .filter((name) => name.length >= 4),
        )
      : undefined;
  if (near === undefined) return undefined;
  return (Object.keys(HEADS) as Head[]).find((head) => (HEADS[head] as readonly string[]).includes(near));
}

interface Table {
  readonly columns: Columns;
  readonly rows: readonly { readonly cells: readonly string[]; readonly line: number }[];
}

function tableOf(rows: readonly (readonly string[])[]): Result<Table> {
  const isEmpty = (cells: readonly string[]): boolean => cells.every((cell) => cell.trim() === '');
  const at = rows.findIndex((cells) => cells.some((cell) => headOf(cell) === 'length'));
  if (at < 0) {
    const found = rows.find((cells) => !isEmpty(cells))?.join(', ') ?? 'nothing';
    return {
      ok: false,
      issues: [
        {
          place: { line: 1, column: 1 },
          path: [],
          message: 'no column is headed length',
          found,
          expected: 'a first row such as: part, length, width, count',
        },
      ],
    };
  }
  const columns: Partial<Record<Head, number>> = {};
  rows[at]!.forEach((cell, column) => {
    const head = headOf(cell);
    // The first of two columns with one meaning counts: "part, name" is named by part.
    if (head && columns[head] === undefined) columns[head] = column;
  });
  const body = rows.map((cells, i) => ({ cells, line: i + 1 })).slice(at + 1);
  return { ok: true, value: { columns, rows: body.filter(({ cells }) => !isEmpty(cells)) } };
}

/** Reads cells of one row, gathering what is wrong with them. */
function reader(columns: Columns, cells: readonly string[], line: number, unit: LengthUnit, issues: Issue[]) {
  const cell = (head: Head): string => (columns[head] === undefined ? '' : (cells[columns[head]] ?? '').trim());
  const wrong = (head: Head, message: string, expected: string): void => {
    const column = (columns[head] ?? 0) + 1;
    issues.push({ place: { line, column }, path: [head], message, found: cell(head) || 'nothing', expected });
  };
  const lengthIn = (head: 'length' | 'width'): number => {
    const read = parseLength(cell(head), { unit });
    if (read.ok && read.value > 0) return read.value;
    const why = read.ok ? `a ${head} must be more than zero` : (read.issues[0]?.message ?? 'not a length');
    wrong(head, why, unit === 'mm' ? 'a length such as 600 or 23 5/8"' : 'a length such as 23-5/8" or 600 mm');
    return Number.NaN;
  };
  return {
    cell,
    wrong,
    sides: (): { readonly length: number; readonly width: number } => {
      const length = lengthIn('length');
      if (columns.width === undefined) return { length, width: Number.NaN };
      const width = lengthIn('width');
      return ACROSS.test(cell('grain')) ? { length: width, width: length } : { length, width };
    },
    count: (absent: number | null): number | null => {
      const text = cell('count');
      if (text === '' || (absent === null && /^(any|unlimited|∞|-|–)$/i.test(text))) return absent;
      const value = Number(text.replace(/\s*(x|×|pcs?\.?|off)$/i, ''));
      if (Number.isInteger(value) && value >= (absent === null ? 0 : 1)) return value;
      wrong(
        'count',
        'this is not a count',
        absent === null ? 'a whole number, or empty for any' : 'a whole number of at least 1',
      );
      return absent;
    },
  };
}

const YES = /^(y|yes|true|1|x|turn|free|any|no grain)$/i;
const NO = /^(n|no|none|false|0|-|–|fixed|length|long|along|lengthwise)?$/i;
const FREE = /^(none|no|free|any|0|no grain)$/i;
/** Of a part or panel with grain the sides are exchanged, since grain runs along what is called length here. */
const ACROSS = /^(w|width|wide|widthwise|across|cross|crosswise|short)$/i;

/**
 * Parts from rows of cells. Names left out become `row 3`; one name in several rows is told apart as `name`, `name (2)`.
 * A part may turn only where the list says so (`turn: yes`, or `grain: none`); `grain: across` runs along its width.
 */
export function readPartList(rows: readonly (readonly string[])[], unit: LengthUnit): Result<PartList> {
  const table = tableOf(rows);
  if (!table.ok) return table;
  const { columns } = table.value;
  const issues: Issue[] = [];
  const name = namer();
  const read = table.value.rows.map(({ cells, line }) => {
    const row = reader(columns, cells, line, unit, issues);
    let turn = false;
    for (const head of ['turn', 'grain'] as const) {
      const text = row.cell(head);
      if ((head === 'turn' ? YES : FREE).test(text)) turn = true;
      else if (head === 'turn' && !NO.test(text)) row.wrong('turn', 'this says neither yes nor no', 'yes or no');
    }
    return {
      id: name(row.cell('id') || `row ${line}`),
      ...row.sides(),
      count: row.count(1)!,
      turn,
    };
  });
  if (read.length === 0) issues.push({ path: [], message: 'the list has no parts under its head' });
  if (issues.length > 0) return { ok: false, issues };
  return columns.width === undefined
    ? { ok: true, value: { kind: 'lengths', rows: read.map(({ id, length, count }) => ({ id, length, count })) } }
    : { ok: true, value: { kind: 'panels', rows: read } };
}

/** Stock from rows of cells. An empty count is as many as wanted; without any price every piece of stock costs its length (or area) in metres. */
export function readStockList(rows: readonly (readonly string[])[], unit: LengthUnit): Result<StockList> {
  const table = tableOf(rows);
  if (!table.ok) return table;
  const { columns } = table.value;
  const issues: Issue[] = [];
  const name = namer();
  const read = table.value.rows.map(({ cells, line }) => {
    const row = reader(columns, cells, line, unit, issues);
    const { length, width } = row.sides();
    let cost = columns.width === undefined ? length / 1000 : (length / 1000) * (width / 1000);
    if (columns.cost !== undefined) {
      const text = row.cell('cost');
      // A currency sign or code before or after; a decimal comma; commas or spaces between thousands.
      const bare = text.replace(/^[^\d.,-]+|[^\d.,]+$/g, '').replace(/[\s']/g, '');
      const point = /,\d{1,2}$/.test(bare) ? bare.replace(/\./g, '').replace(',', '.') : bare.replace(/,/g, '');
      cost = point === '' ? Number.NaN : Number(point);
      if (!(Number.isFinite(cost) && cost >= 0)) row.wrong('cost', 'this is not a price', 'a number of zero or more');
    }
    return { id: name(row.cell('id') || `row ${line}`), length, width, cost, count: row.count(null) };
  });
  if (read.length === 0) issues.push({ path: [], message: 'the list has no stock under its head' });
  if (issues.length > 0) return { ok: false, issues };
  return columns.width === undefined
    ? {
        ok: true,
        value: { kind: 'lengths', rows: read.map(({ id, length, cost, count }) => ({ id, length, cost, count })) },
      }
    : { ok: true, value: { kind: 'panels', rows: read } };
}

/** A part list and a stock list as one problem; they must both be of panels or both of lengths. */
export function problemOfLists(
  name: string,
  parts: PartList,
  stock: StockList,
  saw: { readonly kerf: number; readonly trim: number },
) {
  const both = { name, kerf: saw.kerf, trim: saw.trim };
  if (parts.kind === 'panels' && stock.kind === 'panels')
    return { ok: true, value: { ...both, kind: 'panels', stock: stock.rows, parts: parts.rows } } as const;
  if (parts.kind === 'lengths' && stock.kind === 'lengths')
    return { ok: true, value: { ...both, kind: 'lengths', stock: stock.rows, parts: parts.rows } } as const;
  const [has, lacks] = parts.kind === 'panels' ? ['parts', 'stock'] : ['stock', 'parts'];
  return {
    ok: false,
    issues: [{ path: ['width'], message: `the list of ${has} has widths, the list of ${lacks} has none` }],
  } as const;
}

function namer(): (wanted: string) => string {
  const used = new Map<string, number>();
  return (wanted) => {
    const times = (used.get(wanted) ?? 0) + 1;
    used.set(wanted, times);
    if (times === 1) return wanted;
    const next = `${wanted} (${times})`;
    used.set(next, (used.get(next) ?? 0) + 1);
    return next;
  };
}
