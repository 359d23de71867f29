import type { DatedJob } from './dated.ts';
import { putterOf } from './put.ts';
import { drawFrom } from './solver/random.ts';
import { drawThreePoint, expected } from './three-point.ts';

/** How sure the end is: ends in minutes that one in ten, half and nine in ten of the runs come to. */
export interface Chances {
  readonly runs: number;
  readonly early: number;
  readonly middle: number;
  readonly late: number;
  /** Share of the runs that end by the deadline: when tasks go well or badly each by itself, and when one pace makes them all. */
  readonly inTime?: { readonly apart: number; readonly together: number };
}

const RUNS = 150;
const SEED = 20261126;

/**
 * The job done again and again in the order it was planned, the time of every task drawn anew; what is ready may be drawn forward. Half
 * of the runs have tasks independent of each other (as the three-point method has it), half one draw for all: a slow hand is slow at
 * everything. Truth lies between, so both are told. The job's work is the mean of the points already.
 */
export function chancesOf(
  job: DatedJob,
  line: readonly number[],
  range: { readonly least: number; readonly most: number },
  deadline: number | undefined,
): Chances {
  const draw = drawFrom(SEED);
  const chance = (): number => draw(0x4000_0000) / 0x4000_0000;
  const mean = expected({ least: range.least, likely: 1, most: range.most });
  const points = { least: range.least / mean, likely: 1 / mean, most: range.most / mean };
  const work = job.tasks.map((task) => task.work);
  const whole = job.tasks.map((task) => task.whole);
  const putter = putterOf(job, { work, whole });
  const run = (share: () => number): number => {
    job.tasks.forEach((task, i) => {
      work[i] = Math.max(1, Math.round(task.work * share()));
      // what no opening holds any more cannot be done in one go
      whole[i] = task.whole && work[i]! <= job.hours[task.hours]!.longest;
    });
    return putter.put(line) ?? Number.POSITIVE_INFINITY;
  };
  const apart: number[] = [];
  const together: number[] = [];
  for (let i = 0; i < RUNS; i++) {
    apart.push(run(() => drawThreePoint(points, chance)));
    const one = drawThreePoint(points, chance);
    together.push(run(() => one));
  }
  const all = [...apart, ...together].sort((a, b) => a - b);
  const at = (share: number): number => all[Math.min(all.length - 1, Math.floor(share * all.length))]!;
  const inTime = (ends: readonly number[]): number => ends.filter((end) => end <= deadline!).length / ends.length;
  return {
    runs: all.length,
    early: at(0.1),
    middle: at(0.5),
    late: at(0.9),
    ...(deadline !== undefined && { inTime: { apart: inTime(apart), together: inTime(together) } }),
  };
}
