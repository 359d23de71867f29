import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CANONICAL_UNIT,
  convert,
  convertTo,
  DIMENSIONS,
  type Dimension,
  formatQuantity,
  parseQuantities,
  parseQuantity,
  unitsOf,
} from './dimensions.ts';

const read = (text: string, dimension: Dimension, defaultUnit?: string) => {
  const result = parseQuantity(text, dimension, defaultUnit === undefined ? {} : { defaultUnit });
  if (!result.ok) throw new Error(result.issues.map((i) => i.message).join('; '));
  return result.value;
};

describe('factors', () => {
  // NIST SP 811 (2008), appendix B.8, printed to seven digits; the window is half a unit in the last.
  it.each<[string, Dimension, number]>([
    ['in', 'length', 25.4],
    ['ft', 'length', 304.8],
    ['mil', 'length', 0.0254],
    ['yd', 'length', 914.4],
    ['ft²', 'area', 0.09290304],
    ['in²', 'area', 6.4516e-4],
    ['in³', 'volume', 1.638706e-5],
    ['ft³', 'volume', 2.831685e-2],
    ['gal', 'volume', 3.785412e-3],
    ['qt', 'volume', 9.463529e-4],
    ['pt', 'volume', 4.731765e-4],
    ['fl oz', 'volume', 2.957353e-5],
    ['board foot', 'volume', 2.359737e-3],
    ['lb', 'mass', 0.4535924],
    ['oz', 'mass', 2.834952e-2],
    ['lbf', 'force', 4.448222],
    ['kip', 'force', 4448.222],
    ['kgf', 'force', 9.80665],
    ['lbf·ft', 'moment', 1.355818],
    ['lbf·in', 'moment', 0.1129848],
    ['psi', 'stress', 6.894757e-3],
    ['ksi', 'stress', 6.894757],
    ['psf', 'area load', 47.88026],
    ['lb/ft', 'line load', 14.5939],
    ['lb/in', 'line load', 175.1268],
    ['lb/ft³', 'density', 16.01846],
    ['lb/in³', 'density', 27679.9],
    ['fc', 'illuminance', 10.76391],
    ['fL', 'luminance', 3.426259],
    ['cmil', 'conductor area', 5.067075e-4],
    ['day', 'time', 86400],
    ['km/h', 'speed', 0.2777778],
  ])('1 %s of %s is %d', (name, dimension, printed) => {
    const half = printed * 5.1e-7;
    expect(Math.abs(convert(1, name, dimension) - printed)).toBeLessThanOrEqual(half);
  });

  it('gives each dimension a canonical unit of factor one', () => {
    for (const dimension of DIMENSIONS) {
      expect(convert(7, CANONICAL_UNIT[dimension], dimension)).toBe(7);
      expect(unitsOf(dimension)[0]).toMatchObject({ factor: 1, shift: 0 });
    }
  });

  it('lets every name of every unit find its own unit', () => {
    for (const dimension of DIMENSIONS)
      for (const unit of unitsOf(dimension))
        for (const name of [unit.symbol, ...unit.names])
          expect([dimension, name, convert(1, name, dimension)]).toEqual([
            dimension,
            name,
            unit.factor * 1 + unit.shift,
          ]);
  });

  it('converts there and back', () =>
    fc.assert(
      fc.property(
        fc.constantFrom(...DIMENSIONS),
        fc.nat(),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (d, n, x) => {
          const units = unitsOf(d);
          const unit = units[n % units.length]!;
          const back = convertTo(convert(x, unit.symbol, d), unit.symbol, d);
          // a shift as large as 273.15 costs digits near zero, more the smaller the factor
          expect(Math.abs(back - x)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(x)));
        },
      ),
    ));
});

