import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { floorFits, gapAt, settingOut, wallFits, wallNotes } from './index.ts';

const scene = (offsets: readonly number[], drops: readonly number[] = [0]) => {
  const keyed = (values: readonly number[]) => `{${values.map((v, i) => `${i * 400}: ${v}`).join(', ')}}`;
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 400, first: 200, board: 12.5}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
  survey: [{wall: north, height: 800, offsets: ${keyed(offsets)}}]
  floor: [{wall: north, out: 300, drops: ${keyed(drops)}}]
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, back: {kind: none}, band: none}
options:
  - id: one
    pieces:
      - {case: a, wall: north, from: 500, size: {width: 900, height: 900, depth: 300}}
      - {case: b, wall: north, after: a, size: {width: 1100, height: 900, depth: 300}}
      - {display: d, wall: north, centre: 1800, above: 1200, size: {width: 800, height: 500, depth: 60}, mass: 12 kg, mount: {plate: {width: 500, height: 200}}}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const placed = sceneOf(plan, plan.options[0]!);
  expect(placed.issues).toEqual([]);
  return { ...placed, massOf: () => 5 };
};

/** Base cases under a hung one that reaches past them, a tall one beside them, and two lines along wall and floor. */
const stacked = () => {
  const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
  survey:
    - {wall: north, height: 400, offsets: {0: 0, 500: 20, 1000: 0, 4000: 0}}
    - {wall: north, height: 1600, offsets: {0: 0, 1500: 0, 2000: 9, 2500: 0, 4000: 0}}
  floor:
    - {wall: north, drops: {0: 0, 4000: 40}}
    - {wall: north, out: 500, drops: {0: 4, 4000: 44}}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 18, sizes: [{length: 2440, width: 1220}]}]}
make: {panel: ply, back: {kind: none}, band: none}
options:
  - id: one
    pieces:
      - {case: base, wall: north, from: 100, size: {width: 900, height: 700, depth: 500}, top: {stock: ply, right: 50}}
      - {case: hung, wall: north, from: 300, above: 1400, size: {width: 1200, height: 600, depth: 300}}
      - {case: tall, wall: north, from: 1500, size: {width: 900, height: 2100, depth: 500}}
      - {case: high, wall: north, from: 3000, above: 2000, size: {width: 900, height: 300, depth: 300}}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const placed = sceneOf(plan, plan.options[0]!);
  expect(placed.issues).toEqual([]);
  return { ...placed, massOf: () => 5 };
};
const tenths = fc.integer({ min: 0, max: 200 }).map((n) => n / 10);

describe('a run on a wavy wall', () => {
  it('no other line before the wall leaves a smaller largest gap, tried over a fine fan of slopes', () =>
    fc.assert(
      fc.property(fc.array(tenths, { minLength: 8, maxLength: 8 }), (offsets) => {
        const [fit] = wallFits(scene(offsets));
        expect([fit!.run.from, fit!.run.to]).toEqual([500, 2500]);
        const at = (x: number) => {
          const i = Math.min(6, Math.floor(x / 400));
          return -(offsets[i]! + ((offsets[i + 1]! - offsets[i]!) * (x - i * 400)) / 400);
        };
        const xs = Array.from({ length: 201 }, (_, i) => 500 + i * 10);
        let best = Number.POSITIVE_INFINITY;
        for (let slope = -0.06; slope <= 0.06; slope += 0.0001) {
          const over = xs.map((x) => at(x) - slope * x);
          best = Math.min(best, Math.max(...over) - Math.min(...over));
        }
        expect(fit!.largestGap).toBeLessThanOrEqual(best + 1e-9);
        // the fan's step turns the line by at most half a step over 2 m
        expect(best - fit!.largestGap).toBeLessThanOrEqual(0.0001 * 2000);
        for (const { gap } of fit!.gaps) expect(gap).toBeGreaterThanOrEqual(0);
        expect(gapAt(fit!, 1234)).toBeLessThanOrEqual(fit!.largestGap + 1e-9);
        expect(Math.min(...fit!.gaps.map((g) => g.gap))).toBeCloseTo(0, 9);
      }),
      { numRuns: 30 },
    ));

  it('says what covers the gap: nothing much, a moulding, or a scribe', () => {
    const verdicts = [0, 4, 12].map(
      (bump) => wallNotes(scene([0, 0, 0, bump, 0, 0, 0, 0])).find((n) => n.id.startsWith('wall-gap'))!,
    );
    expect(verdicts.map((n) => n.verdict)).toEqual(['fine', 'fine', 'caution']);
    expect(verdicts[1]!.advice).toContain('moulding');
    expect(verdicts[2]!.advice).toContain('scribe');
  });

  it('shims every end of a case up to the high point of the floor', () => {
    const [fit] = floorFits(scene([0], [4, 4, 0, 8, 8, 8, 8, 8]));
    expect(fit!.high).toBe(800);
    expect(fit!.shims).toEqual([
      { x: 500, shim: 3 },
      { x: 1400, shim: 8 },
      { x: 2500, shim: 8 },
    ]);
  });
});

