import type { Plan } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import { type bodiesOf, type Staged, wallIndex } from '../surroundings/index.ts';
import { BANDS } from './cast.ts';
import type { Inset } from './room-patches.ts';
import { lit } from './sources.ts';
import { bandsOf } from './ways.ts';

/** What comes back from window glass at night and the frame round it, and from an open passage into a dark room, as a share. Common practice. */
const NIGHT_HOLE = 0.1;
/** What double glazing and its frame let through of diffuse daylight. Common practice. */
const GLASS = 0.6;
const DOOR = '#e9e7e1';

export type Body = ReturnType<typeof bodiesOf>[number];

/** What lies flat on a wall is a field of the wall; the rest stands in the way. */
export const isFlat = ({ piece: { kind } }: Body): boolean => kind === 'absorber' || kind === 'lining';

/** Stretches of walls that are of something else than the wall, by the name of each. */
export interface Fields {
  readonly insets: readonly Inset[];
  /** What each sends back: bands of its own, or a colour that a way of painting may change. */
  readonly sends: ReadonlyMap<string, readonly number[] | string>;
  /** What comes in through each that gives light: diffuse, as that of the sky. Bands. */
  readonly panes: ReadonlyMap<string, readonly number[]>;
}

export function fieldsOf({ plan, room }: Staged, flat: readonly Body[]): Fields {
  const insets: Inset[] = [];
  const sends = new Map<string, readonly number[] | string>();
  const panes = new Map<string, readonly number[]>();
  const field = (inset: Omit<Inset, 'wall'>, wall: string, of: readonly number[] | string): void => {
    const k = wallIndex(room, wall);
    if (k < 0) return;
    insets.push({ ...inset, wall: k });
    sends.set(inset.name, of);
  };
  for (const o of room.openings) {
    const name = `opening ${o.id}`;
    const daylight = saidOf(plan, o)?.daylight;
    if (daylight) panes.set(name, lit(GLASS * daylight, 6500));
    field(
      { name, from: o.x[0], width: o.x[1] - o.x[0], bottom: o.y[0], height: o.y[1] - o.y[0] },
      o.wall,
      o.kind === 'door' ? bandsOf(DOOR) : new Array<number>(BANDS).fill(NIGHT_HOLE),
    );
  }
  for (const { piece, colour } of flat) {
    if (!piece.wall) continue;
    const { min, max } = piece.outside;
    const [from, bottom] = [piece.wall.from + min.x, piece.frame.origin.y + min.y];
    field(
      { name: `piece ${piece.id}`, from, width: max.x - min.x, bottom, height: max.y - min.y },
      piece.wall.id,
      colour,
    );
  }
  return { insets, sends, panes };
}

/** What the plan says of an opening of the room. */
export const saidOf = (plan: Plan, o: PlacedRoom['openings'][number]) =>
  plan.room.openings.find(
    // one may stand over another
    (p) => p.wall === o.wall && Math.abs(p.from - o.x[0]) < 0.01 && Math.abs(p.sill - o.y[0]) < 0.01,
  );
