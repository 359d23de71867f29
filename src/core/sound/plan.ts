import { framesOf, sittersOf } from '../camera/index.ts';
import { faceAreas, facesOf, isInside, roomVolume, type Vec3 } from '../geometry/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { AbsorberPiece } from '../plan/index.ts';
import { bodiesOf, prismOf, type Staged } from '../surroundings/index.ts';
import { airAttenuation, exactMidband, soundSpeed } from './air.ts';
import { flutterRate } from './echo.ts';
import { MATERIAL_BANDS, PERSON_ABSORPTION, SURFACE_MATERIALS, type SurfaceMaterial } from './materials.ts';
import { lowestModes, type Mode, schroederFrequency } from './modes.ts';
import { findReflections, parallelPairs } from './reflections.ts';
import { sayIndex, speechTransmission } from './speech.ts';
import { classroomTime, listeningRoomTime } from './targets.ts';
import { absorbersFor, type BandedRoom, type LaidTile, layTiles, timesByBand } from './treatment.ts';

/** The room of a plan as sound meets it: by octave bands 125 Hz to 4 kHz. Areas m², times s. */
export interface SoundPlan {
  readonly bands: readonly number[];
  readonly volume: number;
  readonly surfaces: readonly { readonly name: string; readonly material: string; readonly area: number }[];
  /** Without and with the option's absorbers. */
  readonly before: readonly number[];
  readonly after: readonly number[];
  readonly sabineAfter: readonly number[];
  /** Mean of 500, 1000 and 2000 Hz. */
  readonly mid: { readonly before: number; readonly after: number };
  readonly target: { readonly speech: number; readonly listening: number };
  /** How many more tiles of the first absorber would reach the speech target, were there wall for them. */
  readonly wanted: number | undefined;
  readonly index: { readonly before: number; readonly after: number; readonly word: string };
  readonly schroeder: number;
  readonly modes: readonly Mode[];
  readonly flutter: readonly { readonly faces: string; readonly distance: number; readonly rate: number }[];
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
  readonly tiles: readonly {
    readonly piece: AbsorberPiece;
    readonly wall: string;
    readonly laid: readonly LaidTile[];
    readonly whole: number;
    readonly cut: number;
    readonly area: number;
  }[];
  readonly workings: readonly Working[];
  /** Names in the plan that the table of materials does not have. */
  readonly unknown: readonly string[];
}

