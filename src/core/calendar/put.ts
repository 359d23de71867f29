import type { DatedJob, Timetable } from './dated.ts';
import { earliestSpan, openUntil } from './hours.ts';

/** Other work for the same tasks, looked up whenever an order is put: minutes of each, and whether it is done in one go. */
export interface OtherWork {
  readonly work: ArrayLike<number>;
  readonly whole: ArrayLike<boolean>;
}

/** Puts the tasks of one job again and again. What it found last stands in `starts` and `ends` until the next order is put. */
export interface Putter {
  readonly starts: ArrayLike<number>;
  readonly ends: ArrayLike<number>;
  /**
   * Puts all tasks in this order and gives the end of the last; undefined when the hours run out. The first `kept` of them stand in the
   * order and at the times that were held by `hold`. With `latest` it gives up, undefined, as soon as a task starts after its latest start.
   */
  readonly put: (order: ArrayLike<number>, kept?: number, latest?: ArrayLike<number>) => number | undefined;
  /** Holds times, left out those put last, so that other orders that begin like theirs need not put that beginning again. */
  readonly hold: (times?: Timetable) => void;
}

/** What is held of one resource, or of the air of one place, by start. */
interface Book {
  readonly tasks: Int32Array;
  readonly from: Float64Array;
  readonly to: Float64Array;
  readonly amount: Float64Array;
  /** The people's open minutes before each, and before the end of each: what lies between two is what may still be worked there. */
  readonly openFrom: Float64Array;
  readonly openTo: Float64Array;
  count: number;
}
const bookOf = (most: number): Book => ({
  tasks: new Int32Array(most),
  from: new Float64Array(most),
  to: new Float64Array(most),
  amount: new Float64Array(most),
  openFrom: new Float64Array(most),
  openTo: new Float64Array(most),
  count: 0,
});

/**
 * Puts the tasks one after another, in the order given, at the first moment at which hours, people, tools, floor and air allow: the
 * serial schedule generation scheme (Kolisch, European Journal of Operational Research 90, 1996, 320–333) over real hours. The order puts
 * every task after those it waits for. Undefined when the hours run out.
 */
export function putInOrder(job: DatedJob, order: readonly number[]): Timetable | undefined {
  const putter = putterOf(job);
  const finish = putter.put(order);
  return finish === undefined ? undefined : timesOf(putter, finish);
}

/** What was put last, as a value. */
export const timesOf = ({ starts, ends }: Putter, finish: number): Timetable => ({
  starts: Array.from(starts),
  ends: Array.from(ends),
  finish,
});

/** All that is looked up again and again stands in flat lists: a search puts a hundred thousand tasks and more. */
export function putterOf(job: DatedJob, other?: OtherWork): Putter {
  const { tasks, resources } = job;
  const n = tasks.length;
  const hours = tasks.map((task) => job.hours[task.hours]!);
  const ownHours = job.hours[job.people.hours]!;
  const work = other?.work ?? tasks.map((task) => task.work);
  const whole = other?.whole ?? tasks.map((task) => task.whole);

  // books: one for each resource, then dust and wet of each place
  const places = new Map<string, number>();
  for (const { air } of tasks)
    if (air && !places.has(air.place)) places.set(air.place, resources.length + 2 * places.size);
  const books = resources.length + 2 * places.size;
  const uses = new Int32Array(books);
  /** What each task holds, and what it must keep clear of: a book, how much, how long beyond its end, how much room there is beside it. */
  const holds = tasks.map((task) => {
    const own = task.holds.map(({ resource, amount, beyond }) => ({ book: resource, amount, beyond }));
    const air = task.air && places.get(task.air.place)! + (task.air.kind === 'dust' ? 0 : 1);
    const all = air === undefined ? own : [...own, { book: air, amount: 1, beyond: task.air!.beyond }];
    for (const { book } of all) uses[book]!++;
    return all;
  });
  const clears = tasks.map((task) => [
    ...task.holds.map(({ resource, amount, beyond }) => ({
      book: resource,
      room: resources[resource]! - amount,
      beyond,
    })),
    ...(task.air
      ? [{ book: places.get(task.air.place)! + (task.air.kind === 'dust' ? 1 : 0), room: 0, beyond: task.air.beyond }]
      : []),
  ]);
  // of a resource that anything takes more than half of, what is held never overlaps
  const single = resources.map((there, r) =>
    tasks.every((t) => t.holds.every((h) => h.resource !== r || h.amount * 2 > there)),
  );
  const longest = new Float64Array(books);

  const starts = new Float64Array(n);
  const ends = new Float64Array(n);
  let now = Array.from(uses, (count) => bookOf(count));
  let held = Array.from(uses, (count) => bookOf(count));
  const heldStarts = new Float64Array(n);
  const heldEnds = new Float64Array(n);
  const isKept = new Uint8Array(n);

  const enterAll = (i: number): void => {
    for (const { book, amount, beyond } of holds[i]!) {
      const until = ends[i]! + beyond;
      longest[book] = Math.max(longest[book]!, until - starts[i]!);
      const k = enter(now[book]!, i, starts[i]!, until, amount);
      if (book !== job.people.resource) continue;
      now[book]!.openFrom[k] = openUntil(ownHours, starts[i]!);
      now[book]!.openTo[k] = openUntil(ownHours, until);
    }
  };
  const put = (order: ArrayLike<number>, kept = 0, latest?: ArrayLike<number>): number | undefined => {
    let finish = 0;
    if (kept === 0) for (const book of now) book.count = 0;
    else {
      isKept.fill(0);
      for (let k = 0; k < kept; k++) {
        const i = order[k]!;
        isKept[i] = 1;
        starts[i] = heldStarts[i]!;
        ends[i] = heldEnds[i]!;
        if (ends[i]! > finish) finish = ends[i]!;
      }
      for (let b = 0; b < books; b++) keepOf(held[b]!, now[b]!, isKept);
    }
    for (let k = kept; k < n; k++) {
      const i = order[k]!;
      const task = tasks[i]!;
      let moment = task.from ?? 0;
      for (const { task: before, wait } of task.after) {
        const free = ends[before]! + wait;
        if (free > moment) moment = free;
      }
      const open = hours[i]!;
      const last = latest === undefined ? Number.POSITIVE_INFINITY : latest[i]!;
      for (;;) {
        const span = earliestSpan(open, moment, work[i]!, whole[i]!);
        if (!span || span.start > last) return undefined;
        const { start, end } = span;
        let next = start;
        for (const { book, room, beyond } of clears[i]!) {
          const until = end + beyond;
          const clear = single[book]
            ? gapIn(now[book]!, start, until, book === job.people.resource ? work[i]! : 0)
            : clearOf(now[book]!, start, until, room, longest[book]!);
          if (clear > next) next = clear;
        }
        if (next > start) {
          moment = next;
          continue;
        }
        starts[i] = start;
        ends[i] = end;
        if (end > finish) finish = end;
        enterAll(i);
        break;
      }
    }
    return finish;
  };
  const hold = (times?: Timetable): void => {
    if (times) {
      starts.set(times.starts);
      ends.set(times.ends);
      for (const book of now) book.count = 0;
      for (const i of tasks.map((_, k) => k).sort((a, b) => starts[a]! - starts[b]!)) enterAll(i);
    }
    [now, held] = [held, now];
    heldStarts.set(starts);
    heldEnds.set(ends);
  };
  return { starts, ends, put, hold };
}

