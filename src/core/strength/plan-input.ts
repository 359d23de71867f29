import type { Bay, Edit, Option, Path, Piece, PlainValue, Plan, SizeOrShare } from '../plan/index.ts';
import { finestOf, nameOf, printersFor, readersFor } from '../plan/index.ts';
import { inch, isInches } from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { Part, PartId, PlacedPiece } from '../scene/index.ts';

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
export const subjectsOf = (input: WallInput): readonly Subject[] => subjects(input, [], () => pairedOf(input));
const subjects = remember<WallInput, readonly Subject[]>();

function pairedOf({ plan, option, pieces }: WallInput): readonly Subject[] {
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

/** Whether each of its parts has a known mass. */
export const allWeighed = ({ massOf }: WallInput, { parts }: PlacedPiece): boolean =>
  parts.every((part) => massOf(part.id) !== undefined);

/** kg of the parts of pieces that are only tried, by those of the same stock that there are; undefined where there are none. */
export function massesLike(
  { massOf }: WallInput,
  { parts }: PlacedPiece,
  tried: readonly PlacedPiece[],
): WallInput['massOf'] {
  const volumeOf = ({ size }: Part) => size.length * size.width * size.thickness;
  const density = new Map<string, number>();
  for (const part of parts) {
    const kg = massOf(part.id);
    if (kg !== undefined) density.set(part.stock, kg / volumeOf(part));
  }
  const masses = new Map(
    tried
      .flatMap((piece) => piece.parts)
      .flatMap((part) => {
        const each = density.get(part.stock);
        return each === undefined ? [] : [[part.id, each * volumeOf(part)] as const];
      }),
  );
  return (id) => masses.get(id);
}

export const titleOf = (piece: PlacedPiece): string => piece.title || piece.id;

/** How the plan writes lengths and masses. */
export const saying = ({ plan }: Pick<WallInput, 'plan'>) => printersFor(plan.units);

/** The finest length the plan prints, mm. */
export const finest = ({ plan }: Pick<WallInput, 'plan'>): number => finestOf(plan.units);

/** A small length in words: never as nothing. */
export function small(input: Pick<WallInput, 'plan'>, mm: number): string {
  const { length } = saying(input);
  const least = finest(input);
  return Math.abs(mm) < least / 2 ? `less than ${length(least)}` : length(mm);
}

export const imperial = ({ plan }: Pick<WallInput, 'plan'>) => isInches(plan.units.length);

/** A length for an edit, in the plan's own kind of unit: to 1/8 in or 1 mm, up or down or to the nearest. */
export function written(input: Pick<WallInput, 'plan'>, mm: number, way: 'up' | 'down' | 'near' = 'near'): string {
  const round = { up: Math.ceil, down: Math.floor, near: Math.round }[way];
  const slack = way === 'up' ? -1e-6 : way === 'down' ? 1e-6 : 0;
  if (!imperial(input)) return `${round(mm + slack)} mm`;
  return `${round(mm / inch(1 / 8) + slack) / 8}"`;
}

/** A place for a hole, as fine as a maker marks it: to 1/8 in or 1 mm. */
export const marked = (input: Pick<WallInput, 'plan'>, mm: number): number => {
  const step = imperial(input) ? inch(1 / 8) : 1;
  return Math.round(mm / step) * step;
};

/** A length for an edit that must keep it: as the plan prints it where that reads back the same, else in millimetres. */
export function exact(input: Pick<WallInput, 'plan'>, mm: number): string {
  const shown = saying(input).length(mm);
  const read = readersFor(input.plan.units).length(shown);
  return read.ok && Math.abs(read.value - mm) < 1e-6 ? shown : `${Math.round(mm * 1e4) / 1e4} mm`;
}

export const set = (path: Path, value: PlainValue): Edit => ({ op: 'set', path, value });

const writtenSize = (size: SizeOrShare): string => (typeof size === 'number' ? `${size} mm` : `${size.share}*`);

/** A bay as the plan file writes it, lengths in millimetres. */
export function writtenBay(bay: Bay): PlainValue {
  const sizes = (value: unknown): PlainValue =>
    Array.isArray(value) ? value.map((size: SizeOrShare) => writtenSize(size)) : (value as PlainValue);
  const written: Record<string, PlainValue> = {};
  for (const [key, value] of Object.entries(bay)) {
    if (value === undefined) continue;
    if (key === 'width' || key === 'height') written[key] = writtenSize(value as SizeOrShare);
    else if (key === 'vent') written[key] = ventWritten(value as NonNullable<Bay['vent']>);
    else if (key === 'columns' || key === 'rows') written[key] = (value as readonly Bay[]).map(writtenBay);
    else written[key] = sizes(value);
  }
  return written;
}

const ventWritten = ({ width, height, in: cut }: NonNullable<Bay['vent']>): PlainValue => ({
  in: cut,
  width: `${width} mm`,
  height: `${height} mm`,
});
