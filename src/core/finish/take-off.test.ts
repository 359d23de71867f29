import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { caulkLength, finishTakeOff, less, skirting, skirtingRuns, wallArea } from './take-off.ts';

const { plan } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
  openings:
    - {wall: south, kind: door, from: 1000, width: 800, height: 2000, trim: 60}
    - {wall: east, kind: window, from: 1000, width: 1000, sill: 900, height: 1200}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, back: {kind: none}, band: none}
options: [{id: one, pieces: [{case: a, wall: north, from: 0, size: {width: 900, height: 800, depth: 300}}]}]
`);
const input = sceneOf(plan!, plan!.options[0]!);

describe('finishing a room of 4 by 3 m with a door, a window and a case in the corner', () => {
  it('takes spans from spans', () => {
    expect(
      less(
        [[0, 10]],
        [
          [2, 3],
          [8, 12],
          [-1, 1],
        ],
      ),
    ).toEqual([
      [1, 2],
      [3, 8],
    ]);
  });
  it('runs skirting from corner to door casing, and to the case', () =>
    expect(skirtingRuns(input)).toEqual([
      { id: 'north-1', length: 3100, end: 90 },
      { id: 'east-1', length: 3000, start: 90, end: 90 },
      { id: 'south-1', length: 940, start: 90 },
      { id: 'south-2', length: 2140, end: 90 },
      { id: 'west-1', length: 3000, start: 90, end: 90 },
    ]));
  it('cuts it so that the pieces cover their runs', () => {
    const pieces = skirting(input, { thickness: 18, longest: 2400 });
    const on = (run: string) => pieces.filter((p) => p.run === run).reduce((s, p) => s + p.wall, 0);
    for (const run of skirtingRuns(input)) expect(on(run.id)).toBeCloseTo(run.length, 9);
    expect(Math.max(...pieces.map((p) => p.length))).toBeLessThanOrEqual(2400);
  });
  it('paints what is seen: by hand 14 m of wall 2.4 high, less 1.6 + 1.2 of openings and 0.72 of case', () =>
    expect(wallArea(input) / 1e6).toBeCloseTo(14 * 2.4 - 1.6 - 1.2 - 0.72, 9));
  it('caulks the ends and the top of the case and over the skirting', () =>
    expect(caulkLength(input)).toBeCloseTo(2 * 800 + 900 + 12_180, 9));
  it('counts each with its working where it is a sum', () => {
    const items = finishTakeOff({ ...input, holes: 4 });
    const of = (id: string) => items.find((i) => i.id === id)!;
    // 375 ft² a US gallon of 3.785411784 L: the middle of what product sheets print
    const rate = (375 * 0.3048 ** 2) / 3.785411784;
    const paint = of('wall-paint');
    expect(paint.amount * rate).toBeGreaterThanOrEqual(2 * 30.08 - 1e-6);
    expect(paint.amount * rate).toBeLessThan(2 * 30.08 * 1.25);
    expect(paint.working!.source).toBeDefined();
    expect(of('filler').amount).toBe(of('trim-nails').amount + 4);
    expect(paint.caution).toContain('lead');
  });
});
