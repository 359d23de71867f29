import { nearest } from '../issue/index.ts';
import type { Dates, Plan } from '../plan/index.ts';
import { dayNumber } from '../stock/index.ts';
import { type Arranged, type ArrangeEffort, arrange, finishOf } from './arrange.ts';
import { boundOf, leastFinish } from './bound.ts';
import { type Chances, chancesOf } from './chance.ts';
import type { DatedJob, DatedTask, Timetable } from './dated.ts';
import { dayTold, MINUTES_A_DAY, weekdayOf, yearOf } from './day.ts';
import { bothOpen, type Hours, hoursOf, openMinutes, type Span, weekHours, workedSpans } from './hours.ts';
import { criticalChain, keepOrder, type Link, latestStarts, type Order, orderOf, skeletonOf } from './order.ts';
import { putInOrder } from './put.ts';
import { type JobTask, type TasksInput, type Tool, tasksOf, type WhoseHours } from './tasks/index.ts';
import { expected } from './three-point.ts';
import { weekWords } from './week-words.ts';

export interface CalendarInput extends TasksInput {
  /** The day it is worked out, 2026-10-02: where the plan names no start. */
  readonly today: string;
  /** Days that were lost, beside those the plan has off. */
  readonly lost?: readonly string[];
  /** What is not done yet begins on this day at the earliest. */
  readonly from?: string;
  /** Ids of tasks ticked off elsewhere, beside those of the plan. */
  readonly done?: readonly string[];
  /** Timetables built in the search; left out: enough for a good one. */
  readonly steps?: number;
  /** Only the dates: not what lost days cost, nor how sure the end is. */
  readonly brief?: true;
}

/** A task with its dates. */
export interface DatedTaskOf {
  readonly task: JobTask;
  readonly start: number;
  readonly end: number;
  readonly spans: readonly Span[];
  /** Minutes it may start later without moving the end. */
  readonly slack: number;
  readonly done: boolean;
  readonly critical: boolean;
}

export interface JobCalendar {
  /** Day number of the first midnight; all times are minutes from it. */
  readonly first: number;
  /** The year that days are told without: that of its first day, where it is this year; none where it is not. */
  readonly year?: number;
  readonly deadline?: number;
  /** No helper's days are in the plan: week-end days are taken for them. */
  readonly helperAssumed: boolean;
  readonly tasks: readonly DatedTaskOf[];
  /** Nothing can be dated: hours that never come. */
  readonly impossible?: string;
  readonly status: 'optimal' | 'feasible';
  readonly finish: number;
  readonly bound: number;
  readonly steps: number;
  /** What decides the end, first to last: places in `tasks`. */
  readonly chain: readonly Link[];
  /** For every day that has work: where the end goes when the day is lost; nothing where no hours are left. */
  readonly lostDays: readonly { readonly day: number; readonly finish: number | undefined }[];
  /** Nothing without a deadline but the range of the end. */
  readonly chances: Chances;
  /** Ids in `dates.done` that no task has, each with the nearest that one has. */
  readonly unknownDone: readonly { readonly id: string; readonly nearest?: string }[];
  /** What is left to do, as it was arranged. */
  readonly job: DatedJob;
  readonly times: Timetable;
}

/** Days looked ahead: what is not done in two years is not going to be. */
const HORIZON = 731;
const TOOLS: readonly Tool[] = ['saws', 'benches', 'clamps', 'floor'];
/** Minutes a task is told in: nobody plans finer. */
const GRAIN = 5;

/** Calendars once made are kept for as long as the bill they were made with: notes and pages speak of the same one. */
const kept = new WeakMap<
  CalendarInput['bill'],
  { readonly today: string; readonly plan: Plan; readonly calendar: JobCalendar }
>();
export function calendarFor(input: TasksInput & { readonly today: string }): JobCalendar {
  const known = kept.get(input.bill);
  if (known && known.today === input.today && known.plan === input.plan) return known.calendar;
  const calendar = calendarOf(input);
  kept.set(input.bill, { today: input.today, plan: input.plan, calendar });
  return calendar;
}

