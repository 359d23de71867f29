import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readersFor, type Units } from '../core/plan/index.ts';
import { summed } from './sum.ts';

const inches = { length: 'ft-in', currency: 'USD' } as Units;
const metric = { length: 'mm', currency: 'EUR' } as Units;

describe('sums of lengths', () => {
  it.each([
    [inches, '36 + 3/4', `3' 0-3/4"`],
    [inches, `4' 6 - 2 x 3/4"`, `4' 4-1/2"`],
    [inches, `1/2 of 3'`, `1' 6"`],
    [inches, `half of 3'`, `1' 6"`],
    [inches, "15' 6 / 4 - 1-1/2", `3' 9"`],
    [metric, '2.31 m / 3', '770'],
    [metric, '900 - 2 * 18 + 1 cm', '874'],
    // not on the grid of the plan
    [metric, '1000 / 3', '333.333 mm'],
  ])('%# is what a rule says', (units, text, result) => {
    const [said, ruled] = [summed(units, text)!, result].map((one) => readersFor(units).length(one));
    expect(said).toEqual(ruled);
  });

  it('leaves alone what is no sum, or is one of areas', () => {
    for (const text of ['36', '4-1/2', `3'-4"`, '2 m x 3 m', '6 / 2 m', '3 / 0', '2*', '36 +', '3 + trees', ''])
      expect(summed(metric, text), text).toBeUndefined();
  });

  it('takes away what it added', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 5000 }), (a, b) => {
        expect(readersFor(metric).length(summed(metric, `${a} + ${b} - ${b} mm`)!)).toEqual(
          readersFor(metric).length(`${a}`),
        );
      }),
    );
  });
});
