import { closingTasks } from './closing.ts';
import { cuttingTasks } from './cutting.ts';
import { errandTasks } from './errands.ts';
import { fittingTasks } from './fitting.ts';
import { frontTasks } from './fronts.ts';
import { jobOf } from './job.ts';
import { type Longest, taskList } from './list.ts';
import { makingTasks } from './making.ts';
import type { JobTask, TasksInput } from './task.ts';
import { clearTask, wallTasks } from './walls.ts';

export { type JobTask, PHASES, type Phase, type TasksInput, type Tool, type WhoseHours } from './task.ts';

/**
 * The whole job as tasks, each after those it waits for: the room, buying, the shop, fitting, the last look. Times come from what is
 * counted and the maker's pace; waits from what is published. `longest` is the longest that is done in one go in each kind of hours.
 */
export function tasksOf(input: TasksInput, longest: Longest): readonly JobTask[] {
  const { tasks, add } = taskList(input.plan.shop.pace, longest);
  const job = jobOf(input, add);
  const clear = clearTask(job);
  const errands = errandTasks(job);
  const ready = wallTasks(job, errands, clear);
  const cutOf = cuttingTasks(job, errands);
  const made = makingTasks(job, errands, cutOf);
  const fronts = frontTasks(job, errands, made);
  const fitted = fittingTasks(job, { errands, made, fronts, ready });
  closingTasks(job, { errands, made, fitted, ready });
  return tasks;
}