/** The job's tasks, dated: the shortest calendar found over the maker's real hours, with a bound; what decides it; what may move. */
export function calendarOf(input: CalendarInput): JobCalendar {
  const { plan } = input;
  const { dates } = plan;
  const first = dayNumber(dates.start ?? input.today);
  const book = hoursBook(plan, dates, first);
  // dates are reckoned with the mean of the three points, not the likely: more goes wrong than goes well
  const mean = expected({ least: dates.range.least, likely: 1, most: dates.range.most });
  const ticked = [...(dates.done ?? []), ...(input.done ?? [])];
  const ways = partings(input, book, mean).map((tasks) => ({
    tasks,
    all: jobOf(plan, dates, tasks, book, mean),
    done: doneOf(ticked, tasks, first),
  }));
  const effort = input.steps === undefined ? {} : { steps: input.steps };
  const { way, base, never } = shortest(ways, book, effort);
  const { tasks, all, done } = way;
  const frame = {
    first,
    ...(yearOf(first) === yearOf(dayNumber(input.today)) && { year: yearOf(first) }),
    ...(dates.deadline !== undefined && { deadline: dayNumber(dates.deadline) }),
    helperAssumed: book.helperAssumed && tasks.some((t) => t.hours === 'helped'),
    unknownDone: done.unknown,
  };
  if (!base) return undated(frame, tasks, all, never ? neverWords(never, plan) : shortWords(all, tasks, frame));

  const from = input.from === undefined ? 0 : Math.max(0, (dayNumber(input.from) - first) * MINUTES_A_DAY);
  const lost = new Set((input.lost ?? []).map((date) => dayNumber(date) - first));
  const { job, places } = leftOf(all, done.moments, from, lost);
  const now = changedTimes(all, base.times, job, places, { done: done.moments, from, lost }, effort);
  if (!now)
    return undated(
      frame,
      tasks,
      all,
      `With the days that are lost: ${shortWords(
        job,
        places.map((i) => tasks[i]!),
        frame,
      )}`,
    );

  const { times } = now;
  const bounds = ways.map((other) =>
    other === way ? now.bound : leastFinish(leftOf(other.all, other.done.moments, from, lost).job, times.finish),
  );
  const bound = Math.min(...bounds);
  const order = skeletonOf(job, times);
  const latest = latestStarts(job, order, times.finish);
  const chain = nearChain(job, criticalChain(job, order, times), times, latest).map(
    (link): Link => ({
      ...link,
      task: places[link.task]!,
      ...(link.for && { for: { ...link.for, from: places[link.for.from]!, to: places[link.for.to]! } }),
    }),
  );
  const critical = new Set(chain.map((link) => link.task));
  const at = new Map(places.map((place, k) => [place, k]));
  const dated = tasks.map((task, i): DatedTaskOf => {
    const k = at.get(i);
    if (k === undefined) return { task, start: 0, end: 0, spans: [], slack: 0, done: true, critical: false };
    const [start, end] = [times.starts[k]!, times.ends[k]!];
    return {
      task,
      start,
      end,
      spans: workedSpans(job.hours[job.tasks[k]!.hours]!, { start, end }),
      slack: Math.max(0, latest[k]! - start),
      done: false,
      critical: critical.has(i),
    };
  });
  const days = [...new Set(dated.flatMap((d) => d.spans.map((s) => Math.floor(s.start / MINUTES_A_DAY))))];
  return {
    ...frame,
    tasks: dated,
    status: bound === times.finish ? 'optimal' : 'feasible',
    finish: times.finish,
    bound,
    steps: base.steps,
    chain,
    lostDays: (input.brief ? [] : days)
      .sort((a, b) => a - b)
      .map((day) => ({ day: first + day, finish: finishWithout(job, order, times, new Set([day])) })),
    chances: input.brief ? NO_CHANCES : chancesIn({ ...frame, job, times }, dates),
    job,
    times,
  };
}

/** One way to part the job into tasks. */
interface Way {
  readonly tasks: readonly JobTask[];
  readonly all: DatedJob;
  readonly done: ReturnType<typeof doneOf>;
}

