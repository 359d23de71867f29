import type { Edit, Option, Path, Piece, PlainValue, Plan } from '../plan/index.ts';
import { nameOf, printersFor } from '../plan/index.ts';
import { inch } from '../quantity/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { PartId, PlacedPiece } from '../scene/index.ts';

/** What the wall topics ask of a scene. */
export interface WallInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  /** kg of a part, where it is known. */
  readonly massOf: (part: PartId) => number | undefined;
}

/** A piece as placed, beside what the plan says of it and where. */
export interface Subject {
  readonly placed: PlacedPiece;
  readonly said: Piece;
  readonly path: Path;
}

/** The pieces of the option that were placed, with their words in the plan. */
export function subjectsOf({ plan, option, pieces }: WallInput): readonly Subject[] {
  const at = plan.options.indexOf(option);
  const byName = new Map(option.pieces.map((said, j) => [nameOf(said), { said, path: ['options', at, 'pieces', j] }]));
  return pieces.flatMap((placed) => {
    const found = byName.get(placed.id);
    return found ? [{ placed, ...found }] : [];
  });
}

/** kg of a piece as it is carried: its parts and what is bought with it, nothing on its shelves. */
export const ownMass = ({ massOf }: WallInput, { mass, parts }: PlacedPiece): number =>
  (mass ?? 0) + parts.reduce((sum, part) => sum + (massOf(part.id) ?? 0), 0);

export const titleOf = (piece: PlacedPiece): string => piece.title || piece.id;

/** How the plan writes lengths and masses. */
export const saying = ({ plan }: Pick<WallInput, 'plan'>) => printersFor(plan.units);

const imperial = ({ plan }: Pick<WallInput, 'plan'>) => plan.units.length === 'ft-in' || plan.units.length === 'in';

/** A length for an edit, in the plan's own kind of unit: to 1/8 in or 1 mm, up or down or to the nearest. */
export function written(input: Pick<WallInput, 'plan'>, mm: number, way: 'up' | 'down' | 'near' = 'near'): string {
  const round = { up: Math.ceil, down: Math.floor, near: Math.round }[way];
  const slack = way === 'up' ? -1e-6 : way === 'down' ? 1e-6 : 0;
  if (!imperial(input)) return `${round(mm + slack)} mm`;
  return `${round(mm / inch(1 / 8) + slack) / 8}"`;
}

export const set = (path: Path, value: PlainValue): Edit => ({ op: 'set', path, value });
