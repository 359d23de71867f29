import type { Issue } from '../../issue/index.ts';
import { costOfLayouts } from '../costs.ts';
import type { Effort, LengthAnswer, LengthLayout, LengthProblem } from '../problem.ts';
import { dive } from './dive.ts';
import { enumerate } from './enumerate.ts';
import { addPattern, createGenerator, generate, provenBound, wholeDuals } from './generate.ts';
import { fillGreedily, firstWithin } from './greedy.ts';
import { createLayer, layOut } from './layouts.ts';
import { judgeLengths, type Model, modelOf, oneClass } from './model.ts';
import { type Cut, costOf, type Pattern, patternOf, trimToDemand } from './pattern.ts';
import { searchPool } from './tree.ts';

/** Relaxations solved in the tree before dives get their turn again. */
const FIRST_PATIENCE = 3_000;
/** More patterns than this are not written down. */
const MOST_PATTERNS = 200_000;

/**
 * Boards and mouldings at the least cost.
 *
 * 1. A greedy plan at once. 2. The relaxation by column generation, and with it a proven bound. 3. Dives from it. 4. Where cost and
 * bound still differ: all patterns that a plan at the bound could use, and branch and cut over them; when there is no such plan, the
 * bound rises to the next cost that any number of pieces of stock can have.
 *
 * A step is one pivot of the simplex, one knapsack (one for every 100,000 table cells or 2,000 nodes), one node of the tree, or
 * 20,000 patterns priced.
 */
export function solveLengths(problem: LengthProblem, effort: Effort): LengthAnswer {
  const { name, kind } = problem;
  const issues = judgeLengths(problem);
  if (issues.length > 0) return { name, kind, status: 'infeasible', issues };
  if (problem.parts.some((part) => part.count === 0))
    return solveLengths({ ...problem, parts: problem.parts.filter((part) => part.count > 0) }, effort);
  if (problem.parts.length === 0) return { name, kind, status: 'optimal', cost: 0, bound: 0, steps: 0, layouts: [] };
  if (oneClass(problem)) return solveModel(problem, modelOf(problem, 'relaxed'), effort);
  return solveMixedEnds(problem, effort);
}

function solveModel(problem: LengthProblem, model: Model, effort: Effort): LengthAnswer {
  const { name, kind } = problem;
  const answerOf = (
    cost: number,
    bound: number,
    steps: number,
    cutShort: boolean,
    cuts: readonly Cut[],
  ): LengthAnswer => {
    const layouts = layOut(problem, model, cuts);
    if (!layouts) throw new Error('a plan of whole parts does not lie on its boards');
    return tell(problem, model, layouts, { cost, bound, steps, cutShort });
  };
  const result = search(model, effort, (cost, bound, steps, cuts) =>
    effort.onBetter?.(answerOf(cost, bound, steps, false, cuts)),
  );
  if (!result.cuts) return { name, kind, status: 'infeasible', issues: [outOfStock(result.proven)] };
  return answerOf(result.cost, result.bound, result.steps, result.cutShort, result.cuts);
}

const outOfStock = (proven: boolean): Issue => ({
  path: ['stock'],
  message: proven
    ? 'the parts cannot be cut from the stock there is'
    : 'no way was found to cut the parts from the stock there is',
  expected: 'more stock, or longer',
});

/** Costs are added up anew from the layouts in the user's own numbers, so that the sum is the one a checker makes. */
function tell(
  problem: LengthProblem,
  model: Model,
  layouts: readonly LengthLayout[],
  { cost, bound, steps, cutShort }: { cost: number; bound: number; steps: number; cutShort: boolean },
): LengthAnswer {
  const total = costOfLayouts(problem.stock, layouts);
  const optimal = bound >= cost && model.exactCosts;
  return {
    name: problem.name,
    kind: problem.kind,
    status: optimal ? 'optimal' : 'feasible',
    cost: total,
    bound: optimal ? total : Math.min(total, bound * model.costUnit),
    steps,
    ...(cutShort && !optimal ? { cutShort } : {}),
    layouts,
  };
}

