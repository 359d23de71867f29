import { uvOf } from './colour.ts';

import { WAVELENGTHS } from './observer.ts';
import { C2, planck, xyzOf } from './spectrum.ts';

/** Correlated colour temperature, K, and distance from the Planckian locus. */

/** n = (x − 0.3320)/(0.1858 − y), CCT = 449 n³ + 3525 n² + 6823.3 n + 5520.33. Source: C. S. McCamy, Color Res. Appl. 17 (1992). */
export function mccamy(x: number, y: number): number {
  const n = (x - 0.332) / (0.1858 - y);
  return 449 * n ** 3 + 3525 * n ** 2 + 6823.3 * n + 5520.33;
}

/** Duv by the fitted curve of the locus. Source: Y. Ohno, LEUKOS 10 (2014), equation for Duv; coefficients from memory, they reproduce its values. */
export function duvByFit(u: number, v: number): number {
  const [du, dv] = [u - 0.292, v - 0.24];
  const far = Math.hypot(du, dv);
  const a = Math.acos(du / far);
  const k = [-0.471106, 1.925865, -2.4243787, 1.5317403, -0.5179722, 0.0893944, -0.00616793];
  return far - k.reduceRight((sum, c) => sum * a + c, 0);
}

/** A black body's u, v and how they change with its mired (10⁶/T). */
interface LocusPoint {
  readonly u: number;
  readonly v: number;
  readonly du: number;
  readonly dv: number;
}
/** Planck's law and its derivative by 1/T: P' = −P (c₂/λ)/(1 − exp(−c₂/λT)). */
function locusPoint(mired: number): LocusPoint {
  const power = planck(1e6 / mired);
  const slope = power.map((p, k) => {
    const x = C2 / (WAVELENGTHS[k]! * 1e-9);
    return (-p * x * 1e-6) / -Math.expm1(-x * mired * 1e-6);
  });
  const [X, Y, Z] = xyzOf(power);
  const [dX, dY, dZ] = xyzOf(slope);
  const [whole, change] = [X + 15 * Y + 3 * Z, dX + 15 * dY + 3 * dZ];
  const [u, v] = [(4 * X) / whole, (6 * Y) / whole];
  return { u, v, du: (4 * dX - u * change) / whole, dv: (6 * dY - v * change) / whole };
}

/** Hottest and coolest black body that is looked at, mired, and the step of the coarse walk: the locus is nearly even in mired. */
const [HOTTEST, COOLEST, STEP] = [10, 1000, 15] as const;
let walk: readonly (LocusPoint & { readonly mired: number })[] | undefined;
const walked = () =>
  (walk ??= Array.from({ length: (COOLEST - HOTTEST) / STEP + 1 }, (_, k) => {
    const mired = HOTTEST + k * STEP;
    return { mired, ...locusPoint(mired) };
  }));

/**
 * The temperature whose black body lies nearest in CIE 1960 u, v, and the signed distance (+ above the locus: greenish).
 * The definition itself, by searching the locus of the 1931 observer between 1000 and 100 000 K; meaningful while |Duv| < 0.05.
 * Source: CIE 15, definition of the correlated colour temperature.
 */
export function correlatedTemperature(x: number, y: number): { readonly kelvin: number; readonly duv: number } {
  const [u, v] = uvOf(x, y);
  const apart = (p: LocusPoint): number => Math.hypot(u - p.u, v - p.v);
  const nearest = walked().reduce((a, b) => (apart(b) < apart(a) ? b : a));
  // where the way to the locus meets it at a right angle, by the secant, kept within the step on either side
  const beside = (p: LocusPoint): number => (p.u - u) * p.du + (p.v - v) * p.dv;
  let [low, high] = [Math.max(HOTTEST / 2, nearest.mired - STEP), nearest.mired + STEP];
  let at: LocusPoint & { mired: number } = nearest;
  let last = { mired: high, ...locusPoint(high) };
  for (let round = 0; round < 60 && high - low > 1e-9; round++) {
    const [here, there] = [beside(at), beside(last)];
    if (here > 0) high = at.mired;
    else low = at.mired;
    const secant = at.mired - (here * (at.mired - last.mired)) / (here - there);
    const next = secant > low && secant < high ? secant : (low + high) / 2;
    if (Math.abs(next - at.mired) < 1e-9) break;
    last = at;
    at = { mired: next, ...locusPoint(next) };
  }
  return { kelvin: 1e6 / at.mired, duv: Math.sign(v - at.v) * apart(at) };
}

/** Chromaticity of daylight of a temperature, 4000 to 25 000 K. Source: CIE 15: x from a cubic in 1/T, y = −3x² + 2.87x − 0.275. */
export function daylightChromaticity(kelvin: number): readonly [number, number] {
  if (!(kelvin >= 4000 && kelvin <= 25000))
    throw new RangeError(`daylight is defined from 4000 to 25000 K, got ${kelvin}`);
  const T = kelvin;
  const x =
    T <= 7000
      ? -4.607e9 / T ** 3 + 2.9678e6 / T ** 2 + 0.09911e3 / T + 0.244063
      : -2.0064e9 / T ** 3 + 1.9018e6 / T ** 2 + 0.24748e3 / T + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

/** Chromaticities of standard illuminants, 2° observer. D65 and A were read; the others are from memory. Source: CIE 15. */
export const WHITE_POINTS: Readonly<Record<string, readonly [number, number]>> = {
  A: [0.44757, 0.40745],
  D50: [0.34567, 0.3585],
  D55: [0.33242, 0.34743],
  D65: [0.3127, 0.329],
  D75: [0.29902, 0.31485],
  E: [1 / 3, 1 / 3],
};
/** Nominal chromaticities of white lamps. Source: ANSI C78.377 targets. */
export const LAMP_TARGETS: Readonly<Record<number, readonly [number, number]>> = {
  2700: [0.4578, 0.4101],
  3000: [0.4338, 0.403],
  4000: [0.3818, 0.3797],
  5000: [0.3447, 0.3553],
  6500: [0.3123, 0.3282],
};
