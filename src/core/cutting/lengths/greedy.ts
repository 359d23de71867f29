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
  const left = [...demand];
  const limits = model.stocks.map((stock, s) => stock.limit - (already[s] ?? 0));
  const cuts: Cut[] = [];
  let first = 0;
  for (;;) {
    while (first < left.length && left[first] === 0) first += 1;
    if (first === left.length) return cuts;
    let best: { stock: number; runs: Fill[]; price: number; carries: number } | undefined;
    for (let s = 0; s < model.stocks.length; s++) {
      if (limits[s]! <= 0) continue;
      const stock = model.stocks[s]!;
      const runs = fill(model, left, stock.runs, first);
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

function fill(model: Model, demand: readonly number[], runs: readonly number[], first: number): Fill[] {
  const taken = new Map<number, number>();
  return runs.map((run) => {
    const kinds: number[] = [];
    const counts: number[] = [];
    let room = run;
    for (let i = first; i < model.sizes.length && room > 0; i++) {
      const size = model.sizes[i]!;
      if (size > room) continue;
      const had = taken.get(i) ?? 0;
      const count = Math.min(demand[i]! - had, Math.floor(room / size));
      if (count <= 0) continue;
      taken.set(i, had + count);
      kinds.push(i);
      counts.push(count);
      room -= count * size;
    }
    return { kinds, counts, carries: run - room };
  });
}
