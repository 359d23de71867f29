import { toTicks } from '../../quantity/index.ts';
import type { LengthPart, LengthProblem, LengthStock } from '../problem.ts';

/**
 * The least cost by trying everything, from the contract's own words; shares no code with the solver. For at most eight parts.
 * Infinity where nothing will do.
 */
export function leastCost(problem: LengthProblem): number {
  const parts = problem.parts.flatMap((part) => Array.from({ length: part.count }, () => part));
  const holds = problem.stock.map((stock) =>
    Array.from({ length: 1 << parts.length }, (_, set) =>
      fitsBoard(
        problem,
        stock,
        parts.filter((_part, i) => (set >> i) & 1),
      ),
    ),
  );
  const known = new Map<string, number>();
  const least = (set: number, used: readonly number[]): number => {
    if (set === 0) return 0;
    const key = `${set} ${used.join()}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    // Some board holds the lowest part still to be cut.
    const lowest = set & -set;
    let best = Number.POSITIVE_INFINITY;
    problem.stock.forEach((stock, s) => {
      if (stock.count !== null && used[s]! >= stock.count) return;
      const after = used.map((count, k) => (k === s && stock.count !== null ? count + 1 : count));
      for (let sub = set; sub > 0; sub = (sub - 1) & set)
        if (sub & lowest && holds[s]![sub]) best = Math.min(best, stock.cost + least(set & ~sub, after));
    });
    known.set(key, best);
    return best;
  };
  return least(
    (1 << parts.length) - 1,
    problem.stock.map(() => 0),
  );
}

/** Do these parts fit one board, whatever the order, the way round, and the usable stretch each lies in? */
function fitsBoard(problem: LengthProblem, stock: LengthStock, parts: readonly LengthPart[]): boolean {
  const end = toTicks(stock.length) - toTicks(problem.trim);
  const bad = (stock.unusable ?? []).map(({ from, to }) => ({
    from: toTicks(from),
    to: Math.max(toTicks(to), toTicks(from) + toTicks(problem.kerf)),
  }));
  // Push each next part as far down as it goes: after the last one, and past whatever stretch it would touch.
  const lay = (
    left: readonly LengthPart[],
    at: number,
    last?: { readonly angle: number; readonly face: number },
  ): boolean => {
    if (left.length === 0) return true;
    return left.some((part, i) => {
      const rest = left.filter((_, k) => k !== i);
      const [a, b] = part.ends ?? [0, 0];
      const face = toTicks(part.faceWidth ?? 0);
      return [
        [a, b],
        [b, a],
      ].some(([first, second]) => {
        let x = at;
        if (last) x = at + Math.ceil(gap(problem.kerf, last, { angle: first!, face }) - 1e-7);
        for (let moved = true; moved; ) {
          moved = false;
          for (const stretch of bad)
            if (x < stretch.to && x + toTicks(part.length) > stretch.from) {
              x = stretch.to;
              moved = true;
            }
        }
        return x + toTicks(part.length) <= end && lay(rest, x + toTicks(part.length), { angle: second!, face });
      });
    });
  };
  return lay(parts, toTicks(problem.trim));
}

function gap(
  kerf: number,
  a: { readonly angle: number; readonly face: number },
  b: { readonly angle: number; readonly face: number },
): number {
  const radians = (Math.max(a.angle, b.angle) * Math.PI) / 180;
  const blade = toTicks(kerf) / Math.cos(radians);
  const like = a.angle === b.angle && a.angle > 0 && a.face === b.face;
  return like ? blade - a.face * Math.tan(radians) : blade;
}
