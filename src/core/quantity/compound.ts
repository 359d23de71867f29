import { fail, type Issue, nearest, ok, type Result } from '../issue/index.ts';
import { numeralOf, plainText, readAmount } from './amount.ts';
import { atLeast, type Exact, exact, isWhole, plus, times } from './exact.ts';

/** How quantities of one kind are written: one number with a unit, or a few of falling size (`3' 4"`, `1 m 20 cm`, `2 lb 4 oz`). */
export interface Grammar<U extends string> {
  /** `length`, as in "not a unit of length". */
  readonly what: string;
  readonly factor: Readonly<Record<U, Exact>>;
  /** Every spelling in lower case, without the full stop of an abbreviation. */
  readonly names: Readonly<Record<string, U>>;
  /** What may follow a unit, and how many of it make one of the unit before. */
  readonly smaller: Readonly<Partial<Record<U, Readonly<Partial<Record<U, number>>>>>>;
  /** What a last bare number is in after this unit, where nobody doubts it: inches after feet. */
  readonly implied?: Readonly<Partial<Record<U, U>>>;
  /** Units after which a hyphen parts the terms instead of taking away: `3'-4"`. */
  readonly hyphened?: readonly U[];
  /** The units that are accepted, for a person. */
  readonly units: string;
}

interface Term<U> {
  readonly amount: Exact;
  readonly text: string;
  readonly unit?: U;
}

const MOST_LETTERS = 60;
const quoted = (text: string): string => `'${text.length > 40 ? `${text.slice(0, 40)}…` : text}'`;

/**
 * Reads one quantity exactly, in the unit whose factor is one; a bare number, and a number of the file, is in `bare`. What can
 * be read in two ways, or is more likely a slip, is refused with the reason; `example` says what would do.
 */
export function readCompound<U extends string>(
  written: string | number,
  grammar: Grammar<U>,
  bare: U,
  example: string,
): Result<Exact> {
  const text = plainText(typeof written === 'number' ? (numeralOf(written) ?? '') : written);
  const refuse = (message: string, more: Partial<Issue> = {}) =>
    fail({
      path: [],
      message,
      found: typeof written === 'number' ? `${written}` : quoted(written),
      expected: example,
      ...more,
    });
  if (text === '')
    return refuse(typeof written === 'number' ? `this is no ${grammar.what}` : 'nothing is written here');
  if (text.length > MOST_LETTERS) return refuse(`this is too long for a ${grammar.what}`);

  const sign = /^[-+] ?/.exec(text)?.[0] ?? '';
  const terms: Term<U>[] = [];
  let rest = text.slice(sign.length);
  while (rest !== '') {
    const read = readAmount(rest);
    if (!read) return refuse(`no number is found in '${rest}'`);
    if ('trouble' in read) return refuse(read.trouble, read.expected === undefined ? {} : { expected: read.expected });
    rest = read.rest.trimStart();
    const unit = unitAt(rest, grammar);
    if (!unit) {
      const word = /^(?:['"]|\p{L}[^\d\s]*)/u.exec(rest)?.[0];
      if (word !== undefined) {
        const near =
          word.length < 2
            ? undefined
            : nearest(
                word,
                Object.keys(grammar.names).filter((n) => /^\w/.test(n)),
              );
        return refuse(`'${word}' is not a unit of ${grammar.what}`, {
          expected: grammar.units,
          ...(near === undefined ? {} : { nearest: near }),
        });
      }
      terms.push({ amount: read.value, text: read.text });
      if (rest.startsWith('-')) return refuse(`${text} could be a range or a subtraction`);
      if (rest !== '' && !/^[\d¼-¾⅐-⅞]/.test(rest)) return refuse(`'${rest}' is not understood`);
      continue;
    }
    terms.push({ amount: read.value, text: read.text, unit: unit.unit });
    const gap = rest.slice(unit.letters);
    rest = gap.trimStart();
    if (rest.startsWith('-')) {
      if (!grammar.hyphened?.includes(unit.unit)) return refuse(`${text} could be a range or a subtraction`);
      if (/^ -\S/.test(gap)) return refuse(`the '-' in ${text} could be a minus`, { expected: `3'-4" or 3' 4"` });
      rest = rest.slice(1).trimStart();
      if (rest === '') return refuse(`nothing follows the '-'`);
    } else if (rest.startsWith(', ')) {
      rest = rest.slice(2);
    }
  }

  const sum = addUp(terms, grammar, bare);
  if (typeof sum === 'string') return refuse(sum);
  if ('message' in sum) return refuse(sum.message, { expected: sum.expected });
  return ok(sign.startsWith('-') ? times(sum, exact(-1)) : sum);
}

/** The unit at the start of the text, by its longest spelling. */
function unitAt<U extends string>(text: string, { names }: Grammar<U>): { unit: U; letters: number } | undefined {
  const lower = text.toLowerCase();
  let best: string | undefined;
  for (const name of Object.keys(names))
    if (lower.startsWith(name) && name.length > (best?.length ?? 0) && endsThere(lower, name)) best = name;
  if (best === undefined) return undefined;
  return { unit: names[best]!, letters: best.length + (/\w$/.test(best) && lower[best.length] === '.' ? 1 : 0) };
}
const endsThere = (text: string, name: string): boolean =>
  !/\p{L}$/u.test(name) || !/^[\p{L}^²³]/u.test(text.slice(name.length));

/** Terms of one compound quantity, added; or why they do not make one. */
function addUp<U extends string>(
  terms: readonly Term<U>[],
  grammar: Grammar<U>,
  bare: U,
): Exact | string | { message: string; expected: string } {
  const [first] = terms;
  if (!first) return 'there is only a sign here';
  if (terms.length === 1) return times(first.amount, grammar.factor[first.unit ?? bare]);
  let sum = exact(0);
  for (let i = 0; i < terms.length; i++) {
    const term = terms[i]!;
    const before = terms[i - 1];
    const implied = before?.unit && i === terms.length - 1 ? grammar.implied?.[before.unit] : undefined;
    const unit = term.unit ?? implied;
    if (unit === undefined) {
      if (before?.unit) return `'${term.text}' after ${before.text} ${before.unit} has no unit`;
      const next = terms[i + 1]!;
      const thousands = `${term.text}${terms
        .slice(i + 1)
        .map((t) => t.text)
        .join('')}`;
      if (/^[1-9]\d{0,2}$/.test(term.text) && terms.slice(i + 1).every((t) => /^\d{3}$/.test(t.text)))
        return {
          message: `'${term.text}' and '${next.text}' stand side by side, as two numbers or as thousands`,
          expected: `${thousands} without the space, if that is meant`,
        };
      return {
        message: `'${term.text}' and '${next.text}' stand side by side without a unit`,
        expected: grammar.hyphened
          ? `${term.text}' ${next.text}" for feet and inches, or one number`
          : `one number, or a unit beside each`,
      };
    }
    if (before?.unit) {
      const most = grammar.smaller[before.unit]?.[unit];
      if (most === undefined) return `${unit} cannot follow ${before.unit}`;
      if (!isWhole(before.amount)) return `${before.text} ${before.unit} is not whole, yet ${unit} follow`;
      if (atLeast(term.amount, exact(most)))
        return {
          message: `${term.text} ${unit} after ${before.unit} is ${most} or more, a slip of the pen more often than not`,
          expected: `less than ${most} ${unit}, or the whole ${grammar.what} in ${unit}`,
        };
    }
    sum = plus(sum, times(term.amount, grammar.factor[unit]));
  }
  return sum;
}
