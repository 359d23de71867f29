import { create } from 'zustand';
import type { Cut } from '../core/bill/index.ts';
import type { CutProblem, CutProblemAnswer } from '../core/cutting/index.ts';
import type { Issue } from '../core/issue/index.ts';
import { findOption, type Outcome, sceneOf, settle } from '../core/outcome.ts';
import {
  applyEdits,
  applyToPlain,
  type Edit,
  type Option,
  type PlainValue,
  type Plan,
  planOf,
  readPlan,
  sharing,
} from '../core/plan/index.ts';
import { cutJobs } from '../core/stock/index.ts';

/** One change that was made: how to undo it, and what to call it. */
interface Change {
  readonly title: string;
  readonly inverse: readonly Edit[];
}

/** The bench: the plan as text and as read, which option and page are looked at, what is selected, what can be undone. */
export interface Bench {
  readonly name: string;
  readonly revision: string | undefined;
  readonly text: string;
  readonly plain: PlainValue | undefined;
  /** The last plan that could be read; stays while the text has faults. */
  readonly plan: Plan | undefined;
  readonly issues: readonly Issue[];
  readonly option: string | undefined;
  readonly against: string | undefined;
  readonly page: string;
  readonly selected: string | undefined;
  readonly note: string | undefined;
  readonly done: readonly Change[];
  readonly undone: readonly Change[];
  /** Something worth a word at the foot of the page. */
  readonly message: string | undefined;
}

export const useBench = create<Bench>()(() => ({
  name: '',
  revision: undefined,
  text: '',
  plain: undefined,
  plan: undefined,
  issues: [],
  option: undefined,
  against: undefined,
  page: 'cover',
  selected: undefined,
  note: undefined,
  done: [],
  undone: [],
  message: undefined,
}));

const set = useBench.setState;
const get = useBench.getState;

/** Puts the text of a plan on the bench. */
export function lay(name: string, text: string, revision?: string): void {
  const { plan, issues, document } = readPlan(text, { file: name });
  const known = get().plan;
  set({
    name,
    text,
    revision,
    issues,
    plain: document.plain as PlainValue | undefined,
    ...(plan && { plan: known ? sharing(known, plan) : plan }),
  });
}

/** Shows a change that is still under the hand; nothing is kept until `change` is called. */
export function preview(edits: readonly Edit[]): void {
  const { plain, plan } = get();
  if (plain === undefined) return;
  const read = planOf(applyToPlain(plain, edits));
  if (read.plan) set({ plan: plan ? sharing(plan, read.plan) : read.plan, issues: [] });
  else set({ issues: read.issues });
}

/** Makes a change: the text, what is read from it, and how to undo it. False when it cannot be made; the issues say why. */
export function change(title: string, edits: readonly Edit[]): boolean {
  const before = get();
  const result = applyEdits(before.text, edits);
  if (!result.ok) {
    set({ issues: result.issues, message: result.issues[0]?.message });
    return false;
  }
  lay(before.name, result.value.text, before.revision);
  set({ done: [...before.done, { title, inverse: result.value.inverse }], undone: [], message: undefined });
  return true;
}

function step(from: 'done' | 'undone', to: 'done' | 'undone'): void {
  const before = get();
  const last = before[from].at(-1);
  if (!last) return;
  const result = applyEdits(before.text, last.inverse);
  if (!result.ok) {
    set({ message: `"${last.title}" cannot be taken back: the plan was changed elsewhere since.` });
    return;
  }
  lay(before.name, result.value.text, before.revision);
  set({
    [from]: before[from].slice(0, -1),
    [to]: [...before[to], { title: last.title, inverse: result.value.inverse }],
    message: `${from === 'done' ? 'Undone' : 'Done again'}: ${last.title}`,
  });
}
export const undo = (): void => step('done', 'undone');
export const redo = (): void => step('undone', 'done');

/** Cutting plans known so far, by their problem: the best answer, and whether the search for it has ended. */
const cutting = new Map<string, { answer: CutProblemAnswer; final: boolean }>();
const keyOf = (problem: CutProblem): string => JSON.stringify(problem);
export const MOST_CUTTING = 400;

export function keepAnswer(problem: CutProblem, answer: CutProblemAnswer, final: boolean): void {
  cutting.delete(keyOf(problem));
  cutting.set(keyOf(problem), { answer, final });
  if (cutting.size > MOST_CUTTING) cutting.delete(cutting.keys().next().value!);
}

/** An option worked out as far as its cutting plans are known; `waiting` are the problems still to be answered. */
export interface Worked {
  readonly outcome: Outcome;
  readonly waiting: readonly CutProblem[];
}

export function work(plan: Plan, option: Option, today: string): Worked {
  const scene = sceneOf(plan, option);
  const waiting: CutProblem[] = [];
  const cuts: Cut[] = [];
  for (const job of cutJobs(scene.parts, plan)) {
    const known = cutting.get(keyOf(job.problem));
    if (!known?.final) waiting.push(job.problem);
    if (known) cuts.push({ job, answer: known.answer });
  }
  return { outcome: settle(scene, cuts, today), waiting };
}

export const optionOf = (plan: Plan, id: string | undefined): Option => findOption(plan, id) ?? plan.options[0]!;