const AIR = { celsius: 20, humidity: 50 } as const;
const SPEED = soundSpeed(AIR.celsius);
const MID = [2, 3, 4];
const midOf = (times: readonly number[]): number => MID.reduce((sum, b) => sum + times[b]!, 0) / MID.length;

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
  const surfaces: { name: string; material: string; area: number }[] = [
    {
      name: 'floor',
      material: named(plan.room.faces?.floor?.surface ?? 'wood floor on joists', 'wood floor on joists'),
      area: areas[0]!,
    },
    {
      name: 'ceiling',
      material: named(
        plan.room.faces?.ceiling?.surface ?? 'gypsum board 1/2 in on studs, light framing',
        'gypsum board 1/2 in on studs, light framing',
      ),
      area: areas[1]!,
    },
  ];
  const tiles: SoundPlan['tiles'][number][] = [];
  room.walls.forEach((wall, k) => {
    const own = plan.room.walls[k];
    let left = areas[k + 2]!;
    const take = (name: string, id: string, area: number): void => {
      const used = Math.min(left, area);
      if (used <= 0) return;
      left -= used;
      surfaces.push({ name, material: id, area: used });
    };
    for (const o of room.openings.filter((f) => f.wall === wall.id)) {
      const area = ((o.x[1] - o.x[0]) * (o.y[1] - o.y[0])) / 1e6;
      take(`${o.kind} ${o.id}`, o.kind === 'door' ? 'wood panel door' : 'window glass', area);
    }
    for (const piece of pieces.filter((p) => p.wall?.id === wall.id)) {
      const { min, max } = piece.outside;
      const face = ((max.x - min.x) * (max.y - min.y)) / 1e6;
      if (piece.kind === 'case' || piece.kind === 'lining') take(piece.title, 'wood panel door', face);
      const absorber = option.pieces.find((p): p is AbsorberPiece => 'absorber' in p && p.absorber === piece.id);
      if (!absorber) continue;
      const laid = layOut(absorber, staged, wall.id);
      tiles.push(laid);
      take(piece.title, named(absorber.material, 'contoured open-cell foam 2 in'), laid.area);
    }
    surfaces.push({
      name: `wall ${wall.id}`,
      material: wallMaterial(own?.surface, own?.framing?.kind),
      area: Math.max(0, left),
    });
  });
  const absorbing = new Set(tiles.map((t) => t.piece.title ?? t.piece.absorber));
  const people = option.pieces.filter((p) => 'seat' in p).length;
  const banded = (treated: boolean): BandedRoom => ({
    volume,
    patches: surfaces.map(({ name, material: id, area }) => {
      const bare = absorbing.has(name) && !treated ? wallUnder(staged, name) : id;
      return { area, coefficients: material(bare)!.coefficients };
    }),
    // The source gives one figure for the middle bands; nothing is counted below them.
    objects: MATERIAL_BANDS.map((f) => (f >= 500 ? people * PERSON_ABSORPTION : 0)),
    air: MATERIAL_BANDS.map((f) => airAttenuation(AIR, exactMidband(f))),
  });
  const [bare, treated] = [banded(false), banded(true)];
  const [before, after] = [timesByBand(bare), timesByBand(treated)];
  const speech = volume <= 566 ? classroomTime(volume).time : 0.7;
  const listening = listeningRoomTime(volume).time;
  const mid = { before: midOf(before), after: midOf(after) };
  const first = tiles[0]?.piece;
  const bigWall = treated.patches.reduce(
    (best, p, i) => (surfaces[i]!.name.startsWith('wall') && p.area > treated.patches[best]!.area ? i : best),
    surfaces.findIndex((s) => s.name.startsWith('wall')),
  );
  const answer =
    mid.after > speech && bigWall >= 0
      ? absorbersFor(
          treated,
          bigWall,
          {
            area: first ? first.tile ** 2 / 1e6 : 0.093,
            coefficients: (material(first?.material ?? '') ?? material('contoured open-cell foam 2 in')!).coefficients,
          },
          MATERIAL_BANDS.map((_, b) => (MID.includes(b) ? speech : undefined)),
        )
      : undefined;
  // The table ends at 4 kHz; the 8 kHz octave of the index is taken as that of 4 kHz, which air only shortens.
  const sti = (times: readonly number[]): number => speechTransmission([...times, times.at(-1)!]);
  const index = { before: sti(before), after: sti(after) };
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
  return {
    bands: MATERIAL_BANDS,
    volume,
    surfaces,
    before,
    after,
    sabineAfter: timesByBand(treated, 'sabine'),
    mid,
    target: { speech, listening },
    wanted: answer && answer.status === 'met' ? answer.count : undefined,
    index: { ...index, word: sayIndex(index.after) },
    schroeder: schroederFrequency(Math.max(0.05, mid.after), volume),
    modes: lowestModes(size, SPEED, 8),
    flutter: parallelPairs(prism).map(({ faces, distance }) => ({
      faces: `${nameOfFace(faces[0])} and ${nameOfFace(faces[1])}`,
      distance,
      rate: flutterRate(distance / 1000, SPEED),
    })),
    reflections: reflectionsOf(staged, tiles, nameOfFace),
    tiles,
    workings: [timeWorking(treated, mid.after, speech)],
    unknown,
  };
}

function wallUnder({ plan, pieces }: Staged, title: string): string {
  const piece = pieces.find((p) => p.title === title);
  const wall = plan.room.walls.find((w) => w.id === piece?.wall?.id);
  return wallMaterial(wall?.surface, wall?.framing?.kind);
}

/** Whole and cut tiles of an absorber on its wall, round sockets, openings and what else hangs there. */
function layOut(piece: AbsorberPiece, { room, pieces }: Staged, wallId: string): SoundPlan['tiles'][number] {
  const own = pieces.find((p) => p.id === piece.absorber)!;
  const { from } = own.wall!;
  const low = own.frame.origin.y;
  const clear = piece.clear;
  const onWall = [
    ...[...room.openings, ...room.services]
      .filter((f) => f.wall === wallId)
      .map((f) => ({ x: f.x[0], y: f.y[0], width: f.x[1] - f.x[0], height: f.y[1] - f.y[0] })),
    ...pieces
      .filter(
        (p) => p.wall?.id === wallId && p.id !== own.id && ['case', 'shelf', 'display', 'lining'].includes(p.kind),
      )
      .map((p) => ({
        x: p.wall!.from + p.outside.min.x,
        y: p.frame.origin.y + p.outside.min.y,
        width: p.outside.max.x - p.outside.min.x,
        height: p.outside.max.y - p.outside.min.y,
      })),
  ].map((r) => ({ x: r.x - clear, y: r.y - clear, width: r.width + 2 * clear, height: r.height + 2 * clear }));
  const laid = layTiles(
    { x: from, y: low, width: piece.size.width, height: piece.size.height },
    onWall,
    piece.tile,
    piece.between,
  );
  return {
    piece,
    wall: wallId,
    laid,
    whole: laid.filter((t) => !t.cut).length,
    cut: laid.filter((t) => t.cut).length,
    area: laid.reduce((sum, t) => sum + t.width * t.height, 0) / 1e6,
  };
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
            met: met?.piece.title ?? met?.piece.absorber,
          };
        });
    }),
  );
}

