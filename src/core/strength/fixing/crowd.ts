import { type FixKind, type Hole, isScrew } from './point.ts';

/**
 * Anchors stand at least so many diameters apart: nearer ones break out the same piece of wall.
 * Source: ACI 318-19, table 17.9.2(a), of post-installed anchors in concrete; taken for plugs in brick and for anchors in board too,
 * of which the packet may ask more.
 */
const APART = 6;

/** How far apart the centres of fixings of a kind must stand to count each, mm; screws in framing are not asked. */
export const apartOf = (kind: FixKind, diameter: number): number => (isScrew(kind) ? 0 : APART * diameter);

/** Of the holes in their order, those that stand far enough from every one that counts before them. */
export function uncrowded<T extends { readonly hole: Hole }>(holes: readonly T[], apart: number): readonly T[] {
  const counted: T[] = [];
  for (const one of holes)
    if (counted.every(({ hole }) => Math.hypot(hole.x - one.hole.x, hole.y - one.hole.y) >= apart - 1e-6))
      counted.push(one);
  return counted;
}
