import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dateOf } from '../core/calendar/index.ts';
import { solveProblem } from '../core/cutting/index.ts';
import { findOption, sceneOf } from '../core/outcome.ts';
import { readPlan } from '../core/plan/index.ts';
import { cutJobs, dayNumber } from '../core/stock/index.ts';
import type { Days, ToDay } from './day-protocol.ts';
import { serveDays } from './day-serve.ts';

const text = readFileSync(new URL('../../examples/lesson-room.plan.yaml', import.meta.url), 'utf8');
const plan = readPlan(text).plan!;
const option = findOption(plan)!;
const answers = cutJobs(sceneOf(plan, option).parts, plan).map(({ problem }) => solveProblem(problem, { steps: 0 }));
const start = plan.dates.start!;
const asked = (more: Partial<ToDay> = {}): ToDay => ({
  revision: 1,
  text,
  option: option.id,
  today: start,
  answers,
  ticked: [],
  ...more,
});
const day = (by: number): string => dateOf(dayNumber(start) + by);
const tasks = ({ next }: Days): readonly string[] => next.flatMap((d) => d.tasks.map((t) => t.id));

describe('the days', () => {
  const serve = serveDays();
  const first = serve(asked()).days!;

  it('begin with the first, and end as planned while nothing is ticked and nothing is late', () => {
    expect(first.next[0]!.tasks.length).toBeGreaterThan(0);
    expect(first.finish).toBe(first.planned);
    expect(first.done).toEqual([]);
  });
  it('leave out what was ticked, bring the rest forward, and let it be taken back', () => {
    const own = first.next[0]!.tasks.map((t) => t.id);
    const ticked = own.map((task) => ({ task, on: start }));
    const { days } = serve(asked({ ticked, revision: 2 }));
    expect(days!.done.map((t) => t.id).sort()).toEqual([...own].sort());
    expect(tasks(days!).filter((id) => own.includes(id))).toEqual([]);
    // what comes next was not all of what came first
    expect(tasks(days!)).not.toEqual(tasks(first));
    expect(days!.finish).toBeLessThanOrEqual(first.finish);
    expect(serve(asked({ revision: 3 })).days).toEqual(first);
  });
  it('put off what was to be done on days that went by', () => {
    const late = serve(asked({ today: day(14) })).days!;
    expect(late.next[0]!.day).toBeGreaterThanOrEqual(dayNumber(day(14)));
    expect(late.finish).toBeGreaterThan(late.planned);
    // ticked in time, the same day has other work, and the end comes sooner
    const ticked = tasks(first).map((task) => ({ task, on: start }));
    const kept = serve(asked({ today: day(14), ticked })).days!;
    expect(kept.done).toEqual([]);
    expect(kept.finish).toBeLessThanOrEqual(late.finish);
  });
  it('answer with the revision that was asked', () => {
    expect(serve(asked({ revision: 77 })).revision).toBe(77);
  });
  it('are none where the plan names no start', () => {
    const undated = text.replace(/^(\s+)start: \d{4}-\d\d-\d\d$/m, '$1# no start');
    expect(readPlan(undated).plan?.dates.start).toBeUndefined();
    expect(serve(asked({ text: undated })).days).toBeUndefined();
  });
});
