import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { twoWireDrop } from './conductor.ts';
import { chooseWire, shareOut, wireCuts, wireSizes } from './design.ts';
import { FUSES } from './rules.ts';

describe('chooseWire', () => {
  it('takes the thinnest that keeps the drop, and no thinner one would', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 200, max: 8000 }),
        fc.double({ min: 0.2, max: 6, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        fc.constantFrom('gauge' as const, 'metric' as const),
        (length, current, drop, system) => {
          const sizes = wireSizes(system);
          const choice = chooseWire(sizes, length, current, drop);
          const enough = sizes.filter((s) => twoWireDrop(length, current, s.ohmPerKm) <= drop);
          if (!choice) {
            for (const s of enough)
              expect(FUSES.filter((rating) => rating >= 1.25 * current && rating <= (s.limit ?? Infinity))).toEqual([]);
            return;
          }
          expect(choice.drop).toBeLessThanOrEqual(drop * (1 + 1e-9));
          if (choice.fuse !== undefined) {
            expect(choice.fuse).toBeGreaterThanOrEqual(1.25 * current - 1e-9);
            expect(choice.fuse).toBeLessThanOrEqual(choice.wire.limit!);
          }
          // A thinner wire would do but for its fuse: none of the common ones carries the load and still guards it.
          for (const s of enough.filter(({ area }) => area < choice.wire.area))
            expect(FUSES.filter((rating) => rating >= 1.25 * current && rating <= s.limit!)).toEqual([]);
        },
      ),
    ));
});

describe('shareOut', () => {
  it('carries every load once, overloads none, and is near its bound', () =>
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.05, max: 4, noNaN: true }), { minLength: 1, maxLength: 8 }), (loads) => {
        const shared = shareOut(loads, 5)!;
        expect([...shared.supplies.flat()].sort((a, b) => a - b)).toEqual(loads.map((_, k) => k));
        for (const s of shared.supplies) expect(s.reduce((sum, k) => sum + loads[k]!, 0)).toBeLessThanOrEqual(4 + 1e-6);
        expect(shared.supplies.length).toBeGreaterThanOrEqual(shared.bound);
        // First fit by falling size: at most 11/9 of the least plus 6/9 (D. S. Johnson).
        expect(shared.supplies.length).toBeLessThanOrEqual(Math.floor((11 / 9) * bestShare(loads, 4) + 6 / 9));
      }),
      { numRuns: 60 },
    ));
  it('says when a load is too large for one supply', () => expect(shareOut([4.1], 5)).toBeUndefined());
});

/** The least number of bins, by trying every place for every load. */
function bestShare(loads: readonly number[], room: number): number {
  let best = loads.length;
  const bins: number[] = [];
  const place = (k: number): void => {
    if (bins.length >= best) return;
    if (k === loads.length) {
      best = bins.length;
      return;
    }
    for (let b = 0; b < bins.length; b++)
      if (bins[b]! + loads[k]! <= room + 1e-9) {
        bins[b]! += loads[k]!;
        place(k + 1);
        bins[b]! -= loads[k]!;
      }
    bins.push(loads[k]!);
    place(k + 1);
    bins.pop();
  };
  place(0);
  return best;
}

it('lists a red and a black piece for each run, ends included', () => {
  const { cuts, total } = wireCuts(
    [
      { from: 'supply', to: 'shelf 1', length: 1200, wire: '18 AWG' },
      { from: 'supply', to: 'shelf 2', length: 2000, wire: '18 AWG' },
    ],
    100,
  );
  expect(cuts.map((c) => `${c.colour} ${c.length} ${c.label}`)).toEqual([
    'red 2200 supply → shelf 2',
    'black 2200 supply → shelf 2',
    'red 1400 supply → shelf 1',
    'black 1400 supply → shelf 1',
  ]);
  expect(total.get('18 AWG')).toBe(7200);
});