/** Enters it by start, and says at which place. */
function enter(book: Book, task: number, from: number, to: number, amount: number): number {
  const count = book.count++;
  let k = count;
  while (k > 0 && book.from[k - 1]! > from) k--;
  if (k < count)
    for (const list of [book.tasks, book.from, book.to, book.amount, book.openFrom, book.openTo])
      list.copyWithin(k + 1, k, count);
  book.tasks[k] = task;
  book.from[k] = from;
  book.to[k] = to;
  book.amount[k] = amount;
  return k;
}

/** What some tasks hold, in the same order. */
function keepOf(all: Book, some: Book, isKept: Uint8Array): void {
  some.count = 0;
  for (let k = 0; k < all.count; k++) if (isKept[all.tasks[k]!]) copy(all, k, some, some.count++);
}

function copy(from: Book, k: number, to: Book, at: number): void {
  to.tasks[at] = from.tasks[k]!;
  to.from[at] = from.from[k]!;
  to.to[at] = from.to[k]!;
  to.amount[at] = from.amount[k]!;
  to.openFrom[at] = from.openFrom[k]!;
  to.openTo[at] = from.openTo[k]!;
}

/**
 * The first moment from `from` on that is not held, and stays so until `to`; or a later one at which it is worth asking again: where
 * `open` minutes can be worked before what is held next. A gap with fewer can hold no task of that work, whatever hours it keeps.
 */
function gapIn(
  { from: starts, to: ends, openFrom, openTo, count }: Book,
  from: number,
  to: number,
  open: number,
): number {
  // by start, never overlapping: the first that ends after `from`
  let k = 0;
  let high = count;
  while (k < high) {
    const middle = (k + high) >> 1;
    if (ends[middle]! > from) high = middle;
    else k = middle + 1;
  }
  if (k === count || starts[k]! >= to) return from;
  while (k + 1 < count && openFrom[k + 1]! - openTo[k]! < open) k++;
  return ends[k]!;
}

/**
 * `from` when never more than `room` is held between `from` and `to`; else the first moment at which something lets go of what is in
 * the way: no start before that can do, since the same things would still be held. Nothing is held for more than `longest`.
 */
function clearOf(
  { from: starts, to: ends, amount, count }: Book,
  from: number,
  to: number,
  room: number,
  longest: number,
): number {
  // by start: the first that may still be held at `from`
  let first = 0;
  let high = count;
  while (first < high) {
    const middle = (first + high) >> 1;
    if (starts[middle]! > from - longest) high = middle;
    else first = middle + 1;
  }
  let sum = 0;
  let beyond = first;
  for (; beyond < count && starts[beyond]! < to; beyond++) if (ends[beyond]! > from) sum += amount[beyond]!;
  if (sum <= room) return from;
  let next = from;
  for (let k = first; k < beyond; k++) {
    if (ends[k]! <= from) continue;
    const moment = Math.max(starts[k]!, from);
    let there = 0;
    let release = Number.POSITIVE_INFINITY;
    for (let j = first; j < beyond && starts[j]! <= moment; j++)
      if (ends[j]! > moment) {
        there += amount[j]!;
        if (ends[j]! < release) release = ends[j]!;
      }
    if (there > room && release > next) next = release;
  }
  return next;
}
