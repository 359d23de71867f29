import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compositeIndex,
  frequencyMultiplier,
  type Lift,
  liftDuration,
  liftingIndex,
  liftingLimit,
  teamCapacity,
} from './lifting.ts';

const lift: fc.Arbitrary<Lift> = fc.record({
  reach: fc.double({ min: 100, max: 800, noNaN: true }),
  height: fc.double({ min: 0, max: 2000, noNaN: true }),
  travel: fc.double({ min: 0, max: 2000, noNaN: true }),
  twist: fc.double({ min: 0, max: 180, noNaN: true }),
  frequency: fc.double({ min: 0, max: 20, noNaN: true }),
  duration: fc.constantFrom('short', 'moderate', 'long'),
  coupling: fc.constantFrom('good', 'fair', 'poor'),
});

describe('the lifting equation', () => {
  it('never recommends more than 23 kg, nor less than nothing', () =>
    fc.assert(
      fc.property(lift, (l) => {
        const { limit, multipliers } = liftingLimit(l);
        expect(limit).toBeGreaterThanOrEqual(0);
        expect(limit).toBeLessThanOrEqual(23);
        for (const m of Object.values(multipliers)) {
          expect(m).toBeGreaterThanOrEqual(0);
          expect(m).toBeLessThanOrEqual(1);
        }
      }),
    ));
  it('asks for less the farther, the more twisted, the more often and the longer', () =>
    fc.assert(
      fc.property(lift, (l) => {
        const at = (change: Partial<Lift>) => liftingLimit({ ...l, ...change }).limit;
        expect(at({ reach: l.reach * 1.1 })).toBeLessThanOrEqual(at({}));
        expect(at({ twist: l.twist! + 10 })).toBeLessThanOrEqual(at({}));
        expect(at({ frequency: l.frequency! + 1 })).toBeLessThanOrEqual(at({}));
        expect(at({ duration: 'long' })).toBeLessThanOrEqual(at({ duration: 'short' }));
        expect(at({ coupling: 'poor' })).toBeLessThanOrEqual(at({ coupling: 'good' }));
      }),
    ));
  // the two systems of the manual differ: 51 lb is 23.13 kg, 10 in is 25.4 cm, 0.0075/in is 0.00295/cm
  it('gives nearly the same in both unit systems', () =>
    fc.assert(
      fc.property(
        fc.record({
          reach: fc.double({ min: 260, max: 600, noNaN: true }),
          height: fc.double({ min: 0, max: 1700, noNaN: true }),
          travel: fc.double({ min: 260, max: 1700, noNaN: true }),
        }),
        (l) => {
          const ratio =
            liftingLimit({ ...l, system: 'us', coupling: 'good' }).limit /
            liftingLimit({ ...l, coupling: 'good' }).limit;
          expect(ratio).toBeGreaterThan(0.98);
          expect(ratio).toBeLessThan(1.04);
        },
      ),
    ));
  it('is index 1 at the limit itself', () => {
    const l = { reach: 400, height: 700, travel: 600 };
    expect(liftingIndex(liftingLimit(l).limit, l)).toBeCloseTo(1, 12);
    expect(liftingIndex(1, { ...l, reach: 900 })).toBe(Number.POSITIVE_INFINITY);
  });
  it('never rises with the number of lifts', () => {
    for (const duration of ['short', 'moderate', 'long'] as const)
      for (const high of [false, true])
        for (let f = 0; f < 16; f += 0.1)
          expect(frequencyMultiplier(f + 0.1, duration, high)).toBeLessThanOrEqual(
            frequencyMultiplier(f, duration, high) + 1e-12,
          );
  });
});

it('a job of several tasks is never easier than its hardest one', () =>
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          mass: fc.double({ min: 1, max: 30, noNaN: true }),
          frequency: fc.double({ min: 0.2, max: 2, noNaN: true }),
          limit: fc.double({ min: 5, max: 23, noNaN: true }),
        }),
        { minLength: 1, maxLength: 4 },
      ),
      (tasks) => {
        const single = Math.max(
          ...tasks.map((t) => t.mass / (t.limit * frequencyMultiplier(t.frequency, 'short', true))),
        );
        expect(compositeIndex(tasks, 'short', true)).toBeGreaterThanOrEqual(single - 1e-9);
      },
    ),
  ));

it('adds up spells until the rest is long enough', () => {
  expect(liftDuration([60], [])).toEqual({ duration: 'short', longest: 60 });
  expect(liftDuration([61], [])).toEqual({ duration: 'moderate', longest: 61 });
  expect(liftDuration([121], [])).toEqual({ duration: 'long', longest: 121 });
  expect(liftDuration([50, 50, 50], [10, 20, 0]).longest).toBe(150);
  expect(liftDuration([50, 50, 50], [50, 50, 50]).duration).toBe('short');
});

it('a team lifts more than its strongest member and less than all together', () => {
  expect(teamCapacity([20])).toBe(20);
  expect(teamCapacity([20, 20])).toBeCloseTo(26.667, 3);
  expect(teamCapacity([20, 20, 20])).toBe(30);
  expect(() => teamCapacity([20, 20, 20, 20])).toThrow(RangeError);
});
