import { solvePanels } from '../cutting/index.ts';
import type { AbsorberPiece } from '../plan/index.ts';
import type { Fitting } from '../scene/index.ts';
import type { Staged } from '../surroundings/index.ts';
import { type LaidTile, layTiles, type Rectangle } from './treatment.ts';

/** Absorbers of a plan as tiles on their walls: where each lies, what is cut, how many are bought, what holds them. Lengths mm. */

/** One whole tile taken apart: the pieces that come out of it, with where the knife goes. */
export interface CutTile {
  readonly times: number;
  readonly pieces: readonly Rectangle[];
}
export interface TiledWall {
  readonly piece: AbsorberPiece;
  readonly title: string;
  readonly wall: string;
  /** The whole field, along the wall and above the floor. */
  readonly field: Rectangle;
  readonly laid: readonly LaidTile[];
  /** What the tiles go round, with the plan's clearance. */
  readonly round: readonly (Rectangle & { readonly id: string })[];
  readonly whole: number;
  readonly cut: number;
  /** m² */
  readonly area: number;
  /** How the cut pieces come out of whole tiles, and whether fewer tiles are impossible. */
  readonly cutting: { readonly tiles: readonly CutTile[]; readonly proven: boolean };
  /** Whole tiles to buy. */
  readonly buy: number;
  /** L */
  readonly adhesive: number;
}

/** A dab of grab adhesive, pressed: 25 mm across, 5 mm thick, one for every 12 × 12 in over five. Common practice. */
export const DAB = { diameter: 25, thickness: 5, area: 304.8 ** 2 / 5 } as const;
/** Dabs under a piece of tile of an area in mm²; a piece of any size has one at least. */
export const dabsFor = (area: number): number => Math.max(1, Math.ceil(area / DAB.area - 1e-9));
const DAB_LITRES = ((Math.PI / 4) * DAB.diameter ** 2 * DAB.thickness) / 1e6;

const kept = new WeakMap<object, readonly TiledWall[]>();
/** Every absorber on its wall, worked out once for the pieces it is made from. */
export function tiledWalls(staged: Staged): readonly TiledWall[] {
  const known = kept.get(staged.pieces);
  if (known) return known;
  const made = staged.option.pieces.flatMap((p) => ('absorber' in p ? layOut(p, staged) : []));
  kept.set(staged.pieces, made);
  return made;
}

/** Whole and cut tiles of an absorber, round sockets, openings and what else hangs there. */
function layOut(piece: AbsorberPiece, { room, pieces }: Staged): readonly TiledWall[] {
  const own = pieces.find((p) => p.id === piece.absorber);
  if (!own?.wall) return [];
  const wallId = own.wall.id;
  const field = {
    x: own.wall.from,
    y: own.frame.origin.y,
    width: piece.size.width,
    height: piece.size.height,
  };
  const { clear } = piece;
  const round = [
    ...[...room.openings, ...room.services]
      .filter((f) => f.wall === wallId)
      .map((f) => ({ id: f.id, x: f.x[0], y: f.y[0], width: f.x[1] - f.x[0], height: f.y[1] - f.y[0] })),
    ...pieces
      .filter(
        (p) => p.wall?.id === wallId && p.id !== own.id && ['case', 'shelf', 'display', 'lining'].includes(p.kind),
      )
      .map((p) => ({
        id: p.title,
        x: p.wall!.from + p.outside.min.x,
        y: p.frame.origin.y + p.outside.min.y,
        width: p.outside.max.x - p.outside.min.x,
        height: p.outside.max.y - p.outside.min.y,
      })),
  ]
    .map((r) => ({
      ...r,
      x: r.x - clear,
      y: r.y - clear,
      width: r.width + 2 * clear,
      height: r.height + 2 * clear,
    }))
    .filter(
      (r) =>
        r.x < field.x + field.width &&
        r.x + r.width > field.x &&
        r.y < field.y + field.height &&
        r.y + r.height > field.y,
    );
  const laid = layTiles(field, round, piece.tile, piece.between);
  const whole = laid.filter((t) => !t.cut).length;
  const cutting = cutFromTiles(
    piece.tile,
    laid.filter((t) => t.cut),
  );
  return [
    {
      piece,
      title: piece.title ?? piece.absorber,
      wall: wallId,
      field,
      laid,
      round,
      whole,
      cut: laid.length - whole,
      area: laid.reduce((sum, t) => sum + t.width * t.height, 0) / 1e6,
      cutting,
      buy: whole + cutting.tiles.reduce((sum, t) => sum + t.times, 0),
      adhesive: laid.reduce((sum, t) => sum + dabsFor(t.width * t.height), 0) * DAB_LITRES,
    },
  ];
}

/** Search steps for the tiles: a few dozen pieces at most, proven at once or nearly so. */
const STEPS = 500;
/** The cut pieces out of the fewest whole tiles: the cutting planner, with a knife that takes nothing. Foam has no grain. */
export function cutFromTiles(tile: number, pieces: readonly Rectangle[]): TiledWall['cutting'] {
  if (pieces.length === 0) return { tiles: [], proven: true };
  const answer = solvePanels(
    {
      name: 'tiles',
      kind: 'panels',
      kerf: 0,
      trim: 0,
      stock: [{ id: 'tile', length: tile, width: tile, cost: 1, count: null }],
      parts: pieces.map((p, k) => ({
        id: `${k}`,
        length: Math.min(tile, p.width),
        width: Math.min(tile, p.height),
        count: 1,
        turn: true,
      })),
    },
    { steps: STEPS },
  );
  if (answer.status === 'infeasible') return { tiles: pieces.map((p) => ({ times: 1, pieces: [p] })), proven: false };
  return {
    tiles: answer.layouts.map(({ times, placed }) => ({
      times,
      pieces: placed.map((p) => ({ x: p.x, y: p.y, width: p.length, height: p.width })),
    })),
    proven: answer.status === 'optimal',
  };
}

/**
 * Tiles and adhesive as they are bought, where the stock has packs of either; the backing panels are parts like any others.
 */
export const absorberFittings = (staged: Staged): readonly Fitting[] =>
  hasTilePacks(staged) ? neededFittings(staged) : [];
export const TILE_USES = ['absorber tile', 'tile adhesive'] as const;
export const hasTilePacks = ({ plan }: Staged): boolean =>
  plan.stock.packs.some((p) => TILE_USES.some((use) => use === p.use.toLowerCase()));

const neededFittings = (staged: Staged): readonly Fitting[] =>
  tiledWalls(staged).flatMap(({ piece, buy, adhesive }): readonly Fitting[] =>
    buy === 0
      ? []
      : [
          {
            id: `${piece.absorber}/tiles`,
            piece: piece.absorber,
            use: 'absorber tile',
            name: `tiles of ${piece.material}`,
            count: buy,
            tiles: { material: piece.material, side: piece.tile },
          },
          {
            id: `${piece.absorber}/adhesive`,
            piece: piece.absorber,
            use: 'tile adhesive',
            name: 'grab adhesive for tiles',
            count: 1,
            amount: { value: adhesive, unit: 'L' },
          },
        ],
  );
