import { hangsNowhere, isMade, type PlacedPiece } from '../../scene/index.ts';
import { settingOut } from '../../setting-out/index.ts';
import { raisedByTwo, subjectsOf, type WallInput } from '../../strength/index.ts';
import type { Errands } from './errands.ts';
import type { Job } from './job.ts';
import { type After, after } from './list.ts';
import { type MadePiece, titleOf } from './making.ts';
import type { TasksInput } from './task.ts';

/** A share of the fitting of a piece is its carrying in, the rest its levelling and fixing. Common practice. */
const CARRYING = 1 / 3;

export interface Fitted {
  /** The walls are marked. */
  readonly marked: After | undefined;
  /** The last tasks of all that was fitted. */
  readonly all: readonly (number | undefined)[];
  /** Pieces that stand or hang, trim and displays left out. */
  readonly fixed: ReadonlyMap<string, number | undefined>;
}
interface Before {
  readonly errands: Errands;
  readonly made: ReadonlyMap<string, MadePiece>;
  readonly fronts: ReadonlyMap<string, readonly After[]>;
  /** Walls and ceiling are painted. */
  readonly ready: After | undefined;
}

/** Into the room: marks, pieces, displays and strip lights. */
export function fittingTasks(job: Job, before: Before): Fitted {
  const pieces = job.input.pieces.filter(isMade);
  const marked = after(setOutWalls(job, before.ready)) ?? before.ready;
  const all: (number | undefined)[] = [];
  const fixed = new Map<string, number | undefined>();
  for (const piece of pieces.filter((p) => p.kind !== 'display' && p.kind !== 'trim')) {
    if (hangsNowhere(piece)) continue;
    if (piece.kind === 'absorber') all.push(lineWall(job, before, piece, marked));
    else {
      const fix = fixPiece(job, before, piece, marked);
      fixed.set(piece.id, fix);
      all.push(fix, hangFronts(job, before, piece, fix));
    }
  }
  for (const piece of pieces.filter((p) => p.kind === 'display')) {
    // what stands behind or under it is fixed first
    const near = pieces.filter((p) => p !== piece && shareWall(p, piece)).map((p) => after(fixed.get(p.id)));
    all.push(...mountDisplay(job, piece, [marked, ...before.errands.packs, ...near]));
  }
  all.push(...stripTasks(job, before, fixed));
  return { marked, all, fixed };
}

const wallsOf = ({ plan, option, room, pieces, massOf = () => undefined }: TasksInput): WallInput => ({
  plan,
  option,
  room,
  pieces,
  massOf,
});

function setOutWalls({ input, add }: Job, ready: After | undefined): number | undefined {
  const holes = settingOut(wallsOf(input)).reduce((sum, wall) => sum + wall.holes.length, 0);
  return add({
    id: 'set out walls',
    title: 'Set out the walls',
    noun: 'setting-out of the walls',
    phase: 'fitting',
    counts: [['mark', holes]],
    place: 'room',
    after: [ready],
  });
}

function lineWall({ add }: Job, { errands, made }: Before, piece: PlacedPiece, marked: After | undefined) {
  const title = titleOf(piece);
  return add({
    id: `line ${piece.id}`,
    title: `Line the wall: ${title}`,
    noun: `lining with ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['pieces', 1]],
    place: 'room',
    after: [marked, ...errands.packs, ...(made.get(piece.id)?.finished ?? [])],
  });
}

/** Carried in, scribed, levelled and fixed; what is too heavy for one to lift to where it hangs is held there by two. */
function fixPiece({ input, add, lift }: Job, { made }: Before, piece: PlacedPiece, marked: After | undefined) {
  const title = titleOf(piece);
  const walls = wallsOf(input);
  const subject = subjectsOf(walls).find(({ placed }) => placed === piece);
  const raised = subject !== undefined && raisedByTwo(walls, subject);
  const mass = (piece.mass ?? 0) + piece.parts.reduce((sum, p) => sum + (input.massOf?.(p.id) ?? 0), 0);
  const carried = add({
    id: `carry ${piece.id}`,
    title: `Carry in ${title}`,
    noun: `carrying in of ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['pieces', 1]],
    share: CARRYING,
    helper: mass > lift ? `${title} is heavier than one person lifts` : undefined,
    whole: true,
    place: 'room',
    after: [marked, ...(made.get(piece.id)?.finished ?? [])],
  });
  const scribed = add({
    id: `scribe ${piece.id}`,
    title: `Scribe the fillers of ${title}`,
    noun: `scribing of ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['scribe', piece.parts.filter((p) => p.role === 'filler').length]],
    place: 'room',
    air: 'dust',
    after: [after(carried)],
  });
  return add({
    id: `fix ${piece.id}`,
    title: `Level and fix ${title}`,
    noun: `fixing of ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['pieces', 1]],
    share: 1 - CARRYING,
    helper: raised ? `${title} is more than one person may lift to where it goes` : undefined,
    whole: raised,
    place: 'room',
    after: [after(scribed) ?? after(carried)],
  });
}

function hangFronts({ add }: Job, { fronts }: Before, piece: PlacedPiece, fix: number | undefined) {
  const title = titleOf(piece);
  return add({
    id: `hang ${piece.id}`,
    title: `Hang the fronts of ${title}`,
    noun: `hanging of the fronts of ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['fronts', piece.needs.length]],
    place: 'room',
    after: [after(fix), ...(fronts.get(piece.id) ?? [])],
  });
}

function mountDisplay({ add }: Job, piece: PlacedPiece, before: readonly (After | undefined)[]) {
  const title = titleOf(piece);
  const mount = add({
    id: `mount ${piece.id}`,
    title: `Mount ${title}`,
    noun: `mounting of ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['pieces', 1]],
    helper: 'a display is hooked in by two',
    whole: true,
    place: 'room',
    after: before,
  });
  const wire = add({
    id: `wire ${piece.id}`,
    title: `Wire ${title}`,
    noun: `wiring of ${title}`,
    phase: 'fitting',
    pieces: [piece.id],
    counts: [['screen cable', 1]],
    place: 'room',
    after: [after(mount)],
  });
  return [mount, wire];
}

const stripTasks = ({ input, add }: Job, { errands, ready }: Before, fixed: Fitted['fixed']) =>
  input.option.pieces.flatMap((piece) => {
    if (!('strip' in piece)) return [];
    const title = piece.title ?? piece.strip;
    return add({
      id: `wire ${piece.strip}`,
      title: `Lay and plug in ${title}`,
      noun: `wiring of ${title}`,
      phase: 'fitting',
      pieces: [piece.strip],
      counts: [['strip', 1]],
      place: 'room',
      after: [
        after(piece.along === undefined ? undefined : fixed.get(piece.along)) ?? ready,
        ...errands.fetched('strip light', 'wire ', 'connector ', 'fuse', 'power supply', 'light controller'),
      ],
    });
  });

/** On one wall, and over the same stretch of it. */
function shareWall(a: PlacedPiece, b: PlacedPiece): boolean {
  if (!a.wall || !b.wall || a.wall.id !== b.wall.id) return false;
  const from = b.wall.from - a.wall.from;
  return a.outside.min.x < from + b.outside.max.x && from + b.outside.min.x < a.outside.max.x;
}
