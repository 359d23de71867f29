import { type Box, enclose, fromRoom, toRoom, vec } from '../geometry/index.ts';
import type { Option } from '../plan/index.ts';
import { mm } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { PlacedRoom, PlacedWall, WallFeature } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import type { TrimRun } from './trim.ts';

/** What the trim is laid round. */
export interface Surfaces {
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
}

type Span = readonly [from: number, to: number];

/** Spans less other spans, in order. */
export function less(spans: readonly Span[], taken: readonly Span[]): readonly Span[] {
  return taken.reduce<readonly Span[]>(
    (left, [a, b]) =>
      left.flatMap(([from, to]): readonly Span[] => {
        if (b <= from || a >= to) return [[from, to]];
        return [...(a > from ? [[from, a] as const] : []), ...(b < to ? [[b, to] as const] : [])];
      }),
    spans,
  );
}

const onWall = (wall: PlacedWall, pieces: readonly PlacedPiece[]) =>
  pieces.filter((p) => p.wall?.id === wall.id && p.kind === 'case');

/** Shorter than this no skirting is fitted, mm: the strip beside a door casing. Common practice. */
const SHORTEST = 20;

/** Nearer to a wall than this and a piece touches it, mm. */
const TOUCHES = 5;

/** What of a wall cases and linings cover, those at the walls beside it included: where their bodies touch it. */
const covers = ({ room, pieces }: Surfaces, wall: PlacedWall): readonly Cover[] =>
  covered(pieces, [room], () => {
    const each = pieces.flatMap((piece) =>
      piece.kind === 'case' || piece.kind === 'lining' ? [coversOf(piece, room)] : [],
    );
    return new Map(room.walls.map((w, i) => [w, each.flatMap((covers) => covers[i] ?? [])]));
  }).get(wall)!;
const covered = remember<readonly PlacedPiece[], ReadonlyMap<PlacedWall, readonly Cover[]>>();
/** A piece without what its top reaches over: skirting and mouldings meet the sides and the front under it. */
const bodyOf = (piece: PlacedPiece): Box =>
  bodies(piece, [], () => {
    const { outside, parts } = piece;
    const under = parts.filter((p) => p.role !== 'separate top').map((p) => p.solid.box);
    if (under.length === 0 || under.length === parts.length) return outside;
    const { min, max } = enclose(under);
    return { min: { ...min, y: outside.min.y }, max: { ...max, y: outside.max.y } };
  });
const bodies = remember<PlacedPiece, Box>();

interface Cover {
  readonly x: Span;
  readonly y: Span;
}
const kept = remember<PlacedPiece, readonly (Cover | undefined)[]>();
/** What a piece covers of each wall of its room, in the order of the walls. */
export const coversOf = (piece: PlacedPiece, room: PlacedRoom): readonly (Cover | undefined)[] =>
  kept(piece, [room], () => room.walls.map((wall) => coverOf(wall, piece)));

/** What of a wall a piece covers whose body touches it. */
function coverOf(wall: PlacedWall, piece: PlacedPiece): Cover | undefined {
  const { frame } = piece;
  const { min, max } = bodyOf(piece);
  const at = [min, max].flatMap((a) =>
    [min, max].flatMap((b) => [min, max].map((c) => fromRoom(wall.frame, toRoom(frame, vec(a.x, b.y, c.z))))),
  );
  const range = (axis: 'x' | 'y' | 'z'): Span => [
    Math.min(...at.map((p) => p[axis])),
    Math.max(...at.map((p) => p[axis])),
  ];
  const [x, y, z] = [range('x'), range('y'), range('z')];
  const along: Span = [Math.max(0, x[0]), Math.min(wall.length, x[1])];
  return z[0] < TOUCHES && z[1] > TOUCHES && along[1] > along[0] ? { x: along, y } : undefined;
}

/** The lower edge of an opening or of the casing under it: a window's goes all round, a doorway has none along the floor. */
export const lowestOf = ({ kind, y: [low], trim = mm(0) }: WallFeature): number =>
  kind === 'window' || low > trim ? low - trim : low;

/** A stretch of skirting, with where it begins on its wall, mm. */
export interface SkirtingRun extends TrimRun {
  readonly wall: string;
  readonly from: number;
}

/**
 * Skirting round the room: every stretch of wall at the floor that is free of doors, their casings, standing cases, and linings
 * and vents that reach down to it. A moulding that covers the gap at the end of a case goes down to the floor, and the skirting meets it.
 *
 * @param height of the skirting, mm
 * @param beside how wide that moulding is, mm
 */
export function skirtingRuns({ room, pieces }: Surfaces, height = 100, beside = 0): readonly SkirtingRun[] {
  return room.walls.flatMap((wall, i) => {
    const doors = room.openings
      .filter((o) => o.wall === wall.id && lowestOf(o) < height)
      .map((o): Span => [o.x[0] - (o.trim ?? 0), o.x[1] + (o.trim ?? 0)]);
    const vents = room.services
      .filter((s) => s.wall === wall.id && s.y[0] < height && (s.kind === 'vent' || s.kind === 'return'))
      .map((s): Span => [s.x[0], s.x[1]]);
    const standing = covers({ room, pieces }, wall).flatMap(({ x, y }) => (y[0] < height ? [x] : []));
    const mouldings = caulkRuns({ room, pieces }, wall)
      .filter(({ free, y }) => free && y < height)
      .map(({ free, x }): Span => (free === 'left' ? [x - beside, x] : [x, x + beside]));
    const before = room.walls[(i + room.walls.length - 1) % room.walls.length]!.corner;
    return less([[0, wall.length]], [...doors, ...vents, ...standing, ...mouldings])
      .filter(([from, to]) => to - from >= SHORTEST)
      .map(
        ([from, to], n): SkirtingRun => ({
          id: `${wall.id}-${n + 1}`,
          wall: wall.id,
          from,
          length: to - from,
          ...(from < 0.5 && { start: before }),
          ...(to > wall.length - 0.5 && { end: wall.corner }),
        }),
      );
  });
}

