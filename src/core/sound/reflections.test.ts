import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxAt, facesOf, floorArea, isInside, type Prism, roomVolume, type Vec3, vec } from '../geometry/index.ts';
import { diffuseDecay, seeded, shootRays } from './rays.testing.ts';
import { findReflections, levelOf, parallelPairs } from './reflections.ts';
import { eyring, meanFreePath } from './reverberation.ts';

const boxRoom = (L: number, W: number, height: number): Prism => ({
  outline: [
    { x: 0, z: 0 },
    { x: L, z: 0 },
    { x: L, z: W },
    { x: 0, z: W },
  ],
  height,
});
/** An L of 6 × 5 m with a 3 × 2.5 m corner taken out. */
const ELL: Prism = {
  outline: [
    { x: 0, z: 0 },
    { x: 6000, z: 0 },
    { x: 6000, z: 2500 },
    { x: 3000, z: 2500 },
    { x: 3000, z: 5000 },
    { x: 0, z: 5000 },
  ],
  height: 2600,
};
/** No two walls parallel. */
const SKEW: Prism = {
  outline: [
    { x: 0, z: 200 },
    { x: 5200, z: 0 },
    { x: 4700, z: 4100 },
    { x: 300, z: 3800 },
  ],
  height: 2500,
};

/** The specular reflections of a box as a lattice: an independent route to the lengths, with no visibility to decide. */
function latticeLengths(
  [L, H, W]: readonly [number, number, number],
  source: Vec3,
  receiver: Vec3,
  order: number,
): readonly number[] {
  const images = (size: number, at: number, other: number): readonly { d: number; n: number }[] =>
    Array.from({ length: 2 * order + 1 }, (_, k) => k - order).flatMap((m) => {
      // Cell m: even cells repeat the room, odd ones mirror it; |m| faces are met on this axis.
      const x = m % 2 === 0 ? m * size + at : m * size + size - at;
      return [{ d: x - other, n: Math.abs(m) }];
    });
  const lengths: number[] = [];
  for (const a of images(L, source.x, receiver.x))
    for (const b of images(H, source.y, receiver.y))
      for (const c of images(W, source.z, receiver.z)) {
        const n = a.n + b.n + c.n;
        if (n > 0 && n <= order) lengths.push(Math.hypot(a.d, b.d, c.d));
      }
  return lengths.sort((x, y) => x - y);
}

describe('image sources in a box', () => {
  it('are the lattice of Allen and Berkley, every one of them seen', () =>
    fc.assert(
      fc.property(
        fc.tuple(...Array.from({ length: 3 }, () => fc.integer({ min: 2000, max: 8000 }))),
        fc.array(fc.double({ min: 0.05, max: 0.95, noNaN: true }), { minLength: 6, maxLength: 6 }),
        fc.integer({ min: 1, max: 3 }),
        ([L, H, W], f, order) => {
          const source = vec(f[0]! * L!, f[1]! * H!, f[2]! * W!);
          const receiver = vec(f[3]! * L!, f[4]! * H!, f[5]! * W!);
          const found = findReflections(boxRoom(L!, W!, H!), source, receiver, { order }).paths;
          const lattice = latticeLengths([L!, H!, W!], source, receiver, order);
          // A path of two faces across one edge is one image reached in either order, only one of which is seen.
          expect(found.length).toBe(lattice.length);
          found.forEach((path, k) => {
            expect(path.length).toBeCloseTo(lattice[k]!, 6);
          });
        },
      ),
      { numRuns: 60 },
    ));
  it('keep the law of reflection, and the ways add up to the distance of the image', () =>
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.05, max: 0.95, noNaN: true }), { minLength: 6, maxLength: 6 }), (f) => {
        const source = vec(f[0]! * 5000, f[1]! * 2600, f[2]! * 4000);
        const receiver = vec(f[3]! * 5000, f[4]! * 2600, f[5]! * 4000);
        // A path into an edge has two points in one place and no angle between them.
        const [dx, dy, dz] = [0, 1, 2].map((k) => [Math.abs(f[k]! - f[k + 3]!), Math.abs(f[k]! + f[k + 3]! - 1)]) as [
          number[],
          number[],
          number[],
        ];
        fc.pre([...dx, ...dy, ...dz].every((d) => d > 0.01));
        const room = boxRoom(5000, 4000, 2600);
        const faces = new Map(facesOf(room).map((face) => [face.id, face]));
        for (const path of findReflections(room, source, receiver, { order: 3 }).paths) {
          const stops = [source, ...path.points, receiver];
          let sum = 0;
          stops.slice(1).forEach((p, k) => {
            const q = stops[k]!;
            sum += Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z);
          });
          expect(sum).toBeCloseTo(path.length, 6);
          path.points.forEach((p, k) => {
            const n = faces.get(path.faces[k]!)!.normal;
            const [a, b] = [stops[k]!, stops[k + 2]!];
            const cos = (q: typeof p): number =>
              ((q.x - p.x) * n.x + (q.y - p.y) * n.y + (q.z - p.z) * n.z) / Math.hypot(q.x - p.x, q.y - p.y, q.z - p.z);
            expect(cos(a)).toBeCloseTo(cos(b), 6);
            expect(cos(a)).toBeCloseTo(path.cosines[k]!, 6);
          });
        }
      }),
      { numRuns: 60 },
    ));
});

