/**
 * Dual feasible functions: f with Σ f(xᵢ) ≤ f(C) whenever Σ xᵢ ≤ C. Measuring parts and sheets with one such function along x
 * and one along y turns every packing into one of areas, so the sum of the measured areas is a lower bound (conservative scales).
 *
 * Sources: Fekete & Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems", Mathematical
 * Methods of Operations Research 60, 2004 (u⁽ᵏ⁾ and the scales); Carlier, Clautiaux & Moukrim, "New reduction procedures and lower
 * bounds for the two-dimensional bin packing problem with fixed orientation", Computers & Operations Research 34, 2007 (f₀ᵏ, f₂ᵏ).
 * All three are superadditive on 0 … C, so that a sheet shorter than C measures f(its length).
 */
export type Measure = (x: number) => number;

/** f₀ᵏ: nearly the whole counts as the whole, pieces below k as nothing. 0 ≤ k ≤ C/2. Scaled so that f(C) = 1. */
export const threshold =
  (C: number, k: number): Measure =>
  (x) =>
    x > C - k ? 1 : x < k ? 0 : x / C;

/** u⁽ᵏ⁾: rounds (k+1)·x/C down where it is not whole. k ≥ 1. */
export const rounded =
  (C: number, k: number): Measure =>
  (x) => {
    const whole = ((k + 1) * x) % C === 0;
    return whole ? x / C : Math.floor(((k + 1) * x) / C) / k;
  };

/** f₂ᵏ: counts how many k fit into a piece, from the far side for pieces beyond the half. 1 ≤ k ≤ C/2. */
export const counted = (C: number, k: number): Measure => {
  const all = Math.floor(C / k);
  return (x) => {
    if (2 * x > C) return (all - Math.floor((C - x) / k)) / all;
    if (2 * x === C) return 0.5;
    return Math.floor(x / k) / all;
  };
};

/** A fair choice of measures for pieces of the given lengths on stock of length C: at most about `most` of each family. */
export function measures(C: number, lengths: readonly number[], most: number): readonly Measure[] {
  // Thousands of lengths are no rarity, and a set of them takes longer than all that is made of it.
  const half = new Float64Array(2 * lengths.length);
  let count = 0;
  const add = (k: number): void => {
    if (k >= 1 && 2 * k <= C) half[count++] = k;
  };
  for (const x of lengths) {
    if (x >= C) continue;
    const nearer = Math.min(x, C - x);
    add(nearer);
    // Just above: pieces of this length then count as nothing.
    if (2 * nearer < C) add(nearer + 1);
  }
  const sorted = half.subarray(0, count).sort();
  const steps = thin(
    sorted.filter((k, i) => k !== sorted[i - 1]),
    most,
  );
  const few = Array.from({ length: Math.min(12, most) }, (_, i) => i + 1);
  return [
    threshold(C, 0),
    ...steps.map((k) => threshold(C, k)),
    ...steps.map((k) => counted(C, k)),
    ...few.map((k) => rounded(C, k)),
  ];
}

function thin(sorted: Float64Array, most: number): readonly number[] {
  if (sorted.length <= most) return [...sorted];
  return Array.from({ length: most }, (_, i) => sorted[Math.floor((i * sorted.length) / most)]!);
}
