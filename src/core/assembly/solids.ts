import { type Axis, type Box, withoutAll } from '../geometry/index.ts';
import { toTicks } from '../quantity/index.ts';
import type { Direction, Joint, Part, PartId } from '../scene/index.ts';

/** A box in whole ticks (1/640 mm): least and greatest along x, y and z. Whole numbers, so that touching is not overlapping. */
export type Cell = readonly [number, number, number, number, number, number];
export const AXIS: Readonly<Record<Axis, 0 | 1 | 2>> = { x: 0, y: 1, z: 2 };

/** The six directions; `d ^ 1` is the opposite, `d >> 1` the axis, even ones point along it. */
export const DIRECTIONS: readonly Direction[] = ['right', 'left', 'up', 'down', 'front', 'back'];
export type Way = 0 | 1 | 2 | 3 | 4 | 5;
export const WAYS: readonly Way[] = [0, 1, 2, 3, 4, 5];
export const opposite = (way: Way): Way => (way ^ 1) as Way;
export const wayOf = (direction: Direction): Way => DIRECTIONS.indexOf(direction) as Way;

export const low = (c: Cell, axis: number): number => c[axis * 2]!;
export const high = (c: Cell, axis: number): number => c[axis * 2 + 1]!;
/** How far a box reaches in a direction: greater is further. */
export const reach = (c: Cell, way: Way): number => (way % 2 === 0 ? high(c, way >> 1) : -low(c, way >> 1));

export const cellOf = ({ min, max }: Box): Cell => [
  toTicks(min.x),
  toTicks(max.x),
  toTicks(min.y),
  toTicks(max.y),
  toTicks(min.z),
  toTicks(max.z),
];
/** What is left of a part as boxes. Round holes stay in: nothing but pins and screws passes through them. */
export function cellsOf(part: Part): readonly Cell[] {
  const { box, taken } = part.solid;
  return withoutAll(
    box,
    taken.filter((m) => !m.round).map((m) => m.box),
  ).map(cellOf);
}

export const overlap1 = (a: Cell, b: Cell, axis: number): boolean =>
  low(a, axis) < high(b, axis) && low(b, axis) < high(a, axis);
export const overlaps = (a: Cell, b: Cell): boolean => overlap1(a, b, 0) && overlap1(a, b, 1) && overlap1(a, b, 2);
const across = (a: Cell, b: Cell, axis: number): boolean =>
  (axis === 0 || overlap1(a, b, 0)) && (axis === 1 || overlap1(a, b, 1)) && (axis === 2 || overlap1(a, b, 2));

/** Would `moving`, coming from far away in the direction `way` to where it is, pass through `still`? */
export function meetsOnTheWay(moving: Cell, still: Cell, way: Way): boolean {
  const axis = way >> 1;
  if (!across(moving, still, axis)) return false;
  return way % 2 === 0 ? low(still, axis) < high(moving, axis) : high(still, axis) > low(moving, axis);
}
/** Does `still` stop `moving` from going on in the direction `way`? */
export const stops = (moving: Cell, still: Cell, way: Way): boolean =>
  across(moving, still, way >> 1) && reach(moving, way) === -reach(still, opposite(way));

/** What moves as one: a part, or a sub-assembly. */
export interface Body {
  readonly id: string;
  readonly parts: readonly Part[];
  readonly cells: readonly Cell[];
  /** Of each cell, the part it belongs to. */
  readonly owners: readonly PartId[];
  readonly bounds: Cell;
}

export function bodyOf(id: string, parts: readonly Part[]): Body {
  const each = parts.map((part) => ({ part, cells: cellsOf(part) }));
  const cells = each.flatMap((e) => e.cells);
  return {
    id,
    parts,
    cells,
    owners: each.flatMap((e) => e.cells.map(() => e.part.id)),
    bounds: boundsOf(cells),
  };
}

export function boundsOf(cells: readonly Cell[]): Cell {
  const bounds: [number, number, number, number, number, number] = [
    Infinity,
    -Infinity,
    Infinity,
    -Infinity,
    Infinity,
    -Infinity,
  ];
  for (const c of cells)
    for (const axis of [0, 1, 2]) {
      bounds[axis * 2] = Math.min(bounds[axis * 2]!, low(c, axis));
      bounds[axis * 2 + 1] = Math.max(bounds[axis * 2 + 1]!, high(c, axis));
    }
  return bounds;
}

/** Which other bodies stand in the way of each body in each direction: `blockers[body][way]`. */
export function blockersOf(bodies: readonly Body[]): readonly (readonly (readonly number[])[])[] {
  return bodies.map((moving) =>
    WAYS.map((way) =>
      bodies.flatMap((still, i) =>
        still !== moving && meetsOnTheWay(moving.bounds, still.bounds, way) && passes(moving, still, way) ? [i] : [],
      ),
    ),
  );
}
const passes = (moving: Body, still: Body, way: Way): boolean =>
  moving.cells.some((m) => still.cells.some((s) => meetsOnTheWay(m, s, way)));

/** Is `a` let into `b`, with walls on its flanks? */
export const isLetIn = ({ kind }: Joint): boolean => kind === 'dado' || kind === 'groove' || kind === 'rabbet';
