import fc from 'fast-check';
import { expect, it } from 'vitest';
import { beamMoment } from '../beam.ts';
import { noteOn, notesOf, read, roomOf } from '../plan.testing.ts';
import { bendingOf } from './let-in-bends.ts';

const BEAM = { from: 219, to: 581, height: 140, thickness: 38, count: 1, gravity: 0.42 };
const given = (working: ReturnType<typeof bendingOf>, symbol: string): number =>
  working!.inputs.find((i) => i.symbol === symbol)!.value as number;

it('one fixing in the middle bends a timber as a point load bends any beam: Roark, table 8.1, case 1e', () => {
  const bent = bendingOf(BEAM, [{ x: 400, tension: 800, shear: 300 }]);
  const load = { span: 362, supports: 'simple', uniform: 0 } as const;
  expect(given(bent, 'M_T')).toBeCloseTo(beamMoment({ ...load, point: 800 }) / 1000, 9);
  expect(given(bent, 'M_V')).toBeCloseTo(beamMoment({ ...load, point: 300 }) / 1000, 9);
});

it('law: nowhere along it is it bent more than is said, by the shear to the left of each place', () =>
  void fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 220, max: 580 }), fc.nat(900), fc.nat(900)), { minLength: 1, maxLength: 5 }),
      (all) => {
        const points = all.map(([x, tension, shear]) => ({ x, tension, shear }));
        const bent = bendingOf(BEAM, points)!;
        const span = BEAM.to - BEAM.from;
        const momentAt = (of: 'tension' | 'shear', at: number): number => {
          const left = points.reduce((sum, p) => sum + (p[of] * (BEAM.to - p.x)) / span, 0);
          return left * at - points.reduce((sum, p) => sum + p[of] * Math.max(0, at - (p.x - BEAM.from)), 0);
        };
        const used = (at: number): number =>
          ((6 * momentAt('tension', at)) / (140 * 38 ** 2) + (6 * momentAt('shear', at)) / (38 * 140 ** 2)) /
          (675 * 0.00689476 * 0.9);
        const most = Math.max(...Array.from({ length: span + 1 }, (_, at) => used(at)));
        expect(bent.result.value).toBeCloseTo(most, 4);
      },
    ),
  ));

it('low timber that its screws would hold is told to be bent too far, and higher timber settles it', () => {
  const low = (height: number) =>
    notesOf(
      read(
        roomOf(
          `      - {case: c, wall: north, from: 700, above: 1400, carries: books, size: {width: 400, height: 500, depth: 400}, make: {back: {kind: applied, panel: ply}}, inside: {open: [1*, 1*]}, fix: {kind: lag screw, diameter: 6, length: 80, at: [100, 150, 200, 250, 300], heights: [60, 440]}}`,
          {
            framing: `{kind: timber stud, spacing: 1200, first: 300, board: 12.5, blocking: [{from: 300, to: 1500, above: ${1840 - height / 2}, height: ${height}, thickness: 38}, {from: 300, to: 1500, above: ${1460 - height / 2}, height: ${height}, thickness: 38}]}`,
          },
        ),
      ).plan,
    );
  const bent = noteOn(low(70), 'let-in:c')!;
  expect([bent.verdict, bent.title]).toEqual(['stop', expect.stringContaining('of what it bears in bending used')]);
  expect(noteOn(low(235), 'let-in:c')!.verdict).toBe('fine');
});
