import { createGeneration, createPool, type Generation } from './columns.ts';
import { byArea, fill } from './fill.ts';
import { guillotineTable } from './guillotine.ts';
import type { Model } from './model.ts';

/**
 * A bound for sizes so many and so fine that the table of all guillotine patterns cannot be held: every size is rounded down to whole
 * cells of a coarser raster, parts and sheets alike. What fitted still fits, for Σ ⌊size/cell⌋ ≤ ⌊sheet/cell⌋ whenever Σ size ≤ sheet, so the
 * linear program over the coarse patterns, solved with its exact table, bounds every plan of the true sizes. The raster is made finer
 * as long as its table is small enough. (Rounding of this kind: Terno, Lindemann & Scheithauer, Zuschnittprobleme und ihre praktische
 * Lösung, 1987; the choice of the cell is ours.)
 */
export interface CoarseBound {
  /** Goes on for about so many steps; returns the steps spent. */
  readonly advance: (steps: number, stop: () => boolean) => number;
  /** Proven, in whole units of cost. */
  readonly bound: () => number;
  readonly done: () => boolean;
}

/** Cells along the longest side of the largest sheet, one try after the other. */
const RASTERS = [60, 120, 240, 480];
/** Largest table of a raster. */
const MOST_WORK = 1.5e7;

export function coarseBound(model: Model): CoarseBound {
  let raster = 0;
  let generation: Generation | null = null;
  let bound = 0;
  let done = false;
  const begin = (): void => {
    const coarse = raster < RASTERS.length ? coarsened(model, RASTERS[raster++]!) : null;
    const table = coarse && guillotineTable(coarse, MOST_WORK);
    if (!coarse || !table) {
      done = true;
      return;
    }
    const pool = createPool(coarse);
    for (const { pattern } of fill(coarse, byArea(coarse)).layouts) pool.add(pattern);
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
        if (!generation) begin();
        if (!generation) break;
        spent += generation.advance(steps - spent, stop);
        bound = Math.max(bound, generation.bound());
        if (generation.done()) generation = null;
      }
      return spent;
    },
    bound: () => bound,
    done: () => done,
  };
}

/** The model on a raster of about so many cells. Parts of less than one cell are left out, which bounds the rest all the same. */
function coarsened(model: Model, cells: number): Model | null {
  const longest = Math.max(...model.sheets.map((sheet) => Math.max(sheet.length, sheet.width)));
  const least = Math.ceil(longest / cells);
  if (least < 2) return null;
  // A part that turns is measured by both rasters, so they must be one.
  const turns = model.kinds.some((kind) => kind.turn);
  const across = (side: 'length' | 'width') => [model.sheets.map((s) => s[side]), model.kinds.map((k) => k[side])] as const;
  const [sheetLengths, lengths] = across('length');
  const [sheetWidths, widths] = across('width');
  const weight = model.kinds.map((kind) => kind.count * kind.length * kind.width);
  const x = turns
    ? bestCell(least, [...sheetLengths, ...sheetWidths], [...lengths, ...widths], [...weight, ...weight])
    : bestCell(least, sheetLengths, lengths, weight);
  const y = turns ? x : bestCell(least, sheetWidths, widths, weight);
  const down = <T extends { readonly length: number; readonly width: number }>(it: T): T => ({
    ...it,
    length: Math.floor(it.length / x),
    width: Math.floor(it.width / y),
  });
  const kinds = model.kinds.map(down).filter((kind) => kind.length > 0 && kind.width > 0);
  if (kinds.length === 0) return null;
  return {
    ...model,
    kinds,
    sheets: model.sheets.map(down),
    total: kinds.reduce((sum, kind) => sum + kind.count, 0),
  };
}

/** Between `least` and half as much again, the cell that takes least from the parts for what it takes from the sheets. */
function bestCell(
  least: number,
  sheets: readonly number[],
  sizes: readonly number[],
  weight: readonly number[],
): number {
  const tries = 64;
  let best = least;
  let bestScore = -1;
  for (let t = 0; t <= tries; t++) {
    const cell = least + Math.floor((least * t) / (2 * tries));
    const kept = (size: number): number => (Math.floor(size / cell) * cell) / size;
    const ofSheets = Math.max(...sheets.map(kept));
    const score = sizes.reduce((sum, size, i) => sum + weight[i]! * kept(size), 0) / ofSheets;
    if (score > bestScore) [best, bestScore] = [cell, score];
  }
  return best;
}
