import { framesOf, sittersOf } from '../camera/index.ts';
import {
  faceAreas,
  facesOf,
  floorArea,
  isInside,
  roomVolume,
  subtract,
  toRoom,
  type Vec3,
  vec,
} from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import { type Plan, printersFor } from '../plan/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { bodiesOf, prismOf, type Staged } from '../surroundings/index.ts';
import { airAttenuation, exactMidband, soundSpeed } from './air.ts';
import { flutterDecay, flutterRate } from './echo.ts';
import {
  FURNITURE_DENSITY,
  MATERIAL_BANDS,
  objectAbsorption,
  PERSON_ABSORPTION,
  SURFACE_MATERIALS,
  type SurfaceMaterial,
} from './materials.ts';
import { crowdedModes, listedUpTo, type Mode, modesBelow, schroederFrequency } from './modes.ts';
import { findReflections, parallelPairs } from './reflections.ts';
import { arau, type Pairs } from './reverberation.ts';
import { sayIndex, speechTransmission } from './speech.ts';
import { classroomTime, listeningRoomTime } from './targets.ts';
import { hasTilePacks, TILE_USES, type TiledWall, tiledWalls } from './tiles.ts';
import { type BandedRoom, type LaidTile, timesByBand, withAbsorbers } from './treatment.ts';

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

/** Measured corners are never quite square. */
export const isBox = (fills: number): boolean => fills > 0.98;

/** The room of a plan as sound meets it: by octave bands 125 Hz to 4 kHz. Areas m², times s. */
export interface SoundPlan {
  readonly bands: readonly number[];
  readonly volume: number;
  readonly surfaces: readonly Surface[];
  readonly furniture: readonly Furnished[];
  /** Without and with the option's absorbers. */
  readonly before: readonly number[];
  readonly after: readonly number[];
  readonly sabineAfter: readonly number[];
  /** By Arau-Puchades: what absorption on few of the walls really leaves. */
  readonly unevenAfter: readonly number[];
  /** Mean of 500, 1000 and 2000 Hz. */
  readonly mid: { readonly before: number; readonly after: number };
  readonly target: { readonly speech: number; readonly listening: number };
  /** What the target is held against: the longest of 500, 1000 and 2000 Hz with nobody in the room, as its standard says. */
  readonly worst: { readonly before: number; readonly after: number; readonly band: number };
  /** What else would bring the room to the speech target, each by itself; empty when it is there already. */
  readonly cures: readonly Cure[];
  readonly index: { readonly before: number; readonly after: number; readonly word: string };
  readonly schroeder: number;
  /** Of the box round the room, up to 120 Hz or so, and those that fall together: none are told of a room that is no box. */
  readonly modes: readonly Mode[];
  /** What of that box the room fills: 1 where it is a box. */
  readonly fills: number;
  readonly crowded: readonly (readonly Mode[])[];
  /** Between parallel faces: how far apart, repetitions a second, and how long it rings at 1 kHz on the bare faces and on the treated. */
  readonly flutter: readonly {
    readonly faces: string;
    readonly distance: number;
    readonly rate: number;
    readonly bare: number;
    readonly treated: number;
  }[];
  readonly reflections: readonly {
    readonly from: string;
    readonly to: string;
    readonly face: string;
    readonly point: Vec3;
    readonly delay: number;
    readonly level: number;
    /** The absorber it meets, if any. */
    readonly met: string | undefined;
  }[];
  readonly tiles: readonly TiledWall[];
  readonly workings: readonly Working[];
  /** Names in the plan that the table of materials does not have. */
  readonly unknown: readonly string[];
}

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

const AIR = { celsius: 20, humidity: 50 } as const;
const SPEED = soundSpeed(AIR.celsius);
const MID = [2, 3, 4];
const midOf = (times: readonly number[]): number => MID.reduce((sum, b) => sum + times[b]!, 0) / MID.length;
const worstOf = (times: readonly number[]): number => Math.max(...MID.map((b) => times[b]!));

const material = (id: string): SurfaceMaterial | undefined => SURFACE_MATERIALS.find((m) => m.id === id);

/** What a wall is taken for by what carries it, where its own surface is not in the table. */
function wallMaterial(surface: string | undefined, framing: string | undefined): string {
  if (surface !== undefined && material(surface)) return surface;
  return framing === 'masonry' ? 'plaster on brick or tile' : 'gypsum board 1/2 in on studs, light framing';
}

