import { DEFAULTS } from '../casework/index.ts';
import { minimaxFit, minimaxGap, type WallPoint } from '../finish/index.ts';
import { grouped } from '../grouped.ts';
import type { Note, Working } from '../notes/index.ts';
import { type CasePiece, type Measured, printersFor } from '../plan/index.ts';
import { inch } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { finest, type WallInput } from '../strength/index.ts';
import { APART, betweenWallsNotes } from './between-walls.ts';
import { gearNotes } from './gear-heat.ts';
import { inWallNotes } from './in-wall-notes.ts';
import { oldWallNotes } from './old-walls.ts';

/** Pieces that stand side by side at one wall: what must meet it in one line. */
export interface Run {
  readonly wall: string;
  readonly pieces: readonly PlacedPiece[];
  /** Along the wall, mm. */
  readonly from: number;
  readonly to: number;
}

/** Where a run sits on a wall that is not straight. Lengths mm; gaps between the back of the run and the wall. */
export interface WallFit {
  readonly run: Run;
  /** Height of the straightedge that the wall was measured with. */
  readonly height: number;
  /** How far the back of the run stands out from the measuring line at each end of the run. */
  readonly out: readonly [start: number, end: number];
  readonly largestGap: number;
  readonly gaps: readonly { readonly x: number; readonly gap: number }[];
  readonly working: Working;
}

/** How the floor lies under a run: everything is measured down from a level line at its highest point. */
export interface FloorFit {
  readonly run: Run;
  /** Distance from the wall at which it was measured. */
  readonly out: number;
  readonly high: number;
  /** What is missing under the run: shim there, or scribe the toe by the rest. */
  readonly shims: readonly { readonly x: number; readonly shim: number }[];
  /** How far the floor lies under the level of its high point, as measured and at the ends of the run. */
  readonly drops: readonly { readonly x: number; readonly drop: number }[];
  /** The toe board or the sides' feet of each case once it stands level: its height at either end. */
  readonly toes: readonly Toe[];
  readonly largest: number;
}

/** How high what closes the space under a case is at its two ends: the toe as drawn, and what the floor falls away. */
export interface Toe {
  readonly piece: string;
  readonly title: string;
  readonly from: number;
  readonly to: number;
  /** How far out from the wall it stands. */
  readonly out: number;
  readonly left: number;
  readonly right: number;
  /** The most it takes between the ends, where the floor dips or rises there. */
  readonly most: number;
}

/** The runs of cases at each wall, in the order of the walls, left to right. */
export const runsOf = ({ room, pieces }: Pick<WallInput, 'room' | 'pieces'>): readonly Run[] =>
  runs(pieces, [room], () => runsAlong(room, pieces));
const runs = remember<readonly PlacedPiece[], readonly Run[]>();

function runsAlong(room: WallInput['room'], pieces: readonly PlacedPiece[]): readonly Run[] {
  return room.walls.flatMap((wall) => {
    const standing = pieces
      .filter((p) => p.kind === 'case' && p.wall?.id === wall.id)
      .map((piece) => ({
        piece,
        from: piece.wall!.from + Math.min(0, piece.outside.min.x),
        to: piece.wall!.from + piece.outside.max.x,
      }))
      .sort((a, b) => a.from - b.from);
    const runs: { wall: string; pieces: PlacedPiece[]; from: number; to: number }[] = [];
    for (const { piece, from, to } of standing) {
      const last = runs.at(-1);
      if (last && from <= last.to + APART) {
        last.pieces.push(piece);
        last.to = Math.max(last.to, to);
      } else runs.push({ wall: wall.id, pieces: [piece], from, to });
    }
    return runs;
  });
}

/** Whether a case carries its weight to the floor, or hangs above it or stands on another. */
const onFloor = ({ frame }: PlacedPiece): boolean => frame.origin.y < 1;

/** The heights a case was surveyed at: those it reaches, or else the nearest one. */
function surveyedAt({ frame, outside }: PlacedPiece, heights: readonly number[]): readonly number[] {
  const [low, high] = [frame.origin.y + outside.min.y, frame.origin.y + outside.max.y];
  const away = (height: number): number => Math.max(low - height, height - high, 0);
  const least = Math.min(...heights.map(away));
  return heights.filter((height) => away(height) === least);
}

/** What was measured, left to right. */
const measured = (list: readonly Measured[]): readonly WallPoint[] =>
  list.map(({ at, value }) => ({ x: at, y: value }));

/** Straight line between the measured points; beyond them as at the nearest. */
export function between(points: readonly WallPoint[], x: number): number {
  const after = points.findIndex((p) => p.x >= x);
  if (after === -1) return points.at(-1)!.y;
  const [q, p] = [points[after]!, points[after - 1]];
  return !p || q.x === p.x ? q.y : p.y + ((q.y - p.y) * (x - p.x)) / (q.x - p.x);
}

