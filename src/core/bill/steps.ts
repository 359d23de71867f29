import { finestOf, nameOf, type Piece, type Plan, printersFor } from '../plan/index.ts';
import { fromTicks, type Mm, type Money, toTicks } from '../quantity/index.ts';
import type { Bill, Cut } from './bill.ts';

/** What one plan costs, as far as price steps need to know. */
export interface Evaluation {
  /** With tax. Undefined when it is not known, or the plan cannot be built. */
  readonly cost?: Money;
  /** No way of cutting can cost less; equal to `cost` when that is proven. Left out: not known. */
  readonly bound?: Money;
  /** How many of each are bought, by the offer's id. */
  readonly buys: ReadonlyMap<
    string,
    { readonly name: string; readonly kind: 'panel' | 'board' | 'pack'; readonly count: number }
  >;
  /** Why there is no cost, in a few words. */
  readonly why?: string;
  /** No way of cutting was found, which a longer search may still find. */
  readonly unsure?: boolean;
  /** Packs that have no price: what they cost is left out of `cost` and `bound`. */
  readonly without?: readonly string[];
}
/** `quick`: within a frame or so, cost and bound; `exact`: as good as the planner can. */
export type Evaluate = (plan: Plan, effort: 'quick' | 'exact') => Evaluation;

export type StepsAsked =
  | {
      readonly piece: string;
      readonly dimension: 'width' | 'height' | 'depth';
      readonly from: Mm;
      readonly to: Mm;
      readonly step: Mm;
    }
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

