import { createFiller } from './fill.ts';
import type { GuillotineTable } from './guillotine.ts';
import type { Model } from './model.ts';
import { heldBy, kindsOf, type Pattern, type Plan } from './pattern.ts';
import { type Column, createMaster } from './simplex.ts';

/**
 * Column generation: the linear program over all guillotine patterns, one pattern at a time as the duals ask for it. Its value is
 * a bound on every plan, its patterns the stuff good plans are made of.
 *
 * Sources: Gilmore & Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9, 1961, and
 * "Multistage cutting stock problems of two and more dimensions", Operations Research 13, 1965; bound from any duals: Farley,
 * "A note on bounding a class of linear programming problems, including cutting stock problems", Operations Research 38, 1990;
 * smoothed duals: Wentges, "Weighted Dantzig–Wolfe decomposition for linear mixed-integer programming", International
 * Transactions in Operational Research 4, 1997.
 */
export interface Pool {
  readonly patterns: () => readonly PoolPattern[];
  /** Adds a pattern unless one with the same parts on the same sheet is there. True when it was new. */
  readonly add: (pattern: Pattern) => boolean;
}
export interface PoolPattern {
  readonly pattern: Pattern;
  /** Kinds and how many of each, by kind. */
  readonly kinds: Int32Array;
  readonly counts: Int32Array;
}

/** Patterns, each set of parts once. Never more than `most`: then the oldest go. */
export function createPool(most = 20_000): Pool {
  let patterns: PoolPattern[] = [];
  const seen = new Map<string, number>();
  return {
    patterns: () => patterns,
    add: (pattern) => {
      const { kinds, counts } = heldBy(pattern);
      const key = `${pattern.sheet}|${kinds.join()}|${counts.join()}`;
      if (kinds.length === 0 || seen.has(key)) return false;
      if (patterns.length >= most) {
        patterns = patterns.slice(most >> 1);
        seen.clear();
        for (const p of patterns) seen.set(`${p.pattern.sheet}|${p.kinds.join()}|${p.counts.join()}`, 1);
      }
      seen.set(key, 1);
      patterns.push({ pattern, kinds, counts });
      return true;
    },
  };
}

/** Rows of the master: the kinds, then the sheets of limited count. */
export function masterFor(model: Model, rest: Int32Array, stockLeft: Int32Array) {
  const limited = model.sheets.map((sheet, s) => (sheet.count < model.total ? s : -1)).filter((s) => s >= 0);
  const rowOfSheet = new Map(limited.map((s, i) => [s, model.kinds.length + i]));
  const dearest = Math.max(1, ...model.sheets.map((sheet) => sheet.cost));
  const master = createMaster(
    [...rest, ...limited.map((s) => stockLeft[s]!)],
    [...model.kinds.map(() => false), ...limited.map(() => true)],
    // A part has a pattern of its own for no more than the dearest sheet; where sheets are few, leaving it out must cost more than any.
    dearest * (limited.length > 0 ? 20 : 3),
  );
  const column = (entry: PoolPattern): Column => {
    const row = rowOfSheet.get(entry.pattern.sheet);
    return {
      cost: model.sheets[entry.pattern.sheet]!.cost,
      rows: row === undefined ? entry.kinds : Int32Array.from([...entry.kinds, row]),
      amounts: Float64Array.from(row === undefined ? entry.counts : [...entry.counts, 1]),
    };
  };
  return { master, column };
}

/** The linear program for what is left, solved bit by bit. */
export interface Generation {
  /** Prices patterns for about so many steps; returns the steps spent. */
  readonly advance: (steps: number, stop: () => boolean) => number;
  /** Nothing more to gain: the bound is the program's own, rounded up. */
  readonly done: () => boolean;
  /** Proven, in whole units of cost. */
  readonly bound: () => number;
  /** Worth of one more of each kind. */
  readonly duals: () => Float64Array;
}

/** One step of search is worth about this much table work. */
export const WORK_PER_STEP = 40_000;

