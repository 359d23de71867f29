import { framesOf, sittersOf } from '../camera/index.ts';
import { add, type Box, isInside, scale, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Plan } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import { bodiesOf, faceColours, lampsOf, prismOf, type Staged, stripRuns, wallIndex } from '../surroundings/index.ts';
import {
  BANDS,
  type Cast,
  castOf,
  fromBands,
  lampBands,
  lampSpectrum,
  luxOf,
  paintSpectrum,
  reflectanceOf,
  toBands,
} from './cast.ts';
import { linearToSrgb, parseHex, srgbToXyz, toHex } from './colour.ts';
import { type Geometry, type Lamp, lightAt, meanOver, roomGeometry, solveLight } from './radiosity.ts';
import { type Inset, roomPatches } from './room-patches.ts';
import type { Spectrum } from './spectrum.ts';

/** Light on the faces of the people in a plan, the desk and the walls, in 21 bands, between all surfaces of the room. */
export interface LightPlan {
  /** Side of the largest piece a surface was cut into, mm, and how many pieces. */
  readonly size: number;
  readonly patches: number;
  readonly lumens: number;
  readonly lampKelvin: number;
  readonly faces: readonly FaceLight[];
  /** Lux on the walls and the floor as it is painted now: mean and least over mean. */
  readonly walls: { readonly mean: number; readonly evenness: number };
  readonly floor: { readonly mean: number; readonly evenness: number };
  /** Where light is wanted besides faces: tables, each wall, what the cases show. Lux. */
  readonly places: readonly { readonly what: string; readonly lux: number; readonly evenness: number | undefined }[];
  /** Level light at the height of a table, over the free floor. */
  readonly grid: readonly { readonly at: Vec3; readonly lux: number }[];
  /** What gives the cast: the first face with one thing made a grey as bright as it is. Strongest first. */
  readonly causes: readonly { readonly what: string; readonly without: number; readonly takes: number }[];
  /** The first face if the set (cases, linings, absorbers) were of raw light wood: how much more light, as a factor. */
  readonly paler: number | undefined;
  /** Each paint on all walls: what it does to the first face. Least cast first. */
  readonly paints: readonly PaintTried[];
  readonly colours: ReturnType<typeof faceColours>;
  readonly painted: boolean;
  readonly workings: readonly Working[];
}
export interface FaceLight {
  readonly id: string;
  readonly title: string;
  readonly at: Vec3;
  /** As the option paints the room. */
  readonly lux: number;
  readonly directLux: number;
  readonly cast: Cast;
  /** As the room is now. */
  readonly before: { readonly lux: number; readonly cast: Cast };
}
export interface PaintTried {
  readonly name: string;
  readonly colour: string;
  readonly reflectance: number;
  readonly lux: number;
  readonly cast: Cast;
  /** How many times the lumens of the brightest of them light the face as well. */
  readonly lumens: number;
}

/** For a plan that names no paints. */
const USUAL_PAINTS = [
  { name: 'white', colour: '#f0f0ee' },
  { name: 'light grey', colour: '#cfcfcb' },
  { name: 'mid grey', colour: '#9a9b9a' },
  { name: 'dark grey', colour: '#55585a' },
] as const;

/** What comes back from window glass at night and the frame round it, and from an open passage into a dark room, as a share. Common practice. */
const NIGHT_HOLE = 0.1;
/** What double glazing and its frame let through of diffuse daylight. Common practice. */
const GLASS = 0.6;
/** Largest side of a patch, mm: coarse while something is dragged, fine on paper. */
export const COARSE = 1200;
export const FINE = 600;
/** Under the hand: fewer and larger pieces, one ray, the room as it will be painted and nothing else. */
const QUICK = 2500;
/** Height of the level light shown on the plan, mm: EN 12464-1 takes the task's, here a table's. */
const TABLE = 750;
/** Reflectance of the lightest wood, for what a dark set costs: `WOOD` of a plan that says nothing. Common practice. */
const PALE = '#c8ab7d';

const spectra = new Map<string, readonly number[]>();
function bandsOf(colour: string): readonly number[] {
  const known = spectra.get(colour);
  if (known) return known;
  const made = toBands(paintSpectrum(colour)).map((r) => Math.min(0.97, r));
  spectra.set(colour, made);
  return made;
}

