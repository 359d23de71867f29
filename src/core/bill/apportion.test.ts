import fc from 'fast-check';
import { expect, it } from 'vitest';
import { apportion } from './apportion.ts';

// The standard illustration of the method: 100,000 votes for ten seats (largest remainder with the Hare quota).
// Quotas 4.7, 1.6, 1.58, 1.2, 0.61, 0.31: whole parts 4, 1, 1, 1, 0, 0; the three seats left go to .7, .61 and .6.
it('gives ten seats as the largest remainder method does', () => {
  expect(apportion(10, [47_000, 16_000, 15_800, 12_000, 6_100, 3_100])).toEqual([5, 2, 1, 1, 1, 0]);
});

const anyWeights = fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 20 });
it('adds up exactly, and no share is off its quota by a whole unit', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1e9 }), anyWeights, (total, weights) => {
      const shares = apportion(total, weights);
      expect(shares.reduce((a, b) => a + b, 0)).toBe(total);
      const sum = weights.reduce((a, b) => a + b, 0);
      if (sum > 0) {
        for (const [i, share] of shares.entries())
          expect(Math.abs(share - (total * weights[i]!) / sum)).toBeLessThan(1 + 1e-6);
      }
    }),
    { numRuns: 2000 },
  );
});
it.each([
  [[], []],
  [
    [0, 0],
    [7, 0],
  ],
  [
    [1, 1],
    [4, 3],
  ],
])('of 7 among %j is %j', (weights, shares) => {
  expect(apportion(7, weights)).toEqual(shares);
});
it('refuses halves and negative weights', () => {
  expect(() => apportion(0.5, [1])).toThrow(RangeError);
  expect(() => apportion(1, [-1])).toThrow(RangeError);
});
