import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMaster } from './simplex.ts';

const anyProgram = fc
  .record({
    rows: fc.integer({ min: 1, max: 8 }),
    limit: fc.boolean(),
    columns: fc.array(
      fc.record({
        cost: fc.integer({ min: 1, max: 30 }),
        amounts: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 9, maxLength: 9 }),
      }),
      { minLength: 1, maxLength: 25 },
    ),
    needs: fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 8, maxLength: 8 }),
    most: fc.integer({ min: 0, max: 6 }),
  })
  .map(({ rows, limit, columns, needs, most }) => ({
    // One dear column a row, so that there is always an answer; the limit row bears on the first half of the columns.
    needs: [...needs.slice(0, rows), ...(limit ? [most] : [])],
    limits: [...needs.slice(0, rows).map(() => false), ...(limit ? [true] : [])],
    columns: [
      ...columns.map(({ cost, amounts }, c) => ({
        cost,
        amounts: [...amounts.slice(0, rows), ...(limit ? [c * 2 < columns.length ? 1 : 0] : [])],
      })),
      ...Array.from({ length: rows }, (_, r) => ({
        cost: 40,
        amounts: Array.from({ length: rows + (limit ? 1 : 0) }, (_, i) => (i === r ? 1 : 0)),
      })),
    ],
  }));

describe('the linear program', () => {
  it('ends with a primal and a dual that prove each other: feasible both, of equal value', () => {
    fc.assert(
      fc.property(anyProgram, ({ needs, limits, columns }) => {
        const master = createMaster(needs, limits, 1000);
        for (const { cost, amounts } of columns) {
          const rows = amounts.flatMap((a, r) => (a > 0 ? [r] : []));
          master.add({ cost, rows: Int32Array.from(rows), amounts: Float64Array.from(rows, (r) => amounts[r]!) });
        }
        const { x, duals, value, covered } = master.solve();
        expect(covered).toBe(true);
        // The needs were shifted by under a millionth of themselves.
        const tolerance = 1e-4;
        needs.forEach((need, r) => {
          const got = columns.reduce((sum, column, c) => sum + column.amounts[r]! * x[c]!, 0);
          if (limits[r]) {
            expect(got).toBeLessThanOrEqual(need + tolerance);
            expect(duals[r]!).toBeLessThanOrEqual(1e-7);
          } else {
            expect(got).toBeGreaterThanOrEqual(need - tolerance);
            expect(duals[r]!).toBeGreaterThanOrEqual(-1e-7);
          }
        });
        for (const { cost, amounts } of columns)
          expect(amounts.reduce((sum, a, r) => sum + a * duals[r]!, 0)).toBeLessThanOrEqual(cost + 1e-6);
        const dual = needs.reduce((sum, need, r) => sum + need * duals[r]!, 0);
        expect(Math.abs(dual - value)).toBeLessThan(0.01);
      }),
      { numRuns: 300 },
    );
  });

  it('agrees with the worked example of the cutting-stock chapter: widths 45, 36, 31, 14 from 100, demands 97, 610, 395, 211', () => {
    // Chvátal, Linear Programming, 1983, chapter 13 (also Gilmore & Gomory's example): 452 3/4 rolls by the linear program.
    const [widths, demands] = [
      [45, 36, 31, 14],
      [97, 610, 395, 211],
    ];
    const master = createMaster(demands!, [false, false, false, false], 50);
    for (let a = 0; a <= 2; a++)
      for (let b = 0; b <= 2; b++)
        for (let c = 0; c <= 3; c++)
          for (let d = 0; d <= 7; d++) {
            const counts = [a, b, c, d];
            const used = counts.reduce((sum, n, i) => sum + n * widths![i]!, 0);
            if (used === 0 || used > 100) continue;
            const rows = counts.flatMap((n, r) => (n > 0 ? [r] : []));
            master.add({ cost: 1, rows: Int32Array.from(rows), amounts: Float64Array.from(rows, (r) => counts[r]!) });
          }
    expect(master.solve().value).toBeCloseTo(452.25, 2);
  });
});