/** The plan with one size of one piece changed, or the stock of its carcass. Everything placed by it moves along. */
export function varied(
  plan: Plan,
  optionId: string,
  pieceName: string,
  change:
    | { readonly dimension: 'width' | 'height' | 'depth'; readonly value: Mm }
    | { readonly dimension: 'material'; readonly value: string },
): Plan {
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
  let evaluations = 0;
  // costs are held against each other only where the same things are left out of them
  let without: readonly string[] | undefined;
  const alike = (found: Evaluation): Evaluation => {
    const missing = found.without ?? [];
    if (found.cost === undefined) return found;
    without ??= missing;
    return missing.join('|') === without.join('|')
      ? found
      : {
          buys: found.buys,
          why: `${missing.length > without.length ? 'more' : 'other'} things without a price are needed`,
        };
  };
  const quick = new Map<number | string, Evaluation>();
  const exact = new Map<number | string, Evaluation>();
  const reckon = (value: number | string, effort: 'quick' | 'exact'): Evaluation => {
    const kept = effort === 'quick' ? quick : exact;
    const before = kept.get(value);
    if (before) return before;
    const changed =
      typeof value === 'string'
        ? ({ dimension: 'material', value } as const)
        : ({ dimension: asked.dimension as 'width', value: fromTicks(value) } as const);
    evaluations++;
    const found = evaluate(varied(plan, optionId, asked.piece, changed), effort);
    const fair = alike(found);
    kept.set(value, fair);
    return fair;
  };
  const at = (value: number | string): Evaluation => {
    const done = exact.get(value);
    if (done) return done;
    const first = reckon(value, 'quick');
    if (first.unsure || (first.cost !== undefined && first.bound !== first.cost)) return reckon(value, 'exact');
    exact.set(value, first);
    return first;
  };
  /** Whether a size between costs what the size before does. The quick bounds often settle it. */
  const asBefore = (value: number, before: Money, after: Money): boolean => {
    if (!exact.has(value)) {
      const { cost, bound } = reckon(value, 'quick');
      if (cost !== undefined && after > before && cost <= before) return true;
      if (cost !== undefined && after < before && cost < before) return false;
      if (bound !== undefined && after > before && bound > before) return false;
      if (bound !== undefined && after < before && bound >= before) return true;
    }
    return at(value).cost === before;
  };
  const point = (value: number | string): CostPoint => {
    const { cost, why, bound } = at(value);
    return {
      value: typeof value === 'string' ? value : fromTicks(value),
      ...(cost !== undefined && { cost }),
      proven: cost !== undefined && cost === bound,
      ...(why !== undefined && { why }),
    };
  };
  const money = printersFor(plan.units).money;
  const piece = plan.options.find((o) => o.id === optionId)?.pieces.find((p) => nameOf(p) === asked.piece);
  if (!piece) throw new RangeError(`option '${optionId}' has no piece '${asked.piece}'`);

  if (asked.dimension === 'material') {
    const now = materialOf(piece, plan);
    const current = point(now);
    const points = asked.choices.map(point);
    const cheaper = cheapestOf(points, current.cost);
    return {
      piece: asked.piece,
      dimension: 'material',
      current,
      points,
      without: without ?? [],
      steps: [],
      ...(cheaper && {
        cheapest: {
          value: cheaper.value,
          cost: cheaper.cost!,
          saves: (current.cost! - cheaper.cost!) as Money,
          words: `${cheaper.value} instead of ${now} saves ${money(current.cost! - cheaper.cost!)}`,
        },
      }),
      evaluations,
    };
  }

  const [from, to, step] = [toTicks(asked.from), toTicks(asked.to), toTicks(asked.step)];
  if (!(step > 0)) throw new RangeError('a step must be more than 0');
  if (!(to > from)) throw new RangeError('the range must end above its start');
  if ((to - from) / step > MOST_POINTS)
    throw new RangeError(`at most ${MOST_POINTS} points at once: take a longer step`);
  const size = (piece.size as Readonly<Record<string, number | undefined>>)[asked.dimension];
  if (size === undefined) throw new RangeError(`'${asked.piece}' has no ${asked.dimension}`);
  const now = toTicks(size);
  at(now); // the plan as it is says first what is left out
  const grid: number[] = [];
  for (let value: number = from; value < to; value += step) grid.push(value);
  grid.push(to);
  if (now > from && now < to && !grid.includes(now)) grid.push(now);
  grid.sort((a, b) => a - b);

  const steps: PriceStep[] = [];
  const changes: { readonly at: number; readonly saves: number; readonly bought: readonly Bought[] }[] = [];
  for (let i = 0; i + 1 < grid.length; i++) {
    const high = grid[i + 1]!;
    let low = grid[i]!;
    // beyond the first change of an interval there may be another
    for (let found = 0; found < MOST_CHANGES; found++) {
      const [before, after] = [at(low), at(high)];
      if (before.cost === undefined || after.cost === undefined || before.cost === after.cost) break;
      let [kept, changed] = [low, high];
      while (changed - kept > 1) {
        const middle = Math.floor((kept + changed) / 2);
        if (asBefore(middle, before.cost, after.cost)) kept = middle;
        else changed = middle;
      }
      const [here, there] = [at(kept), at(changed)];
      if (there.cost === undefined) break;
      const bought = changesOf(here, there);
      changes.push({ at: changed, saves: before.cost - there.cost, bought });
      steps.push({
        at: fromTicks(changed),
        before: before.cost,
        after: there.cost,
        proven: here.bound === here.cost && there.bound === there.cost,
        words: toldOf(bought),
      });
      low = changed;
    }
  }

  const current = point(now);
  const length = printersFor(plan.units).length;
  const offer = (ticks: number): Offered => {
    const there = at(ticks);
    const saves = (current.cost! - there.cost!) as Money;
    const by = length(Math.abs(fromTicks(now - ticks)));
    // what is exchanged at the same cost on the way there saves nothing: the steps in between are what does
    const [less, more] = ticks < now ? [ticks, now] : [now, ticks];
    const between = changes.filter((change) => less < change.at && change.at <= more);
    const way = ticks < now ? -1 : 1;
    const isAll = between.reduce((sum, change) => sum + change.saves, 0) * way === saves;
    const bought = isAll
      ? summed(
          between.flatMap((change) => change.bought),
          -way,
        )
      : changesOf(there, at(now));
    return {
      value: fromTicks(ticks),
      cost: there.cost!,
      saves,
      words: `${by} ${WORD[asked.dimension][ticks < now ? 0 : 1]} saves ${savedOf(bought)}, ${money(saves)}`,
    };
  };
  /** The next size a tape shows, on the side away from the current one; the tick itself where that one is dearer or out of range. */
  const readable = (ticks: number): number => {
    const fine = Math.max(1, toTicks(finestOf(plan.units)));
    const rounded = ticks < now ? Math.floor(ticks / fine) * fine : Math.ceil(ticks / fine) * fine;
    if (rounded < from || rounded > to) return ticks;
    const { cost } = at(rounded);
    return cost !== undefined && cost <= at(ticks).cost! ? rounded : ticks;
  };
  let nearest: Offered | undefined;
  let cheapest: Offered | undefined;
  if (current.cost !== undefined) {
    const cheaper = [...exact.entries()]
      .filter(
        (e): e is [number, Evaluation & { cost: Money }] =>
          typeof e[0] === 'number' && e[1].cost !== undefined && e[1].cost < current.cost!,
      )
      .map(([ticks, { cost }]) => ({ ticks, cost, off: Math.abs(ticks - now) }));
    const close = cheaper.toSorted((a, b) => a.off - b.off || a.cost - b.cost)[0];
    const least = cheaper.toSorted((a, b) => a.cost - b.cost || a.off - b.off)[0];
    if (close) nearest = offer(readable(close.ticks));
    if (least) cheapest = offer(readable(least.ticks));
  }
  return {
    piece: asked.piece,
    dimension: asked.dimension,
    current,
    points: grid.map(point),
    without: without ?? [],
    steps,
    ...(nearest && { nearest }),
    ...(cheapest && { cheapest }),
    evaluations,
  };
}

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

