import { toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { PlacedRoom, PlacedWall } from './room.ts';

export const wallOf = (room: PlacedRoom, id: string): PlacedWall | undefined => room.walls.find((w) => w.id === id);

/** The wall that ends where this one begins, to the left of whoever faces it. */
export function wallBefore(room: PlacedRoom, id: string): PlacedWall | undefined {
  const i = room.walls.findIndex((w) => w.id === id);
  return i < 0 ? undefined : room.walls[(i - 1 + room.walls.length) % room.walls.length];
}

/** A point so far along a wall, up it and out of it, in the room. */
export const pointOnWall = (wall: Pick<PlacedWall, 'frame'>, x: number, y: number, out = 0): Vec3 =>
  toRoom(wall.frame, vec(x, y, out));
