import { fail, ok, type Result } from '../issue/index.ts';
import { type Grammar, readCompound } from './compound.ts';
import { fixed } from './decimal.ts';
import { exact, rounded } from './exact.ts';
import { fromTicks, MM_PER_INCH, type Mm, TICKS_PER_MM } from './units.ts';

/** How lengths are written where no unit stands beside them: in inches with `ft-in` and `in`. */
export const LENGTH_UNITS = ['ft-in', 'in', 'mm', 'cm', 'm'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];
export const isInches = (unit: string): unit is 'ft-in' | 'in' => unit === 'ft-in' || unit === 'in';

/** 127 · 128: an inch is 25.4 mm exactly. Source: NIST SP 811 (2008), appendix B.8, "inch". */
const TICKS_PER_INCH = 16256;
type Name = 'ft' | 'in' | 'm' | 'cm' | 'mm';
const TICKS: Readonly<Record<Name, number>> = {
  ft: 12 * TICKS_PER_INCH,
  in: TICKS_PER_INCH,
  m: 1000 * TICKS_PER_MM,
  cm: 10 * TICKS_PER_MM,
  mm: TICKS_PER_MM,
};
const spelled = <U extends string>(unit: U, ...names: string[]): readonly (readonly [string, U])[] =>
  names.map((name) => [name, unit] as const);
