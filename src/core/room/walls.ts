import { fromRoom, toRoom, type Vec3, vec } from '../geometry/index.ts';
import { isInside } from './outline.ts';
import type { PlacedRoom, PlacedWall, Placing, WallFeature } from './room.ts';

export const wallOf = (room: PlacedRoom, id: string): PlacedWall | undefined => room.walls.find((w) => w.id === id);

/** The wall that begins where this one ends, to the right of whoever faces it. */
export function wallAfter(room: PlacedRoom, id: string): PlacedWall | undefined {
  const i = room.walls.findIndex((w) => w.id === id);
  return i < 0 ? undefined : room.walls[(i + 1) % room.walls.length];
}
export function wallBefore(room: PlacedRoom, id: string): PlacedWall | undefined {
  const i = room.walls.findIndex((w) => w.id === id);
  return i < 0 ? undefined : room.walls[(i - 1 + room.walls.length) % room.walls.length];
}

/** A point so far along a wall, up it and out of it, in the room. */
export const pointOnWall = (wall: Pick<PlacedWall, 'frame'>, x: number, y: number, out = 0): Vec3 =>
  toRoom(wall.frame, vec(x, y, out));

/** Between floor and ceiling and inside the walls, or outside by no more than `tolerance` mm. */
export const isInRoom = (room: PlacedRoom, p: Vec3, tolerance = 0): boolean =>
  p.y >= -tolerance && p.y <= room.ceiling + tolerance && isInside(room.outline, p, tolerance);

/** What the wall behind a piece carries, in the piece's own frame: for cut-outs, rods and fixings. */
export interface WallBehind {
  readonly features: readonly WallFeature[];
  readonly studs: PlacedWall['studs'];
  /** How far the piece's own origin stands out from the wall. */
  readonly out: number;
}

/**
 * Openings, services and studs of the wall a piece stands at, with x and y measured in the piece's own frame and only those
 * that reach into its width and height. Nothing for a piece that stands free.
 */
export function onWallBehind(
  room: PlacedRoom,
  placing: Placing,
  size: { readonly width: number; readonly height: number },
): WallBehind | undefined {
  const wall = placing.wall && wallOf(room, placing.wall.id);
  if (!wall) return undefined;
  const origin = fromRoom(wall.frame, placing.frame.origin);
  const features = [...room.openings, ...room.services]
    .filter((f) => f.wall === wall.id)
    .map((f) => ({ ...f, x: shift(f.x, origin.x), y: shift(f.y, origin.y) }))
    .filter((f) => f.x[0] < size.width && f.x[1] > 0 && f.y[0] < size.height && f.y[1] > 0);
  const studs = wall.studs
    .map((stud) => ({ ...stud, at: (stud.at - origin.x) as typeof stud.at }))
    .filter((stud) => stud.at > -stud.width / 2 && stud.at < size.width + stud.width / 2);
  return { features, studs, out: origin.z };
}

const shift = (range: WallFeature['x'], by: number): WallFeature['x'] =>
  [range[0] - by, range[1] - by] as unknown as WallFeature['x'];
