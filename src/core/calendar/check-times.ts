import type { Issue } from '../issue/index.ts';
import type { DatedJob, Timetable } from './dated.ts';

/**
 * Judges a timetable from the job alone, minute by minute; shares no code with what makes one. Empty means sound.
 * Slow by design: for tests and for whoever doubts.
 */
export function checkTimes(job: DatedJob, { starts, ends, finish }: Timetable): readonly Issue[] {
  const issues: Issue[] = [];
  const wrong = (task: number, message: string, found: unknown): void => {
    issues.push({ path: ['tasks', job.tasks[task]!.id], message, found: String(found) });
  };
  const horizon = Math.max(0, ...ends) + 1;
  const open = job.hours.map(({ from, to }) => {
    const minutes = new Uint8Array(horizon);
    from.forEach((a, k) => {
      for (let m = a; m < Math.min(to[k]!, horizon); m++) minutes[m] = 1;
    });
    return minutes;
  });
  job.tasks.forEach((task, i) => {
    const [start, end] = [starts[i]!, ends[i]!];
    if (!(Number.isInteger(start) && Number.isInteger(end) && start >= (task.from ?? 0) && end > start)) {
      wrong(i, 'is no span of time', `${start}–${end}`);
      return;
    }
    let worked = 0;
    for (let m = start; m < end; m++) worked += open[task.hours]![m]!;
    if (worked !== task.work) wrong(i, 'gets another time than it takes', worked);
    if (open[task.hours]![start] === 0 || open[task.hours]![end - 1] === 0)
      wrong(i, 'begins or ends out of hours', start);
    if (task.whole && end - start !== task.work) wrong(i, 'is not done in one go', `${start}–${end}`);
    for (const { task: k, wait } of task.after)
      if (start < ends[k]! + wait) wrong(i, `starts before ${job.tasks[k]!.id} is ready`, start);
  });
  if (issues.length > 0) return issues;
  job.resources.forEach((there, resource) => {
    for (let i = 0; i < job.tasks.length; i++) {
      // what is held only grows where a task starts
      const moment = starts[i]!;
      let held = 0;
      job.tasks.forEach((task, k) => {
        for (const h of task.holds)
          if (h.resource === resource && starts[k]! <= moment && ends[k]! + h.beyond > moment) held += h.amount;
      });
      if (held > there) wrong(i, `takes more of resource ${resource + 1} than there is`, held);
    }
  });
  job.tasks.forEach((dusty, i) => {
    if (dusty.air?.kind !== 'dust') return;
    job.tasks.forEach((wet, k) => {
      if (wet.air?.kind !== 'wet' || wet.air.place !== dusty.air!.place) return;
      if (starts[i]! < ends[k]! + wet.air.beyond && starts[k]! < ends[i]! + dusty.air!.beyond)
        wrong(i, `raises dust where ${wet.id} is wet`, starts[i]);
    });
  });
  if (finish !== Math.max(0, ...ends)) wrong(0, 'is not when the last task ends', finish);
  return issues;
}
