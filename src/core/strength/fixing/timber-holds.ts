import type { PlacedWall } from '../../room/index.ts';
import type { Subject, WallInput } from '../plan-input.ts';
import { fixingFor, fixings } from './held.ts';
import { letIn } from './let-in.ts';
import { type FixingPoint, holdsWell } from './point.ts';
import { railNotes } from './rails.ts';
import { isStop } from './rails-cure.ts';

/** The fixings of all other pieces: they may be in the same timber. */
export const othersThan = (input: WallInput, { placed }: Subject): readonly FixingPoint[] =>
  fixings(input).points.filter((p) => p.piece !== placed.id);

/** Its fixings hold with a little left over, its rails hold them to it, and what timber they land in holds in the studs. */
export function holdsWithTimber(
  input: WallInput,
  tried: Subject,
  wall: PlacedWall,
  others: readonly FixingPoint[],
): boolean {
  const held = fixingFor(input, tried);
  if (!held || !holdsWell(held) || isStop(railNotes(input, tried, held))) return false;
  return letIn(input, wall, [...others, ...held.points]).every(({ use }) => use <= 1);
}
