import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { stripRuns } from './index.ts';

const runs = (inside: string) => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2400, walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, band: none}
options:
  - id: one
    pieces:
      - {case: books, wall: north, from: 300, size: {width: 1200, height: 1500, depth: 300}, inside: ${inside}}
      - {strip: light, title: Light, along: books}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const scene = sceneOf(plan, plan.options[0]!);
  expect(scene.issues).toEqual([]);
  return stripRuns(scene);
};

describe('a strip along a case', () => {
  it('lies once in every open bay: in the rows of one that is open in rows, not over them as well', () => {
    const found = runs('{columns: [{name: scores, open: [1*, 1*, 1*]}, {name: left of it, door: left}, {open: true}]}');
    expect(found.map((s) => s.title)).toEqual([
      'Light, scores 1',
      'Light, scores 2',
      'Light, scores 3',
      'Light, bay 3',
    ]);
    expect(new Set(found.map((s) => `${s.from.x} ${s.from.y}`)).size).toBe(4);
    const heights = found.slice(0, 3).map((s) => s.from.y);
    expect([...heights].sort((a, b) => b - a)).toEqual(heights);
  });
  it('of one bay lies at its top', () => expect(runs('{open: true}')).toHaveLength(1));
});
