import { cheapest, type Dive, masterFor, type Pool, type PoolPattern, WORK_PER_STEP } from './columns.ts';
import type { Model } from './model.ts';
import type { Pattern } from './pattern.ts';
import type { ProperTable } from './proper.ts';
import type { Column } from './simplex.ts';

/**
 * Dives by proper patterns: before every choice the linear program for what is left is solved anew over patterns that hold nothing
 * twice, priced by `properTable`; then the pattern it uses most is fixed. Where the program says that what is left cannot be had for
 * the goal, the dive ends. The next one goes back some way and chooses otherwise there, or begins anew.
 *
 * Source: Clautiaux, Sadykov, Vanderbeck & Viaud, "Pattern-based diving heuristics for a two-dimensional guillotine cutting-stock
 * problem with leftovers", EURO Journal on Computational Optimization 7, 2019 (columns made at every node, other choices after a
 * dive has failed).
 */
export interface ProperDiver {
  /** Fixes patterns until at most `small` parts are left, the goal is out of reach or about `most` steps are spent. */
  readonly dive: (goal: number, small: number, most: number, chance: () => number, stop: () => boolean) => Dive;
}

/** Rounds of pricing for the whole, and after each choice. */
const FIRST = 200;
const LATER = 40;
/** Patterns taken from one table. */
const EACH = 12;
/** Where no pattern pays, the worths are shaken by this share, more each time, so often for the whole and after each choice. */
const SHAKE = 0.1;
const FIRST_SHAKES = 6;
const LATER_SHAKES = 2;
/** Patterns are made by a heuristic: the program may be better than it knows, by this share of a sheet. */
const HOPE = 0.12;
/** From this share on a pattern is taken as wanted whole. */
const NEARLY = 0.9;
/** How often a dive goes on from the one before. */
const GO_BACK = 0.75;
/** Patterns looked at; when there are twice as many, the dearest are forgotten. */
const CANDIDATES = 2500;

type Fixed = { readonly entry: PoolPattern; readonly times: number };