const lamps = new Map<number, readonly number[]>();
/** Bands of one lumen of a lamp; worked out once for each colour temperature. */
function lumenOf(kelvin: number): readonly number[] {
  const known = lamps.get(kelvin);
  if (known) return known;
  if (lamps.size > 200) lamps.clear();
  const made = lampBands(1, lampSpectrum(kelvin));
  lamps.set(kelvin, made);
  return made;
}
const lit = (lumens: number, kelvin: number): readonly number[] => lumenOf(kelvin).map((v) => v * lumens);

const kept = new WeakMap<object, Map<number, LightPlan | undefined>>();
/** Undefined where the option has no lamp or nobody to light. Worked out once for the pieces it is made from. */
export function lightOf(staged: Staged, size = COARSE): LightPlan | undefined {
  const own = kept.get(staged.pieces) ?? new Map<number, LightPlan | undefined>();
  kept.set(staged.pieces, own);
  if (!own.has(size)) own.set(size, reckon(staged, size));
  return own.get(size);
}

/** Light on the faces alone, quick enough for every frame of a drag (in a worker): within a few parts in a hundred of the rest. */
export function quickLight(staged: Staged): readonly FaceLight[] | undefined {
  return reckon(staged, QUICK, true)?.faces;
}

const greyOf = (colour: string): string => {
  const y = linearToSrgb(srgbToXyz(parseHex(colour))[1]);
  return toHex([y, y, y]);
};

/** One way of painting: the room's faces, and whether what stands in it keeps its colours. */
interface Way {
  readonly floor: string;
  readonly ceiling: string;
  readonly walls: readonly string[];
  readonly set?: 'grey' | 'pale';
  /** No daylight comes in. */
  readonly shut?: boolean;
}

interface Source {
  readonly lamp: Lamp;
  readonly lumens: number;
  readonly kelvin: number;
}

/** Lamps and, at so many points, strips, as sources with their flux by band. */
function sourcesOf(staged: Staged, apart: number): readonly Source[] {
  const lamps = lampsOf(staged).map(({ piece, at }): Source => {
    const flux = lit(piece.lumens, piece.kelvin);
    const shape: Lamp['shape'] = piece.shape === 'beam' ? { kind: 'beam', angle: piece.angle } : { kind: piece.shape };
    const towards = piece.towards && vec(piece.towards.x, piece.towards.above, piece.towards.y);
    return { lamp: { at, flux, shape, ...(towards && { towards }) }, lumens: piece.lumens, kelvin: piece.kelvin };
  });
  const strips = stripRuns(staged).flatMap(({ strip, from, to, space }): readonly Source[] => {
    const lumens = ((strip.lumens ?? 0) * strip.level * space) / 1000;
    if (lumens <= 0) return [];
    const way = subtract(to, from);
    const count = Math.max(1, Math.round(space / apart));
    return Array.from({ length: count }, (_, k): Source => {
      const at = add(from, scale(way, (k + 0.5) / count));
      return {
        lamp: { at: vec(at.x, at.y - 2, at.z), flux: lit(lumens / count, strip.kelvin), shape: { kind: 'diffuse' } },
        lumens: lumens / count,
        kelvin: strip.kelvin,
      };
    });
  });
  return [...lamps, ...strips];
}

