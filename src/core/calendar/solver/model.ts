import { fail, type Issue, nearest, ok, type Result } from '../../issue/index.ts';
import type { CalendarProblem } from './problem.ts';

/**
 * The problem as whole numbers: tasks 0…n−1 in an order in which each comes after those before it, times in units of `unit` hours,
 * needs and capacities in whole parts. Exact: a problem that is not whole to a thousandth is refused, not rounded.
 */
export interface Model {
  readonly count: number;
  readonly unit: number;
  readonly duration: Int32Array;
  readonly resources: number;
  readonly capacity: Int32Array;
  /** need[task × resources + resource] */
  readonly need: Int32Array;
  readonly after: readonly Int32Array[];
  readonly before: readonly Int32Array[];
  /** Longest chain before the task's start, and after its end, in units. */
  readonly head: Int32Array;
  readonly tail: Int32Array;
  /** The longest chain of all. */
  readonly path: number;
  /** All durations one after another: no schedule needs more. */
  readonly sum: number;
  /** Place of each model task in the problem. */
  readonly original: Int32Array;
}

/** Beyond this many units the whole-number arithmetic could overflow. */
const LONGEST = 100_000_000;

export function modelOf(problem: CalendarProblem): Result<Model> {
  const issues: Issue[] = [];
  const at = new Map<string, number>();
  const { tasks, resources } = problem;
  resources.forEach((amount, r) => {
    if (!(Number.isFinite(amount) && amount >= 0))
      issues.push({
        path: ['resources', r],
        message: 'a resource is an amount of zero or more',
        found: String(amount),
      });
  });
  tasks.forEach((task, i) => {
    const id = String(task.id);
    if (at.has(id)) issues.push({ path: ['tasks', i, 'id'], message: 'two tasks have one id', found: id });
    at.set(id, i);
    if (!(Number.isFinite(task.hours) && task.hours >= 0))
      issues.push({ path: ['tasks', i, 'hours'], message: 'hours are zero or more', found: String(task.hours) });
    if (task.needs.length !== resources.length)
      issues.push({
        path: ['tasks', i, 'needs'],
        message: 'a task says how much it needs of each resource',
        found: `${task.needs.length} amounts`,
        expected: `${resources.length}`,
      });
    task.needs.forEach((amount, r) => {
      if (!(Number.isFinite(amount) && amount >= 0))
        issues.push({ path: ['tasks', i, 'needs', r], message: 'a need is zero or more', found: String(amount) });
      else if (task.hours > 0 && amount > (resources[r] ?? 0))
        issues.push({
          path: ['tasks', i, 'needs', r],
          message: `task ${id} needs more of resource ${r + 1} than there is`,
          found: String(amount),
          expected: `at most ${resources[r] ?? 0}`,
        });
    });
  });
  tasks.forEach((task, i) => {
    task.before.forEach((id, k) => {
      if (at.has(String(id))) return;
      const meant = nearest(String(id), at.keys());
      issues.push({
        path: ['tasks', i, 'before', k],
        message: 'there is no such task',
        found: String(id),
        ...(meant !== undefined && { nearest: meant }),
      });
    });
  });
  if (issues.length > 0) return fail(...issues);

  const order = inOrder(tasks.map((task) => [...new Set(task.before.map((id) => at.get(String(id))!))]));
  if (!order.ok) {
    const names = order.ring.map((i) => String(tasks[i]!.id));
    return fail({
      path: ['tasks', order.ring[0]!, 'before'],
      message: 'these tasks wait for each other in a ring',
      found: names.join(' → '),
    });
  }
  const time = wholeParts(tasks.map((task) => task.hours));
  if (time === undefined)
    return fail({
      path: ['tasks'],
      message: 'hours finer than a thousandth cannot be planned',
      expected: 'thousandths of an hour at the finest',
    });
  const parts: number[] = [];
  for (let r = 0; r < resources.length; r++) {
    const scale = wholeParts([resources[r]!, ...tasks.map((task) => task.needs[r]!)]);
    if (scale === undefined || resources[r]! / scale > 2 ** 30)
      return fail({ path: ['resources', r], message: 'amounts finer than a thousandth cannot be planned' });
    parts.push(scale);
  }
  const count = tasks.length;
  const width = resources.length;
  const place = new Int32Array(count);
  order.order.forEach((i, k) => {
    place[i] = k;
  });
  const duration = Int32Array.from(order.order, (i) => Math.round(tasks[i]!.hours / time));
  const sum = duration.reduce((total, hours) => total + hours, 0);
  if (tasks.reduce((total, task) => total + task.hours, 0) / time > LONGEST)
    return fail({ path: ['tasks'], message: 'the job is too long for the fineness of its hours' });
  const need = new Int32Array(count * width);
  const after: Int32Array[] = [];
  const pre: number[][] = tasks.map(() => []);
  order.order.forEach((i, k) => {
    // A task that takes no time holds nothing.
    if (tasks[i]!.hours > 0)
      for (let r = 0; r < width; r++) need[k * width + r] = Math.round(tasks[i]!.needs[r]! / parts[r]!);
    const next = [...new Set(tasks[i]!.before.map((id) => place[at.get(String(id))!]!))].sort((a, b) => a - b);
    after.push(Int32Array.from(next));
    for (const j of next) pre[j]!.push(k);
  });
  const before = pre.map((list) => Int32Array.from(list));
  const head = new Int32Array(count);
  const tail = new Int32Array(count);
  let path = 0;
  for (let i = 0; i < count; i++) {
    for (const j of after[i]!) head[j] = Math.max(head[j]!, head[i]! + duration[i]!);
    path = Math.max(path, head[i]! + duration[i]!);
  }
  for (let i = count - 1; i >= 0; i--) for (const j of after[i]!) tail[i] = Math.max(tail[i]!, tail[j]! + duration[j]!);
  return ok({
    count,
    unit: time,
    duration,
    resources: width,
    capacity: Int32Array.from(resources, (amount, r) => Math.round(amount / parts[r]!)),
    need,
    after,
    before,
    head,
    tail,
    path,
    sum,
    original: Int32Array.from(order.order),
  });
}

