import type { KeyboardEvent } from 'preact/compat';
import type { PageView } from '../core/drawing/index.ts';
import { add, toRoom, vec } from '../core/geometry/index.ts';
import type { Outcome } from '../core/outcome.ts';
import type { Edit, Piece, Plan } from '../core/plan/index.ts';
import { isInches, mm } from '../core/quantity/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import { type Found, grownBy, type Place, placeEdits, type Side, sizeEdits } from './arrange.ts';
import { alongWall, type Extent, extentIn, outFromWall, targetsAlong, targetsUp } from './handles.ts';
import { type Caught, catchAt, onGrid, type Target } from './snap.ts';

/** Closer than this on the screen, an edge is caught. */
export const REACH_PX = 7;
/** What dragging moves in when nothing catches, and what the arrow keys move by: small, and with Shift large. mm. */
const gridOf = (plan: Plan): number => (isInches(plan.units.length) ? 25.4 / 8 : 5);
export const stepsOf = (plan: Plan): readonly [number, number] =>
  isInches(plan.units.length) ? [25.4 / 16, 25.4] : [1, 10];

/** What was taken hold of, and where. */
export interface Hand {
  readonly found: Found;
  readonly outcome: Outcome;
  readonly side: Side | undefined;
  readonly x: number;
  readonly y: number;
  /** Real mm for one pixel. */
  readonly perPixel: number;
  edits: readonly Edit[];
  moved: boolean;
}
/** What caught it, in the two directions of a view, and where it comes to: that is known before anything that follows from it. */
export interface Guide {
  readonly u?: Caught;
  readonly v?: Caught;
  readonly comesTo?: Extent;
}

export interface Pulled {
  readonly edits: readonly Edit[];
  readonly guide: Guide;
}

/** Which sides can be pulled in a view. In a plan only those of pieces that stand square to it. */
export function sidesOf(view: PageView, piece: PlacedPiece): readonly Side[] {
  if (view.kind === 'elevation')
    return piece.frame.origin.y > 1 ? ['left', 'right', 'top', 'bottom'] : ['left', 'right', 'top'];
  return piece.frame.turn % 360 === 0 ? ['left', 'right', 'front'] : [];
}
/** Of a piece that is thin the long sides leave nothing of the others but what lies above them. */
export const isEnd = (side: Side, { u, v }: Extent): boolean =>
  (side === 'left' || side === 'right') === u[1] - u[0] > v[1] - v[0];
export function strip(side: Side, { u, v }: Extent, view: PageView): Extent {
  const t = 1.2 * view.ratio;
  if (side === 'left') return { u: [u[0] - t, u[0] + t], v };
  if (side === 'right') return { u: [u[1] - t, u[1] + t], v };
  return side === 'top' ? { u, v: [v[0] - t, v[0] + t] } : { u, v: [v[1] - t, v[1] + t] };
}

/** How much further than it catches a piece has to be lifted to leave the floor. */
const STICKY = 4;

/** Where a piece goes that is dragged by (du, dv), and what caught it. */
export function moved(hand: Hand, view: PageView, du: number, dv: number, reach: number): Pulled {
  const { found, outcome } = hand;
  const piece = found.placed!;
  const grid = gridOf(outcome.plan);
  const to: { -readonly [K in keyof Place]: Place[K] } = {};
  const guide: { u?: Caught; v?: Caught } = {};
  const { min, max } = piece.outside;
  if (found.piece.at) {
    if (view.kind === 'elevation') return { edits: [], guide };
    to.x = onGrid(found.piece.at.x + du, grid);
    to.z = onGrid(found.piece.at.y + dv, grid);
    return placedAt(hand, view, to, guide);
  }
  const { along: dAlong, out: dOut } = view.kind === 'plan' ? alongWall(piece, du, dv) : { along: du, out: 0 };
  if (piece.wall) {
    const start = piece.wall.from + dAlong;
    const caught = caughtAlong(hand, start, reach);
    to.along = caught ? start + caught.by : onGrid(start, grid);
    if (caught && view.kind === 'elevation') guide.u = caught;
  }
  // what stands on the floor is not lifted off it by an unsteady hand
  const sticky = piece.frame.origin.y < 1 ? STICKY : 0.5;
  if (view.kind === 'elevation' && Math.abs(dv) > reach * sticky) {
    const bottom = Math.max(0, piece.frame.origin.y - dv);
    const edges = { start: bottom + min.y, end: bottom + max.y, middle: bottom + (min.y + max.y) / 2 };
    const caught = catchAt(edges, targetsUp(outcome.room, outcome.pieces, piece), reach);
    to.above = caught ? bottom + caught.by : onGrid(bottom, grid);
    if (caught) guide.v = { ...caught, at: -caught.at };
  }
  if (view.kind === 'plan' && Math.abs(dOut) > reach)
    to.out = Math.max(0, onGrid(outFromWall(outcome.room, piece) + dOut, grid));
  return placedAt(hand, view, to, guide);
}

function placedAt({ found, outcome }: Hand, view: PageView, to: Place, guide: Guide): Pulled {
  const edits = placeEdits(outcome, found, to);
  const comesTo = edits.length > 0 ? extentAt(found.placed!, found.piece, outcome, view, to) : undefined;
  return { edits, guide: { ...guide, ...(comesTo && { comesTo }) } };
}