describe('cases one over another', () => {
  it('meet their wall in the line measured at their own height, or the nearest', () => {
    expect(
      wallFits(stacked()).map(({ run, height, largestGap }) => [
        run.pieces.map((p) => p.id).join(),
        height,
        largestGap > 5,
      ]),
    ).toEqual([
      ['base', 400, true],
      // the tall one was measured at both heights, the one below the ceiling is nearest to the upper
      ['hung,tall', 1600, true],
      ['tall', 400, false],
      ['high', 1600, false],
    ]);
  });

  it('are shimmed up from the floor where they stand on it, under their sides, on each line that was measured', () => {
    const fits = floorFits(stacked());
    expect(fits.map(({ run, out }) => [run.pieces.map((p) => p.id).join(), out])).toEqual([
      ['base', 0],
      ['base', 500],
      ['tall', 0],
      ['tall', 500],
    ]);
    // 40 mm over 4 m; the top reaches 50 mm past the side at 1000
    expect(fits[0]!.shims).toEqual([
      { x: 100, shim: 0 },
      { x: 1000, shim: 9 },
    ]);
    // what closes the space under it stands at its front, near the line 500 mm out
    expect(fits.map(({ toes }) => toes.map(({ from, to }) => [from, to]))).toEqual([
      [],
      [[100, 1000]],
      [],
      [[1500, 2400]],
    ]);
    const titles = wallNotes(stacked()).flatMap((n) => (n.id.startsWith('floor-level') ? [n.title] : []));
    expect(titles).toHaveLength(4);
    expect(new Set(titles).size).toBe(4);
    expect(titles.some((title) => title.includes('hung') || title.includes('high'))).toBe(false);
  });
});

describe('marks on the wall', () => {
  it('run from one plumb line and one level line, and lead back to the hole', () => {
    const [wall] = settingOut(scene([0]));
    expect(wall).toMatchObject({ plumb: 500, level: 1000 });
    expect(wall!.holes.map((h) => h.number)).toEqual(wall!.holes.map((_, i) => i + 1));
    for (const { point, across, up } of wall!.holes) {
      expect(across + 500).toBeCloseTo(point.x, 9);
      expect(up + 1000).toBeCloseTo(point.y, 9);
      expect(point.lands).toBe('stud');
      expect(point.stud!.at).toBe(200 + 400 * (point.stud!.number - 1));
    }
  });
});

it('what holds a set to its walls and together is bought, also where nothing of it is finished', () => {
  const placed = scene([0, 4, 12, 4, 0, 0, 0, 0], [0, 3]);
  expect(placed.option.finish).toBeUndefined();
  const count = (id: RegExp) => placed.fittings.reduce((sum, f) => sum + (id.test(f.id) ? f.count : 0), 0);
  const holes = settingOut(placed).flatMap((wall) => wall.holes);
  expect(holes).toHaveLength(6);
  expect(count(/^finish\/fixing/)).toBe(holes.length);
  // two cases side by side
  expect(count(/^finish\/bolts/)).toBeGreaterThanOrEqual(4);
  // a pair of wedges behind each hole that stands off the wall
  const off = holes.filter((hole) => (hole.shim ?? 0) >= 0.5).length;
  expect(off).toBeGreaterThan(0);
  expect(count(/^finish\/shims/)).toBeGreaterThanOrEqual(2 * off);
});
