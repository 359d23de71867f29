import type { PageView } from '../core/drawing/index.ts';
import { type Box, fromRoom, toRoom, vec } from '../core/geometry/index.ts';
import type { PlacedRoom, PlacedWall } from '../core/room/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import { equalSpacing, type Interval, type Target } from './snap.ts';

/** A rectangle of a view, in its own u and v (mm): u to the right, v down. */
export interface Extent {
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
}

/** What a piece, or a bay of it, covers in a view; undefined when it does not show there. */
export function extentIn(
  view: PageView,
  room: PlacedRoom,
  piece: PlacedPiece,
  box: Box = piece.outside,
): Extent | undefined {
  if (view.kind === 'elevation') {
    if (piece.wall?.id !== view.wall) return undefined;
    const up = piece.frame.origin.y;
    return {
      u: [piece.wall!.from + box.min.x, piece.wall!.from + box.max.x],
      v: [-(up + box.max.y), -(up + box.min.y)],
    };
  }
  if (room.outline.length < 3) return undefined;
  const corners = [box.min.x, box.max.x].flatMap((x) =>
    [box.min.z, box.max.z].map((z) => toRoom(piece.frame, vec(x, 0, z))),
  );
  const [xs, zs] = [corners.map((c) => c.x), corners.map((c) => c.z)];
  return { u: [Math.min(...xs), Math.max(...xs)], v: [Math.min(...zs), Math.max(...zs)] };
}

/** How near the eye a piece is in a view: what is nearer lies on top. */
export function nearness(view: PageView, piece: PlacedPiece): number {
  return view.kind === 'plan' ? piece.frame.origin.y + piece.outside.max.y : piece.outside.max.z + outOf(piece);
}
const outOf = (piece: PlacedPiece): number => (piece.kind === 'display' ? 1 : piece.kind === 'lining' ? -1000 : 0);

/** A move on the paper as a move of the piece: along its wall and out of it. */
export function alongWall(
  piece: PlacedPiece,
  du: number,
  dv: number,
): { readonly along: number; readonly out: number } {
  const { origin, turn } = piece.frame;
  const moved = fromRoom({ origin, turn }, vec(origin.x + du, origin.y, origin.z + dv));
  return { along: moved.x, out: moved.z };
}

/** How far the back of a piece stands out from its wall, mm. */
export function outFromWall(room: PlacedRoom, { wall, frame }: PlacedPiece): number {
  const own = room.walls.find((w) => w.id === wall?.id);
  return own ? fromRoom(own.frame, frame.origin).z : 0;
}

/** What a piece may be caught on along a wall. */
export function targetsAlong(
  room: PlacedRoom,
  pieces: readonly PlacedPiece[],
  piece: PlacedPiece,
  width: number,
): { readonly wall: PlacedWall; readonly targets: readonly Target[]; readonly starts: readonly Target[] } | undefined {
  const wall = room.walls.find((w) => w.id === piece.wall?.id);
  if (!wall) return undefined;
  const others = pieces.filter((p) => p.id !== piece.id && p.wall?.id === wall.id);
  const level = (p: PlacedPiece): boolean =>
    p.frame.origin.y + p.outside.min.y < piece.frame.origin.y + piece.outside.max.y &&
    piece.frame.origin.y + piece.outside.min.y < p.frame.origin.y + p.outside.max.y;
  const interval = (p: PlacedPiece): Interval => ({
    start: p.wall!.from + p.outside.min.x,
    end: p.wall!.from + p.outside.max.x,
    name: p.title,
  });
  const targets: Target[] = [
    { at: 0, what: 'left end of the wall' },
    { at: wall.length, what: 'right end of the wall' },
    { at: wall.length / 2, what: 'middle of the wall', middle: true },
  ];
  for (const p of others) {
    const { start, end } = interval(p);
    targets.push({ at: start, what: `left end of ${p.title}` }, { at: end, what: `right end of ${p.title}` });
    targets.push({ at: (start + end) / 2, what: `middle of ${p.title}`, middle: true });
  }
  for (const o of room.openings.filter((f) => f.wall === wall.id)) {
    targets.push({ at: o.x[0], what: `left of ${o.id}` }, { at: o.x[1], what: `right of ${o.id}` });
    targets.push({ at: (o.x[0] + o.x[1]) / 2, what: `middle of ${o.id}`, middle: true });
  }
  for (const [i, stud] of wall.studs.entries()) targets.push({ at: stud.at, what: `stud ${i + 1}` });
  return { wall, targets, starts: equalSpacing(width, others.filter(level).map(interval), [0, wall.length]) };
}

/** What a piece may be caught on between floor and ceiling. */
export function targetsUp(room: PlacedRoom, pieces: readonly PlacedPiece[], piece: PlacedPiece): readonly Target[] {
  const wall = room.walls.find((w) => w.id === piece.wall?.id);
  if (!wall) return [];
  const targets: Target[] = [
    { at: 0, what: 'floor' },
    { at: wall.height, what: 'ceiling' },
  ];
  for (const p of pieces)
    if (p.id !== piece.id && p.wall?.id === wall.id) {
      const bottom = p.frame.origin.y + p.outside.min.y;
      const top = p.frame.origin.y + p.outside.max.y;
      targets.push({ at: top, what: `top of ${p.title}` }, { at: bottom, what: `bottom of ${p.title}` });
      targets.push({ at: (top + bottom) / 2, what: `mid-height of ${p.title}`, middle: true });
    }
  for (const o of room.openings.filter((f) => f.wall === wall.id))
    targets.push({ at: o.y[0], what: `sill of ${o.id}` }, { at: o.y[1], what: `head of ${o.id}` });
  return targets;
}
