import { codeOf, finder, type GuillotineTable, joined, normalPatterns, type Tree } from './guillotine.ts';
import type { Model } from './model.ts';

/**
 * The most valuable pattern of strips: the sheet is cut into strips from edge to edge, a strip into stacks, a stack into equal
 * parts (three stages, homogeneous). For sheets with so many different sums of sizes that the table of all guillotine patterns
 * would be too large. Not all patterns, so its values prove nothing.
 *
 * Source: Gilmore & Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13, 1965 (staged
 * patterns by two knapsacks). Stacks are taken in the order of their height, so one knapsack along the strip serves all heights.
 */
export function stripTable(model: Model, mostWork: number, stop?: () => boolean): GuillotineTable | null {
  const ways = [0, 1].map((axis) => oneWay(model, axis as 0 | 1, mostWork / 2, stop));
  const [along, across] = ways;
  if (!along || !across) return null;
  let best: readonly (0 | 1)[] = [];
  return {
    exact: false,
    work: along.work + across.work,
    fill: (values, stop) => {
      const a = along.fill(values, stop);
      const b = a && across.fill(values, stop);
      if (!a || !b) return null;
      best = model.sheets.map((_, s) => (a[s]! >= b[s]! ? 0 : 1));
      return a.map((value, s) => Math.max(value, b[s]!));
    },
    pattern: (sheet) => ({
      sheet,
      code: Int32Array.from(codeOf((best[sheet] === 0 ? along : across).tree(sheet))),
    }),
  };
}

interface Stack {
  readonly kind: number;
  readonly turn: number;
  /** Along the strip. */
  readonly length: number;
  /** Across it. */
  readonly height: number;
  readonly times: number;
}

