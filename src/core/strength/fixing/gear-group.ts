import { fromRoom } from '../../geometry/index.ts';
import type { Note } from '../../notes/index.ts';
import type { Wall } from '../../plan/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { type Subject, saying, titleOf, type WallInput } from '../plan-input.ts';
import { fromTop, tippedBy } from './case-back.ts';
import type { Fixing } from './fastener.ts';
import { type Gear, isGear, standsOf } from './gear.ts';
import type { Group } from './group.ts';
import { type Hole, isScrew } from './point.ts';

/** What is part of the house hangs by what the house holds it with, unless the plan says otherwise. */
const isOfTheHouse = (said: Gear): boolean => 'thing' in said && said.fixed && said.fix === undefined;

/** How far from its ends its fixings stand where there is no stud, mm; one that is narrower than twice as much has one column. Common practice. */
const END = 100;

/** From the lowest hole of a bracket down to its edge, mm. Common practice. */
const BRACKET_EDGE = 15;

/** Why nothing can be said of what stands off its wall when the plan does not tell its bracket. */
export const BRACKET = 'how high its fixings stand is not said';

/**
 * Holes behind gear that the plan gives fixings: one row near its top, at the studs or near its ends. Hanging flat it turns about its lower edge; on a
 * bracket that holds it off the wall it turns about the edge of that, just under the lowest of the heights the plan gives. Standing, it is
 * held against a child, as a case is.
 */
export function gearGroup(
  input: WallInput,
  subject: Subject,
  said: Gear,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
): (Group & { readonly unknown?: string }) | undefined {
  const { fix } = said;
  const stands = standsOf(input, subject);
  if (!fix || stands === 'in the air') return undefined;
  const { placed } = subject;
  const { min, max } = placed.outside;
  const left = placed.wall!.from + min.x;
  const [width, height] = [max.x - min.x, max.y - min.y];
  const bottom = placed.frame.origin.y - wall.frame.origin.y + min.y;
  const edge = fromTop(input);
  const rows = (fix.heights ?? [height > 2 * edge ? height - edge : height / 2]).map((h) => bottom + h);
  const studs =
    isScrew(fixing.kind) && saidWall.framing?.kind !== 'masonry'
      ? wall.studs.map((s) => s.at).filter((at) => at > left && at < left + width)
      : [];
  const ends = width < 4 * END ? [left + width / 2] : [left + END, left + width - END];
  const columns = fix.at?.map((x) => left + x) ?? (studs.length > 0 ? studs : ends);
  const holes = columns.flatMap((x): Hole[] => rows.map((y) => ({ x, y })));
  const out = outFrom(wall, placed);
  if (stands === 'on something') return { holes, hanging: { ...tippedBy(out + max.z - min.z, height), edge: bottom } };
  const off = out > OFF;
  return {
    holes,
    hanging: {
      mass: placed.mass ?? 0,
      at: left + width / 2,
      reach: out + (max.z - min.z) / 2,
      edge: off ? Math.min(...rows) - BRACKET_EDGE : bottom,
    },
    ...(off && fix.heights === undefined && { unknown: BRACKET }),
  };
}

/** Nearer to the wall than this it lies against it, mm. Common practice. */
const OFF = 10;
/** From its wall to what of it is nearest to that, mm. */
const outFrom = (wall: PlacedWall, { frame, outside }: PlacedPiece): number =>
  fromRoom(wall.frame, frame.origin).z + outside.min.z;

/** It hangs against its wall and turns about its own lower edge. */
export function hangsFlat(input: WallInput, subject: Subject): boolean {
  const { placed } = subject;
  const wall = input.room.walls.find((w) => w.id === placed.wall?.id);
  return wall !== undefined && standsOf(input, subject) === 'on a wall' && outFrom(wall, placed) <= OFF;
}

/** What hangs of which the plan says neither fixings nor that the house holds it; and what is up in the air, which no fixing in a wall can hold. */
export function gearNotes(input: WallInput, subject: Subject): readonly Note[] {
  const { placed, said } = subject;
  if (!isGear(said) || isOfTheHouse(said)) return [];
  const stands = standsOf(input, subject);
  const name = titleOf(placed);
  const base = { id: `fixing:${placed.id}`, about: placed.id, verdict: 'caution' } as const;
  const weighs = placed.mass ? ` with its ${saying(input).mass(placed.mass)}` : '';
  if (stands === 'on a wall' && said.fix === undefined)
    return [
      {
        ...base,
        title: `What holds ${name}${weighs} to the wall is not said, and not checked`,
        advice: `Give its fixings under fix: the kind, how far up it they stand (heights) and, where they are not at the studs, how far along it (at)${placed.mass ? '' : '; and what it weighs, under mass'}. A thing that is part of the house is fixed: true.${'lamp' in said ? BOX : ''}`,
      },
    ];
  if (stands === 'in the air' && placed.mass)
    return [
      {
        ...base,
        title: `What holds ${name}${weighs} up is not checked: the plan knows no joists`,
        advice: `Whoever hangs it finds the joist, and takes what the makers rate for ${saying(input).mass(placed.mass)} at rest: it hangs over heads.${'lamp' in said ? BOX : ''} One that stands on a stand wants a foot that does not tip.`,
      },
    ];
  return [];
}

const BOX =
  ' A box in the wall or the ceiling carries a lamp of up to 50 lb (23 kg), or what is marked in it; a heavier one hangs by something else (NEC 314.27(A); sections move between editions, and local codes decide). An electrician hangs and wires it, power off first.';