function covers(laid: readonly LaidTile[], origin: Vec3, _face: unknown, point: Vec3): boolean {
  const x = Math.hypot(point.x - origin.x, point.z - origin.z);
  return laid.some((t) => x >= t.x && x <= t.x + t.width && point.y >= t.y && point.y <= t.y + t.height);
}

function timeWorking(room: BandedRoom, value: number, limit: number): Working {
  const area = room.patches.reduce((sum, p) => sum + p.area, 0);
  const mean = room.patches.reduce((sum, p) => sum + p.area * (p.coefficients[3] ?? 0), 0) / area;
  return {
    what: 'Reverberation time, mean of 500, 1000 and 2000 Hz',
    formula: 'T = k V / (−S ln(1 − ᾱ) + A + 4 m V),  k = 24 ln 10 / c',
    inputs: [
      { symbol: 'V', name: 'volume', value: room.volume, unit: 'm³' },
      { symbol: 'S', name: 'all surfaces', value: area, unit: 'm²' },
      { symbol: 'ᾱ', name: 'mean coefficient at 1000 Hz', value: mean, unit: '' },
      { symbol: 'A', name: 'people, mid-band', value: room.objects?.[3] ?? 0, unit: 'm²' },
      { symbol: 'm', name: 'attenuation of air at 1000 Hz', value: room.air?.[3] ?? 0, unit: 'dB/km' },
    ],
    result: { value, unit: 's' },
    limit: {
      value: limit,
      unit: 's',
      why: 'most for a room to teach in',
      source: { title: 'ANSI/ASA S12.60', edition: '2010', place: 'part 1, core learning spaces' },
    },
    source: { title: 'C. F. Eyring, Reverberation time in dead rooms', edition: 'J. Acoust. Soc. Am. 1 (1930)' },
    assumes: [
      'sound that goes everywhere: not below the Schroeder frequency, nor with all absorbers on one wall',
      'cases and linings count as wood panels; books, curtains and instruments, which absorb more, are left out',
      'coefficients of the table; a maker’s data sheet is better',
    ],
  };
}

/** What cellular plastic does when it burns is a matter for a label and the local code. */
export const FOAM_CAUTION =
  'Foam and fabric burn: buy only what carries a fire test that your local code accepts for walls (ask for the certificate, not the word), keep it from lamps, heaters and sockets, and never use packing or bedding foam.';

/** Notes on the sound of the option: reverberation, first reflections, flutter, fire. */
export function soundNotes(staged: Staged): readonly Note[] {
  if (!staged.option.pieces.some((p) => 'seat' in p || 'absorber' in p)) return [];
  const s = soundOf(staged);
  const notes: Note[] = [];
  const about = s.tiles[0]?.piece.absorber ?? staged.option.pieces.flatMap((p) => ('seat' in p ? [p.seat] : []))[0]!;
  const long = s.mid.after > s.target.speech;
  const say = (t: number): string => t.toFixed(2);
  notes.push({
    id: 'reverberation:room',
    about,
    verdict: long ? 'caution' : 'fine',
    title: long
      ? `The room rings ${say(s.mid.after)} s in the middle bands; ${say(s.target.speech)} s is the most for teaching`
      : `The room rings ${say(s.mid.after)} s in the middle bands (${say(s.mid.before)} s without the absorbers)`,
    advice: long
      ? s.wanted === undefined
        ? 'More absorbers than one wall has room for: use the ceiling, a carpet and curtains too.'
        : `About ${s.wanted} more tiles would do, those at the first reflections first.`
      : `Speech index ${s.index.after.toFixed(2)}, ${s.index.word}; for close recording ${say(s.target.listening)} s is the mark. Not checked: below ${Math.round(s.schroeder)} Hz, where single modes rule.`,
    working: s.workings[0]!,
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
      title: `${s.tiles.reduce((n, t) => n + t.whole + t.cut, 0)} absorber tiles go on the walls: mind their fire rating`,
      advice: FOAM_CAUTION,
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
