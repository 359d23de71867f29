import { describe, expect, it } from 'vitest';
import { EXAMPLES, examplePlan } from '../drawing/packet.testing.ts';
import { findOption, massesOf, workOut } from '../outcome.ts';
import { buyBy, calendarOf, chanceWords, checkTimes, decidingDays, shortMoment } from './index.ts';

const outcomes = new Map(
  EXAMPLES.map((name) => {
    const plan = examplePlan(name);
    return [name, workOut(plan, findOption(plan)!, { today: '2026-11-25' })] as const;
  }),
);
const inputOf = (name: (typeof EXAMPLES)[number]) => {
  const outcome = outcomes.get(name)!;
  return { ...outcome, massOf: massesOf(outcome), today: '2026-11-25' };
};

describe.each(EXAMPLES)('the calendar of %s', (name) => {
  it('prints', () => {
    const t = performance.now();
    const c = calendarOf(inputOf(name));
    console.log(name, c.tasks.length, c.status, c.finish, c.bound, c.steps, performance.now() - t, c.impossible);
    for (const d of [...c.tasks].sort((a, b) => a.start - b.start))
      console.log(
        shortMoment(c, d.start),
        shortMoment(c, d.end),
        d.task.title,
        Math.round(d.task.minutes),
        d.slack,
        d.critical ? '*' : '',
        d.task.helper ?? '',
      );
    for (const d of decidingDays(c)) console.log(d.words, d.why);
    for (const b of buyBy(c)) console.log(b.by, b.dated.task.title);
    console.log(c.chances, c.lostDays);
    expect(checkTimes(c.job, c.times)).toEqual([]);
  }, 60000);
});
