import { type Bound, boundOf } from './bound.ts';
import type { DatedJob, Timetable } from './dated.ts';
import { latestSpan } from './hours.ts';
import { criticalChain, skeletonOf } from './order.ts';
import { putterOf, timesOf } from './put.ts';
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
  /** An end that need not be bettered. */
  readonly enough?: number;
}
/** Timetables built for one job: enough that more hardly ever end sooner on jobs of the examples' size. */
export const USUAL_ARRANGE_STEPS = 2000;
/** With fewer steps than this the least end is not worked out to be guided by. */
const GUIDED = 100;
/** Moves without a better end before the best order is shaken. */
const PATIENCE = 300;
/** Minutes a task may be later, in the mean, in an order that is gone on from all the same; seldom nearly so many. */
const LOOSE = 200;

/**
 * The shortest calendar the effort finds. Orders to begin with: by latest start, and as the job is written; then one task at a time is
 * moved elsewhere in the order, with what it waits for or what waits for it, tasks of the critical chain oftener than others; what ends no
 * later is gone on from. Same job, same answer.
 */
export function arrange(job: DatedJob, effort: ArrangeEffort = {}): Arranged {
  const found = searched(job, effort);
  if (!found) return { status: 'infeasible' };
  const { times, steps } = found;
  const bound = found.bound.least();
  return { status: times.finish <= bound ? 'optimal' : 'feasible', times, bound, steps };
}

/** Only when it ends. Undefined when the hours run out. */
export const finishOf = (job: DatedJob, effort: ArrangeEffort): number | undefined =>
  searched(job, effort)?.times.finish;

/** An order, when it ends, and how late everything is: of two that end alike, the one with the lesser sum is the better. */
interface Ordered {
  readonly order: readonly number[];
  readonly times: Timetable;
  readonly sum: number;
}

function searched(
  job: DatedJob,
  effort: ArrangeEffort,
): { readonly times: Timetable; readonly bound: Bound; readonly steps: number } | undefined {
  const { tasks } = job;
  const putter = putterOf(job);
  const natural = tasks.map((_, i) => i);
  // where helpers come on a few days only, what leads to them has to come first
  const horizon = job.hours.reduce((end, hours) => Math.max(end, hours.to.at(-1) ?? 0), 0);
  /** `than`: only what is no worse; an order that must end later is not put to its end. */
  const put = (order: readonly number[], kept?: number, than?: Ordered): Ordered | undefined => {
    const finish = putter.put(order, kept, than && latest);
    if (finish === undefined) return undefined;
    const sum = due ? latenessOf(putter.starts, due) : sumOf(putter.ends);
    if (than && (finish - than.times.finish || sum - than.sum - loose) > 0) return undefined;
    return { order, times: timesOf(putter, finish), sum };
  };
  /** Latest starts for the end of the order that the search goes on from. */
  let latest: readonly number[] = [];
  /** Latest starts for the least end there could be: where many orders end on one day, they tell which is nearer to a sooner one. */
  let due: readonly number[] | undefined;
  let loose = 0;
  const begin = [...(effort.near ? [effort.near] : []), natural, orderBy(latestBy(job, horizon))];
  let first: Ordered | undefined;
  for (const order of begin) {
    const found = put(order, undefined, first);
    if (!found || (first && earlier(found, first) >= 0)) continue;
    first = found;
    latest = latestBy(job, first.times.finish);
  }
  if (!first) return undefined;
  const most = effort.steps ?? USUAL_ARRANGE_STEPS;
  let best = first;
  let steps = begin.length;
  const bound = boundOf(job, first.times.finish);
  const enough = effort.enough ?? Number.NEGATIVE_INFINITY;
  const over = (): boolean => steps >= most || best.times.finish <= enough || bound.reaches(best.times.finish);
  const consider = (order: readonly number[], kept?: number, than?: Ordered): Ordered | undefined => {
    const found = put(order, kept, than);
    steps++;
    if (found && earlier(found, best) < 0) best = found;
    return found;
  };
  if (!over()) consider(orderBy(latest), undefined, best);
  if (!over() && most >= GUIDED) {
    due = latestBy(job, bound.least());
    best = { ...best, sum: latenessOf(best.times.starts, due) };
  }

  const draw = drawFrom(effort.seed ?? 1);
  const waitsFor = ancestorsOf(job);
  const place = new Int32Array(tasks.length);
  let current: Ordered;
  let chain: readonly number[] = [];
  /** Goes on from an order: what begins like it is not put again. */
  const goOn = (from: Ordered, again: boolean): void => {
    // the chain is worth following anew only where the end has moved
    const same = !again && from.times.finish === current.times.finish;
    current = from;
    putter.hold(again ? from.times : undefined);
    from.order.forEach((task, k) => {
      place[task] = k;
    });
    if (same) return;
    chain = chainOf(job, current.times);
    latest = latestBy(job, current.times.finish);
  };
  if (!over() && tasks.length > 1) goOn(best, true);
  let idle = 0;
  while (!over() && tasks.length > 1) {
    const order = [...current!.order];
    const moves = idle >= PATIENCE ? 4 : 1;
    let kept = tasks.length;
    for (let m = 0; m < moves; m++) {
      const task = chain.length > 0 && draw(2) === 0 ? chain[draw(chain.length)]! : draw(tasks.length);
      kept = Math.min(kept, moveWithin(order, place, task, waitsFor, draw));
    }
    for (let k = kept; k < order.length; k++) place[current!.order[k]!] = k;
    const before = best;
    loose = tasks.length * LOOSE * (draw(1000) / 1000) ** 4;
    // a shaken order may be worse
    const found = consider(order, kept, moves > 1 ? undefined : current!);
    if (best !== before) idle = 0;
    else idle++;
    if (found) goOn(found, false);
    if (moves > 1) idle = 0;
    // a shaken order that leads nowhere is given up
    if (idle === PATIENCE - 1) goOn(best, true);
  }
  return { times: best.times, bound, steps };
}

