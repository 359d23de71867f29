import type { Hole } from './point.ts';

/** What a weight beside a group of fixings asks of them along the wall. */
export interface Twist {
  /** How far the weight hangs beside the middle of the fixings, mm. */
  readonly offset: number;
  /** Σ of the squares of their distances from that middle, mm². */
  readonly polar: number;
  /** Along the wall, of each: its share of the weight and what the turning asks, as vectors; N. */
  readonly shears: readonly number[];
}

/**
 * Elastic method for fixings whose load runs beside their centroid: each takes an even share of the weight, and of the moment
 * M r/Σr² square to its distance r from the centroid. In one point they can take no moment: more than any finite shear.
 * Source: AISC Steel Construction Manual, part 7, eccentrically loaded bolt groups, elastic method.
 */
export function twisted(weight: number, at: number, holes: readonly Hole[]): Twist {
  const n = holes.length;
  const x = holes.reduce((sum, hole) => sum + hole.x, 0) / n;
  const y = holes.reduce((sum, hole) => sum + hole.y, 0) / n;
  const offset = Math.abs(at - x) < 1e-6 ? 0 : at - x;
  const polar = holes.reduce((sum, hole) => sum + (hole.x - x) ** 2 + (hole.y - y) ** 2, 0);
  const turn = weight * offset;
  const shears = holes.map((hole) => {
    if (turn === 0) return weight / n;
    if (polar < 1e-6) return Number.POSITIVE_INFINITY;
    return Math.hypot(weight / n + (turn * (hole.x - x)) / polar, (turn * (hole.y - y)) / polar);
  });
  return { offset, polar, shears };
}