export function createProperDiver(
  model: Model,
  table: ProperTable,
  pool: Pool,
  from: { readonly rest: Int32Array; readonly stockLeft: Int32Array },
): ProperDiver {
  const kinds = model.kinds.length;
  const tableSteps = Math.ceil((4 * table.work) / WORK_PER_STEP);
  const hope = HOPE * Math.min(...model.sheets.map((sheet) => sheet.cost));
  let worths: Float64Array | null = null;
  let candidates: PoolPattern[] = [];
  let last: PoolPattern | undefined;
  /** By the last program. */
  let used: readonly PoolPattern[] = [];
  let trace: readonly Fixed[] = [];
  // Rows and amounts are the same in every program of this model: made once, since each dive asks for thousands.
  const columns = new WeakMap<PoolPattern, Column>();

  const fits = (entry: PoolPattern, rest: Int32Array, stockLeft: Int32Array): boolean => {
    if (stockLeft[entry.pattern.sheet]! <= 0) return false;
    for (let n = 0; n < entry.kinds.length; n++) if (entry.counts[n]! > rest[entry.kinds[n]!]!) return false;
    return true;
  };
  /** What the other methods have found since. */
  const collect = (): void => {
    const patterns = pool.patterns();
    const begin = last === undefined ? 0 : patterns.lastIndexOf(last) + 1;
    for (let n = begin; n < patterns.length; n++)
      if (fits(patterns[n]!, from.rest, from.stockLeft)) candidates.push(patterns[n]!);
    last = patterns.at(-1);
    if (worths && candidates.length > 2 * CANDIDATES) candidates = cheapest(model, candidates, worths, CANDIDATES);
  };

  /** The linear program for what is left, with new patterns until nothing pays or the goal is in reach. */
  const solve = (
    rest: Int32Array,
    stockLeft: Int32Array,
    goal: number,
    first: boolean,
    mostSteps: number,
    chance: () => number,
    stop: () => boolean,
  ) => {
    const { master, column } = masterFor(model, rest, stockLeft);
    const fitting: PoolPattern[] = [];
    const take = (entry: PoolPattern): void => {
      fitting.push(entry);
      let own = columns.get(entry);
      if (!own) {
        own = column(entry);
        columns.set(entry, own);
      }
      master.add(own);
    };
    // What the last program used comes first: from there it is not far, and the thousands of others are priced a few times only.
    const known = new Set<PoolPattern>();
    for (const entry of used)
      if (fits(entry, rest, stockLeft)) {
        known.add(entry);
        take(entry);
      }
    let work = master.solve(3000, stop).work;
    for (const entry of candidates) if (!known.has(entry) && fits(entry, rest, stockLeft)) take(entry);
    let answer = master.solve(3000, stop);
    work += answer.work;
    let steps = Math.ceil((work + candidates.length * 20) / WORK_PER_STEP);
    let settled = false;
    let shakes = 0;
    for (let round = 0; round < (first ? FIRST : LATER) && steps < mostSteps && !stop(); round++) {
      if (!first && answer.covered && answer.value <= goal + 1e-6) break;
      const duals = answer.duals.slice(0, kinds).map((d, k) => (rest[k]! > 0 ? Math.max(0, d) : 0));
      if (first) worths = duals;
      const asked = shakes === 0 ? duals : duals.map((d) => d * (1 + SHAKE * shakes * (chance() - 0.5)));
      let pays = false;
      for (let s = 0; s < model.sheets.length; s++) {
        if (stockLeft[s]! <= 0) continue;
        const most = model.sheets[s]!.cost * (1 + 1e-6);
        steps += tableSteps;
        for (const pattern of table.best(asked, rest, s, shakes === 0 ? most : most * 0.9, EACH, stop) ?? []) {
          if (!pool.add(pattern)) continue;
          const entry = pool.patterns().at(-1)!;
          candidates.push(entry);
          last = entry;
          take(entry);
          let worth = 0;
          for (let n = 0; n < entry.kinds.length; n++) worth += duals[entry.kinds[n]!]! * entry.counts[n]!;
          pays ||= worth > most;
        }
      }
      if (!pays && ++shakes > (first ? FIRST_SHAKES : LATER_SHAKES)) {
        settled = true;
        break;
      }
      if (!pays) continue;
      shakes = 0;
      answer = master.solve(3000, stop);
      steps += Math.ceil(answer.work / WORK_PER_STEP);
    }
    used = fitting.filter((_, c) => answer.x[c]! > 1e-9);
    return { answer, fitting, steps, settled };
  };

  return {
    dive: (goal, small, mostSteps, chance, stop) => {
      const rest = from.rest.slice();
      const stockLeft = from.stockLeft.slice();
      const fixed: Fixed[] = [];
      let restParts = rest.reduce((sum, count) => sum + count, 0);
      let cost = 0;
      let steps = 0;
      const fix = (entry: PoolPattern, times: number): void => {
        let most = Math.min(times, stockLeft[entry.pattern.sheet]!);
        for (let n = 0; n < entry.kinds.length; n++)
          most = Math.min(most, Math.floor(rest[entry.kinds[n]!]! / entry.counts[n]!));
        if (most <= 0) return;
        for (let n = 0; n < entry.kinds.length; n++) {
          rest[entry.kinds[n]!] = rest[entry.kinds[n]!]! - entry.counts[n]! * most;
          restParts -= entry.counts[n]! * most;
        }
        stockLeft[entry.pattern.sheet] = stockLeft[entry.pattern.sheet]! - most;
        cost += most * model.sheets[entry.pattern.sheet]!.cost;
        fixed.push({ entry, times: most });
      };
      collect();
      let first = worths === null;
      let other: PoolPattern | null = null;
      if (!first && trace.length > 1 && chance() < GO_BACK) {
        const kept = Math.floor(trace.length * (0.2 + 0.8 * chance()));
        for (const { entry, times } of trace.slice(0, kept)) fix(entry, times);
        other = trace[kept]?.entry ?? null;
      }
      for (; restParts > small && steps < mostSteps && !stop(); first = false) {
        const {
          answer,
          fitting,
          steps: spent,
          settled,
        } = solve(rest, stockLeft, goal - cost, first, mostSteps - steps, chance, stop);
        steps += spent;
        if (stop() || (settled && answer.covered && cost + answer.value > goal + hope)) break;
        const before = restParts;
        const use = [...answer.x.entries()].filter(([c, x]) => x > 1e-6 && fitting[c] !== other);
        for (const [c, x] of use) if (x >= NEARLY) fix(fitting[c]!, Math.floor(x + 1 - NEARLY));
        if (restParts === before && use.length > 0) {
          // The most used pattern, or one nearly as much used.
          const score = use.map(([, x]) => x * (0.6 + 0.4 * chance()));
          fix(fitting[use[score.indexOf(Math.max(...score))]![0]]!, 1);
        }
        other = null;
        if (restParts === before) break;
      }
      trace = fixed;
      const layouts: { readonly pattern: Pattern; readonly times: number }[] = fixed.map(({ entry, times }) => ({
        pattern: entry.pattern,
        times,
      }));
      return { layouts, rest, stockLeft, restParts, steps };
    },
  };
}
