import { sittersOf } from '../camera/index.ts';
import { prismOf, type Staged } from '../surroundings/index.ts';
import { ROOM_SPEED } from './air.ts';
import { flutterDecay, flutterRate } from './echo.ts';
import { parallelPairs } from './reflections.ts';
import { materialOf, type Surface } from './surfaces.ts';

/** Between parallel faces: how far apart, mm, repetitions a second, and how long it rings at 1 kHz on the bare faces and on the treated, s. */
export interface Flutter {
  readonly faces: string;
  readonly distance: number;
  readonly rate: number;
  readonly bare: number;
  readonly treated: number;
}

/** Flutter between the pairs of faces that somebody sits between. */
export function fluttersOf(
  staged: Staged,
  surfaces: readonly Surface[],
  nameOfFace: (id: string) => string,
): readonly Flutter[] {
  const { walls } = staged.room;
  const wallOf = (face: string) => (face.startsWith('wall ') ? walls[Number(face.slice(5))]?.id : undefined);
  const on = (face: string): readonly Surface[] => {
    const wall = wallOf(face);
    return surfaces.filter((s) => (wall === undefined ? s.name === face : s.wall === wall));
  };
  return parallelPairs(prismOf(staged.room))
    .filter(({ faces }) => faces.every((face) => isHeard(staged, face)))
    .map(({ faces: [a, b], distance }): Flutter => {
      const ring = (what: 'material' | 'bare'): number =>
        flutterDecay(distance / 1000, lost(on(a), what), lost(on(b), what), ROOM_SPEED);
      return {
        faces: `${nameOfFace(a)} and ${nameOfFace(b)}`,
        distance,
        rate: flutterRate(distance / 1000, ROOM_SPEED),
        bare: ring('bare'),
        treated: ring('material'),
      };
    });
}

/** Walls that nobody sits between (the cheeks of a chimney breast) may flutter unheard. */
function isHeard(staged: Staged, face: string): boolean {
  const { outline } = staged.room;
  const mouths = sittersOf(staged).map((sitter) => sitter.mouth);
  if (!face.startsWith('wall ') || mouths.length === 0) return true;
  const k = Number(face.slice(5));
  const [a, b] = [outline[k]!, outline[(k + 1) % outline.length]!];
  const [dx, dz] = [b.x - a.x, b.z - a.z];
  return mouths.some((m) => {
    const t = ((m.x - a.x) * dx + (m.z - a.z) * dz) / (dx * dx + dz * dz);
    return t >= 0 && t <= 1;
  });
}

const KILOHERTZ = 3;

/** Of what meets a face at 1 kHz, the share that does not come back as from a mirror: swallowed or thrown about, by what lies on it. */
function lost(surfaces: readonly Surface[], what: 'material' | 'bare'): number {
  const area = surfaces.reduce((sum, s) => sum + s.area, 0);
  const taken = surfaces.reduce((sum, { area: of, scatters = 0, ...s }) => {
    const α = materialOf(s[what])!.coefficients[KILOHERTZ];
    return sum + of * (1 - (1 - α) * (1 - scatters));
  }, 0);
  return area > 0 ? taken / area : 0.05;
}
