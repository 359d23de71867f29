import type { Waiting } from '../../finish/index.ts';
import { waitFor } from '../drying.ts';
import type { Add } from './list.ts';
import type { TasksInput } from './task.ts';

/** What one person lifts where the shop does not say, kg: the load constant. Source: Waters et al., revised NIOSH lifting equation (1993). */
const LOAD_CONSTANT = 23;
export const COATS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'] as const;
/** On a case, a front or a moulding. Common practice. */
export const SHOP_COATS = COATS.slice(0, 2);

/** What every part of the job is reckoned with. */
export interface Job {
  readonly input: TasksInput;
  readonly add: Add;
  /** Minutes, in the air of this job. */
  readonly wait: (step: Waiting) => number;
  /** Minutes until paint takes its next coat, and until it may be touched. */
  readonly next: number;
  readonly touch: number;
  /** What one person lifts, kg. */
  readonly lift: number;
  /** What may lie or stand in the shop at a time, mm². */
  readonly shopFloor: number;
}

export function jobOf(input: TasksInput, add: Add): Job {
  const { dates, shop } = input.plan;
  const air = { celsius: dates.air.temperature, humidity: dates.air.humidity };
  const wait = (step: Waiting): number => waitFor(step, air);
  return {
    input,
    add,
    wait,
    next: wait('latex paint, next coat'),
    touch: wait('latex paint, dry to touch'),
    lift: shop.lift ?? LOAD_CONSTANT,
    shopFloor: dates.floor ? dates.floor.length * dates.floor.width : Number.POSITIVE_INFINITY,
  };
}
