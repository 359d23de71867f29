import { describe, expect, it } from 'vitest';
import type { Pool } from './enumerate.ts';
import { fillCompletions } from './knapsack.ts';
import type { Model } from './model.ts';
import { subsetRows } from './tree.ts';

/** The stretches that took longest without a look at the request to stop, each held to asking in the middle. */
describe('asking whether to stop', () => {
  it('a table of the most that can be added asks at least every 400,000 cells', () => {
    const [kinds, width] = [40, 100_000];
    const sizes = Array.from({ length: kinds }, (_, k) => 30_000 - 17 * k);
    let asked = 0;
    const done = fillCompletions(
      new Float64Array((kinds + 1) * width),
      width,
      1,
      sizes,
      sizes,
      sizes.map(() => 1),
      () => {
        asked++;
        return false;
      },
    );
    expect(done).toBe(true);
    expect(asked).toBeGreaterThanOrEqual((kinds * width) / 400_000);
    expect(fillCompletions(new Float64Array(kinds * width), width, 1, sizes, sizes, sizes, () => true)).toBe(false);
  });

  // Three kinds wanted once, two by two in a pattern: each pattern half, though no two of them can be whole.
  const pairs: readonly (readonly number[])[] = [[0, 1], [1, 2], [0, 2], [3], [0, 3]];
  const pool: Pool = {
    size: pairs.length,
    stock: new Int32Array(pairs.length),
    start: Int32Array.from([0, 2, 4, 6, 7, 9]),
    kind: Int32Array.from(pairs.flat()),
    count: new Int32Array(9).fill(1),
    split: new Map(),
  };
  const model = { sizes: [5, 5, 5, 2], demand: [1, 1, 1, 1] } as unknown as Model;
  const holders = [0, 1, 2, 3].map((kind) =>
    Int32Array.from(pairs.flatMap((pattern, p) => (pattern.includes(kind) ? [p] : []))),
  );
  const levels = new Map([0, 1, 2].map((p) => [p, 0.5]));

  it('a cut on three kinds holds the patterns with two of them, and is not written down once stopped', () => {
    expect(subsetRows(model, pool, levels, holders, () => false)).toEqual([
      { rhs: -1, patterns: Int32Array.of(0, 1, 2), values: Float64Array.of(-1, -1, -1) },
    ]);
    expect(subsetRows(model, pool, levels, holders, () => true)).toBeUndefined();
  });
});
