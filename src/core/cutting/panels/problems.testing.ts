import fc from 'fast-check';
import type { PanelProblem } from '../problem.ts';

const part = (id: string, length: number, width: number, count: number, turn: boolean) => ({
  id,
  length,
  width,
  count,
  turn,
});

/** Shop-like problems: sheets with and without counts, offcuts at no cost, kerf, trim, grain; always something that fits. */
export const anyPanelProblem = (most = 12): fc.Arbitrary<PanelProblem> =>
  fc
    .record({
      kerf: fc.constantFrom(0, 1.6, 3.2),
      trim: fc.constantFrom(0, 5, 12.7),
      stock: fc.array(
        fc.record({
          length: fc.integer({ min: 300, max: 2440 }),
          width: fc.integer({ min: 300, max: 1220 }),
          cost: fc.constantFrom(0, 12.35, 48, 61.5),
          count: fc.option(fc.integer({ min: 1, max: 4 }), { nil: null }),
        }),
        { minLength: 0, maxLength: 3 },
      ),
      parts: fc.array(
        fc.tuple(
          fc.integer({ min: 20, max: 1200 }),
          fc.integer({ min: 20, max: 1000 }),
          fc.integer({ min: 1, max: 6 }),
          fc.boolean(),
        ),
        { minLength: 1, maxLength: most },
      ),
    })
    .map(({ kerf, trim, stock, parts }) => ({
      name: 'any',
      kind: 'panels',
      kerf,
      trim,
      stock: [
        ...stock.map((sheet, i) => ({ id: `rack${i}`, ...sheet })),
        { id: 'full', length: 2440, width: 1220, cost: 48, count: null },
      ],
      parts: parts.map(([length, width, count, turn], i) => part(`p${i}`, length, width, count, turn)),
    }));
