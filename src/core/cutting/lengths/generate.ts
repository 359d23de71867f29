import { createKnapsacks, type Knapsacks, type KnapsackTable, type Packing } from './knapsack.ts';
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

export function createGenerator(model: Model, stop?: () => boolean): Generator {
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
    knapsacks: createKnapsacks(model.sizes, runs[0] ?? 0, stop),
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
 * Stops early when `enough(bound, value)` says so, and with `roughly` where going on takes slow exact knapsacks. With a `centre`, prices
 * are drawn towards the ones that have proven most so far, at first to it: fewer rounds, since the duals of the first ones swing wide
 * (Wentges, "Weighted Dantzig–Wolfe decomposition for linear mixed-integer programming", International Transactions in Operational
 * Research 4, 1997). Only where tables are exact and stock is whole and unlimited.
 */
export function generate(
  generator: Generator,
  demand: readonly number[],
  halt: () => boolean,
  enough: (bound: number, value: number) => boolean,
  roughly = false,
  centre?: ArrayLike<number>,
): Relaxation {
  const { model, linear } = generator;
  let bound = 0;
  const most = Float64Array.from(demand);
  let towards = model.stocks.every(({ runs, limit }) => runs.length === 1 && limit === Number.POSITIVE_INFINITY)
    ? centre
    : undefined;
  for (;;) {
    const finished = optimise(linear, halt);
    const value = objective(linear);
    if (!finished) return { value, bound, complete: false, halted: true };
    if (towards) {
      const between = priceBetween(generator, demand, most, towards);
      if (!between) return { value, bound, complete: false, halted: true };
      if (!between.exact) towards = undefined;
      else if (between.bound > bound) [bound, towards] = [between.bound, between.asked];
      if (enough(bound, value)) return { value, bound, complete: false, halted: false };
      if (halt()) return { value, bound, complete: false, halted: true };
      if (between.added) continue;
    }
    const duals = wholeDuals(model, linear.dual);
    const { scale } = duals;
    const limitWorth = (s: number): number => {
      const row = generator.limitRow[s]!;
      return row >= 0 ? Math.max(0, Math.ceil(linear.dual[row]! * scale)) : 0;
    };
    // A packing is of interest when it is worth more than its stock by a ten-millionth.
    const interest = model.stocks.map((stock, s) => Math.floor((stock.cost * scale + limitWorth(s)) * (1 + 1e-7) + 1));
    const table = generator.knapsacks.table(duals.worths, most);
    if (!table) return { value, bound, complete: false, halted: true };
    const before = generator.patterns.length;
    let near = true;
    model.stocks.forEach((_, s) => {
      const own = generator.runsOf[s]!;
      if (own.length > 1) {
        const packings = own.map((r) => table.best(generator.runs[r]!, 0));
        if (packings.reduce((sum, packing) => sum + packing.worth, 0) > interest[s]!)
          addPattern(generator, patternOf(s, packings));
        return;
      }
      const found = harvestFor(table, generator.runs[own[0]!]!, interest[s]!);
      if (found.length > 0 && found[0]!.worth > 1.01 * interest[s]!) near = false;
      for (const packing of spread(found, most)) addPattern(generator, patternOf(s, [packing]));
    });
    const added = generator.patterns.length > before;
    if (!added && roughly && !table.exact) return { value, bound, complete: false, halted: false };
    // With an inexact table the bound costs a search: it is made when little is left to gain.
    if (table.exact || near || !added) {
      const atMost = model.stocks.map((_, s) => {
        const own = generator.runsOf[s]!;
        let sum = 0;
        for (const r of own) {
          if (table.exact) sum += table.upper(generator.runs[r]!);
          else {
            const best = table.best(generator.runs[r]!, own.length === 1 ? interest[s]! : 0);
            sum += best.atMost;
            if (own.length === 1 && best.worth > interest[s]!) addPattern(generator, patternOf(s, [best]));
          }
        }
        return sum;
      });
      bound = Math.max(bound, provenBound(model, demand, duals, atMost));
      const complete = atMost.every((worth, s) => worth <= interest[s]!);
      if (enough(bound, value) || generator.patterns.length === before)
        return { value, bound, complete, halted: false };
    }
    if (halt()) return { value, bound, complete: false, halted: true };
  }
}

/** How far prices are drawn. Measured on the open instances against 0.3, 0.7 and 0.85. */
const DRAWN = 0.5;
/** Packings worth this share of the best at prices between may still pay at the program's own. */
const NEARLY_BEST = 0.98;

/** One pricing between the program's duals and others; only patterns that pay at the program's own are added. Null when stopped. */
function priceBetween(
  generator: Generator,
  demand: readonly number[],
  most: Float64Array,
  towards: ArrayLike<number>,
): { readonly bound: number; readonly asked: Float64Array; readonly added: boolean; readonly exact: boolean } | null {
  const { model, linear } = generator;
  const asked = new Float64Array(model.sizes.length);
  for (let i = 0; i < asked.length; i++) asked[i] = DRAWN * towards[i]! + (1 - DRAWN) * Math.max(0, linear.dual[i]!);
  const duals = wholeDuals(model, asked);
  const table = generator.knapsacks.table(duals.worths, most);
  if (!table) return null;
  if (!table.exact) return { bound: 0, asked, added: false, exact: false };
  const atMost = model.stocks.map(({ runs }) => table.upper(runs[0]!));
  const before = generator.patterns.length;
  model.stocks.forEach(({ cost, runs }, s) => {
    const interest = Math.floor(Math.min(cost * duals.scale * (1 + 1e-7) + 1, NEARLY_BEST * atMost[s]!));
    const paying = harvestFor(table, runs[0]!, interest)
      .map((packing) => ({ ...packing, worth: worthOf(packing, linear.dual) }))
      .filter(({ worth }) => worth > cost * (1 + 1e-7))
      .sort((a, b) => b.worth - a.worth);
    for (const packing of spread(paying, most)) addPattern(generator, patternOf(s, [packing]));
  });
  return {
    bound: provenBound(model, demand, duals, atMost),
    asked,
    added: generator.patterns.length > before,
    exact: true,
  };
}

function worthOf({ kinds, counts }: Packing, dual: ArrayLike<number>): number {
  let worth = 0;
  for (let k = 0; k < kinds.length; k++) worth += dual[kinds[k]!]! * counts[k]!;
  return worth;
}

/** Packings worth more than `interest`: first those at least half as much above it as the best can be, then any. */
function harvestFor(table: KnapsackTable, capacity: number, interest: number): readonly Packing[] {
  const upper = table.upper(capacity);
  if (upper <= interest) return [];
  for (const share of [0.5, 0.1, 0]) {
    const found = table.harvest(capacity, interest + share * (upper - interest), 4);
    if (found.length > 0) return found;
  }
  return [];
}

const MOST_AT_ONCE = 24;

/** The worthiest, passing over those whose kinds are already taken up by worthier ones: a basis needs different patterns, not similar ones. */
function spread(found: readonly Packing[], most: ArrayLike<number>): readonly Packing[] {
  const used = new Map<number, number>();
  const chosen: Packing[] = [];
  for (const packing of found) {
    if (chosen.length >= MOST_AT_ONCE) break;
    const full = packing.kinds.some(
      (kind, k) => chosen.length > 0 && (used.get(kind) ?? 0) + packing.counts[k]! > most[kind]!,
    );
    if (full) continue;
    packing.kinds.forEach((kind, k) => {
      used.set(kind, (used.get(kind) ?? 0) + packing.counts[k]!);
    });
    chosen.push(packing);
  }
  return chosen;
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