function reckon(staged: Staged, size: number, quick = false): LightPlan | undefined {
  const { room, option, plan } = staged;
  const sitters = sittersOf(staged);
  const sources = sourcesOf(staged, quick ? 1500 : 500);
  if (sources.length === 0 || sitters.length === 0) return undefined;
  const prism = prismOf(room);
  const bodies = bodiesOf(staged);
  // What lies flat on a wall is a field of the wall; the rest stands in the way.
  const flat = (b: (typeof bodies)[number]): boolean => b.piece.kind === 'absorber' || b.piece.kind === 'lining';
  const standing = bodies.filter((b) => !flat(b));
  const boxes: readonly Box[] = standing.map((b) => b.box);
  const insets: Inset[] = [];
  /** What a field of a wall sends back: bands of its own, or a colour that a way of painting may change. */
  const fields = new Map<string, readonly number[] | string>();
  const panes = new Map<string, readonly number[]>();
  const field = (
    name: string,
    wall: string,
    rect: Omit<Inset, 'name' | 'wall'>,
    bands: readonly number[] | string,
  ): void => {
    const k = wallIndex(room, wall);
    if (k < 0) return;
    insets.push({ name, wall: k, ...rect });
    fields.set(name, bands);
  };
  for (const o of room.openings) {
    const own = saidOf(plan, o);
    // The glass gives off what comes through it, diffuse, as the light of the sky.
    if (own?.daylight) panes.set(`opening ${o.id}`, lit(GLASS * own.daylight, 6500));
    field(
      `opening ${o.id}`,
      o.wall,
      { from: o.x[0], width: o.x[1] - o.x[0], bottom: o.y[0], height: o.y[1] - o.y[0] },
      o.kind === 'door' ? bandsOf('#e9e7e1') : new Array<number>(BANDS).fill(NIGHT_HOLE),
    );
  }
  for (const b of bodies.filter(flat)) {
    const { piece } = b;
    if (!piece.wall) continue;
    const { min, max } = piece.outside;
    field(
      `piece ${piece.id}`,
      piece.wall.id,
      {
        from: piece.wall.from + min.x,
        width: max.x - min.x,
        bottom: piece.frame.origin.y + min.y,
        height: max.y - min.y,
      },
      b.colour,
    );
  }
  const patches = roomPatches(prism, boxes, size, insets);
  const geometry: Geometry = roomGeometry(prism, boxes, patches, { rays: size > 900 ? 1 : 4 });
  const lumens = sources.reduce((sum, s) => sum + s.lumens, 0);
  const lampMix = mixOf(sources);
  const screens = new Map(
    option.pieces.flatMap((p) => ('display' in p && p.bright ? [[p.display, p.bright] as const] : [])),
  );
  const now = faceColours(staged, false);
  const then = faceColours(staged, true);
  const painted = JSON.stringify(now) !== JSON.stringify(then);
  const candidates = quick ? [] : (plan.paints ?? USUAL_PAINTS);
  // Every way of painting is solved at once, as further bands: the paths of the light are the same for all of them.
  const tests: readonly { readonly what: string; readonly way: Way }[] = quick
    ? []
    : [
        { what: 'walls', way: { ...then, walls: then.walls.map(greyOf) } },
        { what: 'floor', way: { ...then, floor: greyOf(then.floor) } },
        { what: 'ceiling', way: { ...then, ceiling: greyOf(then.ceiling) } },
        { what: 'cases, furniture and absorbers', way: { ...then, set: 'grey' } },
        { what: 'pale set', way: { ...then, set: 'pale' } },
        ...(panes.size > 0 ? [{ what: DAYLIGHT, way: { ...then, shut: true } as Way }] : []),
      ];
  const ways: readonly Way[] = [
    then,
    ...(quick ? [] : [now]),
    ...candidates.map(({ colour }) => ({ ...then, walls: then.walls.map(() => colour) })),
    ...tests.map((t) => t.way),
  ];
  const all = (of: (way: Way) => readonly number[]): readonly number[] => ways.flatMap(of);
  const [floor, ceiling] = [all((c) => bandsOf(c.floor)), all((c) => bandsOf(c.ceiling))];
  const walls = room.walls.map((_, k) => all((c) => bandsOf(c.walls[k]!)));
  const same = (bands: readonly number[]): readonly number[] => ways.flatMap(() => bands);
  const made = (kind: string): boolean => ['case', 'shelf', 'lining', 'absorber'].includes(kind);
  const inWay = (colour: string, kind: string): readonly number[] =>
    all((w) => bandsOf(w.set === 'grey' ? greyOf(colour) : w.set === 'pale' && made(kind) ? lighter(colour) : colour));
  const things = standing.map((b) => inWay(b.colour, b.piece.kind));
  const set = new Map(
    [...fields].map(([name, of]) => [name, typeof of === 'string' ? inWay(of, 'absorber') : same(of)]),
  );
  const glow = standing.map((b) => {
    const bright = screens.get(b.piece.id);
    // A Lambertian screen of L cd/m² gives off π L lm/m².
    return bright === undefined ? undefined : same(lit(Math.PI * bright, 6500));
  });
  const solution = solveLight(
    {
      room: prism,
      boxes,
      geometry,
      quick,
      bands: BANDS * ways.length,
      lamps: sources.map(({ lamp }) => ({ ...lamp, flux: same(lamp.flux) })),
      reflectance: ({ of }) =>
        of === 'floor'
          ? floor
          : of === 'ceiling'
            ? ceiling
            : (set.get(of) ?? (of.startsWith('wall ') ? walls[Number(of.slice(5))]! : things[Number(of.slice(4))]!)),
      emission: ({ of, normal }) => {
        const pane = panes.get(of);
        if (pane) return all((w) => (w.shut ? DARK : pane));
        if (!of.startsWith('box ')) return undefined;
        const { frame } = standing[Number(of.slice(4))]!.piece;
        const front = subtract(toRoom(frame, vec(0, 0, 1)), toRoom(frame, vec(0, 0, 0)));
        return front.x * normal.x + front.z * normal.z > 0.9 ? glow[Number(of.slice(4))] : undefined;
      },
    },
    quick ? 1e-2 : 1e-3,
  );
  const white = fromBands(toBands(lampMix));
  const read = (at: Vec3, normal: Vec3) => {
    const reading = lightAt(solution, at, normal, 1);
    return ways.map((_, w) => {
      const own = (bands: readonly number[]): readonly number[] => bands.slice(w * BANDS, (w + 1) * BANDS);
      const total = own(reading.total);
      return { lux: luxOf(total), directLux: luxOf(own(reading.direct)), cast: castOf(fromBands(total), white) };
    });
  };
  const readings = sitters.map((s) => read(s.eyes, s.ahead));
  const faces = sitters.map((s, i): FaceLight => {
    const lit = readings[i]![0]!;
    const was = readings[i]![1] ?? lit;
    return { id: s.id, title: s.title, at: s.eyes, ...lit, before: { lux: was.lux, cast: was.cast } };
  });
  const tried = candidates.map(({ name, colour }, c) => {
    const lit = readings[0]![c + 2]!;
    return { name, colour, reflectance: reflectanceOf(paintSpectrum(colour)), lux: lit.lux, cast: lit.cast };
  });
  const most = Math.max(...tried.map((t) => t.lux));
  const base = candidates.length + 2;
  const tested = tests.map((t, k) => ({ ...t, lit: readings[0]![base + k]! }));
  const first = readings[0]![0]!;
  const mean = (of: (name: string) => boolean) => {
    const bands = meanBands(solution, of);
    const { evenness } = meanOver(solution, (p) => of(p.of), Math.floor(BANDS / 2));
    return { mean: luxOf(bands), evenness };
  };
  return {
    size,
    patches: geometry.patches.length,
    lumens,
    lampKelvin: sources.reduce((sum, s) => sum + s.kelvin * s.lumens, 0) / lumens,
    faces,
    walls: mean((of) => of.startsWith('wall ')),
    floor: mean((of) => of === 'floor'),
    places: quick ? [] : placesOf(staged, solution, standing, mean),
    grid: quick ? [] : gridOf(staged, solution, boxes),
    causes: tested
      .filter((t) => t.what !== 'pale set')
      .map(({ what, lit }) => ({
        what,
        without: lit.cast.difference,
        takes: first.cast.difference - lit.cast.difference,
      }))
      .sort((a, b) => b.takes - a.takes),
    paler: quick ? undefined : tested.find((t) => t.what === 'pale set')!.lit.lux / first.lux,
    paints: tried
      .map((t) => ({ ...t, lumens: most / t.lux }))
      .sort((a, b) => a.cast.difference - b.cast.difference || b.lux - a.lux),
    colours: then,
    painted,
    workings: faces.map((f) => faceWorking(f, lumens, geometry.patches.length)),
  };
}