/**
 * New patterns go to the pool; those with more of a kind than is left are also put there thinned out and topped up, since only
 * such can be part of a plan. `table` must be of the same model.
 */
export function createGeneration(
  model: Model,
  table: GuillotineTable,
  pool: Pool,
  rest: Int32Array,
  stockLeft: Int32Array,
  start: readonly PoolPattern[] = pool.patterns(),
): Generation {
  const kinds = model.kinds.length;
  const { master, column } = masterFor(model, rest, stockLeft);
  for (const entry of start) if (fitsRest(entry, rest)) master.add(column(entry));
  const tableSteps = table.work / (WORK_PER_STEP / 2);
  const filler = createFiller(model);
  const raw = createPool(1_000_000);
  let bound = 0;
  let done = false;
  let centre: Float64Array | null = null;
  let duals = new Float64Array(kinds);

  /** Prices once; false when the program is solved or the search was stopped. */
  const round = (stop: () => boolean): number => {
    const answer = master.solve(3000, stop);
    if (stop()) return 0;
    duals = answer.duals.slice(0, kinds).map((d, k) => (rest[k]! > 0 ? Math.max(0, d) : 0));
    let spent = Math.ceil(answer.work / WORK_PER_STEP);
    // Smoothed duals first; where they find nothing, the true ones.
    for (const weight of centre ? [0.5, 0] : [0]) {
      const asked: Float64Array = duals.map((d, k) => (centre ? weight * centre[k]! + (1 - weight) * d : d));
      const worths = table.fill(asked, stop);
      spent += Math.ceil(tableSteps + 3 * model.sheets.length);
      if (!worths) return spent;
      const proven = table.exact ? farley(model, asked, rest, stockLeft, worths) : 0;
      if (proven > bound || centre === null) {
        bound = Math.max(bound, proven);
        centre = asked;
      }
      let added = false;
      for (let s = 0; s < model.sheets.length; s++) {
        if (stockLeft[s]! <= 0) continue;
        const pattern = table.pattern(s);
        const thinned = thin(model, pattern, rest, asked, filler);
        if (thinned !== null && pool.add(thinned)) {
          master.add(column(pool.patterns().at(-1)!));
          added = true;
        }
        if (!raw.add(pattern)) continue;
        if (thinned === null) pool.add(pattern);
        const entry = column(raw.patterns().at(-1)!);
        let reduced = entry.cost;
        for (let n = 0; n < entry.rows.length; n++) reduced -= answer.duals[entry.rows[n]!]! * entry.amounts[n]!;
        if (reduced < -1e-7 * Math.max(1, entry.cost)) {
          master.add(entry);
          added = true;
        }
      }
      // Where the columns do not cover all parts yet, the value says nothing.
      if (table.exact && answer.covered && Math.ceil(answer.value - GIVE) <= Math.ceil(bound - GIVE)) break;
      if (added) return spent;
    }
    done = true;
    return spent;
  };

  return {
    advance: (steps, stop) => {
      let spent = 0;
      while (!done && spent < steps && !stop()) spent += round(stop);
      return spent;
    },
    done: () => done,
    bound: () => Math.ceil(bound - GIVE),
    duals: () => duals,
  };
}

/** Rounding errors are far below this; it is given away so that a bound is never too high. */
const GIVE = 1e-6;

const fitsRest = (entry: PoolPattern, rest: Int32Array): boolean => {
  for (let n = 0; n < entry.kinds.length; n++) if (entry.counts[n]! > rest[entry.kinds[n]!]!) return false;
  return true;
};

/** The bound that duals prove when `worths` are the greatest worths of patterns under them: Lagrange, with Farley's scaling. */
function farley(
  model: Model,
  duals: Float64Array,
  rest: Int32Array,
  stockLeft: Int32Array,
  worths: Float64Array,
): number {
  let scale = Number.POSITIVE_INFINITY;
  model.sheets.forEach((sheet, s) => {
    if (sheet.count >= model.total && worths[s]! > 0) scale = Math.min(scale, sheet.cost / worths[s]!);
  });
  if (scale === Number.POSITIVE_INFINITY) scale = 1;
  let bound = 0;
  for (let k = 0; k < rest.length; k++) bound += scale * duals[k]! * rest[k]!;
  model.sheets.forEach((sheet, s) => {
    if (sheet.count < model.total) bound += stockLeft[s]! * Math.min(0, sheet.cost - scale * worths[s]!);
  });
  return bound;
}

