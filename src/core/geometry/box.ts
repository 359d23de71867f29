import { AXES, type Axis, type Vec3, vec } from './vector.ts';

/** An axis-aligned box, from its least corner to its greatest. Empty when any side is not positive. */
export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** Less than a fortieth of a tick (1/640 mm): what float sums of snapped lengths may be off by. */
export const TOLERANCE = 1 / 25_600;

export const box = (min: Vec3, max: Vec3): Box => ({ min, max });
/** From the least corner and the sizes along x, y and z. */
export const boxAt = (x: number, y: number, z: number, width: number, height: number, depth: number): Box =>
  box(vec(x, y, z), vec(x + width, y + height, z + depth));

export const side = (b: Box, axis: Axis): number => b.max[axis] - b.min[axis];
export const isEmpty = (b: Box): boolean => AXES.some((axis) => side(b, axis) <= TOLERANCE);
export const centre = (b: Box): Vec3 => vec((b.min.x + b.max.x) / 2, (b.min.y + b.max.y) / 2, (b.min.z + b.max.z) / 2);
export const move = (b: Box, by: Vec3): Box =>
  box(vec(b.min.x + by.x, b.min.y + by.y, b.min.z + by.z), vec(b.max.x + by.x, b.max.y + by.y, b.max.z + by.z));

/** All eight: bit 0 of a place tells right from left, bit 1 upper from lower, bit 2 front from back. */
export const cornersOf = ({ min, max }: Box): readonly Vec3[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((k) => vec(k & 1 ? max.x : min.x, k & 2 ? max.y : min.y, k & 4 ? max.z : min.z));

/** What both boxes hold; perhaps empty. */
export const intersect = (a: Box, b: Box): Box =>
  box(
    vec(Math.max(a.min.x, b.min.x), Math.max(a.min.y, b.min.y), Math.max(a.min.z, b.min.z)),
    vec(Math.min(a.max.x, b.max.x), Math.min(a.max.y, b.max.y), Math.min(a.max.z, b.max.z)),
  );

/** The least box that holds all of them. */
export function enclose(boxes: readonly Box[]): Box {
  if (boxes.length === 0) throw new RangeError('nothing to enclose');
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (const { min, max } of boxes) {
    [x0, y0, z0] = [Math.min(x0, min.x), Math.min(y0, min.y), Math.min(z0, min.z)];
    [x1, y1, z1] = [Math.max(x1, max.x), Math.max(y1, max.y), Math.max(z1, max.z)];
  }
  return box(vec(x0, y0, z0), vec(x1, y1, z1));
}

/** What is left of `from` without `taken`: at most six boxes that do not overlap. */
export function without(from: Box, taken: Box): readonly Box[] {
  const common = intersect(from, taken);
  if (isEmpty(common)) return isEmpty(from) ? [] : [from];
  const left: Box[] = [];
  let rest = from;
  for (const axis of AXES) {
    const below = { min: rest.min, max: { ...rest.max, [axis]: common.min[axis] } };
    const above = { min: { ...rest.min, [axis]: common.max[axis] }, max: rest.max };
    for (const b of [below, above]) if (!isEmpty(b)) left.push(b);
    rest = { min: { ...rest.min, [axis]: common.min[axis] }, max: { ...rest.max, [axis]: common.max[axis] } };
  }
  return left;
}

/** A box without several others, as boxes that do not overlap. */
export const withoutAll = (from: Box, taken: readonly Box[]): readonly Box[] =>
  taken.reduce<readonly Box[]>((left, t) => left.flatMap((b) => without(b, t)), isEmpty(from) ? [] : [from]);
