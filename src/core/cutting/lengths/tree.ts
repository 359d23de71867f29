import type { Pool } from './enumerate.ts';
import {
  addColumn,
  addRows,
  createLinear,
  dropRows,
  isArtificial,
  placeOf,
  refresh,
  reoptimise,
  setBasis,
  setDuals,
  surplusOf,
} from './linear.ts';
import type { Model } from './model.ts';
import type { Cut, Pattern } from './pattern.ts';

/**
 * Is there a plan of cost ≤ target among the patterns of a pool? Branch and cut: the linear relaxation over the pool, strengthened with
 * subset-row cuts (Jepsen et al. 2008: of three kinds with an odd demand D in all, Σ ⌊half of those in the pattern⌋ ≤ ⌊D/2⌋), then
 * branching on whether two kinds lie together (Ryan & Foster 1981; for kinds wanted several times, on how often).
 *
 * A branch is given up only when its bound, recomputed from the duals with the least reduced cost over all its patterns,
 * exceeds the target by a ten-millionth: far more than the rounding of those sums.
 */
export type Verdict = { readonly found: readonly Cut[] } | { readonly found: undefined; readonly proven: boolean };

interface Row {
  readonly rhs: number;
  /** Pool patterns with their coefficient, in the ≥ form. */
  readonly patterns: Int32Array;
  readonly values: Float64Array;
}

const MARGIN = 1e-7;
/** Deeper than any search that decides something; what is not settled by then is left open rather than claimed. */
const DEEPEST = 800;