const kept = new WeakMap<object, SoundPlan>();
/** Worked out once for the pieces it is made from. */
export function soundOf(staged: Staged): SoundPlan {
  const known = kept.get(staged.pieces);
  if (known) return known;
  const made = reckon(staged);
  kept.set(staged.pieces, made);
  return made;
}

function reckon(staged: Staged): SoundPlan {
  const { plan, option, room, pieces } = staged;
  const prism = prismOf(room);
  const areas = faceAreas(prism);
  const volume = roomVolume(prism);
  const unknown: string[] = [];
  const named = (id: string, otherwise: string): string => {
    if (material(id)) return id;
    unknown.push(id);
    return otherwise;
  };
  const flat = (name: 'floor' | 'ceiling', usual: string, area: number): Surface => {
    const id = named(plan.room.faces?.[name]?.surface ?? usual, usual);
    return { name, material: id, bare: id, area };
  };
  const surfaces: Surface[] = [
    flat('floor', 'wood floor on joists', areas[0]!),
    flat('ceiling', 'gypsum board 1/2 in on studs, light framing', areas[1]!),
  ];
  const tiles = tiledWalls(staged);
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
      take(`${o.kind} ${o.id}`, o.kind === 'door' ? 'wood panel door' : 'window glass', area);
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
    if ('thing' in piece && piece.surface !== undefined && !material(piece.surface)) unknown.push(piece.surface);
  const people = option.pieces.filter((p) => 'seat' in p).length;
  const furniture = furnitureOf(staged);
  const banded = (treated: boolean, seated: number): BandedRoom => ({
    volume,
    patches: surfaces.map(({ material: id, bare, area }) => ({
      area,
      coefficients: material(treated ? id : bare)!.coefficients,
    })),
    // The source gives one figure for the middle bands; nothing is counted below them.
    objects: MATERIAL_BANDS.map((f, b) =>
      furniture.reduce((sum, item) => sum + item.absorbs[b]!, f >= 500 ? seated * PERSON_ABSORPTION : 0),
    ),
    air: MATERIAL_BANDS.map((f) => airAttenuation(AIR, exactMidband(f))),
  });
  const [bare, treated, unseated] = [banded(false, people), banded(true, people), banded(true, 0)];
  const [before, after] = [timesByBand(bare), timesByBand(treated)];
  const speech = volume <= 566 ? classroomTime(volume).time : 0.7;
  const listening = listeningRoomTime(volume).time;
  const mid = { before: midOf(before), after: midOf(after) };
  // The table ends at 4 kHz; the 8 kHz octave of the index is taken as that of 4 kHz, which air only shortens.
  const sti = (times: readonly number[]): number => speechTransmission([...times, times.at(-1)!]);
  const index = { before: sti(before), after: sti(after) };
  const empty = { before: timesByBand(banded(false, 0)), after: timesByBand(unseated) };
  const worst = {
    before: worstOf(empty.before),
    after: worstOf(empty.after),
    band: MATERIAL_BANDS[MID.reduce((best, b) => (empty.after[b]! > empty.after[best]! ? b : best), MID[0]!)]!,
  };
  const cures = worst.after > speech ? curesFor({ plan, treated: unseated, surfaces, tiles, target: speech, sti }) : [];
  const xs = room.outline.map((p) => p.x);
  const zs = room.outline.map((p) => p.z);
  const size = [
    (Math.max(...xs) - Math.min(...xs)) / 1000,
    (Math.max(...zs) - Math.min(...zs)) / 1000,
    room.ceiling / 1000,
  ] as const;
  const nameOfFace = (id: string): string => {
    const k = id.startsWith('wall ') ? Number(id.slice(5)) : -1;
    return k >= 0 ? `${room.walls[k]?.id ?? id} wall` : id;
  };
  // Walls that nobody sits between (the cheeks of a chimney breast) may flutter unheard.
  const mouths = sittersOf(staged).map((sitter) => sitter.mouth);
  const heardAt = (face: string): boolean => {
    if (!face.startsWith('wall ') || mouths.length === 0) return true;
    const k = Number(face.slice(5));
    const [a, b] = [room.outline[k]!, room.outline[(k + 1) % room.outline.length]!];
    const [dx, dz] = [b.x - a.x, b.z - a.z];
    return mouths.some((m) => {
      const t = ((m.x - a.x) * dx + (m.z - a.z) * dz) / (dx * dx + dz * dz);
      return t >= 0 && t <= 1;
    });
  };
  const fills = floorArea(prism) / (size[0] * size[1]);
  const modes = modesBelow(size, SPEED, listedUpTo(size, SPEED, Math.max(120, SPEED / Math.min(...size))));
  /** Of what meets a face at 1 kHz, the share that does not come back as from a mirror: swallowed or thrown about, by what lies on it. */
  const faceCoefficient = (face: string, with_: boolean): number => {
    const wall = face.startsWith('wall ') ? room.walls[Number(face.slice(5))]?.id : undefined;
    const own = surfaces.filter((s) => (wall === undefined ? s.name === face : s.wall === wall));
    const area = own.reduce((sum, s) => sum + s.area, 0);
    const taken = own.reduce((sum, { area: of, scatters = 0, ...s }) => {
      const α = material(with_ ? s.material : s.bare)!.coefficients[3];
      return sum + of * (1 - (1 - α) * (1 - scatters));
    }, 0);
    return area > 0 ? taken / area : 0.05;
  };
  return {
    bands: MATERIAL_BANDS,
    volume,
    surfaces,
    furniture,
    before,
    after,
    sabineAfter: timesByBand(treated, 'sabine'),
    unevenAfter: MATERIAL_BANDS.map((_, b) => unevenTime(staged, surfaces, treated, b)),
    mid,
    target: { speech, listening },
    worst,
    cures,
    index: { ...index, word: sayIndex(index.after) },
    schroeder: schroederFrequency(Math.max(0.05, mid.after), volume),
    modes,
    fills,
    crowded: isBox(fills) ? crowdedModes(modes, 0.02) : [],
    flutter: parallelPairs(prism)
      .filter(({ faces }) => faces.every((f) => heardAt(f)))
      .map(({ faces, distance }) => {
        const ring = (treated: boolean): number =>
          flutterDecay(distance / 1000, faceCoefficient(faces[0], treated), faceCoefficient(faces[1], treated), SPEED);
        return {
          faces: `${nameOfFace(faces[0])} and ${nameOfFace(faces[1])}`,
          distance,
          rate: flutterRate(distance / 1000, SPEED),
          bare: ring(false),
          treated: ring(true),
        };
      }),
    reflections: reflectionsOf(staged, tiles, nameOfFace),
    tiles,
    workings: [timeWorking(unseated, MATERIAL_BANDS.indexOf(worst.band as 500), worst, speech)],
    unknown,
  };
}

