import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SPECIES, SPECIES_NAMES } from '../data/species.ts';
import { changeCoefficient, equilibriumMoisture, woodMovement } from './moisture.ts';

/** The same sorption law with the constants published for °C: another set of numbers, to 0.01 % of moisture content. */
function celsiusForm(T: number, h: number): number {
  const W = 349 + 1.29 * T + 0.0135 * T ** 2;
  const K = 0.805 + 0.000736 * T - 0.00000273 * T ** 2;
  const K1 = 6.27 - 0.00938 * T - 0.000303 * T ** 2;
  const K2 = 1.91 + 0.0407 * T - 0.000293 * T ** 2;
  const a = K * h;
  return (1800 / W) * (a / (1 - a) + (K1 * a + 2 * K1 * K2 * a * a) / (1 + K1 * a + K1 * K2 * a * a));
}

describe('equilibrium moisture', () => {
  it('agrees with the Celsius constants in rooms', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 35, noNaN: true }),
        fc.double({ min: 0.05, max: 0.85, noNaN: true }),
        (T, h) => {
          // the two sets are rounded to three figures each
          expect(Math.abs(equilibriumMoisture(T, h) - celsiusForm(T, h))).toBeLessThan(0.02);
        },
      ),
    ));
  it('rises with humidity, and falls with warmth above 10 °C', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 40, noNaN: true }),
        fc.double({ min: 0.1, max: 0.85, noNaN: true }),
        (T, h) => {
          expect(equilibriumMoisture(T, h + 0.05)).toBeGreaterThan(equilibriumMoisture(T, h));
          expect(equilibriumMoisture(T + 5, h)).toBeLessThan(equilibriumMoisture(T, h));
        },
      ),
    ));
  it('is nothing in dry air', () => expect(equilibriumMoisture(20, 0)).toBe(0));
});

describe('movement', () => {
  it('comes back where it was', () =>
    fc.assert(
      fc.property(
        fc.constantFrom(...SPECIES_NAMES),
        fc.integer({ min: 6, max: 14 }),
        fc.integer({ min: 6, max: 14 }),
        (s, a, b) => {
          const C = changeCoefficient(SPECIES[s].shrinkage.tangential);
          expect(woodMovement(600, C, a, b) + woodMovement(600, C, b, a)).toBeCloseTo(0, 12);
        },
      ),
    ));
  it('is larger flat-sawn than quarter-sawn, and shrinkage adds up to the volume’s within a fifth', () => {
    for (const s of SPECIES_NAMES) {
      const { radial, tangential, volumetric } = SPECIES[s].shrinkage;
      expect(tangential, s).toBeGreaterThan(radial);
      const both = 100 * (1 - (1 - radial / 100) * (1 - tangential / 100));
      expect(both / volumetric, s).toBeGreaterThan(0.8);
      expect(both / volumetric, s).toBeLessThan(1.2);
    }
  });
});
