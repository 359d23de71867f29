import type { DisplayPiece, Piece, Wall } from '../../plan/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import type { Subject, WallInput } from '../plan-input.ts';
import type { Fixing } from './fastener.ts';
import { type Group, hold } from './group.ts';
import { type Hole, isHeld, isScrew, type PieceFixing } from './point.ts';
import type { Through } from './through.ts';

/** Two fixings in one stud stand this far from the ends of a plate, mm. */
const FROM_END = 15;

/** Slots of a plate end this far from its ends, mm. Common practice. */
const SLOT_END = 10;

/** A plate where the plan gives none, mm. Common practice; the maker's own drawing is better. */
const PLATES = { arm: { width: 90, height: 240 }, other: { width: 450, height: 200 } } as const;

/** A display's wall plate, as the plan gives it or as is usual. */
function plateOf({ mount }: DisplayPiece): { readonly width: number; readonly height: number } {
  const arm = mount?.kind === 'arm';
  const usual = PLATES[arm ? 'arm' : 'other'];
  return {
    width: mount?.plate?.width ?? Math.max(usual.width, arm ? 0 : (mount?.holes?.width ?? 0)),
    height: mount?.plate?.height ?? usual.height,
  };
}

function displayGroup(
  subject: Subject,
  said: DisplayPiece,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  shift = 0,
): Group {
  const { placed } = subject;
  const { mount } = said;
  const arm = mount?.kind === 'arm';
  const { width, height } = plateOf(said);
  const left = placed.wall!.from;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const centre = { x: left + said.size.width / 2 + shift, y: bottom + said.size.height / 2 };
  const out = arm ? (mount.reach ?? 0) : (said.out ?? 0);
  const hanging = {
    mass: said.mass + (mount?.mass ?? 0),
    at: left + said.size.width / 2,
    reach: out + said.size.depth / 2,
    edge: centre.y - height / 2,
  };
  const rows = said.fix?.heights?.map((h) => bottom + h) ?? [
    centre.y + height / 2 - FROM_END,
    centre.y - height / 2 + FROM_END,
  ];
  const columns = columnsOf(said, left, [centre.x - width / 2, centre.x + width / 2], wall, saidWall, fixing, centre.x);
  const holes = columns.flatMap((x) => rows.map((y) => ({ x, y })));
  const count = said.fix?.count;
  return { holes: count === undefined ? holes : holesOf(columns, rows, count, centre), hanging };
}

/** Plate to leave beside the middle of a rail that hangs on it, mm. Common practice. */
const RAIL = 20;

/**
 * How far the plate may sit beside the display's centre, either way: the display hangs on it by two rails, as far apart as its hole
 * pattern, that hook on anywhere along the plate. An arm stands in the middle of its plate, and where the pattern or the plate is
 * not known nobody can say.
 */
function slideOf({ mount, fix }: DisplayPiece): number {
  if (mount?.kind === 'arm' || !mount?.holes || !mount.plate || fix?.at) return 0;
  return Math.max(0, (mount.plate.width - mount.holes.width) / 2 - RAIL);
}

/** Fixings may stand this far beside the weight, mm: the twist is reckoned, but plates are not made for more. Common practice. */
const ASIDE = 100;

/** The display's plate where most of its fixings land in wood or steel: in its middle, unless sliding it gains some and costs nothing. */
export function slid(
  input: WallInput,
  subject: Subject,
  said: DisplayPiece,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  through: Through,
): PieceFixing {
  const at = (shift: number) => {
    const { holes, hanging } = displayGroup(subject, said, wall, saidWall, fixing, shift);
    const held = hold(input.room, subject, wall, saidWall, fixing, holes, hanging, through);
    const landed = held.points.filter(isHeld).map((p) => p.x);
    return {
      held: shift === 0 ? held : { ...held, shift },
      landed: landed.length,
      use: held.use ?? Number.POSITIVE_INFINITY,
      // the weight may not come to hang further beside the stretch they span
      beside: Math.max(0, Math.min(...landed) - centre, centre - Math.max(...landed)),
    };
  };
  const centre = subject.placed.wall!.from + said.size.width / 2;
  const limit = slideOf(said);
  const centred = at(0);
  if (limit === 0 || !isScrew(fixing.kind) || saidWall.framing?.kind === 'masonry') return centred.held;
  const half = plateOf(said).width / 2 - SLOT_END;
  // a stud comes into the slots at either end of the plate, or under its middle
  const shifts = wall.studs
    .flatMap((stud) => [stud.at - centre - half, stud.at - centre + half, stud.at - centre])
    .filter((shift) => Math.abs(shift) <= limit)
    .sort((a, b) => Math.abs(a) - Math.abs(b) || a - b);
  return shifts
    .map(at)
    .reduce(
      (best, tried) =>
        tried.landed > best.landed && tried.use <= best.use && tried.beside <= Math.min(ASIDE, best.beside) + 1e-6
          ? tried
          : best,
      centred,
    ).held;
}

/** So many of a plate's holes: one over another for two, else round its edge. */
function holesOf(
  columns: readonly number[],
  rows: readonly number[],
  count: number,
  centre: { x: number; y: number },
): readonly Hole[] {
  if (count === 1) return [{ x: centre.x, y: Math.max(...rows) }];
  if (count === 2) return rows.slice(0, 2).map((y) => ({ x: columns.length === 1 ? columns[0]! : centre.x, y }));
  const all = columns.flatMap((x) => rows.map((y) => ({ x, y })));
  return all.slice(0, count);
}

/** Where along the wall a plate is fixed: at the studs its slots reach, or near its ends where there are none to hit. */
function columnsOf(
  said: Piece,
  left: number,
  [from, to]: readonly [number, number],
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
  centre: number,
): readonly number[] {
  if (said.fix?.at) return said.fix.at.map((x) => left + x);
  const ends = to - from < 4 * FROM_END + 40 ? [centre] : [from + FROM_END, to - FROM_END];
  if (!isScrew(fixing.kind) || saidWall.framing?.kind === 'masonry') return ends;
  const slots = wall.studs.map((s) => s.at).filter((at) => at >= from + SLOT_END - 1e-6 && at <= to - SLOT_END + 1e-6);
  if (slots.length > 0) return slots.length > 1 ? [slots[0]!, slots.at(-1)!] : slots;
  return ends;
}