interface Outcome {
  readonly cuts: readonly Cut[] | undefined;
  readonly cost: number;
  readonly bound: number;
  readonly steps: number;
  readonly cutShort: boolean;
  /** Without cuts: it is certain that there are none. */
  readonly proven: boolean;
}

function search(
  model: Model,
  effort: Effort,
  better: (cost: number, bound: number, steps: number, cuts: readonly Cut[]) => void,
): Outcome {
  const generator = createGenerator(model, effort.shouldStop);
  const { linear, knapsacks } = generator;
  let treeSteps = 0;
  let stopped = false;
  const steps = (): number => linear.pivots + knapsacks.steps() + treeSteps;
  // A pivot takes far less than a millisecond, but a table for fine sizes tens of them: the caller is asked every time.
  const halt = (): boolean => {
    stopped ||= steps() >= effort.steps || effort.shouldStop?.() === true;
    return stopped;
  };
  const roundUp = nextCost(model);
  // Every piece of stock used carries a part, so no plan costs more.
  const parts = model.demand.reduce((sum, count) => sum + count, 0);
  const everything = model.stocks.reduce((sum, stock) => sum + Math.min(stock.limit, parts) * stock.cost, 0);

  let cuts: readonly Cut[] | undefined;
  let cost = Number.POSITIVE_INFINITY;
  let bound = roundUp(lengthBound(model));
  const offer = (plan: readonly Cut[], total: number): number => {
    if (total < cost) {
      cost = total;
      cuts = plan;
      better(cost, bound, steps(), plan);
    }
    return cost;
  };
  const outcome = (proven = false): Outcome => ({
    cuts,
    cost,
    bound: Math.min(bound, cost),
    steps: steps(),
    cutShort: stopped,
    proven,
  });

  const greedy = fillGreedily(model, model.demand);
  if (greedy) {
    const plan = trimToDemand(model, greedy);
    if (plan) offer(plan, costOf(model, plan));
    for (const cut of greedy) addPattern(generator, cut.pattern);
  }
  if (bound >= cost || halt()) return outcome();
  for (const pattern of startPatterns(model, halt)) addPattern(generator, pattern);

  // Prices by length prove what length alone proves, and are near the end of most programs.
  const byLength = model.sizes.map((size) => size * cheapestLength(model));
  const root = generate(
    generator,
    model.demand,
    halt,
    (b, value) => {
      bound = Math.max(bound, roundUp(b));
      // Once the rounded bound has met the value, going on can raise it no further.
      return bound >= cost || bound >= value - 1e-6;
    },
    false,
    byLength,
  );
  bound = Math.max(bound, roundUp(root.bound));
  if (bound > everything) return outcome(true);
  if (bound >= cost || root.halted) return outcome();

  dive({ generator, halt, offer, roundUp }, cost, 0, 0);
  if (bound >= cost || halt()) return outcome();

  const doubt = (from: number, to: number): void => {
    for (let doubts = from; doubts <= to && bound < cost && !halt(); doubts++)
      dive({ generator, halt, offer, roundUp }, cost, doubts, 2 + 2 * doubts);
  };
  // Far from the bound a proof is far too, and a better plan near: doubts first. So too where kinds are wanted several times over, for
  // then the tree's pairs decide little; with single parts it is the quicker (both measured on the open instances).
  const far = roundUp(bound + 1) < cost;
  if (cuts && (far || 2 * parts > 3 * model.sizes.length)) doubt(1, far ? 2 : 1);
  let patience = FIRST_PATIENCE;
  for (;;) {
    if (bound >= cost || halt()) return outcome();
    // Without any plan the question is first whether there is one at all.
    const target = cuts ? bound : everything;
    const verdict = attempt(target, patience);
    if (verdict === 'none') {
      if (!cuts) return outcome(true);
      bound = roundUp(target + 1);
      if (bound > everything) return outcome(true);
    } else if (verdict !== 'found') {
      // Dives with more doubts find a plan the more easily the more patterns there are; then the question is put again, to the end.
      doubt(1, 4);
      if (verdict === 'unwritten' || patience === Number.POSITIVE_INFINITY) return outcome();
      patience = Number.POSITIVE_INFINITY;
    }
  }

  /** Is there a plan that costs no more than `target`? */
  function attempt(target: number, nodes: number): 'found' | 'none' | 'unknown' | 'unwritten' {
    const again = generate(generator, model.demand, halt, () => false);
    if (again.halted || !again.complete) return 'unwritten';
    const duals = wholeDuals(model, linear.dual);
    const table = knapsacks.table(duals.worths, model.demand);
    if (!table) return 'unwritten';
    const atMost = generator.runsOf.map((own) =>
      own.reduce((sum, r) => sum + table.best(generator.runs[r]!, 0).atMost, 0),
    );
    const proven = provenBound(model, model.demand, duals, atMost);
    if (roundUp(proven) > target) return 'none';
    let shrink = 1;
    model.stocks.forEach((stock, s) => {
      if (!Number.isFinite(stock.limit)) shrink = Math.min(shrink, (stock.cost * duals.scale) / atMost[s]!);
    });
    const limitDual = linear.dual.slice();
    model.stocks.forEach((stock, s) => {
      const row = generator.limitRow[s]!;
      if (row >= 0) limitDual[row] = Math.max(0, (shrink * atMost[s]!) / duals.scale - stock.cost);
    });
    const pool = enumerate(generator, duals, limitDual, shrink, target - proven + 1e-9, MOST_PATTERNS, halt);
    if (!pool) return 'unwritten';
    let visited = 0;
    const verdict = searchPool(
      model,
      pool,
      target,
      () => halt() || visited > nodes,
      (spent) => {
        treeSteps += spent;
        visited += 1;
      },
    );
    if (verdict.found) {
      const plan = trimToDemand(model, verdict.found);
      if (!plan) throw new Error('the tree found a plan that does not meet the demand');
      offer(plan, costOf(model, plan));
      return 'found';
    }
    return verdict.proven ? 'none' : 'unknown';
  }
}

