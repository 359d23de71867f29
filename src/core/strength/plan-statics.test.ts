import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { STANDARD_GRAVITY } from '../quantity/index.ts';
import { fixings } from './fixing/held.ts';

import { bracketTensions } from './hanging.ts';
import { fixingUse, screwUse } from './interaction.ts';
import { notesOf, read, roomOf, sceneIn } from './plan.testing.ts';

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

/** Fixings of one piece of a plain room with studs 400 apart; a lining weighs as little as a part may. */
const heldOf = (pieces: string, name: string) => {
  const { plan } = read(
    roomOf(pieces, {
      stock: '  boards: [{id: lath, species: spruce, thickness: 24, width: 48, lengths: [{length: 3000}]}]',
    }),
  );
  return fixings({ ...sceneIn(plan), massOf: (part) => (part.startsWith('l/') ? 1 : 0) }).pieces.find(
    (p) => p.piece === name,
  )!;
};

describe('what hangs is reckoned with what the plan says of it', () => {
  // AWS 1.2.21: 50 psf for books, 40 for all else; the weight of the case left out, pull and shear grow alike
  it('a case of books pulls its fixings by 50/40 of what one of gear does', () => {
    const use = (carries: string) =>
      heldOf(
        `      - {case: k, wall: north, from: 600, above: 1200, carries: ${carries}, size: {width: 1000, height: 800, depth: 300}, inside: {fixed: 2}}`,
        'k',
      ).use!;
    expect(use('books') / use('gear')).toBeCloseTo(50 / 40, 9);
    expect(use('light things')).toBe(use('gear'));
  });

  it('panels of a stock of unknown weight: told so, and held to be nothing by nobody', () => {
    const { plan } = read(
      roomOf(
        '      - {lining: l, wall: north, from: 400, above: 500, size: {width: 2000, height: 1800}, panel: odd, battens: {board: lath, spacing: 600}}',
        {
          stock:
            '    - {id: odd, kind: zebra board, thickness: 18, sizes: [{length: 2440, width: 1220}]}\n  boards: [{id: lath, species: spruce, thickness: 24, width: 48, lengths: [{length: 3000}]}]',
        },
      ),
    );
    const note = notesOf(plan).find((n) => n.id === 'fixing:l')!;
    expect(note.verdict).toBe('caution');
    expect(note.title).toContain('what it weighs is not known');
  });

  it('a case hung before a lining is screwed through its panel and its battens', () => {
    const hung = (before: string, out = 42) =>
      heldOf(
        `${before}      - {case: k, wall: north, from: 600, above: 1200, out: ${out}, size: {width: 1000, height: 800, depth: 300}, fix: {kind: lag screw, diameter: 10, length: 110}}`,
        'k',
      );
    const lining =
      '      - {lining: l, wall: north, from: 400, above: 500, size: {width: 2000, height: 1800}, panel: ply, battens: {board: lath, spacing: 600}}\n';
    expect(hung('', 0).use).toBeLessThan(1);
    const held = hung(lining);
    // 110 long, 12.5 of board, 42 of lining, 6 of back and a point of 20 leave less than six diameters of thread
    expect(held.behind).toMatchObject({ hollow: 24 });
    expect(held.use).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('rods of a floating shelf that stand to one side', () => {
  const rodsAt = (at: string) => {
    const { plan } = read(
      roomOf(
        `      - {shelf: s, wall: north, from: 600, above: 1400, size: {width: 1000, height: 60, depth: 200}, skin: thin, rods: {at: [${at}], diameter: 12}, load: 20 kg}`,
      ),
    );
    const { working } = notesOf(plan).find((n) => n.id === 'rods:s')!;
    return working!.also!.find((a) => a.symbol === 'σ')!.value;
  };
  // moments about the other rod: at 100 and 500 the one in the middle carries all, at 100 and 300 it carries twice the whole
  it.each([
    ['100, 500', 1],
    ['100, 300', 2],
    ['200, 500', 1],
  ])('at %s the worst of them carries %f of the whole', (at, part) =>
    expect(rodsAt(at) / rodsAt('200, 800')).toBeCloseTo(part / (1 / 2), 2),
  );
});
