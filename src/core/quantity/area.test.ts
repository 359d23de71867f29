import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain } from '../issue/index.ts';
import { type AreaUnit, formatArea, parseArea } from './area.ts';

const read = (text: string | number, unit: AreaUnit = 'm²'): number | string => {
  const result = parseArea(text, { unit });
  return result.ok ? result.value : result.issues.map(explain).join('; ');
};

describe('areas', () => {
  // NIST SP 811 (2008), appendix B.8: square foot 9.290 304 E-02 m² and square inch 6.4516 E-04 m², both exact
  it.each([
    ['1 ft²', 92903.04],
    ['1 in²', 645.16],
    ['1 m²', 1e6],
    ['1 cm²', 100],
  ])('%s is %d mm²', (text, area) => expect(read(text)).toBe(area));

  it.each<[string | number, AreaUnit, number]>([
    ['12 sq ft', 'm²', 1114836.48],
    ['12 sq. ft', 'm²', 1114836.48],
    ['12 SQFT', 'm²', 1114836.48],
    ['12 square feet', 'm²', 1114836.48],
    ['12 sf', 'm²', 1114836.48],
    ['12 ft2', 'm²', 1114836.48],
    ['12 ft^2', 'm²', 1114836.48],
    [12, 'ft²', 1114836.48],
    ['1,5 m2', 'ft²', 1.5e6],
    ['1 1/2 sq m', 'ft²', 1.5e6],
    ['4 mm²', 'm²', 4],
  ])('%s with %s as the plain unit is %d mm²', (text, unit, area) => expect(read(text, unit)).toBe(area));

  it.each<[string, RegExp]>([
    ['12 ft', /not a unit of area/],
    ['12 m', /not a unit of area/],
    ['3 x 4 ft', /not a unit/],
    ['1,200 sq ft', /1200 or 1\.2/],
    ['', /nothing/],
  ])('refuses %s', (text, why) => expect(read(text)).toMatch(why));

  it('read back as what was printed', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1e6 }),
        fc.constantFrom<AreaUnit>('m²', 'cm²', 'mm²', 'ft²', 'in²'),
        fc.integer({ min: 0, max: 3 }),
        (n, unit, decimals) => {
          expect(formatArea(read(`${n / 10 ** decimals} ${unit}`) as number, { unit, decimals })).toBe(
            `${n / 10 ** decimals} ${unit}`,
          );
        },
      ),
    ));
});
