import type { Issue } from '../../issue/index.ts';

/**
 * The neutral calendar problem: tasks that each hold some amount of every resource from start to end, without a break, and that come
 * before others. Nothing else is known of them; dates and working hours belong to the job's own calendar.
 *
 * In the literature: the resource-constrained project scheduling problem (Kolisch & Sprecher, European Journal of Operational
 * Research 96, 1997, 205–216). Drying is a task that needs nobody; one worker is a resource of one.
 */
export interface CalendarTask {
  readonly id: number | string;
  /** Working hours, ≥ 0, to a thousandth. */
  readonly hours: number;
  /** One amount per resource, held while the task lasts. */
  readonly needs: readonly number[];
  /** Ids of the tasks that may not start before this one has ended. */
  readonly before: readonly (number | string)[];
}
export interface CalendarProblem {
  readonly name: string;
  readonly kind: 'calendar';
  /** How much there is of each resource at any time. */
  readonly resources: readonly number[];
  readonly tasks: readonly CalendarTask[];
}

/** `optimal` only when the makespan equals a proven bound. Starts are hours from the beginning, by task id. */
export type CalendarAnswer =
  | {
      readonly name: string;
      readonly kind: 'calendar';
      readonly status: 'optimal' | 'feasible';
      readonly makespan: number;
      readonly bound: number;
      /** One step is one schedule built or one contradiction learned from: the same on every machine. */
      readonly steps: number;
      /** True when a stop ended the search before its steps were spent. */
      readonly cutShort?: boolean;
      readonly starts: Readonly<Record<string, number>>;
    }
  | {
      readonly name: string;
      readonly kind: 'calendar';
      readonly status: 'infeasible';
      readonly issues: readonly Issue[];
    };

/** How hard to try, in steps. A caller may also stop the search; chance comes only from the seed. */
export interface CalendarEffort {
  readonly steps: number;
  /** Asked every few steps; true ends the search with the best answer so far. */
  readonly shouldStop?: () => boolean;
  readonly onBetter?: (answer: CalendarAnswer) => void;
  readonly seed?: number;
}

/** Steps that bring nearly every job a pair of hands can do to its proven end. */
export const USUAL_CALENDAR_STEPS = 20_000;
