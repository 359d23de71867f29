import { expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { lightNotes } from './index.ts';

/** A lamp beside a tall case, or shut into it. */
const notesWith = (from: number) => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2400, walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, band: none}
options:
  - id: one
    pieces:
      - {seat: ann, title: Ann, at: {x: 2000, y: 1500, turn: 180}}
      - {case: wardrobe, wall: north, from: 1500, size: {width: 1000, height: 2000, depth: 400}}
      - {lamp: lamp, wall: north, from: ${from}, above: 1000, size: {width: 200, height: 60, depth: 200}, lumens: 800, shape: all round}
      - {camera: lens, wall: south, centre: 2000, above: 1100, focal: 24}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  return lightNotes(sceneOf(plan, plan.options[0]!));
};

it('a face that no light reaches has no colour that is fine, nor a speed for the camera', () => {
  const dark = notesWith(1900);
  expect(dark.map(({ id, verdict }) => [id, verdict])).toEqual([['dark-face:ann', 'caution']]);
  const lit = notesWith(400);
  expect(lit.map(({ id }) => id)).toEqual(expect.arrayContaining(['colour-cast:room', 'exposure:lens']));
  for (const { title, advice } of [...dark, ...lit]) expect(`${title} ${advice}`).not.toMatch(/NaN|Infinity/);
});
