import type { DatedTaskOf, JobCalendar } from './calendar.ts';
import { clockOf, dayName, dayTold, MINUTES_A_DAY, shortTold, spanWords } from './day.ts';
import type { Link } from './order.ts';

/** Day number of a moment; the end of a day belongs to that day. */
export const dayOf = ({ first }: Pick<JobCalendar, 'first'>, moment: number, end = false): number =>
  first + Math.floor((end ? moment - 1 : moment) / MINUTES_A_DAY);

/** `Sat 5 Dec, 18:30`, with its year where that is not told without. */
export const shortMoment = (calendar: Pick<JobCalendar, 'first' | 'year'>, moment: number): string =>
  `${shortTold(calendar, dayOf(calendar, moment))}, ${clockOf(moment)}`;

/** One day of the critical chain: the task that decides it, and what that one waited for. */
export interface Deciding {
  readonly day: number;
  readonly task: DatedTaskOf;
  /** `The second coat on the fronts decides Sunday.` */
  readonly words: string;
  /** `The first coat has to dry for 8 h.` */
  readonly why: string;
}

/** The critical chain told day by day: the last of its tasks on each day decides that day; on the first, what begins it is told, too. */
export function decidingDays(calendar: JobCalendar): readonly Deciding[] {
  const byDay = new Map<number, Link>();
  for (const link of calendar.chain) byDay.set(dayOf(calendar, calendar.tasks[link.task]!.end, true), link);
  const [first] = calendar.chain;
  return [...byDay].map(([day, link], i) => {
    const task = calendar.tasks[link.task]!;
    const begins = i === 0 && first && first !== link && first.for ? calendar.tasks[first.task] : undefined;
    return {
      day,
      task,
      words: `The ${task.task.noun} decides ${dayName(day)}.`,
      why: `${whyThen(calendar, link)}${begins ? ` First the ${begins.task.noun}: ${lower(whyThen(calendar, first!))}` : ''}`,
    };
  });
}
const lower = (words: string): string => words.replace(/^./, (c) => c.toLowerCase());

/** Why a task of the chain starts when it does: what it waited for, of which piece, until when. */
export function whyThen(calendar: JobCalendar, link: Link): string {
  const dated = calendar.tasks[link.task]!;
  const { task } = dated;
  const before = link.for && calendar.tasks[link.for.from]!;
  const said = link.for && task.after.find((a) => a.task === link.for!.from);
  /** A moment as told on the day the task begins: the day too where it is another. */
  const when = (moment: number): string => {
    const day = dayOf(calendar, moment, true);
    if (day === dayOf(calendar, dated.start)) return clockOf(moment);
    // a weekday alone would be taken for the one just past
    return `${dayOf(calendar, dated.start) - day < 7 ? dayName(day) : shortTold(calendar, day)} at ${clockOf(moment)}`;
  };
  const reason = ((): string => {
    if (!link.for || !before) return 'Nothing holds it up.';
    const [first, until] = [`the ${before.task.noun}`, when(before.end)];
    switch (link.for.because) {
      case 'wait':
        return `It waits ${spanWords(link.for.wait)} after ${first}, done ${until}: ${said?.why ?? 'it dries'}.`;
      case 'air':
        return `Dust and wet paint keep apart, and ${first} lasts until ${until}.`;
      case 'tools':
        return `It needs what ${first} holds until ${until}.`;
      case 'hands':
        return `Until ${until} your hands are at ${first}.`;
      default:
        return `It cannot begin before ${first}, done ${until}.`;
    }
  })();
  if (!link.hours) return reason;
  const from = clockOf(dated.start);
  const next =
    task.hours === 'helped'
      ? `It wants two, and the helper is there from ${from}.`
      : task.hours === 'own'
        ? `The next hours of the plan begin at ${from}.`
        : `The shop opens at ${from}.`;
  return `${reason} ${next}`;
}

/** `about 8 in 10`: no finer than a few hundred guesses can tell. */
export function chanceWords({ apart, together }: { readonly apart: number; readonly together: number }): string {
  const tenths = [apart, together].map((share) => Math.round(share * 10)).sort((a, b) => a - b) as [number, number];
  const word = (n: number): string => (n <= 0 ? 'next to none' : n >= 10 ? 'nearly certain' : `about ${n} in 10`);
  return tenths[0] === tenths[1]
    ? word(tenths[0])
    : tenths[0] <= 0 || tenths[1] >= 10
      ? `between ${word(tenths[0])} and ${word(tenths[1])}`
      : `between ${tenths[0]} and ${tenths[1]} in 10`;
}

/** Days of work of which any one, lost by itself, moves the end to the same day. */
export interface LostCost {
  readonly days: readonly number[];
  /** Day number of the end without one of them; nothing where it cannot be made up. */
  readonly end: number | undefined;
  /** Days the end moves; 0 where it stays. */
  readonly later: number;
  /** The end would come after the deadline, with the day it did not. */
  readonly late: boolean;
}

