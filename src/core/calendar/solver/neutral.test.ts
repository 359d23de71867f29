import { expect, it } from 'vitest';
import { CALENDAR_SHAPES, writeCalendarAnswer } from './neutral.ts';
import { solveCalendar } from './solve.ts';

it('reads a line of JSON and writes its answer as one', () => {
  // Two tasks of three hours after one of three, in a shop where both fit at once: six hours.
  const line =
    '{"name":"z","kind":"calendar","resources":[4,2],"tasks":[{"id":1,"hours":3,"needs":[1,0],"before":[2,3]},{"id":2,"hours":3,"needs":[2,1],"before":[]},{"id":3,"hours":3,"needs":[2,1]}],"known":{}}';
  const problem = CALENDAR_SHAPES.calendar.parse(JSON.parse(line));
  const told = writeCalendarAnswer(solveCalendar(problem, { steps: 100 }), 0.0204);
  expect(told).not.toContain('\n');
  expect(JSON.parse(told)).toMatchObject({
    status: 'optimal',
    makespan: 6,
    bound: 6,
    seconds: 0.02,
    starts: { 1: 0, 2: 3, 3: 3 },
  });
});
it('refuses what has another shape', () => {
  expect(CALENDAR_SHAPES.calendar.safeParse({ name: 'z', kind: 'calendar', resources: 4, tasks: [] }).success).toBe(
    false,
  );
});
