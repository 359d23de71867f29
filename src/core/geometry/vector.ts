/**
 * One convention everywhere, the one of glTF: right-handed, y up. Facing a wall, x runs to the right along it, y up, z out of it
 * towards whoever looks. In the room x runs east, y up and z south, so that a plan drawn with north up is (x, z) as it stands.
 * All in millimetres.
 */
export interface Vec3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}
export type Axis = 'x' | 'y' | 'z';
export const AXES: readonly Axis[] = ['x', 'y', 'z'];

export const vec = (x: number, y: number, z: number): Vec3 => ({ x, y, z });
export const add = (a: Vec3, b: Vec3): Vec3 => vec(a.x + b.x, a.y + b.y, a.z + b.z);
export const subtract = (a: Vec3, b: Vec3): Vec3 => vec(a.x - b.x, a.y - b.y, a.z - b.z);
export const scale = (a: Vec3, by: number): Vec3 => vec(a.x * by, a.y * by, a.z * by);
export const dot = (a: Vec3, b: Vec3): number => a.x * b.x + a.y * b.y + a.z * b.z;
export const cross = (a: Vec3, b: Vec3): Vec3 =>
  vec(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
export const magnitude = (a: Vec3): number => Math.hypot(a.x, a.y, a.z);

/** Where a piece stands: its own origin in the room, and how far its x axis is turned from east, in degrees clockwise seen from above. */
export interface Frame {
  readonly origin: Vec3;
  readonly turn: number;
}

/** Cosine and sine of an angle in degrees, exact at the quarter turns so that square rooms stay square. */
export function cosSin(degrees: number): readonly [number, number] {
  const turn = ((degrees % 360) + 360) % 360;
  if (turn === 0) return [1, 0];
  if (turn === 90) return [0, 1];
  if (turn === 180) return [-1, 0];
  if (turn === 270) return [0, -1];
  const angle = (turn * Math.PI) / 180;
  return [Math.cos(angle), Math.sin(angle)];
}

/** A point of a piece, in the room. */
export function toRoom(frame: Frame, p: Vec3): Vec3 {
  const [c, s] = cosSin(frame.turn);
  return vec(frame.origin.x + c * p.x - s * p.z, frame.origin.y + p.y, frame.origin.z + s * p.x + c * p.z);
}

/** A point of the room, in a piece's own frame. Undoes `toRoom`. */
export function fromRoom(frame: Frame, p: Vec3): Vec3 {
  const [c, s] = cosSin(frame.turn);
  const [dx, dz] = [p.x - frame.origin.x, p.z - frame.origin.z];
  return vec(c * dx + s * dz, p.y - frame.origin.y, -s * dx + c * dz);
}