/** The pattern with no more of a kind than `rest`, its gaps filled by what is worth most for its area. Null when it was so already. */
function thin(
  model: Model,
  pattern: Pattern,
  rest: Int32Array,
  values: Float64Array,
  filler: ReturnType<typeof createFiller>,
): Pattern | null {
  const counts = kindsOf(pattern, model.kinds.length);
  let over = false;
  for (let k = 0; k < counts.length; k++) over ||= counts[k]! > rest[k]!;
  if (!over) return null;
  const kept = counts.map((count, k) => Math.min(count, rest[k]!));
  const order = model.kinds
    .map((_, k) => k)
    .filter((k) => rest[k]! > 0 && values[k]! > 0)
    .sort((a, b) => density(model, values, b) - density(model, values, a));
  const first = order.filter((k) => kept[k]! > 0).sort((a, b) => a - b);
  const firstRest = rest.map((_, k) => kept[k]!);
  return filler(pattern.sheet, [...first, ...order], rest, firstRest).pattern;
}

const density = (model: Model, values: Float64Array, k: number): number =>
  values[k]! / (model.kinds[k]!.length * model.kinds[k]!.width);

/**
 * A whole plan out of the pool: the linear program is solved over patterns that fit what is left, whole numbers of it are fixed,
 * else the pattern used most, until nothing is left or `small` parts remain. Greedy diving, as in Wäscher & Gau, "Heuristics for
 * the integer one-dimensional cutting stock problem", OR Spektrum 18, 1996.
 */
export interface Dive {
  readonly layouts: Plan['layouts'];
  readonly rest: Int32Array;
  readonly stockLeft: Int32Array;
  readonly restParts: number;
  readonly steps: number;
}
export function dive(
  model: Model,
  pool: Pool,
  /** Patterns with little reduced cost come first; only these and such as `refine` adds are looked at. */
  duals: Float64Array,
  from: { readonly rest: Int32Array; readonly stockLeft: Int32Array },
  small: number,
  chance: () => number,
  /** Adds patterns made for what is left; returns the steps spent. */
  refine: ((rest: Int32Array, stockLeft: Int32Array, start: readonly PoolPattern[]) => number) | null,
  stop: () => boolean,
): Dive {
  const rest = from.rest.slice();
  const stockLeft = from.stockLeft.slice();
  const layouts: { pattern: Pattern; times: number }[] = [];
  let restParts = rest.reduce((sum, count) => sum + count, 0);
  let steps = 0;
  const fix = (entry: PoolPattern, times: number): void => {
    let fits = Math.min(times, stockLeft[entry.pattern.sheet]!);
    for (let n = 0; n < entry.kinds.length; n++)
      fits = Math.min(fits, Math.floor(rest[entry.kinds[n]!]! / entry.counts[n]!));
    if (fits <= 0) return;
    for (let n = 0; n < entry.kinds.length; n++) {
      rest[entry.kinds[n]!] = rest[entry.kinds[n]!]! - entry.counts[n]! * fits;
      restParts -= entry.counts[n]! * fits;
    }
    stockLeft[entry.pattern.sheet] = stockLeft[entry.pattern.sheet]! - fits;
    layouts.push({ pattern: entry.pattern, times: fits });
  };
  let candidates = cheapest(model, pool.patterns(), duals, CANDIDATES);
  while (restParts > small && !stop()) {
    if (refine) {
      const known = new Set(pool.patterns());
      steps += refine(rest, stockLeft, candidates);
      candidates = [...candidates, ...pool.patterns().filter((entry) => !known.has(entry))];
    }
    const { master, column } = masterFor(model, rest, stockLeft);
    const fitting = candidates.filter((entry) => stockLeft[entry.pattern.sheet]! > 0 && fitsRest(entry, rest));
    if (fitting.length === 0) break;
    for (const entry of fitting) master.add(column(entry));
    const answer = master.solve(3000, stop);
    steps += Math.ceil((answer.work + fitting.length * 20) / WORK_PER_STEP);
    const before = restParts;
    const use = [...answer.x.entries()].filter(([, x]) => x > 1e-6).sort((a, b) => b[1] - a[1]);
    for (const [c, x] of use) if (x >= NEARLY) fix(fitting[c]!, Math.floor(x + 1 - NEARLY));
    if (restParts === before) {
      if (use.length === 0) break;
      // The most used pattern, or one nearly as much used.
      let best = use[0]!;
      let bestScore = -1;
      for (const entry of use) {
        const score = entry[1] * (0.7 + 0.3 * chance());
        if (score > bestScore) {
          bestScore = score;
          best = entry;
        }
      }
      fix(fitting[best[0]]!, 1);
      if (restParts === before) break;
    }
  }
  return { layouts, rest, stockLeft, restParts, steps };
}