/** The paler of a colour and the lightest wood. */
function lighter(colour: string): string {
  const of = (c: string): number => srgbToXyz(parseHex(c))[1];
  return of(colour) < of(PALE) ? PALE : colour;
}

type MeanOf = (of: (name: string) => boolean) => { readonly mean: number; readonly evenness: number };

/** Tops of tables, each wall, and the outsides of the cases. */
function placesOf(
  { room }: Staged,
  solution: ReturnType<typeof solveLight>,
  standing: ReturnType<typeof bodiesOf>,
  mean: MeanOf,
): LightPlan['places'] {
  const tables = standing
    .filter(({ piece, box: { min, max } }) => {
      const area = (max.x - min.x) * (max.z - min.z);
      return piece.kind === 'thing' && max.y > 600 && max.y < 1000 && area > 4e5;
    })
    .map(({ piece, box: { min, max } }) => {
      const top = vec((min.x + max.x) / 2, max.y + 1, (min.z + max.z) / 2);
      const bands = lightAt(solution, top, vec(0, 1, 0), 1, BANDS).total;
      return { what: `${piece.title}, its top`, lux: luxOf(bands), evenness: undefined };
    });
  const cases = new Set(standing.flatMap((b, k) => (b.piece.kind === 'case' ? [`box ${k}`] : [])));
  const faces = [
    ...room.walls.map((w, k) => ({ what: `${w.id} wall`, of: (n: string) => n === `wall ${k}` })),
    { what: 'cases, all sides', of: (n: string) => cases.has(n) },
    { what: 'floor', of: (n: string) => n === 'floor' },
  ];
  return [
    ...tables,
    ...faces.flatMap(({ what, of }) => {
      const { mean: lux, evenness } = mean(of);
      return lux > 0 ? [{ what, lux, evenness }] : [];
    }),
  ];
}