interface Bought {
  readonly id: string;
  readonly name: string;
  readonly kind: 'panel' | 'board' | 'pack';
  readonly by: number;
}
const ORDER = ['panel', 'board', 'pack'];
const inOrder = (changes: readonly Bought[]): readonly Bought[] =>
  changes.toSorted((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) || Math.abs(b.by) - Math.abs(a.by));

/** What is bought more or less of between two evaluations, panels first. */
const changesOf = (before: Evaluation, after: Evaluation): readonly Bought[] =>
  inOrder(
    [...new Set([...before.buys.keys(), ...after.buys.keys()])].flatMap((id) => {
      const { name, kind } = (after.buys.get(id) ?? before.buys.get(id))!;
      const by = (after.buys.get(id)?.count ?? 0) - (before.buys.get(id)?.count ?? 0);
      return by === 0 ? [] : [{ id, name, kind, by }];
    }),
  );
/** Several changes as one; `way` -1: gone through backwards. */
function summed(all: readonly Bought[], way: number): readonly Bought[] {
  const sums = new Map<string, Bought>();
  for (const one of all) sums.set(one.id, { ...one, by: (sums.get(one.id)?.by ?? 0) + way * one.by });
  return inOrder([...sums.values()].filter(({ by }) => by !== 0));
}

function savedOf(changes: readonly Bought[]): string {
  // An exchange saves too: two small panels for one more large one.
  const [saved, spent] = [changes.filter((c) => c.by > 0), changes.filter((c) => c.by < 0)];
  const told = saved.map((c) => `${c.by === 1 ? 'a' : c.by} ${plural(c.kind, c.by)} (${c.name})`).join(' and ');
  const more = spent.map((c) => `${c.by === -1 ? 'one' : -c.by} more (${c.name})`).join(' and ');
  return `${told || 'money'}${more && ` for ${more}`}`;
}
const toldOf = (changes: readonly Bought[]): string =>
  changes.length === 0
    ? 'other prices'
    : changes
        .map(
          (c) =>
            `${c.name}: ${Math.abs(c.by) === 1 ? 'one' : Math.abs(c.by)} ${plural(c.kind, c.by)} ${c.by > 0 ? 'more' : 'less'}`,
        )
        .join('; ');
const plural = (word: string, n: number): string => (Math.abs(n) === 1 ? word : `${word}s`);

/**
 * What price steps need to know of a bill. The bound takes off what the cutting plans might still save, and one smallest unit for each
 * supplier, since tax is rounded there.
 */
export function evaluationOf(bill: Bill, cuts: readonly Cut[], tax: number): Evaluation {
  const sized = ({ name, kind, detail }: Bill['lines'][number]): string =>
    kind === 'pack' || detail === undefined ? name : `${name}, ${detail}`;
  const buys = new Map(bill.lines.map((line) => [line.id, { name: sized(line), kind: line.kind, count: line.count }]));
  // packs without a price hide only themselves; a panel or board without one would make dearer look cheaper
  const parted =
    bill.lines.every((l) => l.kind === 'pack' || l.cost !== undefined) &&
    bill.notes.every((n) => n.verdict !== 'stop') &&
    cuts.every(({ job, answer }) => job.left.length === 0 && answer.status !== 'infeasible');
  const unsure = cuts.some(({ answer }) => answer.status === 'infeasible');
  if (bill.total === undefined && !parted)
    return { buys, why: bill.notes[0]?.title ?? 'something has no price', ...(unsure && { unsure }) };
  const cost = bill.total ?? bill.known;
  const without =
    bill.total === undefined
      ? [...bill.lines.filter((l) => l.cost === undefined).map((l) => l.name), ...bill.unserved].toSorted()
      : [];
  if (bill.total === undefined && without.length === 0)
    return { buys, why: bill.notes[0]?.title ?? 'something has no price' };
  const open = cuts.reduce(
    (s, { answer }) => s + (answer.status === 'feasible' ? Math.max(0, answer.cost - answer.bound) : 0),
    0,
  );
  const bound = open === 0 ? cost : Math.max(0, Math.floor(cost - open * (1 + tax / 100)) - bill.shopping.length);
  return { cost, bound: bound as Money, buys, ...(without.length > 0 && { without }) };
}
