import { createKnapsacks, type Knapsacks } from './knapsack.ts';
import { addColumn, createLinear, isArtificial, type Linear, objective, optimise } from './linear.ts';
import type { Model } from './model.ts';
import { keyOf, type Pattern, patternOf } from './pattern.ts';

/**
 * Column generation (Gilmore & Gomory 1961, 1963): the linear relaxation over all patterns, of which only the useful ones are ever
 * written down; new ones come from a knapsack whose worths are the duals.
 *
 * Rows: one for each kind (cut at least the demand), then one for each stock of which there is a limit (use at most that many).
 */
export interface Generator {
  readonly model: Model;
  readonly linear: Linear;
  readonly patterns: Pattern[];
  readonly known: Map<string, number>;
  readonly knapsacks: Knapsacks;
  /** Row of a stock's limit, or −1. */
  readonly limitRow: readonly number[];
  /** Distinct runs, and for each stock which of them it has. */
  readonly runs: readonly number[];
  readonly runsOf: readonly (readonly number[])[];
}

export function createGenerator(model: Model): Generator {
  const runs = [...new Set(model.stocks.flatMap((stock) => stock.runs))].sort((a, b) => b - a);
  const runsOf = model.stocks.map((stock) => stock.runs.map((run) => runs.indexOf(run)));
  const dearest = model.stocks.reduce((most, stock) => Math.max(most, stock.cost), 1);
  const rhs = [...model.demand] as number[];
  const limitRow = model.stocks.map((stock) => {
    if (!Number.isFinite(stock.limit)) return -1;
    rhs.push(-stock.limit);
    return rhs.length - 1;
  });
  return {
    model,
    linear: createLinear(rhs, 20 * dearest),
    patterns: [],
    known: new Map(),
    knapsacks: createKnapsacks(model.sizes, runs[0] ?? 0),
    limitRow,
    runs,
    runsOf,
  };
}

/** Adds a pattern once. @returns its column. */
export function addPattern(generator: Generator, pattern: Pattern): number {
  const key = keyOf(pattern);
  const known = generator.known.get(key);
  if (known !== undefined) return known;
  const rows = [...pattern.kinds];
  const values = [...pattern.counts];
  const limit = generator.limitRow[pattern.stock]!;
  if (limit >= 0) {
    rows.push(limit);
    values.push(-1);
  }
  const column = addColumn(generator.linear, generator.model.stocks[pattern.stock]!.cost, rows, values);
  generator.patterns.push(pattern);
  generator.known.set(key, column);
  return column;
}

/** Whole multiples of a small unit in place of floating-point duals; `scale` units make one unit of cost. */
export interface WholeDuals {
  readonly worths: Float64Array;
  readonly scale: number;
}

export function wholeDuals(model: Model, dual: ArrayLike<number>): WholeDuals {
  const dearest = model.stocks.reduce((most, stock) => Math.max(most, stock.cost), 1);
  // 2³² for the dearest stock: a million pieces of it still add up exactly in a double.
  const scale = Math.max(1, Math.floor(2 ** 32 / dearest));
  const ceiling = dearest * scale;
  const worths = Float64Array.from(model.sizes, (_, i) => Math.min(ceiling, Math.max(0, Math.floor(dual[i]! * scale))));
  return { worths, scale };
}

/**
 * A proven lower bound from any worths whatever (weak duality; Farley 1990 for the division): scale them down until no unlimited
 * stock's best packing is worth more than it costs; what a limited stock is worth above its cost counts as often as there is of it.
 *
 * All sums are of whole numbers and exact; the last division and products are off by a few parts in 10¹⁶ and lowered by one in 10¹².
 */
export function provenBound(
  model: Model,
  demand: ArrayLike<number>,
  { worths, scale }: WholeDuals,
  atMost: readonly number[],
): number {
  let gain = 0;
  for (let i = 0; i < worths.length; i++) gain += worths[i]! * demand[i]!;
  let shrink = 1;
  model.stocks.forEach((stock, s) => {
    if (!Number.isFinite(stock.limit) && atMost[s]! > stock.cost * scale)
      shrink = Math.min(shrink, (stock.cost * scale) / atMost[s]!);
  });
  let bound = shrink * gain;
  model.stocks.forEach((stock, s) => {
    if (Number.isFinite(stock.limit)) bound -= stock.limit * Math.max(0, shrink * atMost[s]! - stock.cost * scale);
  });
  return Math.max(0, (bound / scale) * (1 - 1e-12));
}

