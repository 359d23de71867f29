import { type Box, cosSin, type Frame, fromRoom, signedArea, toRoom, type Vec3, vec } from '../geometry/index.ts';

/**
 * A box that stands upright, turned about the vertical only: its outline in plan (x east, z south, corners in order round it)
 * and how high it reaches. Every solid of a piece is one, since pieces never lean.
 */
export interface Upright extends Reach {
  readonly corners: readonly PlanPoint[];
  /** The unit vectors across its two pairs of sides: worked out once, asked for often. */
  readonly axes: readonly PlanPoint[];
}
/** How far something reaches: the plan rectangle it lies in, and its lowest and highest point. */
export interface Reach {
  readonly low: number;
  readonly high: number;
  readonly bounds: readonly [minX: number, maxX: number, minZ: number, maxZ: number];
}
export interface PlanPoint {
  readonly x: number;
  readonly z: number;
}

/** A box of a piece's own frame, as it stands in the room. */
export function upright(frame: Frame, { min, max }: Box): Upright {
  const at = (x: number, z: number): PlanPoint => flat(toRoom(frame, vec(x, 0, z)));
  return standingOn(
    [at(min.x, min.z), at(max.x, min.z), at(max.x, max.z), at(min.x, max.z)],
    frame.origin.y + min.y,
    frame.origin.y + max.y,
    frame.turn,
  );
}
const flat = ({ x, z }: Vec3): PlanPoint => ({ x, z });
function standingOn(corners: readonly PlanPoint[], low: number, high: number, turn: number): Upright {
  const [c, s] = cosSin(turn);
  let minX = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let minZ = Number.POSITIVE_INFINITY;
  let maxZ = Number.NEGATIVE_INFINITY;
  for (const { x, z } of corners) {
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minZ = Math.min(minZ, z);
    maxZ = Math.max(maxZ, z);
  }
  return {
    corners,
    low,
    high,
    axes: [
      { x: c, z: s },
      { x: -s, z: c },
    ],
    bounds: [minX, maxX, minZ, maxZ],
  };
}

/** The same upright seen from another frame, e.g. a wall's. */
export function seenFrom(frame: Frame, u: Upright): Upright {
  const turn = (Math.atan2(u.axes[0]!.z, u.axes[0]!.x) * 180) / Math.PI - frame.turn;
  const corners = u.corners.map((c) => flat(fromRoom(frame, vec(c.x, 0, c.z))));
  return standingOn(corners, u.low - frame.origin.y, u.high - frame.origin.y, turn);
}

/** How far an outline reaches along an axis. */
function reach(corners: readonly PlanPoint[], x: number, z: number): number {
  let far = Number.NEGATIVE_INFINITY;
  for (const c of corners) far = Math.max(far, c.x * x + c.z * z);
  return far;
}
/** How far the shadows of two outlines on an axis reach into each other. */
const depthAlong = ({ x, z }: PlanPoint, a: readonly PlanPoint[], b: readonly PlanPoint[]): number =>
  Math.min(reach(a, x, z) + reach(b, -x, -z), reach(b, x, z) + reach(a, -x, -z));

/**
 * How deep two uprights reach into each other, mm: the shortest straight move that parts them; nothing or less when they are apart
 * or only touch.
 *
 * By separating axes: two convex bodies are apart just when their shadows on the normal of some face are. Source: Gottschalk, Lin and
 * Manocha, OBBTree (SIGGRAPH 1996), section 5; the axes of edges against edges fall away, since both stand upright.
 */
export function overlapDepth(a: Upright, b: Upright): number {
  let least = Math.min(a.high - b.low, b.high - a.low);
  if (least <= 0) return least;
  const p = a.bounds;
  const q = b.bounds;
  const apart = Math.min(p[1] - q[0], q[1] - p[0], p[3] - q[2], q[3] - p[2]);
  if (apart <= 0) return apart;
  for (const { axes } of [a, b])
    for (const axis of axes) {
      const depth = depthAlong(axis, a.corners, b.corners);
      if (depth < least) least = depth;
      if (least <= 0) return least;
    }
  return least;
}

/** How far several reach together. */
export const reachOf = (all: readonly Reach[]): Reach => ({
  low: Math.min(...all.map((one) => one.low)),
  high: Math.max(...all.map((one) => one.high)),
  bounds: [
    Math.min(...all.map(({ bounds }) => bounds[0])),
    Math.max(...all.map(({ bounds }) => bounds[1])),
    Math.min(...all.map(({ bounds }) => bounds[2])),
    Math.max(...all.map(({ bounds }) => bounds[3])),
  ],
});

/**
 * Whether the boxes of the room that two uprights lie in overlap: where not, they are apart. Asked of every two pieces of a set, where a
 * number to give back would be an object each time.
 */
export function areNear(a: Reach, b: Reach): boolean {
  const p = a.bounds;
  const q = b.bounds;
  return a.high > b.low && b.high > a.low && p[1] > q[0] && q[1] > p[0] && p[3] > q[2] && q[3] > p[2];
}

/** What two convex outlines share in plan, corners in order; empty when they are apart. By clipping (Sutherland–Hodgman). */
export function sharedOutline(a: readonly PlanPoint[], b: readonly PlanPoint[]): readonly PlanPoint[] {
  const inward = Math.sign(signedArea(b)) || 1;
  let kept: readonly PlanPoint[] = a;
  for (let i = 0; i < b.length; i++) {
    const [from, to] = [b[i]!, b[(i + 1) % b.length]!];
    const side = (p: PlanPoint) => inward * ((to.x - from.x) * (p.z - from.z) - (to.z - from.z) * (p.x - from.x));
    kept = kept.flatMap((p, j) => {
      const q = kept[(j + 1) % kept.length]!;
      const [sp, sq] = [side(p), side(q)];
      const crossing = { x: p.x + ((q.x - p.x) * sp) / (sp - sq), z: p.z + ((q.z - p.z) * sp) / (sp - sq) };
      if (sp >= 0) return sq < 0 ? [p, crossing] : [p];
      return sq >= 0 && sp !== sq ? [crossing] : [];
    });
  }
  return kept;
}

/** A point within what two uprights share: where a note about them points. */
export function sharedPoint(a: Upright, b: Upright): Vec3 {
  const shared = sharedOutline(a.corners, b.corners);
  const outline = shared.length > 0 ? shared : a.corners;
  const y = (Math.max(a.low, b.low) + Math.min(a.high, b.high)) / 2;
  return vec(mean(outline.map((c) => c.x)), y, mean(outline.map((c) => c.z)));
}
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** The least distance from a point in plan to a convex outline; 0 inside it. */
export function distanceTo(corners: readonly PlanPoint[], p: PlanPoint): number {
  const inward = Math.sign(signedArea(corners)) || 1;
  let inside = corners.length > 2;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < corners.length; i++) {
    const [a, b] = [corners[i]!, corners[(i + 1) % corners.length]!];
    const [dx, dz] = [b.x - a.x, b.z - a.z];
    if (inward * (dx * (p.z - a.z) - dz * (p.x - a.x)) < 0) inside = false;
    const squared = dx * dx + dz * dz;
    const t = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.z - a.z) * dz) / squared));
    least = Math.min(least, Math.hypot(p.x - a.x - t * dx, p.z - a.z - t * dz));
  }
  return inside ? 0 : least;
}
