import type { Note } from '../notes/index.ts';
import type { Plan, Weekday } from '../plan/index.ts';
import { dayNumber } from '../stock/index.ts';
import { type CalendarInput, calendarOf, chancesIn, type JobCalendar } from './calendar.ts';
import { clockOf, dateOf, dayTold, weekdayOf } from './day.ts';
import { LEAST_WARMTH, MOST_DAMP } from './drying.ts';
import { clock } from './week-words.ts';
import { chanceWords, dayOf } from './words.ts';
import { reckonChance } from './workings.ts';

/** Timetables built to try a cure: a rough answer will do. */
const ROUGH = 150;
/** A chance below this is worth a caution. Common practice: four in five. */
const SURE = 0.8;

/** What the dates of a plan are worth saying of. Nothing for a plan that names no start: it has not come to dates yet. */
export function calendarNotes(input: CalendarInput, calendar: JobCalendar): readonly Note[] {
  const { plan } = input;
  if (plan.dates.start === undefined) return [];
  const notes: Note[] = [];
  const { temperature, humidity } = plan.dates.air;
  if (temperature < LEAST_WARMTH)
    notes.push({
      id: 'too-cold',
      about: 'dates',
      verdict: 'stop',
      title: 'Too cold for paint and glue',
      advice: `Below ${LEAST_WARMTH} °C (${(LEAST_WARMTH * 9) / 5 + 32} °F) neither latex paint nor PVA glue makes a film. Warm shop and room through the drying, without open flames near solvents, or wait.`,
    });
  if (humidity > MOST_DAMP)
    notes.push({
      id: 'too-damp',
      about: 'dates',
      verdict: 'caution',
      title: 'Air too damp to tell when things are dry',
      advice: `Above ${MOST_DAMP} % relative humidity drying times cannot be told. Air, heat or dry the room first; touch before every coat.`,
    });
  notes.push(...idleHelperNotes(plan, calendar));
  if (calendar.impossible !== undefined) {
    const title = 'The job cannot be dated';
    return [...notes, { id: 'dates-impossible', about: 'dates', verdict: 'stop', title, advice: calendar.impossible }];
  }
  if (calendar.helperAssumed) notes.push(helperNote(calendar));
  for (const { id, nearest } of calendar.unknownDone)
    notes.push({
      id: `unknown-done:${id}`,
      about: 'dates',
      verdict: 'caution',
      title: `No task is called "${id}"`,
      advice: `It is among those ticked off in dates.done.${nearest === undefined ? ' What was changed in the plan may have taken it away.' : ` "${nearest}" is the nearest that there is.`}`,
    });
  notes.push(endNote(input, calendar));
  return notes;
}

/** Days on which a helper comes and nobody works. */
function idleHelperNotes({ dates, shop }: Plan, { impossible }: JobCalendar): readonly Note[] {
  if (shop.hands > 1) return [];
  const works = (weekday: Weekday): boolean => (dates.hours[weekday] ?? []).length > 0;
  const isOff = (day: number): boolean =>
    (dates.off ?? []).some((o) =>
      typeof o === 'string' ? dayNumber(o) === day : day >= dayNumber(o.from) && day <= dayNumber(o.to),
    );
  const idle = (dates.helper ?? []).filter((said) => {
    if (!/^\d/.test(said)) return !works(said as Weekday);
    const day = dayNumber(said);
    return !works(weekdayOf(day)) || isOff(day) || (dates.start !== undefined && day < dayNumber(dates.start));
  });
  // that none ever comes in hours of work is told by why there are no dates
  if (idle.length === 0 || (impossible !== undefined && idle.length === dates.helper!.length)) return [];
  return [
    {
      id: 'helper-idle',
      about: 'dates',
      verdict: 'caution',
      title: `A helper comes when nobody works: ${listed(idle)}`,
      advice:
        'The plan has no hours then, or the day is off, or before the start: nothing for two is put there. Give it hours in `dates.hours`, or ask the helper for another day.',
    },
  ];
}

function helperNote(calendar: JobCalendar): Note {
  const helped = calendar.tasks.filter((d) => d.task.hours === 'helped' && !d.done);
  const days = [...new Set(helped.map((d) => dayOf(calendar, d.start)))].sort((a, b) => a - b);
  const told = (day: number): string => dayTold(calendar, day);
  return {
    id: 'helper-days',
    about: 'dates',
    verdict: 'caution',
    title: 'A second person is wanted',
    advice: `The plan names no helper's days, so week-ends are taken for them. Steps for two are gathered on ${listed(days.map(told))}: ${listed([...new Set(helped.map((d) => d.task.title))])}.`,
    cure: {
      title: `Ask a helper for ${listed(days.map(told))}`,
      edits: [{ op: 'set', path: ['dates', 'helper'], value: days.map(dateOf) }],
    },
  };
}

