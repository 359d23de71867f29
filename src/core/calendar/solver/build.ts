import type { Model } from './model.ts';

/**
 * Building schedules one task after another: the serial schedule generation scheme (Kelley 1963; Kolisch, European Journal of
 * Operational Research 90, 1996, 320–333), forwards and backwards, and double justification, which pushes every task right and then
 * left again and never ends later (Valls, Ballestín & Quintanilla, European Journal of Operational Research 165, 2005, 375–386).
 *
 * What is free at a moment is kept in lanes of whole words, one lane and one guard bit per resource: taking the need from the whole
 * word leaves every guard bit standing exactly when each lane had enough.
 */
export interface Builder {
  /** Earliest starts in the order of `list`, which must put every task after those before it. Fills `starts`; returns the end. */
  readonly forward: (list: Int32Array, starts: Int32Array) => number;
  /** Pushes all tasks right against the end, then left again. Returns the new end, never later. */
  readonly justify: (starts: Int32Array, end: number) => number;
  /** Fills `list` with the tasks by start; a task comes after those before it. */
  readonly byStart: (starts: Int32Array, list: Int32Array) => void;
  /** Times `forward` has passed over all tasks, in either direction. */
  readonly passes: () => number;
}

export function builderOf(model: Model): Builder {
  const { count: n, duration, before, after } = model;
  const { words, full, guard, take } = lanesOf(model);
  const free = new Int32Array((model.sum + 1) * words);
  const finish = new Int32Array(n);
  const late = new Int32Array(n);
  const order = new Int32Array(n);
  const ends = new Int32Array(n);
  const sort = sorterOf(n);
  const one = full[0] ?? 0;
  const guardOne = guard[0] ?? 0;
  const holds = new Uint8Array(n);
  for (let i = 0; i < n; i++) for (let w = 0; w < words; w++) if (take[i * words + w] !== 0) holds[i] = 1;
  let passes = 0;
  // Nothing is held from here on: only the moments before need clearing.
  let used = model.sum + 1;

  const clear = (): void => {
    if (words === 1) free.fill(one, 0, used);
    else for (let t = 0; t < used; t++) for (let w = 0; w < words; w++) free[t * words + w] = full[w]!;
  };
  const fits = (i: number, t: number): boolean => {
    for (let w = 0; w < words; w++)
      if (((free[t * words + w]! - take[i * words + w]!) & guard[w]!) !== guard[w]) return false;
    return true;
  };
  const hold = (i: number, start: number): void => {
    const d = duration[i]!;
    if (words === 1) {
      const amount = take[i]!;
      for (let t = start; t < start + d; t++) free[t] = free[t]! - amount;
    } else
      for (let t = start; t < start + d; t++)
        for (let w = 0; w < words; w++) free[t * words + w]! -= take[i * words + w]!;
  };
  /** The first start from `from` on at which task i fits for its whole length: looked at from its end, since nothing before what is in the way will do. */
  const earliest = (i: number, from: number): number => {
    const d = duration[i]!;
    let start = from;
    let known = from;
    let t = start + d - 1;
    if (words === 1) {
      const amount = take[i]!;
      while (t >= known) {
        if (((free[t]! - amount) & guardOne) === guardOne) t--;
        else {
          known = start + d;
          start = t + 1;
          t = start + d - 1;
        }
      }
    } else
      while (t >= known) {
        if (fits(i, t)) t--;
        else {
          known = start + d;
          start = t + 1;
          t = start + d - 1;
        }
      }
    return start;
  };
  /** The last start with its end at `to` or sooner. */
  const latest = (i: number, to: number): number => {
    const d = duration[i]!;
    let end = to;
    let t = end - d;
    while (t < end) {
      if (fits(i, t)) t++;
      else {
        end = t;
        t = end - d;
      }
    }
    return end - d;
  };

  const forward = (list: Int32Array, starts: Int32Array): number => {
    passes++;
    clear();
    let end = 0;
    for (let k = 0; k < n; k++) {
      const i = list[k]!;
      let start = 0;
      const pre = before[i]!;
      for (let p = 0; p < pre.length; p++) if (finish[pre[p]!]! > start) start = finish[pre[p]!]!;
      if (holds[i] === 1) {
        start = earliest(i, start);
        hold(i, start);
      }
      starts[i] = start;
      finish[i] = start + duration[i]!;
      if (finish[i]! > end) end = finish[i]!;
    }
    used = end;
    return end;
  };

  const byStart = (starts: Int32Array, list: Int32Array): void => {
    sort(starts, list);
  };

  const justify = (starts: Int32Array, end: number): number => {
    // Right: by falling end. Tasks without length share their end with those before them, and the model's order settles which goes first.
    passes++;
    clear();
    used = end;
    for (let i = 0; i < n; i++) ends[i] = starts[i]! + duration[i]!;
    sort(ends, order);
    let first = end;
    for (let k = n - 1; k >= 0; k--) {
      const i = order[k]!;
      let to = end;
      const post = after[i]!;
      for (let p = 0; p < post.length; p++) if (late[post[p]!]! < to) to = late[post[p]!]!;
      let start = to - duration[i]!;
      if (holds[i] === 1) {
        start = latest(i, to);
        hold(i, start);
      }
      late[i] = start;
      if (start < first) first = start;
    }
    byStart(late, order);
    return forward(order, starts);
  };
  return { forward, justify, byStart, passes: () => passes };
}

