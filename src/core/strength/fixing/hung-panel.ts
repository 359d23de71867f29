import type { AbsorberPiece, LiningPiece, Piece } from '../../plan/index.ts';
import type { Part, PlacedPiece } from '../../scene/index.ts';
import type { Subject } from '../plan-input.ts';

/** A lining, or an absorber on a backing of its own. */
export type Hung = LiningPiece | AbsorberPiece;
export const isHungPanel = (said: Piece): said is Hung =>
  'lining' in said || ('absorber' in said && said.backing !== undefined);

/** What is under the heads of its screws: the battens where there are any, else the panels. */
export function screwedParts({ parts }: PlacedPiece): readonly Part[] {
  const battens = parts.filter((p) => p.role === 'batten');
  return battens.length > 0 ? battens : parts.filter((p) => p.role === 'lining panel');
}

/** Nothing is under it: more than a leveller's height above the floor, and not on top of another piece. */
export function isHung({ placed, said }: Subject): boolean {
  return !('on' in said && said.on !== undefined) && placed.frame.origin.y + placed.outside.min.y > 100;
}
