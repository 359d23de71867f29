import { type Generator, generate, usage } from './generate.ts';
import { fillGreedily } from './greedy.ts';
import { optimise, placeOf, refresh, reoptimise, setBasis, setDuals } from './linear.ts';
import { type Cut, costOf, trimToDemand } from './pattern.ts';

/**
 * Whole plans from the relaxation: take every pattern as often as it is wholly used, solve what is left anew with fresh patterns, and
 * so on; where nothing is wholly used, take the pattern that is nearest to it (sequential residual rounding, Wäscher & Gau 1996).
 * When a dive ends above the target it is repeated with up to `doubts` of its early choices replaced by the next best
 * (limited discrepancy search in column generation, Sadykov et al. 2019).
 *
 * Leaves the generator's right-hand side as it found it.
 */
export interface Dive {
  readonly generator: Generator;
  readonly halt: () => boolean;
  /** Tells of a plan; returns the cost that is worth beating from now on. */
  readonly offer: (cuts: readonly Cut[], cost: number) => number;
  /** Costs are whole: the least that a plan above this bound can have. */
  readonly roundUp: (bound: number) => number;
}

export function dive({ generator, halt, offer, roundUp }: Dive, best: number, doubts: number, depth: number): number {
  const { model, linear } = generator;
  let beat = best;
  const top = [...linear.basis];
  const limits = generator.limitRow;

  const setDemand = (left: readonly number[], used: readonly number[]): void => {
    left.forEach((count, i) => {
      linear.rhs[i] = count;
    });
    limits.forEach((row, s) => {
      if (row >= 0) linear.rhs[row] = -(model.stocks[s]!.limit - used[s]!);
    });
  };

  const proper = (column: number, left: readonly number[]): boolean => {
    const { kinds, counts } = generator.patterns[column]!;
    for (let k = 0; k < kinds.length; k++) if (counts[k]! > left[kinds[k]!]!) return false;
    return true;
  };

  /** Solves for what is left; false when it cannot beat the best. */
  const solveLeft = (left: readonly number[], used: readonly number[], spent: number): boolean => {
    setDemand(left, used);
    refresh(linear);
    if (!reoptimise(linear, halt)) return false;
    let evicted = false;
    for (let j = 0; j < generator.patterns.length; j++) {
      const banned = !proper(j, left);
      if (banned !== linear.banned[j]) {
        linear.banned[j] = banned;
        evicted ||= placeOf(linear, j) >= 0;
      }
    }
    if (evicted) {
      setDuals(linear);
      if (!optimise(linear, halt)) return false;
    }
    const result = generate(
      generator,
      left,
      halt,
      (bound, value) => spent + roundUp(bound) >= beat || roundUp(bound) >= value - 1e-6,
      true,
    );
    // Without an exact bound the value stands in for it: a dive may be wrong about what is not worth a try.
    return !result.halted && spent + roundUp(result.bound || result.value - 1e-6) < beat;
  };

  const descend = (
    left: readonly number[],
    used: readonly number[],
    taken: readonly Cut[],
    spent: number,
    doubtsLeft: number,
    level: number,
  ): void => {
    const { of } = usage(generator);
    const now = [...left];
    const nowUsed = [...used];
    const cuts = [...taken];
    let cost = spent;
    const take = (column: number, times: number): number => {
      const pattern = generator.patterns[column]!;
      let most = Math.min(times, model.stocks[pattern.stock]!.limit - nowUsed[pattern.stock]!);
      pattern.kinds.forEach((kind, k) => {
        most = Math.min(most, Math.floor(now[kind]! / pattern.counts[k]!));
      });
      if (most <= 0) return 0;
      pattern.kinds.forEach((kind, k) => {
        now[kind]! -= most * pattern.counts[k]!;
      });
      nowUsed[pattern.stock]! += most;
      cost += most * model.stocks[pattern.stock]!.cost;
      cuts.push({ pattern, times: most });
      return most;
    };
    const ranked = [...of].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
    let whole = 0;
    for (const [column, amount] of ranked) whole += take(column, Math.floor(amount + 1e-6));

    const rest = fillGreedily(model, now, nowUsed);
    if (rest) {
      const plan = trimToDemand(model, [...cuts, ...rest]);
      if (plan) {
        const total = costOf(model, plan);
        if (total < beat) beat = offer(plan, total);
      }
    }
    if (now.every((count) => count === 0) || halt()) return;
    if (whole > 0) {
      if (solveLeft(now, nowUsed, cost)) descend(now, nowUsed, cuts, cost, doubtsLeft, level);
      return;
    }
    const choices = ranked.filter(([column]) => proper(column, now));
    const tries = level < depth ? Math.min(choices.length, doubtsLeft + 1) : Math.min(choices.length, 1);
    const here = [...linear.basis];
    for (let t = 0; t < tries; t++) {
      if (t > 0) {
        if (halt()) return;
        setDemand(left, used);
        setBasis(linear, here);
      }
      const before = { now: [...now], used: [...nowUsed], length: cuts.length, cost };
      // Nothing is taken where the stock has run out; going on from there would go on for ever.
      if (take(choices[t]![0], 1) > 0 && solveLeft(now, nowUsed, cost))
        descend(now, nowUsed, [...cuts], cost, doubtsLeft - t, level + 1);
      before.now.forEach((count, i) => {
        now[i] = count;
      });
      before.used.forEach((count, s) => {
        nowUsed[s] = count;
      });
      cuts.length = before.length;
      cost = before.cost;
    }
  };

  descend(
    model.demand,
    model.stocks.map(() => 0),
    [],
    0,
    doubts,
    0,
  );
  setDemand(
    model.demand,
    model.stocks.map(() => 0),
  );
  linear.banned.fill(false);
  setBasis(linear, top);
  return beat;
}