/**
 * Of open bays and shelves with things in them, the share of sound at 1 kHz thrown about rather than back: the scattering coefficient
 * of ISO 17497-1, by which a mirror keeps (1 − α)(1 − s). Half is common practice for filled shelves.
 */
const SCATTER = 0.5;

/** Of a case's face, what its open bays take. */
function openShare({ bays, outside: { min, max } }: PlacedPiece): number {
  const open = bays
    // what is open in rows is told once whole and once row by row
    .filter((b) => b.kind === 'open' && !bays.some((o) => o.kind === 'open' && b.id.startsWith(`${o.id}-`)))
    .reduce((sum, { clear: c }) => sum + (c.max.x - c.min.x) * (c.max.y - c.min.y), 0);
  return Math.min(1, open / ((max.x - min.x) * (max.y - min.y)));
}

/**
 * What stands free absorbs by its own surface where the plan names one (an upholstered chair: its faces but the lowest), else by its
 * volume, which its mass tells. A thing of which neither is known is left out.
 */
function furnitureOf({ option, pieces }: Staged): readonly Furnished[] {
  return option.pieces.flatMap((said): readonly Furnished[] => {
    if (!('thing' in said)) return [];
    const title = pieces.find((p) => p.id === said.thing)?.title || said.thing;
    const soft = said.surface === undefined ? undefined : material(said.surface);
    const { width, height, depth } = said.size;
    if (soft) {
      const area = (width * depth + 2 * (width + depth) * height) * 1e-6;
      return [{ title, absorbs: soft.coefficients.map((α) => α * area) }];
    }
    if (said.mass === undefined) return [];
    const absorbs = objectAbsorption(said.mass / FURNITURE_DENSITY);
    return [{ title, absorbs: MATERIAL_BANDS.map(() => absorbs) }];
  });
}