export function searchPool(
  model: Model,
  pool: Pool,
  target: number,
  halt: () => boolean,
  count: (steps: number) => void,
): Verdict {
  const kinds = model.sizes.length;
  const limits = model.stocks.map(() => -1);
  const rhs: number[] = [...model.demand];
  model.stocks.forEach((stock, s) => {
    if (Number.isFinite(stock.limit)) {
      limits[s] = rhs.length;
      rhs.push(-stock.limit);
    }
  });
  const fixedRows = rhs.length;
  const dearest = model.stocks.reduce((most, stock) => Math.max(most, stock.cost), 1);
  const cheapest = model.stocks.reduce((least, stock) => Math.min(least, stock.cost), dearest);
  const total = model.demand.reduce((sum, d) => sum + d, 0);
  /** No plan within the target uses more pieces of stock than this. */
  const mostPieces = cheapest > 0 ? Math.min(total, Math.floor(target / cheapest)) : total;
  const linear = createLinear(rhs, 50 * dearest);
  const columnOf = new Int32Array(pool.size).fill(-1);
  const patternOf: number[] = [];
  const rows: Row[] = [];
  const holders = holdersOf(pool, kinds);
  if (halt()) return { found: undefined, proven: false };
  const reduced = new Float64Array(pool.size);
  let nodes = 0;

  const enter = (p: number): void => {
    if (columnOf[p]! >= 0) return;
    const rowList: number[] = [];
    const values: number[] = [];
    for (let e = pool.start[p]!; e < pool.start[p + 1]!; e++) {
      rowList.push(pool.kind[e]!);
      values.push(pool.count[e]!);
    }
    const limit = limits[pool.stock[p]!]!;
    if (limit >= 0) {
      rowList.push(limit);
      values.push(-1);
    }
    rows.forEach((row, r) => {
      const at = indexIn(row.patterns, p);
      if (at >= 0) {
        rowList.push(fixedRows + r);
        values.push(row.values[at]!);
      }
    });
    columnOf[p] = addColumn(linear, model.stocks[pool.stock[p]!]!.cost, rowList, values);
    patternOf.push(p);
  };

  const addPoolRows = (added: readonly Row[]): void => {
    addRows(
      linear,
      added.map((row) => {
        const columns: number[] = [];
        const values: number[] = [];
        row.patterns.forEach((p, k) => {
          if (columnOf[p]! >= 0) {
            columns.push(columnOf[p]!);
            values.push(row.values[k]!);
          }
        });
        return { rhs: row.rhs, columns, values };
      }),
    );
    rows.push(...added);
  };

  /** Cuts of this node that do not bind are let go: they can be found again, and every row slows all that follows. */
  const purge = (from: number): void => {
    const slack = (row: number): boolean => {
      const place = placeOf(linear, surplusOf(row));
      return place >= 0 && linear.level[place]! > 1e-6;
    };
    const keep = rows.map((_, r) => r < from || !slack(fixedRows + r));
    if (keep.every(Boolean)) return;
    dropRows(linear, fixedRows + from, (row) => keep[row - fixedRows]!);
    const kept = rows.filter((_, r) => keep[r]);
    rows.splice(0, rows.length, ...kept);
    setBasis(linear, linear.basis);
  };

  /** Reduced costs of the active patterns; the least of them. */
  const price = (active: Int32Array): number => {
    const { dual } = linear;
    let least = 0;
    for (let k = 0; k < active.length; k++) {
      const p = active[k]!;
      let sum = model.stocks[pool.stock[p]!]!.cost;
      const to = pool.start[p + 1]!;
      for (let e = pool.start[p]!; e < to; e++) sum -= dual[pool.kind[e]!]! * pool.count[e]!;
      const limit = limits[pool.stock[p]!]!;
      if (limit >= 0) sum += dual[limit]!;
      reduced[p] = sum;
    }
    rows.forEach((row, r) => {
      const y = dual[fixedRows + r]!;
      if (y === 0) return;
      for (let k = 0; k < row.patterns.length; k++) reduced[row.patterns[k]!]! -= y * row.values[k]!;
    });
    for (let k = 0; k < active.length; k++) least = Math.min(least, reduced[active[k]!]!);
    return least;
  };

  const dualValue = (): number => {
    let sum = 0;
    for (let i = 0; i < linear.rows; i++) {
      // A dual that rounding made negative would turn its row round: it counts as nothing, and reduced costs are off by as little.
      sum += Math.max(0, linear.dual[i]!) * linear.rhs[i]!;
    }
    return sum;
  };

  /** Solves the relaxation over `active`. @returns a proven bound, or undefined when halted. */
  const relax = (active: Int32Array): number | undefined => {
    for (;;) {
      if (!reoptimise(linear, halt)) return undefined;
      for (let i = 0; i < linear.rows; i++) if (linear.dual[i]! < 0) linear.dual[i] = 0;
      const least = price(active);
      count(1 + Math.floor(active.length / 20_000));
      if (halt()) return undefined;
      const bound = dualValue() + mostPieces * Math.min(0, least);
      if (bound > target + MARGIN) return bound;
      if (least > -1e-9) return bound;
      // The most promising few dozen.
      const before = patternOf.length;
      for (const p of lowest(active, reduced, 0.3 * least, 60)) enter(p);
      // All of them are columns already: what is left is the tolerance of the simplex.
      if (patternOf.length === before) return bound;
    }
  };

  const solution = (): Map<number, number> | undefined => {
    const levels = new Map<number, number>();
    for (let i = 0; i < linear.rows; i++) {
      const variable = linear.basis[i]!;
      const level = linear.level[i]!;
      if (level < 1e-6) continue;
      if (isArtificial(variable)) return undefined;
      if (variable >= 0) {
        if (linear.banned[variable]) return undefined;
        levels.set(patternOf[variable]!, level);
      }
    }
    return levels;
  };

  const asCuts = (levels: Map<number, number>): readonly Cut[] =>
    [...levels].map(([p, level]) => ({ pattern: toPattern(pool, p), times: Math.round(level) }));

  const restrict = (active: Int32Array): void => {
    const mark = new Uint8Array(pool.size);
    for (const p of active) mark[p] = 1;
    let changed = false;
    patternOf.forEach((p, j) => {
      const banned = mark[p] === 0;
      if (linear.banned[j] !== banned) {
        linear.banned[j] = banned;
        if (placeOf(linear, j) >= 0) changed = true;
      }
    });
    if (changed) setDuals(linear);
  };

  type Outcome = 'none' | 'halted' | { readonly cuts: readonly Cut[] };

  const visit = (inherited: Int32Array, depth: number): Outcome => {
    if (depth > DEEPEST) return 'halted';
    nodes += 1;
    let active = inherited;
    const ownRows = rows.length;
    let last = Number.NEGATIVE_INFINITY;
    let stalled = 0;
    restrict(active);
    for (let pass = 0; ; pass++) {
      const bound = relax(active);
      if (bound === undefined) return 'halted';
      if (bound > target + MARGIN) return 'none';
      // What costs more than the room between bound and target is in no plan of this branch.
      const room = target - bound + MARGIN;
      const kept = active.filter((p) => reduced[p]! <= room);
      if (kept.length < 0.98 * active.length) {
        active = kept;
        restrict(active);
        if (!reoptimise(linear, halt)) return 'halted';
      }
      const levels = solution();
      if (!levels) {
        // Demand met by artificials although the bound is low: their price is too small. It rarely happens; raise it.
        if (linear.high > 1e9 * dearest) return 'none';
        linear.high *= 10;
        refresh(linear);
        continue;
      }
      if ([...levels.values()].every((level) => Math.abs(level - Math.round(level)) < 1e-5))
        return { cuts: asCuts(levels) };
      stalled = bound > last + 1e-3 * (target + 1 - bound) * 0.1 ? 0 : stalled + 1;
      last = Math.max(last, bound);
      purge(ownRows);
      const cuts = pass < (depth === 0 ? 40 : 3) && stalled < 4 ? subsetRows(model, pool, levels, holders, halt) : [];
      if (cuts === undefined) return 'halted';
      if (cuts.length === 0) return branch(active, levels, depth);
      addPoolRows(cuts);
    }
  };

  const branch = (active: Int32Array, levels: Map<number, number>, depth: number): Outcome => {
    const keepRows = rows.length;
    const here = [...linear.basis];
    const back = (): void => {
      dropRows(linear, fixedRows + keepRows, () => false);
      rows.length = keepRows;
      setBasis(linear, here);
    };
    const sides = sidesOf(model, pool, active, levels, holders);
    for (let k = 0; k < sides.length; k++) {
      const side = sides[k]!;
      if (k > 0) back();
      if (side.row) addPoolRows([side.row]);
      const outcome = visit(side.active, depth + 1);
      if (outcome !== 'none') return outcome;
    }
    return 'none';
  };

  // A crash basis of artificials is mended by the first pricing rounds.
  const all = Int32Array.from({ length: pool.size }, (_, p) => p);
  const outcome = visit(all, 0);
  count(nodes + linear.pivots);
  if (outcome === 'halted') return { found: undefined, proven: false };
  if (outcome === 'none') return { found: undefined, proven: true };
  return { found: outcome.cuts };
}

