import { fitText, textWidth, wrapText } from '../font/measure.ts';

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