function endNote(input: CalendarInput, calendar: JobCalendar): Note {
  const end = dayOf(calendar, calendar.finish, true);
  const ends = `ends on ${dayTold(calendar, end)} at ${clockOf(calendar.finish)}`;
  const range = rangeWords(calendar);
  const proven =
    calendar.status === 'optimal'
      ? 'No order of the tasks ends sooner.'
      : `No order can end before ${dayTold(calendar, dayOf(calendar, calendar.bound, true))}.`;
  const working = reckonChance(input.plan, calendar);
  const { deadline } = calendar;
  if (deadline === undefined)
    return {
      id: 'end-of-job',
      about: 'dates',
      verdict: 'fine',
      title: `The job ${ends}`,
      advice: `${range} ${proven}`,
      ...(working && { working }),
    };
  const chance = calendar.chances.inTime!;
  const sure = Math.min(chance.apart, chance.together);
  if (end > deadline)
    return {
      id: 'deadline',
      about: 'dates',
      verdict: 'stop',
      title: `The deadline is missed: the job ${ends}`,
      advice: `The plan's deadline is ${dayTold(calendar, deadline)}. ${range} ${proven}`,
      ...(working && { working }),
      cure: cureFor(input, calendar),
    };
  return {
    id: 'deadline',
    about: 'dates',
    verdict: sure < SURE ? 'caution' : 'fine',
    title:
      sure < SURE
        ? `The deadline may slip: ${chanceWords(chance)} to make it`
        : `The deadline holds: ${chanceWords(chance)}`,
    advice: `The job ${ends}; the deadline is ${dayTold(calendar, deadline)}. ${range} ${proven}`,
    ...(working && { working }),
    ...(sure < SURE && { cure: cureFor(input, calendar) }),
  };
}

/** `One time in ten it ends by Friday 4 Dec, nine times in ten by Sunday 20 Dec.` */
export function rangeWords(calendar: JobCalendar): string {
  const { early, late } = calendar.chances;
  const [first, last] = [early, late].map((m) => dayOf(calendar, m, true));
  // a helper whose days are dates has a last one
  if (!Number.isFinite(early)) return 'Nine times in ten the days that are in the plan do not suffice.';
  if (!Number.isFinite(late))
    return `One time in ten it ends by ${dayTold(calendar, first!)}; more than one time in ten the days that are in the plan do not suffice.`;
  return first === last
    ? `Nine times in ten it ends on or before ${dayTold(calendar, last!)}.`
    : `One time in ten it ends by ${dayTold(calendar, first!)}, nine times in ten by ${dayTold(calendar, last!)}.`;
}

/** The first of a few changes with which the deadline holds; else a later deadline that nine runs in ten make. */
function cureFor(input: CalendarInput, calendar: JobCalendar): NonNullable<Note['cure']> {
  const { plan } = input;
  const { hours } = plan.dates;
  const wanted = calendar.deadline!;
  const tried = [
    ...(['saturday', 'sunday'] as const)
      .filter((day) => !hours[day])
      .map((day) => ({
        title: `Work on ${day[0]!.toUpperCase()}${day.slice(1)}s, 9:00 to 17:00`,
        dates: {
          ...plan.dates,
          hours: {
            ...hours,
            [day]: [
              { from: 540, to: 750 },
              { from: 810, to: 1020 },
            ],
          },
        },
        edits: [{ op: 'set', path: ['dates', 'hours', day], value: ['9:00-12:30', '13:30-17:00'] }],
      })),
    ...(plan.dates.helper !== undefined && plan.shop.hands < 2
      ? [
          {
            title: 'Ask the helper for every Saturday and Sunday',
            dates: { ...plan.dates, helper: ['saturday' as const, 'sunday' as const, ...plan.dates.helper] },
            edits: [{ op: 'set', path: ['dates', 'helper'], value: ['saturday', 'sunday', ...plan.dates.helper] }],
          },
        ]
      : []),
    ...[60, 120].map((more) => {
      const longer = Object.fromEntries(
        Object.entries(hours).flatMap(([day, parts]) =>
          parts && parts.length > 0
            ? [
                [
                  day,
                  parts.map((p, i) =>
                    i === parts.length - 1 ? { ...p, to: Math.min(22 * 60, Math.max(p.to, p.to + more)) } : p,
                  ),
                ],
              ]
            : [],
        ),
      ) as typeof hours;
      return {
        title: `Work ${more / 60} h longer every day`,
        dates: { ...plan.dates, hours: longer },
        edits: [{ op: 'set', path: ['dates', 'hours'], value: written(longer) }],
      };
    }),
  ];
  for (const { title, dates, edits } of tried) {
    const other = calendarOf({ ...input, plan: { ...plan, dates } as Plan, steps: ROUGH, brief: true });
    if (other.impossible !== undefined || dayOf(other, other.finish, true) > wanted) continue;
    const chance = chancesIn(other, dates).inTime;
    if (
      chance &&
      Math.min(chance.apart, chance.together) >
        Math.min(calendar.chances.inTime!.apart, calendar.chances.inTime!.together)
    )
      return { title, edits };
  }
  if (!Number.isFinite(calendar.chances.late))
    return {
      title: 'Ask the helper for Saturdays, too',
      edits: [{ op: 'set', path: ['dates', 'helper'], value: ['saturday', ...(plan.dates.helper ?? [])] }],
    };
  const late = dateOf(dayOf(calendar, calendar.chances.late, true));
  return { title: `Move the deadline to ${late}`, edits: [{ op: 'set', path: ['dates', 'deadline'], value: late }] };
}

const written = (hours: Plan['dates']['hours']): Record<string, string[]> =>
  Object.fromEntries(
    Object.entries(hours).map(([day, parts]) => [day, parts!.map(({ from, to }) => `${clock(from)}-${clock(to)}`)]),
  );

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
