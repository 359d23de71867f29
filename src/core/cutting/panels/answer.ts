import { fromTicks } from '../../quantity/index.ts';
import { costOfLayouts } from '../costs.ts';
import type { PanelAnswer, PanelLayout, PanelPart, PanelProblem, PlacedPart } from '../problem.ts';
import type { Model, ModelKind } from './model.ts';
import { type Plan, placements } from './pattern.ts';

/** A whole plan in the words of the problem: parts by their names, lengths in millimetres, trim included. */
export function toLayouts(problem: PanelProblem, model: Model, plan: Plan): readonly PanelLayout[] {
  // Which member of a kind is next, and how many of it are left.
  const member = model.kinds.map(() => 0);
  const left = model.kinds.map((kind) => kind.members[0]!.count);
  const take = (kind: number): number => {
    while (left[kind] === 0) {
      member[kind] = member[kind]! + 1;
      left[kind] = model.kinds[kind]!.members[member[kind]!]!.count;
    }
    left[kind] = left[kind]! - 1;
    return model.kinds[kind]!.members[member[kind]!]!.index;
  };
  const layouts: PanelLayout[] = [];
  for (const { pattern, times } of plan.layouts) {
    const lying = placements(model, pattern);
    const held = new Map<number, number>();
    for (const { kind } of lying) held.set(kind, (held.get(kind) ?? 0) + 1);
    let rest = times;
    while (rest > 0) {
      // As many repeats as have the same names on every place.
      let repeat = rest;
      for (const [kind, count] of held) repeat = Math.min(repeat, Math.floor(left[kind]! / count));
      repeat = Math.max(1, repeat);
      const placed = lying.map(({ kind, turn, x, y }): PlacedPart => {
        const index = take(kind);
        const part = problem.parts[index]!;

        // Members of a kind may state the same part either way round.
        const swapped = isSwapped(part, model.kinds[kind]!) !== turn;
        return {
          part: part.id,
          x: problem.trim + fromTicks(x * model.ticks),
          y: problem.trim + fromTicks(y * model.ticks),
          length: swapped ? part.width : part.length,
          width: swapped ? part.length : part.width,
        };
      });
      if (repeat > 1) for (const [kind, count] of held) left[kind] = left[kind]! - count * (repeat - 1);
      layouts.push({ stock: problem.stock[model.sheets[pattern.sheet]!.index]!.id, times: repeat, placed });
      rest -= repeat;
    }
  }
  return layouts;
}

function isSwapped(part: PanelPart, kind: ModelKind): boolean {
  return kind.turn && part.length > part.width !== kind.length > kind.width;
}

/**
 * The answer for a whole plan. `bound` in the model's units of cost. The cost is added up anew in the user's own numbers, so that the
 * sum is the one a checker makes.
 */
export function toAnswer(
  problem: PanelProblem,
  model: Model,
  plan: Plan,
  bound: number,
  steps: number,
  cutShort: boolean,
): PanelAnswer {
  const proven = plan.cost <= bound && model.exactCosts;
  const layouts = toLayouts(problem, model, plan);
  const cost = costOfLayouts(problem.stock, layouts);
  return {
    name: problem.name,
    kind: 'panels',
    status: proven ? 'optimal' : 'feasible',
    cost,
    bound: proven ? cost : Math.min(cost, bound * model.costUnit),
    steps,
    ...(cutShort && !proven ? { cutShort: true } : {}),
    layouts,
  };
}
