import type { Model } from '../panels/model.ts';
import { measures } from './dual-feasible.ts';

/** Sums of measures carry rounding errors far below this; it is given away so that a bound is never too high. */
const GIVE = 1e-7;

/**
 * The least cost of sheets whose capacities add up to `need`: x whole, Σ capacity·x ≥ need, x ≤ count. The continuous knapsack
 * relaxation, then branching on the dearest-filling sheet while `nodes` last; what is returned is proven either way.
 */
export function leastCover(
  sheets: readonly { readonly cost: number; readonly count: number; readonly capacity: number }[],
  need: number,
  nodes = 2000,
): number {
  const usable = sheets.filter((s) => s.capacity > GIVE).sort((a, b) => a.cost / a.capacity - b.cost / b.capacity);
  /** Fills greedily by price; the last one in part. Costs are whole, so up. */
  const relaxed = (from: number, rest: number): number => {
    let cost = 0;
    for (let i = from; i < usable.length && rest > GIVE; i++) {
      const { capacity, cost: price, count } = usable[i]!;
      const take = Math.min(count, rest / capacity);
      cost += take * price;
      rest -= take * capacity;
    }
    return rest > GIVE ? Number.POSITIVE_INFINITY : Math.ceil(cost - GIVE);
  };
  let left = nodes;
  let best = Number.POSITIVE_INFINITY;
  const branch = (from: number, rest: number, cost: number): void => {
    if (rest <= GIVE) {
      best = Math.min(best, cost);
      return;
    }
    if (left-- <= 0 || cost + relaxed(from, rest) >= best || from >= usable.length) return;
    const { capacity, cost: price, count } = usable[from]!;
    const most = Math.min(count, Math.ceil(rest / capacity - GIVE));
    for (let n = most; n >= 0 && left > 0; n--) branch(from + 1, rest - n * capacity, cost + n * price);
  };
  const floor = relaxed(0, need);
  branch(0, need, 0);
  return left > 0 ? best : floor;
}

/** Area alone: the continuous bound. In units of cost; infinite when the stock cannot hold the parts. */
export function areaBound(model: Model): number {
  let need = 0;
  for (const kind of model.kinds) need += kind.length * kind.width * kind.count;
  const largest = Math.max(...model.sheets.map((sheet) => sheet.length * sheet.width));
  // However little there is to cut, some sheet is taken.
  const cheapest = Math.min(...model.sheets.map((sheet) => sheet.cost));
  const cover = leastCover(
    model.sheets.map((s) => ({ cost: s.cost, count: s.count, capacity: (s.length * s.width) / largest })),
    need / largest,
  );
  return Math.max(cheapest, cover);
}

/**
 * The best bound over pairs of dual feasible functions (conservative scales), never below the area's.
 *
 * A part free to turn counts with the lesser of its two ways. On square sheets a packing may itself be turned, so there it counts
 * with their mean, which is never less (our remark: add the inequality of the packing and of its mirror image).
 */
export function scaleBound(model: Model, most = 40, stop?: () => boolean): number {
  const C = Math.max(...model.sheets.map((sheet) => sheet.length));
  const D = Math.max(...model.sheets.map((sheet) => sheet.width));
  const square = model.sheets.every((sheet) => sheet.length === sheet.width);
  const { kinds } = model;
  const turns = kinds.some((kind) => kind.turn);
  const lengths = kinds.flatMap((kind) => (kind.turn ? [kind.length, kind.width] : [kind.length]));
  const widths = kinds.flatMap((kind) => (kind.turn ? [kind.length, kind.width] : [kind.width]));
  const few = Math.max(6, Math.min(most, Math.floor(6000 / kinds.length)));
  const alongs = measures(
    C,
    lengths.filter((x) => x <= C),
    few,
  );
  const acrosses = measures(
    D,
    widths.filter((x) => x <= D),
    few,
  );

  const table = (list: typeof alongs, side: 'length' | 'width', limit: number): Float64Array[] =>
    list.map((f) => {
      const measured = new Float64Array(kinds.length).fill(Number.NaN);
      if (stop?.()) return measured;
      for (let k = 0; k < kinds.length; k++) if (kinds[k]![side] <= limit) measured[k] = f(kinds[k]![side]);
      return measured;
    });
  let best = areaBound(model);
  const F = table(alongs, 'length', C);
  const G = table(acrosses, 'width', D);
  const Fturned = turns ? table(alongs, 'width', C) : F;
  const Gturned = turns ? table(acrosses, 'length', D) : G;
  if (stop?.()) return best;
  const count = Float64Array.from(kinds, (kind) => kind.count);
  const turn = kinds.map((kind) => kind.turn);
  const single = model.sheets.length === 1 ? model.sheets[0]! : null;
  // With several sheet sizes every cover is a search of its own; the sums alone say which pairs are worth one.
  const pairs: { need: number; i: number; j: number }[] = [];
  // What has been looked at when it is stopped is proven all the same.
  for (let i = 0; i < alongs.length && !stop?.(); i++)
    for (let j = 0; j < acrosses.length; j++) {
      let need = 0;
      const [f, g, ft, gt] = [F[i]!, G[j]!, Fturned[i]!, Gturned[j]!];
      for (let k = 0; k < kinds.length; k++) {
        const straight = f[k]! * g[k]!;
        if (!turn[k]) need += straight * count[k]!;
        else {
          const across = ft[k]! * gt[k]!;
          // NaN: does not fit that way round.
          const weight = Number.isNaN(straight)
            ? across
            : Number.isNaN(across)
              ? straight
              : square
                ? (straight + across) / 2
                : Math.min(straight, across);
          need += weight * count[k]!;
        }
      }
      if (single) {
        const sheets = Math.ceil(need - GIVE);
        if (sheets > single.count) return Number.POSITIVE_INFINITY;
        best = Math.max(best, sheets * single.cost);
      } else pairs.push({ need, i, j });
    }
  if (!single) {
    const covers = pairs.flatMap(({ need, i, j }) => {
      if (stop?.()) return [];
      const sheets = model.sheets.map((s) => ({
        cost: s.cost,
        count: s.count,
        capacity: alongs[i]!(s.length) * acrosses[j]!(s.width),
      }));
      return [{ need, sheets, rough: leastCover(sheets, need, 0) }];
    });
    covers.sort((a, b) => b.rough - a.rough);
    for (const cover of covers.slice(0, 20)) {
      if (stop?.()) break;
      best = Math.max(best, leastCover(cover.sheets, cover.need));
    }
  }
  return best;
}