/** The measured points within a stretch, with its ends. */
const within = (points: readonly WallPoint[], from: number, to: number): readonly WallPoint[] => [
  { x: from, y: between(points, from) },
  ...points.filter((p) => p.x > from && p.x < to),
  { x: to, y: between(points, to) },
];

/** Each run on each survey of its wall: the line of its back that leaves the least of a largest gap. */
export const wallFits = (input: WallInput): readonly WallFit[] => fits(input, [], () => fitRuns(input));
const fits = remember<WallInput, readonly WallFit[]>();

function fitRuns({ plan, room, pieces }: WallInput): readonly WallFit[] {
  const surveys = plan.room.survey.filter((s) => s.offsets.length > 0);
  const ofWall = grouped(surveys, ({ wall }) => wall);
  const reached = pieces.map((piece) => {
    const heights = ofWall.get(piece.wall?.id ?? '')?.map(({ height }) => height) ?? [];
    return { piece, at: surveyedAt(piece, heights) };
  });
  const place = new Map(room.walls.map(({ id }, i) => [id, i]));
  // what lies above or below what was measured forms no run with what lies at that height
  return surveys
    .flatMap((survey) =>
      runsAlong(
        room,
        reached.flatMap(({ piece, at }) =>
          piece.wall?.id === survey.wall && at.includes(survey.height) ? [piece] : [],
        ),
      ).map((run): WallFit => {
        // an offset is the gap to a line before the wall: the more of it, the further back the wall
        const points = within(measured(survey.offsets), run.from, run.to).map(({ x, y }) => ({
          x,
          y: y === 0 ? 0 : -y,
        }));
        const fit = minimaxFit(points);
        const at = (x: number) => fit.slope * x + fit.intercept;
        return {
          run,
          height: survey.height,
          out: [at(run.from), at(run.to)],
          largestGap: fit.largestGap,
          gaps: points.map(({ x }, i) => ({ x, gap: fit.gaps[i]! })),
          working: minimaxGap.reckon({ along: points.map((p) => p.x), out: points.map((p) => p.y) }),
        };
      }),
    )
    .sort((a, b) => place.get(a.run.wall)! - place.get(b.run.wall)! || a.run.from - b.run.from);
}

/** How far behind the run the wall is at a place along it, mm. */
export const gapAt = ({ gaps }: WallFit, x: number): number =>
  between(
    gaps.map((g) => ({ x: g.x, y: g.gap })),
    x,
  );

/** Each run on each line of levels of its floor. */
export const floorFits = (input: WallInput): readonly FloorFit[] => floors(input, [], () => fitToFloor(input));
const floors = remember<WallInput, readonly FloorFit[]>();

/** The cases as the plan says them. */
type Cases = ReadonlyMap<string, CasePiece>;

/** Where a case stands along its wall: what its top reaches over does not. */
const footOf = (cases: Cases, { id, wall, outside }: PlacedPiece): readonly [from: number, to: number] => [
  wall!.from,
  wall!.from + (cases.get(id)?.size.width ?? outside.max.x),
];

function fitToFloor(input: WallInput): readonly FloorFit[] {
  if (input.plan.room.floor.length === 0) return [];
  const cases: Cases = new Map(input.option.pieces.flatMap((p) => ('case' in p ? [[p.case, p] as const] : [])));
  const standing = runsAlong(input.room, input.pieces.filter(onFloor)).map((run): Run => {
    const feet = run.pieces.flatMap((p) => footOf(cases, p));
    return { ...run, from: Math.min(...feet), to: Math.max(...feet) };
  });
  return standing.flatMap((run) => {
    const lines = input.plan.room.floor.filter((f) => f.wall === run.wall && f.drops.length > 0);
    const outs = lines.map(({ out }) => out);
    return lines.map((floor): FloorFit => {
      const points = within(measured(floor.drops), run.from, run.to);
      const least = Math.min(...points.map((p) => p.y));
      const ends = [...new Set(run.pieces.flatMap((p) => footOf(cases, p)))];
      const shims = ends.sort((a, b) => a - b).map((x) => ({ x, shim: between(points, x) - least }));
      return {
        run,
        out: floor.out,
        high: points.find((p) => p.y === least)!.x,
        shims,
        drops: points.map(({ x, y }) => ({ x, drop: y - least })),
        toes: toesOf(cases, run, points, least).filter(({ out }) => nearestTo(outs, out) === floor.out),
        largest: Math.max(...points.map((p) => p.y)) - least,
      };
    });
  });
}

