import ical from 'ical-generator';
import {
  buyBy,
  dayOf,
  dayTold,
  type JobCalendar,
  MINUTES_A_DAY,
  spanWords,
  workingMinutes,
} from '../core/calendar/index.ts';

/** Minutes of work; less to spare than this is none, as the page of the week has it. Common practice. */
const WORTH_TELLING = 30;

export interface IcalendarOptions {
  readonly title: string;
  /** The day it was worked out: 2026-10-02. The same calendar gives the same bytes. */
  readonly today: string;
}

/**
 * The dated job as an iCalendar file (RFC 5545): one event for every stretch of work, an all-day event for what must be bought by then, each
 * with its list, and one for the deadline. Times are floating: nine o'clock is nine o'clock wherever the maker's clock hangs. The library reads the UTC
 * fields of a date, so all dates are made in UTC.
 */
export function toIcalendar(calendar: JobCalendar, { title, today }: IcalendarOptions): string {
  const stamp = new Date(`${today}T00:00:00Z`);
  const moment = (minutes: number): Date => new Date((calendar.first * MINUTES_A_DAY + minutes) * 60_000);
  const dayAt = (day: number): Date => new Date(day * MINUTES_A_DAY * 60_000);
  const file = ical({ name: title, prodId: { company: 'setwright', product: 'calendar', language: 'EN' } });
  for (const { task, spans, slack, start, critical } of calendar.tasks)
    spans.forEach((span, i) => {
      const spare = workingMinutes(calendar, start, start + slack);
      const told = [
        ...(task.helper === undefined ? [] : [`Two people: ${task.helper}.`]),
        ...(critical
          ? ['It decides the end of the job.']
          : spare >= WORTH_TELLING
            ? [`May start up to ${spanWords(spare)} of work later.`]
            : []),
        ...(task.list ?? []),
      ];
      file.createEvent({
        id: `${idOf(task.id)}-${i + 1}@setwright`,
        start: moment(span.start),
        end: moment(span.end),
        floating: true,
        stamp,
        summary: spans.length === 1 ? task.title : `${task.title} (${i + 1} of ${spans.length})`,
        ...(told.length > 0 && { description: told.join('\n') }),
      });
    });
  for (const { dated, by } of buyBy(calendar))
    file.createEvent({
      id: `by-${idOf(dated.task.id)}@setwright`,
      start: dayAt(by),
      allDay: true,
      stamp,
      // its title says what is done where: `Buy at …`, `Order from …`
      summary: `Last day to ${dated.task.title.replace(/^./, (c) => c.toLowerCase())}`,
      ...(dated.task.list && { description: dated.task.list.join('\n') }),
    });
  if (calendar.deadline !== undefined)
    file.createEvent({
      id: 'deadline@setwright',
      start: dayAt(calendar.deadline),
      allDay: true,
      stamp,
      summary: 'Deadline',
      description: `By the plan's order the job ends on ${dayTold(calendar, dayOf(calendar, calendar.finish, true))}.`,
    });
  return file.toString();
}

/** Letters, digits and hyphens: what every reader takes in a UID. */
const idOf = (id: string): string =>
  [...id].map((c) => (/[a-z0-9]/i.test(c) ? c : c === ' ' ? '-' : `_${c.codePointAt(0)!.toString(16)}`)).join('');
