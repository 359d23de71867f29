import { learnerOf } from './learn.ts';
import { type Model, modelOf } from './model.ts';
import type { CalendarAnswer, CalendarEffort, CalendarProblem } from './problem.ts';
import { drawFrom } from './random.ts';
import { walkerOf } from './walk.ts';

/** The exact search looks at single units of time; a job longer than this many is left to the other one. */
const LONGEST_LEARNT = 20_000;

/**
 * The shortest calendar the effort finds, with a proven bound. Good schedules are found by a walk, proofs (and better schedules) are learned, in
 * turns; each tells the other what it has found. Anytime: the first schedule stands after one pass over the tasks.
 */
export function solveCalendar(problem: CalendarProblem, effort: CalendarEffort): CalendarAnswer {
  const { name } = problem;
  const read = modelOf(problem);
  if (!read.ok) return { name, kind: 'calendar', status: 'infeasible', issues: read.issues };
  const model = read.value;
  const walker = walkerOf(model, drawFrom(effort.seed ?? 1), effort.steps);
  let bound = leastEnd(model);
  let best = Number.POSITIVE_INFINITY;
  const bestStarts = new Int32Array(model.count);
  let learned = 0;
  const spent = (): number => walker.passes() + learned;
  let cut = false;
  const over = (clock = true): boolean => {
    if (best <= bound) return true;
    if (best === Number.POSITIVE_INFINITY) return false;
    if (spent() >= effort.steps) return true;
    if (clock && !cut && effort.shouldStop?.()) cut = true;
    return cut;
  };
  const answer = (): CalendarAnswer => {
    const starts: Record<string, number> = {};
    model.original.forEach((i, k) => {
      starts[String(problem.tasks[i]!.id)] = exact(bestStarts[k]! * model.unit);
    });
    return {
      name,
      kind: 'calendar',
      status: best <= bound ? 'optimal' : 'feasible',
      makespan: exact(best * model.unit),
      bound: exact(Math.min(bound, best) * model.unit),
      steps: spent(),
      ...(cut && { cutShort: true }),
      starts,
    };
  };
  const take = (starts: Int32Array, end: number): void => {
    if (end >= best) return;
    best = end;
    bestStarts.set(starts);
    effort.onBetter?.(answer());
  };

  const walk = (steps: number): void => {
    for (let k = 0; k < steps && !over(k % CLOCK === 0); k++) {
      const end = walker.step();
      if (end < best) take(walker.starts, end);
    }
  };
  walk(FIRST_WALK);
  if (best > LONGEST_LEARNT) {
    while (!over()) walk(100);
    return answer();
  }
  if (over()) return answer();
  // where there are few steps, no one walk takes most of them
  const atMost = Math.floor(effort.steps / LONG_WALKS);
  const longWalk = Math.max(WALK_TURN, Math.min(LONG_WALK, atMost));
  const nearWalk = Math.max(WALK_TURN, Math.min(NEAR_WALK, atMost));
  const learner = learnerOf(model, bound, best - 1);
  let told = best - 1;
  const isFar = (): boolean => best - bound > FAR * best;
  for (let round = 0; !over(); round++) {
    const far = round > 0 && isFar();
    const turn = far ? SHORT_TURN : LEARN_TURN;
    learner.refute(round % 2 === 0);
    learner.hint(bestStarts);
    let since = 0;
    for (let k = 0; k < turn && !over(k % LEARN_CLOCK === 0); k++) {
      if (best - 1 < told) {
        told = best - 1;
        learner.limit(told);
      }
      learned++;
      const found = learner.step();
      if (found === 'schedule') {
        const starts = Int32Array.from(learner.starts);
        let end = 0;
        for (let i = 0; i < model.count; i++) end = Math.max(end, starts[i]! + model.duration[i]!);
        walker.admit(starts);
        take(starts, end);
      }
      since = learner.bound() > bound ? 0 : since + 1;
      bound = Math.max(bound, learner.bound());
      if (found === 'closed' || (since * model.count >= STALLED && isFar())) break;
    }
    walk(far ? longWalk : nearWalk);
  }
  return answer();
}

/** Steps of the walk, and contradictions, from one look at the clock to the next: a look costs as much as two steps where it is the processor's time. */
const CLOCK = 64;
const LEARN_CLOCK = 4;
const FIRST_WALK = 600;
const LEARN_TURN = 300;
/** Where a first full turn leaves the gap far, good schedules are to be had sooner than proofs: little is learned, and the walk is long. */
const SHORT_TURN = 5;
const FAR = 0.05;
/** Where the gap is far, a turn ends after so many contradictions in a row, told times the tasks, that raise no bound: sixty where there are sixty tasks. */
const STALLED = 3600;
const WALK_TURN = 1000;
const NEAR_WALK = 4000;
const LONG_WALK = 10_000;
const LONG_WALKS = 20;

/** Hours as they would be written: thousandths, free of the dust of arithmetic. */
const exact = (hours: number): number => Math.round(hours * 1000) / 1000;

/** The longest chain, and the work for each resource shared out evenly: whichever is later. */
function leastEnd(model: Model): number {
  let end = model.path;
  for (let r = 0; r < model.resources; r++) {
    let work = 0;
    for (let i = 0; i < model.count; i++) work += model.duration[i]! * model.need[i * model.resources + r]!;
    if (work > 0) end = Math.max(end, Math.ceil(work / model.capacity[r]!));
  }
  return end;
}