/** The `most` of a list with the lowest values below a bar, in order; equal ones as they come. */
function lowest(list: Int32Array, values: Float64Array, bar: number, most: number): readonly number[] {
  const found: number[] = [];
  for (let k = 0; k < list.length; k++) {
    const value = values[list[k]!]!;
    if (value >= bar || (found.length === most && value >= values[found[most - 1]!]!)) continue;
    let at = found.length < most ? found.length : most - 1;
    for (; at > 0 && values[found[at - 1]!]! > value; at--) found[at] = found[at - 1]!;
    found[at] = list[k]!;
  }
  return found;
}

function toPattern(pool: Pool, p: number): Pattern {
  const from = pool.start[p]!;
  const to = pool.start[p + 1]!;
  return {
    stock: pool.stock[p]!,
    kinds: [...pool.kind.subarray(from, to)],
    counts: [...pool.count.subarray(from, to)],
    ...(pool.split.has(p) && { split: pool.split.get(p)! }),
  };
}

/** For each kind the patterns that hold it, ascending. */
function holdersOf(pool: Pool, kinds: number): readonly Int32Array[] {
  const length = new Int32Array(kinds);
  for (const kind of pool.kind) length[kind]! += 1;
  const lists = Array.from(length, (size) => new Int32Array(size));
  const filled = new Int32Array(kinds);
  for (let p = 0; p < pool.size; p++)
    for (let e = pool.start[p]!; e < pool.start[p + 1]!; e++) {
      const kind = pool.kind[e]!;
      lists[kind]![filled[kind]!] = p;
      filled[kind]! += 1;
    }
  return lists;
}

