import type { Model } from './model.ts';
import type { Pattern } from './pattern.ts';

/**
 * The most valuable pattern of any number of stages for given values of the parts, each kind as often as it likes: dynamic
 * programming over all sizes that sums of parts can have (normal patterns).
 *
 *     F(x, y) = max( best single part, F(u, y) + F(x − u, y), F(x, v) + F(x, y − v) )
 *
 * Sources: Gilmore & Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13, 1965;
 * Herz, "Recursive computational procedure for two-dimensional stock cutting", IBM Journal of R&D 16, 1972 (normal patterns);
 * Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", Journal of the OR Society 36, 1985.
 * One table serves every sheet size at once. The value is exact, so it proves bounds.
 */
export interface GuillotineTable {
  /** The values are the greatest of all guillotine patterns, and so prove bounds. */
  readonly exact: boolean;
  /** Table cells times cuts tried for each: what one `value` costs. */
  readonly work: number;
  /** Fills the table for these values of the kinds; returns the greatest value on each sheet, or null when stopped. */
  readonly fill: (values: Float64Array, stop?: () => boolean) => Float64Array | null;
  /** The pattern behind the value on a sheet, after `fill`. */
  readonly pattern: (sheet: number) => Pattern;
}

/** All sums of the sizes, each used up to its count, up to `limit`, sorted; 0 first. Null when there are more than `most`, or stopped. */
export function normalPatterns(
  sizes: readonly { readonly size: number; readonly count: number }[],
  limit: number,
  most: number,
  stop?: () => boolean,
): Int32Array | null {
  // Marks by length where that takes little room: most of a start goes into these sums.
  const marks = limit <= MOST_MARKS ? new Uint8Array(limit + 1) : new Set<number>();
  const isNew = (sum: number): boolean => {
    if (!(marks instanceof Set)) {
      if (marks[sum] === 1) return false;
      marks[sum] = 1;
      return true;
    }
    return marks.size !== marks.add(sum).size;
  };
  let sums = new Int32Array(1024);
  let known = 1;
  let unasked = 0;
  isNew(0);
  for (const { size, count } of sizes) {
    if (size > limit) continue;
    // Once more of this size: only from sums that the last one made.
    let from = 0;
    for (let n = 0; n < count && from < known; n++) {
      const end = known;
      unasked += end - from;
      if (unasked > UNASKED) {
        unasked = 0;
        if (stop?.()) return null;
      }
      for (let i = from; i < end; i++) {
        const sum = sums[i]! + size;
        if (sum > limit || !isNew(sum)) continue;
        if (known > most) return null;
        if (known === sums.length) {
          const wider = new Int32Array(2 * known);
          wider.set(sums);
          sums = wider;
        }
        sums[known++] = sum;
      }
      from = end;
    }
  }
  return sums.slice(0, known).sort();
}

/** Sums, or cuts of a table, after which the caller is asked whether to stop: about a millisecond's work. */
export const UNASKED = 200_000;

/** Sides longer than this are not marked place by place. */
const MOST_MARKS = 8_000_000;