/** Level light at table height on an even grid over the room, where nothing stands. */
function gridOf({ room }: Staged, solution: ReturnType<typeof solveLight>, boxes: readonly Box[]): LightPlan['grid'] {
  const prism = { outline: room.outline, height: room.ceiling };
  const [xs, zs] = [room.outline.map((p) => p.x), room.outline.map((p) => p.z)];
  const [x0, x1, z0, z1] = [Math.min(...xs), Math.max(...xs), Math.min(...zs), Math.max(...zs)];
  const [across, down] = [Math.max(2, Math.round((x1 - x0) / 900)), Math.max(2, Math.round((z1 - z0) / 900))];
  const points = Array.from({ length: across * down }, (_, k) =>
    vec(
      x0 + (((k % across) + 0.5) * (x1 - x0)) / across,
      TABLE,
      z0 + ((Math.floor(k / across) + 0.5) * (z1 - z0)) / down,
    ),
  );
  return points
    .filter(
      (p) =>
        isInside(prism, p) &&
        !boxes.some(
          ({ min, max }) =>
            p.x > min.x - 20 && p.x < max.x + 20 && p.z > min.z - 20 && p.z < max.z + 20 && p.y < max.y && p.y > min.y,
        ),
    )
    .map((at) => ({ at, lux: luxOf(lightAt(solution, at, vec(0, 1, 0), 1, BANDS).total) }));
}

/** What the plan says of an opening of the room. */
const saidOf = (plan: Plan, o: PlacedRoom['openings'][number]) =>
  plan.room.openings.find((p) => p.wall === o.wall && Math.abs(p.from - o.x[0]) < 0.01);

/** Kept out, to see what it does. */
const DAYLIGHT = 'daylight (kept out)';
const DARK: readonly number[] = new Array<number>(BANDS).fill(0);

/** In words, daylight that comes in beside warmer lamps: it, not the paint, is what tints a face then. */
function daylightBeside({ plan, option, room }: Staged): string | undefined {
  const panes = room.openings.filter((o) => saidOf(plan, o)?.daylight);
  const warm = Math.min(...option.pieces.flatMap((p) => ('lamp' in p || ('strip' in p && p.lumens) ? [p.kelvin] : [])));
  if (panes.length === 0 || warm > 5000) return undefined;
  return `Daylight of about 6500 K through ${panes.map((o) => o.id).join(' and ')} meets lamps of ${warm} K, and each side of a face takes the colour of its own: draw a blind, or take lamps of 5000 to 6500 K and balance the camera to them.`;
}

function mixOf(sources: readonly Source[]): Spectrum {
  const kelvins = [...new Set(sources.map((s) => s.kelvin))];
  const parts = kelvins.map((kelvin) => ({
    spectrum: lampSpectrum(kelvin),
    lumens: sources.reduce((sum, s) => sum + (s.kelvin === kelvin ? s.lumens : 0), 0),
  }));
  const shares = parts.map((p) => ({ spectrum: p.spectrum, of: p.lumens / luxOf(toBands(p.spectrum)) }));
  return parts[0]!.spectrum.map((_, k) => shares.reduce((sum, p) => sum + p.spectrum[k]! * p.of, 0));
}

function meanBands(solution: ReturnType<typeof solveLight>, of: (name: string) => boolean): readonly number[] {
  const sum = new Array<number>(BANDS).fill(0);
  let area = 0;
  solution.scene.geometry.patches.forEach((p, i) => {
    if (!of(p.of)) return;
    area += p.area;
    for (let b = 0; b < BANDS; b++) sum[b]! += solution.illuminance[i * solution.scene.bands + b]! * p.area;
  });
  return sum.map((v) => (area > 0 ? v / area : 0));
}

