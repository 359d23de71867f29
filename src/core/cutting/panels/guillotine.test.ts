import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guillotineTable, normalPatterns } from './guillotine.ts';
import { toModel } from './model.ts';
import { kindsOf, placements } from './pattern.ts';
import { stripTable } from './strips.ts';

const anySmall = fc.record({
  length: fc.integer({ min: 3, max: 14 }),
  width: fc.integer({ min: 3, max: 14 }),
  parts: fc.array(
    fc.tuple(
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 1, max: 9 }),
      fc.boolean(),
      fc.integer({ min: 1, max: 50 }),
    ),
    {
      minLength: 1,
      maxLength: 5,
    },
  ),
});

/** Where a table is half as much work: the sheet as long as it is wide, every part free to turn. */
const anySquare = anySmall.map(({ length, parts }) => ({
  length,
  width: length,
  parts: parts.map(([l, w, , value]): [number, number, boolean, number] => [l, w, true, value]),
}));

describe('the most valuable guillotine pattern', () => {
  it.each([
    ['any sheet', anySmall],
    ['a square sheet and parts free to turn', anySquare],
  ])('of %s is what trying every cut at every whole place gives, and its pattern is worth that much', (_, problems) => {
    fc.assert(
      fc.property(problems, ({ length, width, parts }) => {
        const fitting = parts.filter(
          ([l, w, turn]) => (l <= length && w <= width) || (turn && w <= length && l <= width),
        );
        if (fitting.length === 0) return;
        const model = toModel({
          name: 'small',
          kind: 'panels',
          kerf: 0,
          trim: 0,
          stock: [{ id: 's', length, width, cost: 1, count: null }],
          // Counts beyond what a sheet holds: no count binds.
          parts: fitting.map(([l, w, turn], i) => ({ id: `p${i}`, length: l, width: w, count: 200, turn })),
        });
        const values = Float64Array.from(model.kinds, (kind) => fitting[kind.members[0]!.index]![3]);
        const table = guillotineTable(model, 1e8)!;
        const [value] = table.fill(values)!;

        const sheet = model.sheets[0]!;
        const known = new Map<number, number>();
        const all = (x: number, y: number): number => {
          const key = x * 1000 + y;
          const seen = known.get(key);
          if (seen !== undefined) return seen;
          let best = 0;
          model.kinds.forEach((kind, k) => {
            if ((kind.length <= x && kind.width <= y) || (kind.turn && kind.width <= x && kind.length <= y))
              best = Math.max(best, values[k]!);
          });
          for (let u = 1; u * 2 <= x; u++) best = Math.max(best, all(u, y) + all(x - u, y));
          for (let v = 1; v * 2 <= y; v++) best = Math.max(best, all(x, v) + all(x, y - v));
          known.set(key, best);
          return best;
        };
        expect(value).toBe(all(sheet.length, sheet.width));

        const pattern = table.pattern(0);
        const counts = kindsOf(pattern, model.kinds.length);
        expect(counts.reduce((sum, n, k) => sum + n * values[k]!, 0)).toBe(value);
        for (const placed of placements(model, pattern)) {
          const kind = model.kinds[placed.kind]!;
          expect(placed.x + (placed.turn ? kind.width : kind.length)).toBeLessThanOrEqual(sheet.length);
          expect(placed.y + (placed.turn ? kind.length : kind.width)).toBeLessThanOrEqual(sheet.width);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('the most valuable pattern of strips', () => {
  it('is worth what its parts are, fits, and is never above the best of all patterns', () => {
    fc.assert(
      fc.property(anySmall, ({ length, width, parts }) => {
        const fitting = parts.filter(
          ([l, w, turn]) => (l <= length && w <= width) || (turn && w <= length && l <= width),
        );
        if (fitting.length === 0) return;
        const model = toModel({
          name: 'small',
          kind: 'panels',
          kerf: 0,
          trim: 0,
          stock: [{ id: 's', length, width, cost: 1, count: null }],
          parts: fitting.map(([l, w, turn], i) => ({ id: `p${i}`, length: l, width: w, count: 200, turn })),
        });
        const values = Float64Array.from(model.kinds, (kind) => fitting[kind.members[0]!.index]![3]);
        const strips = stripTable(model, 1e8)!;
        const [value] = strips.fill(values)!;
        const [best] = guillotineTable(model, 1e8)!.fill(values)!;
        expect(value).toBeLessThanOrEqual(best!);
        expect(value).toBeGreaterThanOrEqual(Math.max(...values));
        const pattern = strips.pattern(0);
        const counts = kindsOf(pattern, model.kinds.length);
        expect(counts.reduce((sum, n, k) => sum + n * values[k]!, 0)).toBeGreaterThanOrEqual(value!);
        for (const placed of placements(model, pattern)) {
          const kind = model.kinds[placed.kind]!;
          expect(placed.x + (placed.turn ? kind.width : kind.length)).toBeLessThanOrEqual(model.sheets[0]!.length);
          expect(placed.y + (placed.turn ? kind.length : kind.width)).toBeLessThanOrEqual(model.sheets[0]!.width);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('normal patterns', () => {
  it('are all sums, each size up to its count', () => {
    expect([
      ...normalPatterns(
        [
          { size: 5, count: 2 },
          { size: 3, count: 1 },
        ],
        12,
        100,
      )!,
    ]).toEqual([0, 3, 5, 8, 10]);
    expect(normalPatterns([{ size: 1, count: 50 }], 50, 10)).toBeNull();
  });
});
