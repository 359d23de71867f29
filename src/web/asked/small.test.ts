import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readersFor, type Units } from '../../core/plan/index.ts';
import { fromTicks, mm } from '../../core/quantity/index.ts';
import { small, usually } from './small.ts';

const FEET: Units = { length: 'ft-in', fraction: '1/16', currency: 'USD' };
const METRIC: Units = { length: 'cm', currency: 'EUR' };

it('a gap of a fraction is told as that fraction, one of none as a gauge shows it, one nobody named as any other length', () => {
  const inches = (length: number) => small(FEET, mm(length * 25.4));
  expect([3 / 32, 1 / 2, 5 / 8, 13.25, 0.118, 0.703].map(inches)).toEqual([
    '3/32"',
    '1/2"',
    '5/8"',
    '13-1/4"',
    '0.118"',
    '0.703"',
  ]);
  expect([usually(FEET, undefined, mm(3)), usually(FEET, mm(3), mm(5))]).toEqual(['1/8"', '0.118"']);
  expect([usually(METRIC, undefined, mm(12.7)), small(METRIC, mm(3))]).toEqual(['1.27 cm', '0.3 cm']);
});

it('law: what is shown reads as what is kept, to what a gauge tells apart', () =>
  fc.assert(
    fc.property(
      fc.constantFrom(FEET, METRIC),
      fc
        .oneof(
          fc.integer({ min: 1, max: 1e5 }),
          fc.integer({ min: 1, max: 640 }).map((n) => n * 254),
        )
        .map(fromTicks),
      (units, length) => {
        const read = readersFor(units).length(small(units, length));
        expect(read.ok && Math.abs(read.value - length)).toBeLessThan(0.052);
      },
    ),
  ));