export interface Relaxation {
  /** Value of the linear program over the columns at hand. */
  readonly value: number;
  /** Proven. */
  readonly bound: number;
  /** No column with a negative reduced cost is missing (up to a ten-millionth of the cost). */
  readonly complete: boolean;
  readonly halted: boolean;
}

/**
 * Solves the relaxation for the right-hand side the linear program has now. `most` bounds each kind in a pattern.
 * Stops early when `enough(bound, value)` says so, and with `roughly` where going on takes slow exact knapsacks.
 */
export function generate(
  generator: Generator,
  demand: readonly number[],
  halt: () => boolean,
  enough: (bound: number, value: number) => boolean,
  roughly = false,
): Relaxation {
  const { model, linear } = generator;
  let bound = 0;
  let rough = generator.knapsacks.slow;
  for (;;) {
    const finished = optimise(linear, halt);
    const value = objective(linear);
    if (!finished) return { value, bound, complete: false, halted: true };
    const duals = wholeDuals(model, linear.dual);
    const { scale } = duals;
    const limitWorth = (s: number): number => {
      const row = generator.limitRow[s]!;
      return row >= 0 ? Math.max(0, Math.ceil(linear.dual[row]! * scale)) : 0;
    };
    // A packing is of interest when it is worth more than its stock by a ten-millionth.
    const interest = model.stocks.map((stock, s) => (stock.cost * scale + limitWorth(s)) * (1 + 1e-7) + 1);
    const most = Float64Array.from(demand);
    let added = 0;
    let complete = true;
    const rounds = generator.knapsacks.slow ? (rough ? 8 : 3) : 12;
    for (let round = 0; round < rounds; round++) {
      const enoughFor = generator.runs.map((_, r) => {
        let least = Number.POSITIVE_INFINITY;
        model.stocks.forEach((_stock, s) => {
          const own = generator.runsOf[s]!;
          if (own.includes(r)) least = Math.min(least, own.length === 1 ? interest[s]! : 0);
        });
        return Math.floor(least);
      });
      const packings = rough
        ? generator.knapsacks.rough(duals.worths, most, generator.runs)
        : generator.knapsacks.best(duals.worths, most, generator.runs, enoughFor);
      const worth = generator.runsOf.map((own) => own.reduce((sum, r) => sum + packings[r]!.worth, 0));
      if (round === 0 && !rough) {
        const atMost = generator.runsOf.map((own) => own.reduce((sum, r) => sum + packings[r]!.atMost, 0));
        bound = Math.max(bound, provenBound(model, demand, duals, atMost));
        complete = atMost.every((value, s) => value <= interest[s]!);
        if (enough(bound, value)) return { value, bound, complete, halted: false };
      }
      let best = -1;
      let least = 0;
      model.stocks.forEach((stock, s) => {
        const above = worth[s]! - interest[s]!;
        if (above <= 0) return;
        const relative = above / Math.max(1, stock.cost * scale);
        if (best < 0 || relative > least) [best, least] = [s, relative];
      });
      if (best < 0) break;
      // The first round offers the best of every stock, later ones only the best of what the earlier ones left over.
      let used: Pattern | undefined;
      model.stocks.forEach((_, s) => {
        if (s !== best && (round > 0 || worth[s]! <= interest[s]!)) return;
        const pattern = patternOf(
          s,
          generator.runsOf[s]!.map((r) => packings[r]!),
        );
        const before = generator.patterns.length;
        addPattern(generator, pattern);
        added += generator.patterns.length - before;
        if (s === best) used = pattern;
      });
      used?.kinds.forEach((kind, k) => {
        most[kind] = Math.max(0, most[kind]! - used!.counts[k]!);
      });
    }
    if (added === 0 && rough && roughly) return { value, bound, complete: false, halted: false };
    if (added === 0 && rough) {
      rough = false;
      continue;
    }
    if (added === 0) return { value, bound, complete, halted: false };
    // An exact round that found something may have opened the way for the rough ones again.
    rough = generator.knapsacks.slow;
    if (halt()) return { value, bound, complete: false, halted: true };
  }
}

/** How often each pattern is used, by column, in the present solution; and whether some demand is met by an artificial. */
export function usage(generator: Generator): { readonly of: Map<number, number>; readonly short: boolean } {
  const { linear } = generator;
  const of = new Map<number, number>();
  let short = false;
  linear.basis.forEach((variable, i) => {
    const level = linear.level[i]!;
    if (variable >= 0) {
      if (level > 1e-7) of.set(variable, level);
    } else if (isArtificial(variable) && level > 1e-5) short = true;
  });
  return { of, short };
}
