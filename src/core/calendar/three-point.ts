import { cosineOfTurn, exponential, logarithm } from '../elementary.ts';

/** Least, likely and most, of anything. */
export interface ThreePoint {
  readonly least: number;
  readonly likely: number;
  readonly most: number;
}

/**
 * Mean and variance of a task by three points:
 *
 *     t = (a + 4 m + b) / 6,   σ² = ((b − a) / 6)²
 *
 * Source: Malcolm, Roseboom, Clark & Fazar, Operations Research 7, 1959, 646–669.
 */
export const expected = ({ least, likely, most }: ThreePoint): number => (least + 4 * likely + most) / 6;
export function variance({ least, most }: ThreePoint): number {
  const deviation = (most - least) / 6;
  return deviation * deviation;
}

/** Share of the normal distribution below z. Source: Abramowitz & Stegun, 26.2.17, |ε| < 7.5·10⁻⁸. */
export function normalShare(z: number): number {
  if (z < 0) return 1 - normalShare(-z);
  const t = 1 / (1 + 0.2316419 * z);
  const sum = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return 1 - (exponential((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * sum;
}

/** A number from 0 to 1, not 1 itself. */
export type Chance = () => number;

/**
 * Draws from the beta distribution over [a, b] whose mean is (a + 4m + b)/6: shapes 1 + 4(m−a)/(b−a) and 1 + 4(b−m)/(b−a)
 * (Clark, Operations Research 10, 1962, 405–406), as X/(X+Y) of two gamma variates.
 */
export function drawThreePoint({ least, likely, most }: ThreePoint, chance: Chance): number {
  if (most <= least) return likely;
  const x = gamma(1 + (4 * (likely - least)) / (most - least), chance);
  const y = gamma(1 + (4 * (most - likely)) / (most - least), chance);
  return least + ((most - least) * x) / (x + y);
}

/** Shape ≥ 1, scale 1. Source: Marsaglia & Tsang, ACM Transactions on Mathematical Software 26, 2000, 363–372. */
function gamma(shape: number, chance: Chance): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    // Box–Muller; a chance of exactly 0 has no logarithm
    const z = Math.sqrt(-2 * logarithm(1 - chance())) * cosineOfTurn(chance());
    const w = 1 + c * z;
    const v = w * w * w;
    if (v > 0 && logarithm(1 - chance()) < 0.5 * z * z + d - d * v + d * logarithm(v)) return d * v;
  }
}