/** A toe board is cut by the line that was measured nearest to where it stands. */
const nearestTo = (outs: readonly number[], at: number): number =>
  outs.reduce((a, b) => (Math.abs(b - at) < Math.abs(a - at) ? b : a));

/** The lower edges of the cases of a run. */
function toesOf(cases: Cases, run: Run, points: readonly WallPoint[], least: number): readonly Toe[] {
  return run.pieces.map((p): Toe => {
    const [from, to] = footOf(cases, p);
    const said = cases.get(p.id);
    const toe = said?.toe;
    const high = toe?.height ?? 0;
    const below = within(points, from, to).map((q) => q.y - least);
    return {
      piece: p.id,
      title: p.title || p.id,
      from,
      to,
      out: (said?.size.depth ?? p.outside.max.z) - (toe ? (toe.setback ?? DEFAULTS.toeSetback) : 0),
      left: high + below[0]!,
      right: high + below.at(-1)!,
      most: high + Math.max(...below),
    };
  });
}

/** A gap that a flexible moulding covers, and one nobody sees. Common practice: from 1/32 in to nearly 1/4 in along plasterboard. */
const COVERED = inch(1 / 4);
const UNSEEN = inch(1 / 32);

/** Notes on how each run meets its wall and its floor, what is in the walls, what warms up before them, and what old walls give off. */
export function wallNotes(input: WallInput): readonly Note[] {
  const { length } = printersFor(input.plan.units);
  const walls = wallFits(input).map(({ run, height, largestGap, working, out }): Note => {
    const first = run.pieces[0]!;
    const scribe = largestGap > COVERED;
    const turn = out[1] - out[0];
    return {
      id: `wall-gap:${first.id}@${height}`,
      about: first.id,
      verdict: scribe ? 'caution' : 'fine',
      title:
        largestGap < finest(input) / 2
          ? `The wall is straight behind the run that begins with ${first.title || first.id}, ${length(height)} up`
          : `The wall stands back by up to ${length(largestGap)} behind the run that begins with ${first.title || first.id}, ${length(height)} up`,
      advice: `${
        Math.abs(turn) < finest(input) / 2
          ? 'Set its back in one straight line, along the line the wall was measured from.'
          : `Set its back in one straight line, ${length(Math.abs(turn))} further out from the line the wall was measured from at its ${turn >= 0 ? 'right' : 'left'} end than at the other.`
      } ${
        scribe
          ? `Leave ${length(largestGap)} more on the ends and scribe them to the wall, or shim at each fixing and cover it with a moulding.`
          : largestGap > UNSEEN
            ? 'Shim at each fixing so that it is not drawn crooked; a flexible moulding, nailed, caulked and painted, covers the gap.'
            : 'Caulk is enough.'
      }`,
      working: {
        ...working,
        limit: { value: COVERED, unit: 'mm', why: 'what a moulding covers', source: 'common practice' },
      },
    };
  });
  const fallen = floorFits(input).filter((f) => f.largest > 0);
  const lines = new Set(fallen.map((f) => f.out)).size;
  const floors = fallen.map(({ run, out, high, largest, shims }): Note => {
    const first = run.pieces[0]!;
    const worst = shims.reduce((a, b) => (b.shim > a.shim ? b : a));
    return {
      id: `floor-level:${first.id}@${out}`,
      about: first.id,
      verdict: largest > inch(1 / 2) ? 'caution' : 'fine',
      title: `The floor falls ${length(largest)} along the run that begins with ${first.title || first.id}${lines > 1 ? `, ${out === 0 ? 'at the wall' : `${length(out)} out from the wall`}` : ''}`,
      advice: `Its high point is ${length(high)} from the left end of the wall: set the first case there, and shim the others up to it, ${length(worst.shim)} at ${length(worst.x)}. Cut the toe boards to the floor: their heights at both ends stand on the page of the wall.`,
      working: {
        what: 'How far the floor falls along a run',
        formula: 's = max(d) − min(d)',
        inputs: [
          {
            symbol: 'd',
            name: 'below the level line, at the ends of the cases',
            value: shims.map((s) => s.shim),
            unit: 'mm',
          },
        ],
        result: { value: largest, unit: 'mm' },
        limit: {
          value: inch(1 / 2),
          unit: 'mm',
          why: 'what shims under a case should make up',
          source: 'common practice',
        },
        source: 'common practice',
        assumes: ['straight between the measured points; the floor under the rest of the depth is as it was measured'],
      },
    };
  });
  return [
    ...walls,
    ...floors,
    ...betweenWallsNotes(input),
    ...inWallNotes(input),
    ...gearNotes(input),
    ...oldWallNotes(input),
  ];
}
