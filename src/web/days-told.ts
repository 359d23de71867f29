import { dayTold, yearOf } from '../core/calendar/index.ts';
import type { Days } from './day-protocol.ts';

/** A day as told today: with its year where that is another. */
export const toldOn = (now: number, day: number): string => dayTold({ year: yearOf(now) }, day);

/** Where the ticks leave the end of the job. */
export function endWords(
  { finish, planned, deadline }: Pick<Days, 'finish' | 'planned' | 'deadline'>,
  now: number,
): string {
  const by = Math.abs(finish - planned);
  const moved =
    by === 0 ? '' : `, ${by} ${by === 1 ? 'day' : 'days'} ${finish < planned ? 'earlier' : 'later'} than planned`;
  const late = deadline !== undefined && finish > deadline ? `; the deadline is ${toldOn(now, deadline)}` : '';
  return `Done on ${toldOn(now, finish)}${moved}${late}.`;
}
