import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { framesOf } from '../src/core/camera/index.ts';
import { boxAt, type Prism, vec } from '../src/core/geometry/index.ts';
import {
  BANDS,
  COARSE,
  FINE,
  type Lamp,
  lampBands,
  lampSpectrum,
  lightAt,
  lightOf,
  luxOf,
  paintSpectrum,
  quickLight,
  roomGeometry,
  roomPatches,
  solveLight,
  toBands,
} from '../src/core/light/index.ts';
import { findOption, solidsOf } from '../src/core/outcome.ts';
import { readPlan } from '../src/core/plan/index.ts';
import { findReflections, soundOf } from '../src/core/sound/index.ts';

/**
 * Light and first reflections of a furnished room, from coarse (while a piece is dragged) to fine, in processor time (the machine
 * may be busy with other things). The last column shows convergence: lux on a face.
 */
const room: Prism = {
  outline: [
    { x: 0, z: 0 },
    { x: 4064, z: 0 },
    { x: 4064, z: 3658 },
    { x: 0, z: 3658 },
  ],
  height: 2464,
};
const boxes = [
  boxAt(200, 0, 0, 1372, 762, 406),
  boxAt(2300, 0, 0, 1500, 2000, 400),
  boxAt(1500, 700, 1500, 1500, 40, 700),
  boxAt(1800, 1100, 0, 1200, 700, 80),
  boxAt(3000, 0, 2500, 500, 900, 500),
];
const paints = { wall: paintSpectrum('#d9c08c'), floor: paintSpectrum('#8a7a68'), ceiling: paintSpectrum('#f4f4f2') };
const processor = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const best = (runs: number, work: () => void): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < runs; k++) {
    const from = processor();
    work();
    least = Math.min(least, processor() - from);
  }
  return least;
};

console.log('piece mm  rays  bands  patches  form factors ms  solve ms  rows off  face lx');
for (const [size, rays, banded, least, runs] of [
  [2500, 1, false, 1e-2, 12],
  [1500, 1, false, 1e-2, 12],
  [1000, 4, false, 3e-3, 8],
  [700, 4, true, 1e-3, 5],
  [500, 4, true, 1e-3, 4],
  [350, 4, true, 1e-3, 2],
  [250, 4, true, 1e-3, 1],
] as const) {
  const bands = banded ? BANDS : 1;
  // One band: what a paint sends back of this light; the same numbers as a luminous average.
  const of = (s: keyof typeof paints): readonly number[] =>
    banded ? toBands(paints[s]) : [luxOf(lampBands(1, lampSpectrum(4000)).map((v, b) => v * toBands(paints[s])[b]!))];
  const reflectance = { wall: of('wall'), floor: of('floor'), ceiling: of('ceiling') };
  const flux = banded ? lampBands(5000, lampSpectrum(4000)) : [5000];
  const lamps: readonly Lamp[] = [1000, 3000].flatMap((x) =>
    [1200, 2600].map((z): Lamp => ({ at: vec(x, 2400, z), flux, shape: { kind: 'diffuse' } })),
  );
  const patches = roomPatches(room, boxes, size);
  let geometry = roomGeometry(room, boxes, patches, { rays });
  const build = best(runs, () => {
    geometry = roomGeometry(room, boxes, patches, { rays });
  });
  const scene = {
    room,
    boxes,
    geometry,
    reflectance: (p: { readonly of: string }) =>
      p.of === 'floor' ? reflectance.floor : p.of === 'ceiling' ? reflectance.ceiling : reflectance.wall,
    lamps,
    bands,
  };
  let solution = solveLight(scene, least);
  const solve = best(runs, () => {
    solution = solveLight(scene, least);
  });
  const face = lightAt(solution, vec(2200, 1200, 2600), vec(0, 0, 1)).total;
  const lux = banded ? luxOf(face) : face[0]!;
  console.log(
    [
      String(size).padStart(8),
      String(rays).padStart(4),
      String(bands).padStart(5),
      String(geometry.patches.length).padStart(7),
      build.toFixed(1).padStart(15),
      solve.toFixed(1).padStart(8),
      `${(100 * geometry.closure.mean).toFixed(1)} %`.padStart(8),
      lux.toFixed(1).padStart(7),
    ].join('  '),
  );
}
for (const order of [1, 2, 3]) {
  let found = 0;
  const ms = best(8, () => {
    found = findReflections(room, vec(2200, 1200, 2600), vec(2200, 1100, 1400), { order, boxes }).paths.length;
  });
  console.log(`reflections to order ${order}: ${found} paths, ${ms.toFixed(2)} ms`);
}

/** The examples as the worker meets them while a piece is moved: everything is new each time, nothing is remembered. */
const folder = join(fileURLToPath(process.env.SETWRIGHT_ROOT ?? 'file://.'), 'examples');
console.log(
  '\nexample        sound  camera  light under the hand  for the pages  fine (ms)   face lx: under the hand, pages, fine',
);
for (const name of ['lesson-room', 'radio-corner']) {
  const { plan } = readPlan(readFileSync(join(folder, `${name}.plan.yaml`), 'utf8'), {});
  const option = plan && findOption(plan);
  if (!plan || !option) throw new Error(`${name} cannot be read`);
  const fresh = () => {
    const solids = solidsOf(plan, option);
    return { ...solids, pieces: solids.pieces.map((p) => ({ ...p })) };
  };
  const timed = (runs: number, work: (staged: ReturnType<typeof fresh>) => void): string => {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < runs; k++) {
      const staged = fresh();
      const from = processor();
      work(staged);
      least = Math.min(least, processor() - from);
    }
    return least.toFixed(1);
  };
  const staged = fresh();
  const lux = [
    quickLight(staged)![0]!.lux,
    lightOf(staged, COARSE)!.faces[0]!.lux,
    lightOf(staged, FINE)!.faces[0]!.lux,
  ];
  console.log(
    [
      name.padEnd(13),
      timed(20, soundOf).padStart(6),
      timed(20, framesOf).padStart(6),
      timed(20, quickLight).padStart(20),
      timed(6, (s) => lightOf(s, COARSE)).padStart(13),
      timed(4, (s) => lightOf(s, FINE)).padStart(9),
      `  ${lux.map((l) => l.toFixed(0)).join(', ')}`,
    ].join('  '),
  );
}
