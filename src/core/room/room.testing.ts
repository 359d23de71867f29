import type { Option, Piece, Room } from '../plan/index.ts';
import { mm } from '../quantity/index.ts';

type Plain<T> = T extends number
  ? number
  : T extends string
    ? T
    : T extends readonly (infer U)[]
      ? readonly Plain<U>[]
      : T extends object
        ? { [K in keyof T]: Plain<T[K]> }
        : T;
export type WallGiven = Partial<Plain<Room['walls'][number]>> & { readonly id: string; readonly length: number };

/** A room of plain numbers in mm, defaults filled in as the schema would. */
export function roomOf(
  walls: readonly WallGiven[],
  more: {
    readonly ceiling?: number;
    readonly openings?: readonly Partial<Plain<Room['openings'][number]>>[];
    readonly services?: readonly Partial<Plain<Room['services'][number]>>[];
  } = {},
): Room {
  return {
    ceiling: mm(more.ceiling ?? 2500),
    walls: walls.map((wall) => ({ corner: 90, ...wall })),
    openings: (more.openings ?? []).map((o) => ({ sill: 0, trim: 0, ...o })),
    services: more.services ?? [],
    survey: [],
    floor: [],
  } as unknown as Room;
}

/** A rectangle: north and south so long, east and west so wide. */
export const rectangle = (length: number, width: number, more: Parameters<typeof roomOf>[1] = {}): Room =>
  roomOf(
    [
      { id: 'north', length },
      { id: 'east', length: width },
      { id: 'south', length },
      { id: 'west', length: width },
    ],
    more,
  );

/** A thing of plain numbers: `thing('desk', [1200, 740, 600], { wall: 'north' })`. */
export const thing = (
  name: string,
  [width, height, depth]: readonly [number, number, number],
  place: object = {},
): Piece =>
  ({
    thing: name,
    size: { width, height, depth },
    fixed: false,
    ...place,
    ...('at' in place && { at: { turn: 0, ...(place.at as object) } }),
  }) as unknown as Piece;
export const shelf = (
  name: string,
  [width, height, depth]: readonly [number, number, number],
  place: object = {},
): Piece =>
  ({ shelf: name, size: { width, height, depth }, skin: 'ply', ends: 'closed', ...place }) as unknown as Piece;

export const optionOf = (...pieces: readonly Piece[]): Option => ({ id: 'one', pieces: [...pieces] });
