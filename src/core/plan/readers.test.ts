import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fromTicks } from '../quantity/index.ts';
import { finestOf, printersFor, readersFor } from './readers.ts';
import type { Units } from './schema/plan.ts';

const anyUnits = fc.constantFrom<Units>(
  { length: 'ft-in', currency: 'USD' },
  { length: 'in', fraction: '1/64', currency: 'CAD' },
  { length: 'mm', currency: 'EUR' },
  { length: 'cm', decimals: 1, currency: 'JPY' },
  { length: 'm', decimals: 4, currency: 'KWD' },
);

it('a plan reads what it prints', () =>
  fc.assert(
    fc.property(
      anyUnits,
      fc.integer({ min: -1e8, max: 1e8 }),
      fc.integer({ min: 0, max: 1e9 }),
      (units, ticks, money) => {
        const [read, print] = [readersFor(units), printersFor(units)];
        const shown = print.length(fromTicks(ticks));
        const again = read.length(shown);
        expect(again.ok && print.length(again.value)).toBe(shown);
        // without its unit the number is in the plan's own
        expect(read.length(print.length(fromTicks(ticks), { bare: true }))).toEqual(again);
        expect(read.money(print.money(money))).toEqual({ ok: true, value: money });
        const mass = read.mass(print.mass(money / 1e5));
        expect(mass.ok && print.mass(mass.value)).toBe(print.mass(money / 1e5));
      },
    ),
  ));

it('a bound holds as it is printed, and lies within a step of what it is', () =>
  fc.assert(
    fc.property(anyUnits, fc.integer({ min: -1e7, max: 1e7 }), (units, ticks) => {
      const [{ length: read }, print, exact] = [readersFor(units), printersFor(units), fromTicks(ticks)];
      const value = (text: string): number => {
        const result = read(text);
        if (!result.ok) throw new Error(text);
        return result.value;
      };
      const [up, down] = [value(print.notLess(exact)), value(print.notMore(exact))];
      // a grid finer than what is kept is kept to the nearest tick
      const tick = fromTicks(1);
      expect(up).toBeGreaterThan(exact - tick);
      expect(down).toBeLessThan(exact + tick);
      if (finestOf(units) > tick) {
        expect(up).toBeGreaterThanOrEqual(exact);
        expect(down).toBeLessThanOrEqual(exact);
      }
      expect(up - down).toBeLessThan(finestOf(units) + tick);
    }),
  ));

it('bare masses go with the lengths: pounds or kilograms', () => {
  expect(readersFor({ length: 'in', currency: 'USD' }).mass(10)).toEqual({ ok: true, value: 4.5359237 });
  expect(readersFor({ length: 'cm', currency: 'USD' }).mass(10)).toEqual({ ok: true, value: 10 });
});

it('a panel is as thick as a gauge shows it, whatever the lengths of the plan are rounded to', () =>
  fc.assert(
    fc.property(
      fc.oneof(anyUnits, fc.constant<Units>({ length: 'm', decimals: 2, currency: 'EUR' })),
      fc.integer({ min: 1, max: 1e5 }).map(fromTicks),
      (units, thick) => {
        const read = readersFor(units).length(printersFor(units).thickness(thick));
        expect(read.ok && Math.abs(read.value - thick)).toBeLessThan(0.052);
      },
    ),
  ));
