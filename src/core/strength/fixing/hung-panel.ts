import type { AbsorberPiece, LiningPiece, Piece } from '../../plan/index.ts';
import type { Part, PlacedPiece } from '../../scene/index.ts';

/** A lining, or an absorber on a backing of its own. */
export type Hung = LiningPiece | AbsorberPiece;
export const isHungPanel = (said: Piece): said is Hung =>
  'lining' in said || ('absorber' in said && said.backing !== undefined);

/** What is under the heads of its screws: the battens where there are any, else the panels. */
export function screwedParts({ parts }: PlacedPiece): readonly Part[] {
  const battens = parts.filter((p) => p.role === 'batten');
  return battens.length > 0 ? battens : parts.filter((p) => p.role === 'lining panel');
}
