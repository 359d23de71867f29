/**
 * The bounded knapsack behind column generation: the most worth that fits a run, with at most so many of each kind.
 *
 * A table says how much the kinds from k on can still add in any room (dynamic programming over the kinds, the densest last to be
 * left), and a depth-first search reads packings off it. Where rooms × kinds is small the table is exact and the search never strays;
 * else it is made over sizes rounded down to a grain, never says too little, and the search is branch and bound.
 * (Gilmore & Gomory 1961; Martello & Toth, Knapsack Problems, 1990, ch. 3.)
 *
 * Worths are whole numbers (held in doubles, well below 2⁵³), so the greatest is exact and a bound built on it is a proof.
 */
export interface Packing {
  readonly worth: number;
  /** How many of each kind, by pairs. */
  readonly kinds: readonly number[];
  readonly counts: readonly number[];
}
export interface Best extends Packing {
  /** No packing is worth more than this. Above `worth` only when the search was told that less would do, or gave up. */
  readonly atMost: number;
}

export interface KnapsackTable {
  /** No packing of this capacity is worth more; exact when the table is. */
  readonly upper: (capacity: number) => number;
  readonly exact: boolean;
  /** Worths up to `enough` are of no interest, so the search need not prove what lies below. */
  readonly best: (capacity: number, enough: number) => Best;
  /** Some packings worth more than `above`, at most `each` that begin with the same kind, the worthiest first. */
  readonly harvest: (capacity: number, above: number, each: number) => readonly Packing[];
}
export interface Knapsacks {
  /** Null when stopped. */
  readonly table: (worths: Float64Array, most: ArrayLike<number>) => KnapsackTable | null;
  /** Steps spent: one a table and 100,000 cells of it, one for 2,000 nodes of a search. */
  readonly steps: () => number;
}

const FINE_CELLS = 3_000_000;
const ROUGH_CELLS = 200_000;
const MOST_NODES = 400_000;
const MOST_HARVEST_NODES = 20_000;
/** Cells after which the caller is asked whether to stop: a millisecond's work, and several where the table is touched for the first time. */
const UNASKED = 200_000;

