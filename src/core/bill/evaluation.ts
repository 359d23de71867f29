import type { Plan } from '../plan/index.ts';
import type { Money } from '../quantity/index.ts';
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
