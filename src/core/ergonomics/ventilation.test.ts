import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ventArea, ventedRise } from './ventilation.ts';

const given = {
  power: fc.double({ min: 5, max: 800, noNaN: true }),
  area: fc.double({ min: 0.001, max: 0.2, noNaN: true }),
  height: fc.double({ min: 0.1, max: 2.5, noNaN: true }),
  room: fc.double({ min: 5, max: 40, noNaN: true }),
};

it('carries off just the heat that is put in: draught and heat reckoned apart', () =>
  fc.assert(
    fc.property(fc.record(given), (v) => {
      const ΔT = ventedRise(v);
      const T = v.room + 273.15 + ΔT / 2;
      // each opening takes half of the buoyancy: Δp = ½ ρ g H ΔT/T, v = C_d √(2 Δp/ρ)
      const pressure = (0.5 * 1.2 * 9.80665 * v.height * ΔT) / T;
      const flow = 0.65 * v.area * Math.sqrt((2 * pressure) / 1.2);
      expect((flow * 1.2 * 1006 * ΔT) / v.power).toBeCloseTo(1, 6);
    }),
  ));
it('gives the area back', () =>
  fc.assert(
    fc.property(fc.record(given), (v) => {
      expect(ventArea(v.power, ventedRise(v), v.height, v.room) / v.area).toBeCloseTo(1, 6);
    }),
  ));
