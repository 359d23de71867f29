import { expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { soundOf } from './plan.ts';

const room = (walls: string) => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2500, walls: [${walls}]}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, band: none}
options: [{id: one, pieces: [{seat: voice, at: {x: 1000, y: 1000}}]}]
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  return soundOf(sceneOf(plan, plan.options[0]!));
};

it('tells which modes fall together only of a room that is a box', () => {
  // a cube but for its height: the first modes of length and width are one
  const box = room('{id: n, length: 4000}, {id: e, length: 4000}, {id: s, length: 4000}, {id: w, length: 4000}');
  expect(box.fills).toBeCloseTo(1);
  expect(box.crowded.length).toBeGreaterThan(0);
  // the same without a corner of 2 m by 2 m
  const angle = room(
    '{id: a, length: 4000}, {id: b, length: 2000}, {id: c, length: 2000, corner: 270}, {id: d, length: 2000}, {id: e, length: 2000}, {id: f, length: 4000}',
  );
  expect(angle.fills).toBeCloseTo(0.75);
  expect(angle.crowded).toEqual([]);
});

it('tells the same time by uneven absorption from whichever wall a room askew is told', () => {
  const walls = [
    '{id: a, length: 5000, corner: 60}',
    '{id: b, length: 3000, corner: 120, surface: acoustical tile 3/4 in}',
    '{id: c, length: 2000, corner: 120}',
    '{id: d, length: 3000, corner: 60}',
  ];
  const from = (k: number) => room([...walls.slice(k), ...walls.slice(0, k)].join(', ')).unevenAfter;
  const whole = from(0);
  for (const k of [1, 2, 3]) for (const [b, time] of from(k).entries()) expect(time).toBeCloseTo(whole[b]!, 6);
});
