import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../../../test/seed.ts';
import { criticalPath } from './network.ts';
import { drawFrom } from './solver/random.ts';
import { drawThreePoint, expected, normalShare, variance } from './three-point.ts';

const chanceFrom = (seed: number) => {
  const draw = drawFrom(seed);
  return () => draw(2 ** 30) / 2 ** 30;
};

describe('three points', () => {
  // Abramowitz & Stegun, table 26.1
  it.each([
    [0, 0.5],
    [0.5, 0.6914624613],
    [1, 0.8413447461],
    [1.96, 0.9750021049],
    [3, 0.998650102],
    [-1, 0.1586552539],
  ])('the share of the normal below %f is %f', (z, share) => expect(normalShare(z)).toBeCloseTo(share, 6));

  it('draws within the points, with the mean the formula gives', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: 1, max: 50 }),
        (a, m, b) => {
          const points = { least: a, likely: a + m, most: a + m + b };
          const chance = chanceFrom(a + 100 * m + b);
          const runs = 4000;
          let sum = 0;
          for (let i = 0; i < runs; i++) {
            const drawn = drawThreePoint(points, chance);
            expect(drawn).toBeGreaterThanOrEqual(points.least);
            expect(drawn).toBeLessThanOrEqual(points.most);
            sum += drawn;
          }
          // the beta's own spread is at most 0.29 of the range; five of its standard errors
          const slack = (5 * 0.29 * (points.most - points.least)) / Math.sqrt(runs);
          expect(Math.abs(sum / runs - expected(points))).toBeLessThan(slack);
        },
      ),
      { numRuns: 25 },
    ));

  it('has no spread where there is none', () => {
    expect(drawThreePoint({ least: 7, likely: 7, most: 7 }, chanceFrom(1))).toBe(7);
    expect(variance({ least: 7, likely: 7, most: 7 })).toBe(0);
  });
});

describe('the critical path', () => {
  it('is the longest of all chains, and slack is what a task can take more', () =>
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 8 }),
        fc.array(fc.record({ from: fc.nat(7), to: fc.nat(7) }), { maxLength: 14 }),
        (durations, all) => {
          const arcs = all.filter((a) => a.from < a.to && a.to < durations.length);
          const found = criticalPath({ durations, arcs });
          const longest = (i: number): number =>
            durations[i]! + Math.max(0, ...arcs.filter((a) => a.from === i).map((a) => longest(a.to)));
          expect(found.length).toBe(Math.max(...durations.map((_, i) => longest(i))));
          expect(found.chain.reduce((s, i) => s + durations[i]!, 0)).toBe(found.length);
          durations.forEach((d, i) => {
            const more = (by: number) =>
              criticalPath({ durations: durations.map((t, k) => (k === i ? d + by : t)), arcs }).length;
            expect(more(found.slack[i]!)).toBe(found.length);
            expect(more(found.slack[i]! + 1)).toBe(found.length + 1);
          });
        },
      ),
    ));
  it('refuses a ring', () =>
    expect(() =>
      criticalPath({
        durations: [1, 1],
        arcs: [
          { from: 0, to: 1 },
          { from: 1, to: 0 },
        ],
      }),
    ).toThrow(RangeError));
});
