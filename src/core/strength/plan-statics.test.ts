import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { STANDARD_GRAVITY } from '../quantity/index.ts';
import { fixings } from './fixing/held.ts';
import { bracketTensions } from './hanging.ts';
import { fixingUse, screwUse } from './interaction.ts';

/**
 * Second route: a stiff plate on equal springs that bears at its lower edge on a spring ten million times as stiff. Two unknowns,
 * how far it is pulled out and how far it turns; the stiffness matrix is put together and solved, no closed form is used.
 */
function springs(moment: number, heights: readonly number[]): readonly number[] {
  const all = [...heights.map((y) => ({ y, k: 1 })), { y: 0, k: 1e7 }];
  const sum = (f: (s: { y: number; k: number }) => number) => all.reduce((total, s) => total + f(s), 0);
  const [a, b, d] = [sum((s) => s.k), sum((s) => s.k * s.y), sum((s) => s.k * s.y ** 2)];
  const determinant = a * d - b * b;
  const [out, turn] = [(-b * moment) / determinant, (a * moment) / determinant];
  return heights.map((y) => out + turn * y);
}

describe('statics of what hangs', () => {
  it('pulls on brackets agree with a small stiffness solver', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1e3, max: 1e6, noNaN: true }),
        fc.array(fc.double({ min: 20, max: 800, noNaN: true }), { minLength: 1, maxLength: 8 }),
        (moment, heights) => {
          const own = bracketTensions(
            moment,
            heights.map((height) => ({ height })),
          );
          springs(moment, heights).forEach((T, i) => {
            expect(own[i]! / T).toBeCloseTo(1, 3);
          });
        },
      ),
    ));

  it('a fixing is never used less when it is pulled or sheared more', () =>
    fc.assert(
      fc.property(
        fc.tuple(...[0, 1, 2, 3].map(() => fc.double({ min: 1, max: 5000, noNaN: true }))),
        fc.double({ min: 0, max: 1000, noNaN: true }),
        ([T, V, pull, lateral], more) => {
          for (const use of [fixingUse, screwUse]) {
            const before = use(T!, V!, pull!, lateral!);
            expect(use(T! + more, V!, pull!, lateral!)).toBeGreaterThanOrEqual(before * (1 - 1e-12) - 1e-12);
          }
        },
      ),
    ));

  it('fixings of any display carry exactly its weight and its moment', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 90 }),
        fc.integer({ min: 40, max: 800 }),
        fc.integer({ min: 700, max: 3300 }),
        (mass, reach, centre) => {
          const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room:
  ceiling: 2400
  walls: [{id: north, length: 4000, framing: {kind: timber stud, spacing: 400, first: 200, board: 12.5}}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]
options:
  - id: one
    pieces:
      - {display: d, wall: north, centre: ${centre}, above: 900, size: {width: 1000, height: 600, depth: 60}, mass: ${mass} kg, mount: {kind: arm, reach: ${reach}, plate: {width: 500, height: 300}}}
`);
          if (!plan) throw new Error(JSON.stringify(issues));
          const scene = sceneOf(plan, plan.options[0]!);
          const { points } = fixings({ ...scene, massOf: () => 0 });
          const weight = mass * STANDARD_GRAVITY;
          expect(points.length).toBeGreaterThan(0);
          const edge = 900 + 300 - 150;
          expect(points.reduce((sum, p) => sum + p.shear, 0)).toBeCloseTo(weight, 6);
          expect(points.reduce((sum, p) => sum + p.tension * (p.y - edge), 0) / (weight * (reach + 30))).toBeCloseTo(
            1,
            9,
          );
          // every screw stands in wood: on a stud, as the plan lays them out
          for (const p of points) expect(((p.x - 200) % 400) % 400).toBeCloseTo(0, 6);
        },
      ),
      { numRuns: 40 },
    ));
});