/**
 * What is done in one go is parted by the longest stretch of its hours; or, as one would do without the longest, by the shortest: where
 * long days are added to evenings, a coat need not wait for them.
 */
function partings(input: CalendarInput, book: HoursBook, mean: number): readonly (readonly JobTask[])[] {
  const by = (of: (hours: Hours, trip: boolean) => number): readonly JobTask[] =>
    tasksOf(input, (whose, trip) => of(book.of(whose), trip) / mean - GRAIN);
  const few = by(({ longest }) => longest);
  const many = by(shortestOpening);
  return many.length === few.length ? [few] : [few, many];
}
/** An opening shorter than this, minutes, parts nothing; on a trip it must be worth the way. Common practice. */
const LEAST_STRETCH = { home: 60, trip: 150 };
const shortestOpening = ({ from, to, longest }: Hours, trip: boolean): number =>
  from.reduce(
    (least, a, k) => (to[k]! - a < LEAST_STRETCH[trip ? 'trip' : 'home'] ? least : Math.min(least, to[k]! - a)),
    longest,
  );

/** The way that ends soonest, of two that end alike the one with fewer tasks; never one that does not know what was ticked. */
function shortest(ways: readonly Way[], book: HoursBook, effort: ArrangeEffort) {
  const never = ways[0]!.tasks.find((t) => book.of(t.hours).longest === 0);
  const known = Math.min(...ways.map((way) => way.done.unknown.length));
  let best: { readonly way: Way; readonly base: Exclude<Arranged, { status: 'infeasible' }> } | undefined;
  for (const way of never ? [] : ways.filter(({ done }) => done.unknown.length === known)) {
    const end = best?.base.times.finish;
    if (end !== undefined && boundOf(way.all, end).reaches(end)) continue;
    const base = arrange(way.all, effort);
    if (base.status !== 'infeasible' && !(base.times.finish >= (end ?? Number.POSITIVE_INFINITY))) best = { way, base };
  }
  return { way: ways[0]!, base: undefined, ...best, never };
}

/** How sure the end of a calendar is, where it was made without. */
export const chancesIn = (
  { job, times, deadline, first }: Pick<JobCalendar, 'job' | 'times' | 'deadline' | 'first'>,
  { range }: Dates,
): Chances =>
  chancesOf(
    job,
    skeletonOf(job, times).line,
    range,
    deadline === undefined ? undefined : (deadline + 1 - first) * MINUTES_A_DAY,
  );
const NO_CHANCES: Chances = { runs: 0, early: 0, middle: 0, late: 0 };

type Frame = Pick<JobCalendar, 'first' | 'year' | 'deadline' | 'helperAssumed' | 'unknownDone'>;
function neverWords({ hours, title }: JobTask, { dates, stock }: Plan): string {
  const own = weekWords(dates.hours);
  if (own === '') return 'No day of the week has hours of work. Give `dates.hours` some, such as saturday: 9:00-17:00.';
  const away = dates.off === undefined ? '' : ', but for the days off';
  if (hours === 'own')
    return `All days of work are days off. Hours of work: ${own}. Take some days out of \`dates.off\`.`;
  if (hours === 'helped')
    return `"${title}" wants a helper, and no helper comes in hours of work. Hours of work: ${own}${away}. A helper comes: ${(dates.helper ?? WEEK_ENDS).join(', ') || 'never'}. Name in \`dates.helper\` a day that has hours, or give a helper's day hours.`;
  const shop = stock.suppliers.find(({ id }) => id === hours.supplier);
  return `"${title}" cannot be done: the shop is never open in hours of work. Hours of work: ${own}${away}. The shop is open: ${weekWords(shop?.open ?? {}) || 'never'}. Give \`dates.hours\` some of its hours.`;
}

