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

/**
 * A job with a plan known beforehand: sheets are cut from edge to edge at random, some pieces thrown away, the rest is the list
 * of parts. `full` when nothing was thrown away. All sheets cost 1.
 */
export const plantedProblem: fc.Arbitrary<{
  readonly problem: PanelProblem;
  readonly sheets: number;
  readonly full: boolean;
}> = fc
  .record({
    length: fc.integer({ min: 12, max: 60 }),
    width: fc.integer({ min: 12, max: 60 }),
    sheets: fc.integer({ min: 1, max: 4 }),
    turn: fc.boolean(),
    lost: fc.constantFrom(0, 0, 20, 50),
    chance: fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 200, maxLength: 200 }),
  })
  .map(({ length, width, sheets, turn, lost, chance }) => {
    let at = 0;
    const next = (): number => chance[at++ % chance.length]!;
    const pieces: [number, number][] = [];
    let full = true;
    const cut = (l: number, w: number, depth: number): void => {
      const along = next() < 50;
      const size = along ? l : w;
      if (depth > 0 && size > 7 && next() < 90) {
        const place = 3 + Math.floor(((size - 6) * next()) / 100);
        cut(along ? place : l, along ? w : place, depth - 1);
        cut(along ? l - place : l, along ? w : w - place, depth - 1);
      } else if (next() < lost) full = false;
      else pieces.push(turn && next() < 50 ? [w, l] : [l, w]);
    };
    for (let n = 0; n < sheets; n++) cut(length, width, 4);
    if (pieces.length === 0) pieces.push([1, 1]);
    // A turned piece must still be free to lie as it was cut.
    return {
      sheets,
      full,
      problem: {
        name: 'planted',
        kind: 'panels',
        kerf: 0,
        trim: 0,
        stock: [{ id: 's', length, width, cost: 1, count: null }],
        parts: pieces.map(([l, w], i) => part(`p${i}`, l, w, 1, turn)),
      },
    };
  });
