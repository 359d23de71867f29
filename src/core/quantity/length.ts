import { fail, type Issue, nearest, ok, type Result } from '../issue/index.ts';
import { numeralOf, plainText, readAmount } from './amount.ts';
import { atLeast, type Exact, exact, isWhole, plus, rounded, times } from './exact.ts';
import { fromTicks, type Mm, TICKS_PER_MM } from './units.ts';

/** How lengths are written where no unit stands beside them: in inches with `ft-in` and `in`. */
export type LengthUnit = 'ft-in' | 'in' | 'mm' | 'cm' | 'm';

/** 127 · 128: an inch is 25.4 mm exactly. Source: NIST SP 811 (2008), appendix B.8, "inch". */
const TICKS_PER_INCH = 16256;
const TICKS: Readonly<Record<'ft' | 'in' | 'm' | 'cm' | 'mm', bigint>> = {
  ft: BigInt(12 * TICKS_PER_INCH),
  in: BigInt(TICKS_PER_INCH),
  m: BigInt(1000 * TICKS_PER_MM),
  cm: BigInt(10 * TICKS_PER_MM),
  mm: BigInt(TICKS_PER_MM),
};
type Name = keyof typeof TICKS;
const NAMES: Readonly<Record<string, Name>> = {
  "'": 'ft',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  '"': 'in',
  in: 'in',
  inch: 'in',
  inches: 'in',
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  cm: 'cm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
};
/** What follows a unit in a compound length, and how many of it make one of the unit before. */
const SMALLER: Readonly<Partial<Record<Name, Readonly<Partial<Record<Name, number>>>>>> = {
  ft: { in: 12 },
  m: { cm: 100, mm: 1000 },
  cm: { mm: 10 },
};
/** Ten kilometres: beyond any room, and far inside what whole ticks can hold. */
const LONGEST = 10_000_000n * BigInt(TICKS_PER_MM);
const MOST_LETTERS = 60;

interface Term {
  readonly amount: Exact;
  readonly text: string;
  readonly unit?: Name;
}

/**
 * Reads a length as a maker writes it: `3' 4-1/2"`, `3'4½`, `3 ft 4.5 in`, `40 1/2`, `⅝"`, `1029 mm`, `102,9 cm`, `1 m 20 cm`.
 * A bare number, and a number of the file, is in `unit` (inches with `ft-in`). A sign stands before the whole.
 *
 * The value is exact: decimals and fractions are added as ratios and kept to the nearest tick of 1/640 mm, which holds every
 * tenth of a millimetre and every 1/128 inch. Refused, with what would do instead: what can be read in two ways (`3 4`, `5-6 mm`,
 * `1,029 mm`, `401/2`), and what is more likely a slip than a length (`3' 14"`, `3.5' 6"`, `1 m 120 cm`, more than 10 km).
 */
