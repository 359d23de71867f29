import type { Box } from '../geometry/index.ts';
import { bodyOf, type Staged } from '../surroundings/index.ts';

/** The boxes the camera sees: parts where a piece is made of parts, else its outside. */
export function viewBoxes(staged: Staged): readonly { readonly piece: string; readonly box: Box }[] {
  return staged.pieces.flatMap((piece) => {
    if (['seat', 'camera', 'strip'].includes(piece.kind)) return [];
    const shown = piece.parts.filter((p) => !HIDDEN.has(p.role));
    return shown.length === 0
      ? [{ piece: piece.id, box: bodyOf(piece) }]
      : shown.map((p) => ({ piece: piece.id, box: bodyOf(piece, p.solid.box) }));
  });
}
/** Parts that lie inside others and only add lines to the picture. */
const HIDDEN: ReadonlySet<string> = new Set([
  'drawer side',
  'drawer back',
  'drawer bottom',
  'drawer box',
  'core',
  'batten',
  'spacer',
]);
