import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkCalendar } from './check.ts';
import type { CalendarProblem } from './problem.ts';
import { solveCalendar } from './solve.ts';

const anyProblem: fc.Arbitrary<CalendarProblem> = fc
  .record({
    resources: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 3 }),
    sizes: fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.array(fc.nat(), { minLength: 3, maxLength: 3 })), {
      minLength: 1,
      maxLength: 6,
    }),
    arrows: fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 6 }),
    unit: fc.constantFrom(1, 0.5, 0.25, 0.1),
    // amounts that need more than one word of lanes
    grain: fc.constantFrom(1, 300_000),
  })
  .map(({ resources, sizes, arrows, unit, grain }) => {
    const n = sizes.length;
    const before = sizes.map((): string[] => []);
    for (const [a, b] of arrows) {
      const [from, to] = [a % n, b % n].sort((x, y) => x - y) as [number, number];
      if (from !== to) before[from]!.push(`t${to}`);
    }
    return {
      name: 'any',
      kind: 'calendar',
      resources: resources.map((there) => there * grain + (grain > 1 ? 1 : 0)),
      tasks: sizes.map(([hours, needs], i) => ({
        id: `t${i}`,
        hours: Number((hours * unit).toFixed(2)),
        needs: resources.map((there, r) => (needs[r]! % (there + 1)) * grain),
        before: before[i]!,
      })),
    };
  });

/** The shortest end by trying every order of the tasks, each as early as it goes: some such schedule is among the best. */
function byAllOrders(problem: CalendarProblem): number {
  const { tasks, resources } = problem;
  // In twentieths of an hour, so that fractions cannot drift.
  const long = tasks.map((task) => Math.round(task.hours * 20));
  let best = Number.POSITIVE_INFINITY;
  const placed = new Map<number, number>();
  const go = (end: number): void => {
    if (end >= best) return;
    if (placed.size === tasks.length) {
      best = end;
      return;
    }
    tasks.forEach((task, i) => {
      if (placed.has(i)) return;
      const pre = tasks.flatMap((other, k) => (other.before.includes(task.id) ? [k] : []));
      if (!pre.every((k) => placed.has(k))) return;
      let start = Math.max(0, ...pre.map((k) => placed.get(k)! + long[k]!));
      const room = (moment: number): boolean =>
        resources.every((there, r) => {
          let held = task.needs[r]!;
          for (const [k, from] of placed) if (from <= moment && moment < from + long[k]!) held += tasks[k]!.needs[r]!;
          return held <= there;
        });
      for (;;) {
        let clash = -1;
        for (let moment = start; moment < start + long[i]!; moment++) if (!room(moment)) clash = moment;
        if (clash < 0) break;
        start = clash + 1;
      }
      placed.set(i, start);
      go(Math.max(end, start + long[i]!));
      placed.delete(i);
    });
  };
  go(0);
  return best / 20;
}

