import type { Plan } from '../plan/index.ts';
import { MATERIAL_BANDS } from './materials.ts';
import { worstOf } from './middle-bands.ts';
import { FOAM, materialOf, type Surface } from './surfaces.ts';
import type { TiledWall } from './tiles.ts';
import { type BandedRoom, timesByBand, withAbsorbers } from './treatment.ts';

/** One way to the target, worked out like the room itself. */
export interface Cure {
  readonly what: string;
  /** Tiles more, or of the floor, m². */
  readonly tiles: number | undefined;
  readonly area: number;
  /** Of the tiles, before tax, where the plan has a price for them; smallest units of its money. */
  readonly cost: number | undefined;
  /** The longest of the three middle bands with nobody in the room, and the speech index, with it. */
  readonly time: number;
  readonly index: number;
  readonly enough: boolean;
}

/** Other absorbers tried beside the plan's own, and a carpet. */
const OTHERS = ['contoured open-cell foam 4 in', 'rigid glass-fibre board 2 in'] as const;
const CARPET = 'carpet, heavy, on felt or foam';

/** What would bring the room to its target, each by itself: more tiles of the plan's kind or of a thicker one on bare wall, or a carpet. */
export function curesFor({
  plan,
  treated,
  surfaces,
  tiles,
  target,
  sti,
}: {
  readonly plan: Plan;
  readonly treated: BandedRoom;
  readonly surfaces: readonly Surface[];
  readonly tiles: readonly TiledWall[];
  readonly target: number;
  readonly sti: (times: readonly number[]) => number;
}): readonly Cure[] {
  // The bare walls as one patch, of the mean coefficient of each band.
  const isBare = (k: number): boolean => surfaces[k]!.name.startsWith('wall ');
  const bare = treated.patches.filter((_, k) => isBare(k));
  const area = bare.reduce((sum, p) => sum + p.area, 0);
  if (area <= 0) return [];
  const mean = MATERIAL_BANDS.map((_, b) => bare.reduce((sum, p) => sum + p.area * p.coefficients[b]!, 0) / area);
  const room: BandedRoom = {
    ...treated,
    patches: [{ area, coefficients: mean }, ...treated.patches.filter((_, k) => !isBare(k))],
  };
  const first = tiles[0]?.piece;
  const side = first?.tile ?? 304.8;
  const own = first && materialOf(first.material) ? first.material : FOAM;
  const pack = plan.stock.packs.find((p) => p.use.toLowerCase() === 'absorber tile');
  const holds = typeof pack?.holds === 'number' ? pack.holds : 1;
  const met = (times: readonly number[]): boolean => worstOf(times) <= target * (1 + 1e-9);
  const withTiles = [own, ...OTHERS.filter((o) => o !== own)].map((id): Cure => {
    const { coefficients } = materialOf(id)!;
    const count = absorbersForMean(room, { area: side ** 2 / 1e6, coefficients }, met);
    return {
      what: id === own && first ? `more tiles like those of the plan, ${id}` : `tiles of ${id}`,
      tiles: count.count,
      area: (count.count * side ** 2) / 1e6,
      cost: id === own && pack?.price !== undefined ? Math.ceil(count.count / holds) * pack.price : undefined,
      time: worstOf(count.after),
      index: sti(count.after),
      enough: met(count.after),
    };
  });
  const floor = surfaces.findIndex((s) => s.name === 'floor');
  const carpeted = timesByBand({
    ...treated,
    patches: treated.patches.map((p, k) =>
      k === floor ? { ...p, coefficients: materialOf(CARPET)!.coefficients } : p,
    ),
  });
  return [
    ...withTiles,
    {
      what: CARPET,
      tiles: undefined,
      area: surfaces[floor]!.area,
      cost: undefined,
      time: worstOf(carpeted),
      index: sti(carpeted),
      enough: met(carpeted),
    },
  ];
}

/** The fewest absorbers on the first patch of a room with which its times are met, or all that fit. */
function absorbersForMean(
  room: BandedRoom,
  absorber: { readonly area: number; readonly coefficients: readonly number[] },
  met: (times: readonly number[]) => boolean,
): { readonly count: number; readonly after: readonly number[] } {
  const times = (count: number): readonly number[] => timesByBand(withAbsorbers(room, 0, absorber, count));
  let [low, high] = [0, Math.floor(room.patches[0]!.area / absorber.area + 1e-9)];
  if (!met(times(high))) return { count: high, after: times(high) };
  while (low < high) {
    const middle = (low + high) >> 1;
    if (met(times(middle))) high = middle;
    else low = middle + 1;
  }
  return { count: low, after: times(low) };
}