/** mm² of a wall as it is painted: whole but for its openings, since cases and linings come after its last coat. */
export function wallArea({ openings }: PlacedRoom, wall: PlacedWall): number {
  const open = openings.filter((o) => o.wall === wall.id);
  const edges = [0, wall.length, ...open.flatMap(({ x }) => x)]
    .filter((x) => x >= 0 && x <= wall.length)
    .sort((a, b) => a - b);
  return edges.slice(1).reduce((sum, to, i) => {
    const from = edges[i]!;
    const before = open.filter(({ x }) => x[0] < to && x[1] > from).map(({ y }): Span => [y[0], y[1]]);
    return sum + (to - from) * less([[0, wall.height]], before).reduce((s, [low, high]) => s + high - low, 0);
  }, 0);
}

/** Walls an option paints: those its finish names; without one, all where it gives them a colour. */
export const paintedWalls = (option: Option, room: PlacedRoom): readonly PlacedWall[] =>
  room.walls.filter((w) =>
    option.finish
      ? option.finish.walls === 'all' || option.finish.walls?.includes(w.id)
      : option.paint?.walls !== undefined,
  );

/** A straight joint between a case and its wall that is seen: its free ends, and its top below the eye. */
export interface SeenJoint {
  readonly id: string;
  readonly piece: string;
  /** Where it is, by the title of its case. */
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly upright: boolean;
  /** Of one that is upright, on which side of it the wall is free. */
  readonly free?: 'left' | 'right';
}

/** Above this the joint at the top of a case is not seen, mm. Common practice. */
const EYE = 1800;

/** Where the cases of a wall meet it and are seen doing so: what is scribed, covered with a moulding or caulked. */
export function caulkRuns({ pieces }: Surfaces, wall: PlacedWall): readonly SeenJoint[] {
  const own = onWall(wall, pieces);
  return joints(wall, own, () => jointsOf(own, wall));
}
const joints = remember<PlacedWall, readonly SeenJoint[]>();

function jointsOf(own: readonly PlacedPiece[], wall: PlacedWall): readonly SeenJoint[] {
  const cases = own
    .map((p) => {
      const { min, max } = bodyOf(p);
      const at = p.wall!.from;
      const up = p.frame.origin.y - wall.frame.origin.y;
      const high = up + p.outside.max.y;
      const top = p.parts.find((part) => part.role === 'separate top')?.solid.box;
      // a moulding at an end stops under a top that reaches over it
      const ends = (over: number): number => (top && over > 1 ? up + top.min.y : high);
      return {
        id: p.id,
        title: p.title,
        from: at + Math.min(0, min.x),
        to: at + max.x,
        low: up + p.outside.min.y,
        high,
        left: ends(min.x - p.outside.min.x),
        right: ends(p.outside.max.x - max.x),
        above: [at + Math.min(0, p.outside.min.x), at + p.outside.max.x] as const,
      };
    })
    .sort((a, b) => a.from - b.from || a.low - b.low);
  return cases.flatMap(({ id, title, from, to, low, high, left, right, above: over }): readonly SeenJoint[] => {
    const others = cases.filter((c) => c.id !== id);
    const freeAt = (x: number, top: number): readonly Span[] =>
      x < 1 || x > wall.length - 1
        ? []
        : less(
            [[low, top]],
            others.filter((c) => c.from <= x + 1 && c.to >= x - 1).map((c): Span => [c.low, c.high]),
          );
    const joint = (where: string, x: number, y: number, length: number, free?: 'left' | 'right'): SeenJoint => ({
      id: `${where} ${id}`,
      piece: id,
      name: `${where} ${title}`,
      x,
      y,
      length,
      upright: free !== undefined,
      ...(free && { free }),
    });
    const ends = [
      ...freeAt(from, left).map(([y, top]) => joint('left of', from, y, top - y, 'left')),
      ...freeAt(to, right).map(([y, top]) => joint('right of', to, y, top - y, 'right')),
    ];
    const above =
      high > EYE
        ? []
        : less(
            [over],
            others.filter((c) => c.low <= high + 1 && c.high > high + 1).map((c): Span => [c.from, c.to]),
          ).map(([x, end]) => joint('of', x, high, end - x));
    return [...ends, ...above].filter((j) => j.length >= SHORTEST);
  });
}

/**
 * The same as they are covered with a moulding: where a case stands higher than its neighbour, the moulding up its side begins on the one
 * along the neighbour's top.
 */
export function scribeRuns(surfaces: Surfaces, wall: PlacedWall, width: number): readonly SeenJoint[] {
  const joints = caulkRuns(surfaces, wall);
  const tops = joints.filter((j) => !j.upright);
  return joints
    .map((j): SeenJoint => {
      const on = tops.some((t) => near(t.y, j.y) && near(j.free === 'left' ? t.x + t.length : t.x, j.x));
      return j.upright && on ? { ...j, y: j.y + width, length: j.length - width } : j;
    })
    .filter((j) => j.length >= SHORTEST);
}
const near = (a: number, b: number): boolean => Math.abs(a - b) < 1;

/** Nails to a moulding: two every so many mm, into studs and plates. Common practice. */
export const NAIL_SPACING = 400;
