import { expect, it } from 'vitest';
import { calendarInput, workOut } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { calendarOf } from './index.ts';

const today = '2026-11-25';

/** A case screwed to timber 38 × 140 from the stud at 300 to the one at 2100. */
function jobWith(more: string) {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 600, first: 300, board: 12.5, blocking: [{from: 300, to: 2100, above: 1980, height: 140, thickness: 38${more}}]}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
stock:
  suppliers: [{id: yard}]
  panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2500, width: 1250, price: 90, supplier: yard, date: 2026-11-01}]}]
  packs:
    - {id: t140, use: stud timber, name: timber 38 × 140 mm, holds: 1 m, price: 7, supplier: yard, date: 2026-11-01}
    - {id: t184, use: stud timber, name: timber 38 × 184 mm, holds: 1 m, price: 5, supplier: yard, date: 2026-11-01}
    - {id: s5, use: wood screw, name: wood screws 5 × 80 mm, holds: 50, price: 9, supplier: yard, date: 2026-11-01}
make: {panel: ply, back: {kind: none}}
options: [{id: one, finish: {walls: all}, pieces: [{case: c, wall: north, from: 400, above: 1400, size: {width: 800, height: 700, depth: 200}, fix: {kind: lag screw, diameter: 6, length: 80, at: [200, 600], heights: [50, 650]}}]}]
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const outcome = workOut(plan, plan.options[0]!, { today, effort: { steps: 0 } });
  const { tasks } = calendarOf({ ...calendarInput(outcome, today), steps: 40, brief: true });
  return { outcome, tasks };
}

it('timber let in for a job is bought in whole lengths, with the screws of its ends, and is in before the wall is painted', () => {
  const { outcome, tasks } = jobWith(', new: true');
  const packs = outcome.bill.lines.filter((l) => l.kind === 'pack');
  // three gaps of 561.9 between studs of 38.1: 1.69 m, but no two of them out of one metre
  expect(packs.map((l) => [l.stock, l.count])).toEqual(
    expect.arrayContaining([
      ['t140', 3],
      ['s5', 1],
    ]),
  );
  // cheaper, and of another height
  expect(packs.map((l) => l.stock)).not.toContain('t184');
  const one = (start: string) => tasks.find(({ task }) => task.id.startsWith(start))!;
  const letIn = one('let in timber');
  expect(letIn.start).toBeGreaterThanOrEqual(one('clear room').end);
  for (const later of ['patch walls', 'first coat walls', 'set out walls', 'fix c'])
    expect(one(later).start).toBeGreaterThanOrEqual(letIn.end);
  const fetched = tasks.filter(({ task }) => task.list?.some((what) => what.includes('38 × 140')));
  expect(fetched.length).toBeGreaterThan(0);
  for (const errand of fetched) expect(letIn.start).toBeGreaterThanOrEqual(errand.end);
});

it('timber that is in the wall already is neither bought nor let in', () => {
  const { outcome, tasks } = jobWith('');
  expect(outcome.bill.lines.filter((l) => l.kind === 'pack').map((l) => l.stock)).not.toContain('t140');
  expect(tasks.some(({ task }) => task.id.startsWith('let in timber'))).toBe(false);
});
