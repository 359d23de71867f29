import type { Week } from '../plan/index.ts';
import { clockOf, MINUTES_A_DAY } from './day.ts';

/** Of the end of a day `24:00`, which is no midnight of it. */
export const clock = (minutes: number): string => (minutes === MINUTES_A_DAY ? '24:00' : clockOf(minutes));

/** Hours of a week in words: `Mon 18:30–21:00; Sat 09:00–12:30, 13:30–17:30`. */
export const weekWords = (week: Week): string =>
  Object.entries(week)
    .flatMap(([day, parts]) =>
      parts && parts.length > 0
        ? [
            `${day[0]!.toUpperCase()}${day.slice(1, 3)} ${parts.map((p) => `${clockOf(p.from)}–${clock(p.to)}`).join(', ')}`,
          ]
        : [],
    )
    .join('; ');
