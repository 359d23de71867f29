import type { Issue } from '../../issue/index.ts';
import { areaBound, scaleBound } from '../bounds/index.ts';
import type { Effort, PanelAnswer, PanelProblem } from '../problem.ts';
import { toAnswer } from './answer.ts';
import { bundle } from './bundle.ts';
import { mostOnASheet } from './fill.ts';
import { problemIssues, toModel } from './model.ts';
import type { Plan } from './pattern.ts';
import { search } from './search.ts';
import { tidy } from './tidy.ts';

/**
 * Cuts the parts from sheets at the least cost; every layout can be cut edge to edge, in any number of stages.
 *
 * One step is one ruin and recreate, or work of about that size. The first answer comes before the first step. `optimal` only where
 * the cost equals a bound proven by areas, conservative scales or the linear program over all guillotine patterns.
 */
export function solvePanels(problem: PanelProblem, effort: Effort): PanelAnswer {
  const issues = problemIssues(problem);
  if (issues.length > 0) return refuse(problem, issues);
  if (problem.parts.every((part) => part.count === 0))
    return { name: problem.name, kind: 'panels', status: 'optimal', cost: 0, bound: 0, steps: 0, layouts: [] };
  const model = toModel(problem);
  if (areaBound(model) === Number.POSITIVE_INFINITY) return refuse(problem, [tooLittle(problem)]);
  const tiny = mostOnASheet(model) > MOST_ON_A_SHEET ? bundle(model) : null;
  const whole = tiny?.unbundle ?? ((plan: Plan): Plan => plan);
  const found = search(tiny?.model ?? model, {
    steps: effort.steps,
    seed: effort.seed ?? 1,
    stop: effort.shouldStop ?? ((): boolean => false),
    // Blocks have the area of their parts, but not their freedom.
    bounds: [areaBound, (_, stop) => scaleBound(model, undefined, stop)],
    restricted: tiny !== null,
    better: (plan: Plan, bound: number, steps: number) => {
      if (plan.missing === 0) effort.onBetter?.(toAnswer(problem, model, whole(plan), bound, steps, false));
    },
  });
  if (found.bound === Number.POSITIVE_INFINITY) return refuse(problem, [tooLittle(problem)]);
  if (found.plan.missing > 0)
    return refuse(problem, [
      {
        path: ['stock'],
        message: `no way was found to cut all parts from the sheets there are: ${found.plan.missing} of ${model.total} left over`,
        expected: 'more sheets, or more steps',
      },
    ]);
  const stopped = (): boolean => found.stopped || effort.shouldStop?.() === true;
  const plan = tidy(model, whole(found.plan), effort.seed ?? 1, tiny ? 0 : effort.steps, stopped);
  const answer = toAnswer(problem, model, plan, found.bound, found.steps, found.stopped);
  // Where the search ended early, gathering what is left over may empty a sheet.
  if (plan.cost < found.plan.cost) effort.onBetter?.(answer);
  return answer;
}

/** More parts than this on one sheet, and the little ones are cut as blocks. */
const MOST_ON_A_SHEET = 600;

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
