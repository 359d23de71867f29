import { type Box, move, type Vec3 } from '../../geometry/index.ts';
import { remember } from '../../remember.ts';
import type { PlacedWall } from '../../room/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { seen } from '../view/hidden-lines.ts';
import { bodiesOf, facesOf, offsetIn } from '../view/project.ts';
import type { Placement } from '../view/view.ts';
import type { Desk } from './desk.ts';

export interface AtWall {
  readonly piece: PlacedPiece;
  readonly offset: Vec3;
  readonly box: Box;
}

export function piecesAt(desk: Desk, wall: PlacedWall): readonly AtWall[] {
  return desk.input.pieces.flatMap((piece) => {
    if (piece.wall?.id !== wall.id) return [];
    const at = standing(piece, [wall], () => atWall(piece, wall));
    return at ? [at] : [];
  });
}
function atWall(piece: PlacedPiece, wall: PlacedWall): AtWall | undefined {
  const offset = offsetIn(wall.frame, piece.frame);
  return offset && { piece, offset, box: move(piece.outside, offset) };
}
/** The same for as long as the piece stands where it does, and so is what is drawn of it. */
const standing = remember<PlacedPiece, AtWall | undefined>();

/** Whether a piece is a thing that stands on another: it is set down by eye, and measured nowhere. */
export function looseIn({ input }: Desk): (piece: PlacedPiece) => boolean {
  const loose = new Set(input.option.pieces.flatMap((p) => ('thing' in p && p.on !== undefined ? [p.thing] : [])));
  return ({ id }) => loose.has(id);
}
/** Whether distances along a wall are told of a piece: mouldings end where the others do, and their lengths stand in their own table. */
export function measuredIn(desk: Desk): (piece: PlacedPiece) => boolean {
  const isLoose = looseIn(desk);
  return (piece) => piece.kind !== 'trim' && !isLoose(piece);
}

/** Where a piece lies on the paper: while that stays, so does what is drawn of it. */
export const lies = ({ offset: { x, y, z } }: AtWall, { origin, ratio }: Placement): readonly unknown[] => [
  x,
  y,
  z,
  origin.x,
  origin.y,
  ratio,
];

/** What is seen of a piece from the room: drawn, and looked at once more for a place for its name. */
export const frontOf = (at: AtWall) => seenOf(at, [], () => seen(facesOf(bodiesOf(at.piece, at.offset), 'front')));
const seenOf = remember<AtWall, ReturnType<typeof seen>>();