/** By finish, then by how early everything is. */
const earlier = (a: Ordered, b: Ordered): number => a.times.finish - b.times.finish || a.sum - b.sum;
/** Minutes by which tasks start after they are due, all together. */
function latenessOf(starts: ArrayLike<number>, due: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < due.length; i++) sum += Math.max(0, starts[i]! - due[i]!);
  return sum;
}
function sumOf(ends: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < ends.length; i++) sum += ends[i]!;
  return sum;
}

const chainOf = (job: DatedJob, times: Timetable): readonly number[] =>
  criticalChain(job, skeletonOf(job, times), times).map((link) => link.task);

/** For each task, which tasks it waits for, directly or through others. */
function ancestorsOf({ tasks }: DatedJob): readonly Uint8Array[] {
  const all = tasks.map(() => new Uint8Array(tasks.length));
  tasks.forEach(({ after }, i) => {
    for (const { task: k } of after) {
      all[i]![k] = 1;
      all[k]!.forEach((waits, far) => {
        if (waits) all[i]![far] = 1;
      });
    }
  });
  return all;
}

/**
 * Moves a task elsewhere in the order, by a quarter of it at most: with it, what it waits for and would otherwise come after it, or what
 * waits for it and would come before. `place` tells where each stands, before and after. Gives the first place that changed.
 */
function moveWithin(
  order: number[],
  place: Int32Array,
  task: number,
  waitsFor: readonly Uint8Array[],
  draw: (below: number) => number,
): number {
  const from = place[task]!;
  const reach = Math.max(4, order.length >> 2);
  const low = Math.max(0, from - reach);
  const to = low + draw(Math.min(order.length - 1, from + reach) - low + 1);
  const [begin, end] = to < from ? [to, from] : [from, to];
  const sooner: number[] = [];
  const later: number[] = [];
  for (let k = begin; k <= end; k++) {
    const other = order[k]!;
    const along = other === task || waitsFor[to < from ? task : other]![to < from ? other : task] === 1;
    (along === to < from ? sooner : later).push(other);
  }
  [...sooner, ...later].forEach((other, k) => {
    order[begin + k] = other;
    place[other] = begin + k;
  });
  return begin;
}

/** The latest start of each task with which the job can end at `finish`, nobody's hands counted. */
export function latestBy(job: DatedJob, finish: number): readonly number[] {
  const { tasks } = job;
  const ends = tasks.map(() => finish);
  const latest = tasks.map(() => 0);
  for (let i = tasks.length - 1; i >= 0; i--) {
    const task = tasks[i]!;
    latest[i] = latestSpan(job.hours[task.hours]!, ends[i]!, task.work, task.whole)?.start ?? Number.NEGATIVE_INFINITY;
    for (const { task: k, wait } of task.after) ends[k] = Math.min(ends[k]!, latest[i]! - wait);
  }
  return latest;
}

/** What must start soonest comes first. A task starts no later than what waits for it, so the order holds. */
const orderBy = (latest: readonly number[]): readonly number[] =>
  latest.map((_, i) => i).sort((a, b) => latest[a]! - latest[b]! || a - b);
