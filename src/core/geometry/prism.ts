import type { Box } from './box.ts';
import { type Vec3, vec } from './vector.ts';

/** A room as a prism: any plan outline, upright walls, level floor and ceiling. Lengths mm. */
export interface Prism {
  /** Corners of the floor, either way round; not crossing itself. */
  readonly outline: readonly { readonly x: number; readonly z: number }[];
  readonly height: number;
}
export interface Face {
  /** 'floor', 'ceiling' or 'wall 0' …: wall k runs from corner k to the next. */
  readonly id: string;
  /** A point of the face and its normal, of length 1, into the room. */
  readonly point: Vec3;
  readonly normal: Vec3;
}

export function facesOf({ outline, height }: Prism): readonly Face[] {
  const area = signedArea(outline);
  if (outline.length < 3 || area === 0)
    throw new RangeError('a room needs at least three corners that are not on one line');
  const turn = Math.sign(area);
  const walls = outline.map((a, k): Face => {
    const b = outline[(k + 1) % outline.length]!;
    const length = Math.hypot(b.x - a.x, b.z - a.z);
    if (length === 0) throw new RangeError(`corners ${k} and ${k + 1} are the same`);
    // Inward normal: to the left of the way round when the area is positive in (x, z).
    return {
      id: `wall ${k}`,
      point: vec(a.x, 0, a.z),
      normal: vec((-turn * (b.z - a.z)) / length, 0, (turn * (b.x - a.x)) / length),
    };
  });
  return [
    { id: 'floor', point: vec(0, 0, 0), normal: vec(0, 1, 0) },
    { id: 'ceiling', point: vec(0, height, 0), normal: vec(0, -1, 0) },
    ...walls,
  ];
}

/** Area of a flat outline, in the square of its unit: positive when it runs from x towards the other axis. Source: the shoelace formula. */
const areaWithin = <P extends { readonly x: number }>(outline: readonly P[], other: (p: P) => number): number =>
  outline.reduce((sum, a, k) => {
    const b = outline[(k + 1) % outline.length]!;
    return sum + (a.x * other(b) - b.x * other(a)) / 2;
  }, 0);
/** Of an outline on the floor: positive when it runs from x towards z, clockwise seen from above. */
export const signedArea = (outline: Prism['outline']): number => areaWithin(outline, (p) => p.z);
/** Of an outline on paper or any other flat of x and y: positive when it runs from x towards y. */
export const flatArea = (outline: readonly { readonly x: number; readonly y: number }[]): number =>
  areaWithin(outline, (p) => p.y);

/** Of a room's floor, and of its ceiling, m². */
export const floorArea = ({ outline }: Pick<Prism, 'outline'>): number => Math.abs(signedArea(outline)) / 1e6;
/** Volume, m³. */
export const roomVolume = (room: Prism): number => (floorArea(room) * room.height) / 1000;
/** Area of each face, m², in the order of `facesOf`. */
export function faceAreas(room: Prism): readonly number[] {
  const floor = floorArea(room);
  return [
    floor,
    floor,
    ...room.outline.map((a, k) => {
      const b = room.outline[(k + 1) % room.outline.length]!;
      return (Math.hypot(b.x - a.x, b.z - a.z) * room.height) / 1e6;
    }),
  ];
}

/** Whether a point is inside the room (not on its faces). */
export function isInside(room: Prism, p: Vec3): boolean {
  if (!(p.y > 0 && p.y < room.height)) return false;
  return insideOutline(room.outline, p.x, p.z);
}
export function insideOutline(outline: Prism['outline'], x: number, z: number): boolean {
  let inside = false;
  for (let k = 0, j = outline.length - 1; k < outline.length; j = k++) {
    const [a, b] = [outline[k]!, outline[j]!];
    if (a.z > z !== b.z > z && x < a.x + ((b.x - a.x) * (z - a.z)) / (b.z - a.z)) inside = !inside;
  }
  return inside;
}

/** Whether the straight way from a to b leaves the room through a wall (in plan) or meets a box. Ends that lie on faces do not count. */
export function isBlocked(room: Prism, a: Vec3, b: Vec3, boxes: readonly Box[] = []): boolean {
  const [dx, dz] = [b.x - a.x, b.z - a.z];
  const n = room.outline.length;
  for (let k = 0; k < n; k++) {
    const p = room.outline[k]!;
    const q = room.outline[(k + 1) % n]!;
    const [ex, ez] = [q.x - p.x, q.z - p.z];
    const cross = dx * ez - dz * ex;
    if (Math.abs(cross) < 1e-12) continue;
    const t = ((p.x - a.x) * ez - (p.z - a.z) * ex) / cross; // along the way
    const s = ((p.x - a.x) * dz - (p.z - a.z) * dx) / cross; // along the wall
    if (t > 1e-7 && t < 1 - 1e-7 && s >= 0 && s <= 1) return true;
  }
  return boxes.some((box) => meetsBox(a, b, box));
}

/** Whether the straight way from a to b passes through a box. Ends on its surface do not count. */
export const meetsBox = (a: Vec3, b: Vec3, box: Box): boolean => crossesBox(box, a.x, a.y, a.z, b.x, b.y, b.z);

/** `meetsBox` where rays are counted by the million: most boxes lie beside the way and are told at once. */
export function crossesBox(
  { min, max }: Box,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
): boolean {
  if (ax < min.x && bx < min.x) return false;
  if (ax > max.x && bx > max.x) return false;
  if (ay < min.y && by < min.y) return false;
  if (ay > max.y && by > max.y) return false;
  if (az < min.z && bz < min.z) return false;
  if (az > max.z && bz > max.z) return false;
  let from = 1e-7;
  let to = 1 - 1e-7;
  const dx = bx - ax;
  if (Math.abs(dx) < 1e-12) {
    if (ax <= min.x || ax >= max.x) return false;
  } else {
    const [t0, t1] = [(min.x - ax) / dx, (max.x - ax) / dx];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  const dy = by - ay;
  if (Math.abs(dy) < 1e-12) {
    if (ay <= min.y || ay >= max.y) return false;
  } else {
    const [t0, t1] = [(min.y - ay) / dy, (max.y - ay) / dy];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  const dz = bz - az;
  if (Math.abs(dz) < 1e-12) {
    if (az <= min.z || az >= max.z) return false;
  } else {
    const [t0, t1] = [(min.z - az) / dz, (max.z - az) / dz];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  return from < to;
}
