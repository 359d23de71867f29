import { finestOf, nameOf, type Piece, type Plan, printersFor } from '../plan/index.ts';
import { fromTicks, type Mm, type Money, toTicks } from '../quantity/index.ts';
import { type Bought, changesOf, savedOf, summed, toldOf } from './bought.ts';
import type { Evaluate, Evaluation } from './evaluation.ts';
import { type Reckoner, reckonerOf } from './reckoner.ts';

interface SizeAsked {
  readonly piece: string;
  readonly dimension: 'width' | 'height' | 'depth';
  readonly from: Mm;
  readonly to: Mm;
  readonly step: Mm;
}
export type StepsAsked =
  | SizeAsked
  | { readonly piece: string; readonly dimension: 'material'; readonly choices: readonly string[] };

export interface CostPoint {
  /** mm, or the stock's id. */
  readonly value: number | string;
  readonly cost?: Money;
  /** No way of cutting costs less. Without it the cost is the best that was found, and a step beside it may be only apparent. */
  readonly proven: boolean;
  readonly why?: string;
}
/** Where the cost changes: just before it the cost is `before`, from `at` on it is `after`. */
export interface PriceStep {
  /** The first tick at which the cost is the new one, in mm. */
  readonly at: Mm;
  readonly before: Money;
  readonly after: Money;
  /** Both costs are proven least. */
  readonly proven: boolean;
  /** `birch 3/4: one panel more`. */
  readonly words: string;
}
export interface Offered {
  readonly value: number | string;
  readonly cost: Money;
  readonly saves: Money;
  /** `2 mm narrower saves a panel (birch 3/4), 48.00` */
  readonly words: string;
}
export interface PriceSteps {
  readonly piece: string;
  readonly dimension: StepsAsked['dimension'];
  /** As the plan has it. */
  readonly current: CostPoint;
  readonly points: readonly CostPoint[];
  /** What every cost here leaves out, since it has no price. Empty: nothing. */
  readonly without: readonly string[];
  readonly steps: readonly PriceStep[];
  /** The least change that saves anything. */
  readonly nearest?: Offered;
  /** The least cost of the whole range, where it is less than the current one. */
  readonly cheapest?: Offered;
  readonly evaluations: number;
}

type Change =
  | { readonly dimension: SizeAsked['dimension']; readonly value: Mm }
  | { readonly dimension: 'material'; readonly value: string };

/** The plan with one size of one piece changed, or the stock of its carcass. Everything placed by it moves along. */
export function varied(plan: Plan, optionId: string, pieceName: string, change: Change): Plan {
  const change1 = (piece: Piece): Piece => {
    if (nameOf(piece) !== pieceName) return piece;
    if (change.dimension !== 'material') {
      if (!(change.dimension in piece.size)) throw new RangeError(`'${pieceName}' has no ${change.dimension}`);
      return { ...piece, size: { ...piece.size, [change.dimension]: change.value } } as Piece;
    }
    if ('case' in piece) return { ...piece, make: { ...piece.make, panel: change.value } };
    if ('shelf' in piece) return { ...piece, skin: change.value };
    if ('lining' in piece) return { ...piece, panel: change.value };
    throw new RangeError(`'${pieceName}' is not made of a material that can be chosen`);
  };
  if (!plan.options.some((o) => o.id === optionId && o.pieces.some((p) => nameOf(p) === pieceName)))
    throw new RangeError(`option '${optionId}' has no piece '${pieceName}'`);
  return {
    ...plan,
    options: plan.options.map((o) => (o.id === optionId ? { ...o, pieces: o.pieces.map(change1) } : o)),
  };
}

/** More points than this are not asked for at once. */
export const MOST_POINTS = 400;
/** Changes that are looked for between two points: a cost that is only found, not proven, may waver. */
const MOST_CHANGES = 6;

/**
 * How the cost moves as one size of one piece goes through a range. Every point is reckoned quickly first and exactly only where the
 * quick answer is not proven; while a step is being found, quick cost and bound alone decide wherever they can. Between two points
 * that differ in cost the changes are found to the tick by halving, one after another; what changes and changes back between them is
 * shown by finer grids.
 * @throws RangeError on a step that is not positive, an empty range, or more than MOST_POINTS points
 */
