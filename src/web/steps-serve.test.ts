import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findOption, workOut } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { mm } from '../core/quantity/index.ts';
import { serveSteps } from './steps-serve.ts';

const text = readFileSync(new URL('../../examples/lesson-room.plan.yaml', import.meta.url), 'utf8');
const plan = readPlan(text).plan!;
const option = findOption(plan)!;
const today = plan.dates.start!;
const asked = {
  piece: 'scores',
  dimension: 'width',
  from: mm(53 * 25.4),
  to: mm(60 * 25.4),
  step: mm(25.4),
} as const;

describe('the price steps of the chart', () => {
  const answer = serveSteps({ revision: 7, text, option: option.id, asked, today });
  const steps = answer?.type === 'done' ? answer.steps : undefined;

  it('answer with the revision that was asked', () => {
    expect([answer?.type, answer?.revision]).toEqual(['done', 7]);
  });
  it('cost at the planned size what the tally says', () => {
    expect(steps!.current.cost).toBe(workOut(plan, option, { today }).tally.cost);
  });
  // 4' 7-13/16" was said to cost a panel more, and half an inch further less than before
  it('hold from one to the next: no size that was tried costs otherwise than the last step before it', () => {
    expect(steps!.steps.length).toBeGreaterThan(0);
    for (const step of steps!.steps) {
      const end = Math.min(...steps!.steps.map(({ at }) => at).filter((at) => at > step.at), Number.POSITIVE_INFINITY);
      const between = steps!.points.filter(({ value }) => (value as number) >= step.at && (value as number) < end);
      expect(between.map(({ cost }) => cost)).toEqual(between.map(() => step.after));
    }
  });
  it('say nothing of a text that is no plan', () => {
    expect(serveSteps({ revision: 1, text: 'milk: 2', option: 'low', asked, today })).toBeUndefined();
  });
});
