import type { Issue } from '../../issue/index.ts';
import type { CalendarAnswer, CalendarProblem } from './problem.ts';

/**
 * Judges an answer from the problem alone; shares no code with the solver. Empty means sound.
 * Hours are compared to a millionth, far finer than the thousandth they are given to and coarser than the arithmetic's rounding.
 */
export function checkCalendar(problem: CalendarProblem, answer: CalendarAnswer): readonly Issue[] {
  if (answer.name !== problem.name)
    return [
      { path: ['name'], message: 'the answer is to another problem', found: answer.name, expected: problem.name },
    ];
  if (answer.status === 'infeasible')
    return answer.issues.length > 0 ? [] : [{ path: ['issues'], message: 'a refusal says why' }];
  const issues: Issue[] = [];
  const close = 1e-6;
  const ends = new Map<string, number>();
  const known = new Set(problem.tasks.map((task) => String(task.id)));
  for (const id of Object.keys(answer.starts))
    if (!known.has(id)) issues.push({ path: ['starts', id], message: 'there is no such task' });
  let last = 0;
  for (const task of problem.tasks) {
    const start = answer.starts[String(task.id)];
    if (start === undefined || !Number.isFinite(start) || start < 0) {
      issues.push({ path: ['starts', String(task.id)], message: 'the task has no start', found: String(start) });
      continue;
    }
    ends.set(String(task.id), start + task.hours);
    last = Math.max(last, start + task.hours);
  }
  if (issues.length > 0) return issues;
  for (const task of problem.tasks)
    for (const id of task.before)
      if (answer.starts[String(id)]! < ends.get(String(task.id))! - close)
        issues.push({
          path: ['starts', String(id)],
          message: `starts before task ${task.id} has ended`,
          found: String(answer.starts[String(id)]),
          expected: `${ends.get(String(task.id))} or later`,
        });
  // The amount held changes only where a task starts, so only those moments need looking at.
  problem.resources.forEach((there, r) => {
    for (const moment of problem.tasks) {
      const now = answer.starts[String(moment.id)]!;
      let held = 0;
      for (const task of problem.tasks)
        if (answer.starts[String(task.id)]! <= now + close && ends.get(String(task.id))! > now + close)
          held += task.needs[r]!;
      if (held > there + close)
        issues.push({
          path: ['resources', r],
          message: `too much is held at ${now} h`,
          found: String(held),
          expected: `at most ${there}`,
        });
    }
  });
  if (Math.abs(last - answer.makespan) > close)
    issues.push({
      path: ['makespan'],
      message: 'is not when the last task ends',
      found: String(answer.makespan),
      expected: String(last),
    });
  if (answer.bound > answer.makespan + close)
    issues.push({ path: ['bound'], message: 'is above the makespan', found: String(answer.bound) });
  if ((answer.status === 'optimal') !== Math.abs(answer.bound - answer.makespan) <= close)
    issues.push({ path: ['status'], message: 'does not agree with the bound', found: answer.status });
  return issues;
}
