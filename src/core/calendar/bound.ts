import type { DatedJob } from './dated.ts';
import { earliestSpan, latestSpan, openMinutes } from './hours.ts';

/**
 * No timetable ends sooner. A candidate end is refuted when some task cannot fit between the chains before and after it, or when
 * between two moments more work must lie than the people have hours (energetic reasoning over intervals: Baptiste, Le Pape & Nuijten,
 * Annals of Operations Research 92, 1999, 305–333); the bound is the first minute that is not refuted. `known` is an end that can be had.
 */
export function leastFinish(job: DatedJob, known: number): number {
  const { tasks } = job;
  const heads = tasks.map(() => 0);
  const headEnds = tasks.map(() => 0);
  tasks.forEach((task, i) => {
    let moment = task.from ?? 0;
    for (const { task: k, wait } of task.after) moment = Math.max(moment, headEnds[k]! + wait);
    const span = earliestSpan(job.hours[task.hours]!, moment, task.work, task.whole);
    heads[i] = span ? span.start : known;
    headEnds[i] = span ? span.end : known;
  });
  let low = headEnds.reduce((a, b) => Math.max(a, b), 0);
  let high = known;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (refuted(job, heads, middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

function refuted(job: DatedJob, heads: readonly number[], finish: number): boolean {
  const { tasks } = job;
  const latest = tasks.map(() => finish);
  for (let i = tasks.length - 1; i >= 0; i--) {
    const task = tasks[i]!;
    const span = latestSpan(job.hours[task.hours]!, latest[i]!, task.work, task.whole);
    if (!span || span.start < heads[i]!) return true;
    for (const { task: k, wait } of task.after) latest[k] = Math.min(latest[k]!, span.start - wait);
  }
  const there = job.resources[job.people.resource]!;
  const open = job.hours[job.people.hours]!;
  const worked = tasks.flatMap((task, i) => {
    const need = task.holds.find((h) => h.resource === job.people.resource)?.amount ?? 0;
    return need > 0 ? [{ head: heads[i]!, latest: latest[i]!, energy: need * task.work }] : [];
  });
  const byLatest = [...worked].sort((a, b) => a.latest - b.latest);
  for (const from of new Set(worked.map((w) => w.head))) {
    let energy = 0;
    for (let k = 0; k < byLatest.length; k++) {
      const { head, latest: until, energy: own } = byLatest[k]!;
      if (head >= from) energy += own;
      if (k + 1 < byLatest.length && byLatest[k + 1]!.latest === until) continue;
      if (energy > there * openMinutes(open, from, until)) return true;
    }
  }
  return false;
}
