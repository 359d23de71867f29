import type { Model } from './model.ts';

/**
 * Building schedules one task after another: the serial schedule generation scheme (Kelley 1963; Kolisch, European Journal of
 * Operational Research 90, 1996, 320–333).
 *
 * What is free at a moment is kept in lanes of whole words, one lane and one guard bit per resource: taking the need from the whole
 * word leaves every guard bit standing exactly when each lane had enough.
 */
export interface Builder {
  /** Earliest starts in the order of `list`, which must put every task after those before it. Returns the end, which must not come after `longest`. */
  readonly build: (list: Int32Array, longest: number) => number;
  /** The starts last built. */
  readonly starts: Int32Array;
  /**
   * Earliest starts in the order of `list`, which differs from the one last built only from its place `first` to its place `last`.
   * Returns the end; `limit` + 1 as soon as the end is sure to come after `limit`; SAME as soon as every task is sure to start as built.
   */
  readonly vary: (list: Int32Array, first: number, last: number, limit: number) => number;
  /** The starts last varied, where an end no later than the limit was returned. */
  readonly varied: Int32Array;
}
export const SAME = -1;

/** The profile is kept as it stood before each so many tasks of the list: keeping it costs about as much as putting a task. */
const APART = 8;
/** Moments by which what is kept of the profile grows. */
const ROW = 16;
const roundUp = (value: number, to: number): number => Math.ceil(value / to) * to;

