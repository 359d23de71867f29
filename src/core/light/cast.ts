import { chromaticity, ciede2000, parseHex, srgbToXyz, type Triple, toHex, xyzToLab, xyzToSrgb } from './colour.ts';
import { COUNT } from './observer.ts';
import { daylight, flat, planck, type Spectrum, smoothestReflectance, xyzOf } from './spectrum.ts';
import { correlatedTemperature, daylightChromaticity, WHITE_POINTS } from './temperature.ts';

/** What paint does to light: the colour of a white card in a painted room. */

/**
 * The spectrum a lamp of a colour temperature stands for: a black body below 5000 K, daylight from there on.
 * Source: CIE 13.3, reference illuminants. A real lamp's spectrum has humps; where its measured one is known, use that.
 */
export const lampSpectrum = (kelvin: number): Spectrum =>
  kelvin < 5000 ? planck(kelvin) : daylight(...daylightChromaticity(Math.min(25000, kelvin)));

const D65 = (): Spectrum => daylight(...WHITE_POINTS.D65!);

/** The smoothest reflectance of a paint of this colour in daylight; hex or sRGB 0 … 1. White and black stop short of 1 and 0. */
export function paintSpectrum(colour: string | Triple): Spectrum {
  const xyz = srgbToXyz(typeof colour === 'string' ? parseHex(colour) : colour);
  const light = D65();
  if (xyz[1] < 2e-4) return flat(2e-4);
  // No paint sends all light back: a colour too bright or too pure for one is dimmed until some reflectance has it.
  for (const dim of [1, 0.98, 0.95, 0.9, 0.8, 0.6]) {
    const found = smoothestReflectance([xyz[0] * dim, xyz[1] * dim, xyz[2] * dim], light);
    if (found && Math.max(...found) < 0.995) return found;
  }
  return flat(Math.min(0.98, xyz[1]));
}

/** A paint's colour in daylight as a screen shows it. */
export const swatchOf = (reflectance: Spectrum): string => toHex(xyzToSrgb(xyzOf(reflectance, D65())));
/** Light reflectance value, %: Y in daylight (2° observer here). */
export const reflectanceOf = (reflectance: Spectrum): number => 100 * xyzOf(reflectance, D65())[1];

export interface Cast {
  /** Of the light that arrives. */
  readonly kelvin: number;
  readonly duv: number;
  /** Against that of the lamp. */
  readonly kelvinShift: number;
  readonly duvShift: number;
  /** A white card as a camera set to the lamp sees it, made as bright as under the lamp alone. */
  readonly lab: Triple;
  /** CIEDE2000 between the two. */
  readonly difference: number;
  readonly swatch: string;
  readonly words: string;
}

/** The cast of a light against the lamp it comes from. */
export function castOf(arriving: Spectrum, lamp: Spectrum): Cast {
  const [card, white] = [xyzOf(arriving), xyzOf(lamp)];
  const level = (t: Triple): Triple => [t[0] / t[1], 1, t[2] / t[1]];
  const [c, w] = [level(card), level(white)];
  const [now, was] = [correlatedTemperature(...chromaticity(c)), correlatedTemperature(...chromaticity(w))];
  const lab = xyzToLab(c, w);
  const difference = ciede2000([100, 0, 0], lab);
  // On a screen: the same CIELAB shift about the screen's own white, a little below it so that no channel is cut.
  const swatch = toHex(xyzToSrgb(screenXyz([90, lab[1], lab[2]])));
  return {
    kelvin: now.kelvin,
    duv: now.duv,
    kelvinShift: now.kelvin - was.kelvin,
    duvShift: now.duv - was.duv,
    lab,
    difference,
    swatch,
    words: sayCast(difference, lab),
  };
}

const screenXyz = ([L, a, b]: Triple): Triple => {
  const fy = (L + 16) / 116;
  const back = (f: number): number => (f > 6 / 29 ? f ** 3 : 3 * (6 / 29) ** 2 * (f - 4 / 29));
  return [0.95047 * back(fy + a / 500), back(fy), 1.08883 * back(fy - b / 200)];
};

const STRENGTH = [
  { from: 10, word: 'strong' },
  { from: 5, word: 'plain' },
  { from: 2, word: 'slight' },
  { from: 1, word: 'faint' },
] as const;
const HUES = ['red', 'orange', 'yellow', 'yellow-green', 'green', 'blue-green', 'blue', 'violet', 'red'] as const;
/** A cast in words. The steps are common practice: about 1 is the least difference seen side by side. */
export function sayCast(difference: number, [, a, b]: Triple): string {
  const strength = STRENGTH.find((s) => difference >= s.from);
  if (!strength) return 'no cast to be seen';
  const angle = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  return `a ${strength.word} ${HUES[Math.round(angle / 45)]!} cast`;
}

/**
 * The light in a closed even room, direct and interreflected, wavelength by wavelength: S (d + ρ̄/(1 − ρ̄)), where d is the share of
 * a point's direct light to the room's mean. The flux balance of a sphere; a first answer for any room.
 */
export function enclosureSpectrum(
  lamp: Spectrum,
  surfaces: readonly { readonly share: number; readonly reflectance: Spectrum }[],
  direct = 1,
): Spectrum {
  const whole = surfaces.reduce((sum, s) => sum + s.share, 0);
  return lamp.map((S, k) => {
    const rho = surfaces.reduce((sum, s) => sum + (s.share / whole) * s.reflectance[k]!, 0);
    return S * (direct + rho / (1 - rho));
  });
}

/** Spectral bands for the radiosity solver: every 20 nm from 380 to 780, in straight lines between. */
export const BAND_STEP = 4;
export const BANDS = (COUNT - 1) / BAND_STEP + 1;
export const toBands = (spectrum: Spectrum): readonly number[] =>
  Array.from({ length: BANDS }, (_, b) => spectrum[b * BAND_STEP]!);
export function fromBands(values: readonly number[]): Spectrum {
  return Array.from({ length: COUNT }, (_, k) => {
    const b = Math.min(BANDS - 2, Math.floor(k / BAND_STEP));
    const t = k / BAND_STEP - b;
    return values[b]! * (1 - t) + values[b + 1]! * t;
  });
}
/** A lamp's flux by band, such that the bands' Y is its lumens. */
export function lampBands(lumens: number, spectrum: Spectrum): readonly number[] {
  const bands = toBands(spectrum);
  const Y = xyzOf(fromBands(bands))[1];
  return bands.map((v) => (v * lumens) / Y);
}
/** Lux (or lm/m²) of banded light. */
export const luxOf = (bands: readonly number[]): number => xyzOf(fromBands(bands))[1];
