import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hatchLines } from './hatch.ts';
import type { Hatch } from './marks.ts';

const HATCHES: readonly Hatch[] = [
  'panel',
  'solid wood',
  'end grain',
  'masonry',
  'board',
  'waste',
  'offcut',
  'selected',
];
const SPACINGS: Readonly<Record<Hatch, number>> = {
  panel: 1.1,
  'solid wood': 1.1,
  'end grain': 0.8,
  masonry: 1.5,
  board: 1.4,
  waste: 2.5,
  offcut: 6,
  selected: 1.2,
};
const length = ({ from, to }: { from: { x: number; y: number }; to: { x: number; y: number } }): number =>
  Math.hypot(to.x - from.x, to.y - from.y);

describe('hatchLines', () => {
  it.each(HATCHES)('%s: lines stay within a rectangle and fill it as densely as their distance says', (hatch) => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 120 }),
        fc.integer({ min: 60, max: 120 }),
        fc.boolean(),
        (width, height, over) => {
          const points = [
            { x: 10, y: 10 },
            { x: 10 + width, y: 10 },
            { x: 10 + width, y: 10 + height },
            { x: 10, y: 10 + height },
          ];
          const lines = hatchLines(points, hatch, over);
          for (const p of lines.flatMap((l) => [l.from, l.to])) {
            expect(p.x).toBeGreaterThanOrEqual(10 - 1e-9);
            expect(p.x).toBeLessThanOrEqual(10 + width + 1e-9);
            expect(p.y).toBeGreaterThanOrEqual(10 - 1e-9);
            expect(p.y).toBeLessThanOrEqual(10 + height + 1e-9);
          }
          // Lines a distance d apart over an area A are A/d long in all; a line more or less at the edges.
          const sum = lines.reduce((s, l) => s + length(l), 0);
          expect(sum / ((width * height) / SPACINGS[hatch])).toBeGreaterThan(0.85);
          expect(sum / ((width * height) / SPACINGS[hatch])).toBeLessThan(1.15);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('two shapes that share an edge are hatched as the one they make', () => {
    const box = (x0: number, x1: number) => [
      { x: x0, y: 0 },
      { x: x1, y: 0 },
      { x: x1, y: 40 },
      { x: x0, y: 40 },
    ];
    const sum = (points: ReturnType<typeof box>): number =>
      hatchLines(points, 'panel').reduce((s, l) => s + length(l), 0);
    expect(sum(box(0, 17)) + sum(box(17, 50))).toBeCloseTo(sum(box(0, 50)), 0);
  });

  it('leaves a hollow out (even-odd)', () => {
    // A U, 30 wide, its hollow 10 wide and 20 deep from above.
    const u = [
      [0, 0],
      [10, 0],
      [10, 20],
      [20, 20],
      [20, 0],
      [30, 0],
      [30, 30],
      [0, 30],
    ].map(([x, y]) => ({ x: x!, y: y! }));
    for (const { from, to } of hatchLines(u, 'panel')) {
      const [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
      expect(x > 10.01 && x < 19.99 && y < 19.99).toBe(false);
    }
  });
});