function faceWorking(face: FaceLight, lumens: number, patches: number): Working {
  return {
    what: `Light on the face of ${face.title}`,
    formula: 'M = M0 + ρ E,  E = F M + E_lamps; at the face E = Σ F_j M_j + Σ I cos θ/d²',
    inputs: [
      { symbol: 'Φ', name: 'lumens of all lamps and strips', value: lumens, unit: 'lm' },
      { symbol: 'n', name: 'patches', value: patches, unit: '' },
      { symbol: 'E_lamps', name: 'straight from lamps', value: face.directLux, unit: 'lx' },
    ],
    result: { value: face.lux, unit: 'lx' },
    also: [
      { symbol: 'T', name: 'correlated colour temperature', value: face.cast.kelvin, unit: 'K' },
      { symbol: 'Duv', name: 'distance from the locus', value: face.cast.duv, unit: '' },
      { symbol: 'ΔE00', name: 'a white card against the lamps alone', value: face.cast.difference, unit: '' },
    ],
    source: {
      title: 'M. F. Cohen, D. P. Greenberg, The hemi-cube: a radiosity solution for complex environments, SIGGRAPH',
      edition: '1985',
      place: 'Gauss–Seidel iteration',
    },
    assumes: [
      'all surfaces diffuse; a fitting shines from its middle; cases count as closed boxes of their front’s colour',
      'evening where a window has no daylight in the plan: its glass reflects a tenth',
      'paints by the smoothest reflectance of their daylight colour; lamps by a black body or daylight of their temperature',
      'CIE 1931 observer; CIEDE2000 of ISO/CIE 11664-6',
    ],
  };
}

/** A cast seen side by side from about 1; from 2 it is worth a brush. Common practice. */
const CAST_LIMIT = 2;
/** ISO a camera needs for a mid exposure: C N²/(E t), C = 250 for a flat receptor. From memory of ISO 2720. */
const METER = 250;

/** Less than this on a face is darkness to a camera, lx: of nothing no colour can be told. Common practice. */
const DARKEST = 0.1;

/** Who is filmed by the light of nothing that the plan knows. */
function unlit(staged: Staged): readonly Note[] {
  const [first] = sittersOf(staged);
  if (!first || framesOf(staged).length === 0) return [];
  return [
    {
      id: 'no-lamp:room',
      about: first.id,
      at: first.eyes,
      verdict: 'caution',
      title: 'Light on faces is not worked out: no lamp is in the plan',
      advice: 'Add the lamps of the room, with the lumens that stand on their packing, or give a strip its lumens.',
    },
  ];
}