/** Where all hours together are too few: whose, how many there are, and how many are wanted. */
function shortWords(job: DatedJob, tasks: readonly JobTask[], frame: Frame): string {
  const { hours, tasks: work, people } = job;
  const told = (minutes: number): string => (minutes < 60 ? `${minutes} min` : `${Math.round(minutes / 60)} h`);
  const sums = hours.map(({ before }, h) => {
    // all that is done is done in the maker's hours
    const own = work.filter((task) => h === people.hours || task.hours === h);
    return { wanted: own.reduce((sum, task) => sum + task.work, 0), there: before.at(-1)! };
  });
  const h = sums.findIndex(({ wanted, there }) => wanted > there);
  if (h < 0)
    return (
      lastWords(job, tasks, frame) ??
      'The hours of two years are not enough for all that has to wait: for paint and glue to dry, for a helper, for a shop to open. Give the plan more hours, or helper and shops more days in them.'
    );
  const { wanted, there } = sums[h]!;
  if (h === people.hours)
    return `The hours of two years are not enough: the job takes ${told(wanted)} of work, and \`dates.hours\` has ${told(there)} of it, days off left out. Give it more hours.`;
  const one = tasks[work.findIndex((task) => task.hours === h)]!;
  return one.hours === 'helped'
    ? `The helper's days of two years are not enough: what wants two takes ${told(wanted)}, and a helper is there for ${told(there)} in hours of work. Name more days in \`dates.helper\`.`
    : `The hours of two years in which the shop is open are not enough: "${one.title}" and its like take ${told(wanted)}, and there are ${told(there)}. Give the plan more of the shop's hours.`;
}

/** Where it is the helper's days that end too soon: what comes after the last of them when only the maker's hours are asked. */
function lastWords(job: DatedJob, tasks: readonly JobTask[], { first, ...told }: Frame): string | undefined {
  const h = job.tasks.find((_, i) => tasks[i]!.hours === 'helped')?.hours;
  if (h === undefined) return undefined;
  const own = job.hours[job.people.hours]!;
  const freed = { ...job, hours: job.hours.map((of, k) => (k === h ? own : of)) };
  const last = job.hours[h]!.to.at(-1)!;
  // as they are told each comes after what it waits for
  const times = putInOrder(
    freed,
    tasks.map((_, i) => i),
  );
  const late = tasks.find(({ hours }, i) => hours === 'helped' && times !== undefined && times.ends[i]! > last);
  return (
    late &&
    `"${late.title}" wants a helper and comes after ${dayTold(told, first + Math.floor((last - 1) / MINUTES_A_DAY))}, the last day on which one is there in hours of work. Name later days in \`dates.helper\`, or give a helper's day hours.`
  );
}

function undated(frame: Frame, tasks: readonly JobTask[], job: DatedJob, impossible: string): JobCalendar {
  return {
    ...frame,
    tasks: tasks.map((task) => ({ task, start: 0, end: 0, spans: [], slack: 0, done: false, critical: false })),
    impossible,
    status: 'feasible',
    finish: 0,
    bound: 0,
    steps: 0,
    chain: [],
    lostDays: [],
    chances: NO_CHANCES,
    job,
    times: { starts: tasks.map(() => 0), ends: tasks.map(() => 0), finish: 0 },
  };
}

interface Happened {
  readonly done: ReadonlyMap<number, number>;
  readonly from: number;
  readonly lost: ReadonlySet<number>;
}

/** What is left to do, with its place in the whole job: what is done lets go of what waited for it when it is dry. */
function leftOf(
  all: DatedJob,
  done: ReadonlyMap<number, number>,
  from: number,
  lost: ReadonlySet<number>,
): { readonly job: DatedJob; readonly places: readonly number[] } {
  const places = all.tasks.map((_, i) => i).filter((i) => !done.has(i));
  const at = new Map(places.map((place, k) => [place, k]));
  const tasks = places.map((i): DatedTask => {
    const task = all.tasks[i]!;
    return {
      ...task,
      from: task.after.reduce(
        (m, a) => Math.max(m, (done.get(a.task) ?? 0) + a.wait * (done.has(a.task) ? 1 : 0)),
        from,
      ),
      after: task.after.flatMap((a) => (done.has(a.task) ? [] : [{ ...a, task: at.get(a.task)! }])),
    };
  });
  return { job: { ...all, hours: lost.size === 0 ? all.hours : hoursWithout(all.hours, lost), tasks }, places };
}

