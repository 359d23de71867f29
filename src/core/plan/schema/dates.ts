import { z } from 'zod';
import type { Issue } from '../../issue/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import { clockSaid, hoursMeant } from '../times-said.ts';
import type { Values } from './values.ts';

export const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** Part of a day, in minutes after midnight. */
export interface DayPart {
  readonly from: number;
  readonly to: number;
}
export type Week = { readonly [day in Weekday]?: readonly DayPart[] | undefined };

const CLOCK = /^\s*(\d{1,2}):(\d{2})\s*[-–]\s*(\d{1,2}):(\d{2})\s*$/;
const HOURS = 'hours of a day, from when to when, such as 18:30-21:00';
const SEVERAL = `${HOURS}, or several: [9:00-12:30, 13:30-17:00]; a day without work is left out`;

const dayPart = z.string({ error: `expected ${HOURS}` }).transform((text, ctx): DayPart => {
  const found = CLOCK.exec(text);
  const [h1, m1, h2, m2] = found ? found.slice(1).map(Number) : [];
  const [from, to] = [60 * h1! + m1!, 60 * h2! + m2!];
  if (found && m1! < 60 && m2! < 60 && from < to && to <= 24 * 60) return { from, to };
  const near = hoursMeant(text);
  const backwards = found && m1! < 60 && m2! < 60 && to <= from;
  const issue: Issue = {
    path: [],
    message: backwards
      ? 'these hours do not run forwards within one day'
      : found
        ? 'no clock shows these hours'
        : 'this cannot be read',
    found: `'${text}'`,
    expected: backwards ? 'the sooner first; what runs past midnight is hours of two days, parted at 24:00' : SEVERAL,
    ...(near !== undefined && { nearest: near }),
  };
  ctx.addIssue({ code: 'custom', message: issue.message, input: text, params: { issue } });
  return z.NEVER;
});
const dayHours = z
  .union([dayPart.transform((part) => [part]), z.array(dayPart).max(6)], { error: `expected ${SEVERAL}` })
  .superRefine((parts, ctx) => {
    if (parts.every((part, i) => i === 0 || part.from >= parts[i - 1]!.to)) return;
    const said = (list: readonly DayPart[]): string =>
      `[${list.map(({ from, to }) => `${clockSaid(from)}-${clockSaid(to)}`).join(', ')}]`;
    const sorted = [...parts].sort((a, b) => a.from - b.from || a.to - b.to);
    const joined: DayPart[] = [];
    for (const part of sorted) {
      const last = joined.at(-1);
      if (last && part.from < last.to) joined[joined.length - 1] = { from: last.from, to: Math.max(last.to, part.to) };
      else joined.push(part);
    }
    const issue: Issue = {
      path: [],
      message: 'the hours of a day do not stand in their order, or overlap',
      found: said(parts),
      expected: 'each to begin when the one before it has ended',
      nearest: said(joined),
    };
    ctx.addIssue({ code: 'custom', message: issue.message, input: parts, params: { issue } });
  })
  .meta({ id: 'DayHours', description: '18:30-21:00, or several: [9:00-12:30, 13:30-17:00]' });

/** Hours by weekday; a day that is left out has none. */
export const weekSchema = z
  .strictObject(
    {
      monday: dayHours.optional(),
      tuesday: dayHours.optional(),
      wednesday: dayHours.optional(),
      thursday: dayHours.optional(),
      friday: dayHours.optional(),
      saturday: dayHours.optional(),
      sunday: dayHours.optional(),
    },
    {
      error: ({ code }) =>
        code === 'invalid_type'
          ? 'expected hours by weekday, such as {tuesday: 18:30-21:00, saturday: [9:00-12:30, 13:30-17:00]}'
          : undefined,
    },
  )
  .meta({ id: 'Week', description: 'hours by weekday; a day that is left out has none' });

const EVENING = '18:30-21:00';
const DAY = ['9:00-12:30', '13:30-17:00'];

/** When the maker works, who helps when, what the air is like, and by when it has to be done. */
export function datesSchema(v: Values) {
  const temperature = z
    .string({ error: 'expected a temperature with its unit: 68 °F, 20 °C' })
    .transform((text, ctx): number => {
      const read = parseQuantity(text, 'temperature');
      if (read.ok && /[a-z]/i.test(text)) return read.value;
      ctx.addIssue({ code: 'custom', message: 'expected a temperature with its unit: 68 °F, 20 °C', input: text });
      return z.NEVER;
    })
    .refine((celsius) => celsius >= -20 && celsius <= 50, { error: 'must be between −20 and 50 °C' })
    .meta({ id: 'Temperature', description: 'a temperature with its unit: 68 °F, 20 °C' });
  return z
    .strictObject({
      start: v.date.optional().describe('first day of work; left out: the day it is worked out'),
      deadline: v.date.optional().describe('the day by whose end everything must be done'),
      hours: weekSchema
        .prefault({
          monday: EVENING,
          tuesday: EVENING,
          wednesday: EVENING,
          thursday: EVENING,
          friday: EVENING,
          saturday: DAY,
          sunday: DAY,
        })
        .describe("the maker's own hours; left out: evenings and week-ends"),
      helper: z
        .array(
          z.union([z.enum(WEEKDAYS), v.date], {
            error: 'expected a day of the week or a date: saturday, 2026-12-05; several stand one by one',
          }),
        )
        .max(400)
        .optional()
        .describe('days on which a second person is there: dates, or every such weekday'),
      off: z
        .array(
          z.union(
            [
              v.date,
              z.strictObject({ from: v.date, to: v.date }).refine(({ from, to }) => from <= to, {
                error: 'these days do not run forwards: `from` comes after `to`; the sooner stands first',
              }),
            ],
            {
              error:
                'expected a date, 2026-12-24, or the first and the last of several days, {from: 2026-12-24, to: 2026-12-27}; a weekday without work has no `hours`',
            },
          ),
        )
        .max(400)
        .optional()
        .describe('days without work'),
      air: z
        .strictObject({
          temperature: temperature.prefault('20 °C'),
          humidity: z.number().min(0).max(99).default(50).describe('relative humidity, %'),
        })
        .prefault({})
        .describe('where things dry: shop and room'),
      tools: z
        .strictObject({
          saws: z.int().min(1).max(20).default(1).describe('saws that can run at one time'),
          benches: z.int().min(1).max(20).default(1).describe('places to put a case together'),
          clamps: z.int().min(1).max(20).default(1).describe('sets of clamps, each enough for one case'),
        })
        .prefault({})
        .describe('tools there are few of'),
      floor: z
        .strictObject({ length: v.positive, width: v.positive })
        .optional()
        .describe('where parts can lie to dry; left out: enough for all'),
      range: z
        .strictObject({
          least: z.number().min(0.1).max(1).default(0.75),
          most: z.number().min(1).max(10).default(1.75),
        })
        .prefault({})
        .describe('least and most of the time a task may take, over the likely'),
      done: z
        .array(z.union([z.string().max(200), z.strictObject({ task: z.string().max(200), on: v.date })]))
        .max(2000)
        .optional()
        .describe('tasks that are ticked off, by their ids; with a day, drying counts from its end'),
    })
    .meta({
      id: 'Dates',
      description: 'when the maker works, who helps when, what the air is like, and by when it has to be done',
    });
}