describe('reading', () => {
  it.each<[string, Dimension, number]>([
    ['25 lb', 'mass', 11.33980925],
    ['25lb', 'mass', 11.33980925],
    ['1.2 kN', 'force', 1200],
    ['50 lb', 'force', 222.41108],
    ['35 psf', 'area load', 1675.809],
    ['23.5 °C', 'temperature', 23.5],
    ['70 F', 'temperature', 21.1111111],
    ['-40 F', 'temperature', -40],
    ['293.15 K', 'temperature', 20],
    ['18 °F', 'temperature difference', 10],
    ['1.8e6 psi', 'stress', 12410.563],
    ['1.8 10^6 psi', 'stress', 12410.563],
    ['11-1/4"', 'length', 285.75],
    ['11 1/4 in', 'length', 285.75],
    ['11¼ in', 'length', 285.75],
    ['1/2in', 'length', 12.7],
    [`3' 4-1/2"`, 'length', 1028.7],
    ['3 ft 4.5 in', 'length', 1028.7],
    [`3'`, 'length', 914.4],
    [`-3' 6"`, 'length', -1066.8],
    ['1,5 m', 'length', 1500],
    ['0,125 mm', 'length', 0.125],
    ['900', 'length', 900],
    ['65%', 'ratio', 0.65],
    ['0.65', 'ratio', 0.65],
    ['65', 'percent', 65],
    ['65 %', 'percent', 65],
    ['400 ft²/gal', 'coverage', 9.816],
    ['400 sq ft / gal', 'coverage', 9.816],
    ['1,800,000 psi', 'stress', 12410.563],
    ['2 N·m', 'moment', 2],
    ['2 N*m', 'moment', 2],
    ['20 in^4', 'second moment of area', 8324628.5],
    ['30 KG', 'mass', 30],
    ['½', 'ratio', 0.5],
    ['.5', 'number', 0.5],
    ['3 per minute', 'rate per minute', 3],
  ])('%s as %s is %d', (text, dimension, value) => {
    const got = read(text, dimension);
    expect(Math.abs(got - value)).toBeLessThanOrEqual(Math.max(1e-9, Math.abs(value) * 1e-4));
  });

  it('takes a bare number in the unit it is told', () => expect(read('36', 'length', 'in')).toBeCloseTo(914.4, 9));

  it.each<[string, Dimension, RegExp]>([
    ['', 'mass', /nothing/],
    ['heavy', 'mass', /no number/],
    ['12 gauge', 'length', /not a unit/],
    ['3 furlongs', 'length', /not a unit/],
    ['1,800 psi', 'stress', /1800 or 1\.8/],
    ['3/0 in', 'length', /fraction/],
    ['1.2.3 mm', 'length', /no number/],
    ['NaN', 'number', /no number/],
    ['Infinity', 'number', /no number/],
    ['1e999', 'number', /no number/],
    ['2 mpa', 'force', /not a unit/],
  ])('refuses %s as %s', (text, dimension, why) => {
    const result = parseQuantity(text, dimension);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.issues[0]?.message).toMatch(why);
  });

  it('offers the nearest unit', () => {
    const result = parseQuantity('12 inchs', 'length');
    expect(result).toMatchObject({ ok: false, issues: [{ nearest: 'inch' }] });
  });

  it('reads lists, a later unit serving the bare values before it', () => {
    expect(parseQuantities('0, 12, 24 in', 'length')).toEqual({ ok: true, value: [0, 304.8, 609.6] });
    expect(parseQuantities('10 20 30', 'number')).toEqual({ ok: true, value: [10, 20, 30] });
    expect(parseQuantities('1 1/2 in', 'length')).toEqual({ ok: true, value: [38.1] });
    expect(parseQuantities('100; 1 m', 'length', { defaultUnit: 'mm' })).toEqual({ ok: true, value: [100000, 1000] });
    expect(parseQuantities('0,5; 1,25; 2', 'ratio')).toEqual({ ok: true, value: [0.5, 1.25, 2] });
    expect(parseQuantities('10 20 30 mm', 'length')).toEqual({ ok: true, value: [10, 20, 30] });
    expect(parseQuantities('1 ft 2 ft', 'length')).toEqual({
      ok: true,
      value: [304.8, 609.6],
    });
    expect(parseQuantities('', 'length')).toEqual({ ok: true, value: [] });
    expect(parseQuantities('1, x, 3', 'number')).toMatchObject({ ok: false, issues: [{ path: [1] }] });
  });

  it('reads back what it shows', () =>
    fc.assert(
      fc.property(
        fc.constantFrom(...DIMENSIONS),
        fc.nat(),
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        (d, n, x) => {
          const units = unitsOf(d);
          const { symbol } = units[n % units.length]!;
          const value = convert(x, symbol, d);
          const shown = formatQuantity(value, d, { unit: symbol, digits: 9 });
          const back = convertTo(read(shown, d, symbol), symbol, d);
          expect(Math.abs(back - x)).toBeLessThanOrEqual(1e-7 * Math.max(Math.abs(x), 1e-2));
        },
      ),
    ));
});

describe('showing', () => {
  it.each<[number, Dimension, string, string]>([
    [914.4, 'length', 'in', '36 in'],
    [12.3456, 'length', 'mm', '12.35 mm'],
    [1234567, 'length', 'mm', '1234567 mm'],
    [0, 'mass', 'kg', '0 kg'],
    [90, 'angle', '°', '90°'],
    [65, 'percent', '%', '65%'],
    [0.0001234567, 'length', 'mm', '0.0001235 mm'],
    [-2.5, 'temperature', '°C', '-2.5 °C'],
    [3, 'count', '', '3'],
  ])('%d of %s in %s', (value, dimension, unit, shown) =>
    expect(formatQuantity(value, dimension, { unit })).toBe(shown),
  );
});