/**
 * Times for what is left. The order decided for the whole job is kept as one way, so that an early tick never ends anything later; a
 * search from it may do better. Where a day is lost the search may not: what it found would have served with the day, too.
 */
function changedTimes(
  all: DatedJob,
  before: Timetable,
  job: DatedJob,
  places: readonly number[],
  { done, from, lost }: Happened,
  effort: ArrangeEffort,
): { readonly times: Timetable; readonly bound: number } | undefined {
  if (done.size === 0 && from === 0 && lost.size === 0)
    return { times: before, bound: leastFinish(job, before.finish) };
  const order = orderOf(all, before);
  const kept = keepOrder(all, order, { done, from, hours: job.hours });
  const at = new Map(places.map((place, k) => [place, k]));
  const fresh = arrange(job, { ...effort, near: order.line.flatMap((i) => at.get(i) ?? []) });
  const least = lost.size > 0 ? before.finish : 0;
  const ways = [
    ...(kept
      ? [{ starts: places.map((i) => kept.starts[i]!), ends: places.map((i) => kept.ends[i]!), finish: kept.finish }]
      : []),
    ...(fresh.status !== 'infeasible' && fresh.times.finish >= least ? [fresh.times] : []),
  ];
  const times = ways.sort((a, b) => a.finish - b.finish)[0];
  return times && { times, bound: leastFinish(job, times.finish) };
}

/** Timetables built to see where the end goes when a day is lost. */
const LOST_STEPS = 12;
/** Where the end goes without some days: in the kept order, or in a better one near it; never sooner than with them. */
function finishWithout(job: DatedJob, order: Order, times: Timetable, lost: ReadonlySet<number>): number | undefined {
  const hours = hoursWithout(job.hours, lost);
  const kept = keepOrder(job, order, { hours })?.finish;
  if (kept === times.finish) return kept;
  const without = { ...job, hours };
  // where nothing can end sooner than the kept order, no other is looked for
  if (kept !== undefined && boundOf(without, kept).reaches(kept)) return Math.max(times.finish, kept);
  const fresh = finishOf(without, { near: order.line, steps: LOST_STEPS, enough: times.finish });
  const ends = [kept ?? [], fresh ?? []].flat();
  return ends.length === 0 ? undefined : Math.max(times.finish, Math.min(...ends));
}

/** Minutes of the maker's work that may be lost before what waits for its hours anyway is held up: less is no slack to speak of. */
const NEAR = 60;
/** The chain back to where something waited for a helper or a shop with time to spare: what came before it decided nothing. */
function nearChain(
  job: DatedJob,
  chain: readonly Link[],
  { starts }: Timetable,
  latest: readonly number[],
): readonly Link[] {
  const own = job.hours[job.people.hours]!;
  const spare = (i: number): number => openMinutes(own, starts[i]!, latest[i]!);
  const cut = chain.findLastIndex((link) => link.for && link.hours && spare(link.for.from) >= NEAR);
  return cut < 0 ? chain : chain.slice(cut);
}

interface HoursBook {
  readonly list: readonly Hours[];
  readonly at: (whose: WhoseHours) => number;
  readonly of: (whose: WhoseHours) => Hours;
  readonly helperAssumed: boolean;
}

/** Taken for a helper's days where the plan names none. */
const WEEK_ENDS = ['saturday', 'sunday'] as const;

