import type { Issue } from '../../issue/index.ts';
import { areaBound, scaleBound } from '../bounds/index.ts';
import type { Effort, PanelAnswer, PanelProblem } from '../problem.ts';
import { toAnswer } from './answer.ts';
import { byArea, byLength, byLongest, byPerimeter, byWidth, fill } from './fill.ts';
import { problemIssues, toModel } from './model.ts';
import { better, type Plan } from './pattern.ts';
import { ruinAndRecreate } from './ruin-and-recreate.ts';

/** More single parts than this are cut by patterns alone: moving them one by one gains nothing. */
const MOST_SINGLE = 6000;

/**
 * Cuts the parts from sheets at the least cost; every layout can be cut edge to edge, in any number of stages.
 *
 * One step is one ruin and recreate. The first answer comes before the first step. `optimal` only where the cost equals a bound
 * proven by areas or conservative scales.
 */
export function solvePanels(problem: PanelProblem, effort: Effort): PanelAnswer {
  const issues = problemIssues(problem);
  if (issues.length > 0) return refuse(problem, issues);
  if (problem.parts.every((part) => part.count === 0))
    return { name: problem.name, kind: 'panels', status: 'optimal', cost: 0, bound: 0, steps: 0, layouts: [] };
  const model = toModel(problem);
  let bound = areaBound(model);
  if (bound === Number.POSITIVE_INFINITY) return refuse(problem, [tooLittle(problem)]);
  let steps = 0;
  const stop = effort.shouldStop ?? ((): boolean => false);
  let best = fill(model, byArea(model));
  const tell = (): void => {
    if (best.missing === 0) effort.onBetter?.(toAnswer(problem, model, best, bound, steps, false));
  };
  tell();
  const improve = (plan: Plan): void => {
    const now = better(best, plan);
    if (now === best) return;
    best = now;
    tell();
  };
  const done = (): boolean => best.missing === 0 && best.cost <= bound;
  for (const order of [byLongest, byLength, byWidth, byPerimeter]) {
    if (done() || stop()) break;
    improve(fill(model, order(model)));
  }
  if (!done()) {
    bound = Math.max(bound, scaleBound(model));
    if (bound === Number.POSITIVE_INFINITY) return refuse(problem, [tooLittle(problem)]);
  }
  let stopped = false;
  if (!done() && model.total <= MOST_SINGLE && effort.steps > 0) {
    const search = ruinAndRecreate(model, best, bound, effort.seed ?? 1);
    const chunk = Math.max(1, Math.min(64, Math.floor(6000 / model.total)));
    while (!done() && steps < effort.steps) {
      stopped = stop();
      if (stopped) break;
      const now = Math.min(chunk, effort.steps - steps);
      const found = search.advance(now);
      steps += now;
      if (found) improve(search.best());
    }
  }
  if (best.missing > 0)
    return refuse(problem, [
      {
        path: ['stock'],
        message: `no way was found to cut all parts from the sheets there are: ${best.missing} of ${model.total} left over`,
        expected: 'more sheets, or more steps',
      },
    ]);
  return toAnswer(problem, model, best, bound, steps, stopped);
}

const refuse = (problem: PanelProblem, issues: readonly Issue[]): PanelAnswer => ({
  name: problem.name,
  kind: 'panels',
  status: 'infeasible',
  issues,
});

const tooLittle = (problem: PanelProblem): Issue => ({
  path: ['stock'],
  message: 'the sheets there are cannot hold all the parts, however they are cut',
  found: problem.stock.map((sheet) => `${sheet.count ?? 'any number'} of ${sheet.id}`).join(', '),
  expected: 'more sheets',
});
