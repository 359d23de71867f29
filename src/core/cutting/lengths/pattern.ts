import type { Model } from './model.ts';

/** One way to fill one piece of stock: for each of its usable runs how many of each kind, and the sums. */
export interface Pattern {
  /** Index in `model.stocks`. */
  readonly stock: number;
  readonly kinds: readonly number[];
  readonly counts: readonly number[];
  /** Per run, kinds repeated; left out where the stock has one run. */
  readonly split?: readonly (readonly number[])[];
}

/** A cutting plan in the making: each pattern with its times. */
export interface Cut {
  readonly pattern: Pattern;
  readonly times: number;
}

export function patternOf(
  stock: number,
  runs: readonly { kinds: readonly number[]; counts: readonly number[] }[],
): Pattern {
  if (runs.length === 1) {
    const order = runs[0]!.kinds.map((_, k) => k).sort((a, b) => runs[0]!.kinds[a]! - runs[0]!.kinds[b]!);
    return { stock, kinds: order.map((k) => runs[0]!.kinds[k]!), counts: order.map((k) => runs[0]!.counts[k]!) };
  }
  const sum = new Map<number, number>();
  const split = runs.map((run) =>
    run.kinds.flatMap((kind, k) => {
      sum.set(kind, (sum.get(kind) ?? 0) + run.counts[k]!);
      return Array.from({ length: run.counts[k]! }, () => kind);
    }),
  );
  const kinds = [...sum.keys()].sort((a, b) => a - b);
  return { stock, kinds, counts: kinds.map((kind) => sum.get(kind)!), split };
}

export const keyOf = (pattern: Pattern): string =>
  `${pattern.stock}:${pattern.kinds.map((kind, k) => `${kind}x${pattern.counts[k]}`).join()}`;

export const costOf = (model: Model, cuts: readonly Cut[]): number =>
  cuts.reduce((sum, cut) => sum + cut.times * model.stocks[cut.pattern.stock]!.cost, 0);

/**
 * Drops what is cut beyond the demand and lets every pattern that then needs less move to the cheapest stock that still holds it.
 * Undefined when the demand is not met or more of a stock is used than there is.
 */
export function trimToDemand(model: Model, cuts: readonly Cut[]): readonly Cut[] | undefined {
  const left = [...model.demand];
  const result: Cut[] = [];
  const used = model.stocks.map(() => 0);
  const keep = (pattern: Pattern, times: number): void => {
    used[pattern.stock]! += times;
    result.push({ pattern, times });
  };
  for (const { pattern, times } of cuts) {
    // As many times as it is wholly wanted at once, then one at a time with what is no longer wanted left out.
    let whole = times;
    pattern.kinds.forEach((kind, k) => {
      whole = Math.min(whole, Math.floor(left[kind]! / pattern.counts[k]!));
    });
    if (whole > 0) {
      pattern.kinds.forEach((kind, k) => {
        left[kind]! -= whole * pattern.counts[k]!;
      });
      keep(pattern, whole);
    }
    for (let t = whole; t < times; t++) {
      const reduced = reduce(pattern, left);
      if (reduced.kinds.length === 0) break;
      reduced.kinds.forEach((kind, k) => {
        left[kind]! -= reduced.counts[k]!;
      });
      keep(reduced, 1);
    }
  }
  if (left.some((count) => count > 0)) return undefined;
  if (used.some((count, s) => count > model.stocks[s]!.limit)) return undefined;
  return result;
}

function reduce(pattern: Pattern, left: readonly number[]): Pattern {
  if (!pattern.split) {
    const kinds: number[] = [];
    const counts: number[] = [];
    pattern.kinds.forEach((kind, k) => {
      const count = Math.min(pattern.counts[k]!, left[kind]!);
      if (count > 0) {
        kinds.push(kind);
        counts.push(count);
      }
    });
    return { stock: pattern.stock, kinds, counts };
  }
  const room = new Map(pattern.kinds.map((kind) => [kind, left[kind]!]));
  const split = pattern.split.map((run) =>
    run.filter((kind) => {
      const have = room.get(kind)!;
      room.set(kind, have - 1);
      return have > 0;
    }),
  );
  return patternOf(
    pattern.stock,
    split.map((run) => {
      const kinds = [...new Set(run)];
      return { kinds, counts: kinds.map((kind) => run.filter((other) => other === kind).length) };
    }),
  );
}
