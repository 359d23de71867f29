import type { z } from 'zod';
import { CALENDAR_SHAPES, type CalendarAnswer, writeCalendarAnswer } from '../calendar/index.ts';
import { CUTTING_SHAPES, type CutProblemAnswer, writeCutAnswer } from '../cutting/index.ts';
import { type Issue, nearest, type Result } from '../issue/index.ts';

/** What each kind of problem a line may ask looks like. */
export const NEUTRAL_SHAPES = { ...CUTTING_SHAPES, ...CALENDAR_SHAPES } as const;
type Shapes = typeof NEUTRAL_SHAPES;
/** Whatever a line of a list of problems may ask: cutting, and calendars beside it. */
export type NeutralProblem = { [K in keyof Shapes]: z.output<Shapes[K]> }[keyof Shapes];
export type NeutralAnswer = CutProblemAnswer | CalendarAnswer;

/**
 * One line of text to one problem. `line` is its number in the file, for the messages.
 * @returns every fault of the line, each with the field it concerns.
 */
export function readNeutral(text: string, line: number): Result<NeutralProblem> {
  const place = { line, column: 1 };
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const message = error instanceof SyntaxError ? error.message : String(error);
    return { ok: false, issues: [{ place, path: [], message: `this line is not JSON: ${message}` }] };
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return {
      ok: false,
      issues: [{ place, path: [], message: 'a problem is one JSON object a line', found: text.slice(0, 40) }],
    };
  const kinds = Object.keys(NEUTRAL_SHAPES);
  const kind = (value as Readonly<Record<string, unknown>>).kind;
  const shape =
    typeof kind === 'string' && Object.hasOwn(NEUTRAL_SHAPES, kind) ? NEUTRAL_SHAPES[kind as keyof Shapes] : undefined;
  if (!shape) {
    const meant = typeof kind === 'string' ? nearest(kind, kinds) : undefined;
    return {
      ok: false,
      issues: [
        {
          place,
          path: ['kind'],
          message: 'there is no such kind of problem',
          found: kind === undefined ? 'nothing' : JSON.stringify(kind),
          expected: kinds.join(' or '),
          ...(meant !== undefined && { nearest: meant }),
        },
      ],
    };
  }
  const read = shape.safeParse(value);
  if (read.success) return { ok: true, value: read.data };
  return { ok: false, issues: read.error.issues.map((issue) => ({ ...issueOf(issue, value), place })) };
}

function issueOf(issue: z.core.$ZodIssue, value: unknown): Issue {
  const path = issue.path.filter((step) => typeof step !== 'symbol');
  const at = (steps: readonly (string | number)[]): unknown =>
    steps.reduce<unknown>(
      (inner, step) =>
        typeof inner === 'object' && inner !== null
          ? (inner as Readonly<Record<string | number, unknown>>)[step]
          : undefined,
      value,
    );
  const found = at(path);
  const last = path.at(-1);
  const owner = at(path.slice(0, -1));
  if (found === undefined && typeof last === 'string' && typeof owner === 'object' && owner !== null) {
    const meant = nearest(last, Object.keys(owner));
    const tells = { path, message: 'a field is missing', expected: wanted(issue) };
    return meant === undefined ? tells : { ...tells, found: `a field named ${meant}`, nearest: last };
  }
  return { path, message: 'this is not what it should be', found: shown(found), expected: wanted(issue) };
}

const wanted = (issue: z.core.$ZodIssue): string => {
  if (issue.code === 'invalid_type') return `a value of type ${issue.expected}`;
  if (issue.code === 'invalid_value') return issue.values.join(' or ');
  return issue.message;
};
const shown = (value: unknown): string => (JSON.stringify(value) ?? 'nothing').slice(0, 60);

/** One answer as one line. `seconds` is what the caller's clock says; the core has none. */
export const writeAnswer = (answer: NeutralAnswer, seconds?: number): string =>
  answer.kind === 'calendar' ? writeCalendarAnswer(answer, seconds) : writeCutAnswer(answer, seconds);
