import type { DatedJob } from './dated.ts';
import { earliestSpan, latestSpan, openUntil } from './hours.ts';

/** What is known of the least end of a job; each question is worked out when it is asked. */
export interface Bound {
  /** Whether no timetable ends sooner than this, as far as can be proven. */
  readonly reaches: (finish: number) => boolean;
  readonly least: () => number;
}

/**
 * No timetable ends sooner. A candidate end is refuted when some task cannot fit between the chains before and after it, or when
 * between two moments more work must lie than the people have hours (energetic reasoning over intervals: Baptiste, Le Pape & Nuijten,
 * Annals of Operations Research 92, 1999, 305–333); the bound is the first minute that is not refuted: whatever refutes an end refutes
 * every sooner one. `known` is an end that can be had.
 */
export function boundOf(job: DatedJob, known: number): Bound {
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
  const ask = (finish: number): boolean => {
    const no = refuted(job, heads, finish);
    if (no) low = finish + 1;
    else high = finish;
    return no;
  };
  return {
    reaches: (finish) => finish <= low || (finish <= high && ask(finish - 1)),
    least: () => {
      while (low < high) ask(Math.floor((low + high) / 2));
      return low;
    },
  };
}
export const leastFinish = (job: DatedJob, known: number): number => boundOf(job, known).least();

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
  // all intervals from the head of one to the latest end of another, the heads from the last to the first
  const ends = [...new Set(worked.map((w) => w.latest))].sort((a, b) => a - b);
  const at = new Map(ends.map((end, k) => [end, k]));
  const load = loadOf(ends.map((end) => -there * openUntil(open, end)));
  const byHead = [...worked].sort((a, b) => b.head - a.head);
  let later = ends.length;
  for (let k = 0; k < byHead.length; k++) {
    const { head, latest: until, energy } = byHead[k]!;
    while (later > 0 && ends[later - 1]! > head) load.begin(--later);
    load.add(at.get(until)!, energy);
    if (k + 1 < byHead.length && byHead[k + 1]!.head === head) continue;
    if (load.most() > -there * openUntil(open, head)) return true;
  }
  return false;
}

/**
 * The most, over the places begun so far, of what stands at a place and of everything added to it and to places before it: sums and
 * best sums of halves in a tree, so that each change costs its depth.
 */
function loadOf(stands: readonly number[]) {
  let leaves = 1;
  while (leaves < stands.length) leaves *= 2;
  const sums = new Float64Array(2 * leaves);
  const most = new Float64Array(2 * leaves).fill(Number.NEGATIVE_INFINITY);
  const begun = new Uint8Array(leaves);
  const changed = (place: number): void => {
    let node = leaves + place;
    if (begun[place]) most[node] = sums[node]! + stands[place]!;
    for (node >>= 1; node > 0; node >>= 1) {
      const [left, right] = [2 * node, 2 * node + 1];
      sums[node] = sums[left]! + sums[right]!;
      most[node] = Math.max(most[left]!, sums[left]! + most[right]!);
    }
  };
  return {
    begin: (place: number): void => {
      begun[place] = 1;
      changed(place);
    },
    add: (place: number, amount: number): void => {
      sums[leaves + place] = sums[leaves + place]! + amount;
      changed(place);
    },
    most: (): number => most[1]!,
  };
}