/** The room by Arau-Puchades in one band: its faces as three pairs, a wall counted to the axis it stands across. */
function unevenTime({ room }: Staged, surfaces: readonly Surface[], whole: BandedRoom, band: number): number {
  const axisOf = ({ wall }: Surface): 0 | 1 | 2 => {
    const found = room.walls.find((w) => w.id === wall);
    if (!found) return 2;
    const { x, z } = subtract(toRoom(found.frame, vec(0, 0, 1)), found.frame.origin);
    return Math.abs(x) > Math.abs(z) ? 0 : 1;
  };
  const sums = [0, 1, 2].map((axis) => {
    const own = surfaces.filter((s) => axisOf(s) === axis);
    const area = own.reduce((sum, s) => sum + s.area, 0);
    const taken = own.reduce((sum, s) => sum + s.area * material(s.material)!.coefficients[band]!, 0);
    return { area, taken };
  });
  const all = sums.reduce((sum, s) => sum + s.area, 0);
  // People belong to no wall: shared out by area.
  const people = whole.objects?.[band] ?? 0;
  const pairs = sums.map(({ area, taken }) => ({
    area,
    coefficient: Math.min(0.999, (taken + (people * area) / all) / area),
  }));
  return arau({ volume: whole.volume, pairs: pairs as unknown as Pairs, air: whole.air?.[band] ?? 0 });
}

const FOAM = 'contoured open-cell foam 2 in';
/** Other absorbers tried beside the plan's own, and a carpet. */
const OTHERS = ['contoured open-cell foam 4 in', 'rigid glass-fibre board 2 in'] as const;
const CARPET = 'carpet, heavy, on felt or foam';

