/** Dates and hours as people write them, turned into the one way that is read: for what was probably meant, never to be read so. */

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const two = (n: number): string => String(n).padStart(2, '0');

/** `2026-2-3`, `24.12.2026`, `1 December 2026`, `Dec 1, 2026`; a day past its month's end is its last. Nothing where day and month may be either. */
export function dateMeant(text: string): string | undefined {
  const said = text.trim().toLowerCase();
  const numbers = /^(\d{1,4})[-./ ](\d{1,2})[-./ ](\d{1,4})$/.exec(said)?.slice(1).map(Number);
  if (numbers) {
    const [a, b, c] = numbers as [number, number, number];
    if (a >= 1000) return dateOf(a, b, c);
    if (c < 1000) return undefined;
    if (a > 12) return dateOf(c, b, a);
    return b > 12 || a === b ? dateOf(c, a, b) : undefined;
  }
  const words = /^(?:(\d{1,2})(?:st|nd|rd|th|\.)? )?([a-z]{3})[a-z]*\.?(?: (\d{1,2})(?:st|nd|rd|th)?)?,? (\d{4})$/.exec(
    said,
  );
  const day = words?.[1] ?? words?.[3];
  const month = words ? MONTHS.indexOf(words[2]!) + 1 : 0;
  return day === undefined || month === 0 ? undefined : dateOf(Number(words![4]), month, Number(day));
}
function dateOf(year: number, month: number, day: number): string | undefined {
  if (month < 1 || month > 12 || day < 1 || day > 31) return undefined;
  return `${year}-${two(month)}-${two(Math.min(day, daysIn(year, month)))}`;
}
/** The days of a month of the Gregorian calendar, 1 to 12. */
export function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 ? (leap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
}
/** Minutes of a day as a plan writes them: `9:00`, and at its end `24:00`. */
export const clockSaid = (minutes: number): string => `${Math.floor(minutes / 60)}:${two(minutes % 60)}`;

/** `2026-12-24 to 2026-12-27`: the first and the last of several days. */
export function daysMeant(text: string): string | undefined {
  const [from, to, more] = text.split(/\s+(?:to|until|till|through|-|–)\s+|\s*(?:\.\.\.?|…|\/|–)\s*/).map(dateMeant);
  return from !== undefined && to !== undefined && more === undefined && from <= to
    ? `{from: ${from}, to: ${to}}`
    : undefined;
}

const TIME = /^(\d{1,2})(?:[:.h](\d{2}))?\s*(?:h|o'clock)?\s*(am|pm)?$/;
/** `18-21`, `6pm-9pm`, `18.30 to 21`; what runs past midnight ends there. */
export function hoursMeant(text: string): string | undefined {
  const ends = text
    .trim()
    .toLowerCase()
    .split(/\s*(?:-|–|—|\bto\b|\buntil\b|\btill\b)\s*/);
  if (ends.length !== 2) return undefined;
  const [first, second] = ends.map((end) => TIME.exec(end));
  if (!first || !second) return undefined;
  // `6-9pm`: both of them after noon
  const minutes = ([, hour, minute = '0', half = second[3]]: RegExpExecArray): number =>
    60 * ((half === undefined ? Number(hour) : Number(hour) % 12) + (half === 'pm' ? 12 : 0)) + Number(minute);
  const [from, to] = [minutes(first), minutes(second)];
  if (from >= 24 * 60 || Number(first[2] ?? 0) > 59 || Number(second[2] ?? 0) > 59) return undefined;
  const end = to <= from || to > 24 * 60 ? 24 * 60 : to;
  return `${clockSaid(from)}-${clockSaid(end)}`;
}

/** Hours of a day in another shape than a plan's: `{from: 18:30, to: 21:00}`, `[18, 21]`, `9:00-12:00, 13:00-17:00`. */
export function dayHoursMeant(value: unknown): string | undefined {
  if (typeof value === 'string') {
    const parts = value.split(/\s*(?:[,;+&]|\band\b)\s*/);
    return parts.length > 1 ? listMeant(parts.map(hoursMeant)) : undefined;
  }
  if (!Array.isArray(value)) return endsMeant(value);
  return value.length === 2 && value.every(isTime) ? hoursMeant(value.join('-')) : listMeant(value.map(endsMeant));
}
const isTime = (said: unknown): boolean =>
  typeof said === 'number' || (typeof said === 'string' && TIME.test(said.trim().toLowerCase()));
function endsMeant(value: unknown): string | undefined {
  if (typeof value !== 'object' || value === null || !('from' in value && 'to' in value)) return undefined;
  return isTime(value.from) && isTime(value.to) ? hoursMeant(`${value.from}-${value.to}`) : undefined;
}
const listMeant = (parts: readonly (string | undefined)[]): string | undefined =>
  parts.length > 0 && parts.every((part) => part !== undefined) ? `[${parts.join(', ')}]` : undefined;

/** `4`, `2.5 h`: as long as a day and no longer. */
export const isDuration = (value: unknown): boolean =>
  /^\d{1,2}(?:[.,]\d+)?\s*(?:h|hrs?|hours?)?$/.test(String(value).trim().toLowerCase()) &&
  Number.parseFloat(String(value)) <= 24;