/** The maker's own hours, those with a helper, and those in which each shop is open too. */
function hoursBook(plan: Plan, dates: Dates, first: number): HoursBook {
  const off = (dates.off ?? []).map((o) =>
    typeof o === 'string' ? [dayNumber(o), dayNumber(o)] : [dayNumber(o.from), dayNumber(o.to)],
  );
  const isOff = (day: number): boolean => off.some(([a, b]) => day >= a! && day <= b!);
  const own = weekHours(dates.hours, first, HORIZON, (day) => !isOff(day));
  const helper = dates.helper ?? WEEK_ENDS;
  const named = new Set<string>(helper);
  const dated = new Set(helper.filter((h) => /^\d/.test(h)).map((h) => dayNumber(h)));
  const helped =
    plan.shop.hands > 1
      ? own
      : weekHours(dates.hours, first, HORIZON, (day) => !isOff(day) && (named.has(weekdayOf(day)) || dated.has(day)));
  const list = [own, helped];
  const places = new Map<string, number>();
  for (const { id, open } of plan.stock.suppliers)
    if (open) {
      places.set(id, list.length);
      list.push(
        bothOpen(
          own,
          weekHours(open, first, HORIZON, () => true),
        ),
      );
    }
  const at = (whose: WhoseHours): number =>
    whose === 'own' ? 0 : whose === 'helped' ? 1 : (places.get(whose.supplier) ?? 0);
  return {
    list,
    at,
    of: (whose) => list[at(whose)]!,
    helperAssumed: dates.helper === undefined && plan.shop.hands < 2,
  };
}

function jobOf(plan: Plan, dates: Dates, tasks: readonly JobTask[], hours: HoursBook, mean: number): DatedJob {
  const people = plan.shop.hands;
  const { saws, benches, clamps } = dates.tools;
  const floor = dates.floor ? dates.floor.length * dates.floor.width : 0;
  return {
    hours: hours.list,
    resources: [people, saws, benches, clamps, floor],
    people: { resource: 0, hours: 0 },
    tasks: tasks.map(
      (task): DatedTask => ({
        id: task.id,
        work: Math.max(GRAIN, Math.ceil((task.minutes * mean) / GRAIN - 1e-9) * GRAIN),
        hours: hours.at(task.hours),
        whole: task.whole,
        holds: [
          { resource: 0, amount: task.helper === undefined ? 1 : Math.min(2, people), beyond: 0 },
          ...task.holds
            .filter(({ tool }) => tool !== 'floor' || dates.floor)
            .map(({ tool, amount, beyond }) => ({ resource: 1 + TOOLS.indexOf(tool), amount, beyond })),
        ],
        ...(task.air && { air: { place: task.place, ...task.air } }),
        after: task.after.map(({ task: k, wait }) => ({ task: k, wait })),
      }),
    ),
  };
}

/** Ticked tasks by place, with the moment they are taken to have ended: long ago, or the end of the day that was written down. */
function doneOf(ticked: NonNullable<Dates['done']>, tasks: readonly JobTask[], first: number) {
  const places = new Map(tasks.map((task, i) => [task.id, i]));
  const moments = new Map<number, number>();
  const unknown: { id: string; nearest?: string }[] = [];
  for (const said of ticked) {
    const [id, on] = typeof said === 'string' ? [said, undefined] : [said.task, said.on];
    const place = places.get(id);
    if (place === undefined) {
      const near = nearest(id, places.keys());
      unknown.push({ id, ...(near !== undefined && { nearest: near }) });
    } else moments.set(place, on === undefined ? LONG_AGO : (dayNumber(on) + 1 - first) * MINUTES_A_DAY);
  }
  return { moments, unknown };
}
/** Whatever had to dry after it is dry. */
const LONG_AGO = -1e9;

const hoursWithout = (all: readonly Hours[], lost: ReadonlySet<number>): readonly Hours[] =>
  all.map((hours) => withoutDays(hours, lost));
function withoutDays({ from, to }: Hours, lost: ReadonlySet<number>): Hours {
  const spans: (readonly [number, number])[] = [];
  from.forEach((a, k) => {
    for (let at = a; at < to[k]!; ) {
      const day = Math.floor(at / MINUTES_A_DAY);
      const until = Math.min(to[k]!, (day + 1) * MINUTES_A_DAY);
      if (!lost.has(day)) spans.push([at, until]);
      at = until;
    }
  });
  return hoursOf(spans);
}
/** Minutes of work between two moments in which the maker is there at all: slack in working time. */
export const workingMinutes = (calendar: JobCalendar, from: number, to: number): number =>
  openMinutes(calendar.job.hours[0]!, from, to);
