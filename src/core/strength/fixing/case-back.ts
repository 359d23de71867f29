import type { Wall } from '../../plan/index.ts';
import { inch, STANDARD_GRAVITY } from '../../quantity/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import { allWeighed, imperial, ownMass, type Subject, type WallInput } from '../plan-input.ts';
import { DESIGN_LOADS, SHELF_LOAD_CAP } from '../standards.ts';
import { isHung } from './carried.ts';
import type { Group } from './group.ts';
import type { Hole } from './point.ts';
import { railsOf } from './rails.ts';

/** From the top of a case down to its fixings, mm: through the rail or the back, clear of the top. Common practice. */
export const fromTop = (input: WallInput): number => (imperial(input) ? inch(2) : 50);

/** Its top stands high for its depth, by itself or on another: it falls forward when it is pulled or climbed. Common practice. */
export const isTall = ({ placed }: Subject): boolean =>
  placed.frame.origin.y + placed.outside.max.y > Math.max(750, 2 * (placed.outside.max.z - placed.outside.min.z));

/** It stands, and low enough to stay: screws only keep it in its place, unless the plan asks more of them. */
export const isKeptOnly = (input: WallInput, subject: Subject): boolean =>
  'case' in subject.said && subject.said.fix === undefined && !isHung(input, subject) && !isTall(subject);

/** What a pull on a standing case asks of its fixings: a child's weight hanging at the front of an open front, kg. Common practice. */
const CLIMBER = 25;

/** What a case asks of its fixings: one that hangs, its full load; one that stands, a pull on its front. */
export function caseGroup(input: WallInput, subject: Subject, wall: PlacedWall, saidWall: Wall): Group {
  const { placed } = subject;
  const depth = placed.outside.max.z;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const holes = caseHoles(input, subject, wall, saidWall);
  if (!isHung(input, subject)) return { holes, hanging: { mass: CLIMBER, reach: depth + 100, edge: bottom } };
  const books = 'case' in subject.said && subject.said.carries === 'books';
  const design = books ? 'casework: books, school, library' : 'casework: all other';
  const area = DESIGN_LOADS[design].load * 1e-6 * placed.outside.max.x * depth;
  const levels = 1 + placed.parts.filter((p) => p.role === 'adjustable shelf' || p.role === 'fixed shelf').length;
  const load = (levels * Math.min(area, SHELF_LOAD_CAP)) / STANDARD_GRAVITY;
  return {
    holes,
    hanging: {
      mass: load + ownMass(input, placed),
      partly: !allWeighed(input, placed),
      at: placed.wall!.from + (placed.outside.min.x + placed.outside.max.x) / 2,
      reach: depth / 2,
      edge: bottom,
    },
  };
}

/** A case is fixed through its rails; else through its back near the top, and near its lower edge too where it stands on nothing. */
function caseHoles(input: WallInput, subject: Subject, wall: PlacedWall, saidWall: Wall): readonly Hole[] {
  const { placed, said } = subject;
  const left = placed.wall!.from;
  const width = placed.outside.max.x;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const top = bottom + placed.outside.max.y;
  const edge = fromTop(input);
  const rails = railsOf(placed).map(({ solid: { box } }) => bottom + (box.min.y + box.max.y) / 2);
  const rows =
    said.fix?.heights?.map((h) => bottom + h) ??
    (rails.length > 0 ? rails : isHung(input, subject) ? [top - edge, bottom + edge] : [top - edge]);
  const studs = wall.studs.map((s) => s.at).filter((at) => at >= left + 30 && at <= left + width - 30);
  const ends = width < 400 ? [left + width / 2] : [left + 100, left + width - 100];
  const columns =
    said.fix?.at?.map((x) => left + x) ?? (studs.length > 0 && saidWall.framing?.kind !== 'masonry' ? studs : ends);
  return columns.flatMap((x) => rows.map((y) => ({ x, y })));
}
