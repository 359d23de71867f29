import { z } from 'zod';
import { CALENDAR_SHAPES, type CalendarAnswer, writeCalendarAnswer } from '../calendar/index.ts';
import { type Issue, nearest, type Result } from '../issue/index.ts';
import type { LengthAnswer, LengthProblem, PanelAnswer, PanelProblem } from './problem.ts';

/**
 * The neutral problems as lines of JSON. Only the shape is judged here (is there a length, is it a number); whether the numbers
 * make sense the solver says, so that a list of problems is answered line by line. Fields not known are passed over.
 */
const count = z.number().nullable();
const panelProblem = z.object({
  name: z.string(),
  kind: z.literal('panels'),
  kerf: z.number().default(0),
  trim: z.number().default(0),
  stock: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      width: z.number(),
      cost: z.number().default(1),
      count: count.default(null),
    }),
  ),
  parts: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      width: z.number(),
      count: z.number().default(1),
      turn: z.boolean().default(false),
    }),
  ),
});
const stretch = z.object({ from: z.number(), to: z.number() });
const lengthProblem = z.object({
  name: z.string(),
  kind: z.literal('lengths'),
  kerf: z.number().default(0),
  trim: z.number().default(0),
  stock: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      cost: z.number().default(1),
      count: count.default(null),
      unusable: z.array(stretch).exactOptional(),
    }),
  ),
  parts: z.array(
    z.object({
      id: z.string(),
      length: z.number(),
      count: z.number().default(1),
      ends: z.tuple([z.number(), z.number()]).exactOptional(),
      faceWidth: z.number().exactOptional(),
    }),
  ),
});

export type CutProblem = PanelProblem | LengthProblem;
type Shape<P> = z.ZodType<P>;
/** What each kind of problem looks like. A caller that knows more kinds hands `readNeutral` a longer record. */
export const CUTTING_SHAPES: { readonly panels: Shape<PanelProblem>; readonly lengths: Shape<LengthProblem> } = {
  panels: panelProblem,
  lengths: lengthProblem,
};
/** Every kind a line may be. */
export const NEUTRAL_SHAPES = { ...CUTTING_SHAPES, ...CALENDAR_SHAPES } as const;
type Read<S> = { [K in keyof S]: S[K] extends Shape<infer P> ? P : never }[keyof S];

/**
 * One line of text to one problem. `line` is its number in the file, for the messages.
 * @returns every fault of the line, each with the field it concerns.
 */
export function readNeutral<S extends Readonly<Record<string, Shape<{ readonly kind: string }>>>>(
  text: string,
  line: number,
  shapes: S,
): Result<Read<S>> {
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
  const kinds = Object.keys(shapes);
  const kind = (value as Readonly<Record<string, unknown>>).kind;
  const shape = typeof kind === 'string' && Object.hasOwn(shapes, kind) ? shapes[kind] : undefined;
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
  if (read.success) return { ok: true, value: read.data as Read<S> };
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
export function writeAnswer(answer: PanelAnswer | LengthAnswer | CalendarAnswer, seconds?: number): string {
  if (answer.kind === 'calendar') return writeCalendarAnswer(answer, seconds);
  const time = seconds === undefined ? {} : { seconds: Math.round(seconds * 1000) / 1000 };
  if (answer.status === 'infeasible') return JSON.stringify({ ...answer, ...time });
  const { name, kind, status, cost, bound, steps, layouts, cutShort } = answer;
  return JSON.stringify({ name, kind, status, cost, bound, steps, ...time, ...(cutShort && { cutShort }), layouts });
}
