import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

interface OpenFont {
  readonly unitsPerEm: number;
  readonly capHeight: number;
  readonly characterSet: readonly number[];
  glyphForCodePoint(code: number): { readonly advanceWidth: number };
  layout(text: string): { readonly advanceWidth: number };
}
const require = createRequire(import.meta.url);

/** The font file itself, read by the library that pdfkit embeds it with. */
export function openFont(face: 'Regular' | 'Semibold'): OpenFont {
  const fontkit = require('fontkit') as { create(bytes: Uint8Array): OpenFont };
  return fontkit.create(readFileSync(require.resolve(`source-sans/TTF/SourceSans3-${face}.ttf`)));
}

/** Letters of Europe, Greek, Cyrillic, punctuation, fractions, arrows, signs. */
const WANTED = (code: number): boolean => (code >= 0x20 && code <= 0x52f) || (code >= 0x1e00 && code <= 0x27ff);

const codesOf = (font: OpenFont): readonly number[] => font.characterSet.filter(WANTED).sort((a, b) => a - b);
const widthOf = (font: OpenFont, code: number): number =>
  Math.round((font.glyphForCodePoint(code).advanceWidth * 1000) / font.unitsPerEm);

/** `A5,9,9`: from character A (hexadecimal) on, the advance widths in thousandths of the em; runs parted by spaces. */
function runs(font: OpenFont): string {
  const out: string[] = [];
  let last = Number.NaN;
  for (const code of codesOf(font)) {
    const width = widthOf(font, code);
    if (code === last + 1) out[out.length - 1] += `,${width}`;
    else out.push(`${code.toString(16)}:${width}`);
    last = code;
  }
  return out.join(' ');
}

/** How much wider than in the other face each of the same characters is. */
function more(font: OpenFont, than: OpenFont): string {
  const codes = codesOf(than);
  if (codes.join() !== codesOf(font).join()) throw new Error('the faces have not the same characters');
  return codes.map((code) => widthOf(font, code) - widthOf(than, code)).join();
}

function constants(face: 'Regular' | 'Semibold', widths: string): string {
  const font = openFont(face);
  const scale = 1000 / font.unitsPerEm;
  const small = (font.layout('11⁄1').advanceWidth - font.layout('1⁄1').advanceWidth) * scale;
  const bar = font.layout('1⁄1').advanceWidth * scale - 2 * small;
  return `export const ${face.toUpperCase()} = {
  capHeight: ${font.capHeight * scale},
  fractionDigit: ${small},
  fractionBar: ${bar},
  ${widths},
} as const;
`;
}

/** The text of widths.ts, made from the font files. */
export const widthsFile = (): string => `/**
 * Advance widths of Source Sans 3 (SIL Open Font License 1.1) in thousandths of the em, so that text can be measured without the
 * font. Made from the font's own tables: \`npx vitest run src/core/drawing/font -u\` writes it anew.
 */
${constants('Regular', `runs: '${runs(openFont('Regular'))}'`)}
/** \`more\`: how much wider than the regular ones its letters are, in the same order; told so it is a third less to load. */
${constants('Semibold', `more: '${more(openFont('Semibold'), openFont('Regular'))}'`)}`;
