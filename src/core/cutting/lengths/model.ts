import type { Issue } from '../../issue/index.ts';
import { toTicks } from '../../quantity/index.ts';
import { gcd, wholeCosts } from '../costs.ts';
import type { LengthPart, LengthProblem, LengthStock } from '../problem.ts';

/**
 * A lengths problem in whole numbers. The kerf is gone (added to every part and to every usable run), equal parts are one kind, sizes
 * are divided by their common divisor, costs are whole multiples of `costUnit` whose common divisor is 1.
 */
export interface Model {
  /** Effective sizes, largest first. */
  readonly sizes: readonly number[];
  readonly demand: readonly number[];
  /** Which parts of the problem a kind stands for. */
  readonly members: readonly (readonly number[])[];
  readonly stocks: readonly ModelStock[];
  readonly costUnit: number;
  /** Costs in these units are the user's to the last digit. */
  readonly exactCosts: boolean;
}
export interface ModelStock {
  /** Index in the problem. */
  readonly index: number;
  /** Runs that hold at least the smallest part, each filled by itself … */
  readonly runs: readonly number[];
  /** … and which of the board's runs they are. */
  readonly places: readonly number[];
  readonly cost: number;
  /** Infinity when there is no end of it. */
  readonly limit: number;
}

/** Where parts may lie on one board, in ticks. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The stretches of a board between its trimmed ends and its unusable places, in order. */
export function runsOf(stock: LengthStock, trim: number, kerf: number): readonly Run[] {
  const runs: Run[] = [];
  let from: number = toTicks(trim);
  const end = toTicks(stock.length) - toTicks(trim);
  const stretches = (stock.unusable ?? [])
    .map((s) => ({ from: toTicks(s.from) as number, to: Math.max(toTicks(s.to), toTicks(s.from) + toTicks(kerf)) }))
    .sort((a, b) => a.from - b.from);
  for (const stretch of stretches) {
    if (Math.min(stretch.from, end) > from) runs.push({ from, to: Math.min(stretch.from, end) });
    from = Math.max(from, stretch.to);
  }
  if (end > from) runs.push({ from, to: end });
  return runs;
}

/** The most parts one problem may ask for in all, and the most kinds. */
const MOST_PARTS = 1_000_000;
const MOST_ROWS = 5_000;
const MOST_TICKS = 2 ** 40;
const STEEPEST = 75;

