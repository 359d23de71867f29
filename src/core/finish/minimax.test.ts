import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimaxFit, type WallPoint } from './minimax.ts';

/** Every line through two points, pushed forward until no point is in front of it: the least of their largest gaps. */
function bruteForce(points: readonly WallPoint[]): number {
  let least = Number.POSITIVE_INFINITY;
  const gap = (m: number) => {
    const over = points.map((p) => p.y - m * p.x);
    return Math.max(...over) - Math.min(...over);
  };
  for (const p of points)
    for (const q of points) if (p.x !== q.x) least = Math.min(least, gap((p.y - q.y) / (p.x - q.x)));
  return Number.isFinite(least) ? least : gap(0);
}

const wall = fc.array(
  fc.record({ x: fc.integer({ min: 0, max: 500 }), y: fc.integer({ min: -200, max: 200 }) }).map(({ x, y }) => ({
    x: x * 10,
    y: y / 10,
  })),
  { minLength: 1, maxLength: 25 },
);

describe('the line in front of a wavy wall', () => {
  it('is as good as brute force over all pairs', () =>
    fc.assert(
      fc.property(wall, (points) => {
        expect(minimaxFit(points).largestGap).toBeCloseTo(bruteForce(points), 9);
      }),
      { numRuns: 2000 },
    ));
  it('is never behind the wall, touches it, and has the gap it says', () =>
    fc.assert(
      fc.property(wall, (points) => {
        const fit = minimaxFit(points);
        for (const [i, p] of points.entries()) {
          const gap = fit.slope * p.x + fit.intercept - p.y;
          expect(gap).toBeGreaterThan(-1e-9);
          expect(fit.gaps[i]!).toBeCloseTo(Math.max(0, gap), 12);
        }
        expect(fit.touches.length).toBeGreaterThan(0);
        expect(Math.max(...fit.gaps)).toBe(fit.largestGap);
      }),
    ));
  it('no other slope does better', () =>
    fc.assert(
      fc.property(wall, fc.double({ min: -1, max: 1, noNaN: true }), (points, slope) => {
        const over = points.map((p) => p.y - slope * p.x);
        expect(minimaxFit(points).largestGap).toBeLessThanOrEqual(Math.max(...over) - Math.min(...over) + 1e-9);
      }),
    ));
  it('leans with the wall: a tilt added to the wall is added to the line', () =>
    fc.assert(
      fc.property(wall, fc.integer({ min: -9, max: 9 }), (points, tilt) => {
        const leaning = points.map((p) => ({ x: p.x, y: p.y + (tilt / 100) * p.x }));
        expect(minimaxFit(leaning).largestGap).toBeCloseTo(minimaxFit(points).largestGap, 8);
      }),
    ));
  it('lies flat on a straight wall', () => {
    const fit = minimaxFit([0, 1, 2, 3].map((x) => ({ x, y: 2 + x / 4 })));
    expect(fit).toMatchObject({ slope: 0.25, largestGap: 0, touches: [0, 1, 2, 3] });
  });
  it('stands on a bump', () => {
    const fit = minimaxFit([
      { x: 0, y: 0 },
      { x: 25, y: 1 },
      { x: 100, y: 0 },
    ]);
    expect(fit).toMatchObject({ slope: 0, intercept: 1, largestGap: 1, touches: [1], widest: [0, 2] });
  });
  it.each([[[]], [[{ x: 0, y: Number.NaN }]]])('refuses %j', (points) =>
    expect(() => minimaxFit(points)).toThrow(RangeError),
  );
});
