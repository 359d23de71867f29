import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain } from '../issue/index.ts';
import { formatMass, type MassUnit, parseMass } from './mass.ts';

const read = (text: string | number, unit: MassUnit = 'kg'): number | string => {
  const result = parseMass(text, { unit });
  return result.ok ? result.value : result.issues.map(explain).join('; ');
};

describe('masses', () => {
  // NIST SP 811 (2008), appendix B.8: pound (avoirdupois) 4.535 924 E-01 kg, ounce 2.834 952 E-02 kg; half a unit in the last digit
  it.each([
    ['1 lb', 0.4535924, 5e-8],
    ['1 oz', 2.834952e-2, 5e-9],
    ['1 t', 1000, 0],
    ['1 g', 1e-3, 0],
  ])('%s is %d kg', (text, kilograms, half) =>
    expect(Math.abs((read(text) as number) - kilograms)).toBeLessThanOrEqual(half),
  );

  it.each<[string | number, MassUnit, number]>([
    ['25 lb', 'kg', 11.33980925],
    ['25', 'lb', 11.33980925],
    [25, 'lb', 11.33980925],
    ['25lbs.', 'kg', 11.33980925],
    ['2 lb 4 oz', 'kg', 1.0205828325],
    ['1/2 lb', 'kg', 0.226796185],
    ['2 1/2 lb', 'kg', 1.133980925],
    ['11,5 kg', 'lb', 11.5],
    ['1 kg 250 g', 'lb', 1.25],
    ['11 st 4 lb', 'kg', 71.66759446],
    ['800 g', 'lb', 0.8],
    ['0', 'kg', 0],
  ])('%s with %s as the plain unit is %d kg', (text, unit, kilograms) => expect(read(text, unit)).toBe(kilograms));

  it.each<[string, RegExp]>([
    ['', /nothing/],
    ['heavy', /no number/],
    ['1,200 kg', /1200 or 1\.2/],
    ['2 lb 20 oz', /16 or more/],
    ['2.5 lb 4 oz', /not whole/],
    ['25 lbf', /not a unit of mass/],
    ['25 poundz', /did you mean pound/],
    ['25 mm', /not a unit of mass/],
    ['2 4', /side by side/],
    ['10-12 kg', /range/],
    ['5000 t', /1000 t/],
  ])('refuses %s', (text, why) => expect(read(text)).toMatch(why));

  it.each<[number, MassUnit, number | undefined, string]>([
    [11.33980925, 'lb', undefined, '25 lb'],
    [11.35, 'kg', undefined, '11.4 kg'],
    [11.35, 'kg', 2, '11.35 kg'],
    [0.8, 'g', undefined, '800 g'],
    [-0.01, 'kg', undefined, '0 kg'],
  ])('shows %d kg in %s', (mass, unit, decimals, text) => expect(formatMass(mass, { unit, decimals })).toBe(text));

  it('read back as what was printed', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: -1e6, max: 1e6 }),
        fc.constantFrom<MassUnit>('kg', 'g', 'lb', 'oz'),
        fc.integer({ min: 0, max: 3 }),
        (n, unit, decimals) => {
          const text = formatMass(read(`${n / 10 ** decimals} ${unit}`) as number, { unit, decimals });
          expect(text).toBe(`${n / 10 ** decimals} ${unit}`);
        },
      ),
    ));
});
