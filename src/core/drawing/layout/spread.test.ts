import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spread } from './spread.ts';

const labels = fc
  .array(
    fc.record({
      centre: fc.double({ min: 0, max: 200, noNaN: true }),
      width: fc.double({ min: 1, max: 15, noNaN: true }),
    }),
    {
      minLength: 1,
      maxLength: 12,
    },
  )
  .map((list) => list.sort((a, b) => a.centre - b.centre));

const shifts = (centres: readonly number[], wanted: readonly { centre: number }[]): number =>
  centres.reduce((sum, c, i) => sum + (c - wanted[i]!.centre) ** 2, 0);

describe('spread', () => {
  it('leaves labels alone that do not meet', () => {
    expect(
      spread(
        [
          { centre: 5, width: 4 },
          { centre: 20, width: 4 },
        ],
        1,
      ),
    ).toEqual([5, 20]);
  });

  it('parts two that want the same place evenly', () => {
    expect(
      spread(
        [
          { centre: 10, width: 4 },
          { centre: 10, width: 4 },
        ],
        1,
      ),
    ).toEqual([7.5, 12.5]);
  });

  it('never lets one over another and keeps their order', () =>
    fc.assert(
      fc.property(labels, (wanted) => {
        const centres = spread(wanted, 1);
        for (let i = 1; i < wanted.length; i++)
          expect(centres[i]! - centres[i - 1]!).toBeGreaterThanOrEqual(
            (wanted[i]!.width + wanted[i - 1]!.width) / 2 + 1 - 1e-9,
          );
      }),
    ));

  it('stays within its limits whenever all of them fit there', () =>
    fc.assert(
      fc.property(labels, (wanted) => {
        const room = wanted.reduce((sum, l) => sum + l.width + 1, 0);
        const [from, to] = [50, 50 + room];
        const centres = spread(wanted, 1, from, to);
        expect(centres[0]! - wanted[0]!.width / 2).toBeGreaterThanOrEqual(from - 1e-9);
        expect(centres.at(-1)! + wanted.at(-1)!.width / 2).toBeLessThanOrEqual(to + 1e-9);
      }),
    ));

  // Second route: nudging any label either way, the others held apart from it, never lessens the shifts.
  it('shifts as little as can be: no small move of any run of labels lessens the sum of squares', () =>
    fc.assert(
      fc.property(labels, fc.nat(), fc.nat(), fc.constantFrom(-0.01, 0.01), (wanted, a, b, by) => {
        const centres = spread(wanted, 1);
        const [i, j] = [a % wanted.length, b % wanted.length].sort((x, y) => x - y) as [number, number];
        const nudged = centres.map((c, k) => (k >= i && k <= j ? c + by : c));
        const allowed = nudged.every(
          (c, k) => k === 0 || c - nudged[k - 1]! >= (wanted[k]!.width + wanted[k - 1]!.width) / 2 + 1 - 1e-9,
        );
        if (allowed) expect(shifts(nudged, wanted)).toBeGreaterThanOrEqual(shifts(centres, wanted) - 1e-9);
      }),
    ));
});
