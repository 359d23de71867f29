import { describe, expect, it } from 'vitest';
import type { Plan } from '../plan/index.ts';
import { type RealLayout, realLayouts } from '../stock/index.ts';
import { cutPlan } from './cut-plan.ts';
import { letteringOf } from './lettering.ts';
import { EXAMPLES, exampleInput } from './packet.testing.ts';

describe.each(EXAMPLES)('cut plans of %s', (name) => {
  const { cuts, plan } = exampleInput(name);
  const layouts = cuts.flatMap(({ job, answer }) => (job.from === 'panel' ? realLayouts(job, answer) : []));
  const letter = letteringOf(plan.units);

  it('numbers the steps from 1 and cuts every part free exactly once', () => {
    for (const layout of layouts) {
      const { steps } = cutPlan(layout, plan, letter, (id) => `[${id}]`);
      expect(steps.map((s) => s.number)).toEqual(steps.map((_, i) => i + 1));
      const freed = steps.flatMap((s) =>
        [...(s.words.split(': ')[1] ?? '').matchAll(/\[([^\]]+)\]/g)].map((m) => m[1]!),
      );
      expect(freed.sort()).toEqual(layout.placed.map((p) => p.part).sort());
    }
  });

  // The area of a panel is its parts, what is left, and the path of the blade: each cut takes its length times at most the kerf.
  it('parts and what is left make up the panel but for the blade', () => {
    for (const layout of layouts) {
      const { steps, left } = cutPlan(layout, plan, letter, (id) => id);
      const sum = [...layout.placed, ...left].reduce((s, p) => s + p.length * p.width, 0);
      const runs = steps.reduce(
        (s, { line }) => s + Math.hypot(line!.to.x - line!.from.x, line!.to.y - line!.from.y),
        0,
      );
      const gone = layout.length * layout.width - sum;
      expect(gone).toBeGreaterThanOrEqual(-1);
      expect(gone).toBeLessThanOrEqual(runs * layout.kerf + 1);
    }
  });
});

/** A panel with one part in its corner. */
const onePart = (plan: Plan, trim: number, kerf: number): RealLayout => ({
  stock: plan.stock.panels[0]!.id,
  from: 'panel',
  source: { kind: 'rack', id: 'x' },
  length: 2500,
  width: 1250,
  trim,
  kerf,
  placed: [{ part: 'a', x: trim, y: trim, length: 700, width: 500 }],
});

it('warns of a panel that one person should not handle, and says at which saw', () => {
  const { plan } = exampleInput('radio-corner');
  const layout = onePart(plan, 0, 3.2);
  const { steps } = cutPlan(
    layout,
    { ...plan, shop: { ...plan.shop, lift: 5 as never } },
    letteringOf(plan.units),
    () => '7',
  );
  expect(steps[0]!.heed).toMatch(/two people: .* kg, over 5 kg/);
  expect(steps[0]!.heading).toMatch(/saw/);
  expect(steps.at(-1)!.words).toMatch(/7/);
});

it('tells a sliver as finely as a blade where the figures would round it to nothing', () => {
  const { plan } = exampleInput('radio-corner');
  const layout = onePart(plan, 3, 2.8);
  const [first] = cutPlan(layout, plan, letteringOf({ ...plan.units, decimals: 0 }), () => '7').steps;
  expect(first!.words).toContain('mark 0.2\u00a0mm:');
});