/** Strips along x for axis 0, along y for axis 1. */
function oneWay(model: Model, axis: 0 | 1, mostWork: number, stop?: () => boolean) {
  const alongOf = (it: { length: number; width: number }, turn = 0): number =>
    (axis === 0) === (turn === 0) ? it.length : it.width;
  const acrossOf = (it: { length: number; width: number }, turn = 0): number =>
    (axis === 0) === (turn === 0) ? it.width : it.length;
  const { kinds, sheets } = model;
  const L = Math.max(...sheets.map((sheet) => alongOf(sheet)));
  const W = Math.max(...sheets.map((sheet) => acrossOf(sheet)));
  const stacks: Stack[] = [];
  const lengths: { size: number; count: number }[] = [];
  const heights: { size: number; count: number }[] = [];
  kinds.forEach((kind, k) => {
    for (let turn = 0; turn <= (kind.turn ? 1 : 0); turn++) {
      const [length, height] = [alongOf(kind, turn), acrossOf(kind, turn)];
      if (length > L || height > W) continue;
      lengths.push({ size: length, count: kind.count });
      heights.push({ size: height, count: kind.count });
      for (let n = 1; n <= Math.min(kind.count, Math.floor(W / height), MOST_STACKED); n++)
        stacks.push({ kind: k, turn, length, height: n * height, times: n });
    }
  });
  stacks.sort((a, b) => a.height - b.height || a.kind - b.kind);
  lengths.sort((a, b) => b.size - a.size);
  heights.sort((a, b) => b.size - a.size);
  const along = sumsOf(lengths, L, stop);
  const across = along && sumsOf(heights, W, stop);
  if (!along || !across) return null;
  const [xs, ys] = [along.sums, across.sums];
  const work = stacks.length * (xs.length + ys.length * sheets.length);
  if (work > mostWork || stacks.length * xs.length > 8e6) return null;
  // From every position of a strip, or of the sheet, back by one stack, or strip.
  const backX = new Map<number, Int32Array>();
  const backY = new Map<number, Int32Array>();
  for (const [i, { length, height }] of stacks.entries()) {
    if ((i & 15) === 15 && stop?.()) return null;
    if (!backX.has(length)) backX.set(length, along.back(length));
    if (!backY.has(height)) backY.set(height, across.back(height));
  }

  const value = new Float64Array(xs.length);
  // Row after row: which stack ends at a position, as known after each stack was allowed.
  const ends = new Int32Array(stacks.length * xs.length);
  const from = new Int32Array(xs.length);
  const sheetEnd = sheets.map((sheet) => along.room(alongOf(sheet)));
  const stripValue = sheets.map(() => new Float64Array(stacks.length));
  const strips = sheets.map(() => new Int32Array(ys.length));

  const fill = (values: Float64Array, stop?: () => boolean): Float64Array | null => {
    value.fill(0);
    from.fill(-1);
    for (const [i, stack] of stacks.entries()) {
      if ((i & 7) === 7 && stop?.()) return null;
      const back = backX.get(stack.length)!;
      const gain = values[stack.kind]! * stack.times;
      if (gain > 0)
        for (let x = along.place(stack.length); x < xs.length; x++) {
          // What fits a shorter strip fits a longer one.
          if (value[x - 1]! > value[x]!) {
            value[x] = value[x - 1]!;
            from[x] = -2;
          }
          const b = back[x]!;
          if (b >= 0 && value[b]! + gain > value[x]!) {
            value[x] = value[b]! + gain;
            from[x] = i;
          }
        }
      ends.set(from, i * xs.length);
      sheets.forEach((_, s) => {
        stripValue[s]![i] = value[sheetEnd[s]!]!;
      });
    }
    const totals = new Float64Array(sheets.length);
    for (const [s, sheet] of sheets.entries()) {
      if (stop?.()) return null;
      const most = across.room(acrossOf(sheet));
      const total = new Float64Array(most + 1);
      const chosen = strips[s]!;
      chosen.fill(-1);
      for (const [i, { height }] of stacks.entries()) {
        // The last stack of a height knows all of them.
        if (stacks[i + 1]?.height === height) continue;
        if ((i & 63) === 63 && stop?.()) return null;
        const back = backY.get(height)!;
        const gain = stripValue[s]![i]!;
        for (let y = across.place(height); y <= most; y++) {
          if (total[y - 1]! > total[y]!) {
            total[y] = total[y - 1]!;
            chosen[y] = -2;
          }
          const b = back[y]!;
          if (b >= 0 && total[b]! + gain > total[y]!) {
            total[y] = total[b]! + gain;
            chosen[y] = i;
          }
        }
      }
      totals[s] = total[most]!;
    }
    return totals;
  };

  const other = (1 - axis) as 0 | 1;
  const stripTree = (row: number, sheet: number): Tree | null => {
    let tree: Tree | null = null;
    for (let x = sheetEnd[sheet]!; x > 0; ) {
      const i = ends[row * xs.length + x]!;
      if (i === -1) break;
      if (i === -2) {
        x--;
        continue;
      }
      const stack = stacks[i]!;
      let column: Tree | null = null;
      for (let n = 0; n < stack.times; n++) column = joined(other, column, stack.kind * 2 + stack.turn);
      tree = joined(axis, tree, column);
      x = backX.get(stack.length)![x]!;
    }
    return tree;
  };
  const tree = (sheet: number): Tree | null => {
    let whole: Tree | null = null;
    for (let y = across.room(acrossOf(sheets[sheet]!)); y > 0; ) {
      const i = strips[sheet]![y]!;
      if (i === -1) break;
      if (i === -2) {
        y--;
        continue;
      }
      whole = joined(other, whole, stripTree(i, sheet));
      y = backY.get(stacks[i]!.height)![y]!;
    }
    return whole;
  };
  return { work, fill, tree };
}

/** More sums of sizes than this along a side are too many; then the side is counted in about so many cells. */
const MOST_SUMS = 8000;
const CELLS = 3000;

/** The places a side can be cut at: sums of sizes, or of whole cells with every size rounded up, so that what fits there fits. */
function sumsOf(
  sizes: readonly { readonly size: number; readonly count: number }[],
  limit: number,
  stop?: () => boolean,
) {
  const exact = normalPatterns(sizes, limit, MOST_SUMS, stop);
  if (!exact && stop?.()) return null;
  const cell = exact ? 1 : Math.ceil(limit / CELLS);
  const up = (size: number): number => Math.ceil(size / cell);
  const cells = sizes.map(({ size, count }) => ({ size: up(size), count }));
  const sums = exact ?? normalPatterns(cells, Math.floor(limit / cell), MOST_SUMS, stop);
  if (!sums) return null;
  const at = finder(sums, Math.floor(limit / cell));
  return {
    sums,
    /** Index of the last place within a sheet. */
    room: (size: number): number => at(Math.floor(size / cell)),
    /** Index of the place a size reaches from 0; beyond the last where it does not fit. */
    place: (size: number): number => (up(size) * cell > limit ? sums.length : at(up(size))),
    /** From each place, the one a size before it; −1 where there is none. */
    back: (size: number): Int32Array => sums.map((sum) => (sum >= up(size) ? at(sum - up(size)) : -1)),
  };
}

/** More equal parts than this are not stacked in one strip: two strips do as well. */
const MOST_STACKED = 12;
