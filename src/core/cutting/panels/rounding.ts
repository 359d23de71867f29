import {
  addColumn,
  addRows,
  createLinear,
  dropRows,
  objective,
  optimise,
  refresh,
  reoptimise,
  setBasis,
} from '../lengths/linear.ts';
import { cheapest, type Pool, WORK_PER_STEP } from './columns.ts';
import { codeOf, type GuillotineTable, joined, type Tree } from './guillotine.ts';
import type { Model } from './model.ts';
import { type Pattern, type Plan, planOf } from './pattern.ts';

/**
 * Whole numbers out of the linear program, where parts are wanted many times: how often each pattern of the pool is cut, so that every
 * part is there at least as often as wanted, at a cost within the goal. A tree of programs is searched: a pattern used a broken number
 * of times is cut once more than that (first), or no more than that; where the program says that the goal is out of reach, the search
 * turns back, a few times only, and begins anew with other choices. What is there more often than wanted is left off at the end.
 *
 * Sources: diving with limited discrepancy, Sadykov, Vanderbeck, Pessoa, Tahiri & Uchoa, "Primal heuristics for branch and price: the
 * assets of diving methods", INFORMS Journal on Computing 31, 2019. No patterns are made on the way, so a bound on how often one is cut
 * is all that a choice needs. The patterns: those of the pool, and the best ones for worths shaken.
 */
export interface Rounder {
  /** A plan of at most `goal`, or null when about so many steps have brought none. */
  readonly round: (
    goal: number,
    duals: Float64Array,
    steps: number,
    chance: () => number,
    stop: () => boolean,
  ) => { readonly plan: Plan | null; readonly steps: number };
}

/** Patterns looked at. */
const CANDIDATES = 600;
/** How often worths are shaken for new patterns, and by what share. */
const SHAKES = 20;
const SHAKE = 0.4;
/** So often a dive turns back. */
const TURNS_BACK = 3;
/** What is nearer to a whole number than this is one. */
const WHOLE = 1e-4;
/** Steps of a node beside the pivots. */
const NODE = 0.5;

