import { describe, expect, it } from 'vitest';
import { type Box, boxAt, faceAreas, type Prism, vec } from '../geometry/index.ts';
import { solveDense } from '../power/network.testing.ts';
import { parallelFactor, perpendicularFactor } from './form-factor.ts';
import { countPhotons, seeded } from './photons.testing.ts';
import {
  distribution,
  type Lamp,
  lightAt,
  meanOver,
  roomGeometry,
  type Scene,
  type Solution,
  solveLight,
} from './radiosity.ts';
import { roomPatches } from './room-patches.ts';

const boxRoom = (L: number, W: number, height: number): Prism => ({
  outline: [
    { x: 0, z: 0 },
    { x: L, z: 0 },
    { x: L, z: W },
    { x: 0, z: W },
  ],
  height,
});
const ROOM = boxRoom(5000, 4000, 2600);
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
const bulb = (flux: readonly number[], at = vec(1500, 2000, 1200)): Lamp => ({
  at,
  flux,
  shape: { kind: 'all round' },
});
const scene = (
  room: Prism,
  boxes: readonly Box[],
  size: number,
  lamps: readonly Lamp[],
  reflectance: Scene['reflectance'],
  bands = 1,
): Scene => ({
  room,
  boxes,
  geometry: roomGeometry(room, boxes, roomPatches(room, boxes, size)),
  reflectance,
  lamps,
  bands,
});
const areaMean = (s: Solution, band = 0): number => meanOver(s, () => true, band).mean;
const absorbed = (s: Solution, band = 0): number =>
  s.scene.geometry.patches.reduce((sum, p, i) => {
    const k = i * s.scene.bands + band;
    return sum + ((1 - (s.scene.reflectance(p)[band] ?? 0)) * s.illuminance[k]! * p.area) / 1e6;
  }, 0);

describe('patches of a room', () => {
  it.each([
    ['a box', ROOM],
    ['an L', ELL],
    ['an L drawn the other way round', { ...ELL, outline: [...ELL.outline].reverse() }],
    [
      'a skew room',
      {
        outline: [
          { x: 0, z: 200 },
          { x: 5200, z: 0 },
          { x: 4700, z: 4100 },
          { x: 300, z: 3800 },
        ],
        height: 2500,
      },
    ],
  ])('cover %s exactly and look inwards', (_, room) => {
    const patches = roomPatches(room, [], 700);
    const areas = faceAreas(room);
    const of = (name: string): number => patches.filter((p) => p.of === name).reduce((sum, p) => sum + p.area / 1e6, 0);
    ['floor', 'ceiling', ...room.outline.map((_, k) => `wall ${k}`)].forEach((name, k) => {
      expect(of(name), name).toBeCloseTo(areas[k]!, 6);
    });
    for (const p of patches) if (p.of === 'floor') expect(p.normal.y).toBeCloseTo(1, 9);
  });
  it('leave out what a box covers and take in its own faces', () => {
    const box = boxAt(1000, 0, 1000, 800, 750, 600);
    const patches = roomPatches(ROOM, [box], 400);
    const area = (name: string): number =>
      patches.filter((p) => p.of === name).reduce((sum, p) => sum + p.area / 1e6, 0);
    expect(area('floor')).toBeCloseTo(20 - 0.48, 6);
    expect(area('box 0')).toBeCloseTo(0.48 + 2 * 0.6 + 2 * 0.45, 6); // four sides and the top; its underside sees nothing
  });
});

it('cut walls along a window and name its pieces, whichever way the room is drawn', () => {
  const window = { name: 'window', wall: 1, from: 1200, width: 900, bottom: 1000, height: 1100 };
  const patches = roomPatches(ROOM, [], 700, [window]);
  const pane = patches.filter((p) => p.of === 'window');
  expect(pane.reduce((sum, p) => sum + p.area / 1e6, 0)).toBeCloseTo(0.99, 9);
  for (const p of pane) {
    expect(p.normal.x).toBeCloseTo(-1, 12);
    for (const c of p.corners)
      expect(c.z >= 1200 - 1e-6 && c.z <= 2100 + 1e-6 && c.y >= 1000 - 1e-6 && c.y <= 2100 + 1e-6).toBe(true);
  }
  expect(patches.filter((p) => p.of === 'wall 1').reduce((sum, p) => sum + p.area / 1e6, 0)).toBeCloseTo(
    4 * 2.6 - 0.99,
    9,
  );
  const back = roomPatches({ ...ROOM, outline: [...ROOM.outline].reverse() }, [], 700, [{ ...window, wall: 0 }]);
  expect(back.filter((p) => p.of === 'window').every((p) => Math.abs(p.normal.z + 1) < 1e-12)).toBe(true);
});

