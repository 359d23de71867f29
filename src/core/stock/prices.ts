import { FEW, type Note } from '../notes/index.ts';
import type { Stock } from '../plan/index.ts';
import type { Money } from '../quantity/index.ts';
import { stockName } from './items.ts';

/** One thing that can be bought, as one line of a shopping list names it. */
export interface Offer {
  /** Unique among all offers: the stock's id and the place among its sizes. */
  readonly id: string;
  readonly stock: string;
  readonly kind: 'panel' | 'board' | 'pack';
  readonly name: string;
  readonly length?: number;
  readonly width?: number;
  /** For one, before tax. Undefined is not known, never nothing. */
  readonly price?: Money;
  readonly supplier?: string;
  readonly date?: string;
  /** How many can be had; undefined is as many as wanted. */
  readonly count?: number;
}

interface Priced {
  readonly price?: Money | undefined;
  readonly supplier?: string | undefined;
  readonly date?: string | undefined;
  readonly count?: number | undefined;
}
const known = ({ price, supplier, date, count }: Priced) => ({
  ...(price !== undefined && { price }),
  ...(supplier !== undefined && { supplier }),
  ...(date !== undefined && { date }),
  ...(count !== undefined && { count }),
});

/** What the plan says can be bought of one panel, board or pack. */
export function offersOf(stock: Stock, id: string): readonly Offer[] {
  const name = stockName(stock, id);
  const panel = stock.panels.find((p) => p.id === id);
  if (panel)
    return panel.sizes.map((size, i) => ({
      id: `${id}#${i + 1}`,
      stock: id,
      kind: 'panel',
      name,
      length: size.length,
      width: size.width,
      ...known(size),
    }));
  const board = stock.boards.find((b) => b.id === id);
  if (board)
    return board.lengths.map((length, i) => ({
      id: `${id}#${i + 1}`,
      stock: id,
      kind: 'board',
      name,
      length: length.length,
      ...known(length),
    }));
  const pack = stock.packs.find((p) => p.id === id);
  return pack ? [packOffer(stock, pack)] : [];
}

/** A pack may have the name of a panel or board, since names need be unique only among their kind: then it is told apart from its sizes. */
export function packOffer({ panels, boards }: Stock, pack: Stock['packs'][number]): Offer {
  const { id, name = id } = pack;
  const shared = [...panels, ...boards].some((wood) => wood.id === id);
  return { id: shared ? `pack ${id}#1` : `${id}#1`, stock: id, kind: 'pack', name, ...known(pack) };
}

/**
 * Days since 1970-01-01 of a date such as 2026-10-02, in the proleptic Gregorian calendar, without a clock.
 * Counted from 1 March, so that the leap day is the last of its year. Source: ISO 8601 (calendar dates); the algorithm is checked
 * against the platform's own calendar in the tests.
 * @throws RangeError when the text is not such a date
 */
export function dayNumber(date: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (!match) throw new RangeError(`expected a date such as 2026-10-02, got ${date}`);
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** Whole days a price is old; negative for one of the future. Undefined when the plan gives it no date. */
export const ageOf = (offer: Offer, today: string): number | undefined =>
  offer.date === undefined ? undefined : dayNumber(today) - dayNumber(offer.date);

/**
 * Tax on a sum, in whole smallest units, half a unit upwards. Exact: the percentage is taken to four decimals and the sum is
 * worked out in whole numbers.
 */
export function taxOn(net: number, percent: number): Money {
  const rate = BigInt(Math.round(percent * 10_000));
  return Number((BigInt(net) * rate + 500_000n) / 1_000_000n) as Money;
}

/** Of a panel or board, the size it is sold in: `2440 mm × 1220 mm`. */
export const sizeOf = ({ length, width }: Offer, told: (mm: number) => string): string | undefined =>
  length === undefined ? undefined : [length, ...(width === undefined ? [] : [width])].map(told).join(' × ');

/** Notes about the prices of what is really bought: missing, old, of the future, or without a seller. `told` says a length. */
export function priceNotes(
  offers: readonly Offer[],
  stock: Stock,
  today: string,
  told: (mm: number) => string,
): readonly Note[] {
  const nameOf = (offer: Offer): string =>
    offers.filter((other) => other.stock === offer.stock).length > 1 && offer.length !== undefined
      ? `${offer.name} (${sizeOf(offer, told)})`
      : offer.name;
  const missing = offers.filter((offer) => offer.price === undefined);
  const together: readonly Note[] =
    missing.length <= FEW
      ? []
      : [
          {
            id: 'no-prices',
            about: missing[0]!.stock,
            verdict: 'caution',
            title: `No price is known for ${missing.length} things to buy`,
            advice: `${missing.map(nameOf).join(', ')}. The total leaves them out and says so. Ask for the prices and write them, with their dates, in the plan.`,
          },
        ];
  const each = offers.flatMap((offer): readonly Note[] => {
    const notes: Note[] = [];
    const what = nameOf(offer);
    if (offer.price === undefined && missing.length <= FEW)
      notes.push({
        id: `no-price:${offer.id}`,
        about: offer.stock,
        verdict: 'caution',
        title: `No price is known for ${what}`,
        advice: 'The total leaves it out and says so. Ask for the price and write it, with its date, in the plan.',
      });
    const age = ageOf(offer, today);
    if (offer.price !== undefined && age === undefined)
      notes.push({
        id: `undated-price:${offer.id}`,
        about: offer.stock,
        verdict: 'caution',
        title: `The price of ${what} has no date`,
        advice: 'Write the day it was true, so that it can be told when it grows old.',
      });
    if (age !== undefined && (age > stock.stale || age < 0))
      notes.push({
        id: `old-price:${offer.id}`,
        about: offer.stock,
        verdict: 'caution',
        title: age < 0 ? `The price of ${what} is dated in the future` : `The price of ${what} is ${age} days old`,
        advice:
          age < 0
            ? 'Check the date in the plan.'
            : 'Ask again before buying, and write the new price and date in the plan.',
        working: {
          what: 'Age of a price',
          formula: 'age = today − date',
          inputs: [
            { symbol: 'today', name: 'the day of this reckoning', value: today, unit: '' },
            { symbol: 'date', name: 'the day the price was true', value: offer.date!, unit: '' },
          ],
          result: { value: age, unit: 'd' },
          limit: { value: stock.stale, unit: 'd', why: "the plan's own `stale`" },
          source: 'common practice',
          assumes: [],
        },
      });
    return notes;
  });
  return [...together, ...each];
}
