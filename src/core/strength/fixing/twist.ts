import { formula } from '../../notes/index.ts';
import { STANDARD_GRAVITY } from '../../quantity/index.ts';
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

export const fixingTwist = formula({
  name: 'fixing-twist',
  title: 'Shear of fixings beside which a weight hangs',
  topic: 'strength',
  about: 'What each of a group of fixings carries along the wall where the weight hangs to one side of their middle.',
  formula: 'V_i = √((m g/n + k (x_i − x_c))² + k² (y_i − y_c)²),  k = m g a/Σr²',
  inputs: {
    load: { dimension: 'mass', about: 'mass of all that hangs', symbol: 'm', above: 0 },
    at: { dimension: 'length', about: 'where along the wall its middle hangs', symbol: 'x_m' },
    across: { dimension: 'length', about: 'where along the wall each fixing sits', symbol: 'x', list: true },
    up: { dimension: 'length', about: 'how high each of them sits, in the same order', symbol: 'y', list: true },
  },
  result: { symbol: 'V', name: 'shear of the most loaded fixing', dimension: 'force' },
  source: {
    title: 'AISC Steel Construction Manual',
    place: 'part 7, eccentrically loaded bolt groups, elastic method',
  },
  caution:
    'What hangs overhead can kill. Check what is really behind the board, drill no cable or pipe, and follow local codes; heavy or public loads are for a licensed engineer.',
  assumes: [
    'a stiff plate that turns about the middle of its fixings, which are all alike; its pull out of the wall is another sum',
  ],
  compute: (v) => {
    if (v.across.length !== v.up.length) throw new RangeError('give as many heights as places along the wall');
    const holes = v.across.map((x, i) => ({ x, y: v.up[i]! }));
    const { offset, polar, shears } = twisted(v.load * STANDARD_GRAVITY, v.at, holes);
    const value = Math.max(...shears);
    if (!Number.isFinite(value)) throw new RangeError('it hangs beside its one fixing, and turns about it');
    return {
      value,
      also: [
        { symbol: 'a', name: 'weight beside the middle of the fixings', value: Math.abs(offset), unit: 'mm' },
        { symbol: 'Σr²', name: 'fixings about their middle', value: polar, unit: 'mm²' },
        ...shears.map((V, i) => ({ symbol: `V${i + 1}`, name: `shear of fixing ${i + 1}`, value: V, unit: 'N' })),
      ],
    };
  },
});
