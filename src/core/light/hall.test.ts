import { expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { COARSE, lightOf } from './index.ts';

const hall = (length: number, width: number, ceiling: number) => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: ${ceiling}
  walls: [{id: n, length: ${length}}, {id: e, length: ${width}}, {id: s, length: ${length}}, {id: w, length: ${width}}]
options:
  - id: one
    pieces:
      - {seat: host, at: {x: 1500, y: 1500, turn: 270}}
      - {lamp: lamp, at: {x: 1500, y: 1200}, size: {width: 600, height: 60, depth: 600}, lumens: 4000, kelvin: 4000}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  return lightOf(sceneOf(plan, plan.options[0]!))!;
};

it('cuts a hall, or a room whose sizes were meant in another unit, into no more pieces than are solved in seconds', () => {
  const room = hall(4000, 3000, 2500);
  expect(room.size).toBe(COARSE);
  const large = hall(90_000, 80_000, 40_000);
  expect(large.size).toBeGreaterThan(COARSE);
  expect(large.patches).toBeLessThan(2 * 1500);
  expect(large.grid.length).toBeLessThanOrEqual(14 * 14);
  // a lamp that hangs as near to a face gives it no less than what comes straight from it
  expect(large.faces[0]!.lux).toBeGreaterThanOrEqual(large.faces[0]!.directLux);
});
