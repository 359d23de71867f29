import { type Counted, paceOf } from '../paces.ts';
import type { JobTask, Phase, WhoseHours } from './task.ts';

/** Minutes for dust to settle before a brush comes out. Common practice. */
const SETTLE = 60;
/** Longest stretch told as one task, minutes: an errand or a helper must find a place between. */
const STRETCH = 240;
/** Shortest, minutes: where the hours are shorter, they hold nothing that is done in one go. */
const LEAST = 5;

/** A task as it is asked for: it becomes several where it is long, and none where there is nothing to do. */
export interface Draft {
  readonly id: string;
  readonly title: string;
  readonly noun: string;
  readonly phase: Phase;
  readonly pieces?: readonly string[];
  readonly counts: readonly (readonly [Counted, number])[];
  /** Of the time that is counted; left out: all of it. */
  readonly share?: number;
  readonly hours?: WhoseHours;
  readonly helper?: string | undefined;
  readonly list?: readonly string[];
  readonly whole?: boolean;
  /** What is counted first is the way: every part is a way of its own, where the hours hold twice as much. */
  readonly trip?: true;
  readonly place: JobTask['place'];
  readonly air?: 'dust' | { readonly wet: number };
  readonly holds?: JobTask['holds'];
  readonly after: readonly (After | undefined)[];
}
export interface After {
  readonly task: number;
  readonly wait?: number;
  readonly why?: string;
}

/** What something waits for; undefined where that is not to be done. `waiting`: minutes after its end. */
export const after = (task: number | undefined, waiting = 0, why?: string): After | undefined =>
  task === undefined ? undefined : { task, wait: waiting, ...(why !== undefined && { why }) };
export const afterAll = (
  list: readonly (number | undefined)[],
  waiting = 0,
  why?: string,
): readonly (After | undefined)[] => list.map((task) => after(task, waiting, why));

/** The number of the last task of what was added; undefined where there is nothing to do. */
export type Add = (draft: Draft) => number | undefined;

/** The longest that is done in one go in some hours, minutes; on a trip, another. */
export type Longest = (hours: WhoseHours, trip: boolean) => number;

export interface TaskList {
  readonly tasks: readonly JobTask[];
  readonly add: Add;
}

/** A list that grows. `pace` is the maker's, of the usual one; `longest` is the longest that is done in one go in each kind of hours, minutes. */
export function taskList(pace: number, longest: Longest): TaskList {
  const tasks: JobTask[] = [];
  const add = (draft: Draft): number | undefined => {
    const counted = draft.counts.filter(([, count]) => count > 0);
    const minutes =
      pace * (draft.share ?? 1) * counted.reduce((sum, [key, count]) => sum + count * paceOf(key).minutes, 0);
    if (minutes <= 0) return undefined;
    const hours = draft.hours ?? (draft.helper === undefined ? 'own' : 'helped');
    const whole = draft.whole ?? false;
    const most = longest(hours, draft.trip ?? false);
    // hours without any opening part nothing: nothing is done in them
    const stretch = whole && most > 0 ? Math.max(LEAST, Math.min(STRETCH, most)) : STRETCH;
    const way = draft.trip ? pace * paceOf(counted[0]![0]).minutes : 0;
    const again = 2 * way <= stretch ? way : 0;
    const parts = Math.max(1, Math.ceil((minutes - again) / (stretch - again) - 1e-9));
    for (let k = 0; k < parts; k++) {
      const of = parts === 1 ? '' : `, ${k + 1} of ${parts}`;
      tasks.push({
        id: parts === 1 ? draft.id : `${draft.id} ${k + 1}`,
        title: `${draft.title}${of}`,
        noun: `${draft.noun}${of}`,
        phase: draft.phase,
        ...(draft.pieces && { pieces: draft.pieces }),
        counts: counted.map(([key, count]) => ({ counted: key, count })),
        minutes: again + (minutes - again) / parts,
        hours,
        ...(draft.helper !== undefined && { helper: draft.helper }),
        ...(draft.list && { list: draft.list }),
        whole,
        place: draft.place,
        ...(draft.air && {
          air: draft.air === 'dust' ? { kind: 'dust', beyond: SETTLE } : { kind: 'wet', beyond: draft.air.wet },
        }),
        holds: draft.holds ?? [],
        after:
          k > 0
            ? [{ task: tasks.length - 1, wait: 0 }]
            : draft.after.flatMap((a) =>
                a ? [{ task: a.task, wait: a.wait ?? 0, ...(a.why && { why: a.why }) }] : [],
              ),
      });
    }
    return tasks.length - 1;
  };
  return { tasks, add };
}
