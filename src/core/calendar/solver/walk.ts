import { logarithm, stepFactor } from '../../elementary.ts';
import { builderOf, SAME, sorterOf } from './build.ts';
import { type Model, reversed } from './model.ts';
import type { Draw } from './random.ts';

/**
 * A walk from schedule to schedule. The tasks of the one it stands on, in the order of its ends told backwards, are built in the other
 * direction: justification, which never ends later (Valls, Ballestín & Quintanilla, European Journal of Operational Research 165, 2005,
 * 375–386). From there a few tasks of the order are moved a little way: that may end anywhere. A later end is gone along with the
 * likelier the warmer it is (simulated annealing; Kirkpatrick, Gelatt & Vecchi, Science 220, 1983, 671–680). How much later is drawn
 * before the schedule is built, so that most of those refused need not be built to their end; nor are those to which the move makes no
 * difference, four in five of what would be gone along with otherwise.
 *
 * Measured on the 117 sixty-task jobs of PSPLIB at one second each: 10.85 % over the critical path, where two populations bred from
 * each other by justification (Debels & Vanhoucke, Operations Research 55, 2007, 457–469) gave 11.08. Tried, and no better: among
 * schedules of one end, preferring those whose work lies early or least lateness in all; moving only what makes little late; a pool of
 * schedules crossed with each other; moving tasks along with those they wait for; oftener moving what has no slack; never going back to a
 * schedule lately left; and learning within a part of the schedule, or near it, for an end one sooner. Worse: at most one task without
 * slack among those moved, though such moves end sooner twice as often.
 */
export interface Walker {
  /** One step. Returns the best end so far; its starts are in `starts`. */
  readonly step: () => number;
  readonly starts: Int32Array;
  /** Goes on from a schedule found elsewhere. */
  readonly admit: (starts: Int32Array) => void;
  /** Schedules built so far. */
  readonly passes: () => number;
}

/** Warmth, in mean durations: at first, when warmed again, and when cold. This and what follows: measured on eighteen of those jobs. */
const HOT = 0.11;
const WARM = 0.073;
const COLD = 0.036;
/** Steps from hot or warm to cold; a quarter of what there is, where that is less. */
const COOLING = 80_000;
/** How many tasks move at once, how far, and how far from each other. */
const MOVES = 3;
const FAR = 12;
const APART = 12;
const FINE = 1 << 20;
/** After so many moves to no avail, the same schedule is built the other way. */
const TRIES = 100;

export function walkerOf(model: Model, draw: Draw, steps: number): Walker {
  const { count: n, duration } = model;
  const models = [model, reversed(model)] as const;
  const builders = [builderOf(models[0]), builderOf(models[1])] as const;
  const directly = models.map(({ after }) => {
    const table = new Uint8Array(n * n);
    after.forEach((list, i) => {
      for (const j of list) table[i * n + j] = 1;
    });
    return table;
  });
  const sorted = sorterOf(n);
  const starts = new Int32Array(n);
  const keys = new Int32Array(n);
  let best = Number.POSITIVE_INFINITY;
  // Where the walk stands: a schedule as justification in the direction of `side` builds it, and the order in which it does.
  let side: 0 | 1 = 0;
  let end = Number.POSITIVE_INFINITY;
  const order = new Int32Array(n);
  const list = new Int32Array(n);
  const mean = duration.reduce((sum, d) => sum + d, 0) / Math.max(1, n);
  let passes = 0;
  const cooling = Math.max(1, Math.min(COOLING, Math.floor(steps / 4)));
  let left = cooling;
  let warmth = HOT * mean;
  let factor = stepFactor(HOT, COLD, cooling);
  let tries = 0;

  /** Starts told in the other direction. */
  const turned = (of: Int32Array, by: 0 | 1, last: number, to: Int32Array): void => {
    const long = models[by].duration;
    for (let i = 0; i < n; i++) to[n - 1 - i] = last - of[i]! - long[i]!;
  };
  const keep = (of: Int32Array, by: 0 | 1, last: number): void => {
    if (last >= best) return;
    best = last;
    if (by === 0) starts.set(of);
    else turned(of, by, last, starts);
  };
  /** Stands on a schedule built by `by` and ending at `last`, as the other direction builds it: never later. */
  const stand = (of: Int32Array, by: 0 | 1, last: number): void => {
    keep(of, by, last);
    turned(of, by, last, keys);
    sorted(keys, order);
    list.set(order);
    side = by === 0 ? 1 : 0;
    end = builders[side].build(order, last);
    keep(builders[side].starts, side, end);
    passes++;
    tries = 0;
  };
  let first = 0;
  let last = 0;
  /**
   * Moves a few tasks of `list`, each as far as it may go without passing one that it waits for or that waits for it: it is another list
   * now from its place `first` to its place `last`, or the same where `first` is past `last`.
   */
  const move = (): void => {
    const waits = directly[side]!;
    // Rather near the end, where less is to be built anew: turned, the job's beginning is its end.
    const about = Math.max(draw(n), draw(n));
    first = n;
    last = 0;
    for (let times = draw(MOVES); times >= 0; times--) {
      let k = times === 0 ? about : Math.min(n - 1, Math.max(0, about - APART + draw(2 * APART + 1)));
      const i = list[k]!;
      let far = 1 + draw(FAR);
      const from = k;
      if (draw(2) === 0)
        for (; far > 0 && k + 1 < n && waits[i * n + list[k + 1]!] === 0; far--) {
          list[k] = list[k + 1]!;
          k++;
        }
      else
        for (; far > 0 && k > 0 && waits[list[k - 1]! * n + i] === 0; far--) {
          list[k] = list[k - 1]!;
          k--;
        }
      list[k] = i;
      if (k === from) continue;
      first = Math.min(first, k, from);
      last = Math.max(last, k, from);
    }
  };

  const step = (): number => {
    if (end === Number.POSITIVE_INFINITY) {
      // A task that waits for another finishes later at the latest too; what takes no time keeps the model's order.
      for (let i = 0; i < n; i++) keys[i] = model.path - model.tail[i]!;
      sorted(keys, order);
      const built = builders[0].build(order, model.sum);
      passes++;
      stand(builders[0].starts, 0, built);
      return best;
    }
    if (left === 0) {
      stand(starts, 0, best);
      left = cooling;
      warmth = WARM * mean;
      factor = stepFactor(WARM, COLD, cooling);
    }
    left--;
    warmth *= factor;
    if (++tries > TRIES) {
      stand(builders[side].starts, side, end);
      return best;
    }
    passes++;
    const limit = end + Math.floor(-warmth * logarithm((draw(FINE) + 1) / FINE));
    move();
    if (first > last) return best;
    const varied = builders[side].vary(list, first, last, limit);
    if (varied !== SAME && varied <= limit) stand(builders[side].varied, side, varied);
    else for (let k = first; k <= last; k++) list[k] = order[k]!;
    return best;
  };
  const admit = (of: Int32Array): void => {
    let last = 0;
    for (let i = 0; i < n; i++) last = Math.max(last, of[i]! + duration[i]!);
    stand(of, 0, last);
  };
  return { step, starts, admit, passes: () => passes };
}