/** For each kind a run filled with it first and then greedily, largest first, so that the relaxation begins near something sensible. */
function startPatterns(model: Model, halt: () => boolean): readonly Pattern[] {
  const s = model.stocks.reduce((best, stock, i) => {
    const price = (k: number): number => model.stocks[k]!.cost / model.stocks[k]!.runs[0]!;
    return stock.runs.length === 1 && price(i) < price(best) ? i : best;
  }, 0);
  const run = model.stocks[s]!.runs;
  if (run.length !== 1) return [];
  return model.sizes.flatMap((size, i) => {
    if (size > run[0]! || ((i & 63) === 63 && halt())) return [];
    const kinds = [i];
    const counts = [1];
    let room = run[0]! - size;
    for (let j = i; j < model.sizes.length && room > 0; j = Math.max(j + 1, firstWithin(model.sizes, room))) {
      const count = Math.min(model.demand[j]! - (j === i ? 1 : 0), Math.floor(room / model.sizes[j]!));
      if (count <= 0) continue;
      room -= count * model.sizes[j]!;
      if (j === i) counts[0]! += count;
      else {
        kinds.push(j);
        counts.push(count);
      }
    }
    return [patternOf(s, [{ kinds, counts }])];
  });
}

/** All length needed at the lowest price a unit of length has. */
function lengthBound(model: Model): number {
  const need = model.sizes.reduce((sum, size, i) => sum + size * model.demand[i]!, 0);
  return need * cheapestLength(model) * (1 - 1e-12);
}

/** The lowest price a unit of length has. */
const cheapestLength = (model: Model): number =>
  model.stocks.reduce((least, stock) => {
    const length = stock.runs.reduce((sum, run) => sum + run, 0);
    return Math.min(least, stock.cost / length);
  }, Number.POSITIVE_INFINITY);

/** The least sum of stock costs that is not below a bound. Costs are whole with no common divisor, so far out every whole number is one. */
function nextCost(model: Model): (bound: number) => number {
  const costs = [...new Set(model.stocks.map((stock) => stock.cost))].filter((cost) => cost > 0);
  if (costs.length === 0) return () => 0;
  const reachable: boolean[] = [true];
  const isSum = (value: number): boolean => {
    for (let v = reachable.length; v <= value; v++) {
      let found = false;
      for (const cost of costs) found ||= cost <= v && reachable[v - cost]!;
      reachable.push(found);
    }
    return reachable[value]!;
  };
  return (bound) => {
    let value = Math.max(0, Math.ceil(bound));
    if (value > 200_000) return value;
    while (!isSum(value)) value += 1;
    return value;
  };
}

