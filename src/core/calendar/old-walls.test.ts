import { expect, it } from 'vitest';
import { calendarInput, workOut } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { MINUTES_A_DAY } from './day.ts';
import { calendarOf } from './index.ts';

const today = '2026-11-25';

function jobIn(built: number, { finish = ', finish: {walls: all}', more = '' } = {}) {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  built: ${built}
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 600, first: 300, board: 12.5}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2500, width: 1250}]}]}
make: {panel: ply, band: none, back: {kind: none}}
options: [{id: one${finish}, pieces: [{case: c, wall: north, from: 400, size: {width: 800, height: 700, depth: 200}}]}]
dates: {start: 2026-12-01, helper: [saturday]${more}}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const outcome = workOut(plan, plan.options[0]!, { today, effort: { steps: 0 } });
  const { tasks } = calendarOf({ ...calendarInput(outcome, today), steps: 40, brief: true });
  return (id: string) => tasks.find((t) => t.task.id === id);
}

it('nothing of an old wall is sanded or drilled before samples have been tested: within a week', () => {
  // before 1978 lead, before 2000 asbestos: 40 CFR 745, HSE L143
  for (const built of [1936, 1985]) {
    const painted = jobIn(built);
    const told = painted('test old walls')!.end + 7 * MINUTES_A_DAY;
    expect(painted('patch walls')!.start).toBeGreaterThanOrEqual(told);
    expect(painted('set out walls')!.start).toBeGreaterThanOrEqual(told);
    // also where nothing is painted
    const bare = jobIn(built, { finish: '' });
    expect(bare('patch walls')).toBeUndefined();
    expect(bare('set out walls')!.start).toBeGreaterThanOrEqual(bare('test old walls')!.end + 7 * MINUTES_A_DAY);
  }
  expect(jobIn(2015)('test old walls')).toBeUndefined();
  // who knows what they hold ticks it off
  const known = jobIn(1936, { more: ', done: [test old walls]' });
  expect(known('test old walls')!.done).toBe(true);
  expect(known('patch walls')!.start).toBeLessThan(7 * MINUTES_A_DAY);
});