function extentAt(placed: PlacedPiece, said: Piece, { room }: Outcome, view: PageView, to: Place): Extent | undefined {
  const { frame, wall } = placed;
  const { at, on } = said;
  const along = wall && to.along !== undefined ? to.along - wall.from : 0;
  const out = to.out === undefined ? 0 : to.out - outFromWall(room, placed);
  const { x, y, z } = at
    ? add(frame.origin, vec((to.x ?? at.x) - at.x, 0, (to.z ?? at.y) - at.y))
    : toRoom(frame, vec(along, 0, out));
  // what stands on another piece is lifted with that
  const height = to.above === undefined || on !== undefined ? y : to.above;
  return extentIn(view, room, {
    ...placed,
    frame: { ...frame, origin: vec(x, height, z) },
    ...(wall && { wall: { ...wall, from: mm(wall.from + along) } }),
  });
}

function caughtAlong({ found, outcome }: Hand, start: number, reach: number): Caught | undefined {
  const piece = found.placed!;
  const { min, max } = piece.outside;
  const known = targetsAlong(outcome.room, outcome.pieces, piece, max.x - min.x);
  if (!known) return undefined;
  const edges = { start: start + min.x, end: start + max.x, middle: start + (min.x + max.x) / 2 };
  const [edge, even] = [catchAt(edges, known.targets, reach), catchAt({ start: edges.start }, known.starts, reach)];
  if (edge && even) return Math.abs(even.by) < Math.abs(edge.by) ? even : edge;
  return edge ?? even;
}

export function stretched(
  { found, outcome }: Hand,
  view: PageView,
  side: Side,
  du: number,
  dv: number,
  reach: number,
): Pulled {
  const piece = found.placed!;
  const { min, max } = piece.outside;
  const grid = gridOf(outcome.plan);
  const outwards = { left: -du, right: du, top: -dv, bottom: dv, front: dv }[side];
  const size = {
    left: max.x - min.x,
    right: max.x - min.x,
    top: max.y - min.y,
    bottom: max.y - min.y,
    front: max.z - min.z,
  }[side];
  const guide: { u?: Caught; v?: Caught } = {};
  let by = onGrid(size + outwards, grid) - size;
  const catchSide = (edge: number, targets: readonly Target[], sign: 1 | -1): Caught | undefined => {
    const caught = catchAt(
      { end: edge },
      targets.filter((t) => !t.middle),
      reach,
    );
    if (caught) by = outwards + sign * caught.by;
    return caught;
  };
  if ((side === 'left' || side === 'right') && piece.wall && view.kind === 'elevation') {
    const targets = targetsAlong(outcome.room, outcome.pieces, piece, size)?.targets ?? [];
    const edge = piece.wall.from + (side === 'left' ? min.x - outwards : max.x + outwards);
    const caught = catchSide(edge, targets, side === 'left' ? -1 : 1);
    if (caught) guide.u = caught;
  } else if (side === 'top' || side === 'bottom') {
    const edge = piece.frame.origin.y + (side === 'top' ? max.y + outwards : min.y - outwards);
    const caught = catchSide(edge, targetsUp(outcome.room, outcome.pieces, piece), side === 'top' ? 1 : -1);
    if (caught) guide.v = { ...caught, at: -caught.at };
  }
  const grown = grownBy(found, side, by);
  const now = extentIn(view, outcome.room, piece);
  const comesTo = now && grown !== undefined && grownTo(now, side, grown);
  return { edits: sizeEdits(outcome, found, side, by), guide: { ...guide, ...(comesTo && { comesTo }) } };
}

function grownTo({ u, v }: Extent, side: Side, by: number): Extent {
  if (side === 'left') return { u: [u[0] - by, u[1]], v };
  if (side === 'right') return { u: [u[0], u[1] + by], v };
  return { u, v: side === 'top' ? [v[0] - by, v[1]] : [v[0], v[1] + by] };
}

/** Arrows move a piece, with Shift further; with Alt they change its size: right and up larger. */
export function nudged(
  event: KeyboardEvent<HTMLElement>,
  found: Found,
  outcome: Outcome,
  view: PageView,
): readonly Edit[] | undefined {
  const directions: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const direction = directions[event.key];
  const piece = found.placed;
  if (!direction || !piece || event.ctrlKey || event.metaKey) return undefined;
  const step = stepsOf(outcome.plan)[event.shiftKey ? 1 : 0]!;
  const [du, dv] = [direction[0] * step, direction[1] * step];
  if (event.altKey)
    return du !== 0
      ? sizeEdits(outcome, found, 'right', du)
      : sizeEdits(outcome, found, view.kind === 'elevation' ? 'top' : 'front', view.kind === 'elevation' ? -dv : dv);
  if (found.piece.at)
    return view.kind === 'elevation'
      ? []
      : placeEdits(outcome, found, { ...(du !== 0 ? { x: found.piece.at.x + du } : { z: found.piece.at.y + dv }) });
  if (!piece.wall) return [];
  if (view.kind === 'elevation')
    return placeEdits(
      outcome,
      found,
      du !== 0 ? { along: piece.wall.from + du } : { above: Math.max(0, piece.frame.origin.y - dv) },
    );
  const { along, out } = alongWall(piece, du, dv);
  return placeEdits(
    outcome,
    found,
    Math.abs(along) > Math.abs(out)
      ? { along: piece.wall.from + along }
      : { out: Math.max(0, (found.piece.out ?? 0) + out) },
  );
}
