import type { Working } from '../notes/index.ts';
import type { Plan } from '../plan/index.ts';
import type { PlacedRoom, PlacedWall } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { PAINT_CALCULATORS } from './paint.ts';
import { SUNDRY_CALCULATORS } from './sundries.ts';
import { type TrimOptions, type TrimPiece, type TrimRun, trimJoints } from './trim.ts';

export interface FinishInput {
  readonly plan: Plan;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  /** Holes drilled in the walls, of which those that are seen are filled. */
  readonly holes?: number;
}

/** One thing the finishing takes. Amounts in the unit named. */
export interface FinishItem {
  readonly id: string;
  readonly what: string;
  readonly amount: number;
  readonly unit: 'L' | 'm' | 'm²' | 'mm' | '';
  readonly working?: Working;
  readonly caution?: string;
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

/** Skirting round the room: every stretch of wall at the floor that is free of doors, their casings and standing cases. */
export function skirtingRuns({ room, pieces }: FinishInput): readonly TrimRun[] {
  return room.walls.flatMap((wall, i) => {
    const doors = room.openings
      .filter((o) => o.wall === wall.id && o.y[0] < 100)
      .map((o): Span => [o.x[0] - (o.trim ?? 0), o.x[1] + (o.trim ?? 0)]);
    const cases = onWall(wall, pieces)
      .filter((p) => p.frame.origin.y - wall.frame.origin.y < 100)
      .map((p): Span => [p.wall!.from + p.outside.min.x, p.wall!.from + p.outside.max.x]);
    const before = room.walls[(i + room.walls.length - 1) % room.walls.length]!.corner;
    return less([[0, wall.length]], [...doors, ...cases])
      .filter(([from, to]) => to - from >= SHORTEST)
      .map(
        ([from, to], n): TrimRun => ({
          id: `${wall.id}-${n + 1}`,
          length: to - from,
          ...(from < 0.5 && { start: before }),
          ...(to > wall.length - 0.5 && { end: wall.corner }),
        }),
      );
  });
}

/** Pieces of skirting to cut, with their ends. Measure every corner: few are square. */
export const skirting = (input: FinishInput, options: TrimOptions): readonly TrimPiece[] =>
  trimJoints(skirtingRuns(input), options);

/** mm²: faces of the walls less openings and what cases cover. */
export function wallArea({ room, pieces }: FinishInput): number {
  return room.walls.reduce((sum, wall) => {
    const openings = room.openings
      .filter((o) => o.wall === wall.id)
      .reduce((s, o) => s + (o.x[1] - o.x[0]) * (o.y[1] - o.y[0]), 0);
    const covered = onWall(wall, pieces).reduce(
      (s, { outside: { min, max } }) => s + (max.x - min.x) * (max.y - min.y),
      0,
    );
    return sum + Math.max(0, wall.length * wall.height - openings - covered);
  }, 0);
}

/** A bead along both ends and the top of every case against its wall, and over the skirting, mm. */
export function caulkLength(input: FinishInput): number {
  const cases = input.room.walls.flatMap((wall) => onWall(wall, input.pieces));
  const round = cases.reduce((s, { outside: { min, max } }) => s + 2 * (max.y - min.y) + (max.x - min.x), 0);
  return round + skirtingRuns(input).reduce((s, run) => s + run.length, 0);
}

const COATS = 2;
/** Nails to a metre of moulding: one every 400 mm, into top and bottom plate. Common practice. */
const NAIL_SPACING = 400;
/** A patch of filler and the primer round it, m². Common practice. */
const PATCH = 0.01;
const LEAD =
  'Paint from before about 1980 may hold lead, old textured coatings and tile adhesives asbestos: have them tested before sanding or scraping. Mask against dust, air the room.';

/** Paint, primer, filler, caulk, nails for the walls and the trim of one option: what the bill of the pieces does not hold. */
export function finishTakeOff(input: FinishInput): readonly FinishItem[] {
  const reckon = (name: string, given: Readonly<Record<string, number | string>>): Working => {
    const calculator = [...PAINT_CALCULATORS, ...SUNDRY_CALCULATORS].find((c) => c.name === name)!;
    const values: Record<string, unknown> = {};
    for (const [key, spec] of Object.entries(calculator.inputs as Record<string, { default?: unknown }>))
      values[key] = given[key] ?? spec.default;
    return calculator.reckon(values);
  };
  const area = wallArea(input) / 1e6;
  const paint = reckon('paint-needed', { area, coats: COATS });
  const runs = skirtingRuns(input);
  const trim = runs.reduce((s, run) => s + run.length, 0);
  const nails = runs.reduce((s, run) => s + 2 * (Math.ceil(run.length / NAIL_SPACING) + 1), 0);
  const patches = nails + (input.holes ?? 0);
  const primer = reckon('paint-needed', { area: patches * PATCH, coats: 1 });
  return [
    {
      id: 'wall-paint',
      what: `wall paint, ${COATS} coats`,
      amount: paint.result.value,
      unit: 'L',
      working: paint,
      caution: LEAD,
    },
    { id: 'skirting', what: 'skirting, painted before it goes up', amount: trim, unit: 'mm' },
    { id: 'trim-nails', what: 'finish nails for the skirting', amount: nails, unit: '' },
    { id: 'filler', what: 'nail and screw holes to fill, some of them twice', amount: patches, unit: '' },
    {
      id: 'primer',
      what: 'primer over the filler, or it flashes through the paint',
      amount: primer.result.value,
      unit: 'L',
      working: primer,
    },
    { id: 'caulk', what: 'bead of caulk along cases and skirting', amount: caulkLength(input), unit: 'mm' },
  ];
}
