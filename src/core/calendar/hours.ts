import type { Week } from '../plan/index.ts';
import { MINUTES_A_DAY, weekdayOf } from './day.ts';

/** Times that are open, in order and apart, in minutes from the job's first midnight. */
export interface Hours {
  readonly from: readonly number[];
  readonly to: readonly number[];
  /** Open minutes before each of them, and of all of them at the end. */
  readonly before: readonly number[];
  /** For each day, the first of them that ends after its midnight: where every search begins. */
  readonly ofDay: readonly number[];
  readonly longest: number;
}

export function hoursOf(spans: Iterable<readonly [from: number, to: number]>): Hours {
  const from: number[] = [];
  const to: number[] = [];
  const before = [0];
  let longest = 0;
  for (const [a, b] of spans) {
    if (b <= a) continue;
    // two that touch are one, so that work in one go may run across
    if (to.at(-1) === a) to[to.length - 1] = b;
    else {
      from.push(a);
      to.push(b);
    }
    before[from.length] = (before[from.length - 1] ?? 0) + (to.at(-1)! - from.at(-1)!);
    longest = Math.max(longest, to.at(-1)! - from.at(-1)!);
  }
  const ofDay: number[] = [];
  to.forEach((end, k) => {
    while (ofDay.length * MINUTES_A_DAY < end) ofDay.push(k);
  });
  return { from, to, before, ofDay, longest };
}

/** The hours of a week, day after day from day number `first` on, on the days that are wanted. */
export function weekHours(week: Week, first: number, days: number, wanted: (day: number) => boolean): Hours {
  const spans: (readonly [number, number])[] = [];
  for (let i = 0; i < days; i++) {
    if (!wanted(first + i)) continue;
    for (const part of week[weekdayOf(first + i)] ?? [])
      spans.push([i * MINUTES_A_DAY + part.from, i * MINUTES_A_DAY + part.to]);
  }
  return hoursOf(spans);
}

/** When both are open. */
export function bothOpen(a: Hours, b: Hours): Hours {
  const spans: (readonly [number, number])[] = [];
  for (let i = 0, j = 0; i < a.from.length && j < b.from.length; ) {
    spans.push([Math.max(a.from[i]!, b.from[j]!), Math.min(a.to[i]!, b.to[j]!)]);
    if (a.to[i]! < b.to[j]!) i++;
    else j++;
  }
  return hoursOf(spans);
}

/** The first opening that ends after `moment`; their count when there is none. */
function openingAfter({ to, ofDay }: Hours, moment: number): number {
  const day = moment > 0 ? Math.floor(moment / MINUTES_A_DAY) : 0;
  let k = day < ofDay.length ? ofDay[day]! : to.length;
  while (k < to.length && to[k]! <= moment) k++;
  return k;
}

export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Work begun at `moment` or as soon after as it can be; `whole`: without a break. Undefined when the hours run out. */
export function earliestSpan(hours: Hours, moment: number, work: number, whole: boolean): Span | undefined {
  let k = openingAfter(hours, moment);
  const { from, to, before } = hours;
  if (whole) {
    for (; k < from.length; k++) {
      const start = Math.max(moment, from[k]!);
      if (to[k]! - start >= work) return { start, end: start + work };
    }
    return undefined;
  }
  if (k === from.length) return undefined;
  const start = Math.max(moment, from[k]!);
  const done = before[k]! + (start - from[k]!) + work;
  if (done > before.at(-1)!) return undefined;
  // the opening in which that many open minutes are reached: seldom more than a few on
  while (before[k + 1]! < done) k++;
  return { start, end: from[k]! + (done - before[k]!) };
}

/** Work ended at `moment` or as little before as it can be. Undefined when the hours do not reach back so far. */
export function latestSpan(hours: Hours, moment: number, work: number, whole: boolean): Span | undefined {
  const { from, to, before } = hours;
  // the last opening that begins before `moment`
  let k = openingAfter(hours, moment);
  if (k === from.length || from[k]! >= moment) k--;
  if (whole) {
    for (; k >= 0; k--) {
      const end = Math.min(moment, to[k]!);
      if (end - from[k]! >= work) return { start: end - work, end };
    }
    return undefined;
  }
  if (k < 0) return undefined;
  const end = Math.min(moment, to[k]!);
  const left = before[k]! + (end - from[k]!) - work;
  if (left < 0) return undefined;
  while (before[k]! > left) k--;
  return { start: from[k]! + (left - before[k]!), end };
}

/** Open minutes between two moments. */
export function openMinutes(hours: Hours, from: number, to: number): number {
  return to <= from ? 0 : openUntil(hours, to) - openUntil(hours, from);
}
/** Open minutes before a moment. */
export function openUntil(hours: Hours, moment: number): number {
  const k = openingAfter(hours, moment);
  return k === hours.from.length ? hours.before.at(-1)! : hours.before[k]! + Math.max(0, moment - hours.from[k]!);
}

/** The times really worked between start and end. */
export function workedSpans(hours: Hours, { start, end }: Span): readonly Span[] {
  const spans: Span[] = [];
  for (let k = openingAfter(hours, start); k < hours.from.length && hours.from[k]! < end; k++)
    spans.push({ start: Math.max(start, hours.from[k]!), end: Math.min(end, hours.to[k]!) });
  return spans;
}