/** What lost days cost, the cheapest first: every day of work stands in one of the groups. */
export function lostCosts(calendar: JobCalendar): readonly LostCost[] {
  const { deadline } = calendar;
  const own = dayOf(calendar, calendar.finish, true);
  const groups = new Map<number | undefined, number[]>();
  for (const { day, finish } of calendar.lostDays) {
    const end = finish === undefined ? undefined : dayOf(calendar, finish, true);
    groups.set(end, [...(groups.get(end) ?? []), day]);
  }
  return [...groups]
    .map(([end, days]) => ({
      days: [...days].sort((a, b) => a - b),
      end,
      later: end === undefined ? Number.POSITIVE_INFINITY : end - own,
      late: deadline !== undefined && own <= deadline && (end === undefined || end > deadline),
    }))
    .sort((a, b) => (a.later === b.later ? 0 : a.later - b.later));
}

/** `nothing`, `1 day`, `7 days, past the deadline`. */
export const costWords = ({ later, late }: LostCost): string =>
  later === 0
    ? 'nothing'
    : Number.isFinite(later)
      ? `${later} ${later === 1 ? 'day' : 'days'}${late ? ', past the deadline' : ''}`
      : 'more than the plan has';

/** Days in a few words, those that follow each other among the days of work as a run: `Sat 28 Nov to Tue 1 Dec, Sat 5 Dec`. */
export function dayRuns(calendar: JobCalendar, days: readonly number[]): string {
  const all = calendar.lostDays.map(({ day }) => day).sort((a, b) => a - b);
  const told = (day: number): string => shortTold(calendar, day);
  const runs: (readonly [first: number, last: number])[] = [];
  for (const day of days) {
    const last = runs.at(-1);
    if (last && all.indexOf(day) === all.indexOf(last[1]) + 1) runs[runs.length - 1] = [last[0], day];
    else runs.push([day, day]);
  }
  return runs
    .map(([first, last]) =>
      first === last
        ? told(first)
        : `${told(first)}${all.indexOf(last) === all.indexOf(first) + 1 ? ',' : ' to'} ${told(last)}`,
    )
    .join(', ');
}

/** What the groups come to: how many of the days of work decide the end, and how many leave it where it is. */
export function lostWords(calendar: JobCalendar): string {
  const groups = lostCosts(calendar);
  const all = calendar.lostDays.length;
  const free = groups.find((g) => g.later === 0)?.days.length ?? 0;
  const end = dayTold(calendar, dayOf(calendar, calendar.finish, true));
  const days = (n: number): string => `${n} ${n === 1 ? 'day' : 'days'} of work`;
  const head =
    free === all
      ? `Any one of the ${days(all)} may be lost and the job still ends on ${end}.`
      : free === 0
        ? `No day of work may be lost: each of the ${all} moves the end.`
        : `${all - free} of the ${days(all)} ${all - free === 1 ? 'moves' : 'move'} the end when lost; without ${free === 1 ? 'the other' : `any one of the other ${free}`} it stays on ${end}.`;
  return all === 0 ? '' : `${head} Each is counted as lost by itself: a second one costs again.`;
}

/** What must be bought, and by when at the latest. */
export function buyBy(
  calendar: JobCalendar,
): readonly { readonly dated: DatedTaskOf; readonly by: number; readonly order: boolean }[] {
  return calendar.tasks
    .filter((d) => d.task.phase === 'buying' && !d.done)
    .map((dated) => ({
      dated,
      by: dayOf(calendar, dated.start + dated.slack),
      order: dated.task.id.startsWith('order '),
    }))
    .sort((a, b) => a.by - b.by || a.dated.start - b.dated.start);
}

/** One line of a day's list. */
export interface DayItem {
  readonly dated: DatedTaskOf;
  readonly from: number;
  readonly to: number;
  /** It goes on from another day, or onto one. */
  readonly begun: boolean;
  readonly open: boolean;
}
/** What is to be done on a day, in its order. */
export function dayList(calendar: JobCalendar, day: number): readonly DayItem[] {
  return calendar.tasks
    .flatMap((dated) => {
      const spans = dated.spans.filter((s) => dayOf(calendar, s.start) === day);
      if (spans.length === 0) return [];
      return [
        {
          dated,
          from: spans[0]!.start,
          to: spans.at(-1)!.end,
          begun: dated.start < spans[0]!.start,
          open: dated.end > spans.at(-1)!.end,
        },
      ];
    })
    .sort((a, b) => a.from - b.from);
}

/** The list of a day, or of the next day after it that has one; nothing when all is done. */
export function nextList(
  calendar: JobCalendar,
  day: number,
): { readonly day: number; readonly items: readonly DayItem[] } | undefined {
  const days = calendar.tasks.flatMap((d) => d.spans.map((s) => dayOf(calendar, s.start))).filter((d) => d >= day);
  if (days.length === 0) return undefined;
  const next = days.reduce((a, b) => Math.min(a, b));
  return { day: next, items: dayList(calendar, next) };
}