describe('solveCalendar', () => {
  it('is sound, and as short as the best of all orders, which shares no code with it', () => {
    fc.assert(
      fc.property(anyProblem, (problem) => {
        const answer = solveCalendar(problem, { steps: 3000 });
        expect(checkCalendar(problem, answer)).toEqual([]);
        if (answer.status === 'infeasible') throw new Error('refused');
        expect(answer.status).toBe('optimal');
        expect(answer.makespan).toBeCloseTo(byAllOrders(problem), 9);
      }),
      { numRuns: 300 },
    );
  });
  it('is sound however little effort it is given, and the same each time', () => {
    fc.assert(
      fc.property(anyProblem, fc.nat(40), fc.nat(), (problem, steps, seed) => {
        const answer = solveCalendar(problem, { steps, seed });
        expect(checkCalendar(problem, answer)).toEqual([]);
        expect(solveCalendar(problem, { steps, seed })).toEqual(answer);
      }),
      { numRuns: 60 },
    );
  });
  const line = (over: Partial<CalendarProblem>): CalendarProblem => ({
    name: 'x',
    kind: 'calendar',
    resources: [1],
    tasks: [
      { id: 1, hours: 3, needs: [1], before: [2] },
      { id: 2, hours: 2, needs: [1], before: [] },
    ],
    ...over,
  });
  it.each<[string, CalendarProblem, string]>([
    [
      'a ring',
      line({
        tasks: [
          { id: 1, hours: 1, needs: [0], before: [2] },
          { id: 2, hours: 1, needs: [0], before: [1] },
        ],
      }),
      'ring',
    ],
    ['too much needed', line({ resources: [0] }), 'needs more of resource 1'],
    ['an unknown follower', line({ tasks: [{ id: 1, hours: 1, needs: [0], before: [9] }] }), 'no such task'],
    [
      'one id twice',
      line({
        tasks: [
          { id: 1, hours: 1, needs: [0], before: [] },
          { id: 1, hours: 1, needs: [0], before: [] },
        ],
      }),
      'one id',
    ],
    ['hours below zero', line({ tasks: [{ id: 1, hours: -1, needs: [0], before: [] }] }), 'zero or more'],
    ['needs left out', line({ tasks: [{ id: 1, hours: 1, needs: [], before: [] }] }), 'each resource'],
  ])('refuses %s and says why', (_title, problem, words) => {
    const answer = solveCalendar(problem, { steps: 10 });
    expect(answer.status === 'infeasible' && answer.issues.some((issue) => issue.message.includes(words))).toBe(true);
  });
  it('stops when told, with an answer', () => {
    const tasks = Array.from({ length: 40 }, (_, i) => ({
      id: i,
      hours: 1 + (i % 7),
      needs: [1 + (i % 3), 1 + ((i * 5) % 4)],
      before: i < 30 ? [i + 7 + (i % 3)] : [],
    }));
    const problem: CalendarProblem = { name: 'long', kind: 'calendar', resources: [4, 5], tasks };
    let asked = 0;
    const answer = solveCalendar(problem, { steps: 1e9, shouldStop: () => ++asked > 50 });
    expect(checkCalendar(problem, answer)).toEqual([]);
    expect(asked).toBeLessThan(60);
  });
  it('has nothing to do where there is nothing', () => {
    expect(solveCalendar(line({ tasks: [] }), { steps: 10 })).toMatchObject({ status: 'optimal', makespan: 0 });
  });
});

describe('checkCalendar', () => {
  const problem: CalendarProblem = {
    name: 'z',
    kind: 'calendar',
    resources: [1],
    tasks: [
      { id: 1, hours: 3, needs: [1], before: [2] },
      { id: 2, hours: 2, needs: [1], before: [] },
      { id: 3, hours: 2, needs: [1], before: [] },
    ],
  };
  const sound = {
    name: 'z',
    kind: 'calendar',
    status: 'optimal',
    makespan: 7,
    bound: 7,
    steps: 1,
    starts: { 1: 0, 2: 3, 3: 5 },
  } as const;
  it('finds nothing wrong with a sound answer', () => expect(checkCalendar(problem, sound)).toEqual([]));
  it.each([
    ['too much held', { starts: { 1: 0, 2: 3, 3: 2 } }],
    ['out of order', { starts: { 1: 4, 2: 2, 3: 0 } }],
    ['a task forgotten', { starts: { 1: 0, 2: 3 } }],
    ['a task invented', { starts: { 1: 0, 2: 3, 3: 5, 4: 0 } }],
    ['a wrong makespan', { makespan: 6, bound: 6 }],
    ['a bound too high', { bound: 8 }],
    ['a false claim', { bound: 6 }],
    ['a start before the beginning', { starts: { 1: -1, 2: 3, 3: 5 } }],
  ])('sees %s', (_title, over) => {
    expect(checkCalendar(problem, { ...sound, ...over } as never).length).toBeGreaterThan(0);
  });
});