describe.each([
  ['an L-shaped room', ELL, vec(1200, 1200, 4200), vec(4800, 1500, 1300)],
  ['an L-shaped room, both ends seen', ELL, vec(900, 1200, 700), vec(2300, 1500, 3600)],
  ['a room without parallel walls', SKEW, vec(1200, 1200, 900), vec(3600, 1400, 2900)],
])('image sources in %s', (_, room, source, receiver) => {
  it('are met by as many rays as their distance says, and no ray arrives by another way', () => {
    const [rays, radius] = [600_000, 150];
    const order = 3;
    const { paths, direct, seen } = findReflections(room, source, receiver, { order });
    const shots = new Map(shootRays(room, source, receiver, rays, order, radius).map((s) => [s.faces, s]));
    const expected = (length: number): number => (rays * radius ** 2) / (4 * length ** 2);
    expect(shots.has('')).toBe(seen);
    if (seen) expect(shots.get('')!.hits / expected(direct)).toBeCloseTo(1, 1);
    let [counted, due] = [0, 0];
    for (const path of paths) {
      const shot = shots.get(path.faces.join(' > '));
      counted += shot?.hits ?? 0;
      due += expected(path.length);
      // A path that just passes an edge is seen by only part of the receiver's sphere.
      if (shot && shot.hits > 0.6 * expected(path.length)) expect(shot.length).toBeCloseTo(path.length, -2);
    }
    // Edges cut as many rays off seen paths as they let through to unseen ones.
    expect(counted / due).toBeGreaterThan(0.93);
    expect(counted / due).toBeLessThan(1.03);
    const known = new Set(paths.map((p) => p.faces.join(' > ')));
    const strays = [...shots.values()].filter((s) => s.faces !== '' && !known.has(s.faces));
    const stray = strays.reduce((sum, s) => sum + s.hits, 0);
    expect(stray / due).toBeLessThan(0.05);
    // A stray way can only graze an edge: never the whole sphere sees it.
    for (const s of strays) expect(s.hits).toBeLessThan(0.75 * expected(s.length));
  });
});

it('counts its direct way as cut off by the corner of the L, and by a box', () => {
  expect(findReflections(ELL, vec(1200, 1200, 4200), vec(5500, 1500, 1300)).seen).toBe(false);
  const room = boxRoom(5000, 4000, 2600);
  const [a, b] = [vec(1000, 1200, 2000), vec(4000, 1200, 2000)];
  expect(findReflections(room, a, b).seen).toBe(true);
  const screen = boxAt(2400, 0, 1500, 100, 1800, 1000);
  const blocked = findReflections(room, a, b, { boxes: [screen] });
  expect(blocked.seen).toBe(false);
  // It stands on the floor across the middle: the floor's way is lost, and those straight back from the end walls.
  expect(blocked.paths.map((p) => p.faces[0]).sort()).toEqual(['ceiling', 'wall 0', 'wall 2']);
  expect(findReflections(room, vec(1500, 1200, 1000), vec(3500, 1200, 2500)).paths.length).toBe(6);
});

