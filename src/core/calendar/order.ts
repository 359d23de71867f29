import type { DatedJob, DatedTask, Timetable } from './dated.ts';
import { earliestSpan, type Hours, latestSpan } from './hours.ts';

/** `to` may not start before `wait` minutes after `from` has ended: what a timetable has decided, and what was asked. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly wait: number;
  readonly because: 'order' | 'wait' | 'hands' | 'tools' | 'air';
}

/**
 * The order a timetable keeps, as arcs: what waits for what, and for every pair that shares something and lies apart in time, which
 * goes first. Whatever durations and hours become, times that keep all arcs keep every limit: tasks left without an arc all overlapped
 * pairwise, intervals that do so have a moment in common (Helly), and at that moment there was enough.
 */
export interface Order {
  /** Tasks by start; every arc runs forwards in it. */
  readonly line: readonly number[];
  /** Arcs by the task they lead to. */
  readonly into: readonly (readonly Arc[])[];
  readonly outOf: readonly (readonly Arc[])[];
}

export function orderOf(job: DatedJob, times: Timetable): Order {
  return arcsOf(job, times, false);
}

/**
 * The same without arcs that others imply, for as long as no task is done. Where one pair of hands does everything, one task after
 * another, an arc from a task to a later one implies every arc from it to still later ones that waits no longer.
 */
export const skeletonOf = (job: DatedJob, times: Timetable): Order => arcsOf(job, times, oneAfterAnother(job));

const oneAfterAnother = ({ tasks, resources, people }: DatedJob): boolean =>
  tasks.every((task) =>
    task.holds.some((h) => h.resource === people.resource && h.amount * 2 > resources[h.resource]!),
  );

function arcsOf(job: DatedJob, { starts, ends }: Timetable, implied: boolean): Order {
  const { tasks } = job;
  const line = tasks.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || ends[a]! - ends[b]! || a - b);
  const into: Arc[][] = tasks.map(() => []);
  const outOf: Arc[][] = tasks.map(() => []);
  const add = (arc: Arc): void => {
    into[arc.to]!.push(arc);
    outOf[arc.from]!.push(arc);
  };
  for (const to of line)
    for (const { task, wait } of tasks[to]!.after) add({ from: task, to, wait, because: wait > 0 ? 'wait' : 'order' });
  line.forEach((from, k) => {
    const { holds, air } = tasks[from]!;
    const most = holds.reduce((m, h) => Math.max(m, h.beyond), air?.beyond ?? 0);
    let longest = -1;
    for (let p = k + 1; p < line.length && !(implied && longest >= most); p++) {
      const to = line[p]!;
      const shared = keptApart(job, tasks[from]!, tasks[to]!, starts[to]! - ends[from]!);
      if (!shared || (implied && shared.wait <= longest)) continue;
      add({ from, to, ...shared });
      longest = Math.max(longest, shared.wait);
    }
  });
  return { line, into, outOf };
}

/** What two tasks share and do not hold at one time, `gap` after the end of the one: the longest wait that comes of it. */
function keptApart(job: DatedJob, a: DatedTask, b: DatedTask, gap: number): Pick<Arc, 'wait' | 'because'> | undefined {
  let found: Pick<Arc, 'wait' | 'because'> | undefined;
  const apart = (wait: number, because: Arc['because']): void => {
    if (wait <= gap && !(found && found.wait >= wait)) found = { wait, because };
  };
  for (const { resource, beyond } of a.holds)
    if (b.holds.some((h) => h.resource === resource))
      apart(beyond, resource === job.people.resource ? 'hands' : 'tools');
  if (a.air && b.air && a.air.place === b.air.place && a.air.kind !== b.air.kind) apart(a.air.beyond, 'air');
  return found;
}

/** Other work and other hours for the same order. Undefined when the hours run out. */
export interface Changed {
  readonly work?: (task: number) => number;
  readonly hours?: readonly Hours[];
  /** Tasks that are done: the moment they ended. */
  readonly done?: ReadonlyMap<number, number>;
  /** Nothing that is not done starts before. */
  readonly from?: number;
}

/** Every task at the first moment its arcs and its hours allow. */
export function keepOrder(job: DatedJob, order: Order, changed: Changed = {}): Timetable | undefined {
  const { tasks } = job;
  const hours = changed.hours ?? job.hours;
  const starts: number[] = tasks.map(() => 0);
  const ends: number[] = tasks.map(() => 0);
  let finish = 0;
  for (const i of order.line) {
    const task = tasks[i]!;
    const done = changed.done?.get(i);
    if (done !== undefined) {
      starts[i] = done;
      ends[i] = done;
      continue;
    }
    let moment = Math.max(task.from ?? 0, changed.from ?? 0);
    for (const { from, wait } of order.into[i]!) moment = Math.max(moment, ends[from]! + wait);
    const work = changed.work ? changed.work(i) : task.work;
    const open = hours[task.hours]!;
    // what takes longer than any opening ever was cannot be done in one go, and is broken off like other work
    const span = earliestSpan(open, moment, work, task.whole && work <= job.hours[task.hours]!.longest);
    if (!span) return undefined;
    starts[i] = span.start;
    ends[i] = span.end;
    finish = Math.max(finish, span.end);
  }
  return { starts, ends, finish };
}

/** The latest start of every task with which nothing after it moves and the job ends no later. */
export function latestStarts(job: DatedJob, order: Order, finish: number): readonly number[] {
  const latest = job.tasks.map(() => 0);
  for (const i of [...order.line].reverse()) {
    const task = job.tasks[i]!;
    const end = order.outOf[i]!.reduce((least, arc) => Math.min(least, latest[arc.to]! - arc.wait), finish);
    const span = latestSpan(job.hours[task.hours]!, end, task.work, task.whole);
    latest[i] = span ? span.start : 0;
  }
  return latest;
}

/** One link of the critical chain: the task, and what decided its start. */
export interface Link {
  readonly task: number;
  /** The task it had to wait for; nothing for the first. */
  readonly for?: Arc;
  /** Then it had to wait on for its hours: a helper, a shop, the maker's own. */
  readonly hours: boolean;
}

/** What decides the end, from first to last: walked back from the task that ends last, each time to what held it up longest. */
export function criticalChain(job: DatedJob, order: Order, { starts, ends, finish }: Timetable): readonly Link[] {
  const chain: Link[] = [];
  let i = order.line.find((k) => ends[k] === finish);
  while (i !== undefined) {
    const arcs = order.into[i]!;
    let holder: Arc | undefined;
    let free = job.tasks[i]!.from ?? 0;
    for (const arc of arcs) {
      const moment = ends[arc.from]! + arc.wait;
      // of two that hold it up equally, what it waits for by nature is told before who was busy
      if (moment > free || (moment === free && holder && RANK[arc.because] < RANK[holder.because])) {
        free = moment;
        holder = arc;
      }
    }
    chain.push({ task: i, ...(holder && { for: holder }), hours: starts[i]! > free });
    i = holder?.from;
  }
  return chain.reverse();
}
const RANK = { wait: 0, air: 1, order: 2, tools: 3, hands: 4 } as const;
