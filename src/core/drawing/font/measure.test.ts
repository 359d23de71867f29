import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openFont, widthsFile } from './font.testing.ts';
import { emOf, fitEnds, fitText, isDrawable, textWidth, withFractions, wrapText } from './measure.ts';

describe('the table of widths', () => {
  it('is the one the font files give', async () => {
    await expect(widthsFile()).toMatchFileSnapshot('widths.ts');
  });

  it.each(['Regular', 'Semibold'] as const)('%s: has every letter as wide as the font has it', (face) => {
    const font = openFont(face);
    const letters = font.characterSet.filter((code) => isDrawable(String.fromCodePoint(code)));
    expect(letters.length).toBeGreaterThan(1000);
    for (const code of letters) {
      const width = (font.glyphForCodePoint(code).advanceWidth * emOf(2.5, face === 'Semibold')) / font.unitsPerEm;
      expect(textWidth(String.fromCodePoint(code), 2.5, face === 'Semibold'), code.toString(16)).toBeCloseTo(width, 2);
    }
  });

  // Second route: fontkit lays the text out, with kerning; the table sums advances without it.
  it.each(['Regular', 'Semibold'] as const)(
    '%s: agrees with the laid-out text, never narrower by more than the kerning',
    (face) => {
      const font = openFont(face);
      const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,:;×°½ß/()"\'−'];
      fc.assert(
        fc.property(fc.array(fc.constantFrom(...letters), { maxLength: 40 }), (chosen) => {
          const text = chosen.join('');
          const laidOut = (font.layout(text).advanceWidth * emOf(2.5, face === 'Semibold')) / font.unitsPerEm;
          const measured = textWidth(text, 2.5, face === 'Semibold');
          expect(measured - laidOut).toBeGreaterThan(-0.01 * measured - 0.25);
          expect(measured - laidOut).toBeLessThan(0.12 * measured + 0.6);
        }),
      );
    },
  );

  it.each(['15⁄16', '3-1⁄2"', '1029 mm', '13\' 4"'])('%s is as wide as the font sets it', (text) => {
    const font = openFont('Regular');
    expect(textWidth(text, 2.5)).toBeCloseTo((font.layout(text).advanceWidth * emOf(2.5)) / font.unitsPerEm, 0);
  });
});

describe('wrapText', () => {
  it('keeps every word and no line is too wide', () =>
    fc.assert(
      fc.property(fc.string({ maxLength: 120 }), fc.double({ min: 8, max: 80, noNaN: true }), (text, width) => {
        const lines = wrapText(text, 2.5, width);
        for (const line of lines) expect(textWidth(line, 2.5)).toBeLessThanOrEqual(width);
        expect(lines.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''));
      }),
    ));

  it.each(['2\' 5-5⁄16"', '1′ 3\u20091⁄2″', '587.8 mm', '44 lb', '1.75 s', 'ΔE00 6.1'])(
    'leaves %s in one piece',
    (length) => {
      const text = `of gravity ${length} from its left end`;
      for (let width = textWidth(length, 2.5) + 0.1; width < 60; width += 0.5)
        expect(wrapText(text, 2.5, width).some((line) => line.includes(length))).toBe(true);
    },
  );
  it('breaks between words that only begin like a unit, and between two lengths', () => {
    expect(wrapText('there are 4 more', 2.5, textWidth('there are 4', 2.5) + 0.1)).toEqual(['there are 4', 'more']);
    expect(wrapText('8\' 0" 4\' 0"', 2.5, textWidth('8\' 0"', 2.5) + 0.1)).toEqual(['8\' 0"', '4\' 0"']);
  });
});

it('fitText leaves what fits alone and says where it cut', () => {
  expect(fitText('left side', 2.5, 40)).toBe('left side');
  expect(fitText('left side of the tall case', 2.5, 20)).toMatch(/^left.*…$/);
  expect(textWidth(fitText('left side of the tall case', 2.5, 20), 2.5)).toBeLessThanOrEqual(20);
});

it('withFractions turns a slash between digits into a fraction bar', () => {
  expect(withFractions('3-15/16" and/or 1/2')).toBe('3-15⁄16" and/or 1⁄2');
  expect(isDrawable('✓ □ ½ ⁄ × ≤ → °')).toBe(true);
  expect(isDrawable('⌀')).toBe(false);
});

it('fitEnds keeps the end, which tells apart what begins alike', () => {
  expect(fitEnds('left side', 2.5, 40)).toBe('left side');
  const one = 'half: throwing tools and sponges,\u00a01\u00a0of\u00a02';
  const cut = fitEnds(one, 2.5, 34, true);
  expect(cut).toMatch(/^half: .*….1.of.2$/);
  expect(textWidth(cut, 2.5, true)).toBeLessThanOrEqual(34);
  // a last word too long for its share is cut as any other
  expect(fitEnds('a strengstbeschnittenesNamensende', 2.5, 20)).toMatch(/^a str.*…$/);
});
