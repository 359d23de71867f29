import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cutJob, findOption, type Outcome, sceneOf, settle, solidsOf } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';
import { certainCuts, shopDay } from './shop-day.ts';

const TODAY = '2026-10-30';
const text = readFileSync(new URL('../../examples/lesson-room.plan.yaml', import.meta.url), 'utf8');
const plan = readPlan(text).plan!;

describe.each(plan.options.map(({ id }) => id))('what may be cut by of %s', (id) => {
  const option = findOption(plan, id)!;
  const cut = (scene: ReturnType<typeof sceneOf>): Outcome =>
    settle(
      scene,
      cutJobs(scene.parts, plan).map((job) => cutJob(job, { steps: 0 })),
      TODAY,
    );
  const whole = cut(sceneOf(plan, option));
  const without = cut({ ...solidsOf(plan, option), notes: [] });
  const none = { waiting: [], unknown: [] };
  const board = cutJobs(whole.parts, plan).find(({ from }) => from === 'board')!.problem;
  const panel = cutJobs(whole.parts, plan).find(({ from }) => from === 'panel')!.problem;

  it('without the findings is every cut of the panels, named and numbered as it stays, and no other', () => {
    const early = shopDay(certainCuts({ outcome: without, whole: false, ...none, waiting: [board] }, true)!, false);
    const late = shopDay(certainCuts({ outcome: whole, whole: true, ...none }, false)!, true);
    expect(early.length).toBeGreaterThan(0);
    expect(early.map((layout) => layout.cuts)).toEqual(
      late.filter(({ layout }) => layout.from === 'panel').map((layout) => layout.cuts),
    );
    expect(late.some(({ layout }) => layout.from === 'board')).toBe(true);
  });
  it('is as many cuts as the tally counts', () => {
    const cuts = shopDay(whole, true).flatMap((layout) => layout.cuts);
    expect(cuts.length).toBe(whole.tally.cuts);
  });
  it('is nothing while the findings are on their way, or something better is looked for', () => {
    expect(certainCuts({ outcome: without, whole: false, ...none }, false)).toBeUndefined();
    expect(certainCuts({ outcome: without, whole: false, ...none, waiting: [panel] }, true)).toBeUndefined();
    expect(certainCuts({ outcome: whole, whole: true, ...none, waiting: [board] }, false)).toBeUndefined();
  });
});

it('is judged on mouldings that only the findings bring', () => {
  const option = findOption(plan)!;
  expect(sceneOf(plan, option).parts.length).toBeGreaterThan(solidsOf(plan, option).parts.length);
});
