import type { Tone } from '../core/drawing/index.ts';

/**
 * The inks. Contrast against their paper is at least 4.5 : 1 for everything that is read (WCAG 2.2, 1.4.3); palette.test.ts
 * reckons it. Faint is for what is beside the point but still to be read.
 */
export const LIGHT: Readonly<Record<Tone, string>> = {
  ink: '#1c1a17',
  faint: '#6d6a64',
  alert: '#b0261c',
  caution: '#8a5a00',
  accent: '#1f4f7a',
  paper: '#ffffff',
};
export const DARK: Readonly<Record<Tone, string>> = {
  ink: '#ece8df',
  faint: '#a09b90',
  alert: '#ff8f80',
  caution: '#e8b45a',
  accent: '#8fc1ee',
  paper: '#1d1f22',
};
export const TONES = Object.keys(LIGHT) as readonly Tone[];

/** The faces a sheet is lettered in, for a style sheet or a canvas. */
export const FAMILY = "'Source Sans 3','Source Sans Pro',sans-serif";

/** A colour as it is seen, where what is said of it is one; it goes into pages as it stands. */
export const swatchOf = ({ swatch }: { readonly swatch?: string }): string | undefined =>
  swatch !== undefined && /^#[0-9a-f]{6}$/i.test(swatch) ? swatch : undefined;
