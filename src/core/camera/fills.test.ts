import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ImageLine, uncovered } from './fills.ts';
import { hiddenBehind } from './plan.ts';

const at = fc.record({
  x: fc.double({ min: -10, max: 10, noNaN: true }),
  y: fc.double({ min: -10, max: 10, noNaN: true }),
  depth: fc.double({ min: 500, max: 5000, noNaN: true }),
});
/** A convex outline: points on an ellipse, either way round. */
const cover = fc
  .record({
    x: fc.double({ min: -6, max: 6, noNaN: true }),
    y: fc.double({ min: -6, max: 6, noNaN: true }),
    a: fc.double({ min: 0.5, max: 6, noNaN: true }),
    b: fc.double({ min: 0.5, max: 6, noNaN: true }),
    n: fc.integer({ min: 3, max: 9 }),
    back: fc.boolean(),
    depth: fc.double({ min: 500, max: 5000, noNaN: true }),
  })
  .map(({ x, y, a, b, n, back, depth }) => {
    const polygon = Array.from({ length: n }, (_, k) => ({
      x: x + a * Math.cos((2 * Math.PI * k) / n),
      y: y + b * Math.sin((2 * Math.PI * k) / n),
    }));
    return { polygon: back ? polygon.reverse() : polygon, depth };
  });

/** By crossings of a ray, which shares nothing with the clipping. */
function inside(polygon: readonly { x: number; y: number }[], x: number, y: number): boolean {
  let odd = false;
  polygon.forEach((p, k) => {
    const q = polygon[(k + 1) % polygon.length]!;
    if (p.y > y !== q.y > y && x < p.x + ((y - p.y) * (q.x - p.x)) / (q.y - p.y)) odd = !odd;
  });
  return odd;
}

describe('lines behind people', () => {
  it('are left out exactly where an outline lies before them', () =>
    fc.assert(
      fc.property(at, at, fc.array(cover, { maxLength: 3 }), (from, to, covers) => {
        // Level lines: what is hidden does not change along them.
        const line: ImageLine = { from, to: { ...to, depth: from.depth } };
        const seen = uncovered(line, covers);
        for (let k = 0; k < 40; k++) {
          const t = (k + 0.5) / 40;
          const [x, y] = [from.x + t * (to.x - from.x), from.y + t * (to.y - from.y)];
          const near = covers.some(({ polygon }) =>
            polygon.some((p, i) => {
              const q = polygon[(i + 1) % polygon.length]!;
              const [dx, dy] = [q.x - p.x, q.y - p.y];
              const u = Math.min(1, Math.max(0, ((x - p.x) * dx + (y - p.y) * dy) / (dx * dx + dy * dy)));
              return Math.hypot(x - p.x - u * dx, y - p.y - u * dy) < 1e-4;
            }),
          );
          if (near) continue;
          const hidden = covers.some((c) => from.depth > c.depth + 1 && inside(c.polygon, x, y));
          const length = Math.hypot(to.x - from.x, to.y - from.y);
          if (length < 1e-6) continue;
          const drawn = seen.some((s) => {
            const along = (p: { x: number; y: number }): number =>
              ((p.x - from.x) * (to.x - from.x) + (p.y - from.y) * (to.y - from.y)) / length ** 2;
            return along(s.from) <= t && t <= along(s.to);
          });
          expect(drawn).toBe(!hidden);
        }
      }),
    ));
  it('stay whole where nothing is before them', () => {
    const line = { from: { x: 0, y: 0, depth: 1000 }, to: { x: 5, y: 5, depth: 2000 } };
    expect(uncovered(line, [])).toEqual([line]);
  });
});

it('loses behind a shelf what similar triangles say', () => {
  // A lens 200 mm below the top of a shelf 250 mm deep, its front 2 m away: 25 mm of what stands at its back.
  expect(hiddenBehind(200, 250, 2000)).toBe(25);
  expect(hiddenBehind(-100, 250, 2000)).toBeLessThan(0);
});
