import { describe, expect, it } from 'vitest';
import { DARK, LIGHT } from './palette.ts';

/** Relative luminance and contrast. Source: WCAG 2.2, definitions of relative luminance and contrast ratio. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
const contrast = (a: string, b: string): number => {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
};

it('reckons contrast as the standard does: black on white is 21', () =>
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9));

describe.each([
  ['light', LIGHT],
  ['dark', DARK],
] as const)('%s', (_, inks) => {
  it.each(['ink', 'faint', 'alert', 'caution', 'accent'] as const)(
    '%s can be read on its paper (WCAG 2.2, 1.4.3: 4.5)',
    (tone) => expect(contrast(inks[tone], inks.paper)).toBeGreaterThanOrEqual(4.5),
  );
});
