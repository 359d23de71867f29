import { expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { soundOf } from './plan.ts';
import { materialOf } from './surfaces.ts';

/** A bare room with a hole of 900 by 2000 in its north wall. */
const room = (kind: string) => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2500
  walls: [{id: n, length: 4000}, {id: e, length: 3000}, {id: s, length: 4000}, {id: w, length: 3000}]
  openings: [{id: way, wall: n, kind: ${kind}, from: 900, width: 900, height: 2000${kind === 'window' ? ', sill: 300' : ''}}]
options: [{id: one, pieces: [{seat: voice, at: {x: 1000, y: 1000}}]}]
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  return soundOf(sceneOf(plan, plan.options[0]!));
};

it('an open passage swallows as the table has it for an opening into a furnished space, not as glass', () => {
  const passage = room('opening').surfaces.find((s) => s.name === 'opening way')!;
  expect(passage.area).toBeCloseTo(1.8);
  // "Openings: stage, depending on furnishings, 0.25 to 0.75", table 27.1 of the handbook that the materials name: the least of it
  expect(materialOf(passage.material)!.coefficients).toEqual([0.25, 0.25, 0.25, 0.25, 0.25, 0.25]);
  const [door, open] = [room('door'), room('opening')];
  for (const [band, time] of open.before.entries()) expect(time).toBeLessThan(door.before[band]!);
});