export function createRounder(
  model: Model,
  pool: Pool,
  table: GuillotineTable,
  from: { readonly rest: Int32Array; readonly stockLeft: Int32Array },
): Rounder {
  const kinds = model.kinds.length;
  const limited = model.sheets.map((_, s) => s).filter((s) => model.sheets[s]!.count < model.total);
  const dearest = model.sheets.reduce((most, { cost }) => Math.max(most, cost), 1);

  /** New patterns; returns the steps spent. */
  const shake = (duals: Float64Array, most: number, chance: () => number, stop: () => boolean): number => {
    let steps = 0;
    for (let n = 0; n < SHAKES && steps < most && !stop(); n++) {
      const worths = table.fill(
        duals.map((d) => d * (1 + SHAKE * (chance() - 0.5))),
        stop,
      );
      steps += table.work / (WORK_PER_STEP / 2);
      if (worths) for (let s = 0; s < model.sheets.length; s++) pool.add(table.pattern(s));
    }
    return steps;
  };

  return {
    round: (goal, duals, mostSteps, chance, stop) => {
      let steps = shake(duals, mostSteps / 4, chance, stop);
      const entries = cheapest(model, pool.patterns(), duals, CANDIDATES);
      const needs = [...from.rest, ...limited.map((sheet) => -from.stockLeft[sheet]!)];
      const linear = createLinear(needs, 100 * dearest);
      for (const { pattern, kinds: held, counts } of entries) {
        const limit = limited.indexOf(pattern.sheet);
        addColumn(
          linear,
          model.sheets[pattern.sheet]!.cost,
          [...held, ...(limit >= 0 ? [kinds + limit] : [])],
          [...counts, ...(limit >= 0 ? [-1] : [])],
        );
      }
      const size = entries.reduce((sum, { kinds: held }) => sum + held.length + 4, 0);
      /** How often each is cut for certain. */
      const fixed = new Int32Array(entries.length);
      let cost = 0;
      const fix = (c: number, times: number): void => {
        linear.columnRows[c]!.forEach((row, n) => {
          linear.rhs[row] = linear.rhs[row]! - linear.columnValues[c]![n]! * times;
        });
        cost += times * linear.cost[c]!;
        fixed[c] = fixed[c]! + times;
      };
      const halt = (): boolean => stop() || steps >= mostSteps;
      const solved = (solve: typeof optimise): boolean => {
        const before = linear.pivots;
        const ended = solve(linear, halt);
        steps += NODE + ((linear.pivots - before) * (2 * size + 8 * linear.rows)) / WORK_PER_STEP;
        return ended;
      };
      let turnedBack = 0;
      /** The program is solved: what is fixed is completed within the goal. */
      const complete = (): boolean => {
        if (cost + Math.ceil(objective(linear) - WHOLE) > goal) return false;
        let next = -1;
        let best = 0;
        let whole = 0;
        for (let k = 0; k < linear.rows; k++) {
          if (linear.basis[k]! < 0) continue;
          const least = Math.floor(linear.level[k]! + WHOLE);
          const part = linear.level[k]! - least;
          const score = part < WHOLE ? 0 : part * (0.5 + chance());
          if (score > best) [next, best, whole] = [linear.basis[k]!, score, least];
        }
        if (next < 0) {
          for (let k = 0; k < linear.rows; k++)
            if (linear.basis[k]! >= 0) fix(linear.basis[k]!, Math.round(linear.level[k]!));
          if (linear.rhs.every((need) => need <= 0) && cost <= goal) return true;
          // Rounding errors: from here there is no way back.
          turnedBack = TURNS_BACK + 1;
          return false;
        }
        const basis = [...linear.basis];
        const { rows } = linear;
        fix(next, whole + 1);
        if (cost <= goal) {
          refresh(linear);
          if (solved(reoptimise) && complete()) return true;
        }
        if (halt() || ++turnedBack > TURNS_BACK) return false;
        fix(next, -whole - 1);
        dropRows(linear, rows, () => false);
        setBasis(linear, basis);
        addRows(linear, [{ rhs: -whole, columns: [next], values: [-1] }]);
        return solved(reoptimise) && complete();
      };
      if (!solved(optimise)) return { plan: null, steps: Math.ceil(steps) };
      const root = [...linear.basis];
      while (!halt()) {
        turnedBack = 0;
        if (complete())
          return {
            plan: exactly(
              model,
              entries.flatMap(({ pattern }, c) => Array.from({ length: fixed[c]! }, () => pattern)),
            ),
            steps: Math.ceil(steps),
          };
        // The patterns there are cannot do it.
        if (turnedBack <= TURNS_BACK) break;
        dropRows(linear, needs.length, () => false);
        needs.forEach((need, row) => {
          linear.rhs[row] = need;
        });
        fixed.fill(0);
        cost = 0;
        setBasis(linear, root);
      }
      return { plan: null, steps: Math.ceil(steps) };
    },
  };
}

/** The plan without what is on it more often than wanted. */
function exactly(model: Model, patterns: readonly Pattern[]): Plan {
  const rest = Int32Array.from(model.kinds, ({ count }) => count);
  const layouts: { readonly pattern: Pattern; readonly times: number }[] = [];
  for (const pattern of patterns) {
    let at = 0;
    let less = false;
    const walk = (): Tree | null => {
      const code = pattern.code[at++]!;
      if (code >= 0) {
        const wanted = rest[code >> 1]! > 0;
        if (wanted) rest[code >> 1] = rest[code >> 1]! - 1;
        less ||= !wanted;
        return wanted ? code : null;
      }
      const what = -1 - code;
      let tree: Tree | null = null;
      for (let left = what >> 1; left > 0; left--) tree = joined((what & 1) as 0 | 1, tree, walk());
      return tree;
    };
    const tree = walk();
    if (tree !== null)
      layouts.push({ pattern: less ? { ...pattern, code: Int32Array.from(codeOf(tree)) } : pattern, times: 1 });
  }
  return planOf(model, layouts);
}
