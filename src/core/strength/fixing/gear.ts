import type { CameraPiece, LampPiece, Piece, ThingPiece } from '../../plan/index.ts';
import { remember } from '../../remember.ts';
import type { PlacedRoom } from '../../room/index.ts';
import type { Subject, WallInput } from '../plan-input.ts';
import { FEET, isBorne } from './carried.ts';

/** What is not made here and may hang all the same. */
export type Gear = ThingPiece | LampPiece | CameraPiece;
export const isGear = (said: Piece): said is Gear => 'thing' in said || 'lamp' in said || 'camera' in said;

/** Where a piece of gear is, as far as what holds it goes. */
export type GearStands = 'on a wall' | 'in the air' | 'on something';

/** A lamp that does not say how high it is hangs at the ceiling, and so does what reaches up to it. */
const isAtCeiling = ({ placed, said }: Subject, { ceiling }: PlacedRoom): boolean =>
  ('lamp' in said && said.above === undefined && said.on === undefined) ||
  placed.frame.origin.y + placed.outside.max.y > ceiling - FEET;

/**
 * Whether it hangs on its wall, is held up by nobody knows what, or rests on the floor, on furniture or in a case. A camera that stands free
 * stands on its tripod, and a thing that is not told to hang at the ceiling on what the plan leaves out.
 */
export const standsOf = (input: WallInput, subject: Subject): GearStands =>
  // several ask it of every piece of one input
  stands(subject, [input], () => whereItStands(input, subject));
const stands = remember<Subject, GearStands>();

function whereItStands(input: WallInput, subject: Subject): GearStands {
  const { placed, said } = subject;
  if (placed.frame.origin.y + placed.outside.min.y <= FEET || said.on !== undefined || isBorne(input, subject))
    return 'on something';
  const high = isAtCeiling(subject, input.room);
  if (placed.wall && !('lamp' in said && high)) return 'on a wall';
  return 'lamp' in said || ('thing' in said && high) ? 'in the air' : 'on something';
}
