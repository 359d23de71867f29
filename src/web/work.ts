import type { Cut } from '../core/bill/index.ts';
import type { CutProblem, CutProblemAnswer } from '../core/cutting/index.ts';
import { type Outcome, type Scene, type SetFindings, type Solids, settle, solidsOf } from '../core/outcome.ts';
import type { Option, Plan } from '../core/plan/index.ts';
import { remember } from '../core/remember.ts';
import { type CutJob, cutJobs } from '../core/stock/index.ts';

/** Cutting plans known so far, by their problem: the best answer, and whether the search for it has ended. */
interface Known {
  readonly answer: CutProblemAnswer;
  readonly final: boolean;
}
const cutting = new Map<string, Known>();
const keys = new WeakMap<CutProblem, string>();
export function keyOf(problem: CutProblem): string {
  let key = keys.get(problem);
  if (key === undefined) {
    key = JSON.stringify(problem);
    keys.set(problem, key);
  }
  return key;
}
const MOST_CUTTING = 400;

/** A rough answer takes the place of none, not of a better one. */
export function keepRough(problem: CutProblem, answer: CutProblemAnswer): void {
  if (!cutting.has(keyOf(problem))) keepAnswer(problem, answer, false);
}
export function keepAnswer(problem: CutProblem, answer: CutProblemAnswer, final: boolean): void {
  cutting.delete(keyOf(problem));
  cutting.set(keyOf(problem), { answer, final });
  if (cutting.size > MOST_CUTTING) cutting.delete(cutting.keys().next().value!);
}

/** No better answer will come: what is known is what is cut by. */
export function endSearch(problem: CutProblem): void {
  const known = cutting.get(keyOf(problem));
  if (known) keepAnswer(problem, known.answer, true);
}

/** An option worked out as far as its cutting plans are known. */
export interface Worked {
  readonly outcome: Outcome;
  /** Problems whose best answer is still being looked for, and those of them that have none yet. */
  readonly waiting: readonly CutProblem[];
  readonly unknown: readonly CutProblem[];
  /** The findings are loaded: mouldings and notes are there too. */
  readonly whole: boolean;
}

interface Jobs {
  readonly scene: Scene;
  readonly jobs: readonly CutJob[];
  readonly whole: boolean;
}
const scenes = remember<Option, Jobs>();
const works = remember<Jobs, Worked>();

/** What follows from the solids; undefined while it is not loaded. */
type Finish = (solids: Solids) => Scene;

const jobsOf = (plan: Plan, option: Option, finish: Finish | undefined): Jobs =>
  scenes(option, [plan, finish], () => {
    const solids = solidsOf(plan, option);
    const scene = finish ? finish(solids) : { ...solids, notes: [] };
    return { scene, jobs: cutJobs(scene.parts, plan), whole: finish !== undefined };
  });

/** What has to be cut and has no plan yet. */
export const unknownOf = (plan: Plan, option: Option, finish: Finish): readonly CutProblem[] =>
  jobsOf(plan, option, finish).jobs.flatMap(({ problem }) => (cutting.has(keyOf(problem)) ? [] : [problem]));

/** Nothing is worked out again where an answer that came has to do with something else, or was there already. */
export function work(
  plan: Plan,
  option: Option,
  today: string,
  finish: Finish | undefined,
  found?: SetFindings,
): Worked {
  const made = jobsOf(plan, option, finish);
  const known = made.jobs.map((job) => cutting.get(keyOf(job.problem)));
  return works(made, [today, found, ...known], () => settled(made, known, today, found));
}

function settled(
  { scene, jobs, whole }: Jobs,
  answers: readonly (Known | undefined)[],
  today: string,
  found: SetFindings | undefined,
): Worked {
  const waiting: CutProblem[] = [];
  const unknown: CutProblem[] = [];
  const uncut = new Set<string>();
  const cuts: Cut[] = [];
  for (const [i, job] of jobs.entries()) {
    const known = answers[i];
    if (known) cuts.push({ job, answer: known.answer });
    else {
      unknown.push(job.problem);
      uncut.add(`no-stock:${job.stock}`);
    }
    if (!known?.final) waiting.push(job.problem);
  }
  const outcome = settle(scene, cuts, today, found);
  if (unknown.length === 0) return { outcome, waiting, unknown, whole };
  // what is only not cut yet is nothing to be told off for
  const notes = outcome.notes.filter((note) => !uncut.has(note.id));
  const stops = notes.filter((note) => note.verdict === 'stop').length;
  return { outcome: { ...outcome, notes, tally: { ...outcome.tally, stops } }, waiting, unknown, whole };
}
