import type { SentPlan } from './sent-plan.ts';

/** A task that was ticked off in the shop, and on which day. */
export interface TickedTask {
  readonly task: string;
  readonly on: string;
}
export interface ToDay extends SentPlan {
  readonly revision: number;
  readonly today: string;
  readonly ticked: readonly TickedTask[];
}

/** A task of a day's list. Times are minutes from the midnight before. */
export interface DayTask {
  readonly id: string;
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly helped: boolean;
  readonly decides: boolean;
}
/** What is to be done, dated anew from what is done already. */
export interface Days {
  /** Today, or the next days that have work. Day numbers. */
  readonly next: readonly { readonly day: number; readonly tasks: readonly DayTask[] }[];
  /** What was ticked off today: it can be taken back. */
  readonly done: readonly { readonly id: string; readonly title: string }[];
  /** The last day of work, as it is now and as it would be with nothing ticked off. */
  readonly finish: number;
  readonly planned: number;
  readonly deadline?: number;
}
export interface FromDay {
  readonly revision: number;
  /** Nothing where the plan names no start, or cannot be dated at all. */
  readonly days: Days | undefined;
}
