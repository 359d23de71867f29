import { type Exact, exact, plus } from './exact.ts';

/** A number written by a person, read exactly; or why it cannot be read for sure. */
export type Amount =
  | { readonly value: Exact; readonly text: string; readonly rest: string }
  | { readonly trouble: string; readonly expected?: string };

/** Fractions of one character. */
export const VULGAR: Readonly<Record<string, readonly [number, number]>> = {
  '¼': [1, 4],
  '½': [1, 2],
  '¾': [3, 4],
  '⅐': [1, 7],
  '⅑': [1, 9],
  '⅒': [1, 10],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '⅕': [1, 5],
  '⅖': [2, 5],
  '⅗': [3, 5],
  '⅘': [4, 5],
  '⅙': [1, 6],
  '⅚': [5, 6],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
};
const SORT = `[${Object.keys(VULGAR).join('')}]`;
const MIXED = new RegExp(`^(\\d+)( ?-? ?)(?:(\\d+) ?([/⁄]) ?(\\d+)|(${SORT}))`);
const FRACTION = new RegExp(`^(?:(\\d+) ?([/⁄]) ?(\\d+)|(${SORT}))`);
const NUMERAL = /^[\d.,]+/;

/**
 * What people type, in the characters of the grammar: every space is one plain space, every hyphen and minus `-`, every
 * prime and single quote `'`, every double prime, double quote or pair of single quotes `"`. A word joiner (U+2060) parts nothing.
 */
export function plainText(text: string): string {
  return text
    .replace(/\u2060/g, '')
    .replace(/[\s\u200b]+/gu, ' ')
    .replace(/[\u2010-\u2015\u2212\ufe58\ufe63\uff0d]/gu, '-')
    .replace(/[\u2018\u2019\u201b\u2032\u02b9\u02bc\u00b4`\uff07]/gu, "'")
    .replace(/[\u201c-\u201f\u2033\u02ba\u02dd\uff02]|''/gu, '"')
    .trim();
}

/**
 * Reads the unsigned number at the start of plain text: `40`, `40.5`, `40,5`, `1,029.5`, `1.029,5`, `40 1/2`, `40-1/2`, `40½`, `5/8`.
 * A lone point always parts the decimals. A lone comma parts them too, except before exactly three digits, where it could as
 * well part thousands. Undefined when no number begins here.
 */
export function readAmount(text: string): Amount | undefined {
  const mixed = MIXED.exec(text);
  if (mixed) {
    const [all, whole, link, over, , under, sort] = mixed as unknown as [
      string,
      string,
      string,
      string,
      string,
      string,
      string,
    ];
    const fraction = sort ? exact(...VULGAR[sort]!) : proper(over, under);
    if (link.includes('-') && link !== '-')
      return trouble(
        `${all} could be a mixed number or a subtraction`,
        `it without spaces round the hyphen: ${whole}-${sort ?? `${over}/${under}`}`,
      );
    if (!(link === '' && !sort)) {
      if ('trouble' in fraction) return fraction;
      if (fraction.over >= fraction.under)
        return trouble(`the fraction in ${all} is not less than one`, 'a whole number and a fraction less than one');
      return tail({ value: plus(exact(BigInt(whole)), fraction), text: all, rest: text.slice(all.length) });
    }
  }
  const alone = FRACTION.exec(text);
  if (alone) {
    const [all, over, , under, sort] = alone as unknown as [string, string, string, string, string];
    const fraction = sort ? exact(...VULGAR[sort]!) : proper(over, under);
    if ('trouble' in fraction) return fraction;
    const run = sort ? undefined : runTogether(over, under);
    if (run) return trouble(`${all} could be the fraction, or ${run} run together`, `${run}, or the decimal`);
    return tail({ value: fraction, text: all, rest: text.slice(all.length) });
  }
  const numeral = NUMERAL.exec(text)?.[0];
  if (numeral === undefined) return undefined;
  const read = readNumeral(numeral);
  return 'trouble' in read ? read : tail({ value: read, text: numeral, rest: text.slice(numeral.length) });
}

/** A number must not run on into another without a unit or a space: `1/2/3`, `½½`, `40½5`. */
function tail(amount: { value: Exact; text: string; rest: string }): Amount {
  return /^(?:[\d.,/⁄]|[¼-¾⅐-⅞])/.test(amount.rest) && !/^, /.test(amount.rest)
    ? trouble(`'${amount.text}${amount.rest}' is not one number`)
    : { ...amount };
}

const trouble = (message: string, expected?: string): { trouble: string; expected?: string } =>
  expected === undefined ? { trouble: message } : { trouble: message, expected };

function proper(over: string, under: string): Exact | { trouble: string; expected?: string } {
  return BigInt(under) === 0n
    ? trouble(`${over}/${under} is a fraction over nothing`)
    : exact(BigInt(over), BigInt(under));
}

/** `111/16` is read as 1-11/16 by some and as 111 sixteenths by others; `9/8` is only itself. */
function runTogether(over: string, under: string): string | undefined {
  if (BigInt(over) < BigInt(under)) return undefined;
  for (let cut = 1; cut < over.length; cut++) {
    const top = over.slice(cut);
    if (!top.startsWith('0') && BigInt(top) < BigInt(under)) return `${over.slice(0, cut)}-${top}/${under}`;
  }
  return undefined;
}

/** Digits with their points and commas. */
export function readNumeral(numeral: string): Exact | { trouble: string; expected?: string } {
  if (/^\d+$/.test(numeral)) return exact(BigInt(numeral));
  if (/^\d*\.\d+$/.test(numeral)) return decimal(numeral, '.');
  if (/^[1-9]\d{0,2},\d{3}$/.test(numeral)) {
    const readings = [numeral.replace(',', ''), numeral.replace(',', '.')];
    return trouble(
      `${numeral} could be ${readings[0]} or ${readings[1]}`,
      `${readings[0]} or ${readings[1]}, written without the comma`,
    );
  }
  if (/^\d*,\d+$/.test(numeral)) return decimal(numeral, ',');
  if (/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/.test(numeral)) return decimal(numeral.replaceAll(',', ''), '.');
  if (/^[1-9]\d{0,2}(?:\.\d{3})+,\d+$/.test(numeral)) return decimal(numeral.replaceAll('.', ''), ',');
  return trouble(`'${numeral}' is not a number`, 'a number such as 40, 40.5 or 40,5');
}

function decimal(numeral: string, point: '.' | ','): Exact {
  const [whole = '', part = ''] = numeral.split(point);
  return exact(BigInt(`${whole}${part}` || '0'), 10n ** BigInt(part.length));
}

/** A number of the file (not text) in the digits of the shortest decimal that means it. Undefined when it has none. */
export function numeralOf(value: number): string | undefined {
  if (!(Math.abs(value) < 1e21)) return undefined;
  const text = String(value);
  return text.includes('e') ? value.toFixed(12) : text;
}