/** Everything wrong with a problem, named so that a maker can mend it. */
export function judgeLengths(problem: LengthProblem): readonly Issue[] {
  const issues: Issue[] = [];
  const wrong = (path: Issue['path'], message: string, found: unknown, expected: string): void => {
    issues.push({ path, message, found: String(found), expected });
  };
  const measured = (value: number, path: Issue['path'], what: string): void => {
    if (!(Number.isFinite(value) && value > 0))
      wrong(path, `${what} has no usable length`, value, 'a length greater than zero');
    else if (value * 640 >= MOST_TICKS)
      wrong(path, `${what} is longer than can be cut exactly`, value, `less than ${MOST_TICKS / 640} mm`);
    else if (toTicks(value) < 1) wrong(path, `${what} is smaller than can be measured`, value, 'at least 1/640 mm');
  };
  const allowance = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value) && value >= 0;

  if (!allowance(problem.kerf))
    wrong(['kerf'], 'the kerf must be zero or more', problem.kerf, 'a length of zero or more');
  if (!allowance(problem.trim))
    wrong(['trim'], 'the trim must be zero or more', problem.trim, 'a length of zero or more');
  for (const list of ['stock', 'parts'] as const)
    if (problem[list].length > MOST_ROWS)
      wrong([list], 'the list is too long', problem[list].length, `at most ${MOST_ROWS} different rows`);
  // Further faults of so long a list would only bury this one.
  if (issues.some(({ path }) => path.length === 1 && path[0] !== 'kerf' && path[0] !== 'trim')) return issues;
  const names = new Set<string>();
  problem.stock.forEach((stock, i) => {
    const path = ['stock', i];
    if (names.has(stock.id)) wrong([...path, 'id'], 'two stock rows have one name', stock.id, 'a name of its own');
    names.add(stock.id);
    measured(stock.length, [...path, 'length'], `stock ${stock.id}`);
    if (!allowance(stock.cost))
      wrong([...path, 'cost'], `stock ${stock.id} has no usable cost`, stock.cost, 'zero or more');
    if (stock.count !== null && !(Number.isInteger(stock.count) && stock.count >= 0))
      wrong(
        [...path, 'count'],
        `stock ${stock.id} has no usable count`,
        stock.count,
        'a whole number, or null for any',
      );
    stock.unusable?.forEach((s, k) => {
      const place = [...path, 'unusable', k];
      if (!(Number.isFinite(s.from) && Number.isFinite(s.to)))
        wrong(place, 'an unusable stretch has no usable beginning or end', `${s.from} to ${s.to}`, 'two lengths');
      else if (s.from < 0)
        wrong(place, 'an unusable stretch begins before its board does', `${s.from} to ${s.to}`, 'from 0 or more');
      else if (s.to <= s.from)
        wrong(place, 'an unusable stretch must end after it begins', `${s.from} to ${s.to}`, 'from < to');
    });
  });
  names.clear();
  let total = 0;
  problem.parts.forEach((part, i) => {
    const path = ['parts', i];
    if (names.has(part.id)) wrong([...path, 'id'], 'two parts have one name', part.id, 'a name of its own');
    names.add(part.id);
    measured(part.length, [...path, 'length'], `part ${part.id}`);
    if (!(Number.isInteger(part.count) && part.count >= 0))
      wrong([...path, 'count'], `part ${part.id} has no usable count`, part.count, 'a whole number, zero or more');
    else total += part.count;
    judgeEnds(part).forEach((message) => {
      wrong([...path, 'ends'], message, part.ends?.join(', '), `two angles from 0 to ${STEEPEST}`);
    });
  });
  if (total > MOST_PARTS) wrong(['parts'], 'too many parts in all', total, `at most ${MOST_PARTS}`);
  if (issues.length > 0 || total === 0) return issues;

  const runs = problem.stock.flatMap((stock) =>
    stock.count === 0 ? [] : runsOf(stock, problem.trim, problem.kerf).map((run) => run.to - run.from),
  );
  if (runs.length === 0) {
    const some = problem.stock.some((stock) => stock.count !== 0);
    wrong(
      ['stock'],
      some ? 'trim and unusable stretches leave nothing of any stock' : 'there is no stock to cut from',
      some ? 'no usable stretch' : 'none',
      'at least one length of stock',
    );
    return issues;
  }
  const longest = runs.reduce((a, b) => Math.max(a, b), 0);
  problem.parts.forEach((part, i) => {
    if (toTicks(part.length) > longest)
      wrong(
        ['parts', i, 'length'],
        `part ${part.id} is longer than every usable stretch of stock`,
        part.length,
        `at most ${longest / 640} mm`,
      );
  });
  if (issues.length > 0) return issues;
  if (problem.stock.every((stock) => stock.count !== null)) {
    const kerf = toTicks(problem.kerf);
    const mitred = problem.parts.some((part) => part.ends?.some((angle) => angle > 0));
    const have = problem.stock.reduce(
      (sum, stock) =>
        sum +
        stock.count! * runsOf(stock, problem.trim, problem.kerf).reduce((s, run) => s + run.to - run.from + kerf, 0),
      0,
    );
    const want = problem.parts.reduce((sum, part) => sum + part.count * (toTicks(part.length) + kerf), 0);
    if (want > have && !mitred)
      wrong(
        ['stock'],
        'all the stock together is too short for the parts',
        `${have / 640} mm with one kerf for each run`,
        `at least ${want / 640} mm, one kerf for each part included`,
      );
  }
  return issues;
}

function judgeEnds(part: LengthPart): string[] {
  if (!part.ends) return [];
  const wrong: string[] = [];
  if (part.ends.length !== 2 || !part.ends.every((angle) => angle >= 0 && angle <= STEEPEST))
    wrong.push(`the ends of part ${part.id} cannot be cut so`);
  else if (part.ends.some((angle) => angle > 0)) {
    const face = part.faceWidth;
    if (!(face !== undefined && Number.isFinite(face) && face > 0))
      wrong.push(`part ${part.id} is mitred; the width of its face is missing`);
    else if (part.ends.reduce((sum, angle) => sum + face * tangent(angle), 0) > part.length)
      wrong.push(`the mitres of part ${part.id} cross each other: it is too short`);
  }
  return wrong;
}

const tangent = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
const secant = (degrees: number): number => 1 / Math.cos((degrees * Math.PI) / 180);