export function priceSteps(plan: Plan, optionId: string, asked: StepsAsked, evaluate: Evaluate): PriceSteps {
  const piece = plan.options.find((o) => o.id === optionId)?.pieces.find((p) => nameOf(p) === asked.piece);
  if (!piece) throw new RangeError(`option '${optionId}' has no piece '${asked.piece}'`);
  const changedTo = (change: Change): Plan => varied(plan, optionId, asked.piece, change);
  if (asked.dimension === 'material') {
    const reckoner = reckonerOf<string>((value, effort) =>
      evaluate(changedTo({ dimension: 'material', value }), effort),
    );
    return materialSteps(plan, piece, asked, reckoner);
  }
  const { dimension } = asked;
  const reckoner = reckonerOf<number>((ticks, effort) =>
    evaluate(changedTo({ dimension, value: fromTicks(ticks) }), effort),
  );
  return sizeSteps(plan, piece, asked, reckoner);
}

function materialSteps(
  plan: Plan,
  piece: Piece,
  { piece: name, dimension, choices }: StepsAsked & { readonly dimension: 'material' },
  reckoner: Reckoner<string>,
): PriceSteps {
  const now = materialOf(piece, plan);
  const point = (value: string): CostPoint => pointOf(value, reckoner.at(value));
  const current = point(now);
  const points = choices.map(point);
  const cheapest = cheapestOf(points, current.cost);
  const saves = cheapest && ((current.cost! - cheapest.cost!) as Money);
  return {
    piece: name,
    dimension,
    current,
    points,
    without: reckoner.without(),
    steps: [],
    ...(cheapest && {
      cheapest: {
        value: cheapest.value,
        cost: cheapest.cost!,
        saves: saves!,
        words: `${cheapest.value} instead of ${now} saves ${printersFor(plan.units).money(saves!)}`,
      },
    }),
    evaluations: reckoner.evaluations(),
  };
}

function sizeSteps(plan: Plan, piece: Piece, asked: SizeAsked, reckoner: Reckoner<number>): PriceSteps {
  const { piece: name, dimension } = asked;
  const size = (piece.size as Readonly<Record<string, number | undefined>>)[dimension];
  if (size === undefined) throw new RangeError(`'${name}' has no ${dimension}`);
  const now = toTicks(size);
  const grid = gridOf(asked, now);
  // the plan as it is says first what is left out
  const current = pointOf(fromTicks(now), reckoner.at(now));
  const changes = changesAlong(grid, reckoner);
  return {
    piece: name,
    dimension,
    current,
    points: grid.map((ticks) => pointOf(fromTicks(ticks), reckoner.at(ticks))),
    without: reckoner.without(),
    steps: changes.map(({ at, before, after, proven, bought }) => ({
      at: fromTicks(at),
      before,
      after,
      proven,
      words: toldOf(bought),
    })),
    ...offersOf(plan, asked, now, changes, reckoner),
    evaluations: reckoner.evaluations(),
  };
}

/** The sizes that are shown, in ticks, from the least: those of the range, and the one the plan has. */
function gridOf(asked: SizeAsked, now: number): readonly number[] {
  const [from, to, step] = [toTicks(asked.from), toTicks(asked.to), toTicks(asked.step)];
  if (!(step > 0)) throw new RangeError('a step must be more than 0');
  if (!(to > from)) throw new RangeError('the range must end above its start');
  if ((to - from) / step > MOST_POINTS)
    throw new RangeError(`at most ${MOST_POINTS} points at once: take a longer step`);
  const grid: number[] = [];
  for (let value: number = from; value < to; value += step) grid.push(value);
  grid.push(to);
  if (now > from && now < to && !grid.includes(now)) grid.push(now);
  return grid.sort((a, b) => a - b);
}

/** Where the cost changes along a size. */
interface CostChange {
  /** The first tick that costs `after`. */
  readonly at: number;
  readonly before: Money;
  readonly after: Money;
  readonly proven: boolean;
  readonly bought: readonly Bought[];
}

function changesAlong(grid: readonly number[], reckoner: Reckoner<number>): readonly CostChange[] {
  return grid.slice(1).flatMap((high, i) => {
    const changes: CostChange[] = [];
    // beyond the first change of an interval there may be another
    for (let low = grid[i]!; changes.length < MOST_CHANGES; ) {
      const change = firstChange(low, high, reckoner);
      if (!change) break;
      changes.push(change);
      low = change.at;
    }
    return changes;
  });
}

