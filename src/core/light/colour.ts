/** Colour spaces and differences. XYZ with the white's Y at 1 unless said otherwise; sRGB 0 … 1. */

export type Triple = readonly [number, number, number];

/** D65 white used with CIELAB here. Source: IEC 61966-2-1 / Lindbloom (0.95047, 1, 1.08883). */
export const D65_WHITE: Triple = [0.95047, 1, 1.08883];

/** Linear sRGB to XYZ and back, seven digits. Source: IEC 61966-2-1:1999 primaries and D65. */
const TO_XYZ: readonly Triple[] = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
];
const FROM_XYZ: readonly Triple[] = [
  [3.2404542, -1.5371385, -0.4985314],
  [-0.969266, 1.8760108, 0.041556],
  [0.0556434, -0.2040259, 1.0572252],
];
/** As the standard prints it, to four decimals: up to 0.0003 from the exact inverse, because it inverts the rounded matrix. */
const PRINTED_FROM_XYZ: readonly Triple[] = [
  [3.2406, -1.5372, -0.4986],
  [-0.9689, 1.8758, 0.0415],
  [0.0557, -0.204, 1.057],
];
const times = (m: readonly Triple[], [a, b, c]: Triple): Triple => {
  const row = (k: number): number => m[k]![0] * a + m[k]![1] * b + m[k]![2] * c;
  return [row(0), row(1), row(2)];
};

/** Decodes an sRGB channel. Source: IEC 61966-2-1. */
export const srgbToLinear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
export const linearToSrgb = (c: number): number => (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055);
export const linearRgbToXyz = (rgb: Triple): Triple => times(TO_XYZ, rgb);
export const xyzToLinearRgb = (xyz: Triple): Triple => times(FROM_XYZ, xyz);
export const xyzToLinearRgbAsPrinted = (xyz: Triple): Triple => times(PRINTED_FROM_XYZ, xyz);
export const srgbToXyz = ([r, g, b]: Triple): Triple =>
  linearRgbToXyz([srgbToLinear(r), srgbToLinear(g), srgbToLinear(b)]);
/** The nearest colour a screen shows: channels cut to 0 … 1. */
export function xyzToSrgb(xyz: Triple): Triple {
  const cut = (c: number): number => linearToSrgb(Math.min(1, Math.max(0, c)));
  const [r, g, b] = xyzToLinearRgb(xyz);
  return [cut(r), cut(g), cut(b)];
}
/** '#d8c9a0' or 'd8c9a0'. @throws RangeError for anything else. */
export function parseHex(text: string): Triple {
  const found = /^#?([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(text.trim());
  if (!found) throw new RangeError(`a colour is six hexadecimal digits, got '${text}'`);
  const channel = (k: number): number => Number.parseInt(found[k]!, 16) / 255;
  return [channel(1), channel(2), channel(3)];
}
export const toHex = (rgb: Triple): string =>
  `#${rgb
    .map((c) =>
      Math.round(Math.min(1, Math.max(0, c)) * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;

export const chromaticity = ([X, Y, Z]: Triple): readonly [number, number] => [X / (X + Y + Z), Y / (X + Y + Z)];
/** CIE 1960 u, v. */
export const uvOf = (x: number, y: number): readonly [number, number] => [
  (4 * x) / (-2 * x + 12 * y + 3),
  (6 * y) / (-2 * x + 12 * y + 3),
];
export const xyOf = (u: number, v: number): readonly [number, number] => [
  (3 * u) / (2 * u - 8 * v + 4),
  (2 * v) / (2 * u - 8 * v + 4),
];

const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;
/** CIELAB against a white. Source: ISO 11664-4. */
export function xyzToLab([X, Y, Z]: Triple, white: Triple = D65_WHITE): Triple {
  const f = (t: number): number => (t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116);
  const [fx, fy, fz] = [f(X / white[0]), f(Y / white[1]), f(Z / white[2])];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}
export function labToXyz([L, a, b]: Triple, white: Triple = D65_WHITE): Triple {
  const fy = (L + 16) / 116;
  const back = (f: number): number => (f ** 3 > EPSILON ? f ** 3 : (116 * f - 16) / KAPPA);
  const y = L > KAPPA * EPSILON ? fy ** 3 : L / KAPPA;
  return [white[0] * back(fy + a / 500), white[1] * y, white[2] * back(fy - b / 200)];
}

/** Light reflectance value, %: 100 ((L* + 16)/116)³. Source: BS 8493:2008. Below L* = 8 the straight part of CIELAB holds. */
export const reflectanceValue = (L: number): number => (L > 8 ? 100 * ((L + 16) / 116) ** 3 : (100 * L) / KAPPA);

/**
 * CIEDE2000 difference of two CIELAB colours, kL = kC = kH = 1 unless given.
 * Source: G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30 (2005), equations (2) to (22), whose notes on the mean hue are kept.
 */
export function ciede2000([L1, a1, b1]: Triple, [L2, a2, b2]: Triple, kL = 1, kC = 1, kH = 1): number {
  const rad = Math.PI / 180;
  const mean7 = ((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2) ** 7;
  const G = 0.5 * (1 - Math.sqrt(mean7 / (mean7 + 25 ** 7)));
  const [p1, p2] = [(1 + G) * a1, (1 + G) * a2];
  const [C1, C2] = [Math.hypot(p1, b1), Math.hypot(p2, b2)];
  const hue = (a: number, b: number): number => (a === 0 && b === 0 ? 0 : (Math.atan2(b, a) / rad + 360) % 360);
  const [h1, h2] = [hue(p1, b1), hue(p2, b2)];
  const grey = C1 * C2 === 0;
  const apart = h2 - h1;
  const dh = grey ? 0 : Math.abs(apart) <= 180 ? apart : apart > 180 ? apart - 360 : apart + 360;
  const dL = L2 - L1;
  const dC = C2 - C1;
  const dH = 2 * Math.sqrt(C1 * C2) * Math.sin((dh / 2) * rad);
  const L = (L1 + L2) / 2;
  const C = (C1 + C2) / 2;
  const h = grey
    ? h1 + h2
    : Math.abs(h1 - h2) <= 180
      ? (h1 + h2) / 2
      : h1 + h2 < 360
        ? (h1 + h2 + 360) / 2
        : (h1 + h2 - 360) / 2;
  const T =
    1 -
    0.17 * Math.cos((h - 30) * rad) +
    0.24 * Math.cos(2 * h * rad) +
    0.32 * Math.cos((3 * h + 6) * rad) -
    0.2 * Math.cos((4 * h - 63) * rad);
  const turn = 30 * Math.exp(-(((h - 275) / 25) ** 2));
  const RC = 2 * Math.sqrt(C ** 7 / (C ** 7 + 25 ** 7));
  const SL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const SC = 1 + 0.045 * C;
  const SH = 1 + 0.015 * C * T;
  const RT = -Math.sin(2 * turn * rad) * RC;
  const [l, c, hh] = [dL / (kL * SL), dC / (kC * SC), dH / (kH * SH)];
  return Math.sqrt(l * l + c * c + hh * hh + RT * c * hh);
}