const GRAMMAR: Grammar<Name> = {
  what: 'length',
  factor: {
    ft: exact(TICKS.ft),
    in: exact(TICKS.in),
    m: exact(TICKS.m),
    cm: exact(TICKS.cm),
    mm: exact(TICKS.mm),
  },
  names: Object.fromEntries([
    ...spelled('ft', "'", 'ft', 'foot', 'feet'),
    ...spelled('in', '"', 'in', 'inch', 'inches'),
    ...spelled('mm', 'mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
    ...spelled('cm', 'cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
    ...spelled('m', 'm', 'metre', 'metres', 'meter', 'meters'),
  ]),
  smaller: { ft: { in: 12 }, m: { cm: 100, mm: 1000 }, cm: { mm: 10 } },
  implied: { ft: 'in' },
  hyphened: ['ft'],
  units: 'ft, in, mm, cm or m',
};
/** Ten kilometres: beyond any room, and far inside what whole ticks can hold. */
const LONGEST = 10_000_000 * TICKS_PER_MM;

/**
 * Reads a length as a maker writes it: `3' 4-1/2"`, `3'4½`, `3 ft 4.5 in`, `40 1/2`, `⅝"`, `1029 mm`, `102,9 cm`, `1 m 20 cm`.
 * A bare number, and a number of the file, is in `unit` (inches with `ft-in`). A sign stands before the whole.
 *
 * The value is exact: decimals and fractions are added as ratios and kept to the nearest tick of 1/640 mm, which holds every
 * tenth of a millimetre and every 1/128 inch. Refused, with what would do instead: what can be read in two ways (`3 4`, `5-6 mm`,
 * `1,029 mm`, `401/2`), and what is more likely a slip than a length (`3' 14"`, `3.5' 6"`, `1 m 120 cm`, more than 10 km).
 */
export function parseLength(written: string | number, { unit }: { readonly unit: LengthUnit }): Result<Mm> {
  const expected = `a length such as ${EXAMPLES[unit]}`;
  const read = readCompound(written, GRAMMAR, unit === 'ft-in' ? 'in' : unit, expected);
  if (!read.ok) return read;
  const ticks = Number(rounded(read.value));
  if (Math.abs(ticks) > LONGEST)
    return fail({ path: [], message: 'this is more than 10 km', found: `${written}`, expected });
  return ok(fromTicks(ticks));
}

const EXAMPLES: Readonly<Record<LengthUnit, string>> = {
  'ft-in': `3' 4-1/2", 40 1/2 or 1029 mm`,
  in: `40-1/2, 40.5 or 1029 mm`,
  mm: `1029, 102.9 cm or 40-1/2"`,
  cm: `102.9, 1029 mm or 40-1/2"`,
  m: `1.029, 1029 mm or 40-1/2"`,
};

export interface LengthFormat {
  readonly unit: LengthUnit;
  /** With inches; 1/32 when neither this nor `decimals` is given. */
  readonly fraction?: string | undefined;
  /** At most so many; trailing zeros are left off. When left out, `DECIMALS`. */
  readonly decimals?: number | undefined;
  /** For print: true primes, minus sign and fraction slash (U+2044) in place of the characters of a keyboard. */
  readonly glyphs?: boolean | undefined;
  /** The number alone; its unit is told elsewhere. Feet keep their mark. */
  readonly bare?: boolean | undefined;
}

/** Decimals that hold a tenth of a millimetre, which a saw and a gauge can keep, or a thousandth of an inch. */
export const DECIMALS: Readonly<Record<LengthUnit, number>> = { 'ft-in': 3, in: 3, mm: 1, cm: 2, m: 4 };

/**
 * Prints a length: `3' 4-1/2"`, `40-1/2"`, `40.5"`, `1028.7 mm`. What is shown is rounded to the nearest of the printed grid, a
 * half away from zero; a length on that grid reads back as itself.
 * @throws RangeError on a length that is not finite, or a fraction or number of decimals there is not.
 */
export function formatLength(length: number, format: LengthFormat): string {
  const { unit, glyphs = false, bare = false } = format;
  if (!Number.isFinite(length)) throw new RangeError(`expected a finite length, got ${length} mm`);
  const ticks = settled(Math.abs(length) * TICKS_PER_MM);
  const minus = length < 0 ? (glyphs ? '−' : '-') : '';
  const finish = (text: string, isZero: boolean) => (isZero ? text : minus + text);
  if (isInches(unit)) {
    const foot = glyphs ? '′' : "'";
    const mark = bare ? '' : glyphs ? '″' : '"';
    const perInch =
      format.fraction === undefined && format.decimals !== undefined ? undefined : denominator(format.fraction);
    const grid = perInch ?? 10 ** digits(format.decimals, unit);
    const count = counted(ticks, grid, TICKS_PER_INCH);
    const perFoot = 12 * grid;
    const feet = unit === 'ft-in' ? Math.floor(count / perFoot) : 0;
    const inches =
      perInch === undefined
        ? fixed(count - feet * perFoot, digits(format.decimals, unit))
        : mixed(count - feet * perFoot, perInch, glyphs);
    return finish(`${feet > 0 ? `${feet}${foot} ` : ''}${inches}${mark}`, count === 0);
  }
  const places = digits(format.decimals, unit);
  const count = counted(ticks, 10 ** places, TICKS[unit]);
  return finish(`${fixed(count, places)}${bare ? '' : `${glyphs ? '\u00a0' : ' '}${unit}`}`, count === 0);
}

/**
 * A size that hardware is sold by: inches without feet, or millimetres. What only the other system says in round figures is sold in that
 * one: a plug of 10 mm is no plug of 13/32 in.
 */
export function formatSold(length: number, inches: boolean): string {
  const ticks = settled(Math.abs(length) * TICKS_PER_MM);
  const own = inches ? 'in' : 'mm';
  const isWhole = (steps: number): boolean => Math.abs(steps - Math.round(steps)) < 1e-6;
  const round = { in: isWhole((ticks * 32) / TICKS_PER_INCH), mm: isWhole((ticks * 10) / TICKS_PER_MM) };
  if (!round[own]) {
    if (inches && round.mm) return formatLength(length, { unit: 'mm' });
    if (!inches && round.in) return formatLength(length, { unit: 'in' });
  }
  return formatLength(length, { unit: own });
}

/** A round figure is one of these, in or mm, the roundest first. */
const ROUND = { inches: [12, 1, 0.5, 0.25, 0.125, 0.0625].map((n) => n * MM_PER_INCH), metric: [100, 10, 5, 1, 0.5] };
/** As far as a figure of practice is moved to be round. */
const MOVED = 0.03;

/**
 * A distance that the trade keeps at least, or trusts at most, as it is said in the other system: the roundest figure on its safe side.
 * 50 mm that are kept are 2 in, 3 m that are trusted 9 ft 10 in.
 */
export function roundly(length: number, keep: 'at least' | 'at most', unit: LengthUnit): number {
  const way = keep === 'at least' ? Math.ceil : Math.floor;
  const slack = keep === 'at least' ? -1e-6 : 1e-6;
  for (const step of isInches(unit) ? ROUND.inches : ROUND.metric) {
    const round = way(length / step + slack) * step;
    if (Math.abs(round - length) <= MOVED * length) return round;
  }
  return length;
}

/** The step of the grid that a length is printed on, mm. */
export function printedStep({ unit, fraction, decimals }: LengthFormat): number {
  return isInches(unit)
    ? MM_PER_INCH / denominator(fraction)
    : TICKS[unit] / TICKS_PER_MM / 10 ** digits(decimals, unit);
}

/** A length kept as ticks / 640 is a whole number of ticks again, whatever the division did to its last bit. */
function settled(ticks: number): number {
  const whole = Math.round(ticks);
  return Math.abs(ticks - whole) < 1e-6 ? whole : ticks;
}

/** Of a grid finer than a tick, what is printed is the tick: it is what would be kept. */
const counted = (ticks: number, perUnit: number, ticksPerUnit: number): number =>
  Math.round(((perUnit > ticksPerUnit ? Math.round(ticks) : ticks) * perUnit) / ticksPerUnit);

/** Of the finest fraction of an inch that is printed: 1/32 where nothing is said. RangeError for what is no such fraction. */
export function denominator(fraction = '1/32'): number {
  const match = /^1\/(1|2|4|8|16|32|64|128)$/.exec(fraction);
  if (!match) throw new RangeError(`no fraction of an inch to print: ${fraction}`);
  return Number(match[1]);
}

function digits(decimals: number | undefined, unit: LengthUnit): number {
  const places = decimals ?? DECIMALS[unit];
  if (!(Number.isInteger(places) && places >= 0 && places <= 6)) throw new RangeError(`${places} decimals`);
  return places;
}

/** 81 halves: 40-1/2. */
function mixed(count: number, under: number, glyphs: boolean): string {
  const whole = Math.floor(count / under);
  let over = count % under;
  if (over === 0) return String(whole);
  let reduced = under;
  while (over % 2 === 0) [over, reduced] = [over / 2, reduced / 2];
  const fraction = `${over}${glyphs ? '⁄' : '/'}${reduced}`;
  return whole === 0 ? fraction : `${whole}${glyphs ? '\u2009' : '-'}${fraction}`;
}