export function parseLength(written: string | number, { unit }: { readonly unit: LengthUnit }): Result<Mm> {
  const text = plainText(typeof written === 'number' ? (numeralOf(written) ?? '') : written);
  const refuse = (message: string, more: Partial<Issue> = {}) =>
    fail({
      path: [],
      message,
      found: typeof written === 'number' ? `${written}` : shown(written),
      expected: `a length such as ${EXAMPLES[unit]}`,
      ...more,
    });
  if (text === '') return refuse(typeof written === 'number' ? 'this is no length' : 'nothing is written here');
  if (text.length > MOST_LETTERS) return refuse('this is too long for a length');

  const sign = /^[-+] ?/.exec(text)?.[0] ?? '';
  const terms: Term[] = [];
  let rest = text.slice(sign.length);
  while (rest !== '') {
    const read = readAmount(rest);
    if (!read) return refuse(`no number is found in '${rest}'`);
    if ('trouble' in read) return refuse(read.trouble, read.expected === undefined ? {} : { expected: read.expected });
    rest = read.rest.trimStart();
    const word = /^(?:['"]|\p{L}[\p{L}.]*)/u.exec(rest)?.[0];
    if (word === undefined) {
      terms.push({ amount: read.value, text: read.text });
      if (rest.startsWith('-')) return refuse(`${text} could be a range or a subtraction`);
      if (rest !== '' && !/^\d|^[¼-¾⅐-⅞]/.test(rest)) return refuse(`'${rest}' is not understood`);
      continue;
    }
    const name = NAMES[word.toLowerCase().replace(/\.$/, '')];
    if (name === undefined) {
      const near =
        word.length < 2
          ? undefined
          : nearest(
              word,
              Object.keys(NAMES).filter((n) => /^\w/.test(n)),
            );
      return refuse(`'${word}' is not a unit of length`, {
        expected: 'ft, in, mm, cm or m',
        ...(near === undefined ? {} : { nearest: near }),
      });
    }
    terms.push({ amount: read.value, text: read.text, unit: name });
    const gap = rest.slice(word.length);
    rest = gap.trimStart();
    if (rest.startsWith('-')) {
      if (name !== 'ft') return refuse(`${text} could be a range or a subtraction`);
      if (/^ -\S/.test(gap)) return refuse(`the '-' in ${text} could be a minus`, { expected: `3'-4" or 3' 4"` });
      rest = rest.slice(1).trimStart();
      if (rest === '') return refuse(`nothing follows the '-'`);
    } else if (rest.startsWith(', ')) {
      rest = rest.slice(2);
    }
  }

  const sum = addUp(terms, unit);
  if (typeof sum === 'string') return refuse(sum);
  if ('message' in sum) return refuse(sum.message, { expected: sum.expected });
  const ticks = rounded(sum);
  if (ticks > LONGEST) return refuse('this is more than 10 km');
  return ok(fromTicks(ticks === 0n ? 0 : Number(sign.startsWith('-') ? -ticks : ticks)));
}

/** Terms of one compound length, in ticks; or why they do not make one. */
function addUp(terms: readonly Term[], bare: LengthUnit): Exact | string | { message: string; expected: string } {
  const [first] = terms;
  if (!first) return 'there is only a sign here';
  if (terms.length === 1) return inTicks(first.amount, first.unit ?? (bare === 'ft-in' ? 'in' : bare));
  let sum = exact(0);
  for (let i = 0; i < terms.length; i++) {
    const term = terms[i]!;
    const before = terms[i - 1];
    const unit = term.unit ?? (before?.unit === 'ft' && i === terms.length - 1 ? 'in' : undefined);
    if (unit === undefined) {
      const next = terms[i + 1];
      const [a, b] = before?.unit ? [before, term] : [term, next ?? term];
      if (a.unit) return `'${b.text}' after ${a.text} ${a.unit} has no unit`;
      return {
        message: `'${a.text}' and '${b.text}' stand side by side without a unit`,
        expected: `${a.text}' ${b.text}" for feet and inches, or one number`,
      };
    }
    if (before?.unit) {
      const most = SMALLER[before.unit]?.[unit];
      if (most === undefined) return `${unit} cannot follow ${before.unit}`;
      if (!isWhole(before.amount)) return `${before.text} ${before.unit} is not whole, yet ${unit} follow`;
      if (atLeast(term.amount, exact(most)))
        return {
          message: `${term.text} ${unit} after ${before.unit} is ${most} or more, a slip of the pen more often than not`,
          expected: `less than ${most} ${unit}, or the whole length in ${unit}`,
        };
    }
    sum = plus(sum, inTicks(term.amount, unit));
  }
  return sum;
}

const inTicks = (amount: Exact, unit: Name): Exact => times(amount, exact(TICKS[unit]));
const shown = (text: string): string => `'${text.length > 40 ? `${text.slice(0, 40)}…` : text}'`;

const EXAMPLES: Readonly<Record<LengthUnit, string>> = {
  'ft-in': `3' 4-1/2", 40 1/2 or 1029 mm`,
  in: `40-1/2, 40.5 or 1029 mm`,
  mm: `1029, 102.9 cm or 40-1/2"`,
  cm: `102.9, 1029 mm or 40-1/2"`,
  m: `1.029, 1029 mm or 40-1/2"`,
};

/** The finest fraction of an inch to print. */
export type InchFraction = `1/${1 | 2 | 4 | 8 | 16 | 32 | 64 | 128}`;

export interface LengthFormat {
  readonly unit: LengthUnit;
  /** With inches; 1/32 when neither this nor `decimals` is given. */
  readonly fraction?: string | undefined;
  /** At most so many; trailing zeros are left off. In metric when left out: 1 in mm, 2 in cm, 3 in m. */
  readonly decimals?: number | undefined;
  /** For print: true primes, minus sign and fraction slash (U+2044) in place of the characters of a keyboard. */
  readonly glyphs?: boolean | undefined;
  /** The number alone; its unit is told elsewhere. Feet keep their mark. */
  readonly bare?: boolean | undefined;
}

const DECIMALS: Readonly<Record<LengthUnit, number>> = { 'ft-in': 3, in: 3, mm: 1, cm: 2, m: 3 };

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
  if (unit === 'ft-in' || unit === 'in') {
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
  const count = counted(ticks, 10 ** places, Number(TICKS[unit]));
  return finish(`${fixed(count, places)}${bare ? '' : `${glyphs ? '\u00a0' : ' '}${unit}`}`, count === 0);
}

/** A length kept as ticks / 640 is a whole number of ticks again, whatever the division did to its last bit. */
function settled(ticks: number): number {
  const whole = Math.round(ticks);
  return Math.abs(ticks - whole) < 1e-6 ? whole : ticks;
}

/** Of a grid finer than a tick, what is printed is the tick: it is what would be kept. */
const counted = (ticks: number, perUnit: number, ticksPerUnit: number): number =>
  Math.round(((perUnit > ticksPerUnit ? Math.round(ticks) : ticks) * perUnit) / ticksPerUnit);

function denominator(fraction = '1/32'): number {
  const match = /^1\/(1|2|4|8|16|32|64|128)$/.exec(fraction);
  if (!match) throw new RangeError(`no fraction of an inch to print: ${fraction}`);
  return Number(match[1]);
}

function digits(decimals: number | undefined, unit: LengthUnit): number {
  const places = decimals ?? DECIMALS[unit];
  if (!(Number.isInteger(places) && places >= 0 && places <= 6)) throw new RangeError(`${places} decimals`);
  return places;
}

/** 10287 with 1 decimal: 1028.7. */
function fixed(count: number, places: number): string {
  const text = String(count).padStart(places + 1, '0');
  const whole = text.slice(0, text.length - places);
  const part = text.slice(text.length - places).replace(/0+$/, '');
  return places === 0 || part === '' ? whole : `${whole}.${part}`;
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
