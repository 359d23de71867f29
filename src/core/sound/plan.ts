import { wallCalled } from '../called.ts';
import { dot, floorArea, type Prism, roomVolume, subtract, toRoom, type Vec3, vec } from '../geometry/index.ts';
import type { Working } from '../notes/index.ts';
import type { PlacedWall } from '../room/index.ts';
import { prismOf, type Staged } from '../surroundings/index.ts';
import { airAttenuation, exactMidband, ROOM_AIR, ROOM_SPEED } from './air.ts';
import { type Cure, curesFor } from './cures.ts';
import { type FirstReflection, firstReflections } from './first-reflections.ts';
import { type Flutter, fluttersOf } from './flutter.ts';
import { MATERIAL_BANDS, PERSON_ABSORPTION } from './materials.ts';
import { MID, midOf, worstOf } from './middle-bands.ts';
import { crowdedModes, listedUpTo, type Mode, modesBelow, schroederFrequency } from './modes.ts';
import { arau, type Pairs, STANDARD_SPEED } from './reverberation.ts';
import { sayIndex, speechTransmission } from './speech.ts';
import { type Furnished, furnitureOf, materialOf, type Surface, surfacesOf } from './surfaces.ts';
import { classroomTime, listeningRoomTime } from './targets.ts';
import { type TiledWall, tiledWalls } from './tiles.ts';
import { type BandedRoom, timesByBand } from './treatment.ts';

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
  readonly flutter: readonly Flutter[];
  readonly reflections: readonly FirstReflection[];
  readonly tiles: readonly TiledWall[];
  readonly workings: readonly Working[];
  /** Names in the plan that the table of materials does not have. */
  readonly unknown: readonly string[];
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
  const { plan, option, room } = staged;
  const prism = prismOf(room);
  const volume = roomVolume(prism);
  const tiles = tiledWalls(staged);
  const { surfaces, unknown } = surfacesOf(staged, tiles);
  const people = option.pieces.filter((p) => 'seat' in p).length;
  const furniture = furnitureOf(staged);
  const banded = (treated: boolean, seated: number): BandedRoom => ({
    volume,
    patches: surfaces.map(({ material: id, bare, area }) => ({
      area,
      coefficients: materialOf(treated ? id : bare)!.coefficients,
    })),
    // The source gives one figure for the middle bands; nothing is counted below them.
    objects: MATERIAL_BANDS.map((f, b) =>
      furniture.reduce((sum, item) => sum + item.absorbs[b]!, f >= 500 ? seated * PERSON_ABSORPTION : 0),
    ),
    air: MATERIAL_BANDS.map((f) => airAttenuation(ROOM_AIR, exactMidband(f))),
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
  const nameOfFace = (id: string): string => {
    const k = id.startsWith('wall ') ? Number(id.slice(5)) : -1;
    const wall = room.walls[k];
    return wall ? wallCalled(wall.id) : id;
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
    ...modesOf(prism),
    flutter: fluttersOf(staged, surfaces, nameOfFace),
    reflections: firstReflections(staged, tiles, nameOfFace),
    tiles,
    workings: [timeWorking(unseated, MATERIAL_BANDS.indexOf(worst.band as 500), worst, speech)],
    unknown,
  };
}

/** Modes up to 120 Hz, or up to the first of the shortest way where that is higher. */
function modesOf(room: Prism): Pick<SoundPlan, 'modes' | 'fills' | 'crowded'> {
  const across = (of: 'x' | 'z'): number => {
    const all = room.outline.map((p) => p[of]);
    return (Math.max(...all) - Math.min(...all)) / 1000;
  };
  const size = [across('x'), across('z'), room.height / 1000] as const;
  const fills = floorArea(room) / (size[0] * size[1]);
  const highest = Math.max(120, ROOM_SPEED / Math.min(...size));
  const modes = modesBelow(size, ROOM_SPEED, listedUpTo(size, ROOM_SPEED, highest));
  return { modes, fills, crowded: isBox(fills) ? crowdedModes(modes, 0.02) : [] };
}

/**
 * The room by Arau-Puchades in one band: its faces as three pairs. A wall askew to the longest one counts to both axes, by the squares of
 * the cosines, which is our own reading: the source knows only boxes.
 */
function unevenTime({ room }: Staged, surfaces: readonly Surface[], whole: BandedRoom, band: number): number {
  const ahead = (wall: PlacedWall): Vec3 => subtract(toRoom(wall.frame, vec(0, 0, 1)), wall.frame.origin);
  const main = ahead(room.walls.reduce((a, b) => (b.length > a.length ? b : a)));
  /** What of a surface counts to each axis: across the longest wall, along it, and up. */
  const shares = ({ wall }: Surface): readonly [number, number, number] => {
    const found = room.walls.find((w) => w.id === wall);
    if (!found) return [0, 0, 1];
    const across = dot(ahead(found), main) ** 2;
    return [across, 1 - across, 0];
  };
  const shared = surfaces.map((s) => ({
    shares: shares(s),
    area: s.area,
    takes: materialOf(s.material)!.coefficients[band]!,
  }));
  const sums = [0, 1, 2].map((axis) => ({
    area: shared.reduce((sum, s) => sum + s.shares[axis]! * s.area, 0),
    taken: shared.reduce((sum, s) => sum + s.shares[axis]! * s.area * s.takes, 0),
  }));
  const all = sums.reduce((sum, s) => sum + s.area, 0);
  // People belong to no wall: shared out by area.
  const people = whole.objects?.[band] ?? 0;
  const pairs = sums.map(({ area, taken }) => ({
    area,
    coefficient: Math.min(0.999, (taken + (people * area) / all) / area),
  }));
  return arau({ volume: whole.volume, pairs: pairs as unknown as Pairs, air: whole.air?.[band] ?? 0 });
}

function timeWorking(room: BandedRoom, band: number, worst: SoundPlan['worst'], limit: number): Working {
  const area = room.patches.reduce((sum, p) => sum + p.area, 0);
  const mean = room.patches.reduce((sum, p) => sum + p.area * (p.coefficients[band] ?? 0), 0) / area;
  const free = room.objects?.[band] ?? 0;
  return {
    what: `Reverberation time at ${worst.band} Hz, the longest of 500, 1000 and 2000 Hz, with nobody in the room`,
    formula: `T = k V / (−S ln(1 − ᾱ) ${free > 0 ? '+ A ' : ''}+ 4 m V),  k = 24 ln 10 / c`,
    inputs: [
      { symbol: 'V', name: 'volume', value: room.volume, unit: 'm³' },
      { symbol: 'S', name: 'all surfaces', value: area, unit: 'm²' },
      { symbol: 'ᾱ', name: `mean coefficient at ${worst.band} Hz`, value: mean, unit: '' },
      ...(free > 0
        ? [{ symbol: 'A', name: `absorption of free furniture at ${worst.band} Hz`, value: free, unit: 'm²' }]
        : []),
      { symbol: 'm', name: `attenuation of air at ${worst.band} Hz`, value: room.air?.[band] ?? 0, unit: 'dB/km' },
      { symbol: 'c', name: 'speed of sound', value: STANDARD_SPEED, unit: 'm/s' },
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
