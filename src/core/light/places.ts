import { wallCalled } from '../called.ts';
import { type Box, isInside, type Vec3, vec } from '../geometry/index.ts';
import { type bodiesOf, prismOf, type Staged } from '../surroundings/index.ts';
import { BANDS, luxOf } from './cast.ts';
import { lightAt, meanOver, type solveLight } from './radiosity.ts';

export type Solution = ReturnType<typeof solveLight>;
export interface Place {
  readonly what: string;
  readonly lux: number;
  /** Least over mean; of a point undefined. */
  readonly evenness: number | undefined;
}

/**
 * Height of the level light shown on the plan, mm: EN 12464-1 takes the task's, here a table's. One height for every plan; inch plans
 * tell it as the 30 in usual there (CIE S 017, working plane: 0.76 m in the US).
 */
export const TABLE_HEIGHT = 750;

/** Lux of the surfaces of these names as the room is painted first: mean, and least over mean. */
export function meanOf(
  solution: Solution,
  of: (name: string) => boolean,
): { readonly mean: number; readonly evenness: number } {
  const { evenness } = meanOver(solution, (patch) => of(patch.of), Math.floor(BANDS / 2));
  return { mean: luxOf(meanBands(solution, of)), evenness };
}

/** Tops of tables, each wall, and the outsides of the cases. */
export function placesOf(
  { room }: Staged,
  solution: Solution,
  standing: ReturnType<typeof bodiesOf>,
): readonly Place[] {
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
    ...room.walls.map((w, k) => ({ what: wallCalled(w.id), of: (n: string) => n === `wall ${k}` })),
    { what: 'cases, all sides', of: (n: string) => cases.has(n) },
    { what: 'floor', of: (n: string) => n === 'floor' },
  ];
  return [
    ...tables,
    ...faces.flatMap(({ what, of }) => {
      const { mean: lux, evenness } = meanOf(solution, of);
      return lux > 0 ? [{ what, lux, evenness }] : [];
    }),
  ];
}

/** Between two points of the level light, mm, and as many in a row as a plan on paper can hold. */
const STEP = 900;
const MOST_POINTS = 14;

/** Level light at table height on an even grid over the room, where nothing stands. */
export function gridOf(
  { room }: Staged,
  solution: Solution,
  boxes: readonly Box[],
): readonly { readonly at: Vec3; readonly lux: number }[] {
  const prism = prismOf(room);
  const [xs, zs] = [room.outline.map((p) => p.x), room.outline.map((p) => p.z)];
  const [x0, x1, z0, z1] = [Math.min(...xs), Math.max(...xs), Math.min(...zs), Math.max(...zs)];
  const countOver = (length: number): number => Math.min(MOST_POINTS, Math.max(2, Math.round(length / STEP)));
  const [across, down] = [countOver(x1 - x0), countOver(z1 - z0)];
  const points = Array.from({ length: across * down }, (_, k) =>
    vec(
      x0 + (((k % across) + 0.5) * (x1 - x0)) / across,
      TABLE_HEIGHT,
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

function meanBands(solution: Solution, of: (name: string) => boolean): readonly number[] {
  const sum = new Array<number>(BANDS).fill(0);
  let area = 0;
  solution.scene.geometry.patches.forEach((p, i) => {
    if (!of(p.of)) return;
    area += p.area;
    for (let b = 0; b < BANDS; b++) sum[b]! += solution.illuminance[i * solution.scene.bands + b]! * p.area;
  });
  return sum.map((v) => (area > 0 ? v / area : 0));
}