it('lights a room through a window alone, and takes account of all of it', () => {
  const window = { name: 'window', wall: 1, from: 1200, width: 900, bottom: 1000, height: 1100 };
  const geometry = roomGeometry(ROOM, [], roomPatches(ROOM, [], 600, [window]));
  const s = solveLight(
    {
      room: ROOM,
      boxes: [],
      geometry,
      reflectance: (p) => [p.of === 'window' ? 0.1 : 0.5],
      emission: (p) => (p.of === 'window' ? [2000] : undefined),
      lamps: [],
      bands: 1,
    },
    1e-7,
  );
  expect(absorbed(s)).toBeCloseTo(0.99 * 2000, 3);
  // Opposite the window it is lighter than beside it, and a face that looks at it has more than one that looks away.
  const mean = (of: string): number => meanOver(s, (p) => p.of === of).mean;
  expect(mean('wall 3')).toBeGreaterThan(mean('wall 1'));
  const at = vec(2500, 1200, 1650);
  const [towards, away] = [lightAt(s, at, vec(1, 0, 0)).total[0]!, lightAt(s, at, vec(-1, 0, 0)).total[0]!];
  expect(towards).toBeGreaterThan(2 * away);
});

describe('form factors of a room', () => {
  it('come near the closed forms of a box, nearer with smaller pieces', () => {
    const off = (size: number): number => {
      const { patches, exchange } = roomGeometry(ROOM, [], roomPatches(ROOM, [], size));
      const between = (a: string, b: string): number => {
        let sum = 0;
        patches.forEach((p, i) => {
          patches.forEach((q, j) => {
            if (p.of === a && q.of === b) sum += exchange[i * patches.length + j]!;
          });
        });
        return sum / 20e6;
      };
      return Math.max(
        Math.abs(between('floor', 'ceiling') - parallelFactor(5, 4, 2.6)),
        Math.abs(between('floor', 'wall 0') - perpendicularFactor(4, 2.6, 5)),
      );
    };
    expect(off(1300)).toBeLessThan(0.01);
    expect(off(650)).toBeLessThan(off(1300));
    expect(off(650)).toBeLessThan(0.004);
  });
  it('are symmetric and close to the last digit, boxes or no boxes', () => {
    const boxes = [boxAt(1000, 0, 1000, 800, 750, 600), boxAt(3500, 0, 0, 1200, 2000, 400)];
    const { patches, exchange, closure } = roomGeometry(ROOM, boxes, roomPatches(ROOM, boxes, 600));
    const n = patches.length;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) {
        sum += exchange[i * n + j]!;
        expect(exchange[i * n + j]).toBe(exchange[j * n + i]);
      }
      expect(sum / patches[i]!.area).toBeCloseTo(1, 9);
    }
    expect(closure.mean).toBeLessThan(0.1);
  });
});