function countIn(pool: Pool, p: number, kind: number): number {
  for (let e = pool.start[p]!; e < pool.start[p + 1]!; e++) if (pool.kind[e] === kind) return pool.count[e]!;
  return 0;
}

function indexIn(sorted: Int32Array, value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const at = sorted[middle]!;
    if (at === value) return middle;
    if (at < value) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}

const MOST_CUTS_A_PASS = 25;

/** Violated subset-row cuts on three kinds, the most violated first and no kind in more than five of them. Undefined when halted. */
export function subsetRows(
  model: Model,
  pool: Pool,
  levels: Map<number, number>,
  holders: readonly Int32Array[],
  halt: () => boolean,
): Row[] | undefined {
  const kinds = model.sizes.length;
  const near: Set<number>[] = Array.from({ length: kinds }, () => new Set());
  const columns: { p: number; level: number }[][] = Array.from({ length: kinds }, () => []);
  for (const [p, level] of levels)
    for (let e = pool.start[p]!; e < pool.start[p + 1]!; e++) {
      const i = pool.kind[e]!;
      columns[i]!.push({ p, level });
      for (let f = pool.start[p]!; f < pool.start[p + 1]!; f++) if (f !== e) near[i]!.add(pool.kind[f]!);
    }
  const found: { triple: [number, number, number]; violation: number }[] = [];
  const seen = new Set<number>();
  for (let i = 0; i < kinds; i++) {
    const neighbours = [...near[i]!];
    for (let a = 0; a < neighbours.length; a++)
      for (let b = a + 1; b < neighbours.length; b++) {
        const triple = [i, neighbours[a]!, neighbours[b]!].sort((x, y) => x - y) as [number, number, number];
        const demand = triple.reduce((sum, kind) => sum + model.demand[kind]!, 0);
        if (demand % 2 === 0) continue;
        const key = (triple[0] * kinds + triple[1]) * kinds + triple[2];
        if (seen.has(key)) continue;
        seen.add(key);
        let sum = 0;
        triple.forEach((kind, t) => {
          for (const { p, level } of columns[kind]!) {
            let inside = 0;
            let first = 3;
            for (let e = pool.start[p]!; e < pool.start[p + 1]!; e++) {
              const at = triple.indexOf(pool.kind[e]!);
              if (at < 0) continue;
              first = Math.min(first, at);
              inside += pool.count[e]!;
            }
            if (first === t) sum += level * Math.floor(inside / 2);
          }
        });
        const violation = sum - Math.floor(demand / 2);
        if (violation > 0.02) found.push({ triple, violation });
      }
  }
  found.sort((a, b) => b.violation - a.violation || a.triple[0] - b.triple[0] || a.triple[1] - b.triple[1]);
  const times = new Int32Array(kinds);
  const rows: Row[] = [];
  for (const { triple } of found) {
    if (rows.length >= MOST_CUTS_A_PASS) break;
    if (triple.some((kind) => times[kind]! >= 5)) continue;
    for (const kind of triple) times[kind]! += 1;
    // Each goes through tens of thousands of patterns.
    if (halt()) return undefined;
    rows.push(subsetRow(model, pool, triple, holders));
  }
  return rows;
}

/** The patterns that hold two or more of three kinds, by going along the three lists side by side. */
function subsetRow(
  model: Model,
  pool: Pool,
  set: readonly [number, number, number],
  holders: readonly Int32Array[],
): Row {
  const lists = set.map((kind) => holders[kind]!);
  const at = [0, 0, 0];
  const most = lists.reduce((sum, list) => sum + list.length, 0);
  const patterns = new Int32Array(most);
  const values = new Float64Array(most);
  let found = 0;
  for (;;) {
    let p = pool.size;
    for (let t = 0; t < 3; t++) if (at[t]! < lists[t]!.length) p = Math.min(p, lists[t]![at[t]!]!);
    if (p === pool.size) break;
    let inside = 0;
    for (let t = 0; t < 3; t++)
      if (at[t]! < lists[t]!.length && lists[t]![at[t]!] === p) {
        at[t]! += 1;
        inside += countIn(pool, p, set[t]!);
      }
    if (inside < 2) continue;
    patterns[found] = p;
    values[found++] = -Math.floor(inside / 2);
  }
  const demand = set.reduce((sum, kind) => sum + model.demand[kind]!, 0);
  return { rhs: -Math.floor(demand / 2), patterns: patterns.slice(0, found), values: values.slice(0, found) };
}

