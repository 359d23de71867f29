import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { counted, measures, rounded, threshold } from './dual-feasible.ts';
import { leastCover } from './panels.ts';

const anyCase = fc
  .record({ C: fc.integer({ min: 2, max: 400 }), a: fc.nat(), b: fc.nat(), k: fc.nat() })
  .map(({ C, a, b, k }) => {
    const x = a % (C + 1);
    return { C, x, y: b % (C - x + 1), k: 1 + (k % Math.max(1, Math.floor(C / 2))) };
  });

describe('dual feasible functions', () => {
  it('are superadditive, from 0 for nothing to 1 for the whole', () => {
    fc.assert(
      fc.property(anyCase, ({ C, x, y, k }) => {
        for (const f of [threshold(C, k), counted(C, k), rounded(C, k)]) {
          expect(f(0)).toBe(0);
          expect(f(C)).toBe(1);
          expect(f(x) + f(y)).toBeLessThanOrEqual(f(x + y) + 1e-12);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('are chosen in fair number', () => {
    const list = measures(
      100,
      Array.from({ length: 99 }, (_, i) => i + 1),
      20,
    );
    expect(list.length).toBeLessThanOrEqual(1 + 20 + 20 + 12);
    expect(list.length).toBeGreaterThan(30);
  });
});

describe('the least cover', () => {
  it('is what trying every number of every sheet gives', () => {
    const anyCover = fc.record({
      sheets: fc.array(
        fc.record({
          cost: fc.integer({ min: 0, max: 20 }),
          count: fc.integer({ min: 0, max: 4 }),
          capacity: fc.integer({ min: 1, max: 9 }),
        }),
        { minLength: 1, maxLength: 4 },
      ),
      need: fc.integer({ min: 0, max: 40 }),
    });
    fc.assert(
      fc.property(anyCover, ({ sheets, need }) => {
        const all = (i: number, rest: number): number => {
          if (rest <= 0) return 0;
          if (i >= sheets.length) return Number.POSITIVE_INFINITY;
          const { cost, count, capacity } = sheets[i]!;
          return Math.min(...Array.from({ length: count + 1 }, (_, n) => n * cost + all(i + 1, rest - n * capacity)));
        };
        expect(leastCover(sheets, need)).toBe(all(0, need));
        // Out of nodes it is still a bound.
        expect(leastCover(sheets, need, 0)).toBeLessThanOrEqual(all(0, need));
      }),
      { numRuns: 500 },
    );
  });
});