/** An end as the cuts see it: two ends of one class may share a cut. Square ends are class 0 with any face. */
export interface End {
  readonly angle: number;
  readonly face: number;
}
export const endsOf = (part: LengthPart): readonly [End, End] => {
  const [a, b] = part.ends ?? [0, 0];
  const face = part.faceWidth ?? 0;
  return [
    { angle: a, face: a > 0 ? toTicks(face) : 0 },
    { angle: b, face: b > 0 ? toTicks(face) : 0 },
  ];
};
export const sameEnd = (a: End, b: End): boolean => a.angle === b.angle && a.face === b.face;

/** Whole ticks between the long points of neighbours with these ends, as LengthPart.ends lays down; rounded up. */
export function gapBetween(kerf: number, a: End, b: End): number {
  const blade = toTicks(kerf);
  const run = blade * secant(Math.max(a.angle, b.angle));
  return roundUp(sameEnd(a, b) && a.angle > 0 ? run - a.face * tangent(a.angle) : run);
}
/** Up to the next whole, forgiving the last bits of a product that is whole. */
const roundUp = (value: number): number => Math.ceil(value - 1e-9 * Math.max(1, Math.abs(value)));

/**
 * Sizes for the knapsack. With ends all of one class every neighbouring pair keeps one gap g: part + g each, run + g. With mixed
 * ends there are two answers to what a part takes:
 *
 * - `relaxed`: half the gap of its own class at either end, and the run is lengthened by the largest gap. Since unlike neighbours
 *   never come nearer than the mean of their classes' gaps, every true arrangement still fits: good for bounds.
 * - `strict`: the widest gap of all after every part: whatever fits can be cut.
 */
export type Reading = 'relaxed' | 'strict';

/** True when all ends are of one class, so that both readings are the same and exact. */
export function oneClass(problem: LengthProblem): boolean {
  if (problem.parts.every((part) => part.ends === undefined)) return true;
  const ends = problem.parts.flatMap((part) => endsOf(part));
  return ends.every((end) => sameEnd(end, ends[0]!));
}

export function modelOf(problem: LengthProblem, reading: Reading): Model {
  const { kerf, trim } = problem;
  const allEnds = problem.parts.flatMap((part) => endsOf(part));
  const own = allEnds.map((end) => gapBetween(kerf, end, end));
  const largestOwn = own.reduce((a, b) => Math.max(a, b), own[0] ?? 0);
  const steepest = allEnds.reduce((a, b) => (b.angle > a.angle ? b : a), { angle: 0, face: 0 });
  const widest = gapBetween(kerf, steepest, { angle: 0, face: 0 });
  const single = oneClass(problem);
  // In half ticks, so that half a gap is whole.
  const extra = single || reading === 'relaxed' ? 2 * largestOwn : 2 * widest;
  const sizeOf = (part: LengthPart): number => {
    const length = 2 * toTicks(part.length);
    if (!single && reading === 'strict') return length + extra;
    const [a, b] = endsOf(part);
    return length + gapBetween(kerf, a, a) + gapBetween(kerf, b, b);
  };

  const kinds = new Map<number, { count: number; members: number[] }>();
  problem.parts.forEach((part, i) => {
    const size = sizeOf(part);
    const kind = kinds.get(size) ?? { count: 0, members: [] };
    kind.count += part.count;
    kind.members.push(i);
    kinds.set(size, kind);
  });
  const ordered = [...kinds].sort((a, b) => b[0] - a[0]);
  const unit = ordered.reduce((divisor, [size]) => gcd(divisor, size), 0) || 1;
  const { costs, costUnit, exact } = wholeCosts(problem.stock.map((stock) => stock.cost));
  const smallest = ordered.at(-1)?.[0] ?? 1;
  const stocks = problem.stock
    .map((stock, index) => {
      const runs = runsOf(stock, trim, kerf)
        .map((run, place) => ({ place, size: Math.floor((2 * (run.to - run.from) + extra) / unit) }))
        .filter(({ size }) => size * unit >= smallest);
      return {
        index,
        runs: runs.map(({ size }) => size),
        places: runs.map(({ place }) => place),
        cost: costs[index]!,
        limit: stock.count ?? Number.POSITIVE_INFINITY,
      };
    })
    .filter((stock) => stock.limit > 0 && stock.runs.length > 0);
  return {
    sizes: ordered.map(([size]) => size / unit),
    demand: ordered.map(([, kind]) => kind.count),
    members: ordered.map(([, kind]) => kind.members),
    stocks,
    costUnit,
    exactCosts: exact,
  };
}