/** `stop` is asked in the middle of tables and searches: they may take tens of milliseconds. */
export function createKnapsacks(sizes: readonly number[], largest: number, stop?: () => boolean): Knapsacks {
  const cells = largest * sizes.length;
  const grain = cells <= FINE_CELLS ? 1 : Math.ceil(cells / ROUGH_CELLS);
  const width = Math.floor(largest / grain) + 1;
  let table = new Float64Array(0);
  let steps = 0;

  return {
    steps: () => steps,
    table: (worths, most) => {
      const order: number[] = [];
      for (let i = 0; i < sizes.length; i++) if (worths[i]! > 0 && most[i]! > 0 && sizes[i]! <= largest) order.push(i);
      order.sort((a, b) => worths[b]! / sizes[b]! - worths[a]! / sizes[a]! || sizes[b]! - sizes[a]!);
      const n = order.length;
      const size = Float64Array.from(order, (i) => sizes[i]!);
      const worth = Float64Array.from(order, (i) => worths[i]!);
      const limit = Float64Array.from(order, (i) => Math.min(most[i]!, Math.floor(largest / sizes[i]!)));
      const smallestFrom = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
      for (let k = n - 1; k >= 0; k--) smallestFrom[k] = Math.min(size[k]!, smallestFrom[k + 1]!);
      if (table.length < (n + 1) * width) table = new Float64Array((n + 1) * width);
      if (!fillCompletions(table, width, grain, size, worth, limit, stop)) return null;
      steps += 1 + Math.floor((n * width) / 100_000);
      const bound = (k: number, room: number): number => table[k * width + Math.floor(room / grain)]!;
      const taken = new Int32Array(n);
      // The kinds taken so far, in order.
      const chosen = new Int32Array(n);
      const packing = (total: number, counts: Int32Array): Packing => {
        const kinds: number[] = [];
        const times: number[] = [];
        for (let k = 0; k < n; k++)
          if (counts[k]! > 0) {
            kinds.push(order[k]!);
            times.push(counts[k]!);
          }
        return { worth: total, kinds, counts: times };
      };

      return {
        exact: grain === 1,
        upper: (capacity) => bound(0, capacity),
        best: (capacity, enough) => {
          let best = 0;
          let bestTaken = new Int32Array(n);
          let nodes = 0;
          let open = 0;
          /** Chooses the next kind to take from `k` on. */
          const visit = (k: number, room: number, sum: number): void => {
            if (sum > best) {
              best = sum;
              bestTaken = taken.slice();
            }
            for (let j = k; j < n && room >= smallestFrom[j]!; j++) {
              const reach = sum + bound(j, room);
              if (reach <= best || reach <= enough) return;
              if (size[j]! > room) continue;
              nodes += 1;
              // Stopped, it gives up as one that has grown too long: what it says is still true.
              if ((nodes & 8191) === 0 && stop?.()) nodes = MOST_NODES;
              if (nodes > MOST_NODES) {
                open = Math.max(open, reach);
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
          steps += Math.floor(nodes / 2_000);
          return { ...packing(best, bestTaken), atMost: Math.max(best, enough, open) };
        },
        harvest: (capacity, above, each) => {
          const found: Packing[] = [];
          let nodes = 0;
          let left = 0;
          let depth = 0;
          const visit = (k: number, room: number, sum: number): void => {
            if (sum > above) {
              const kinds: number[] = [];
              const counts: number[] = [];
              for (let d = 0; d < depth; d++) {
                kinds.push(order[chosen[d]!]!);
                counts.push(taken[chosen[d]!]!);
              }
              found.push({ worth: sum, kinds, counts });
              left -= 1;
            }
            for (let j = k; j < n && room >= smallestFrom[j]! && left > 0; j++) {
              if (sum + bound(j, room) <= above) return;
              if (size[j]! > room) continue;
              nodes += 1;
              if (nodes > MOST_HARVEST_NODES) return;
              chosen[depth++] = j;
              for (let t = Math.min(limit[j]!, Math.floor(room / size[j]!)); t > 0 && left > 0; t--) {
                taken[j] = t;
                visit(j + 1, room - t * size[j]!, sum + t * worth[j]!);
              }
              depth -= 1;
              taken[j] = 0;
            }
          };
          for (let j = 0; j < n && bound(j, capacity) > above && nodes <= MOST_HARVEST_NODES; j++) {
            if (size[j]! > capacity) continue;
            left = each;
            chosen[depth++] = j;
            for (let t = Math.min(limit[j]!, Math.floor(capacity / size[j]!)); t > 0 && left > 0; t--) {
              taken[j] = t;
              visit(j + 1, capacity - t * size[j]!, t * worth[j]!);
            }
            depth -= 1;
            taken[j] = 0;
          }
          steps += Math.floor(nodes / 2_000);
          return found.sort((a, b) => b.worth - a.worth);
        },
      };
    },
  };
}

/**
 * For each kind k and each room, in grains, no less than the most that kinds from k on can add: by dynamic programming over sizes
 * rounded down, since Σ ⌊size/grain⌋ ≤ ⌊room/grain⌋ whenever Σ size ≤ room. Exact when the grain is 1. The row after the last is zero.
 * @returns false when stopped.
 */
export function fillCompletions(
  table: Float64Array,
  width: number,
  grain: number,
  sizes: ArrayLike<number>,
  worths: ArrayLike<number>,
  most: ArrayLike<number>,
  stop?: () => boolean,
): boolean {
  const n = sizes.length;
  table.fill(0, n * width, (n + 1) * width);
  let unasked = 0;
  for (let k = n - 1; k >= 0; k--) {
    // in as many shares as the number has binary digits
    unasked += width * (33 - Math.clz32(most[k]!));
    if (unasked > UNASKED) {
      unasked = 0;
      if (stop?.()) return false;
    }
    const at = k * width;
    const end = at + width;
    const size = Math.floor(sizes[k]! / grain);
    let left = most[k]!;
    // Any number up to `most` is a sum of these shares. The first reads the row below, the others their own.
    let from = at + width;
    for (let times = 1; left > 0; times *= 2) {
      const take = Math.min(times, left);
      left -= take;
      const step = take * size;
      const gain = take * worths[k]!;
      if (from !== at) {
        for (let c = 0; c < step && c < width; c++) table[at + c] = table[from + c]!;
        for (let c = step; c < width; c++) {
          const without = table[from + c]!;
          const value = table[from + c - step]! + gain;
          table[at + c] = Math.max(value, without);
        }
        from = at;
      } else
        for (let c = end - 1; c >= at + step; c--) {
          const value = table[c - step]! + gain;
          if (value > table[c]!) table[c] = value;
        }
    }
    if (from !== at) table.copyWithin(at, from, from + width);
  }
  return true;
}
