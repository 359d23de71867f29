/** A measured point of a wall: x along it, y out into the room, both in the same unit. */
export interface WallPoint {
  readonly x: number;
  readonly y: number;
}

export interface MinimaxFit {
  /** The back of the run: y = slope·x + intercept, never behind a point of the wall. */
  readonly slope: number;
  readonly intercept: number;
  readonly largestGap: number;
  /** Gap at each point, in the order given; 0 where it touches. */
  readonly gaps: readonly number[];
  /** Indices of the points it touches, and of those with the largest gap. */
  readonly touches: readonly number[];
  readonly widest: readonly number[];
}

/**
 * The straight line in front of a wavy wall whose largest gap to the wall is least (one-sided minimax, exact).
 *
 *     min over m of [ max(y − m x) − min(y − m x) ],  c = max(y − m x)
 *
 * The bracket is the height of the convex hull seen along the slope m; as a function of m it is convex and has its kinks at
 * the slopes of hull edges, so the least lies at one of them. Twice the two-sided (Chebyshev) error.
 * Convexity gives the proof; the tests hold it against brute force over all pairs.
 * With one x only, the line is level. Among equally good slopes the one nearest to level wins.
 * @throws RangeError without points or with one that is not finite.
 */
export function minimaxFit(points: readonly WallPoint[]): MinimaxFit {
  if (points.length === 0) throw new RangeError('no points of the wall were measured');
  if (points.some((p) => !Number.isFinite(p.x) || !Number.isFinite(p.y)))
    throw new RangeError('every point of the wall must be a finite number');
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const slopes = [...edgeSlopes(hull(sorted, 1)), ...edgeSlopes(hull(sorted, -1))];
  const scale = Math.max(...points.map((p) => Math.abs(p.y)), 1e-300);
  let best = { slope: 0, gap: slopes.length === 0 ? spread(points, 0) : Number.POSITIVE_INFINITY };
  for (const slope of slopes) {
    const gap = spread(points, slope);
    const same = Math.abs(gap - best.gap) <= 1e-12 * scale;
    if ((!same && gap < best.gap) || (same && Math.abs(slope) < Math.abs(best.slope))) best = { slope, gap };
  }
  const intercept = Math.max(...points.map((p) => p.y - best.slope * p.x));
  const gaps = points.map((p) => Math.max(0, best.slope * p.x + intercept - p.y));
  const largestGap = Math.max(...gaps);
  const near = 1e-9 * scale;
  const where = (test: (gap: number) => boolean) => gaps.flatMap((gap, i) => (test(gap) ? [i] : []));
  return {
    slope: best.slope,
    intercept,
    largestGap,
    gaps,
    touches: where((gap) => gap <= near),
    widest: where((gap) => gap >= largestGap - near),
  };
}

const spread = (points: readonly WallPoint[], slope: number): number => {
  const over = points.map((p) => p.y - slope * p.x);
  return Math.max(...over) - Math.min(...over);
};

/** Upper (side 1) or lower (side −1) hull of points sorted by x. Source: A. M. Andrew 1979, monotone chain. */
function hull(sorted: readonly WallPoint[], side: 1 | -1): WallPoint[] {
  const chain: WallPoint[] = [];
  for (const p of sorted) {
    while (chain.length >= 2) {
      const [a, b] = [chain[chain.length - 2]!, chain[chain.length - 1]!];
      if (side * ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) < 0) break;
      chain.pop();
    }
    chain.push(p);
  }
  return chain;
}

const edgeSlopes = (chain: readonly WallPoint[]): number[] =>
  chain.slice(1).flatMap((p, i) => {
    const before = chain[i]!;
    return p.x > before.x ? [(p.y - before.y) / (p.x - before.x)] : [];
  });
