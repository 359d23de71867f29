import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutFromTiles, dabsFor } from './tiles.ts';

const TILE = 300;
const pieces = fc.array(
  fc.record({ width: fc.integer({ min: 100, max: TILE }), height: fc.integer({ min: 100, max: TILE }) }).map((p) => ({
    ...p,
    x: 0,
    y: 0,
  })),
  { minLength: 1, maxLength: 9 },
);

describe('cut pieces out of whole tiles', () => {
  it('are all there, each the size asked (either way round), inside its tile and off the others', () =>
    fc.assert(
      fc.property(pieces, (wanted) => {
        const { tiles } = cutFromTiles(TILE, wanted);
        const got = tiles.flatMap((t) => Array.from({ length: t.times }, () => t.pieces).flat());
        const size = (p: { width: number; height: number }): string =>
          [p.width, p.height]
            .map((v) => v.toFixed(3))
            .sort()
            .join(' ');
        expect(got.map(size).sort()).toEqual(wanted.map(size).sort());
        for (const { pieces: own } of tiles)
          own.forEach((p, i) => {
            expect(p.x).toBeGreaterThanOrEqual(-1e-6);
            expect(p.y).toBeGreaterThanOrEqual(-1e-6);
            expect(p.x + p.width).toBeLessThanOrEqual(TILE + 1e-6);
            expect(p.y + p.height).toBeLessThanOrEqual(TILE + 1e-6);
            for (const q of own.slice(0, i)) {
              const apart =
                p.x >= q.x + q.width - 1e-6 ||
                q.x >= p.x + p.width - 1e-6 ||
                p.y >= q.y + q.height - 1e-6 ||
                q.y >= p.y + p.height - 1e-6;
              expect(apart).toBe(true);
            }
          });
      }),
    ));

  it('need no fewer tiles than their area, and as few as pairs that lie side by side allow', () =>
    fc.assert(
      fc.property(pieces, (wanted) => {
        const { tiles, proven } = cutFromTiles(TILE, wanted);
        const count = tiles.reduce((sum, t) => sum + t.times, 0);
        const area = wanted.reduce((sum, p) => sum + p.width * p.height, 0);
        expect(count).toBeGreaterThanOrEqual(Math.ceil(area / TILE ** 2 - 1e-9));
        expect(count).toBeLessThanOrEqual(wanted.length);
        // Pieces more than half a tile both ways can never share one.
        const large = wanted.filter((p) => p.width > TILE / 2 && p.height > TILE / 2).length;
        expect(count).toBeGreaterThanOrEqual(large);
        if (wanted.every((p) => p.width > TILE / 2 && p.height > TILE / 2)) expect(proven).toBe(true);
      }),
    ));

  it('come two from a tile cut in half, four from one in quarters', () => {
    const piece = (width: number, height: number) => ({ x: 0, y: 0, width, height });
    const tiles = (all: ReturnType<typeof piece>[]) =>
      cutFromTiles(TILE, all).tiles.reduce((sum, t) => sum + t.times, 0);
    expect(tiles([piece(150, 300), piece(150, 300)])).toBe(1);
    expect(tiles(Array.from({ length: 8 }, () => piece(150, 150)))).toBe(2);
    expect(tiles([piece(150, 300), piece(300, 150)])).toBe(1); // either way round: foam has no grain
    expect(cutFromTiles(TILE, [])).toEqual({ tiles: [], proven: true });
  });
});

it('puts five dabs under a tile of a square foot, one at least under the smallest piece', () => {
  expect(dabsFor(304.8 ** 2)).toBe(5);
  expect(dabsFor(100)).toBe(1);
});