describe('closed rooms', () => {
  // Flux balance: all that is given off is absorbed; with one reflectance everywhere the mean is Φ/(S(1 − ρ)), whatever the shape.
  it.each([
    ['a box', ROOM, []],
    ['an L', ELL, []],
    ['a furnished box', ROOM, [boxAt(1000, 0, 1000, 800, 750, 600), boxAt(3500, 0, 0, 1200, 2000, 400)]],
  ] as const)('have the mean illuminance of the flux balance: %s', (_, room, boxes) => {
    for (const rho of [0.2, 0.5, 0.8]) {
      const s = solveLight(
        scene(room, boxes, 900, [bulb([2000], vec(1500, 2300, 800))], () => [rho]),
        1e-6,
      );
      const area = s.scene.geometry.patches.reduce((sum, p) => sum + p.area / 1e6, 0);
      expect(areaMean(s)).toBeCloseTo(2000 / (area * (1 - rho)), 3);
      expect(absorbed(s)).toBeCloseTo(2000, 2);
    }
  });
  it('give 46.083 lx in 5 × 4 × 2.6 m at ρ = 0.5 and 2000 lm', () => {
    const s = solveLight(
      scene(ROOM, [], 1000, [bulb([2000])], () => [0.5]),
      1e-7,
    );
    expect(areaMean(s)).toBeCloseTo(46.083, 3);
  });
  it('keep the balance in every band with uneven paint, and add up over lamps', () => {
    const paint: Scene['reflectance'] = (p) =>
      p.of === 'floor' ? [0.2, 0.3, 0.1] : p.of === 'ceiling' ? [0.85, 0.85, 0.8] : [0.6, 0.5, 0.3];
    const [a, b] = [bulb([1000, 2000, 500]), bulb([300, 0, 900], vec(4000, 1000, 3000))];
    const solve = (lamps: readonly Lamp[]): Solution => solveLight(scene(ROOM, [], 900, lamps, paint, 3), 1e-7);
    const [both, one, other] = [solve([a, b]), solve([a]), solve([b])];
    for (let band = 0; band < 3; band++) expect(absorbed(both, band)).toBeCloseTo(a.flux[band]! + b.flux[band]!, 2);
    both.illuminance.forEach((E, k) => {
      // Each was stopped at a ten-millionth of its light.
      expect(Math.abs(E - one.illuminance[k]! - other.illuminance[k]!)).toBeLessThan(1e-3);
    });
  });
  it('solve the same linear system as plain elimination, and in few rounds', () => {
    const paint: Scene['reflectance'] = (p) => [p.of === 'ceiling' ? 0.85 : p.of === 'floor' ? 0.2 : 0.6];
    const s = solveLight(scene(ROOM, [], 1000, [bulb([2000])], paint), 1e-9);
    const { patches, exchange } = s.scene.geometry;
    const n = patches.length;
    // (I − ρ F) M = ρ E_lamps
    const matrix = patches.map((p, i) =>
      patches.map((_, j) => (i === j ? 1 : 0) - (paint(p)[0]! * exchange[i * n + j]!) / p.area),
    );
    const M = solveDense(
      matrix,
      patches.map((p, i) => paint(p)[0]! * s.direct[i]!),
    );
    M.forEach((m, i) => {
      expect(s.exitance[i]).toBeCloseTo(m, 6);
    });
    expect(s.unsettled).toBeLessThan(1e-9);
    expect(s.rounds).toBeLessThan(12);
  });
});

it('sends a lamp’s light out whole: its distribution sums to 1 over the sphere', () => {
  for (const shape of [
    { kind: 'all round' },
    { kind: 'diffuse' },
    { kind: 'beam', angle: 40 },
    { kind: 'beam', angle: 100 },
  ] as const) {
    let sum = 0;
    const n = 20000;
    for (let k = 0; k < n; k++) sum += distribution(shape, -1 + (2 * (k + 0.5)) / n) * 2 * Math.PI * (2 / n);
    expect(sum).toBeCloseTo(1, 4);
  }
  expect(
    distribution({ kind: 'beam', angle: 60 }, Math.cos(Math.PI / 6)) / distribution({ kind: 'beam', angle: 60 }, 1),
  ).toBeCloseTo(0.5, 12);
});

