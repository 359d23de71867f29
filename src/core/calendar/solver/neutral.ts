import { z } from 'zod';
import type { CalendarAnswer, CalendarProblem } from './problem.ts';

/** The neutral calendar problem as it stands in a line of JSON: only its shape; whether it makes sense the solver says. */
const calendarProblem = z.object({
  name: z.string(),
  kind: z.literal('calendar'),
  resources: z.array(z.number()),
  tasks: z.array(
    z.object({
      id: z.union([z.number(), z.string()]),
      hours: z.number(),
      needs: z.array(z.number()),
      before: z.array(z.union([z.number(), z.string()])).default([]),
    }),
  ),
});
/** To be put beside the cutting shapes where lines of any kind are read. */
export const CALENDAR_SHAPES: { readonly calendar: z.ZodType<CalendarProblem> } = { calendar: calendarProblem };

/** One answer as one line. `seconds` is what the caller's clock says; the core has none. */
export function writeCalendarAnswer(answer: CalendarAnswer, seconds?: number): string {
  const time = seconds === undefined ? {} : { seconds: Math.round(seconds * 1000) / 1000 };
  if (answer.status === 'infeasible') return JSON.stringify({ ...answer, ...time });
  const { starts, ...rest } = answer;
  return JSON.stringify({ ...rest, ...time, starts });
}