it('gives the same paths for a room drawn the other way round, and from receiver to source', () => {
  const back: Prism = { ...ELL, outline: [...ELL.outline].reverse() };
  const [a, b] = [vec(900, 1200, 700), vec(2300, 1500, 3600)];
  const lengths = (room: Prism, s: typeof a, r: typeof a): number[] =>
    findReflections(room, s, r, { order: 3 }).paths.map((p) => Math.round(p.length * 1e6) / 1e6);
  expect(lengths(back, a, b)).toEqual(lengths(ELL, a, b));
  expect(lengths(ELL, b, a)).toEqual(lengths(ELL, a, b));
});

it('measures its rooms', () => {
  expect(floorArea(ELL)).toBeCloseTo(22.5, 12);
  expect(roomVolume(ELL)).toBeCloseTo(58.5, 12);
  expect(isInside(ELL, vec(4500, 1000, 4000))).toBe(false);
  expect(isInside(ELL, vec(4500, 1000, 1000))).toBe(true);
});

it('finds the parallel faces that can flutter', () => {
  expect(parallelPairs(boxRoom(5000, 4000, 2600)).map((p) => p.distance)).toEqual([2600, 4000, 5000]);
  expect(parallelPairs(SKEW).map((p) => p.faces.join())).toEqual(['floor,ceiling']);
  // The walls 2 and 4 of the L look at one another nowhere; 1 faces 5, 3 faces 5, 0 faces 2 and 4.
  expect(parallelPairs(ELL).map((p) => p.faces.join())).toEqual([
    'floor,ceiling',
    'wall 0,wall 2',
    'wall 0,wall 4',
    'wall 1,wall 5',
    'wall 3,wall 5',
  ]);
});

it('meets each face where its path does, the loudest first', () => {
  const { paths } = findReflections(boxRoom(5000, 4000, 2600), vec(1500, 1200, 1000), vec(3500, 1200, 2500), {
    order: 1,
  });
  expect(paths[0]!.faces).toEqual(['floor']);
  expect(paths.map((p) => p.spreading)).toEqual(paths.map((p) => p.spreading).sort((a, b) => b - a));
  expect(paths.find((p) => p.faces[0] === 'wall 0')!.points[0]!.x).toBeCloseTo(2071.43, 2);
});

it('takes each face’s loss and the air’s off the level', () => {
  const room = boxRoom(5000, 4000, 2600);
  const path = findReflections(room, vec(1500, 1200, 1000), vec(3500, 1200, 2500)).paths[0]!;
  expect(levelOf(path, () => 0)).toBeCloseTo(path.spreading, 12);
  expect(levelOf(path, () => 0.9)).toBeCloseTo(path.spreading - 10, 12);
  expect(levelOf(path, () => 0, 1000)).toBeCloseTo(path.spreading - (path.length - 2500) / 1000, 9);
});

describe('particles that scatter at every face', () => {
  it('fly 4 V / S on average in a box and in an L, and die away by Eyring', () => {
    for (const [room, surface] of [
      [boxRoom(5000, 4000, 2600), 86.8],
      [ELL, 2 * 22.5 + 22 * 2.6],
    ] as const) {
      const volume = roomVolume(room);
      const { time, freePath } = diffuseDecay(room, () => 0.2, 4000, 343, seeded(7));
      expect(freePath / 1000 / meanFreePath(volume, surface)).toBeCloseTo(1, 1);
      const expected = eyring({ volume, patches: [{ area: surface, coefficient: 0.2 }] });
      // Eyring lets all energy be reflected at once after each mean free path; the spread of the ways lengthens the tail by some percent.
      expect(time / expected).toBeGreaterThan(0.97);
      expect(time / expected).toBeLessThan(1.1);
    }
  });
});
