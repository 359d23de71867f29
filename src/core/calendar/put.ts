import type { DatedJob, Timetable } from './dated.ts';
import { earliestSpan } from './hours.ts';

interface Held {
  readonly from: number;
  readonly to: number;
  readonly amount: number;
}

/**
 * Puts the tasks one after another, in the order given, at the first moment at which hours, people, tools, floor and air allow: the
 * serial schedule generation scheme (Kolisch, European Journal of Operational Research 90, 1996, 320–333) over real hours. The order puts
 * every task after those it waits for. Undefined when the hours run out.
 */
export function putInOrder(job: DatedJob, order: readonly number[]): Timetable | undefined {
  const { tasks, resources } = job;
  const starts: number[] = tasks.map(() => 0);
  const ends: number[] = tasks.map(() => 0);
  const held: Held[][] = resources.map(() => []);
  const single = singleOf(job);
  const dust = new Map<string, Held[]>();
  const wet = new Map<string, Held[]>();
  const heldIn = (map: Map<string, Held[]>, place: string): Held[] => {
    const known = map.get(place);
    if (known) return known;
    const made: Held[] = [];
    map.set(place, made);
    return made;
  };
  let finish = 0;
  for (const i of order) {
    const task = tasks[i]!;
    let moment = task.from ?? 0;
    for (const { task: k, wait } of task.after) moment = Math.max(moment, ends[k]! + wait);
    for (;;) {
      const span = earliestSpan(job.hours[task.hours]!, moment, task.work, task.whole);
      if (!span) return undefined;
      let next = span.start;
      for (const { resource, amount, beyond } of task.holds)
        next = Math.max(
          next,
          single[resource]
            ? gapIn(held[resource]!, span.start, span.end + beyond)
            : clearOf(held[resource]!, span.start, span.end + beyond, resources[resource]! - amount),
        );
      if (task.air) {
        const others = heldIn(task.air.kind === 'dust' ? wet : dust, task.air.place);
        next = Math.max(next, clearOf(others, span.start, span.end + task.air.beyond, 0));
      }
      if (next > span.start) {
        moment = next;
        continue;
      }
      starts[i] = span.start;
      ends[i] = span.end;
      finish = Math.max(finish, span.end);
      for (const { resource, amount, beyond } of task.holds)
        insertByStart(held[resource]!, { from: span.start, to: span.end + beyond, amount });
      if (task.air)
        heldIn(task.air.kind === 'dust' ? dust : wet, task.air.place).push({
          from: span.start,
          to: span.end + task.air.beyond,
          amount: 1,
        });
      break;
    }
  }
  return { starts, ends, finish };
}

/** Whether everything held of a resource leaves no room for anything else: then what is held never overlaps. */
const alone = (job: DatedJob, resource: number): boolean => {
  const takes = job.tasks.flatMap((t) => t.holds.filter((h) => h.resource === resource).map((h) => h.amount));
  return takes.every((amount) => amount * 2 > job.resources[resource]!);
};

const kept = new WeakMap<DatedJob, readonly boolean[]>();
function singleOf(job: DatedJob): readonly boolean[] {
  const known = kept.get(job);
  if (known) return known;
  const made = job.resources.map((_, r) => alone(job, r));
  kept.set(job, made);
  return made;
}

/** The first moment from `from` on that is not held, and stays so until `to`; or a later one at which it is worth asking again. */
function gapIn(list: readonly Held[], from: number, to: number): number {
  // by start, never overlapping: the first that ends after `from`
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (list[middle]!.to > from) high = middle;
    else low = middle + 1;
  }
  return low < list.length && list[low]!.from < to ? list[low]!.to : from;
}
function insertByStart(list: Held[], held: Held): void {
  let k = list.length;
  while (k > 0 && list[k - 1]!.from > held.from) k--;
  list.splice(k, 0, held);
}

/**
 * `from` when never more than `room` is held between `from` and `to`; else the first moment at which something lets go of what is in
 * the way: no start before that can do, since the same things would still be held.
 */
function clearOf(list: readonly Held[], from: number, to: number, room: number): number {
  let next = from;
  if (list.reduce((sum, at) => sum + at.amount, 0) <= room) return next;
  for (const at of list) {
    if (at.to <= from || at.from >= to) continue;
    const moment = Math.max(at.from, from);
    let sum = 0;
    let release = Number.POSITIVE_INFINITY;
    for (const other of list)
      if (other.from <= moment && other.to > moment) {
        sum += other.amount;
        release = Math.min(release, other.to);
      }
    if (sum > room) next = Math.max(next, release);
  }
  return next;
}
