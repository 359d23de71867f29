import fc from 'fast-check';
import { expect, it } from 'vitest';
import { solvePanels } from '../cutting/index.ts';
import { type RealLayout, realLayouts, toPanelProblem } from '../stock/index.ts';
import { partOf, stockPlan } from '../stock/stock.testing.ts';
import { makeBill } from './bill.ts';
import { cutShopOf, orderedCutUp, orderFor } from './ordered.ts';
import { cutUp, isKept } from './rests.ts';

const plan = stockPlan({
  stock: { panels: [{ id: 'ply', kind: 'plywood', thickness: 18, sizes: [{ length: 2440, width: 1220, price: 48 }] }] },
  shop: { kerf: 3, trim: 10, rip: 800, keep: 200 },
});

it('hands the order of cuts the shop as the plan has it, and the weight of the panel', () => {
  // 18 mm of plywood at the handbook's 600 kg/m³ (table 12-1, high end): 10.8 kg/m².
  const shop = cutShopOf(plan, 'ply');
  expect(shop).toMatchObject({ keep: 200, keepWidth: 40, lift: 23, rip: 800 });
  expect(shop.arealDensity).toBeCloseTo(10.8, 12);
  expect(shop).not.toHaveProperty('track');
});

it('takes real layouts apart without losing more than blade and trim, and the bill racks what the order names', () => {
  const size = fc.integer({ min: 80, max: 1100 });
  fc.assert(
    fc.property(fc.array(fc.tuple(size, size), { minLength: 1, maxLength: 12 }), (sizes) => {
      const parts = sizes.map(([l, w], i) => partOf(`a/${i}`, 'ply', l, w));
      const job = toPanelProblem(parts, plan, 'ply');
      const answer = solvePanels(job.problem, { steps: 20 });
      const layouts = realLayouts(job, answer);
      const takeApart = orderedCutUp(plan);
      let kept = 0;
      for (const layout of layouts) {
        const order = orderFor(plan, layout)!;
        const { rests, cuts, possible } = takeApart(layout);
        expect(possible).toBe(true);
        expect(cuts).toBe(order.steps.length);
        const area = (all: readonly { length: number; width: number }[]) =>
          all.reduce((s, r) => s + r.length * r.width, 0);
        const lost = layout.length * layout.width - area(rests) - area(layout.placed);
        expect(lost).toBeGreaterThanOrEqual(-1e-3);
        expect(lost).toBeLessThanOrEqual(cuts * 3 * 2440 + 1e-3);
        expect(rests.filter((r) => isKept(r, 'panel', 200))).toHaveLength(order.offcuts.length);
        kept += order.offcuts.length;
      }
      const bill = makeBill({
        plan,
        pieces: [],
        parts,
        fittings: [],
        cuts: [{ job, answer }],
        takeApart,
        today: '2026-11-25',
      });
      expect(bill.rack.left).toHaveLength(kept);
    }),
    { numRuns: 80 },
  );
});

it('leaves boards as they are', () => {
  const board = {
    stock: 'pine',
    from: 'board' as const,
    source: { kind: 'rack' as const, id: 'r' },
    length: 2400,
    width: 89,
    trim: 0,
    kerf: 3,
    placed: [{ part: 'a', x: 0, y: 0, length: 700, width: 89 }],
  };
  expect(orderedCutUp(plan)(board)).toEqual(cutUp(board));
});

it('takes no layout for another one that has the same figure', () => {
  const at = (x: number, y: number): RealLayout => ({
    stock: 'ply',
    from: 'panel',
    source: { kind: 'rack', id: 'a' },
    length: 2440,
    width: 1220,
    trim: 10,
    kerf: 3,
    placed: [{ part: 'a/1', x, y, length: 1000, width: 500 }],
  });
  const takeApart = orderedCutUp(plan);
  // two to the right are 31 times two down, in the figure
  for (const layout of [at(10, 75), at(12, 13), at(10, 75)]) {
    const order = orderFor(plan, layout)!;
    expect(takeApart(layout)).toEqual({
      rests: [...order.offcuts, ...order.waste].map(({ x, y, length, width }) => ({ x, y, length, width })),
      cuts: order.steps.length,
      possible: true,
    });
  }
  expect(takeApart(at(10, 75))).not.toEqual(takeApart(at(12, 13)));
  // what its part is called is nothing to the saw
  const { placed, ...rest } = at(10, 75);
  expect(takeApart({ ...rest, placed: [{ ...placed[0]!, part: 'b/7' }] })).toBe(takeApart(at(10, 75)));
});