export function builderOf(model: Model): Builder {
  const { count: n, duration, before } = model;
  const { words, full, guard, take } = lanesOf(model);
  const free = new Int32Array((model.sum + 1) * words);
  const finish = new Int32Array(n);
  const one = full[0]!;
  const guardOne = guard[0]!;
  const holds = new Uint8Array(n);
  for (let i = 0; i < n; i++) for (let w = 0; w < words; w++) if (take[i * words + w] !== 0) holds[i] = 1;
  const rest = restOf(model);
  // What comes before task i: pre[at[i]] … pre[at[i + 1] - 1].
  const at = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) at[i + 1] = at[i]! + before[i]!.length;
  const pre = new Int32Array(at[n]!);
  for (let i = 0; i < n; i++) pre.set(before[i]!, at[i]!);
  // Nothing is held from `used` on: only the moments before need clearing.
  let used = 0;
  clear(0, model.sum + 1);
  const starts = new Int32Array(n);
  const varied = new Int32Array(n);
  // What was last built: the end of what comes before each place of the list, and before each APART-th the front of the profile.
  const ends = new Int32Array(n + 1);
  let front = free.subarray(0, 0);
  let rows: readonly Int32Array[] = [];

  function clear(from: number, until: number): void {
    if (words === 1) for (let t = from; t < until; t++) free[t] = one;
    else for (let t = from; t < until; t++) for (let w = 0; w < words; w++) free[t * words + w] = full[w]!;
  }
  const fits = (i: number, t: number): boolean => {
    for (let w = 0; w < words; w++)
      if (((free[t * words + w]! - take[i * words + w]!) & guard[w]!) !== guard[w]) return false;
    return true;
  };
  const hold = (i: number, from: number, until: number): void => {
    if (words === 1) {
      const amount = take[i]!;
      for (let t = from; t < until; t++) free[t] = free[t]! - amount;
    } else
      for (let t = from; t < until; t++) for (let w = 0; w < words; w++) free[t * words + w]! -= take[i * words + w]!;
  };
  /** The first start from `from` on at which task i fits for its whole length: looked at from its end, since nothing before what is in the way will do. */
  const earliest = (i: number, from: number): number => {
    const d = duration[i]!;
    let start = from;
    let clearTo = from;
    let t = start + d - 1;
    while (t >= clearTo) {
      if (fits(i, t)) t--;
      else {
        clearTo = start + d;
        start = t + 1;
        t = start + d - 1;
      }
    }
    return start;
  };

  /**
   * Puts the tasks of `list` from place `from` on; those before it are held. Where it is to be built upon, the profile is kept on the way.
   * Returns how many tasks of the list were put: less than all where the end is sure to come after `limit`; or SAME less that many where
   * those left are sure to stand as built.
   */
  const put = (list: Int32Array, from: number, last: number, limit: number, build: boolean): number => {
    // In one loop and with names of its own for what it reads: this is where all the time goes.
    const [profile, long, amounts, done, least, as] = [free, duration, take, finish, rest, starts];
    let end = ends[from]!;
    let others = 0;
    for (let k = from; k < n; k++) {
      if (build) {
        ends[k] = end;
        if (k % APART === 0) rows[k / APART]!.set(front);
      }
      const i = list[k]!;
      const d = long[i]!;
      let start = 0;
      for (let p = at[i]!, q = at[i + 1]!; p < q; p++) {
        const to = done[pre[p]!]!;
        if (to > start) start = to;
      }
      if (holds[i] === 1) {
        if (words > 1) start = earliest(i, start);
        else {
          const amount = amounts[i]!;
          let clearTo = start;
          let t = start + d - 1;
          while (t >= clearTo) {
            if (((profile[t]! - amount) & guardOne) === guardOne) t--;
            else {
              clearTo = start + d;
              start = t + 1;
              t = start + d - 1;
            }
          }
        }
      }
      const to = start + d;
      if (to + least[i]! > limit) {
        used = end;
        return k;
      }
      if (build) as[i] = start;
      else if (start !== as[i]) others++;
      else if (others === 0 && k >= last) {
        used = end;
        return SAME - k;
      }
      if (holds[i] === 1) {
        if (words > 1) hold(i, start, to);
        else {
          const amount = amounts[i]!;
          for (let t = start; t < to; t++) profile[t] = profile[t]! - amount;
        }
      }
      done[i] = to;
      if (to > end) end = to;
    }
    used = end;
    return n;
  };
  /** Rows for the profile up to `longest`, and a little more: most builds find them as they are. Whole rows are copied at once, much sooner than by the word. */
  const keepRows = (longest: number): void => {
    const width = Math.min(model.sum + 1, roundUp(longest, ROW)) * words;
    if (rows.length > 0 && front.length === width) return;
    front = free.subarray(0, width);
    rows = Array.from({ length: Math.ceil(n / APART) }, () => new Int32Array(width));
  };
  const build = (list: Int32Array, longest: number): number => {
    clear(0, used);
    keepRows(longest);
    put(list, 0, n, model.sum, true);
    return used;
  };
  const vary = (list: Int32Array, first: number, last: number, limit: number): number => {
    const row = Math.floor(first / APART);
    free.set(rows[row]!);
    clear(front.length / words, used);
    for (let k = row * APART; k < first; k++) hold(list[k]!, starts[list[k]!]!, finish[list[k]!]!);
    const stand = put(list, first, last, limit, false);
    if (stand === n) for (let i = 0; i < n; i++) varied[i] = finish[i]! - duration[i]!;
    for (let k = first, to = stand < 0 ? SAME - stand : stand; k < to; k++)
      finish[list[k]!] = starts[list[k]!]! + duration[list[k]!]!;
    return stand < 0 ? SAME : stand < n ? limit + 1 : used;
  };
  return { build, starts, vary, varied };
}

/** What must at least come after each task's end: the longest chain, or the work for a resource of all that waits for it, shared out evenly. */
function restOf({ count: n, duration, after, tail, resources, capacity, need }: Model): Int32Array {
  const rest = Int32Array.from(tail);
  const waits = Array.from({ length: n }, () => new Uint8Array(n));
  for (let i = n - 1; i >= 0; i--) {
    const mine = waits[i]!;
    for (const j of after[i]!) {
      mine[j] = 1;
      const theirs = waits[j]!;
      for (let k = j + 1; k < n; k++) mine[k]! |= theirs[k]!;
    }
    for (let r = 0; r < resources; r++) {
      let work = 0;
      for (let j = i + 1; j < n; j++) if (mine[j] === 1) work += duration[j]! * need[j * resources + r]!;
      if (work > 0) rest[i] = Math.max(rest[i]!, Math.ceil(work / capacity[r]!));
    }
  }
  return rest;
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
    for (let v = 0; v <= span; v++) counts[v] = 0;
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
