import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cosineOfTurn, exponential, logarithm, stepFactor } from './elementary.ts';

/** How far apart, as a share of the second. */
const off = (found: number, right: number): number => Math.abs(found - right) / Math.abs(right);
const FEW = 4 * Number.EPSILON;

describe('elementary functions of what searches and draws lots', () => {
  it('are those of the tables', () => {
    // Source: OEIS A001113 (e), A068985 (1/e), A002162 (ln 2), A002392 (ln 10), to seventeen digits
    for (const [found, right] of [
      [exponential(1), '2.7182818284590452'],
      [exponential(-1), '0.36787944117144232'],
      [logarithm(2), '0.69314718055994531'],
      [logarithm(10), '2.3025850929940457'],
    ] as const)
      expect(off(found, Number(right))).toBeLessThan(FEW);
    expect([exponential(0), logarithm(1)]).toEqual([1, 0]);
    // cos 60° and cos 45°
    expect(off(cosineOfTurn(1 / 6), 0.5)).toBeLessThan(FEW);
    expect(off(cosineOfTurn(1 / 8), Math.SQRT1_2)).toBeLessThan(FEW);
    expect([0, 0.25, 0.5, 0.75, 1].map(cosineOfTurn).map(Math.abs)).toEqual([1, 0, 1, 0, 1]);
  });

  it('are those of the engine, but for the last digits', () => {
    fc.assert(
      fc.property(fc.double({ min: -700, max: 700, noNaN: true }), (x) => {
        expect(off(exponential(x), Math.exp(x))).toBeLessThan(FEW);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 1e-300, max: 1e300, noNaN: true }), (x) => {
        expect(Math.abs(logarithm(x) - Math.log(x))).toBeLessThan(FEW * Math.max(1, Math.abs(Math.log(x))));
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        expect(Math.abs(cosineOfTurn(share) - Math.cos(2 * Math.PI * share))).toBeLessThan(FEW);
      }),
    );
  });

  it('have the same last digits on every engine', () => {
    const bits = (value: number): string => {
      const view = new DataView(new ArrayBuffer(8));
      view.setFloat64(0, value);
      return view.getBigUint64(0).toString(16);
    };
    expect([-33.3, -0.7, 0.1, 12.5].map((x) => bits(exponential(x)))).toEqual([
      '3cef165bb9b59d94',
      '3fdfc80db9dd5542',
      '3ff1aec7b35a00d4',
      '411060c52565ba66',
    ]);
    expect([1e-9, 0.3, 7, 12345].map((x) => bits(logarithm(x)))).toEqual([
      'c034b927f32bffb8',
      'bff34378fcbda721',
      '3fff2272ae325a57',
      '4022d78e26ae18e8',
    ]);
    expect([0.05, 0.2, 0.4, 0.7].map((x) => bits(cosineOfTurn(x)))).toEqual([
      '3fee6f0e134454ff',
      '3fd3c6ef372fe94e',
      'bfe9e3779b97f4a8',
      'bfd3c6ef372fe954',
    ]);
  });

  it('end where numbers end', () => {
    expect(exponential(-800)).toBe(0);
    expect(exponential(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(exponential(710)).toBe(Number.POSITIVE_INFINITY);
    expect(exponential(-708)).toBeGreaterThan(0);
    expect(exponential(709.7)).toBeLessThan(Number.POSITIVE_INFINITY);
    expect(exponential(Number.NaN)).toBeNaN();
    expect(logarithm(5e-324)).toBeCloseTo(-744.44, 2);
    for (const none of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) expect(() => logarithm(none)).toThrow(RangeError);
  });

  it('come from one number to another in so many steps', () => {
    let warmth = 0.4;
    for (let n = 0; n < 1000; n++) warmth *= stepFactor(0.4, 0.003, 1000);
    expect(off(warmth, 0.003)).toBeLessThan(1e-11);
  });
});
