import {
  type CalendarAnswer,
  type CalendarProblem,
  checkCalendar,
  solveCalendar,
  USUAL_CALENDAR_STEPS,
} from '../calendar/index.ts';
import { CUTTING_STEPS, type CutProblemAnswer, checkAnswer, type Effort, solveProblem } from '../cutting/index.ts';
import type { Issue } from '../issue/index.ts';
import type { NeutralAnswer, NeutralProblem } from './read.ts';

/** Steps that bring nearly every workshop problem to its end. A step is what its solver counts. */
export const USUAL_STEPS = { ...CUTTING_STEPS, calendar: USUAL_CALENDAR_STEPS } as const;

/** Any neutral problem. `onBetter` hears of answers of the problem's own kind. */
export function solveNeutral(
  problem: NeutralProblem,
  effort: Omit<Effort, 'onBetter'> & { readonly onBetter?: (answer: NeutralAnswer) => void },
): NeutralAnswer {
  return problem.kind === 'calendar' ? solveCalendar(problem, effort) : solveProblem(problem, effort);
}

/** The judge that belongs to the problem's kind. */
export function checkNeutral(problem: NeutralProblem, answer: NeutralAnswer): readonly Issue[] {
  if (problem.kind !== 'calendar') return checkAnswer(problem, answer as CutProblemAnswer);
  if (answer.kind === 'calendar') return checkCalendar(problem as CalendarProblem, answer as CalendarAnswer);
  return [{ path: ['kind'], message: 'the answer is of another kind', found: answer.kind, expected: problem.kind }];
}