function firstChange(low: number, high: number, { at, isAsBefore }: Reckoner<number>): CostChange | undefined {
  const [{ cost: before }, { cost: after }] = [at(low), at(high)];
  if (before === undefined || after === undefined || before === after) return undefined;
  let [kept, changed] = [low, high];
  while (changed - kept > 1) {
    const middle = Math.floor((kept + changed) / 2);
    if (isAsBefore(middle, before, after)) kept = middle;
    else changed = middle;
  }
  const [here, there] = [at(kept), at(changed)];
  if (there.cost === undefined) return undefined;
  const proven = here.bound === here.cost && there.bound === there.cost;
  return { at: changed, before, after: there.cost, proven, bought: changesOf(here, there) };
}

/** The least change of the size that saves anything, and the one that saves most. */
function offersOf(
  plan: Plan,
  asked: SizeAsked,
  now: number,
  changes: readonly CostChange[],
  { at, known }: Reckoner<number>,
): Pick<PriceSteps, 'nearest' | 'cheapest'> {
  const { cost: current } = at(now);
  if (current === undefined) return {};
  const { length, money } = printersFor(plan.units);
  const fine = Math.max(1, toTicks(finestOf(plan.units)));
  const [from, to] = [toTicks(asked.from), toTicks(asked.to)];

  const offer = (ticks: number): Offered => {
    const there = at(ticks);
    const saves = (current - there.cost!) as Money;
    // what is exchanged at the same cost on the way there saves nothing: the steps in between are what does
    const [less, more, way] = ticks < now ? [ticks, now, -1] : [now, ticks, 1];
    const between = changes.filter((change) => less < change.at && change.at <= more);
    const isAll = between.reduce((sum, { before, after }) => sum + before - after, 0) * way === saves;
    const bought = isAll
      ? summed(
          between.flatMap((change) => change.bought),
          -way,
        )
      : changesOf(there, at(now));
    const by = `${length(Math.abs(fromTicks(now - ticks)))} ${WORD[asked.dimension][ticks < now ? 0 : 1]}`;
    const words = `${by} saves ${savedOf(bought)}, ${money(saves)}`;
    return { value: fromTicks(ticks), cost: there.cost!, saves, words };
  };
  /** The next size a tape shows, on the side away from the current one; the tick itself where that one is dearer or out of range. */
  const readable = (ticks: number): number => {
    const rounded = ticks < now ? Math.floor(ticks / fine) * fine : Math.ceil(ticks / fine) * fine;
    if (rounded < from || rounded > to) return ticks;
    const { cost } = at(rounded);
    return cost !== undefined && cost <= at(ticks).cost! ? rounded : ticks;
  };

  const cheaper = [...known()].flatMap(([ticks, { cost }]) =>
    cost !== undefined && cost < current ? [{ ticks, cost, off: Math.abs(ticks - now) }] : [],
  );
  const close = cheaper.toSorted((a, b) => a.off - b.off || a.cost - b.cost)[0];
  const least = cheaper.toSorted((a, b) => a.cost - b.cost || a.off - b.off)[0];
  return {
    ...(close && { nearest: offer(readable(close.ticks)) }),
    ...(least && { cheapest: offer(readable(least.ticks)) }),
  };
}

const pointOf = (value: number | string, { cost, bound, why }: Evaluation): CostPoint => ({
  value,
  ...(cost !== undefined && { cost }),
  proven: cost !== undefined && cost === bound,
  ...(why !== undefined && { why }),
});

const WORD = { width: ['narrower', 'wider'], height: ['lower', 'higher'], depth: ['shallower', 'deeper'] } as const;

function materialOf(piece: Piece, plan: Plan): string {
  const id =
    'case' in piece
      ? (piece.make?.panel ?? plan.make.panel)
      : 'shelf' in piece
        ? piece.skin
        : 'lining' in piece
          ? piece.panel
          : undefined;
  if (id === undefined) throw new RangeError(`'${nameOf(piece)}' names no material`);
  return id;
}
const cheapestOf = (points: readonly CostPoint[], than: Money | undefined): CostPoint | undefined =>
  than === undefined
    ? undefined
    : points.filter((p) => p.cost !== undefined && p.cost < than).toSorted((a, b) => a.cost! - b.cost!)[0];