/** Null when the table would be larger than `mostWork`, or stopped. */
export function guillotineTable(model: Model, mostWork: number, stop?: () => boolean): GuillotineTable | null {
  const { kinds, sheets } = model;
  const L = Math.max(...sheets.map((sheet) => sheet.length));
  const W = Math.max(...sheets.map((sheet) => sheet.width));
  const both = (first: 'length' | 'width', second: 'length' | 'width') =>
    [...kinds]
      .flatMap((kind) => {
        const one = { size: kind[first], count: kind.count };
        return kind.turn ? [one, { size: kind[second], count: kind.count }] : [one];
      })
      .sort((a, b) => b.size - a.size);
  const most = Math.ceil(Math.sqrt(mostWork));
  const xs = normalPatterns(both('length', 'width'), L, most, stop);
  const ys = xs && normalPatterns(both('width', 'length'), W, most, stop);
  if (!xs || !ys) return null;
  const [nx, ny] = [xs.length, ys.length];
  const work = (nx * ny * (nx + ny)) / 4;
  if (work > mostWork || nx * ny > 4e6) return null;

  const xAt = finder(xs, L);
  const yAt = finder(ys, W);

  // For each cell: a value and how it comes about: 0 nothing, 1 + 2·kind + turn a part, −1 − 2·i − axis a cut after entry i.
  const value = new Float64Array(nx * ny);
  const how = new Int32Array(nx * ny);
  const restX = counterparts(xs, xAt, stop);
  const restY = restX && counterparts(ys, yAt, stop);
  if (!restX || !restY) return null;
  const singles: { readonly i: number; readonly j: number; readonly kind: number; readonly turn: number }[] = [];
  kinds.forEach((kind, k) => {
    if (kind.length <= L && kind.width <= W)
      singles.push({ i: xAt(kind.length), j: yAt(kind.width), kind: k, turn: 0 });
    if (kind.turn && kind.width <= L && kind.length <= W)
      singles.push({ i: xAt(kind.width), j: yAt(kind.length), kind: k, turn: 1 });
  });

  const mirrored = mirrors(model);
  const fill = (values: Float64Array, stop?: () => boolean): Float64Array | null => {
    value.fill(0);
    how.fill(0);
    for (const single of singles) {
      const at = single.i * ny + single.j;
      if (values[single.kind]! > value[at]!) {
        value[at] = values[single.kind]!;
        how[at] = 1 + single.kind * 2 + single.turn;
      }
    }
    let unasked = 0;
    for (let i = 1; i < nx; i++) {
      const cutsX = restX[i]!;
      const end = mirrored ? i + 1 : ny;
      unasked += end * (cutsX.length + end / 4 + 1);
      if (unasked > 5 * UNASKED) {
        unasked = 0;
        if (stop?.()) return null;
      }
      for (let j = 1; j < end; j++) {
        const at = i * ny + j;
        let best = value[at]!;
        let by = how[at]!;
        // A smaller rectangle's pattern also fits.
        if (value[at - ny]! > best) {
          best = value[at - ny]!;
          by = -1 - (i - 1) * 2;
        }
        if (value[at - 1]! > best) {
          best = value[at - 1]!;
          by = -1 - (j - 1) * 2 - 1;
        }
        for (let u = 0; u < cutsX.length; u++) {
          const sum = value[(u + 1) * ny + j]! + value[cutsX[u]! * ny + j]!;
          if (sum > best) {
            best = sum;
            by = -1 - (u + 1) * 2;
          }
        }
        const cutsY = restY[j]!;
        const row = i * ny;
        for (let v = 0; v < cutsY.length; v++) {
          const sum = value[row + v + 1]! + value[row + cutsY[v]!]!;
          if (sum > best) {
            best = sum;
            by = -1 - (v + 1) * 2 - 1;
          }
        }
        value[at] = best;
        how[at] = by;
        if (mirrored && j < i) {
          value[j * ny + i] = best;
          how[j * ny + i] = mirrored(by);
        }
      }
    }
    return Float64Array.from(sheets, (sheet) => value[xAt(sheet.length) * ny + yAt(sheet.width)]!);
  };

  const grow = (i: number, j: number): Tree | null => {
    if (i === 0 || j === 0) return null;
    const by = how[i * ny + j]!;
    if (by === 0) return null;
    if (by > 0) return by - 1;
    const what = -1 - by;
    const axis = (what & 1) as 0 | 1;
    const cut = what >> 1;
    const one = axis === 0 ? grow(cut, j) : grow(i, cut);
    const other = axis === 0 ? grow(xAt(xs[i]! - xs[cut]!), j) : grow(i, yAt(ys[j]! - ys[cut]!));
    return joined(axis, one, other);
  };
  return {
    exact: true,
    work,
    fill,
    pattern: (sheet) => ({
      sheet,
      code: Int32Array.from(codeOf(grow(xAt(sheets[sheet]!.length), yAt(sheets[sheet]!.width)))),
    }),
  };
}

/**
 * Where every part may be turned and sheets are as long as wide, a rectangle and its mirror image hold the same: half a table is enough.
 * How a cell comes about, seen in the mirror; null where the two differ.
 */
export function mirrors({ kinds, sheets }: Model): ((how: number) => number) | null {
  const L = Math.max(...sheets.map((sheet) => sheet.length));
  const W = Math.max(...sheets.map((sheet) => sheet.width));
  if (L !== W || kinds.some((kind) => !kind.turn && kind.length !== kind.width)) return null;
  return (how) => {
    if (how < 0) return -1 - ((-1 - how) ^ 1);
    return how === 0 || !kinds[(how - 1) >> 1]!.turn ? how : 1 + ((how - 1) ^ 1);
  };
}

/** For every sum but 0, what is left of it after each smaller sum up to its half, as an index: the first entry belongs to sum 1. */
export function counterparts(
  sums: Int32Array,
  at: (length: number) => number,
  stop?: () => boolean,
): readonly Int32Array[] | null {
  const all: Int32Array[] = [];
  let half = 0;
  let unasked = 0;
  for (let i = 0; i < sums.length; i++) {
    const sum = sums[i]!;
    while (half + 1 < i && sums[half + 1]! * 2 <= sum) half++;
    const list = new Int32Array(half);
    for (let u = 1; u <= half; u++) list[u - 1] = at(sum - sums[u]!);
    all.push(list);
    unasked += half;
    if (unasked > UNASKED) {
      unasked = 0;
      if (stop?.()) return null;
    }
  }
  return all;
}

/** For a sorted list starting at 0: the index of its largest entry not above a length. Direct for lengths of moderate size. */
export function finder(list: Int32Array, limit: number): (length: number) => number {
  if (limit <= 4_000_000) {
    const index = new Int32Array(limit + 1);
    let at = 0;
    for (let v = 0; v <= limit; v++) {
      while (at + 1 < list.length && list[at + 1]! <= v) at++;
      index[v] = at;
    }
    return (v) => index[v]!;
  }
  return (v) => {
    let low = 0;
    let high = list.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (list[middle]! <= v) low = middle;
      else high = middle - 1;
    }
    return low;
  };
}

/** A pattern being put together: a part as 2·kind + turn, or a row of trees. */
export type Tree = number | { readonly axis: 0 | 1; readonly children: readonly Tree[] };

/** Both side by side along an axis; rows along the same axis become one. */
export function joined(axis: 0 | 1, one: Tree | null, other: Tree | null): Tree | null {
  if (one === null) return other;
  if (other === null) return one;
  const list = (tree: Tree): readonly Tree[] =>
    typeof tree !== 'number' && tree.axis === axis ? tree.children : [tree];
  return { axis, children: [...list(one), ...list(other)] };
}

export const codeOf = (tree: Tree | null): number[] =>
  tree === null
    ? []
    : typeof tree === 'number'
      ? [tree]
      : [-1 - (tree.children.length * 2 + tree.axis), ...tree.children.flatMap(codeOf)];
