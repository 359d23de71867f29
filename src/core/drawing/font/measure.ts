import { UNBROKEN_SPACE } from '../../quantity/index.ts';
import { REGULAR, SEMIBOLD } from './widths.ts';

/** The letter under its accents: told apart from it only where its width is another. */
export const bareOf = (code: number): number => String.fromCodePoint(code).normalize('NFD').codePointAt(0)!;

const regular = { ...REGULAR, widths: new Map<number, number>() };
const semibold = { ...SEMIBOLD, widths: new Map<number, number>() };
const more = SEMIBOLD.more.split(',').values();
for (const run of REGULAR.runs.split(' ')) {
  const [start, list] = run.split(':') as [string, string];
  let code = Number.parseInt(start, 16);
  for (const told of list.split(',')) {
    const [own, wider] = told === '' ? [] : [Number(told), Number(more.next().value)];
    regular.widths.set(code, own ?? regular.widths.get(bareOf(code))!);
    semibold.widths.set(code, own === undefined ? semibold.widths.get(bareOf(code))! : own + wider!);
    code++;
  }
}

/** Of a character the font lacks: about as wide as its empty box. */
const UNKNOWN = 653;

/** The size the font is set at (its em, in mm) for capitals of a height in mm. */
export const emOf = (height: number, bold = false): number => (height * 1000) / (bold ? semibold : regular).capHeight;

/**
 * Width in mm of a line of text whose capitals are `height` mm high, without kerning, which only ever draws letters a little
 * closer. Digits round a fraction bar (U+2044) count in the small sizes they are set in.
 */
export function textWidth(text: string, height: number, bold = false): number {
  const face = bold ? semibold : regular;
  let thousandths = 0;
  const fractions = text.includes('⁄') ? fractionDigits(text) : undefined;
  let index = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0)!;
    if (fractions?.has(index)) thousandths += letter === '⁄' ? face.fractionBar : face.fractionDigit;
    else thousandths += face.widths.get(code) ?? UNKNOWN;
    index += letter.length;
  }
  return (thousandths * height) / face.capHeight;
}

/** Where the digits and the bar of each fraction stand in a text. */
function fractionDigits(text: string): ReadonlySet<number> {
  const places = new Set<number>();
  for (const match of text.matchAll(/\d+⁄\d+/g)) for (let i = 0; i < match[0].length; i++) places.add(match.index + i);
  return places;
}

/** Can the font draw every letter of it? */
export const isDrawable = (text: string): boolean => [...text].every((l) => regular.widths.has(l.codePointAt(0)!));

/** `3/16` as a real fraction: U+2044 between digits, which the font then sets small. */
export const withFractions = (text: string): string => text.replace(/(\d)\/(\d)/g, '$1⁄$2');

/**
 * Where a line may end. A thin or a no-break space holds its neighbours together: 7 1⁄32 is one word. So does a common one within a length
 * of feet and inches, and before a unit.
 */
const GAP = new RegExp(`(?!${UNBROKEN_SPACE})[ \\t\\r]+`, 'u');

/** Breaks a text into lines no wider than `width`; a word too long for a line is broken where it must be. */
export function wrapText(text: string, height: number, width: number, bold = false): readonly string[] {
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = '';
    for (const word of paragraph.split(GAP).filter((w) => w !== '')) {
      const joined = line === '' ? word : `${line} ${word}`;
      if (textWidth(joined, height, bold) <= width) {
        line = joined;
        continue;
      }
      if (line !== '') lines.push(line);
      const pieces = breakWord(word, height, width, bold);
      lines.push(...pieces.slice(0, -1));
      line = pieces.at(-1)!;
    }
    lines.push(line);
  }
  return lines;
}

function breakWord(word: string, height: number, width: number, bold: boolean): readonly string[] {
  const pieces = [''];
  for (const letter of word) {
    const longer = pieces.at(-1)! + letter;
    if (pieces.at(-1) !== '' && textWidth(longer, height, bold) > width) pieces.push(letter);
    else pieces[pieces.length - 1] = longer;
  }
  return pieces;
}

/** A text cut to a width, with an ellipsis where something is left out. */
export function fitText(text: string, height: number, width: number, bold = false): string {
  if (textWidth(text, height, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join('').trimEnd()}…`, height, bold) > width) letters.pop();
  return letters.length === 0 ? '' : `${letters.join('').trimEnd()}…`;
}

/** A text cut to a width in its middle, for names that begin alike: its last words stay, as far as they leave most of the line to the first. */
export function fitEnds(text: string, height: number, width: number, bold = false): string {
  if (textWidth(text, height, bold) <= width) return text;
  // also what no line parts, as `1 of 2`
  const gaps = [...text.matchAll(/\s+/g)].map((gap) => gap.index).reverse();
  const fits = (gap: number): boolean => textWidth(text.slice(gap), height, bold) <= LAST * width;
  const tooFar = gaps.findIndex((gap) => !fits(gap));
  const cut = gaps[(tooFar < 0 ? gaps.length : tooFar) - 1] ?? text.length;
  const end = text.slice(cut);
  return `${fitText(text.slice(0, cut), height, width - textWidth(end, height, bold), bold)}${end}`;
}
/** Of the line, the most that last words take. */
const LAST = 0.45;
