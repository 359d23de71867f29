import type { Model } from './model.ts';
import { type Cut, patternOf } from './pattern.ts';

/**
 * Fills pieces of stock one after another, the largest part that still fits first (first-fit decreasing, seen one board at a time), each
 * time on the stock that then costs least for the length it carries. A pattern is repeated as often as the demand lets it.
 * Undefined when the limited stock runs out.
 */
export function fillGreedily(
  model: Model,
  demand: readonly number[],
  already: readonly number[] = [],
): readonly Cut[] | undefined {
  const left = Float64Array.from(demand);
  const limits = model.stocks.map((stock, s) => stock.limit - (already[s] ?? 0));
  const cuts: Cut[] = [];
  const fill = createFill(model, left);
  for (;;) {
    if (fill.done()) return cuts;
    let best: { stock: number; runs: Fill[]; price: number; carries: number } | undefined;
    for (let s = 0; s < model.stocks.length; s++) {
      if (limits[s]! <= 0) continue;
      const stock = model.stocks[s]!;
      const runs = fill.runs(stock.runs);
      const carries = runs.reduce((sum, run) => sum + run.carries, 0);
      if (carries === 0) continue;
      const price = stock.cost / carries;
      if (!best || price < best.price || (price === best.price && carries > best.carries))
        best = { stock: s, runs, price, carries };
    }
    if (!best) return undefined;
    const pattern = patternOf(best.stock, best.runs);
    let times = limits[best.stock]!;
    pattern.kinds.forEach((kind, k) => {
      times = Math.min(times, Math.floor(left[kind]! / pattern.counts[k]!));
    });
    pattern.kinds.forEach((kind, k) => {
      left[kind]! -= times * pattern.counts[k]!;
    });
    limits[best.stock]! -= times;
    cuts.push({ pattern, times });
  }
}

interface Fill {
  readonly kinds: number[];
  readonly counts: number[];
  readonly carries: number;
}

/** Looks only at kinds of which some are left: each board of a long list would else cost the whole list. */
function createFill(model: Model, left: Float64Array) {
  const { sizes } = model;
  const n = sizes.length;
  // The next kind not used up, as far as is known; paths are halved on the way (union-find).
  const next = Int32Array.from({ length: n + 1 }, (_, i) => i);
  const open = (from: number): number => {
    let i = from;
    while (i < n) {
      if (next[i] === i && left[i]! <= 0) next[i] = i + 1;
      if (next[i] === i) return i;
      next[i] = next[next[i]!]!;
      i = next[i]!;
    }
    return n;
  };
  const taken = new Float64Array(n);
  return {
    done: (): boolean => open(0) === n,
    runs: (runs: readonly number[]): Fill[] => {
      const filled = runs.map((run) => {
        const kinds: number[] = [];
        const counts: number[] = [];
        let room = run;
        for (let i = open(firstWithin(sizes, room)); i < n; ) {
          const count = Math.min(left[i]! - taken[i]!, Math.floor(room / sizes[i]!));
          if (count > 0) {
            taken[i] = taken[i]! + count;
            kinds.push(i);
            counts.push(count);
            room -= count * sizes[i]!;
          }
          i = open(Math.max(i + 1, firstWithin(sizes, room)));
        }
        return { kinds, counts, carries: run - room };
      });
      for (const { kinds } of filled) for (const kind of kinds) taken[kind] = 0;
      return filled;
    },
  };
}

/** Sizes fall: the first that is no longer than `room`. */
export function firstWithin(sizes: readonly number[], room: number): number {
  let low = 0;
  let high = sizes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sizes[middle]! <= room) high = middle;
    else low = middle + 1;
  }
  return low;
}
