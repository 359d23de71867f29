import { WEEKDAYS, type Weekday } from '../plan/index.ts';

/** Days are counted from 1970-01-01 (see stock's `dayNumber`), moments in minutes from the midnight a job begins with. No time zones. */
export const MINUTES_A_DAY = 1440;

/** The date of a day number: the inverse of `dayNumber`, in the proleptic Gregorian calendar. */
export function dateOf(day: number): string {
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const date = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  const year = yearOfEra + 400 * era + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(date)}`;
}

/** 1970-01-01 was a Thursday. */
export const weekdayOf = (day: number): Weekday => WEEKDAYS[(((day + 3) % 7) + 7) % 7]!;

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;
export const dayName = (day: number): string => {
  const name = weekdayOf(day);
  return name[0]!.toUpperCase() + name.slice(1);
};
/** `Saturday 5 Dec` */
export function dayWords(day: number): string {
  const [, month, date] = dateOf(day).split('-').map(Number);
  return `${dayName(day)} ${date} ${MONTHS[month! - 1]}`;
}
/** The same, with its year where that is another than the one days are told without: `Saturday 9 Jan 2027`. */
export const dayTold = (calendar: Told, day: number): string => withYear(calendar, day, dayWords(day));
/** Of whoever tells days: the year that needs no telling. */
export interface Told {
  readonly year?: number;
}
const withYear = ({ year }: Told, day: number, words: string): string =>
  yearOf(day) === year ? words : `${words} ${yearOf(day)}`;
export const yearOf = (day: number): number => Number(dateOf(day).split('-')[0]);
/** `Sat 5 Dec` */
export function shortDay(day: number): string {
  const [, month, date] = dateOf(day).split('-').map(Number);
  return `${dayName(day).slice(0, 3)} ${date} ${MONTHS[month! - 1]}`;
}
/** The same, with its year where that is another than the one days are told without: `Sat 9 Jan 2027`. */
export const shortTold = (calendar: Told, day: number): string => withYear(calendar, day, shortDay(day));
/** `18:30`, of minutes after any midnight. */
export const clockOf = (minutes: number): string => {
  const inDay = ((minutes % MINUTES_A_DAY) + MINUTES_A_DAY) % MINUTES_A_DAY;
  return `${two(Math.floor(inDay / 60))}:${two(Math.floor(inDay % 60))}`;
};
const two = (n: number): string => String(n).padStart(2, '0');

/** `45 min`, `3 h`, `2.5 h`, `2 days`: no finer than anyone could know. */
export function spanWords(minutes: number): string {
  if (minutes < 60) return `${Math.round(minutes)} min`;
  if (minutes < 36 * 60) return `${Number((minutes / 60).toFixed(minutes < 600 ? 1 : 0))} h`;
  const days = minutes / MINUTES_A_DAY;
  return `${Number(days.toFixed(days < 3 ? 1 : 0))} days`;
}
