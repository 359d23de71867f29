/**
 * The bounded knapsack behind column generation: the most worth that fits a run, with at most so many of each kind.
 *
 * Worths are whole numbers (held in doubles, well below 2⁵³), so the greatest is exact and a bound built on it is a proof.
 *
 * Two methods: a table over every capacity (dynamic programming, all runs at once) where capacity × kinds is small, else depth-first
 * branch and bound in order of worth per size with a coarse table as bound (Martello & Toth, Knapsack Problems, 1990, ch. 3;
 * Gilmore & Gomory 1961 for its use here).
 */
export interface Packing {
  /** Worth of `counts`. */
  readonly worth: number;
  /** No packing is worth more than this. Equal to `worth` unless the search was told that less would do, or gave up. */
  readonly atMost: number;
  /** How many of each kind, by pairs. */
  readonly kinds: readonly number[];
  readonly counts: readonly number[];
}

/** Above this many table cells there is branch and bound, and a rougher table to be tried first. */
const FINE_CELLS = 3_000_000;
const ROUGH_CELLS = 600_000;
const MOST_NODES = 400_000;

export interface Knapsacks {
  /** True where an exact answer is slow: then ask `rough` first. */
  readonly slow: boolean;
  /** Good packings for each capacity, by a table over sizes rounded up; `atMost` is of no use. */
  readonly rough: (worths: Float64Array, most: ArrayLike<number>, capacities: readonly number[]) => Packing[];
  /** Best packings for each capacity; `enough[k]`: worths up to this are of no interest, so the search may stop proving there. */
  readonly best: (
    worths: Float64Array,
    most: ArrayLike<number>,
    capacities: readonly number[],
    enough: readonly number[],
  ) => Packing[];
  readonly tick: () => number;
}

