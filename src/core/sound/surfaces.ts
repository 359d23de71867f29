import { thingCalled } from '../called.ts';
import { faceAreas } from '../geometry/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { prismOf, type Staged } from '../surroundings/index.ts';
import {
  FURNITURE_DENSITY,
  MATERIAL_BANDS,
  objectAbsorption,
  SURFACE_MATERIALS,
  type SurfaceMaterial,
} from './materials.ts';
import type { TiledWall } from './tiles.ts';

/** A patch of the room: what it is made of, and what would be there without the absorbers. Area m². */
export interface Surface {
  readonly name: string;
  readonly material: string;
  readonly bare: string;
  readonly area: number;
  readonly wall?: string;
  /** Share of what it throws back at 1 kHz that does not come back as from a mirror. */
  readonly scatters?: number;
}

/** Furniture that stands free: what it absorbs, m² by band. */
export interface Furnished {
  readonly title: string;
  readonly absorbs: readonly number[];
}

/** A surface of the table; undefined where it has none of this name. */
export const materialOf = (id: string): SurfaceMaterial | undefined => SURFACE_MATERIALS.find((m) => m.id === id);

export const FOAM = 'contoured open-cell foam 2 in';
/** What an opening of the room is to sound, by its kind. */
const OPENINGS = new Map([
  ['door', 'wood panel door'],
  ['window', 'window glass'],
  ['opening', 'open passage'],
]);
const FRAMED = 'gypsum board 1/2 in on studs, light framing';

/**
 * Of open bays and shelves with things in them, the share of sound at 1 kHz thrown about rather than back: the scattering coefficient
 * of ISO 17497-1, by which a mirror keeps (1 − α)(1 − s). Half is common practice for filled shelves.
 */
export const SCATTER = 0.5;

/** Of a case's face, what its open bays take. */
function openShare({ bays, outside: { min, max } }: PlacedPiece): number {
  const open = bays
    // what is open in rows is told once whole and once row by row
    .filter((b) => b.kind === 'open' && !bays.some((o) => o.kind === 'open' && b.id.startsWith(`${o.id}-`)))
    .reduce((sum, { clear: c }) => sum + (c.max.x - c.min.x) * (c.max.y - c.min.y), 0);
  return Math.min(1, open / ((max.x - min.x) * (max.y - min.y)));
}

/** What a wall is taken for by what carries it, where its own surface is not in the table. */
function wallMaterial(surface: string | undefined, framing: string | undefined): string {
  if (surface !== undefined && materialOf(surface)) return surface;
  return framing === 'masonry' ? 'plaster on brick or tile' : FRAMED;
}

/** Floor, ceiling and walls, by what lies on them; and the names that the plan gives surfaces and the table does not have. */
export function surfacesOf(
  { plan, option, room, pieces }: Staged,
  tiles: readonly TiledWall[],
): { readonly surfaces: readonly Surface[]; readonly unknown: readonly string[] } {
  const areas = faceAreas(prismOf(room));
  const unknown: string[] = [];
  const named = (id: string, otherwise: string): string => {
    if (materialOf(id)) return id;
    unknown.push(id);
    return otherwise;
  };
  const flat = (name: 'floor' | 'ceiling', usual: string, area: number): Surface => {
    const id = named(plan.room.faces?.[name]?.surface ?? usual, usual);
    return { name, material: id, bare: id, area };
  };
  const surfaces: Surface[] = [flat('floor', 'wood floor on joists', areas[0]!), flat('ceiling', FRAMED, areas[1]!)];
  room.walls.forEach((wall, k) => {
    const own = plan.room.walls[k];
    const bareWall = wallMaterial(own?.surface, own?.framing?.kind);
    let left = areas[k + 2]!;
    const take = (name: string, id: string, area: number, under = id, scatters = 0): void => {
      const used = Math.min(left, area);
      if (used <= 0) return;
      left -= used;
      surfaces.push({
        name,
        material: id,
        bare: under,
        area: used,
        wall: wall.id,
        ...(scatters > 0 && { scatters }),
      });
    };
    for (const o of room.openings.filter((f) => f.wall === wall.id)) {
      const area = ((o.x[1] - o.x[0]) * (o.y[1] - o.y[0])) / 1e6;
      take(thingCalled(o.kind, o.id), OPENINGS.get(o.kind)!, area);
    }
    for (const piece of pieces.filter((p) => p.wall?.id === wall.id)) {
      const { min, max } = piece.outside;
      const face = ((max.x - min.x) * (max.y - min.y)) / 1e6;
      if (piece.kind === 'case' || piece.kind === 'lining')
        take(piece.title, 'wood panel door', face, 'wood panel door', SCATTER * openShare(piece));
      // a shelf throws the sound about over a stretch of wall about as high as it is deep
      if (piece.kind === 'shelf')
        take(piece.title, bareWall, ((max.x - min.x) * (max.z - min.z)) / 1e6, bareWall, SCATTER);
      const laid = tiles.find((t) => t.piece.absorber === piece.id);
      if (laid) take(piece.title, named(laid.piece.material, FOAM), laid.area, bareWall);
    }
    surfaces.push({
      name: `wall ${wall.id}`,
      material: bareWall,
      bare: bareWall,
      area: Math.max(0, left),
      wall: wall.id,
    });
  });
  for (const piece of option.pieces)
    if ('thing' in piece && piece.surface !== undefined && !materialOf(piece.surface)) unknown.push(piece.surface);
  return { surfaces, unknown };
}

/** Seats of the table, whose coefficients are for the floor they stand on, not for their faces. */
const SEATS = / seats\b/;

/**
 * What stands free absorbs by its own surface where the plan names one, its faces but the lowest; seats by the floor they take, as their
 * coefficients are measured (L. L. Beranek, J. Acoust. Soc. Am. 45, 1969; without the strip round a block of rows, which one chair has
 * not); else by its volume, which its mass tells. A thing of which neither is known is left out.
 */
export function furnitureOf({ option, pieces }: Staged): readonly Furnished[] {
  return option.pieces.flatMap((said): readonly Furnished[] => {
    if (!('thing' in said)) return [];
    const title = pieces.find((p) => p.id === said.thing)?.title || said.thing;
    const soft = said.surface === undefined ? undefined : materialOf(said.surface);
    const { width, height, depth } = said.size;
    if (soft) {
      const sides = SEATS.test(soft.id) ? 0 : 2 * (width + depth) * height;
      const area = (width * depth + sides) * 1e-6;
      return [{ title, absorbs: soft.coefficients.map((α) => α * area) }];
    }
    if (said.mass === undefined) return [];
    const absorbs = objectAbsorption(said.mass / FURNITURE_DENSITY);
    return [{ title, absorbs: MATERIAL_BANDS.map(() => absorbs) }];
  });
}