describe('against random photons', () => {
  const boxes = [boxAt(1600, 0, 1400, 1600, 750, 800)];
  const reflectance = (of: string): number =>
    of === 'floor' ? 0.2 : of === 'ceiling' ? 0.8 : of.startsWith('box') ? 0.4 : of === 'wall 0' ? 0.3 : 0.6;
  it.each([
    ['a bare room, a bulb', [], bulb([3000], vec(1500, 1900, 1200))],
    [
      'a desk under a diffuse panel',
      boxes,
      { at: vec(2500, 2550, 2000), flux: [5000], shape: { kind: 'diffuse' } } as Lamp,
    ],
  ] as const)('%s: the light on every face agrees, nearer as pieces grow smaller', (_, things, lamp) => {
    const count = countPhotons(
      { size: [5000, 2600, 4000], boxes: things, reflectance },
      [lamp],
      150_000,
      2,
      seeded(11),
    );
    const errors = [1300, 650, 420].map((size) => {
      const s = solveLight(
        scene(ROOM, things, size, [lamp], (p) => [reflectance(p.of)]),
        1e-5,
      );
      let [error, all] = [0, 0];
      for (const [face, lumens] of count.reached) {
        const mine = s.scene.geometry.patches.reduce(
          (sum, p, i) => sum + (p.of === face ? (s.illuminance[i]! * p.area) / 1e6 : 0),
          0,
        );
        error += Math.abs(mine - lumens);
        all += lumens;
      }
      return error / all;
    });
    // The photons themselves are good to about 0.3 % of the light of a face.
    expect(errors[2]).toBeLessThan(0.02);
    expect(errors[2]).toBeLessThan(errors[0]! + 0.002);
    const s = solveLight(
      scene(ROOM, things, 420, [lamp], (p) => [reflectance(p.of)]),
      1e-5,
    );
    // Each quarter of the floor: where the light falls, not only how much.
    for (let i = 0; i < 2; i++)
      for (let j = 0; j < 2; j++) {
        const mine = s.scene.geometry.patches.reduce((sum, p, k) => {
          if (p.of !== 'floor') return sum;
          // The share of the piece that lies in this quarter.
          const along = (axis: 'x' | 'z', from: number, to: number): number => {
            const [low, high] = [
              Math.min(...p.corners.map((c) => c[axis])),
              Math.max(...p.corners.map((c) => c[axis])),
            ];
            return Math.max(0, Math.min(high, to) - Math.max(low, from)) / (high - low);
          };
          const share = along('x', i * 2500, (i + 1) * 2500) * along('z', j * 2000, (j + 1) * 2000);
          return sum + (share * s.illuminance[k]! * p.area) / 1e6;
        }, 0);
        expect(mine / count.floor[i * 2 + j]!).toBeGreaterThan(0.96);
        expect(mine / count.floor[i * 2 + j]!).toBeLessThan(1.04);
      }
  });
});

describe('light at a point', () => {
  it('is what the patch there receives', () => {
    const boxes = [boxAt(1600, 0, 1400, 1600, 750, 800)];
    const lamp: Lamp = { at: vec(2500, 2550, 2000), flux: [5000], shape: { kind: 'diffuse' } };
    const s = solveLight(
      scene(ROOM, boxes, 500, [lamp], () => [0.5]),
      1e-5,
    );
    s.scene.geometry.patches.forEach((p, i) => {
      if (p.of !== 'floor' && p.of !== 'wall 2') return;
      const centre = vec(p.centre.x + p.normal.x, p.centre.y + p.normal.y, p.centre.z + p.normal.z);
      const E = lightAt(s, centre, p.normal, 3).total[0]!;
      // In the open: shadows' edges cross some patches of the floor beside the desk.
      if (p.of === 'wall 2') expect(E / s.illuminance[i]!).toBeCloseTo(1, 1);
    });
    const face = lightAt(s, vec(2500, 1200, 3200), vec(0, 0, -1));
    expect(face.total[0]).toBeGreaterThan(face.direct[0]!);
    expect(face.direct[0]).toBeGreaterThan(0);
  });
  it('bleeds: a white wall opposite a red one that alone is lit turns red', () => {
    // Two large facing planes, nearly: a flat wide room.
    const flat = boxRoom(20000, 20000, 500);
    const paint: Scene['reflectance'] = (p) =>
      p.of === 'ceiling' ? [0.6, 0.1] : p.of === 'floor' ? [0.8, 0.8] : [0, 0];
    const s = solveLight(
      {
        ...scene(flat, [], 2500, [], paint, 2),
        emission: (p) => (p.of === 'floor' ? [1, 1] : undefined),
      },
      1e-9,
    );
    const { patches } = s.scene.geometry;
    const middle = patches.findIndex(
      (p) => p.of === 'floor' && Math.abs(p.centre.x - 8750) < 1300 && Math.abs(p.centre.z - 8750) < 1300,
    );
    // Facing infinite planes: (1 − 0.8·0.1)/(1 − 0.8·0.6) = 1.769 (Kubelka's sum); the open edge is 17 heights away.
    expect(s.exitance[middle * 2]! / s.exitance[middle * 2 + 1]!).toBeCloseTo(1.769, 1);
  });
});
