import { calendarOf, type DayItem, dayOf, MINUTES_A_DAY, nextList } from '../core/calendar/index.ts';
import { calendarInput, setFittings, settle } from '../core/outcome.ts';
import { dayNumber } from '../core/stock/index.ts';
import type { Days, FromDay, ToDay } from './day-protocol.ts';
import { builtFrom } from './sent-plan.ts';

/** Days that are shown: this one, and what comes behind it. */
const DAYS = 3;

/** The calendar beside the page: what ticks do not change is worked out once. */
export function serveDays(): (message: ToDay) => FromDay {
  let known: { readonly key: string; readonly input: ReturnType<typeof inputOf>; planned?: number } | undefined;
  return (message) => {
    const { revision, ticked, today } = message;
    const key = JSON.stringify([message.text, message.option, message.answers, today]);
    if (known?.key !== key) known = { key, input: inputOf(message) };
    const { input } = known;
    if (!input) return { revision, days: undefined };
    const { plan } = input;
    // the whole search: of two half-hearted ones the second may be better by luck, and a tick would seem to have brought the end forward
    const effort = { brief: true } as const;
    // ticked on a day that is over: from then on what had to dry after it was drying
    const done = [...(plan.dates.done ?? []), ...ticked];
    const dates = { ...plan.dates, done };
    const calendar = calendarOf({ ...input, plan: { ...plan, dates }, ...effort, from: today });
    if (calendar.impossible !== undefined) return { revision, days: undefined };
    known.planned ??= calendarOf({ ...input, ...effort }).finish;
    const next: Days['next'][number][] = [];
    for (let day = dayNumber(today); next.length < DAYS; ) {
      const list = nextList(calendar, day);
      if (!list) break;
      next.push({ day: list.day, tasks: list.items.map(taskOf) });
      day = list.day + 1;
    }
    const ids = new Set(ticked.filter(({ on }) => on === today).map(({ task }) => task));
    return {
      revision,
      days: {
        next,
        done: calendar.tasks.flatMap(({ task: { id, title } }) => (ids.has(id) ? [{ id, title }] : [])),
        finish: dayOf(calendar, calendar.finish, true),
        planned: dayOf(calendar, known.planned, true),
        ...(calendar.deadline !== undefined && { deadline: calendar.deadline }),
      },
    };
  };
}

const taskOf = ({ dated: { task, critical }, from, to }: DayItem): Days['next'][number]['tasks'][number] => ({
  id: task.id,
  title: task.title,
  from: from % MINUTES_A_DAY,
  to: ((to - 1) % MINUTES_A_DAY) + 1,
  helped: task.helper !== undefined,
  decides: critical,
});

function inputOf(message: ToDay) {
  const built = builtFrom(message);
  if (built?.scene.plan.dates.start === undefined) return undefined;
  const { scene, cuts } = built;
  const { today } = message;
  return calendarInput(settle(scene, cuts, today, { notes: [], fittings: setFittings(scene) }), today);
}
