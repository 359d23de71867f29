import type { Plan, Wall } from '../../plan/index.ts';
import { inch } from '../../quantity/index.ts';
import type { PlacedRoom, PlacedWall } from '../../room/index.ts';
import { gravityOfWood } from '../../stock/index.ts';
import { STUD_MILS, type StudMils } from '../steel-fixing.ts';
import type { Lands } from './point.ts';

/** Dressed depth of a nominal 2×4, mm (NIST PS 20). */
export const STUD_DEPTH = inch(3.5);

/** Of spruce-pine-fir, where the plan names no species: NDS-2018, table 12.3.3A. */
export const FRAMING_GRAVITY = 0.42;

/** Wood to leave beside a screw in the edge of a stud, mm; lip of a steel flange. Common practice. */
const EDGE = { 'timber stud': 6, 'steel stud': 4 } as const;

/** Masonry to leave between a plug and the edge of an opening or an outer corner, mm. Common practice; the packet decides. */
export const MASONRY_EDGE = 100;

export interface Ground {
  readonly lands: Lands;
  readonly stud?: { readonly number: number; readonly at: number };
  /** Timber: how deep, and its specific gravity. */
  readonly timber?: { readonly depth: number; readonly gravity: number };
  readonly steel?: StudMils;
}

/** What is behind a point of a wall. */
export function groundAt(room: PlacedRoom, wall: PlacedWall, said: Wall, x: number, y: number): Ground {
  const framing = said.framing;
  if (!framing || framing.kind === 'unknown') return { lands: 'unknown' };
  if (framing.kind === 'masonry')
    return { lands: fromEdge(room, wall, x, y) < MASONRY_EDGE ? 'edge of masonry' : 'masonry' };
  const blocking = framing.blocking?.find(
    (b) => x >= b.from + 10 && x <= b.to - 10 && y >= b.above + 10 && y <= b.above + b.height - 10,
  );
  const i = wall.studs.findIndex((stud) => Math.abs(stud.at - x) <= stud.width / 2);
  const stud = wall.studs[i];
  const inside = stud && Math.abs(stud.at - x) <= stud.width / 2 - EDGE[framing.kind];
  // it lies between the studs: at one of timber there is the stud; round one of steel, a screw for wood wants the wood
  if (blocking && !(inside && framing.kind === 'timber stud'))
    return { lands: 'blocking', timber: { depth: blocking.thickness, gravity: gravityOf(blocking.species) } };
  if (!stud) return { lands: wall.studs.length === 0 ? 'unknown' : 'board only' };
  return {
    lands: inside ? 'stud' : 'edge of a stud',
    stud: { number: i + 1, at: stud.at },
    ...(framing.kind === 'timber stud'
      ? { timber: { depth: framing.depth ?? STUD_DEPTH, gravity: gravityOf(framing.species) } }
      : { steel: milsOf(framing.mils) }),
  };
}

/** How far a point lies from the nearest edge where masonry ends: an opening of the wall, or its outer corners. */
function fromEdge(room: PlacedRoom, wall: PlacedWall, x: number, y: number): number {
  const openings = room.openings
    .filter((o) => o.wall === wall.id)
    .map((o) => Math.hypot(Math.max(o.x[0] - x, 0, x - o.x[1]), Math.max(o.y[0] - y, 0, y - o.y[1])));
  const index = room.walls.indexOf(wall);
  const before = room.walls[(index + room.walls.length - 1) % room.walls.length]!.corner;
  return Math.min(
    ...openings,
    ...(before > 180 ? [x] : []),
    ...(wall.corner > 180 ? [wall.length - x] : []),
    Number.POSITIVE_INFINITY,
  );
}

/** The stud a number of mils names: the next thinner one listed, the thinnest where the plan says nothing. */
export function milsOf(mils: number | undefined): StudMils {
  const known = (Object.keys(STUD_MILS) as StudMils[]).map(Number).sort((a, b) => a - b);
  const found = known.filter((m) => m <= (mils ?? 0) + 0.5).at(-1) ?? known[0]!;
  return String(found) as StudMils;
}

/** Specific gravity of a wood, of usual framing where it is not said or not known. */
export const gravityOf = (species: string | undefined): number =>
  (species === undefined ? undefined : gravityOfWood(species)) ?? FRAMING_GRAVITY;

/** Of a board by its species; of a panel that of framing, which NDS table 12.3.3B gives plywood of no named grade. */
export const gravityOfStock = (plan: Plan, id: string): number =>
  gravityOf(plan.stock.boards.find((b) => b.id === id)?.species);
