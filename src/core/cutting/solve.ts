import type { Issue } from '../issue/index.ts';
import { checkLengths, checkPanels } from './check.ts';
import { solveLengths } from './lengths/index.ts';
import { solvePanels } from './panels/index.ts';
import type { Effort, LengthAnswer, LengthProblem, PanelAnswer, PanelProblem } from './problem.ts';
import type { CutProblem } from './shapes.ts';

export type CutProblemAnswer = PanelAnswer | LengthAnswer;

/** Steps that bring nearly every workshop problem to its end. A step is what its solver counts. */
export const CUTTING_STEPS = { panels: 20_000, lengths: 60_000 } as const;

export function solveProblem(problem: PanelProblem, effort: Effort): PanelAnswer;
export function solveProblem(problem: LengthProblem, effort: Effort): LengthAnswer;
export function solveProblem(problem: CutProblem, effort: Effort): CutProblemAnswer;
export function solveProblem(problem: CutProblem, effort: Effort): CutProblemAnswer {
  switch (problem.kind) {
    case 'panels':
      return solvePanels(problem, effort);
    case 'lengths':
      return solveLengths(problem, effort);
    default:
      return problem satisfies never;
  }
}

/** The judge that belongs to the problem's kind. */
export function checkAnswer(problem: CutProblem, answer: CutProblemAnswer): readonly Issue[] {
  if (problem.kind !== answer.kind)
    return [{ path: ['kind'], message: 'the answer is of another kind', found: answer.kind, expected: problem.kind }];
  return problem.kind === 'panels'
    ? checkPanels(problem, answer as PanelAnswer)
    : checkLengths(problem, answer as LengthAnswer);
}