/** Notes on light: colour cast and its cure, exposure, evenness between people. */
export function lightNotes(staged: Staged, size = COARSE): readonly Note[] {
  const light = lightOf(staged, size);
  if (!light) return unlit(staged);
  const bright = light.faces.filter((f) => f.lux >= DARKEST);
  const notes: Note[] = light.faces
    .filter((f) => !(f.lux >= DARKEST))
    .map((f) => ({
      id: `dark-face:${f.id}`,
      about: f.id,
      at: f.at,
      verdict: 'caution',
      title: `No light to speak of reaches the face of ${f.title}`,
      advice: 'Its lamps shine into something that stands round them, or away: move them or what hides them.',
      working: light.workings[light.faces.indexOf(f)]!,
    }));
  const first = light.faces[0]!;
  // colours, paints and exposure are told of the first face
  if (first !== bright[0]) return notes;
  const worst = bright.reduce((a, b) => (b.cast.difference > a.cast.difference ? b : a));
  const working = light.workings[light.faces.indexOf(worst)]!;
  const limited: Working = {
    ...working,
    what: `Cast of the light on the face of ${worst.title}`,
    result: { value: worst.cast.difference, unit: '' },
    limit: { value: CAST_LIMIT, unit: '', why: 'a cast that is plainly seen (common practice)' },
    also: [
      { symbol: 'E', name: 'light on the face', value: worst.lux, unit: 'lx' },
      { symbol: 'ΔT', name: 'shift of the colour temperature', value: worst.cast.kelvinShift, unit: 'K' },
      { symbol: 'ΔDuv', name: 'shift from the locus', value: worst.cast.duvShift, unit: '' },
    ],
  };
  // The brightest of those that leave hardly more cast than the least.
  const best = light.paints
    .filter((p) => p.cast.difference <= light.paints[0]!.cast.difference + 2)
    .toSorted((a, b) => b.lux - a.lux)[0];
  const before = light.painted ? `; before painting ${worst.before.cast.difference.toFixed(1)}` : '';
  const bad = worst.cast.difference > CAST_LIMIT;
  const main = light.causes[0];
  const cause =
    main && main.what !== DAYLIGHT && main.takes > 0.5
      ? `Most of it comes from the ${main.what}: were ${main.what === 'walls' || main.what.startsWith('cases') ? 'they' : 'it'} grey, ${main.without.toFixed(1)} would be left.`
      : '';
  const mixed = worst.cast.kelvinShift > 0 ? daylightBeside(staged) : undefined;
  if (light.paler !== undefined && light.paler > 1.15)
    notes.push({
      id: 'dark-set:room',
      about: first.id,
      at: first.at,
      verdict: 'caution',
      title: `The dark set swallows light: ${first.title} would have ${Math.round(100 * (light.paler - 1))} % more before pale wood`,
      advice: `To light the face as well, the lamps need ${Math.round((light.lumens * light.paler) / 100) * 100} lm instead of ${Math.round(light.lumens / 100) * 100}.`,
    });
  notes.push({
    id: 'colour-cast:room',
    about: worst.id,
    at: worst.at,
    verdict: bad ? 'caution' : 'fine',
    title: `${mixed ? 'Daylight beside the lamps' : 'The room'} puts ${worst.cast.words} on ${worst.title}: ΔE00 ${worst.cast.difference.toFixed(1)}${before}`,
    advice: bad
      ? [
          `${worst.cast.kelvinShift > 0 ? '+' : '−'}${Math.abs(Math.round(worst.cast.kelvinShift))} K.`,
          ...(mixed ? [mixed] : cause ? [cause] : []),
          ...(best
            ? [
                `Of the paints tried, ${best.name} on the walls does best: ΔE00 ${best.cast.difference.toFixed(1)}, ${Math.round(best.lux)} lx.`,
              ]
            : []),
          'Or balance the camera to a white card held at the face.',
        ].join(' ')
      : 'Checked against the lamps alone. Not checked: the colour rendering of the lamps themselves.',
    working: limited,
  });
  for (const frame of framesOf(staged)) {
    const speed = (METER * frame.piece.stop ** 2 * frame.piece.shutter) / first.lux;
    notes.push({
      id: `exposure:${frame.id}`,
      about: frame.id,
      at: frame.camera.at,
      verdict: speed > 1600 ? 'caution' : 'fine',
      title: `${frame.title} needs about ISO ${Math.round(speed / 10) * 10} for ${Math.round(first.lux)} lx on ${first.title}`,
      advice:
        speed > 1600
          ? 'More lumens, lighter walls and cases, a wider stop or a longer exposure: dark colours swallow what the lamps give.'
          : 'At the stop and shutter of the plan.',
      working: {
        what: 'Speed the picture needs',
        formula: 'S = C N²/(E t)',
        inputs: [
          {
            symbol: 'C',
            name: 'incident-light constant, flat receptor',
            value: METER,
            unit: '',
            source: 'from memory',
          },
          { symbol: 'N', name: 'stop', value: frame.piece.stop, unit: '' },
          { symbol: 'E', name: 'light on the face', value: first.lux, unit: 'lx' },
          { symbol: 't', name: 'exposure', value: 1 / frame.piece.shutter, unit: 's' },
        ],
        result: { value: speed, unit: '' },
        limit: { value: 1600, unit: '', why: 'noise that begins to show (common practice)' },
        source: 'from memory',
        assumes: ['the calibration of an incident-light meter'],
      },
    });
  }
  const [low, high] = [Math.min(...bright.map((f) => f.lux)), Math.max(...bright.map((f) => f.lux))];
  if (bright.length > 1 && high > 2 * low)
    notes.push({
      id: 'faces-even:room',
      about: worst.id,
      verdict: 'caution',
      title: `One face has ${(high / low).toFixed(1)} times the light of another`,
      advice: 'A stop is a factor of 2: move a lamp towards the darker face, or turn the seats.',
    });
  return notes;
}
