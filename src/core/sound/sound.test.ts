import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airAttenuation, exactMidband, sabineConstant } from './air.ts';
import { countModes, listedUpTo, lowestModes, modeFrequency, modesBelow, smoothModeCount } from './modes.ts';
import { arau, eyring, fitzroy, millington, type Pairs, type Patch, sabine } from './reverberation.ts';
import { bandIndex, modulationTransfer, speechTransmission } from './speech.ts';
import { absorberCount, layTiles, type Rectangle, timesByBand, withAbsorbers } from './treatment.ts';

const anyPatch: fc.Arbitrary<Patch> = fc.record({
  area: fc.double({ min: 0.5, max: 60, noNaN: true }),
  coefficient: fc.double({ min: 0.01, max: 0.95, noNaN: true }),
});
const anyPairs = fc.tuple(anyPatch, anyPatch, anyPatch) as fc.Arbitrary<Pairs>;

describe('the reverberation formulas', () => {
  it('stand in the order Millington ≤ Eyring ≤ Sabine, and Arau ≤ Fitzroy (means of the same three times)', () =>
    fc.assert(
      fc.property(anyPairs, (patches) => {
        const room = { volume: 50, patches };
        const [s, e, m] = [sabine(room), eyring(room), millington(room)];
        expect(m).toBeLessThanOrEqual(e * (1 + 1e-9));
        expect(e).toBeLessThanOrEqual(s * (1 + 1e-9));
        // Geometric and arithmetic mean with the same weights; the harmonic one is Millington.
        const box = { volume: 50, pairs: patches };
        expect(arau(box)).toBeLessThanOrEqual(fitzroy(box) * (1 + 1e-9));
        expect(m).toBeLessThanOrEqual(arau(box) * (1 + 1e-9));
      }),
    ));
  it('agree with one another where all surfaces are alike, air and all', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.9, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (a, air) => {
          const pairs: Pairs = [
            { area: 20, coefficient: a },
            { area: 26, coefficient: a },
            { area: 40, coefficient: a },
          ];
          const expected = eyring({ volume: 52, patches: pairs, air });
          for (const t of [
            millington({ volume: 52, patches: pairs, air }),
            fitzroy({ volume: 52, pairs, air }),
            arau({ volume: 52, pairs, air }),
          ])
            expect(t / expected).toBeCloseTo(1, 10);
        },
      ),
    ));
  it('fall with every person who comes in', () => {
    const room = { volume: 52, patches: [{ area: 87, coefficient: 0.1 }] };
    expect(sabine({ ...room, objects: 1 })).toBeLessThan(sabine(room));
    expect(eyring({ ...room, objects: 1 })).toBeLessThan(eyring(room));
  });
});

it('takes more from higher tones, and from dry air more than from damp at 4 kHz', () => {
  const at = (humidity: number, f: number): number => airAttenuation({ celsius: 20, humidity }, f);
  expect(at(50, 2000)).toBeGreaterThan(at(50, 1000));
  expect(at(20, 4000)).toBeGreaterThan(at(60, 4000));
  expect(exactMidband(4000)).toBeCloseTo(3981.07, 2);
  expect(exactMidband(440)).toBe(440);
});

describe('modes', () => {
  const anyBox = fc.tuple(
    ...Array.from({ length: 3 }, () => fc.double({ min: 1.5, max: 9, noNaN: true })),
  ) as fc.Arbitrary<[number, number, number]>;
  it('are all those a search over far more orders finds', () =>
    fc.assert(
      fc.property(anyBox, (size) => {
        const found = modesBelow(size, 343, 150).map((m) => m.frequency);
        const all: number[] = [];
        for (let p = 0; p < 12; p++)
          for (let q = 0; q < 12; q++)
            for (let r = 0; r < 12; r++) {
              const f = Math.sqrt(
                ((343 * p) / (2 * size[0])) ** 2 + ((343 * q) / (2 * size[1])) ** 2 + ((343 * r) / (2 * size[2])) ** 2,
              );
              if (p + q + r > 0 && f <= 150) all.push(f);
            }
        all.sort((a, b) => a - b);
        expect(found.length).toBe(all.length);
        expect(countModes(size, 343, 150)).toBe(all.length);
        found.forEach((f, k) => {
          expect(f).toBeCloseTo(all[k]!, 9);
        });
      }),
    ));
  it('are listed up to a lower frequency where a slip of the pen makes a room of sizes that none has', () => {
    const size = [5.5, 3.9, 0.012] as const;
    const wanted = 343 / 0.012;
    expect(() => modesBelow(size, 343, wanted)).toThrow(RangeError);
    const limit = listedUpTo(size, 343, wanted);
    expect(limit).toBeGreaterThan(1000);
    expect(modesBelow(size, 343, limit).length).toBeGreaterThan(1000);
    expect(listedUpTo([5, 4, 2.6], 343, 120)).toBe(120);
    expect(() => listedUpTo([5, 4, 0], 343, 120)).toThrow(RangeError);
  });
  it('are as many as the smooth count says, within a few percent, high up', () => {
    const size = [5, 4, 2.6] as const;
    expect(modesBelow(size, 343, 600).length / smoothModeCount(size, 343, 600)).toBeCloseTo(1, 1);
    expect(lowestModes(size, 343, 3).map((m) => m.frequency)).toEqual(
      [
        [1, 0, 0],
        [0, 1, 0],
        [1, 1, 0],
      ].map((o) => modeFrequency(o as [number, number, number], size, 343)),
    );
  });
});

