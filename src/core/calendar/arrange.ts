import { leastFinish } from './bound.ts';
import type { DatedJob, Timetable } from './dated.ts';
import { latestSpan } from './hours.ts';
import { criticalChain, orderOf } from './order.ts';
import { putInOrder } from './put.ts';
import { drawFrom } from './solver/random.ts';

/** `optimal` only when no timetable can end sooner: the end is the bound. */
export type Arranged =
  | {
      readonly status: 'optimal' | 'feasible';
      readonly times: Timetable;
      readonly bound: number;
      /** One step is one timetable built. */
      readonly steps: number;
    }
  | { readonly status: 'infeasible' };

export interface ArrangeEffort {
  readonly steps?: number;
  readonly seed?: number;
  /** An order to begin with. */
  readonly near?: readonly number[];
}
/** Timetables built for one job: enough that more hardly ever end sooner on jobs of the examples' size. */
export const USUAL_ARRANGE_STEPS = 1500;
/** Moves without a better end before the best order is shaken. */
const PATIENCE = 120;

/**
 * The shortest calendar the effort finds. Orders to begin with: by latest start, and as the job is written; then one task at a time is
 * moved elsewhere in the order, tasks of the critical chain oftener than others; what ends no later is kept. Same job, same answer.
 */
export function arrange(job: DatedJob, effort: ArrangeEffort = {}): Arranged {
  const { tasks } = job;
  const natural = tasks.map((_, i) => i);
  // where helpers come on a few days only, what leads to them has to come first
  const horizon = job.hours.reduce((end, hours) => Math.max(end, hours.to.at(-1) ?? 0), 0);
  const begin = [effort.near, natural, byLatestStart(job, horizon)].flatMap((order) => {
    const times = order && putInOrder(job, order);
    return times ? [{ order, times }] : [];
  });
  const first = begin.reduce<(typeof begin)[number] | undefined>(
    (a, b) => (a && earlier(a.times, b.times) <= 0 ? a : b),
    undefined,
  );
  if (!first) return { status: 'infeasible' };
  const most = effort.steps ?? USUAL_ARRANGE_STEPS;
  let best: { readonly order: readonly number[]; readonly times: Timetable } = first;
  let steps = begin.length;
  const bound = leastFinish(job, first.times.finish);
  const over = (): boolean => best.times.finish <= bound || steps >= most;
  const consider = (order: readonly number[]): Timetable | undefined => {
    const times = putInOrder(job, order);
    steps++;
    if (times && earlier(times, best.times) < 0) best = { order: [...order], times };
    return times;
  };
  if (!over()) consider(byLatestStart(job, best.times.finish));

  const draw = drawFrom(effort.seed ?? 1);
  const successors: number[][] = tasks.map(() => []);
  tasks.forEach((task, i) => {
    for (const { task: k } of task.after) successors[k]!.push(i);
  });
  let current = best;
  let chain = chainOf(job, current.times);
  let idle = 0;
  while (!over() && tasks.length > 1) {
    const order = [...current.order];
    const moves = idle >= PATIENCE ? 4 : 1;
    for (let m = 0; m < moves; m++) {
      const task = chain.length > 0 && draw(2) === 0 ? chain[draw(chain.length)]! : draw(tasks.length);
      moveWithin(order, task, tasks[task]!.after, successors[task]!, draw);
    }
    const before = best;
    const times = consider(order);
    if (best !== before) idle = 0;
    else idle++;
    if (times && (moves > 1 || earlier(times, current.times) <= 0)) {
      // the chain is worth following anew only where the end has moved
      if (times.finish !== current.times.finish) chain = chainOf(job, times);
      current = { order, times };
    }
    if (moves > 1) idle = 0;
    // a shaken order that leads nowhere is given up
    if (idle === PATIENCE - 1) {
      current = best;
      chain = chainOf(job, current.times);
    }
  }
  return { status: best.times.finish <= bound ? 'optimal' : 'feasible', times: best.times, bound, steps };
}

/** By finish, then by how early everything is. */
const earlier = (a: Timetable, b: Timetable): number =>
  a.finish - b.finish || a.ends.reduce((s, e) => s + e, 0) - b.ends.reduce((s, e) => s + e, 0);

const chainOf = (job: DatedJob, times: Timetable): readonly number[] =>
  criticalChain(job, orderOf(job, times), times).map((link) => link.task);

/** Takes a task out of the order and puts it back anywhere between what it waits for and what waits for it. */
function moveWithin(
  order: number[],
  task: number,
  after: readonly { readonly task: number }[],
  successors: readonly number[],
  draw: (below: number) => number,
): void {
  order.splice(order.indexOf(task), 1);
  let low = 0;
  let high = order.length;
  order.forEach((other, k) => {
    if (after.some((a) => a.task === other)) low = Math.max(low, k + 1);
    if (successors.includes(other)) high = Math.min(high, k);
  });
  order.splice(low + draw(high - low + 1), 0, task);
}

/** What must start soonest comes first, nobody's hands counted. A task starts no later than what waits for it, so the order holds. */
function byLatestStart(job: DatedJob, finish: number): readonly number[] {
  const { tasks } = job;
  const ends = tasks.map(() => finish);
  const latest = tasks.map(() => 0);
  for (let i = tasks.length - 1; i >= 0; i--) {
    const task = tasks[i]!;
    latest[i] = latestSpan(job.hours[task.hours]!, ends[i]!, task.work, task.whole)?.start ?? Number.NEGATIVE_INFINITY;
    for (const { task: k, wait } of task.after) ends[k] = Math.min(ends[k]!, latest[i]! - wait);
  }
  return tasks.map((_, i) => i).sort((a, b) => latest[a]! - latest[b]! || a - b);
}
