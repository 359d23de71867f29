import type { Money } from '../quantity/index.ts';
import type { Evaluation } from './evaluation.ts';

/** What the plan costs at the values that were asked for: each is reckoned once, and exactly only where that is needed. */
export interface Reckoner<V> {
  /** As good as the planner can. */
  readonly at: (value: V) => Evaluation;
  /** Whether a value between two that cost `before` and `after` costs what the first does. The quick cost and bound often settle it. */
  readonly isAsBefore: (value: V, before: Money, after: Money) => boolean;
  /** All that are known exactly. */
  readonly known: () => ReadonlyMap<V, Evaluation>;
  /** What every cost leaves out: as the first one that was known did. */
  readonly without: () => readonly string[];
  readonly evaluations: () => number;
}

export function reckonerOf<V>(evaluate: (value: V, effort: 'quick' | 'exact') => Evaluation): Reckoner<V> {
  const quick = new Map<V, Evaluation>();
  const exact = new Map<V, Evaluation>();
  let evaluations = 0;
  let without: readonly string[] | undefined;

  /** Costs are held against each other only where the same things are left out of them. */
  function alike(found: Evaluation): Evaluation {
    if (found.cost === undefined) return found;
    const missing = found.without ?? [];
    without ??= missing;
    if (missing.join('|') === without.join('|')) return found;
    const which = missing.length > without.length ? 'more' : 'other';
    return { buys: found.buys, why: `${which} things without a price are needed` };
  }
  function reckon(value: V, effort: 'quick' | 'exact'): Evaluation {
    const kept = effort === 'quick' ? quick : exact;
    const before = kept.get(value);
    if (before) return before;
    evaluations++;
    const found = alike(evaluate(value, effort));
    kept.set(value, found);
    return found;
  }
  function at(value: V): Evaluation {
    const done = exact.get(value);
    if (done) return done;
    const first = reckon(value, 'quick');
    if (first.unsure || (first.cost !== undefined && first.bound !== first.cost)) return reckon(value, 'exact');
    exact.set(value, first);
    return first;
  }
  function isAsBefore(value: V, before: Money, after: Money): boolean {
    if (!exact.has(value)) {
      const { cost, bound } = reckon(value, 'quick');
      if (cost !== undefined && after > before && cost <= before) return true;
      if (cost !== undefined && after < before && cost < before) return false;
      if (bound !== undefined && after > before && bound > before) return false;
      if (bound !== undefined && after < before && bound >= before) return true;
    }
    return at(value).cost === before;
  }
  return { at, isAsBefore, known: () => exact, without: () => without ?? [], evaluations: () => evaluations };
}
