import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factorise } from './factor.ts';

/** Square, some columns of one entry, some of several; often singular. */
const anyBasis = fc.integer({ min: 1, max: 12 }).chain((size) =>
  fc.array(
    fc.dictionary(fc.integer({ min: 0, max: size - 1 }).map(String), fc.constantFrom(1, 1, 2, 3, -1), {
      minKeys: 1,
      maxKeys: 4,
    }),
    { minLength: size, maxLength: size },
  ),
);
const rowsOf = (column: Record<string, number>): number[] => Object.keys(column).map(Number);
const times = (basis: readonly Record<string, number>[], z: ArrayLike<number>): number[] => {
  const product = basis.map(() => 0);
  basis.forEach((column, k) => {
    for (const row of rowsOf(column)) product[row]! += column[row]! * z[k]!;
  });
  return product;
};
const timesTransposed = (basis: readonly Record<string, number>[], y: ArrayLike<number>): number[] =>
  basis.map((column) => rowsOf(column).reduce((sum, row) => sum + column[row]! * y[row]!, 0));
const close = (found: readonly number[], wanted: readonly number[]): void => {
  found.forEach((value, i) => {
    expect(value).toBeCloseTo(wanted[i]!, 6);
  });
};
const factorOf = (basis: readonly Record<string, number>[]) =>
  factorise(
    basis.length,
    basis.map(rowsOf),
    basis.map((column) => Object.values(column)),
  );

describe('factorise', () => {
  it('solves both ways, or names columns whose exchange for single entries makes the basis regular', () => {
    let singular = 0;
    let regular = 0;
    fc.assert(
      fc.property(anyBasis, (first) => {
        const basis = [...first];
        let factor = factorOf(basis);
        if (factor.dependent.length > 0) {
          singular += 1;
          for (const { place, row } of factor.dependent) basis[place] = { [row]: 1 };
          factor = factorOf(basis);
        } else regular += 1;
        expect(factor.dependent).toEqual([]);
        const wanted = basis.map((_, i) => 1 + ((7 * i) % 5));
        const z = Float64Array.from(wanted);
        factor.solve(z);
        close(times(basis, z), wanted);
        const y = Float64Array.from(wanted);
        factor.solveTransposed(y);
        close(timesTransposed(basis, y), wanted);
        // An exchange: a column of ones for the place where it weighs most.
        const direction = new Float64Array(basis.length).fill(1);
        factor.solve(direction);
        const place = direction.reduce(
          (most, value, i) => (Math.abs(value) > Math.abs(direction[most]!) ? i : most),
          0,
        );
        if (Math.abs(direction[place]!) < 1e-6) return;
        factor.exchange(place, direction);
        basis[place] = Object.fromEntries(basis.map((_, i) => [i, 1]));
        const after = Float64Array.from(wanted);
        factor.solve(after);
        close(times(basis, after), wanted);
        const dual = Float64Array.from(wanted);
        factor.solveTransposed(dual);
        close(timesTransposed(basis, dual), wanted);
      }),
      { numRuns: 500 },
    );
    expect(singular).toBeGreaterThan(20);
    expect(regular).toBeGreaterThan(20);
  });
});
