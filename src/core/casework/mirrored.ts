import type { Bay, CasePiece } from '../plan/index.ts';

/**
 * The mirror image of a case: columns in the opposite order, doors hung at the other side, ends, fillers and overhangs exchanged.
 * Its name and place stay; a twin needs a name of its own. Built with the odd tick at the other side its parts are the exact
 * mirror image; built plainly, widths that shares divide unevenly differ by one tick (1/640 mm).
 */
export function mirrored(piece: CasePiece): CasePiece {
  const { inside, ends, fillers, top, ...rest } = piece;
  return {
    ...rest,
    ...(inside && { inside: mirroredBay(inside) }),
    ...(ends && { ends: swapped(ends) }),
    ...(fillers && { fillers: swapped(fillers) }),
    ...(top && { top: { ...top, ...swapped(top) } }),
  };
}

const OTHER = { left: 'right', right: 'left', pair: 'pair', up: 'up', down: 'down' } as const;

function mirroredBay(bay: Bay): Bay {
  return {
    ...bay,
    ...(bay.columns && { columns: bay.columns.map(mirroredBay).reverse() }),
    ...(bay.rows && { rows: bay.rows.map(mirroredBay) }),
    ...(bay.door && { door: OTHER[bay.door] }),
  };
}

const swapped = <T>({ left, right }: { readonly left?: T | undefined; readonly right?: T | undefined }) => ({
  left: right,
  right: left,
});
