import type { Generator, WholeDuals } from './generate.ts';
import { fillCompletions } from './knapsack.ts';
import type { Model } from './model.ts';

/**
 * All patterns that a plan of cost ≤ target can use. With dual values y (no pattern worth more than its cost) a plan costs
 * Σ y·demand plus the reduced costs of its patterns, so a pattern whose reduced cost exceeds target − bound is in no such plan.
 * When the rounded-up bound is close to the true one, few patterns remain, and the rest of the search can do without a knapsack.
 * (Baldacci et al. 2008 for routing; Wei, Luo, Baldacci & Lim 2020 use the same argument for boards.)
 *
 * Held flat: pattern p has entries start[p] … start[p+1]−1.
 */
export interface Pool {
  readonly stock: Int32Array;
  readonly start: Int32Array;
  readonly kind: Int32Array;
  readonly count: Int32Array;
  readonly size: number;
  /** For patterns over several runs, the kinds in each run. */
  readonly split: ReadonlyMap<number, readonly (readonly number[])[]>;
}

/** @returns undefined when there are more than `most` patterns, finding them takes too long, or it is stopped. */
export function enumerate(
  { model, limitRow }: Generator,
  duals: WholeDuals,
  limitDual: ArrayLike<number>,
  shrink: number,
  gap: number,
  most: number,
  halt: () => boolean,
): Pool | undefined {
  const stock: number[] = [];
  const start: number[] = [0];
  const kindOf: number[] = [];
  const count: number[] = [];
  const n = model.sizes.length;
  const { sizes, demand } = model;
  const { worths, scale } = duals;
  const largest = model.stocks.reduce((a, s) => Math.max(a, ...s.runs), 0);
  const completion = completions(model, worths, largest, halt);
  if (!completion) return undefined;
  let visits = 0;
  let stopped = false;
  const split = new Map<number, readonly (readonly number[])[]>();

  model.stocks.forEach((s, index) => {
    const row = limitRow[index]!;
    const extra = row >= 0 ? Math.max(0, limitDual[row]!) : 0;
    // A hair in favour of keeping a pattern; the division by `shrink` turns the proven bound's duals back into these worths.
    const need = ((s.cost + extra - gap) * scale * (1 - 1e-11)) / shrink - 2;
    const chosenKind: number[][] = s.runs.map(() => []);
    const chosenCount: number[][] = s.runs.map(() => []);
    /** What the runs from r on can hold at most. */
    const later = s.runs.map((_, r) => s.runs.slice(r).reduce((sum, run) => sum + completion(0, run), 0));
    later.push(0);
    const seen = new Set<string>();

    const keep = (): void => {
      if (stock.length >= most) {
        stopped = true;
        return;
      }
      if (s.runs.length === 1) {
        // Hundreds of thousands of these: they are written down as they are.
        const [kinds, counts] = [chosenKind[0]!, chosenCount[0]!];
        stock.push(index);
        for (let k = 0; k < kinds.length; k++) {
          kindOf.push(kinds[k]!);
          count.push(counts[k]!);
        }
        start.push(kindOf.length);
        return;
      }
      const sum = new Map<number, number>();
      chosenKind.forEach((kinds, r) => {
        kinds.forEach((kind, k) => {
          sum.set(kind, (sum.get(kind) ?? 0) + chosenCount[r]![k]!);
        });
      });
      const kinds = [...sum.keys()].sort((a, b) => a - b);
      const key = kinds.map((kind) => `${kind}x${sum.get(kind)}`).join();
      if (kinds.some((kind) => sum.get(kind)! > demand[kind]!) || seen.has(key)) return;
      seen.add(key);
      split.set(
        stock.length,
        chosenKind.map((inRun, r) =>
          inRun.flatMap((kind, k) => Array.from({ length: chosenCount[r]![k]! }, () => kind)),
        ),
      );
      stock.push(index);
      for (const kind of kinds) {
        kindOf.push(kind);
        count.push(sum.get(kind)!);
      }
      start.push(kindOf.length);
    };
    const walk = (r: number, from: number, room: number, have: number): void => {
      if (stopped) return;
      visits += 1;
      if ((visits & 4095) === 0 && halt()) stopped = true;
      if (visits > 40 * most) stopped = true;
      // Done with this run: on to the next, or the pattern is whole.
      if (r + 1 < s.runs.length) {
        if (have + later[r + 1]! >= need) walk(r + 1, 0, s.runs[r + 1]!, have);
      } else if (have >= need && chosenKind.some((kinds) => kinds.length > 0)) keep();
      for (let i = from; i < n && !stopped; i++) {
        if (have + completion(i, room) + later[r + 1]! < need) return;
        const size = sizes[i]!;
        if (size > room) continue;
        const times = Math.min(demand[i]!, Math.floor(room / size));
        chosenKind[r]!.push(i);
        for (let t = times; t > 0; t--) {
          chosenCount[r]!.push(t);
          walk(r, i + 1, room - t * size, have + t * worths[i]!);
          chosenCount[r]!.pop();
        }
        chosenKind[r]!.pop();
      }
    };
    walk(0, 0, s.runs[0]!, 0);
  });
  if (stopped || halt()) return undefined;
  return {
    stock: new Int32Array(stock),
    start: new Int32Array(start),
    kind: new Int32Array(kindOf),
    count: new Int32Array(count),
    size: stock.length,
    split,
  };
}

const MOST_CELLS = 3_000_000;

/** No less than what kinds from i on can still add in a given room. */
function completions(
  model: Model,
  worths: Float64Array,
  largest: number,
  stop: () => boolean,
): ((i: number, room: number) => number) | undefined {
  const n = model.sizes.length;
  const grain = Math.max(1, Math.ceil(((n + 1) * (largest + 1)) / MOST_CELLS));
  const width = Math.floor(largest / grain) + 1;
  const table = new Float64Array((n + 1) * width);
  const most = model.sizes.map((size, i) => Math.min(model.demand[i]!, Math.floor(largest / size)));
  if (!fillCompletions(table, width, grain, model.sizes, worths, most, stop)) return undefined;
  return (i, room) => table[i * width + Math.floor(room / grain)]!;
}
