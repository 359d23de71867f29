import { LETTER, text } from '../draw.ts';
import { fitText, textWidth, wrapText } from '../font/measure.ts';
import type { Mark } from '../marks.ts';
import { LEADING } from './table.ts';

/** Letters of some height in so many lines at the most. */
export interface Way {
  readonly height: number;
  readonly lines: number;
}

/**
 * Words in lines no wider than `width`, in the first of some ways in which all of them stand there and no word is broken. Where there is
 * none they are cut short in the last.
 */
export function standing(
  words: string,
  ways: readonly Way[],
  width: number,
  bold = false,
): { readonly height: number; readonly lines: readonly string[]; readonly whole: boolean } {
  for (const { height, lines } of ways) {
    const own = wrapText(words, height, width, bold);
    const isBroken = words.split(/\s+/).some((word) => textWidth(word, height, bold) > width);
    if (own.length <= lines && !isBroken) return { height, lines: own, whole: true };
  }
  const { height, lines } = ways.at(-1)!;
  const own = wrapText(words, height, width, bold);
  const last = own.slice(lines - 1).join(' ');
  return {
    height,
    lines: [...own.slice(0, lines - 1), ...(last === '' ? [] : [fitText(last, height, width, bold)])],
    whole: false,
  };
}

/** The heading of a sheet at full size, beside its check line: in one line, or smaller in two. */
export function headingAt(x: number, y: number, words: string, width: number): readonly Mark[] {
  const { height, lines } = standing(words, HEADING, width, true);
  return lines.map((own, i) => text(x, y - (lines.length - 1 - i) * LEADING, own, { height, bold: true }));
}
const HEADING: readonly Way[] = [
  { height: LETTER.head, lines: 1 },
  { height: LETTER.small, lines: 2 },
];
