import { calendarOf } from './calendar/index.ts';
import { calendarInput, type Outcome, workOut } from './outcome.ts';
import type { Plan } from './plan/index.ts';

export const TODAY = '2026-11-26';

/** Told to a person, in the plan's own units: whatever is reckoned stands beside them as figures. */
const WORDS: ReadonlySet<string> = new Set([
  ...['title', 'name', 'advice', 'detail', 'what', 'why', 'list', 'caution', 'assumes', 'formula', 'source', 'where'],
  // of an issue, what the plan says and what it should
  ...['found', 'expected'],
  // a cure's lengths are on the grid of the tape that the plan is measured with
  ...['cure', 'heaviestIs', 'steps', 'plan', 'option'],
]);

/** Every figure, name and verdict of an answer, without its words. */
export function answersIn(value: unknown): unknown {
  if (value instanceof Map) return answersIn([...value]);
  if (Array.isArray(value)) return value.map(answersIn);
  if (typeof value !== 'object' || value === null) return typeof value === 'function' ? undefined : value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => !WORDS.has(key))
      .map(([key, each]) => [key, answersIn(each)]),
  );
}

/** A plan's first option, or the one that is built, with its calendar. */
export function workedOut(plan: Plan, steps = 0, option = plan.options[0]!) {
  const outcome: Outcome = workOut(plan, option, { today: TODAY, effort: { steps } });
  return { ...outcome, calendar: calendarOf({ ...calendarInput(outcome, TODAY), brief: true, steps: 50 }) };
}
export type Answer = ReturnType<typeof workedOut>;

/** Where two answers differ, figures by more than a part of themselves. */
export function unlike(a: unknown, b: unknown, by = 0, path = ''): readonly string[] {
  if (typeof a === 'number' && typeof b === 'number')
    return Object.is(a, b) || Math.abs(a - b) <= by * Math.max(1, Math.abs(a), Math.abs(b))
      ? []
      : [`${path}: ${a}, ${b}`];
  if (a instanceof Map && b instanceof Map) return unlike(Object.fromEntries(a), Object.fromEntries(b), by, path);
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return Object.is(a, b) ? [] : [`${path}: ${JSON.stringify(a)}, ${JSON.stringify(b)}`];
  const [from, to] = [a as Record<string, unknown>, b as Record<string, unknown>];
  return [...new Set([...Object.keys(from), ...Object.keys(to)])].flatMap((key) =>
    unlike(from[key], to[key], by, `${path}/${key}`),
  );
}
