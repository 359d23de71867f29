import type PDFDocument from 'pdfkit';
import type { Face, Run } from './content.ts';

/** What pdfkit keeps of an embedded font and its type declarations leave out. */
interface Embedded {
  readonly id: string;
  /** Puts the glyphs of a text into the subset: their numbers in it, four hexadecimal digits each, and how far each moves on. */
  encode(text: string): [string[], readonly { readonly advanceWidth: number; readonly xAdvance: number }[]];
  readonly ref: () => unknown;
}
interface Inside {
  readonly _font: Embedded;
  readonly page: { readonly fonts: Record<string, unknown> };
}

/** Kerning once shaped is the same for every document that is printed with the same font. */
const kerning = new WeakMap<Uint8Array, Map<string, number>>();
/** Figures are all of one width and stand as they are; so does what stands beside a space. */
const UNKERNED = /^\d\d$| /;

/**
 * A registered face of a document. Shaping whole texts is most of the time a packet takes to print, and nearly all of it comes out as
 * single letters with the kerning of neighbours; so each letter and each pair is shaped once, and only what the font joins or
 * changes (a fraction, a letter with a combining accent) as a whole.
 */
export function faceOf(
  doc: InstanceType<typeof PDFDocument>,
  name: string,
  bytes: Uint8Array,
): Face & { readonly onPage: () => void } {
  const font = (doc.font(name) as unknown as Inside)._font;
  const letters = new Map<string, { readonly glyph: string; readonly width: number }>();
  const pairs = kerning.get(bytes) ?? new Map<string, number>();
  kerning.set(bytes, pairs);
  const runs = new Map<string, Run>();

  const letterOf = (letter: string) => {
    const known = letters.get(letter);
    if (known) return known;
    const [[glyph], [position]] = font.encode(letter) as unknown as [[string], [{ xAdvance: number }]];
    const made = { glyph, width: position.xAdvance };
    letters.set(letter, made);
    return made;
  };
  /** How much further apart, in thousandths, two letters stand than their widths say. */
  const kernOf = (left: string, right: string): number => {
    const pair = left + right;
    const known = pairs.get(pair);
    if (known !== undefined) return known;
    if (UNKERNED.test(pair)) return 0;
    const [glyphs, positions] = font.encode(pair);
    const together = positions.reduce((sum, p) => sum + p.xAdvance, 0);
    const made = glyphs.length === 2 ? together - letterOf(left).width - letterOf(right).width : 0;
    pairs.set(pair, made);
    return made;
  };
  const simple = (text: string): Run => {
    let [glyphs, width] = ['<', 0];
    let last: string | undefined;
    for (const letter of text) {
      const kern = last === undefined ? 0 : kernOf(last, letter);
      if (kern !== 0) glyphs += `> ${-kern} <`;
      const { glyph, width: own } = letterOf(letter);
      glyphs += glyph;
      width += own + kern;
      last = letter;
    }
    return { glyphs: `${glyphs}>`, width };
  };
  const whole = (text: string): Run => {
    const [codes, positions] = font.encode(text);
    const glyphs = codes.map((code, i) => {
      const { xAdvance, advanceWidth } = positions[i]!;
      return xAdvance === advanceWidth ? `<${code}>` : `<${code}> ${advanceWidth - xAdvance}`;
    });
    return { glyphs: glyphs.join(' '), width: positions.reduce((sum, p) => sum + p.xAdvance, 0) };
  };
  const run = (text: string): Run => {
    const known = runs.get(text);
    if (known) return known;
    const parts = text
      .normalize('NFC')
      .split(/(\d+⁄\d+|\P{M}\p{M}+)/u)
      .flatMap((part, i) => (part === '' ? [] : [i % 2 === 1 ? whole(part) : simple(part)]));
    const made = {
      glyphs: parts.map((p) => p.glyphs).join(' '),
      width: parts.reduce((sum, p) => sum + p.width, 0),
    };
    runs.set(text, made);
    return made;
  };
  return {
    id: font.id,
    run,
    onPage: () => {
      (doc as unknown as Inside).page.fonts[font.id] ??= font.ref();
    },
  };
}
