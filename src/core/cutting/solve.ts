import {
  type CalendarAnswer,
  type CalendarProblem,
  checkCalendar,
  solveCalendar,
  USUAL_CALENDAR_STEPS,
} from '../calendar/index.ts';
import type { Issue } from '../issue/index.ts';
import { checkLengths, checkPanels } from './check.ts';
import { solveLengths } from './lengths/index.ts';
import type { CutProblem } from './neutral.ts';
import { solvePanels } from './panels/index.ts';
import type { Effort, LengthAnswer, LengthProblem, PanelAnswer, PanelProblem } from './problem.ts';

export type CutProblemAnswer = PanelAnswer | LengthAnswer;
/** Whatever a line of a list of problems may ask, and its answer: cutting, and calendars beside it. */
export type NeutralProblem = CutProblem | CalendarProblem;
export type NeutralAnswer = CutProblemAnswer | CalendarAnswer;

/** Steps that bring nearly every workshop problem to its end. A step is what its solver counts. */
export const USUAL_STEPS = { panels: 20_000, lengths: 60_000, calendar: USUAL_CALENDAR_STEPS } as const;

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

/** The answer that belongs to a kind of problem. */
export type AnswerTo<P extends NeutralProblem> = P extends CalendarProblem
  ? CalendarAnswer
  : P extends PanelProblem
    ? PanelAnswer
    : LengthAnswer;

/** Any neutral problem. `onBetter` hears of answers of the problem's own kind. */
export function solveNeutral<P extends NeutralProblem>(
  problem: P,
  effort: Omit<Effort, 'onBetter'> & { readonly onBetter?: (answer: AnswerTo<P>) => void },
): AnswerTo<P> {
  const told = effort as Omit<Effort, 'onBetter'> & { readonly onBetter?: (answer: NeutralAnswer) => void };
  return (problem.kind === 'calendar' ? solveCalendar(problem, told) : solveProblem(problem, told)) as AnswerTo<P>;
}

/** The judge that belongs to the problem's kind. */
export function checkAnswer(problem: NeutralProblem, answer: NeutralAnswer): readonly Issue[] {
  if (problem.kind !== answer.kind)
    return [{ path: ['kind'], message: 'the answer is of another kind', found: answer.kind, expected: problem.kind }];
  if (problem.kind === 'calendar') return checkCalendar(problem, answer as CalendarAnswer);
  return problem.kind === 'panels'
    ? checkPanels(problem, answer as PanelAnswer)
    : checkLengths(problem, answer as LengthAnswer);
}