export function createKnapsacks(exactSizes: readonly number[], largest: number): Knapsacks {
  const grain = Math.max(1, Math.ceil((largest * exactSizes.length) / ROUGH_CELLS));
  const roughSizes = exactSizes.map((size) => Math.ceil(size / grain));
  let spent = 0;
  let table = new Float64Array(0);
  let choice = new Uint8Array(0);
  let completion = new Float64Array(0);

  function byTable(
    worths: Float64Array,
    most: ArrayLike<number>,
    capacities: readonly number[],
    sizes: readonly number[],
  ): Packing[] | undefined {
    const top = capacities.reduce((a, b) => Math.max(a, b), 0);
    const rowKind: number[] = [];
    const rowTimes: number[] = [];
    for (let i = 0; i < sizes.length; i++) {
      if (!(worths[i]! > 0)) continue;
      let left = Math.min(most[i]!, Math.floor(top / sizes[i]!));
      for (let times = 1; left > 0; times *= 2) {
        const take = Math.min(times, left);
        rowKind.push(i);
        rowTimes.push(take);
        left -= take;
      }
    }
    const width = top + 1;
    if (rowKind.length * width > FINE_CELLS) return undefined;
    if (table.length < width) table = new Float64Array(width);
    else table.fill(0, 0, width);
    if (choice.length < rowKind.length * width) choice = new Uint8Array(Math.ceil(1.3 * rowKind.length * width));
    else choice.fill(0, 0, rowKind.length * width);
    // The table is flat above `reach`, the sum of all sizes so far; it is written only up to there.
    let reach = 0;
    const reaches: number[] = [];
    const f = table;
    for (let r = 0; r < rowKind.length; r++) {
      const size = sizes[rowKind[r]!]! * rowTimes[r]!;
      const worth = worths[rowKind[r]!]! * rowTimes[r]!;
      const base = r * width;
      const next = Math.min(top, reach + size);
      for (let c = reach + 1; c <= next; c++) f[c] = f[reach]!;
      reach = next;
      reaches.push(reach);
      for (let c = reach; c >= size; c--) {
        const value = f[c - size]! + worth;
        if (value > f[c]!) {
          f[c] = value;
          choice[base + c] = 1;
        }
      }
    }
    for (let c = reach + 1; c <= top; c++) table[c] = table[reach]!;
    spent += 1 + Math.floor((rowKind.length * width) / 100_000);
    return capacities.map((capacity) => {
      let c = capacity;
      const counts = new Map<number, number>();
      for (let r = rowKind.length - 1; r >= 0; r--) {
        c = Math.min(c, reaches[r]!);
        if (choice[r * width + c] === 1) {
          const kind = rowKind[r]!;
          counts.set(kind, (counts.get(kind) ?? 0) + rowTimes[r]!);
          c -= sizes[kind]! * rowTimes[r]!;
        }
      }
      const worth = table[capacity]!;
      return { worth, atMost: worth, kinds: [...counts.keys()], counts: [...counts.values()] };
    });
  }

  /**
   * Depth first over kinds, the densest first. What the kinds still to come can add is looked up in a table over sizes rounded down to
   * the grain, which is never too little and nearly exact.
   */
  function bySearch(
    worths: Float64Array,
    most: ArrayLike<number>,
    capacities: readonly number[],
    enough: readonly number[],
  ): Packing[] {
    const order: number[] = [];
    for (let i = 0; i < exactSizes.length; i++)
      if (worths[i]! > 0 && most[i]! > 0 && exactSizes[i]! <= largest) order.push(i);
    order.sort(
      (a, b) => worths[b]! / exactSizes[b]! - worths[a]! / exactSizes[a]! || exactSizes[b]! - exactSizes[a]!,
    );
    const n = order.length;
    const size = Float64Array.from(order, (i) => exactSizes[i]!);
    const worth = Float64Array.from(order, (i) => worths[i]!);
    const limit = Float64Array.from(order, (i) => Math.min(most[i]!, Math.floor(largest / exactSizes[i]!)));
    const smallestFrom = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
    for (let k = n - 1; k >= 0; k--) smallestFrom[k] = Math.min(size[k]!, smallestFrom[k + 1]!);
    const width = Math.floor(largest / grain) + 1;
    if (completion.length < (n + 1) * width) completion = new Float64Array((n + 1) * width);
    fillCompletions(completion, width, grain, size, worth, limit);
    spent += 1 + Math.floor((n * width) / 100_000);

    return capacities.map((capacity, which) => {
      const floor = enough[which]!;
      const taken = new Int32Array(n);
      let best = 0;
      let bestTaken = new Int32Array(n);
      let nodes = 0;
      let open = 0;
      let gaveUp = false;
      /** Chooses the next kind to take from `k` on. */
      const visit = (k: number, room: number, sum: number): void => {
        if (sum > best) {
          best = sum;
          bestTaken = taken.slice();
        }
        for (let j = k; j < n && room >= smallestFrom[j]!; j++) {
          const bound = sum + completion[j * width + Math.floor(room / grain)]!;
          if (bound <= best || bound <= floor) return;
          if (size[j]! > room) continue;
          nodes += 1;
          if (nodes > MOST_NODES) {
            gaveUp = true;
            open = Math.max(open, bound);
            return;
          }
          for (let t = Math.min(limit[j]!, Math.floor(room / size[j]!)); t > 0; t--) {
            taken[j] = t;
            visit(j + 1, room - t * size[j]!, sum + t * worth[j]!);
          }
          taken[j] = 0;
        }
      };
      visit(0, capacity, 0);
      spent += Math.floor(nodes / 2_000);
      const kinds: number[] = [];
      const counts: number[] = [];
      bestTaken.forEach((count, k) => {
        if (count > 0) {
          kinds.push(order[k]!);
          counts.push(count);
        }
      });
      const proven = Math.max(best, floor);
      return { worth: best, atMost: gaveUp ? Math.max(proven, open) : proven, kinds, counts };
    });
  }

  return {
    slow: largest * exactSizes.length > FINE_CELLS,
    rough: (worths, most, capacities) => {
      const rough = capacities.map((capacity) => Math.floor(capacity / grain));
      return (
        byTable(worths, most, rough, roughSizes) ??
        capacities.map(() => ({ worth: 0, atMost: 0, kinds: [], counts: [] }))
      );
    },
    best: (worths, most, capacities, enough) =>
      byTable(worths, most, capacities, exactSizes) ?? bySearch(worths, most, capacities, enough),
    tick: () => spent,
  };
}

/**
 * For each kind k and each room, in grains, no less than the most that kinds from k on can add: by dynamic programming over sizes
 * rounded down, since Σ ⌊size/grain⌋ ≤ ⌊room/grain⌋ whenever Σ size ≤ room. Exact when the grain is 1. The row after the last is zero.
 */
export function fillCompletions(
  table: Float64Array,
  width: number,
  grain: number,
  sizes: ArrayLike<number>,
  worths: ArrayLike<number>,
  most: ArrayLike<number>,
): void {
  const n = sizes.length;
  table.fill(0, n * width, (n + 1) * width);
  for (let k = n - 1; k >= 0; k--) {
    const at = k * width;
    table.copyWithin(at, at + width, at + 2 * width);
    const size = Math.floor(sizes[k]! / grain);
    let left = most[k]!;
    // Any number up to `most` is a sum of these shares.
    for (let times = 1; left > 0; times *= 2) {
      const take = Math.min(times, left);
      left -= take;
      const step = take * size;
      const gain = take * worths[k]!;
      for (let c = at + width - 1; c >= at + step; c--) {
        const value = table[c - step]! + gain;
        if (value > table[c]!) table[c] = value;
      }
    }
  }
}
