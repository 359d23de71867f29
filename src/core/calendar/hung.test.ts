import { expect, it } from 'vitest';
import { calendarInput, workOut } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { calendarOf } from './index.ts';

const today = '2026-11-25';

/** A case as wide as is said, 1.4 m up or standing, in a shop whose people carry 60 kg by themselves. */
function jobOf(width: number, above?: number) {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 600, first: 300, board: 12.5}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2500, width: 1250}]}]}
shop: {lift: 60 kg}
make: {panel: ply, band: none, back: {kind: none}}
options: [{id: one, pieces: [{case: c, wall: north, from: 400, ${above === undefined ? '' : `above: ${above}, `}size: {width: ${width}, height: 600, depth: 300}}]}]
dates: {start: 2026-12-01, helper: [saturday]}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const outcome = workOut(plan, plan.options[0]!, { today, effort: { steps: 0 } });
  const { tasks } = calendarOf({ ...calendarInput(outcome, today), steps: 40, brief: true });
  const task = (id: string) => tasks.find((t) => t.task.id === id)!.task;
  const note = outcome.notes.find(({ id }) => id === 'lift:c');
  return { carry: task('carry c'), fix: task('fix c'), note };
}

it('what its note says is too heavy for one to lift to where it hangs is fixed on a day of the helper’s', () => {
  const heavy = jobOf(1400, 1400);
  expect(heavy.note!.title).toMatch(/two/);
  expect(heavy.fix).toMatchObject({ hours: 'helped', whole: true });
  expect(heavy.fix.helper).toContain('more than one person may lift');
  // rolled in on a trolley all the same
  expect(heavy.carry.helper).toBeUndefined();

  const light = jobOf(300, 1400);
  expect(light.note?.verdict ?? 'fine').toBe('fine');
  expect(light.fix.helper).toBeUndefined();

  // set level where it stands
  expect(jobOf(1400).fix.helper).toBeUndefined();
});

it('an absorber that hangs nowhere takes nobody’s time, as it takes no tiles', () => {
  const worked = (cloud: string) => {
    const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2400, walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]}
stock: {}
options: [{id: one, pieces: [{absorber: tiles, wall: north, from: 500, above: 1000, size: {width: 600, height: 600}}${cloud}]}]
dates: {start: 2026-12-01}
`);
    if (!plan) throw new Error(JSON.stringify(issues));
    const outcome = workOut(plan, plan.options[0]!, { today, effort: { steps: 0 } });
    const { tasks } = calendarOf({ ...calendarInput(outcome, today), steps: 40, brief: true });
    return { hours: outcome.tally.hours, tasks: tasks.map((t) => t.task.id) };
  };
  const without = worked('');
  expect(without.tasks).toContain('line tiles');
  expect(worked(', {absorber: cloud, at: {x: 1000, y: 1000}, above: 2200, size: {width: 1200, height: 50}}')).toEqual(
    without,
  );
});
