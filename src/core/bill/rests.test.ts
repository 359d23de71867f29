import fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkPanels, solvePanels } from '../cutting/index.ts';
import { realLayouts, toPanelProblem } from '../stock/index.ts';
import { partOf, stockPlan } from '../stock/stock.testing.ts';
import { cutUp, isKept } from './rests.ts';

const layout = (
  placed: readonly (readonly [x: number, y: number, length: number, width: number])[],
  more: object = {},
) => ({
  stock: 'ply',
  from: 'panel' as const,
  source: { kind: 'rack' as const, id: 'r' },
  length: 2440,
  width: 1220,
  trim: 10,
  kerf: 3,
  placed: placed.map(([x, y, length, width], i) => ({ part: `p${i}`, x, y, length, width })),
  ...more,
});

it('leaves a strip beside and one above a single part, less the blade', () => {
  // 2440 − 2·10 − 2000 − 3 = 417 beside; 1220 − 2·10 − 600 − 3 = 597 above, over the part only (the larger strip, above, goes first).
  const { rests, cuts } = cutUp(layout([[10, 10, 2000, 600]]));
  expect(cuts).toBe(2);
  expect(rests).toEqual([
    { x: 10, y: 613, length: 2420, width: 597 },
    { x: 2013, y: 10, length: 417, width: 600 },
  ]);
});
it('cuts a full panel between its parts only', () => {
  const half = (2420 - 3) / 2;
  const { rests, cuts } = cutUp(
    layout([
      [10, 10, half, 1200],
      [10 + half + 3, 10, half, 1200],
    ]),
  );
  expect(rests).toEqual([]);
  expect(cuts).toBe(1);
});
it('loses a strip no wider than the blade', () => {
  expect(cutUp(layout([[10, 10, 2418, 1200]])).rests).toEqual([]);
});
it('says when a layout cannot be cut edge to edge', () => {
  // The pinwheel, which no straight cut can part.
  const wheel = layout(
    [
      [0, 0, 60, 40],
      [60, 0, 40, 60],
      [40, 60, 60, 40],
      [0, 40, 40, 60],
      [40, 40, 20, 20],
    ],
    { length: 100, width: 100, trim: 0, kerf: 0 },
  );
  expect(cutUp(wheel).possible).toBe(false);
});
it('leaves a board its end', () => {
  const board = {
    ...layout(
      [
        [20, 0, 700, 89],
        [723, 0, 500, 89],
      ],
      { length: 2400, width: 89, trim: 20 },
    ),
    from: 'board' as const,
  };
  expect(cutUp(board)).toEqual({ rests: [{ x: 1226, y: 0, length: 1154, width: 89 }], cuts: 2, possible: true });
});

it('of real layouts: rests lie in the panel, clear of every part by a blade and of each other, and nothing is lost but blade and trim', () => {
  const size = fc.integer({ min: 80, max: 1100 });
  const plan = stockPlan({
    stock: { panels: [{ id: 'ply', thickness: 18, sizes: [{ length: 2440, width: 1220, price: 48 }] }] },
    shop: { kerf: 3, trim: 10 },
  });
  fc.assert(
    fc.property(fc.array(fc.tuple(size, size), { minLength: 1, maxLength: 14 }), (sizes) => {
      const parts = sizes.map(([l, w], i) => partOf(`a/${i}`, 'ply', l, w));
      const job = toPanelProblem(parts, plan, 'ply');
      const answer = solvePanels(job.problem, { steps: 20 });
      expect(checkPanels(job.problem, answer)).toEqual([]);
      for (const real of realLayouts(job, answer)) {
        const { rests, possible, cuts } = cutUp(real);
        expect(possible).toBe(true);
        const boxes = [...real.placed, ...rests];
        boxes.forEach((a, i) => {
          expect(a.x).toBeGreaterThanOrEqual(10 - 1e-6);
          expect(a.x + a.length).toBeLessThanOrEqual(2430 + 1e-6);
          expect(a.y).toBeGreaterThanOrEqual(10 - 1e-6);
          expect(a.y + a.width).toBeLessThanOrEqual(1210 + 1e-6);
          for (const b of boxes.slice(0, i)) {
            const gap = Math.max(a.x - b.x - b.length, b.x - a.x - a.length, a.y - b.y - b.width, b.y - a.y - a.width);
            expect(gap).toBeGreaterThanOrEqual(3 - 1e-6);
          }
        });
        const whole = 2420 * 1200;
        const used = boxes.reduce((s, b) => s + b.length * b.width, 0);
        // A cut is no longer than the panel; a strip no wider than the blade goes with it.
        expect(whole - used).toBeLessThanOrEqual(cuts * 3 * 2420 + 1e-3);
      }
    }),
    { numRuns: 150 },
  );
});

it.each([
  [{ length: 149, width: 149 }, 'panel', false],
  [{ length: 150, width: 60 }, 'panel', true],
  [{ length: 2400, width: 39 }, 'panel', false],
  [{ length: 150, width: 30 }, 'board', true],
  [{ length: 149, width: 300 }, 'board', false],
] as const)('keeps %j of a %s: %s', (rest, from, kept) => {
  expect(isKept(rest, from, 150)).toBe(kept);
});