/** What would bring the room to its target, each by itself: more tiles of the plan's kind or of a thicker one on bare wall, or a carpet. */
function curesFor({
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
  const own = first && material(first.material) ? first.material : FOAM;
  const pack = plan.stock.packs.find((p) => p.use.toLowerCase() === 'absorber tile');
  const holds = typeof pack?.holds === 'number' ? pack.holds : 1;
  const met = (times: readonly number[]): boolean => worstOf(times) <= target * (1 + 1e-9);
  const withTiles = [own, ...OTHERS.filter((o) => o !== own)].map((id): Cure => {
    const { coefficients } = material(id)!;
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
    patches: treated.patches.map((p, k) => (k === floor ? { ...p, coefficients: material(CARPET)!.coefficients } : p)),
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

/** First reflections from each mouth to each microphone within 20 ms, and whether a tile meets them. */
function reflectionsOf(
  staged: Staged,
  tiles: SoundPlan['tiles'],
  nameOfFace: (id: string) => string,
): SoundPlan['reflections'] {
  const { room } = staged;
  const prism = prismOf(room);
  const faces = facesOf(prism);
  const boxes = bodiesOf(staged).filter((b) => b.piece.kind !== 'absorber' && b.piece.kind !== 'lining');
  const microphones = framesOf(staged).filter((f) => f.piece.microphone);
  const sources = sittersOf(staged).filter((s) => s.seat.talks);
  return microphones.flatMap((m) =>
    sources.flatMap((s) => {
      if (!isInside(prism, s.mouth) || !isInside(prism, m.camera.at)) return [];
      return findReflections(prism, s.mouth, m.camera.at, { boxes: boxes.map((b) => b.box), speed: SPEED })
        .paths.filter((p) => p.delay < 0.02)
        .map((p) => {
          const point = p.points[0]!;
          const face = p.faces[0]!;
          const k = face.startsWith('wall ') ? Number(face.slice(5)) : -1;
          const wall = k >= 0 ? room.walls[k] : undefined;
          const met =
            wall && tiles.find((t) => t.wall === wall.id && covers(t.laid, wall.frame.origin, faces[k + 2]!, point));
          return {
            from: s.title,
            to: m.title,
            face: nameOfFace(face),
            point,
            delay: p.delay,
            level: p.spreading,
            met: met?.title,
          };
        });
    }),
  );
}

function covers(laid: readonly LaidTile[], origin: Vec3, _face: unknown, point: Vec3): boolean {
  const x = Math.hypot(point.x - origin.x, point.z - origin.z);
  return laid.some((t) => x >= t.x && x <= t.x + t.width && point.y >= t.y && point.y <= t.y + t.height);
}

function timeWorking(room: BandedRoom, band: number, worst: SoundPlan['worst'], limit: number): Working {
  const area = room.patches.reduce((sum, p) => sum + p.area, 0);
  const mean = room.patches.reduce((sum, p) => sum + p.area * (p.coefficients[band] ?? 0), 0) / area;
  return {
    what: `Reverberation time at ${worst.band} Hz, the longest of 500, 1000 and 2000 Hz, with nobody in the room`,
    formula: 'T = k V / (−S ln(1 − ᾱ) + 4 m V),  k = 24 ln 10 / c',
    inputs: [
      { symbol: 'V', name: 'volume', value: room.volume, unit: 'm³' },
      { symbol: 'S', name: 'all surfaces', value: area, unit: 'm²' },
      { symbol: 'ᾱ', name: `mean coefficient at ${worst.band} Hz`, value: mean, unit: '' },
      { symbol: 'm', name: `attenuation of air at ${worst.band} Hz`, value: room.air?.[band] ?? 0, unit: 'dB/km' },
    ],
    result: { value: worst.after, unit: 's' },
    also: [{ symbol: 'T0', name: 'without the absorbers', value: worst.before, unit: 's' }],
    limit: {
      value: limit,
      unit: 's',
      why: 'most for a room to teach in, in each of the three bands',
      source: { title: 'ANSI/ASA S12.60', edition: '2010', place: 'part 1, core learning spaces' },
    },
    source: { title: 'C. F. Eyring, Reverberation time in dead rooms', edition: 'J. Acoust. Soc. Am. 1 (1930)' },
    assumes: [
      'sound that goes everywhere: not below the Schroeder frequency, nor with all absorbers on one wall',
      'cases and linings count as wood panels; free furniture by its mass or its upholstery; books, curtains and instruments, which absorb more, are left out',
      'coefficients of the table; a maker’s data sheet is better',
    ],
  };
}

/** How much longer than the room two faces may ring before they are heard by themselves. Common practice. */
const FLUTTER = 1.5;

/** What cellular plastic does when it burns is a matter for a label and the local code. */
export const FOAM_CAUTION =
  'Foam and fabric burn: buy only what carries a fire test that your local code accepts for walls (ask for the certificate, not the word), keep it from lamps, heaters and sockets, and never use packing or bedding foam.';

/** Notes on the sound of the option: reverberation, first reflections, flutter, fire. */
export function soundNotes(staged: Staged): readonly Note[] {
  if (!staged.option.pieces.some((p) => 'seat' in p || 'absorber' in p)) return [];
  const s = soundOf(staged);
  const notes: Note[] = [];
  const about = s.tiles[0]?.piece.absorber ?? staged.option.pieces.flatMap((p) => ('seat' in p ? [p.seat] : []))[0]!;
  const long = s.worst.after > s.target.speech;
  const say = (t: number): string => t.toFixed(2);
  const { plan } = staged;
  const show = printersFor(plan.units);
  const sayCure = (c: Cure): string => {
    const price = c.cost === undefined ? '' : `, about ${show.money(c.cost)} before tax`;
    return `${c.tiles === undefined ? c.what : `${c.tiles} ${c.what}`} (${show.area(c.area * 1e6)}${price})`;
  };
  const enough = s.cures.filter((c) => c.enough);
  const bareAt = [...new Set(s.reflections.filter((r) => r.met === undefined).map((r) => r.face))].filter(
    (f) => f !== 'floor' && f !== 'ceiling',
  );
  notes.push({
    id: 'reverberation:room',
    about,
    verdict: long ? 'caution' : 'fine',
    title: long
      ? `The room rings ${say(s.worst.after)} s at ${s.worst.band} Hz with nobody in it (${say(s.worst.before)} s bare); ${say(s.target.speech)} s is the most for teaching`
      : `The room rings ${say(s.worst.after)} s at most in the middle bands with nobody in it (${say(s.worst.before)} s bare)`,
    advice: long
      ? `${enough.length === 0 ? 'No one thing is enough: tiles on every bare wall and a carpet together.' : `Any one of these would do: ${enough.map(sayCure).join('; ')}.`}${bareAt.length > 0 ? ` Tiles first where reflections land bare: ${bareAt.join(', ')}.` : ''} Speech index ${s.index.after.toFixed(2)}, ${s.index.word}.`
      : `Speech index ${s.index.after.toFixed(2)}, ${s.index.word}; for close recording ${say(s.target.listening)} s is the mark. Not checked: below ${Math.round(s.schroeder)} Hz, where single modes rule.`,
    working: s.workings[0]!,
  });
  const ringing = s.flutter
    .filter((f) => f.treated > FLUTTER * s.mid.after)
    .toSorted((a, b) => b.treated - a.treated)[0];
  if (ringing)
    notes.push({
      id: `flutter:${ringing.faces}`,
      about,
      verdict: 'caution',
      title: `Clap between ${ringing.faces}: an echo ${Math.round(ringing.rate)} times a second that rings ${say(ringing.treated)} s`,
      advice: `Both faces are hard and ${show.length(ringing.distance)} apart. ${ringing.faces === 'floor and ceiling' ? 'A rug or a carpet on the floor ends it; tiles under the ceiling do too, hung by a licensed trade.' : 'Tiles, a filled bookcase or a curtain on one of them, at the height of the mouth, end it.'} Open bays and shelves on them are reckoned to throw half of what meets them about; loose furniture before them, which helps too, is left out.`,
      working: {
        what: 'Flutter between two parallel faces',
        formula: 'T = 60 / (−10 lg((1 − α1)(1 − α2))) · 2 d / c',
        inputs: [
          { symbol: 'd', name: 'distance', value: ringing.distance, unit: 'mm' },
          { symbol: 'c', name: 'speed of sound', value: SPEED, unit: 'm/s' },
        ],
        result: { value: ringing.treated, unit: 's' },
        limit: {
          value: FLUTTER * s.mid.after,
          unit: 's',
          why: 'longer than the rest of the room by half (common practice)',
        },
        source: { title: 'energy left after each pair of reflections' },
        assumes: [
          'each face at 1000 Hz: swallowed and thrown about by what hangs on it, the rest smooth and parallel',
          `open bays and shelves scatter s = ${SCATTER} of it (common practice): α counts as 1 − (1 − α)(1 − s)`,
        ],
      },
    });
  const strongest = s.reflections.filter((r) => r.met === undefined).toSorted((a, b) => b.level - a.level)[0];
  if (strongest)
    notes.push({
      id: `reflection:${strongest.from}/${strongest.face}`,
      about,
      at: strongest.point,
      verdict: 'caution',
      title: `The strongest bare reflection of ${strongest.from} at ${strongest.to} comes off the ${strongest.face}, ${(1000 * strongest.delay).toFixed(1)} ms late`,
      advice:
        strongest.face === 'floor' || strongest.face === 'ceiling'
          ? 'A rug, or a cloud hung by a licensed trade, takes it away; hanging over heads is not for glue.'
          : 'Put an absorber where the balloon stands, or move the microphone nearer to the mouth.',
      working: {
        what: 'Level of the reflection against the direct sound',
        formula: '20 lg(d/L)',
        inputs: [{ symbol: 'L − d', name: 'detour', value: strongest.delay * SPEED * 1000, unit: 'mm' }],
        result: { value: strongest.level, unit: 'dB' },
        source: { title: 'J. B. Allen, D. A. Berkley, J. Acoust. Soc. Am. 65', edition: '1979' },
        assumes: ['a mirror-like face; its absorption is not taken off'],
      },
    });
  if (s.tiles.length > 0)
    notes.push({
      id: 'foam-fire:room',
      about,
      verdict: 'caution',
      title: `${s.tiles.reduce((n, t) => n + t.buy, 0)} absorber tiles go on the walls: mind their fire rating`,
      advice: FOAM_CAUTION,
    });
  if (s.tiles.length > 0 && !hasTilePacks(staged))
    notes.push({
      id: 'tiles-unpriced:stock',
      about,
      verdict: 'caution',
      title: 'Tiles and their adhesive are not in the bill: the stock has no packs of them',
      advice: `Add packs with their prices and 'use' of: ${TILE_USES.join(', ')}.`,
    });
  for (const name of new Set(s.unknown))
    notes.push({
      id: `surface:${name}`,
      about,
      verdict: 'caution',
      title: `“${name}” is not in the table of surfaces; another was taken`,
      advice: `Name one of: ${SURFACE_MATERIALS.slice(0, 6)
        .map((m) => m.id)
        .join('; ')} … (setwright reckon lists them).`,
    });
  return notes;
}
