import fc from 'fast-check';
import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { openFont } from '../core/drawing/font/font.testing.ts';
import { faceOf } from './face.ts';
import { testFonts } from './print.testing.ts';

describe.each([
  ['Regular', 'regular'],
  ['Semibold', 'semibold'],
] as const)('%s', (file, name) => {
  const bytes = testFonts()[name];
  const doc = new PDFDocument({ autoFirstPage: false, font: '' });
  doc.registerFont(name, bytes as unknown as ArrayBuffer);
  const face = faceOf(doc, name, bytes);
  const font = openFont(file);
  const wide = (text: string): number => (font.layout(text).advanceWidth * 1000) / font.unitsPerEm;

  it('does not kern figures among themselves, nor anything beside a space', () => {
    const letters = [...'0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.,:;-–×″′()/'];
    for (const a of '0123456789') for (const b of '0123456789') expect(wide(a + b)).toBe(wide(a) + wide(b));
    for (const a of letters) expect(wide(`${a} ${a}`)).toBe(2 * wide(a) + wide(' '));
  });

  // Second route: fontkit shapes the whole text; no letter here is joined with its neighbour by the font.
  it('letters and their pairs come to what the font lays out as a whole', () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.constantFrom(...'ABCDEGHKLMNOPRSTUVWXYZabcdeghkmnopqrsuvwxyz0123456789 .,:×°½″′()', '3⁄4', '15⁄16'),
          {
            minLength: 1,
            maxLength: 30,
          },
        ),
        (chosen) => {
          const text = chosen.join('').replace(/(\d)(\d+⁄)/g, '$1 $2');
          expect(Math.abs(face.run(text).width - wide(text))).toBeLessThan(60 * (text.match(/⁄/g)?.length ?? 0) + 0.01);
        },
      ),
    ));
});
