import { useEffect, useState } from 'preact/compat';
import { calendarOf, clockOf, dayWords, type JobCalendar, nextList } from '../core/calendar/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { massesOf } from '../core/solids.ts';
import { dayNumber } from '../core/stock/index.ts';
import { tick } from './ticks.ts';
import { today } from './today.ts';

/** Timetables built on a phone: a day's list need not be the very best. */
const STEPS = 100;
const aboutOf = (task: string): string => `task:${task}`;

/** What the calendar has for today, or for the next day that has anything, to be ticked off. Nothing where the plan names no start. */
export function Today({
  outcome,
  plan,
  done,
}: {
  readonly outcome: Outcome;
  readonly plan: string;
  readonly done: (about: string) => boolean;
}) {
  const [calendar, setCalendar] = useState<JobCalendar>();
  const dated = outcome.plan.dates.start !== undefined && outcome.bill.complete;
  // after the page stands: it takes longer than a frame
  useEffect(() => {
    if (!dated) return;
    const later = setTimeout(
      () =>
        setCalendar(calendarOf({ ...outcome, massOf: massesOf(outcome), today: today(), steps: STEPS, brief: true })),
      50,
    );
    return () => clearTimeout(later);
  }, [outcome, dated]);
  if (!dated || !calendar || calendar.impossible !== undefined) return null;
  const day = dayNumber(today());
  const list = nextList(calendar, day);
  if (!list) return null;
  const left = list.items.filter(({ dated: d }) => !done(aboutOf(d.task.id))).length;
  return (
    <details className="shop-today">
      <summary>
        {list.day === day ? 'Today' : dayWords(list.day)}: {left} of {list.items.length} to do
      </summary>
      <ol className="ticks">
        {list.items.map(({ dated: d, from, to }) => (
          <li key={d.task.id}>
            <label>
              <input
                type="checkbox"
                checked={done(aboutOf(d.task.id))}
                onChange={(e) => tick(plan, aboutOf(d.task.id), e.currentTarget.checked)}
              />
              <span>
                {d.task.title}
                <small>
                  {clockOf(from)}–{clockOf(to)}
                  {d.task.helper !== undefined && ', two people'}
                  {d.critical && ', decides the end'}
                </small>
              </span>
            </label>
          </li>
        ))}
      </ol>
    </details>
  );
}