interface Side {
  readonly active: Int32Array;
  readonly row?: Row;
}

/** The two branches of the most undecided pair, the one that fixes more first. */
function sidesOf(
  model: Model,
  pool: Pool,
  active: Int32Array,
  levels: Map<number, number>,
  holders: readonly Int32Array[],
): readonly Side[] {
  const kinds = model.sizes.length;
  const together = new Map<number, number>();
  for (const [p, level] of levels) {
    for (let e = pool.start[p]!; e < pool.start[p + 1]!; e++) {
      const i = pool.kind[e]!;
      // A kind with itself: at least two of it in one pattern.
      if (pool.count[e]! >= 2) {
        const key = i * kinds + i;
        together.set(key, (together.get(key) ?? 0) + level);
      }
      for (let f = e + 1; f < pool.start[p + 1]!; f++) {
        const key = i * kinds + pool.kind[f]!;
        together.set(key, (together.get(key) ?? 0) + level);
      }
    }
  }
  let bestKey = -1;
  let bestScore = -1;
  let bestFlow = 0;
  for (const [key, flow] of together) {
    const part = flow - Math.floor(flow);
    if (part < 1e-4 || part > 1 - 1e-4) continue;
    const i = Math.floor(key / kinds);
    const j = key % kinds;
    // Near one half, and large: large parts decide most.
    const score = Math.min(part, 1 - part) * (1 + (model.sizes[i]! + model.sizes[j]!) / model.sizes[0]!);
    if (score > bestScore + 1e-12 || (Math.abs(score - bestScore) <= 1e-12 && key < bestKey))
      [bestScore, bestKey, bestFlow] = [score, key, flow];
  }
  if (bestKey < 0) return columnSides(active, levels);
  const i = Math.floor(bestKey / kinds);
  const j = bestKey % kinds;
  const hold = (p: number): boolean => (i === j ? countIn(pool, p, i) >= 2 : countIn(pool, p, j) > 0);
  const both = [...holders[i]!].filter(hold);
  const isBoth = new Uint8Array(pool.size);
  for (const p of both) isBoth[p] = 1;
  const low = Math.floor(bestFlow);
  const single = i !== j && model.demand[i] === 1 && model.demand[j] === 1;
  const isOne = new Uint8Array(pool.size);
  if (single) for (const kind of [i, j]) for (const p of holders[kind]!) if (isBoth[p] === 0) isOne[p] = 1;
  const row = (sign: number, rhs: number): Row => ({
    rhs,
    patterns: Int32Array.from(both),
    values: new Float64Array(both.length).fill(sign),
  });
  const more: Side = single ? { active: active.filter((p) => isOne[p] === 0) } : { active, row: row(1, low + 1) };
  const fewer: Side = low === 0 ? { active: active.filter((p) => isBoth[p] === 0) } : { active, row: row(-1, -low) };
  return [more, fewer];
}

/** Pairs are all whole but a pattern is not: branch on how often it is cut. */
function columnSides(active: Int32Array, levels: Map<number, number>): readonly Side[] {
  let best = -1;
  let bestPart = -1;
  for (const [p, level] of levels) {
    const part = level - Math.floor(level);
    const even = Math.min(part, 1 - part);
    if (even > bestPart) [bestPart, best] = [even, p];
  }
  const low = Math.floor(levels.get(best)!);
  const row = (sign: number, rhs: number): Row => ({
    rhs,
    patterns: Int32Array.of(best),
    values: Float64Array.of(sign),
  });
  return [
    { active, row: row(1, low + 1) },
    low === 0 ? { active: active.filter((p) => p !== best) } : { active, row: row(-1, -low) },
  ];
}