describe('the modulation transfer', () => {
  it('is that of an exponential decay, integrated step by step', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.double({ min: 0.5, max: 12.5, noNaN: true }),
        (T, F) => {
          // m = |∫ h² e^(−iωt)| / ∫ h², h² = e^(−13.8 t/T)
          const [dt, n] = [T / 20000, 40000];
          let [re, im, all] = [0, 0, 0];
          for (let k = 0; k < n; k++) {
            const t = (k + 0.5) * dt;
            const e = Math.exp((-13.8 * t) / T);
            re += e * Math.cos(2 * Math.PI * F * t);
            im += e * Math.sin(2 * Math.PI * F * t);
            all += e;
          }
          expect(modulationTransfer(F, T)).toBeCloseTo(Math.hypot(re, im) / all, 4);
        },
      ),
      { numRuns: 20 },
    ));
  it('falls with reverberation and with noise, and so does the index', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        fc.double({ min: 1.01, max: 2, noNaN: true }),
        fc.double({ min: -10, max: 30, noNaN: true }),
        (T, more, snr) => {
          expect(bandIndex(T * more, snr)).toBeLessThanOrEqual(bandIndex(T, snr));
          expect(bandIndex(T, snr - 3)).toBeLessThanOrEqual(bandIndex(T, snr));
          const alike = speechTransmission(
            Array.from({ length: 7 }, () => T),
            Array.from({ length: 7 }, () => snr),
          );
          expect(alike).toBeCloseTo(bandIndex(T, snr), 10);
        },
      ),
    ));
});

describe('absorbers', () => {
  it('count as Sabine’s formula does for a single band: one less misses the target', () => {
    const room = { volume: 52, patches: [{ area: 86, coefficients: [0.1] }] };
    const { count } = absorberCount(52, timesByBand(room, 'sabine')[0]!, 0.4, 0.7, 0.36, sabineConstant(343));
    const after = (n: number) =>
      timesByBand(withAbsorbers(room, 0, { area: 0.36, coefficients: [0.8] }, n), 'sabine')[0]!;
    expect(after(count)).toBeLessThanOrEqual(0.4);
    expect(after(count - 1)).toBeGreaterThan(0.4);
  });
});

describe('tiles on a wall', () => {
  const wall: Rectangle = { x: 100, y: 0, width: 3000, height: 2400 };
  const touches = (a: Rectangle, b: Rectangle): boolean =>
    a.x + a.width > b.x + 1e-6 &&
    b.x + b.width > a.x + 1e-6 &&
    a.y + a.height > b.y + 1e-6 &&
    b.y + b.height > a.y + 1e-6;
  const anyBlock: fc.Arbitrary<Rectangle> = fc.record({
    x: fc.integer({ min: 0, max: 2900 }),
    y: fc.integer({ min: 0, max: 2300 }),
    width: fc.integer({ min: 50, max: 900 }),
    height: fc.integer({ min: 50, max: 900 }),
  });
  it('stay on it, off what is blocked and off one another', () =>
    fc.assert(
      fc.property(fc.array(anyBlock, { maxLength: 4 }), fc.constantFrom(0, 20), (blocked, gap) => {
        const tiles = layTiles(wall, blocked, 305, gap);
        tiles.forEach((t, k) => {
          expect(t.x).toBeGreaterThanOrEqual(wall.x - 1e-6);
          expect(t.x + t.width).toBeLessThanOrEqual(wall.x + wall.width + 1e-6);
          expect(t.y + t.height).toBeLessThanOrEqual(wall.y + wall.height + 1e-6);
          expect(Math.max(t.width, t.height)).toBeLessThanOrEqual(305 + 1e-6);
          expect(t.cut).toBe(t.width < 305 - 1e-6 || t.height < 305 - 1e-6);
          for (const b of blocked) expect(touches(t, b)).toBe(false);
          for (const u of tiles.slice(k + 1)) expect(touches(t, u)).toBe(false);
        });
      }),
      { numRuns: 40 },
    ));
  it('are as many whole ones as fit a bare wall', () => {
    const whole = layTiles(wall, [], 300, 0).filter((t) => !t.cut);
    expect(whole.length).toBe(80);
    expect(layTiles({ ...wall, width: 3100 }, [], 300, 0, 300).length).toBe(80);
  });
  it('go round a socket with one cut tile rather than none', () => {
    const socket = { x: 1000, y: 300, width: 80, height: 120 };
    const tiles = layTiles(wall, [socket], 300, 0, 100);
    expect(tiles.filter((t) => !t.cut).length).toBeGreaterThanOrEqual(78);
    expect(tiles.some((t) => t.cut)).toBe(true);
  });
});
