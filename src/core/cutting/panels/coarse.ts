import { createGeneration, createPool, type Generation } from './columns.ts';
import { byArea, fill } from './fill.ts';
import { guillotineTable, normalPatterns } from './guillotine.ts';
import type { Model } from './model.ts';
import { extentOf, type Pattern } from './pattern.ts';

/**
 * A bound for sizes so many and so fine that the table of all guillotine patterns cannot be held: every size is rounded down to whole
 * cells of a coarser raster, parts and sheets alike. What fitted still fits, for Σ ⌊size/cell⌋ ≤ ⌊sheet/cell⌋ whenever Σ size ≤ sheet, so the
 * linear program over the coarse patterns, solved with its exact table, bounds every plan of the true sizes. The raster is made finer
 * as long as its table is small enough. Patterns that fit by their true sizes
 * too are handed on: they have any number of stages. (Rounding of this kind: Terno, Lindemann & Scheithauer, Zuschnittprobleme und
 * ihre praktische Lösung, 1987; the choice of the cell is ours.)
 */
export interface CoarseBound {
  /** Goes on for about so many steps; returns the steps spent. */
  readonly advance: (steps: number, stop: () => boolean) => number;
  /** Proven, in whole units of cost. */
  readonly bound: () => number;
  readonly done: () => boolean;
}

/** Cells along a side, rough to fine; the last leaves the side as it is. */
const RASTERS = [60, 120, 240, 480, 960, 1920, Number.POSITIVE_INFINITY];
/**
 * Largest table work, one try after the other, and which side is refined first: lengths and widths of parts often ask for quite different
 * rasters, and three strips of one width and one of another may only be told from four on a fine one.
 */
const TRIES: readonly (readonly [work: number, first: 'both' | 'length' | 'width'])[] = [
  [3e5, 'both'],
  [3e6, 'width'],
  [3e6, 'length'],
  [3e6, 'both'],
  [1.5e7, 'both'],
];

export function coarseBound(model: Model, offer: (pattern: Pattern) => void, halted?: () => boolean): CoarseBound {
  const sides = sidesOf(model, halted);
  const together = model.kinds.some((kind) => kind.turn);
  let tries = 0;
  const tried = new Set<string>();
  let generation: Generation | null = null;
  let finish = (): void => {};
  let bound = 0;
  let done = false;
  const begin = (stop: () => boolean): void => {
    if (tries >= TRIES.length) {
      done = true;
      return;
    }
    const [most, first] = TRIES[tries++]!;
    const cells = finest(sides, most, together ? 'together' : first);
    if (!cells || tried.has(cells.join())) return;
    tried.add(cells.join());
    const coarse = coarsened(model, cells[0], cells[1]);
    const table = coarse && guillotineTable(coarse, most, stop);
    if (!table) return;
    const pool = createPool();
    for (const { pattern } of fill(coarse, byArea(coarse), stop).layouts) pool.add(pattern);
    finish = () => {
      for (const { pattern } of pool.patterns()) {
        const code = pattern.code.map((item) => (item >= 0 ? coarse.kindOf[item >> 1]! * 2 + (item & 1) : item));
        const [length, width] = extentOf(model, code);
        const sheet = model.sheets[pattern.sheet]!;
        if (length <= sheet.length && width <= sheet.width) offer({ sheet: pattern.sheet, code });
      }
    };
    generation = createGeneration(
      coarse,
      table,
      pool,
      Int32Array.from(coarse.kinds, (kind) => kind.count),
      Int32Array.from(coarse.sheets, (sheet) => sheet.count),
    );
  };
  return {
    advance: (steps, stop) => {
      let spent = 0;
      while (!done && spent < steps && !stop()) {
        if (!generation) begin(stop);
        if (!generation) continue;
        spent += generation.advance(steps - spent, stop);
        bound = Math.max(bound, generation.bound());
        if (generation.done()) {
          finish();
          generation = null;
        }
      }
      return spent;
    },
    bound: () => bound,
    done: () => done,
  };
}

/** One way of measuring a side: the size of a cell, and how many sums of parts there are on it. */
interface Raster {
  readonly cell: number;
  readonly sums: number;
}