/** From this share on a pattern is taken as wanted whole. */
const NEARLY = 0.8;
/** Patterns a dive looks at. */
const CANDIDATES = 1000;

/** The patterns that cost least above the worth of their parts, relative to their sheet. */
export function cheapest(
  model: Model,
  patterns: readonly PoolPattern[],
  duals: Float64Array,
  most: number,
): PoolPattern[] {
  if (patterns.length <= most) return [...patterns];
  const over = patterns.map((entry) => {
    const { cost } = model.sheets[entry.pattern.sheet]!;
    let worth = 0;
    for (let n = 0; n < entry.kinds.length; n++) worth += duals[entry.kinds[n]!]! * entry.counts[n]!;
    return (cost - worth) / Math.max(1, cost);
  });
  const order = patterns.map((_, i) => i).sort((a, b) => over[a]! - over[b]! || a - b);
  return order.slice(0, most).map((i) => patterns[i]!);
}

/** The part of the model that is still to be cut. Kinds with nothing left are gone; `kindOf` leads back. */
export function remainder(
  model: Model,
  rest: Int32Array,
  stockLeft: Int32Array,
): { readonly model: Model; readonly kindOf: readonly number[]; readonly sheetOf: readonly number[] } {
  const kindOf = model.kinds.map((_, k) => k).filter((k) => rest[k]! > 0);
  const sheetOf = model.sheets.map((_, s) => s).filter((s) => stockLeft[s]! > 0);
  const total = kindOf.reduce((sum, k) => sum + rest[k]!, 0);
  return {
    kindOf,
    sheetOf,
    model: {
      ...model,
      total,
      kinds: kindOf.map((k) => ({ ...model.kinds[k]!, count: rest[k]! })),
      sheets: sheetOf.map((s) => ({ ...model.sheets[s]!, count: Math.min(stockLeft[s]!, total) })),
    },
  };
}

/** A plan of the remainder in the numbers of the whole. */
export function lift(sub: ReturnType<typeof remainder>, plan: Plan): Plan['layouts'] {
  return plan.layouts.map(({ pattern, times }) => ({
    times,
    pattern: {
      sheet: sub.sheetOf[pattern.sheet]!,
      code: pattern.code.map((c) => (c >= 0 ? sub.kindOf[c >> 1]! * 2 + (c & 1) : c)),
    },
  }));
}

/** A pattern of the whole in the numbers of the remainder, which has all its kinds. */
export const lower = (sub: ReturnType<typeof remainder>, pattern: Pattern): Pattern => {
  const kindAt = new Map(sub.kindOf.map((k, i) => [k, i]));
  return {
    sheet: sub.sheetOf.indexOf(pattern.sheet),
    code: pattern.code.map((c) => (c >= 0 ? kindAt.get(c >> 1)! * 2 + (c & 1) : c)),
  };
};
