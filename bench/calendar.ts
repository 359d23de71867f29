import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type CalendarProblem, checkCalendar, solveCalendar } from '../src/core/calendar/index.ts';

/**
 * Calendars, measured. For each set: instances, mean excess over the best known and over the critical path, proven, equal to the best
 * known, times, on one core; every answer judged by the checker. Beside it a single pass by latest finish.
 */
const { values: asked } = parseArgs({
  options: {
    limit: { type: 'string' },
    set: { type: 'string', default: '' },
    sample: { type: 'string' },
    clock: { type: 'string', default: 'wall' },
    worst: { type: 'boolean', default: false },
  },
});
/** Seconds for each, unless --limit says otherwise: what the project has set itself, one for the small jobs and five for the others. */
const USUAL: Readonly<Record<string, number>> = { j30: 1, j60: 5, j120: 5 };
/** Seconds: of the wall, or of the processor where other work shares the machine. */
const now =
  asked.clock === 'processor'
    ? (): number => {
        const { user, system } = process.cpuUsage();
        return (user + system) / 1e6;
      }
    : (): number => performance.now() / 1000;
const out = (line = ''): void => {
  process.stdout.write(`${line}\n`);
};

const root = fileURLToPath(process.env.SETWRIGHT_ROOT ?? 'file:///');
const path = join(root, '..', 'shared', 'benchmarks', 'calendar.jsonl');
type Known = CalendarProblem & { readonly known: { readonly bound: number; readonly best: number } };

function criticalPath(problem: CalendarProblem): number {
  const ends = new Map<string, number>();
  const end = (id: string): number => {
    const found = ends.get(id);
    if (found !== undefined) return found;
    const task = byId.get(id)!;
    const value = task.hours + Math.max(0, ...task.before.map((next) => end(String(next))));
    ends.set(id, value);
    return value;
  };
  const byId = new Map(problem.tasks.map((task) => [String(task.id), task]));
  return Math.max(0, ...problem.tasks.map((task) => end(String(task.id))));
}

/** One pass: whenever something can start, start what must end soonest. The plain way, written apart from the solver (parallel scheme). */
function onePass(problem: CalendarProblem): number {
  const { tasks, resources } = problem;
  const index = new Map(tasks.map((task, i) => [String(task.id), i]));
  const path = criticalPath(problem);
  const tail = tasks.map(() => -1);
  const tailOf = (i: number): number => {
    if (tail[i]! < 0)
      tail[i] = Math.max(
        0,
        ...tasks[i]!.before.map((id) => tailOf(index.get(String(id))!) + tasks[index.get(String(id))!]!.hours),
      );
    return tail[i]!;
  };
  const order = tasks.map((_, i) => i).sort((a, b) => path - tailOf(a) - (path - tailOf(b)) || a - b);
  const pre: number[][] = tasks.map(() => []);
  tasks.forEach((task, i) => {
    for (const id of task.before) pre[index.get(String(id))!]!.push(i);
  });
  const ends = tasks.map(() => Number.NaN);
  const free = [...resources];
  const running = new Set<number>();
  let left = tasks.length;
  let moment = 0;
  while (left > 0) {
    for (const i of running)
      if (ends[i]! <= moment) {
        running.delete(i);
        tasks[i]!.needs.forEach((amount, r) => {
          free[r]! += amount;
        });
      }
    let begun = true;
    while (begun) {
      begun = false;
      for (const i of order) {
        if (!Number.isNaN(ends[i]!) || !pre[i]!.every((k) => ends[k]! <= moment)) continue;
        if (!tasks[i]!.needs.every((amount, r) => amount <= free[r]!)) continue;
        ends[i] = moment + tasks[i]!.hours;
        left--;
        begun = true;
        if (tasks[i]!.hours === 0) continue;
        running.add(i);
        tasks[i]!.needs.forEach((amount, r) => {
          free[r]! -= amount;
        });
      }
    }
    if (left > 0) moment = Math.min(...[...running].map((i) => ends[i]!));
  }
  return Math.max(...ends);
}

const show = (value: number, width: number, decimals = 3): string => value.toFixed(decimals).padStart(width);
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / Math.max(1, values.length);

if (!existsSync(path)) {
  out('The open instances are not here (../shared/benchmarks); nothing to measure.');
} else {
  const all = readFileSync(path, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Known);
  out(`one core, ${asked.clock} clock`);
  out(
    `${'set'.padEnd(6)}${['n', 's each', 'over best %', 'over path %', 'proven', 'equal', 'either %', 'median s', 'worst s', 'one pass %', 'known %'].map((text) => text.padStart(12)).join('')}`,
  );
  for (const set of ['j30', 'j60', 'j120'].filter((name) => name.includes(asked.set))) {
    const whole = all.filter((problem) => problem.name.startsWith(`${set}/`));
    const wanted = Math.min(whole.length, asked.sample === undefined ? whole.length : Number(asked.sample));
    const list = Array.from({ length: wanted }, (_, i) => whole[Math.floor((i * whole.length) / wanted)]!);
    const limit = asked.limit === undefined ? USUAL[set]! : Number(asked.limit);
    const [overBest, overPath, passOver, knownOver, times]: number[][] = [[], [], [], [], []];
    let [proven, equal, either] = [0, 0, 0];
    for (const problem of list) {
      const started = now();
      const answer = solveCalendar(problem, {
        steps: Number.MAX_SAFE_INTEGER,
        shouldStop: () => now() - started >= limit,
      });
      const time = now() - started;
      times!.push(time);
      for (const issue of checkCalendar(problem, answer)) {
        out(`UNSOUND ${problem.name}: ${issue.path.join('.')} ${issue.message}`);
        process.exitCode = 1;
      }
      if (answer.status === 'infeasible') {
        out(`REFUSED ${problem.name}`);
        continue;
      }
      const { known } = problem;
      if (answer.bound > known.best || answer.makespan < known.bound) {
        out(`FALSE ${problem.name}: ${answer.bound}…${answer.makespan}, known ${known.bound}…${known.best}`);
        process.exitCode = 1;
      }
      const path = criticalPath(problem);
      overBest!.push((100 * (answer.makespan - known.best)) / known.best);
      overPath!.push((100 * (answer.makespan - path)) / path);
      passOver!.push((100 * (onePass(problem) - path)) / path);
      knownOver!.push((100 * (known.best - path)) / path);
      if (answer.status === 'optimal') proven++;
      if (answer.makespan <= known.best) equal++;
      if (answer.status === 'optimal' || answer.makespan <= known.best) either++;
      if (asked.worst && (answer.status !== 'optimal' || answer.makespan > known.best))
        out(
          `  ${problem.name} ${answer.bound}…${answer.makespan} known ${known.bound}…${known.best} steps ${answer.steps}`,
        );
    }
    const sorted = [...times!].sort((a, b) => a - b);
    out(
      `${set.padEnd(6)}${String(list.length).padStart(12)}${show(limit, 12, 1)}${show(mean(overBest!), 12)}${show(mean(overPath!), 12)}${String(proven).padStart(12)}${String(equal).padStart(12)}${show((100 * either) / list.length, 12, 1)}${show(sorted[sorted.length >> 1] ?? 0, 12)}${show(sorted.at(-1) ?? 0, 12)}${show(mean(passOver!), 12, 2)}${show(mean(knownOver!), 12, 2)}`,
    );
  }
}