/** The rasters of both sides. A part that turns is measured by both, so their cells are then the same. */
function sidesOf(model: Model, stop?: () => boolean): readonly [readonly Raster[], readonly Raster[]] {
  const turns = model.kinds.some((kind) => kind.turn);
  const sides = ['length', 'width'] as const;
  const measured = (own: readonly ('length' | 'width')[]): readonly (readonly Raster[])[] => {
    const sheets = own.flatMap((side) => model.sheets.map((sheet) => sheet[side]));
    const sizes = own.map((side) => sizesAlong(model, side));
    const all = sizes.flat();
    const longest = Math.max(...sheets);
    const found: Raster[][] = own.map(() => []);
    for (const cells of RASTERS) {
      const least = cells === Number.POSITIVE_INFINITY ? 1 : Math.ceil(longest / cells);
      const cell = least === 1 ? 1 : bestCell(least, sheets, all);
      const sums = own.map((side, i) => {
        const down = sizes[i]!.map(({ size, count }) => ({ size: Math.floor(size / cell), count }))
          .filter(({ size }) => size > 0)
          .sort((a, b) => b.size - a.size);
        const limit = Math.max(...model.sheets.map((sheet) => sheet[side]));
        return normalPatterns(down, Math.floor(limit / cell), MOST_SUMS, stop)?.length;
      });
      if (sums.includes(undefined)) break;
      sums.forEach((count, i) => {
        found[i]!.push({ cell, sums: count! });
      });
      if (cell === 1) break;
    }
    return found;
  };
  const [xs, ys] = turns ? measured(sides) : sides.flatMap((side) => measured([side]));
  return [xs!, ys!];
}
interface Size {
  readonly size: number;
  readonly count: number;
  /** Area of all the parts it is of. */
  readonly area: number;
}

/** What parts can measure along a side, either way round where they may turn. */
const sizesAlong = (model: Model, side: 'length' | 'width'): readonly Size[] =>
  model.kinds.flatMap(({ length, width, count, turn }) => {
    const [own, other] = side === 'length' ? [length, width] : [width, length];
    const area = count * length * width;
    return turn
      ? [
          { size: own, count, area },
          { size: other, count, area },
        ]
      : [{ size: own, count, area }];
  });

/** A side with more sums than this makes every table too large. */
const MOST_SUMS = 2000;

/** The finest cells whose table takes no more than `most` work; of `both` sides, the one with fewer sums is refined first. */
function finest(
  [xs, ys]: readonly [readonly Raster[], readonly Raster[]],
  most: number,
  /** `together`: both sides are to have the same cell. */
  first: 'together' | 'both' | 'length' | 'width',
): readonly [number, number] | null {
  const fits = (i: number, j: number): boolean => {
    const [x, y] = [xs[i], ys[j]];
    return x !== undefined && y !== undefined && (x.sums * y.sums * (x.sums + y.sums)) / 4 <= most;
  };
  let [i, j] = [0, 0];
  if (!fits(0, 0)) return null;
  if (first === 'together') {
    while (fits(i + 1, i + 1)) i++;
    return [xs[i]!.cell, ys[i]!.cell];
  }
  if (first === 'length') while (fits(i + 1, j)) i++;
  if (first === 'width') while (fits(i, j + 1)) j++;
  for (;;) {
    const [right, up] = [fits(i + 1, j), fits(i, j + 1)];
    if (!right && !up) return [xs[i]!.cell, ys[j]!.cell];
    if (right && (!up || xs[i + 1]!.sums <= ys[j + 1]!.sums)) i++;
    else j++;
  }
}

/** The model in whole cells. Parts of less than one cell are left out, which bounds the rest all the same. */
function coarsened(model: Model, x: number, y: number): (Model & { readonly kindOf: readonly number[] }) | null {
  const down = <T extends { readonly length: number; readonly width: number }>(it: T): T => ({
    ...it,
    length: Math.floor(it.length / x),
    width: Math.floor(it.width / y),
  });
  const all = model.kinds.map(down);
  const kindOf = all.map((_, k) => k).filter((k) => all[k]!.length > 0 && all[k]!.width > 0);
  if (kindOf.length === 0) return null;
  const kinds = kindOf.map((k) => all[k]!);
  return {
    ...model,
    kinds,
    kindOf,
    sheets: model.sheets.map(down),
    total: kinds.reduce((sum, kind) => sum + kind.count, 0),
  };
}

/** Between `least` and half as much again, the cell that takes least from the parts for what it takes from the sheets. */
function bestCell(least: number, sheets: readonly number[], sizes: readonly Size[]): number {
  const tries = 64;
  let best = least;
  let bestScore = -1;
  for (let t = 0; t <= tries; t++) {
    const cell = least + Math.floor((least * t) / (2 * tries));
    const kept = (size: number): number => (Math.floor(size / cell) * cell) / size;
    const ofSheets = Math.max(...sheets.map(kept));
    const score = sizes.reduce((sum, { size, area }) => sum + area * kept(size), 0) / ofSheets;
    if (score > bestScore) [best, bestScore] = [cell, score];
  }
  return best;
}
