import type { Wall } from '../../plan/index.ts';
import { convert, inch } from '../../quantity/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import { allWeighed, imperial, ownMass, type Subject, type WallInput } from '../plan-input.ts';
import { designMassOf } from '../standards.ts';
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

/**
 * Of a child who climbs a standing case, kg: the test weight of ASTM F2057-23 (16 CFR 1261), 60 lb. ASTM F3096-23 tests what holds furniture to
 * a wall with a pull of as much, and EN 16122:2012, 10.2, pulls a case outward at the middle of its top edge (its force not seen).
 */
export const CLIMBER = convert(60, 'lb', 'mass');
/** How far in front of it the child hangs, mm. Common practice. */
const IN_FRONT = 100;

/**
 * What a case asks of its fixings. One that hangs: its full load. One that stands: a child's weight, hanging on its front or pulling its top
 * outward, whichever tips it more: no door or drawer stands out as far as a tall case is high. Its floor is taken to carry nothing, nor do its own
 * weight and load hold it back.
 */
export function caseGroup(input: WallInput, subject: Subject, wall: PlacedWall, saidWall: Wall): Group {
  const { placed } = subject;
  const depth = placed.outside.max.z;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const holes = caseHoles(input, subject, wall, saidWall);
  if (!isHung(input, subject)) return { holes, hanging: { ...tippedBy(depth, placed.outside.max.y), edge: bottom } };
  return {
    holes,
    hanging: {
      mass: loadIn(subject) + ownMass(input, placed),
      partly: !allWeighed(input, placed),
      at: placed.wall!.from + (placed.outside.min.x + placed.outside.max.x) / 2,
      reach: depth / 2,
      edge: bottom,
    },
  };
}

/** kg that a case which hangs is reckoned to hold: the design load of its bottom and of each of its shelves. */
export function loadIn({ placed, said }: Subject): number {
  const books = 'case' in said && said.carries === 'books';
  const design = books ? 'casework: books, school, library' : 'casework: all other';
  const levels = 1 + placed.parts.filter((p) => p.role === 'adjustable shelf' || p.role === 'fixed shelf').length;
  return levels * designMassOf(design, placed.outside.max.x, placed.outside.max.z);
}

/** What a child asks of the fixings of what stands. */
export function tippedBy(depth: number, height: number) {
  const [climbed, pulled] = [depth + IN_FRONT, height];
  return { mass: CLIMBER, reach: Math.max(climbed, pulled), asked: pulled > climbed ? PULLED : CLIMBED };
}

const PULLED = { mass: 'a child’s mass', reach: 'its weight pulls outward at the top, above the lower edge' };
const CLIMBED = { mass: 'a child’s mass', reach: 'it hangs before the front, out from the wall' };

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
