import { sittersOf } from '../camera/index.ts';
import { faceAreas, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { Working } from '../notes/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import { bodiesOf, faceColours, prismOf, type Staged } from '../surroundings/index.ts';
import { BANDS, type Cast, castOf, fromBands, luxOf, paintSpectrum, reflectanceOf, toBands } from './cast.ts';
import { type Body, type Fields, fieldsOf, isFlat } from './fields.ts';
import { gridOf, meanOf, type Place, placesOf, type Solution } from './places.ts';
import { lightAt, roomGeometry, solveLight } from './radiosity.ts';
import { roomPatches } from './room-patches.ts';
import { lit, mixOf, type Source, sourcesOf } from './sources.ts';
import { bandsOf, PALE_SET, setColour, type Way, type Ways, waysOf } from './ways.ts';

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
  readonly places: readonly Place[];
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
  /** What the room alone puts on it, ΔE00: against the light that comes straight from the lamps, whose mixture differs from place to place. */
  readonly ofRoom: number | undefined;
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

/** Largest side of a patch, mm: coarse while something is dragged, fine on paper. */
export const COARSE = 1200;
export const FINE = 600;
/** Under the hand: fewer and larger pieces, one ray, the room as it will be painted and nothing else. */
const QUICK = 2500;
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

/** As many pieces as are solved in seconds: of a hall they are larger than of a room. */
const MOST_PATCHES = 1500;
/** The side of a piece with which what light meets is cut into no more than that, mm; that which is asked for, where it is enough. */
function sideOf(room: PlacedRoom, standing: readonly Body[], size: number): number {
  const boxes = standing.map(({ box: { min, max } }) => {
    const [x, y, z] = [max.x - min.x, max.y - min.y, max.z - min.z];
    return (2 * (x * y + x * z + y * z)) / 1e6;
  });
  const area = [...faceAreas(prismOf(room)), ...boxes].reduce((sum, a) => sum + a, 0);
  return Math.max(size, 1000 * Math.sqrt(area / MOST_PATCHES));
}

/** How far apart the points stand by which a strip is reckoned, mm. */
const STRIP_STEP = { usual: 500, quick: 1500 } as const;

function reckon(staged: Staged, wanted: number, quick = false): LightPlan | undefined {
  const sitters = sittersOf(staged);
  const sources = sourcesOf(staged, quick ? STRIP_STEP.quick : STRIP_STEP.usual);
  if (sources.length === 0 || sitters.length === 0) return undefined;
  const bodies = bodiesOf(staged);
  const standing = bodies.filter((b) => !isFlat(b));
  const size = sideOf(staged.room, standing, wanted);
  const fields = fieldsOf(staged, bodies.filter(isFlat));
  const ways = waysOf(staged, fields.panes.size > 0, quick);
  const solution = solved(staged, { sources, standing, fields, ways: ways.all, size, quick });
  const white = fromBands(toBands(mixOf(sources)));
  const read = (at: Vec3, normal: Vec3): readonly Lit[] => {
    const { total, direct } = lightAt(solution, at, normal, 1);
    return ways.all.map((_, w) => {
      const own = (bands: readonly number[]): readonly number[] => bands.slice(w * BANDS, (w + 1) * BANDS);
      const [all, straight] = [own(total), own(direct)];
      const directLux = luxOf(straight);
      return {
        lux: luxOf(all),
        directLux,
        cast: castOf(fromBands(all), white),
        ofRoom: directLux > 1 ? castOf(fromBands(all), fromBands(straight)).difference : undefined,
      };
    });
  };
  const readings = sitters.map((s) => read(s.eyes, s.ahead));
  const faces = sitters.map((s, i): FaceLight => {
    const [then, now = then] = readings[i] as [Lit, Lit?];
    return { id: s.id, title: s.title, at: s.eyes, ...then, before: { lux: now.lux, cast: now.cast } };
  });
  const lumens = sources.reduce((sum, s) => sum + s.lumens, 0);
  const { patches } = solution.scene.geometry;
  const [then] = ways.all;
  return {
    size,
    patches: patches.length,
    lumens,
    lampKelvin: sources.reduce((sum, s) => sum + s.kelvin * s.lumens, 0) / lumens,
    faces,
    walls: meanOf(solution, (of) => of.startsWith('wall ')),
    floor: meanOf(solution, (of) => of === 'floor'),
    places: quick ? [] : placesOf(staged, solution, standing),
    grid: quick
      ? []
      : gridOf(
          staged,
          solution,
          standing.map((b) => b.box),
        ),
    ...triedOn(readings[0]!, ways),
    colours: then!,
    painted: JSON.stringify(faceColours(staged, false)) !== JSON.stringify(then),
    workings: faces.map((f) => faceWorking(f, lumens, patches.length)),
  };
}

type Lit = Pick<FaceLight, 'lux' | 'directLux' | 'cast' | 'ofRoom'>;

/** What the paints and the tests do to a face, from how it is lit in every way of painting. */
function triedOn(face: readonly Lit[], { paints, tests }: Ways): Pick<LightPlan, 'paints' | 'causes' | 'paler'> {
  const first = face[0]!;
  // after the room as it will be and as it is
  const tried = paints.map(({ name, colour }, c) => {
    const { lux, cast } = face[c + 2]!;
    return { name, colour, reflectance: reflectanceOf(paintSpectrum(colour)), lux, cast };
  });
  const tested = tests.map(({ what }, k) => ({ what, ...face[k + paints.length + 2]! }));
  const most = Math.max(...tried.map((t) => t.lux));
  const pale = tested.find((t) => t.what === PALE_SET);
  return {
    paints: tried
      .map((t) => ({ ...t, lumens: most / t.lux }))
      .sort((a, b) => a.cast.difference - b.cast.difference || b.lux - a.lux),
    causes: tested
      .filter((t) => t !== pale)
      .map(({ what, cast: { difference } }) => ({
        what,
        without: difference,
        takes: first.cast.difference - difference,
      }))
      .sort((a, b) => b.takes - a.takes),
    paler: pale && pale.lux / first.lux,
  };
}

interface Lighting {
  readonly sources: readonly Source[];
  /** What stands in the way of light: box k of the surfaces is the k-th of them. */
  readonly standing: readonly Body[];
  readonly fields: Fields;
  readonly ways: readonly Way[];
  readonly size: number;
  readonly quick: boolean;
}

/** Every way of painting is solved at once, each as further bands: the paths of the light are the same for all of them. */
function solved(staged: Staged, { sources, standing, fields, ways, size, quick }: Lighting): Solution {
  const { room, option } = staged;
  const prism = prismOf(room);
  const boxes = standing.map((b) => b.box);
  const patches = roomPatches(prism, boxes, size, fields.insets);
  const all = (of: (way: Way) => readonly number[]): readonly number[] => ways.flatMap(of);
  const same = (bands: readonly number[]): readonly number[] => all(() => bands);
  const inWay = (colour: string, kind: string): readonly number[] => all((w) => bandsOf(setColour(w, colour, kind)));
  const sends = new Map<string, readonly number[]>([
    ['floor', all((w) => bandsOf(w.floor))],
    ['ceiling', all((w) => bandsOf(w.ceiling))],
    ...room.walls.map((_, k) => [`wall ${k}`, all((w) => bandsOf(w.walls[k]!))] as const),
    ...standing.map(({ colour, piece }, k) => [`box ${k}`, inWay(colour, piece.kind)] as const),
    ...[...fields.sends].map(
      ([name, of]) => [name, typeof of === 'string' ? inWay(of, 'absorber') : same(of)] as const,
    ),
  ]);
  const screens = new Map(
    option.pieces.flatMap((p) => ('display' in p && p.bright ? [[p.display, p.bright] as const] : [])),
  );
  // a Lambertian screen of L cd/m² gives off π L lm/m², before itself
  const glow = new Map<string, { readonly ahead: Vec3; readonly bands: readonly number[] }>(
    standing.flatMap(({ piece }, k) => {
      const bright = screens.get(piece.id);
      if (bright === undefined) return [];
      const ahead = subtract(toRoom(piece.frame, vec(0, 0, 1)), toRoom(piece.frame, vec(0, 0, 0)));
      return [[`box ${k}`, { ahead, bands: same(lit(Math.PI * bright, 6500)) }] as const];
    }),
  );
  return solveLight(
    {
      room: prism,
      boxes,
      geometry: roomGeometry(prism, boxes, patches, { rays: size > 900 ? 1 : 4 }),
      quick,
      bands: BANDS * ways.length,
      lamps: sources.map(({ lamp }) => ({ ...lamp, flux: same(lamp.flux) })),
      reflectance: ({ of }) => sends.get(of)!,
      emission: ({ of, normal }) => {
        const pane = fields.panes.get(of);
        if (pane) return all((w) => (w.shut ? DARK : pane));
        const screen = glow.get(of);
        return screen && screen.ahead.x * normal.x + screen.ahead.z * normal.z > 0.9 ? screen.bands : undefined;
      },
    },
    quick ? 1e-2 : 1e-3,
  );
}

const DARK: readonly number[] = new Array<number>(BANDS).fill(0);

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
