import { builderOf, sorterOf } from './build.ts';
import { type Model, reversed } from './model.ts';
import type { Draw } from './random.ts';

/**
 * A walk from schedule to schedule. The tasks of the last one in the order of its ends, told backwards, with a few of them moved a little
 * way, are built in the other direction: without the moves that is justification, which never ends later (Valls, Ballestín & Quintanilla,
 * European Journal of Operational Research 165, 2005, 375–386); with them it may end anywhere. A later end is gone along with the
 * likelier the warmer it is (simulated annealing; Kirkpatrick, Gelatt & Vecchi, Science 220, 1983, 671–680). How much later is drawn
 * before the schedule is built, so that most of those refused need not be built to their end.
 *
 * Measured on the 117 sixty-task jobs of PSPLIB at one second each: 10.93 % over the critical path, where two populations bred from
 * each other by justification (Debels & Vanhoucke, Operations Research 55, 2007, 457–469) gave 11.08. Among schedules of one end,
 * preferring those whose work lies early made it worse.
 */
export interface Walker {
  /** One step. Returns its end; where that is the best so far, its starts are in `starts`. */
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

interface Stand {
  /** Direction in which the next schedule is built. */
  side: 0 | 1;
  end: number;
  /** The tasks, numbered as that side does, in the order in which justification builds them. */
  readonly list: Int32Array;
}

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
  const order = sorterOf(n);
  const starts = new Int32Array(n);
  const built = new Int32Array(n);
  const keys = new Int32Array(n);
  const list = new Int32Array(n);
  const now: Stand = { side: 0, end: Number.POSITIVE_INFINITY, list: new Int32Array(n) };
  const best: Stand = { side: 0, end: Number.POSITIVE_INFINITY, list: new Int32Array(n) };
  const mean = duration.reduce((sum, d) => sum + d, 0) / Math.max(1, n);
  let passes = 0;
  const cooling = Math.max(1, Math.min(COOLING, Math.floor(steps / 4)));
  let left = cooling;
  let warmth = HOT * mean;
  let factor = (COLD / HOT) ** (1 / cooling);

  /** Stands on the schedule in `built`, built by `side`: the next one is built by the other. */
  const stand = (side: 0 | 1, end: number): void => {
    const long = models[side].duration;
    for (let i = 0; i < n; i++) keys[n - 1 - i] = end - built[i]! - long[i]!;
    order(keys, now.list);
    now.side = side === 0 ? 1 : 0;
    now.end = end;
    builders[now.side].anew();
    if (end >= best.end) return;
    copy(now, best);
    if (side === 0) starts.set(built);
    else for (let i = 0; i < n; i++) starts[i] = keys[i]!;
  };
  const copy = (from: Stand, to: Stand): void => {
    to.side = from.side;
    to.end = from.end;
    to.list.set(from.list);
  };
  /** Moves a few tasks of `list`, each as far as it may go without passing one that it waits for or that waits for it. Returns the first place touched. */
  const move = (): number => {
    const waits = directly[now.side]!;
    for (let k = 0; k < n; k++) list[k] = now.list[k]!;
    const about = draw(n);
    let first = n;
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
      if (k !== from) first = Math.min(first, k, from);
    }
    return first;
  };

  const step = (): number => {
    passes++;
    if (now.end === Number.POSITIVE_INFINITY) {
      // A task that waits for another finishes later at the latest too; what takes no time keeps the model's order.
      for (let i = 0; i < n; i++) keys[i] = model.path - model.tail[i]!;
      order(keys, list);
      const end = builders[0].build(list, built, 0, Number.POSITIVE_INFINITY);
      stand(0, end);
      return end;
    }
    if (left === 0) {
      copy(best, now);
      builders[now.side].anew();
      left = cooling;
      warmth = WARM * mean;
      factor = (COLD / WARM) ** (1 / cooling);
    }
    left--;
    warmth *= factor;
    const limit = now.end + Math.floor(-warmth * Math.log((draw(FINE) + 1) / FINE));
    const { side } = now;
    const end = builders[side].build(list, built, move(), limit);
    if (end <= limit) stand(side, end);
    return end;
  };
  const admit = (of: Int32Array): void => {
    for (let i = 0; i < n; i++) built[i] = of[i]!;
    let end = 0;
    for (let i = 0; i < n; i++) end = Math.max(end, built[i]! + duration[i]!);
    stand(0, end);
  };
  return { step, starts, admit, passes: () => passes };
}