/** The same job told backwards: task i is n−1−i, and what came before comes after. */
export function reversed(model: Model): Model {
  const n = model.count;
  const turn = (of: Int32Array): Int32Array => Int32Array.from(of).reverse();
  const turnAll = (of: readonly Int32Array[]): readonly Int32Array[] =>
    [...of].reverse().map((list) => Int32Array.from(list, (j) => n - 1 - j).sort());
  const need = new Int32Array(model.need.length);
  for (let i = 0; i < n; i++)
    for (let r = 0; r < model.resources; r++)
      need[(n - 1 - i) * model.resources + r] = model.need[i * model.resources + r]!;
  return {
    ...model,
    duration: turn(model.duration),
    need,
    after: turnAll(model.before),
    before: turnAll(model.after),
    head: turn(model.tail),
    tail: turn(model.head),
    original: turn(model.original),
  };
}

/** The largest 1/k (or whole number) that divides every amount; undefined where even a thousandth does not. */
function wholeParts(amounts: readonly number[]): number | undefined {
  for (const k of [1, 2, 4, 5, 10, 3, 6, 12, 15, 20, 30, 60, 100, 1000]) {
    if (!amounts.every((amount) => Math.abs(amount * k - Math.round(amount * k)) <= 1e-9 * Math.max(1, amount * k)))
      continue;
    const common = amounts.reduce((divisor, amount) => gcd(divisor, Math.round(amount * k)), 0);
    return Math.max(1, common) / k;
  }
  return undefined;
}
const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

type Order =
  | { readonly ok: true; readonly order: readonly number[] }
  | { readonly ok: false; readonly ring: readonly number[] };

/** Each task after those before it, otherwise as they came; or a ring of tasks that wait for each other. */
function inOrder(after: readonly (readonly number[])[]): Order {
  const waits = new Int32Array(after.length);
  for (const list of after) for (const j of list) waits[j]!++;
  const order: number[] = [];
  for (let i = 0; i < after.length; i++) if (waits[i] === 0) order.push(i);
  for (let k = 0; k < order.length; k++) for (const j of after[order[k]!]!) if (--waits[j]! === 0) order.push(j);
  if (order.length === after.length) return { ok: true, order };
  // Every task left waits for one that is left: walk back along such waits until a task comes twice.
  const seen = new Map<number, number>();
  const walk: number[] = [];
  let i = waits.findIndex((count) => count > 0);
  while (!seen.has(i)) {
    seen.set(i, walk.length);
    walk.push(i);
    i = after.findIndex((list, k) => waits[k]! > 0 && list.includes(i));
  }
  return { ok: false, ring: walk.slice(seen.get(i)).reverse() };
}
