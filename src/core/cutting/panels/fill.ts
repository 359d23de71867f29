import { createForest } from './forest.ts';
import type { Model } from './model.ts';
import { type Pattern, type Plan, planOf } from './pattern.ts';

/**
 * The first answer: sheet after sheet is filled with what is left, kind by kind in a fixed order, each part where it costs the
 * least leftover; the same sheet is repeated as long as the parts allow. Near-linear in the number of parts.
 *
 * After the best-fit insertion of Fleszar 2013 (see forest.ts), bin by bin as in Charalambous & Fleszar, "A constructive
 * bin-oriented heuristic for the two-dimensional bin packing problem with guillotine cuts", Computers & OR 38, 2011.
 */
export type Order = (model: Model) => readonly number[];

export const byArea: Order = (model) => model.kinds.map((_, k) => k);
export const byLongest: Order = (model) =>
  sorted(model, (k) => Math.max(model.kinds[k]!.length, model.kinds[k]!.width));
export const byLength: Order = (model) => sorted(model, (k) => model.kinds[k]!.length);
export const byWidth: Order = (model) => sorted(model, (k) => model.kinds[k]!.width);
export const byPerimeter: Order = (model) => sorted(model, (k) => model.kinds[k]!.length + model.kinds[k]!.width);

const sorted = (model: Model, key: (kind: number) => number): readonly number[] =>
  model.kinds.map((_, k) => k).sort((a, b) => key(b) - key(a) || a - b);

const never = (): number => 1;

/** Orders of more kinds than this are not tried from end to end for every sheet. */
const LONG = 400;

/** More parts than this are not put on one sheet. */
const MOST_FILLED = 100_000;

/** Parts tried after which the caller is asked whether to stop. */
const UNASKED = 32;

/** No sheet holds more parts than this. */
export function mostOnASheet(model: Model): number {
  const smallest = Math.min(...model.kinds.map((kind) => kind.length * kind.width));
  const largest = Math.max(...model.sheets.map((sheet) => sheet.length * sheet.width));
  return Math.min(model.total, Math.floor(largest / smallest) + 1, MOST_FILLED);
}

/** Fills sheets, each of the stock that gives most for its money, until all parts lie, the stock has run out or `stop` says so (then parts are missing). */
export function fill(model: Model, order: readonly number[], stop?: () => boolean): Plan {
  const rest = Int32Array.from(model.kinds, (kind) => kind.count);
  const stockLeft = Int32Array.from(model.sheets, (sheet) => sheet.count);
  const layouts: { pattern: Pattern; times: number }[] = [];
  let restParts = model.total;
  const filler = createFiller(model, stop);
  let open = order;
  let spent = 0;
  while (restParts > 0 && !stop?.()) {
    // Kinds that are used up are passed over; once they are many, the list is made anew.
    if (spent * 4 > open.length) {
      open = open.filter((kind) => rest[kind]! > 0);
      spent = 0;
    }
    let best: Filled | null = null;
    let bestScore = 0;
    for (let s = 0; s < model.sheets.length; s++) {
      if (stockLeft[s]! <= 0) continue;
      const filled = filler(s, open, rest);
      if (filled.area === 0) continue;
      const sheet = model.sheets[s]!;
      // Money for each unit of area placed; free sheets by how full they are.
      const score = sheet.cost > 0 ? sheet.cost / filled.area : -filled.area / (sheet.length * sheet.width);
      if (best === null || score < bestScore) {
        best = filled;
        bestScore = score;
      }
    }
    if (best === null) break;
    const { pattern, held } = best;
    let times = stockLeft[pattern.sheet]!;
    for (const [kind, count] of held) times = Math.min(times, Math.floor(rest[kind]! / count));
    times = Math.max(1, times);
    for (const [kind, count] of held) {
      rest[kind] = rest[kind]! - count * times;
      restParts -= count * times;
      if (rest[kind] === 0) spent++;
    }
    stockLeft[pattern.sheet] = stockLeft[pattern.sheet]! - times;
    layouts.push({ pattern, times });
  }
  return planOf(model, layouts, restParts);
}

interface Filled {
  readonly pattern: Pattern;
  readonly area: number;
  /** Kinds with how many of each. */
  readonly held: readonly (readonly [kind: number, count: number])[];
}

/** Fills one sheet greedily in the given order of kinds. The forest is kept between calls. */
export type Filler = (
  sheet: number,
  order: readonly number[],
  rest: Int32Array,
  /** With it: the order begins with these, no more of each than said, then goes on with what `rest` still allows. */
  first?: Int32Array,
) => Filled;
export function createFiller(model: Model, stop?: () => boolean): Filler {
  const capacity = mostOnASheet(model);
  const kindOf = new Int32Array(capacity);
  const forest = createForest(model, kindOf, 1);
  const code = new Int32Array(capacity * 3 + 4);
  // All zero between calls.
  const counts = new Int32Array(model.kinds.length);
  return (sheet, order, rest, first) => {
    const placed: number[] = [];
    const { length, width } = model.sheets[sheet]!;
    let parts = 0;
    let free = length * width;
    const started = first ? new Set<number>() : null;
    let misses = 0;
    let unasked = 0;
    let stopped = false;
    // In a long list the look ahead widens with every miss, so that a sheet does not cost the whole list.
    for (let i = 0; i < order.length && !stopped; i += 1 + (misses >> 6)) {
      const kind = order[i]!;
      if (rest[kind] === 0) continue;
      const { length: l, width: w } = model.kinds[kind]!;
      const area = l * w;
      const before = parts;
      const opening = started !== null && first![kind]! > 0 && !started.has(kind);
      started?.add(kind);
      const most = opening ? first![kind]! : rest[kind]! - counts[kind]!;
      for (let n = most; n > 0 && area <= free && parts < capacity; n--) {
        if (++unasked > UNASKED) {
          unasked = 0;
          stopped = stop?.() === true;
          if (stopped) break;
        }
        kindOf[parts] = kind;
        if (parts === 0) {
          if (forest.bareLoss(sheet, kind) === Number.POSITIVE_INFINITY) break;
          forest.open(0, sheet, 0, forest.foundTurn());
        } else {
          if (forest.bestPlace(0, kind, Number.POSITIVE_INFINITY, 0, never) === Number.POSITIVE_INFINITY) break;
          forest.insert(0, parts, forest.found(), forest.foundHow(), forest.foundTurn());
        }
        parts++;
        free -= area;
        if (counts[kind] === 0) placed.push(kind);
        counts[kind] = counts[kind]! + 1;
      }
      if (parts === before && order.length > LONG) misses++;
    }
    const end = parts > 0 ? forest.write(0, code, 0) : 0;
    const pattern = { sheet, code: code.slice(0, end).map((c) => (c >= 0 ? kindOf[c >> 1]! * 2 + (c & 1) : c)) };
    forest.clear(0);
    const held = placed.map((kind) => [kind, counts[kind]!] as const);
    for (const kind of placed) counts[kind] = 0;
    return { pattern, area: length * width - free, held };
  };
}
