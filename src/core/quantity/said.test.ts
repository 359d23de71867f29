import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from './dimensions.ts';
import { isSaidOtherwise, sayValue } from './said.ts';

const INCHES = { length: 'ft-in', fraction: '1/32' } as const;
const METRIC = { length: 'mm' } as const;

describe('a reckoned figure in the units of a plan', () => {
  it.each([
    // 25.4 mm to the inch, 0.45359237 kg to the pound: NIST SP 811 (2008), appendix B.8
    [317.5, 'mm', '12\u20091⁄2″', '317.5\u00a0mm'],
    [17.856, 'mm', '0.70299″', '17.856\u00a0mm'],
    [-3.175, 'mm', '−1⁄8″', '−3.175\u00a0mm'],
    [45.359237, 'kg', '100\u00a0lb', '45.359\u00a0kg'],
    // 4.448222 N to the pound-force, 6.894757 MPa to 1000 psi, 16.01846 kg/m³ to lb/ft³: the same
    [444.8222, 'N', '100\u00a0lbf', '444.82\u00a0N'],
    [6.894757, 'MPa', '1000\u00a0psi', '6.8948\u00a0MPa'],
    [200_000, 'MPa', '29.008\u00a0million psi', '200000\u00a0MPa'],
    [600, 'kg/m³', '37.457\u00a0lb/ft³', '600\u00a0kg/m³'],
    // 343.2 m/s is 1126 ft/s; 2.7335 dB/km is 0.83317 dB in a thousand feet
    [343.2, 'm/s', '1126\u00a0ft/s', '343.2\u00a0m/s'],
    [2.7335, 'dB/km', '0.83317\u00a0dB/kft', '2.7335\u00a0dB/km'],
    [0.5, 's', '0.5\u00a0s', '0.5\u00a0s'],
    [1.5, '', '1.5', '1.5'],
  ])('%s %s is %s, or %s', (value, unit, inches, metric) => {
    expect(sayValue(value, unit, INCHES)).toBe(inches);
    expect(sayValue(value, unit, METRIC)).toBe(metric);
  });

  it('says a row with its unit once, and no digit that says nothing', () => {
    expect(sayValue([0, 0.1 + 2.1, 4.2], 'mm', METRIC)).toBe('0, 2.2, 4.2\u00a0mm');
    expect(sayValue([152.4, -2.8773437499999996], 'mm', INCHES)).toBe('6″, −0.11328″');
  });

  it('reads back as what was said, to the figures that are shown', () => {
    const units = [
      ['mm', 'length', 1],
      ['kg', 'mass', 1],
      ['N', 'force', 1],
      ['MPa', 'stress', 1],
      ['m³', 'volume', 1],
      ['mm⁴', 'second moment of area', 1],
      ['N·m', 'moment', 1],
      ['Ω/m', 'resistance per length', 1000],
    ] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        ([unit, dimension, canonical], value) => {
          expect(isSaidOtherwise(unit, INCHES)).toBe(true);
          const read = parseQuantity(sayValue(value, unit, INCHES).replaceAll('\u2009', ' '), dimension);
          if (!read.ok) throw new Error(JSON.stringify(read.issues));
          expect(Math.abs(read.value / (value * canonical) - 1)).toBeLessThan(1e-4);
        },
      ),
    );
  });
});