/**
 * Puts tasks in order of a whole number each, ties in the order of the model: by counting where the numbers lie close together, which
 * is nearly always, else by comparing.
 */
export function sorterOf(n: number): (by: Int32Array, list: Int32Array) => void {
  const counts = new Int32Array(16 * n + 1024);
  const keys = new Float64Array(n);
  return (by, list) => {
    let least = by[0] ?? 0;
    let most = least;
    for (let i = 1; i < n; i++) {
      const value = by[i]!;
      if (value < least) least = value;
      else if (value > most) most = value;
    }
    const span = most - least + 1;
    if (span >= counts.length) {
      for (let i = 0; i < n; i++) keys[i] = by[i]! * n + i;
      keys.sort();
      for (let k = 0; k < n; k++) list[k] = keys[k]! % n;
      return;
    }
    counts.fill(0, 0, span + 1);
    for (let i = 0; i < n; i++) counts[by[i]! - least + 1]!++;
    for (let v = 1; v < span; v++) counts[v]! += counts[v - 1]!;
    for (let i = 0; i < n; i++) list[counts[by[i]! - least]!++] = i;
  };
}

interface Lanes {
  readonly words: number;
  readonly full: Int32Array;
  readonly guard: Int32Array;
  readonly take: Int32Array;
}
/** Lanes of just enough bits, packed into as few words of 31 bits as they come to in turn. */
function lanesOf({ count, resources, capacity, need }: Model): Lanes {
  const at: { readonly word: number; readonly shift: number; readonly bits: number }[] = [];
  let [word, shift] = [0, 0];
  for (let r = 0; r < resources; r++) {
    const bits = 33 - Math.clz32(capacity[r]!);
    if (shift + bits > 31) [word, shift] = [word + 1, 0];
    at.push({ word, shift, bits });
    shift += bits;
  }
  const words = Math.max(1, word + 1);
  const full = new Int32Array(words);
  const guard = new Int32Array(words);
  const take = new Int32Array(count * words);
  at.forEach(({ word: w, shift: s, bits }, r) => {
    guard[w]! |= 1 << (s + bits - 1);
    full[w]! |= (capacity[r]! << s) | (1 << (s + bits - 1));
    for (let i = 0; i < count; i++) take[i * words + w]! |= need[i * resources + r]! << s;
  });
  return { words, full, guard, take };
}
