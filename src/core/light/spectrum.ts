import type { Triple } from './colour.ts';
import { COUNT, DAYLIGHT, OBSERVER, WAVELENGTHS } from './observer.ts';

/**
 * Spectra on the observer's grid: 81 values from 380 to 780 nm every 5 nm. A light's are relative powers, a paint's reflectances.
 */
export type Spectrum = readonly number[];

/** Second radiation constant, m·K: 1.4388e-2 (ITS-90), as the definition of CCT uses it. */
export const C2 = 1.4388e-2;

/** Relative power of a black body, 1 at 560 nm. Source: Planck's law. */
export function planck(kelvin: number, c2 = C2): Spectrum {
  if (!(kelvin > 0)) throw new RangeError(`a temperature is above 0 K, got ${kelvin}`);
  const power = (nm: number): number => (nm * 1e-9) ** -5 / Math.expm1(c2 / (nm * 1e-9 * kelvin));
  const at560 = power(560);
  return WAVELENGTHS.map((nm) => power(nm) / at560);
}

/** Relative power of daylight of a chromaticity. Source: CIE 15: S = S0 + M1 S1 + M2 S2. */
export function daylight(x: number, y: number): Spectrum {
  const m = 0.0241 + 0.2562 * x - 0.7341 * y;
  const m1 = (-1.3515 - 1.7703 * x + 5.9114 * y) / m;
  const m2 = (0.03 - 31.4424 * x + 30.0717 * y) / m;
  return Array.from({ length: COUNT }, (_, k) => {
    const at = (j: number): number => {
      const [s0, s1, s2] = DAYLIGHT[j]!;
      return s0 + m1 * s1 + m2 * s2;
    };
    return k % 2 === 0 ? at(k / 2) / 100 : (at((k - 1) / 2) + at((k + 1) / 2)) / 200;
  });
}

/** X, Y, Z of a light; of a paint under a light when one is given, with the light's Y at 1. */
export function xyzOf(spectrum: Spectrum, light?: Spectrum): Triple {
  let [X, Y, Z, white] = [0, 0, 0, 0];
  for (let k = 0; k < COUNT; k++) {
    const [x, y, z] = OBSERVER[k]!;
    const s = light ? spectrum[k]! * light[k]! : spectrum[k]!;
    X += s * x;
    Y += s * y;
    Z += s * z;
    if (light) white += light[k]! * y;
  }
  const scale = light ? 1 / white : 1;
  return [X * scale, Y * scale, Z * scale];
}

export const flat = (value: number): Spectrum => WAVELENGTHS.map(() => value);

/**
 * The smoothest reflectance, strictly between 0 and 1, that has a given XYZ under a light (Y = 1 for a perfect white).
 *
 * With ρ = (tanh z + 1)/2 it makes Σ (z_{k+1} − z_k)² least under the three conditions, by Newton's method on the Lagrangian.
 * Source: S. A. Burns, "Numerical methods for smoothest reflectance reconstruction", Color Res. Appl. 45 (2020), the
 * hyperbolic-tangent variant. Paints are smooth; of all the metamers of a colour it is a fair guess, and no more than that.
 * @returns undefined when no reflectance of less than 1 has this colour (it is too bright or too pure)
 */
export function smoothestReflectance(xyz: Triple, light: Spectrum): Spectrum | undefined {
  // Every second wavelength will do, in straight lines between: 41 unknowns, each with half of its neighbours' weight.
  const n = (COUNT + 1) / 2;
  const at = (k: number, c: number): number => (k < 0 || k >= COUNT ? 0 : OBSERVER[k]![c]! * light[k]!);
  const weight = Array.from(
    { length: n },
    (_, i): Triple =>
      [0, 1, 2].map((c) => at(2 * i, c) + (at(2 * i - 1, c) + at(2 * i + 1, c)) / 2) as unknown as Triple,
  );
  const white = weight.reduce((sum, w) => sum + w[1], 0);
  const T = weight.map((w) => [w[0] / white, w[1] / white, w[2] / white] as const);
  const z = new Float64Array(n);
  const lambda = new Float64Array(3);
  const size = n + 3;
  const matrix = Array.from({ length: size }, () => new Float64Array(size + 1));
  for (let round = 0; round < 60; round++) {
    for (const row of matrix) row.fill(0);
    let off = 0;
    for (let i = 0; i < n; i++) {
      const t = Math.tanh(z[i]!);
      const d1 = (1 - t * t) / 2; // ρ'
      const d2 = -t * (1 - t * t); // ρ''
      const pull = T[i]![0] * lambda[0]! + T[i]![1] * lambda[1]! + T[i]![2] * lambda[2]!;
      const row = matrix[i]!;
      const ends = i === 0 || i === n - 1 ? 2 : 4;
      row[i]! += ends + d2 * pull;
      let slope = ends * z[i]!;
      if (i > 0) {
        row[i - 1]! -= 2;
        slope -= 2 * z[i - 1]!;
      }
      if (i < n - 1) {
        row[i + 1]! -= 2;
        slope -= 2 * z[i + 1]!;
      }
      row[size] = -(slope + d1 * pull);
      off = Math.max(off, Math.abs(row[size]!));
      for (let c = 0; c < 3; c++) {
        row[n + c] = T[i]![c]! * d1;
        matrix[n + c]![i] = T[i]![c]! * d1;
      }
    }
    for (let c = 0; c < 3; c++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (T[i]![c]! * (Math.tanh(z[i]!) + 1)) / 2;
      matrix[n + c]![size] = xyz[c]! - sum;
      off = Math.max(off, Math.abs(xyz[c]! - sum));
    }
    if (off < 1e-10) {
      const rho = Array.from(z, (v) => (Math.tanh(v) + 1) / 2);
      return Array.from({ length: COUNT }, (_, k) =>
        k % 2 === 0 ? rho[k / 2]! : (rho[(k - 1) / 2]! + rho[(k + 1) / 2]!) / 2,
      );
    }
    if (!eliminate(matrix)) return undefined;
    // Long steps are shortened: tanh is flat far out and Newton would fly off.
    let longest = 0;
    for (let i = 0; i < n; i++) longest = Math.max(longest, Math.abs(matrix[i]![size]!));
    const share = Math.min(1, 2 / Math.max(longest, 1e-300));
    for (let i = 0; i < n; i++) z[i]! += share * matrix[i]![size]!;
    for (let c = 0; c < 3; c++) lambda[c]! += share * matrix[n + c]![size]!;
  }
  return undefined;
}

/** Gauss–Jordan with row exchange; leaves the solution in the last column. */
function eliminate(a: readonly Float64Array[]): boolean {
  const rows = a as Float64Array[];
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[best]![c]!)) best = r;
    if (!(Math.abs(rows[best]![c]!) > 1e-14)) return false;
    [rows[c], rows[best]] = [rows[best]!, rows[c]!];
    const pivot = rows[c]![c]!;
    for (let k = c; k <= n; k++) rows[c]![k]! /= pivot;
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const f = rows[r]![c]!;
      if (f !== 0) for (let k = c; k <= n; k++) rows[r]![k]! -= f * rows[c]![k]!;
    }
  }
  return true;
}
