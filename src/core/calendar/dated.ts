import type { Hours } from './hours.ts';

/** Something a task holds from its start until `beyond` minutes after its end: clamps while glue sets, floor while paint dries. */
export interface Holding {
  readonly resource: number;
  readonly amount: number;
  readonly beyond: number;
}

/**
 * One thing to do, in whole minutes. Work stops where its hours end and goes on where they begin again; nobody else's work is pushed
 * in between. `after` names tasks that stand before it in the job's list.
 */
export interface DatedTask {
  readonly id: string;
  readonly work: number;
  /** Place of its hours in the job's list. */
  readonly hours: number;
  /** In one go: a coat is not left half done over night. */
  readonly whole: boolean;
  readonly holds: readonly Holding[];
  /** Dust and wet paint do not share a place: neither from start until `beyond` minutes after the end. */
  readonly air?: { readonly place: string; readonly kind: 'dust' | 'wet'; readonly beyond: number };
  /** Waits are counted round the clock: paint dries at night. */
  readonly after: readonly { readonly task: number; readonly wait: number }[];
  /** Not before this moment. */
  readonly from?: number;
}

/** Tasks over real hours: the scheduling problem of one shop. */
export interface DatedJob {
  readonly hours: readonly Hours[];
  /** How much there is of each resource at any time. */
  readonly resources: readonly number[];
  readonly tasks: readonly DatedTask[];
  /** What the energy bound is counted by: people, whose every task lies in these hours. */
  readonly people: { readonly resource: number; readonly hours: number };
}

/** Starts and ends by task, in minutes from the job's first midnight. */
export interface Timetable {
  readonly starts: readonly number[];
  readonly ends: readonly number[];
  readonly finish: number;
}