/**
 * Ends of several classes: the relaxed reading proves the bound and often its plan can be chained as it stands; otherwise what fits is
 * kept, and the rest is cut by the strict reading. The better of that and an all-strict plan is the answer.
 */
function solveMixedEnds(problem: LengthProblem, effort: Effort): LengthAnswer {
  const { name, kind } = problem;
  const relaxed = modelOf(problem, 'relaxed');
  const strict = modelOf(problem, 'strict');
  const half = { ...effort, steps: Math.ceil(effort.steps / 2) };
  const silent = (): void => {};
  let best: readonly LengthLayout[] | undefined;
  let cost = Number.POSITIVE_INFINITY;
  const consider = (layouts: readonly LengthLayout[] | undefined, bound: number, steps: number): void => {
    if (!layouts) return;
    const total = costOfLayouts(problem.stock, layouts);
    if (total >= cost) return;
    best = layouts;
    cost = total;
    effort.onBetter?.(
      tell(problem, relaxed, layouts, { cost: total / relaxed.costUnit, bound, steps, cutShort: false }),
    );
  };

  const safe = search(strict, half, (_cost, _bound, steps, cuts) => consider(layOut(problem, strict, cuts), 0, steps));
  if (safe.cuts) consider(layOut(problem, strict, safe.cuts), 0, safe.steps);
  if (best && effort.shouldStop?.()) {
    const bound = Math.ceil(lengthBound(relaxed));
    return tell(problem, relaxed, best, {
      cost: Math.round(cost / relaxed.costUnit),
      bound,
      steps: safe.steps,
      cutShort: true,
    });
  }
  const loose = search(relaxed, half, silent);
  const steps = safe.steps + loose.steps;
  if (!loose.cuts) return { name, kind, status: 'infeasible', issues: [outOfStock(loose.proven)] };
  consider(layOut(problem, relaxed, loose.cuts), loose.bound, steps);
  const mended = mend(problem, relaxed, loose.cuts, half);
  consider(mended, loose.bound, steps);
  if (!best) return { name, kind, status: 'infeasible', issues: [outOfStock(false)] };
  // A plan as cheap as the relaxed bound is optimal; costs are compared as whole numbers.
  const whole = Math.round(cost / relaxed.costUnit);
  return tell(problem, relaxed, best, {
    cost: whole,
    bound: loose.bound,
    steps,
    cutShort: safe.cutShort || loose.cutShort,
  });
}

/** Keeps the boards of a relaxed plan whose chains fit, and cuts what the others held by the strict reading. */
function mend(
  problem: LengthProblem,
  relaxed: Model,
  cuts: readonly Cut[],
  effort: Effort,
): readonly LengthLayout[] | undefined {
  const { left, layOutOne } = createLayer(problem, relaxed);
  const used = problem.stock.map(() => 0);
  const kept: LengthLayout[] = [];
  for (const [i, cut] of cuts.entries()) {
    if ((i & 63) === 63 && effort.shouldStop?.()) return undefined;
    const layouts = layOutOne(cut);
    if (!layouts) continue;
    used[relaxed.stocks[cut.pattern.stock]!.index]! += cut.times;
    for (const layout of layouts) kept.push(layout);
  }
  if (left.every((count) => count === 0)) return kept;
  const rest: LengthProblem = {
    ...problem,
    stock: problem.stock.map((stock, s) =>
      stock.count === null ? stock : { ...stock, count: stock.count - used[s]! },
    ),
    parts: problem.parts.map((part, i) => ({ ...part, count: left[i]! })).filter((part) => part.count > 0),
  };
  const model = modelOf(rest, 'strict');
  if (model.stocks.length === 0) return undefined;
  const result = search(model, effort, () => {});
  const layouts = result.cuts && layOut(rest, model, result.cuts);
  return layouts && [...kept, ...layouts];
}
