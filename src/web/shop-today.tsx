import { useEffect, useState } from 'preact/compat';
import { clockOf } from '../core/calendar/index.ts';
import { dayNumber } from '../core/stock/index.ts';
import type { NewTick } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import type { Days, DayTask, FromDay, TickedTask, ToDay } from './day-protocol.ts';
import { endWords, toldOn } from './days-told.ts';
import { onLost } from './insist.ts';
import { tick } from './ticks.ts';
import { today } from './today.ts';
import type { WorkedPlan } from './worked-plan.ts';

const PREFIX = 'task:';
const aboutOf = (task: string): string => `${PREFIX}${task}`;

/** What was ticked off, and on which day here. */
export const tickedTasks = (states: ReadonlyMap<string, NewTick>): readonly TickedTask[] =>
  [...states.values()].flatMap(({ about, done, at }) =>
    done && about.startsWith(PREFIX)
      ? [{ task: about.slice(PREFIX.length), on: new Date(at).toLocaleDateString('sv-SE') }]
      : [],
  );

/** The days as they follow from the plan and the ticks, from a worker; the last answer stands until the next is there. */
function useDays({ outcome, unknown, whole }: WorkedPlan, states: ReadonlyMap<string, NewTick>): Days | undefined {
  const text = useBench((b) => b.text);
  const [worker, setWorker] = useState<Worker>();
  const [days, setDays] = useState<Days>();
  const ready = whole && unknown.length === 0 && outcome.plan.dates.start !== undefined;
  const ticked = tickedTasks(states);
  useEffect(() => {
    if (!ready) return;
    let made: Worker | undefined;
    const begin = () => {
      made = new Worker(new URL('./day.worker.ts', import.meta.url), { type: 'module' });
      onLost(made, () => made && begin());
      setWorker(made);
    };
    begin();
    return () => {
      made?.terminate();
      made = undefined;
    };
  }, [ready]);
  useEffect(() => {
    if (!ready || !worker) return;
    const message: ToDay = {
      revision: ++revision,
      text,
      option: outcome.option.id,
      today: today(),
      answers: outcome.cuts.map((cut) => cut.answer),
      ticked,
    };
    worker.onmessage = ({ data }: MessageEvent<FromDay>) => {
      if (data.revision === revision) setDays(data.days);
    };
    worker.postMessage(message);
  }, [worker, ready, text, outcome.option.id, outcome.cuts, JSON.stringify(ticked)]);
  return ready ? days : undefined;
}
let revision = 0;

/** What is to be done today, or on the next day that has anything, to be ticked off; and where that leaves the rest. */
export function Today({
  worked,
  plan,
  states,
}: {
  readonly worked: WorkedPlan;
  readonly plan: string;
  readonly states: ReadonlyMap<string, NewTick>;
}) {
  const days = useDays(worked, states);
  if (!days) return null;
  const now = dayNumber(today());
  const [next, ...rest] = days.next;
  const isToday = next?.day === now;
  return (
    <details className="shop-today">
      <summary>
        {next === undefined
          ? 'Everything is done'
          : `${isToday ? 'Today' : toldOn(now, next.day)}: ${next.tasks.length} to do`}
        {days.done.length > 0 && `, ${days.done.length} done today`}
      </summary>
      <ol className="ticks">
        {days.done.map(({ id, title }) => (
          <TaskItem key={id} plan={plan} id={id} title={title} done />
        ))}
        {next?.tasks.map((task) => (
          <TaskItem key={task.id} plan={plan} id={task.id} title={task.title} small={whenOf(task)} />
        ))}
      </ol>
      {rest.map(({ day, tasks }) => (
        <p key={day}>
          <b>{toldOn(now, day)}</b>: {tasks.map((task) => task.title).join('; ')}
        </p>
      ))}
      {next !== undefined && <p role="status">{endWords(days, now)}</p>}
    </details>
  );
}

function TaskItem({
  plan,
  id,
  title,
  small,
  done = false,
}: {
  readonly plan: string;
  readonly id: string;
  readonly title: string;
  readonly small?: string;
  readonly done?: boolean;
}) {
  return (
    <li>
      <label>
        <input type="checkbox" checked={done} onChange={(e) => tick(plan, aboutOf(id), e.currentTarget.checked)} />
        <span>
          {title}
          {small !== undefined && <small>{small}</small>}
        </span>
      </label>
    </li>
  );
}

const whenOf = ({ from, to, helped, decides }: DayTask): string =>
  `${clockOf(from)}–${clockOf(to)}${helped ? ', two people' : ''}${decides ? ', decides the end' : ''}`;
