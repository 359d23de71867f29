import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { bareOf } from './measure.ts';

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

/** As wide in both faces as the letter under its accents, which comes before it. */
function isAsBare(code: number, fonts: readonly OpenFont[]): boolean {
  const bare = bareOf(code);
  return bare < code && fonts.every((font) => widthOf(font, bare) === widthOf(font, code));
}

/** `A5:9,9,`: from character A (hexadecimal) on, the advance widths in thousandths of the em; runs parted by spaces. */
function runs(fonts: readonly [OpenFont, OpenFont]): string {
  const out: string[] = [];
  let last = Number.NaN;
  for (const code of codesOf(fonts[0])) {
    const width = isAsBare(code, fonts) ? '' : widthOf(fonts[0], code);
    if (code === last + 1) out[out.length - 1] += `,${width}`;
    else out.push(`${code.toString(16)}:${width}`);
    last = code;
  }
  return out.join(' ');
}

/** How much wider in the second face each of the same characters is. */
function more([than, font]: readonly [OpenFont, OpenFont]): string {
  const codes = codesOf(than);
  if (codes.join() !== codesOf(font).join()) throw new Error('the faces have not the same characters');
  const told = codes.filter((code) => !isAsBare(code, [than, font]));
  return told.map((code) => widthOf(font, code) - widthOf(than, code)).join();
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
export function widthsFile(): string {
  const faces = [openFont('Regular'), openFont('Semibold')] as const;
  return `/**
 * Advance widths of Source Sans 3 (SIL Open Font License 1.1) in thousandths of the em, so that text can be measured without the
 * font. Made from the font's own tables: \`npx vitest run src/core/drawing/font -u\` writes it anew. A letter with accents that is as
 * wide as without them is left empty, which is half a kilobyte less to load.
 */
${constants('Regular', `runs: '${runs(faces)}'`)}
/** \`more\`: how much wider than the regular ones its letters are, in the same order; told so it is a third less to load. */
${constants('Semibold', `more: '${more(faces)}'`)}`;
}
