import { explainThere, type Issue } from '../core/issue/index.ts';
import { findOption } from '../core/outcome.ts';
import {
  applyEdits,
  applyToPlain,
  difference,
  type Edit,
  type Option,
  PLAN_VERSION,
  type PlainValue,
  type Plan,
  type PlanRead,
  planOf,
  readPlan,
  sharing,
} from '../core/plan/index.ts';
import type { ReadPlan } from '../core/workspace/index.ts';
import { type Change, type History, keepHistory, keptHistory } from './history.ts';
import { whenIdle } from './idle.ts';
import { keepOptions, keptOptions, type Options } from './kept-options.ts';
import { create } from './store.ts';

/** The bench: the plan as text and as read, which option and page are looked at, what is selected, what can be undone. */
export interface Bench extends History, Options {
  readonly name: string;
  readonly text: string;
  /** What the server calls the last text of it that is known here. */
  readonly revision: number;
  readonly plain: PlainValue | undefined;
  /** The last plan that could be read; stays while the text has faults. */
  readonly plan: Plan | undefined;
  readonly issues: readonly Issue[];
  /** A piece, a part of one (`scores/left-side`), a bay of one (`scores/bay-1`), or a thing of the room. */
  readonly selected: string | undefined;
  readonly note: string | undefined;
  /** Something worth a word at the foot of the page. */
  readonly message: string | undefined;
  /** A size is under the hand: nothing slow is worth starting. */
  readonly dragging: boolean;
  /** The edits that are under the hand. */
  readonly held: readonly Edit[];
}

export const useBench = create<Bench>(() => ({
  name: '',
  text: '',
  revision: 0,
  plain: undefined,
  plan: undefined,
  issues: [],
  option: undefined,
  against: undefined,
  selected: undefined,
  note: undefined,
  done: [],
  undone: [],
  below: 0,
  message: undefined,
  dragging: false,
  held: [],
}));

const set = useBench.setState;
const get = useBench.getState;
export const say = (message: string | undefined): void => set({ message });

/** What a text was found to say. */
type Read = Pick<PlanRead, 'plan' | 'issues'> & { readonly document: { readonly plain?: unknown } };

/** Puts the text of a plan on the bench. */
export function lay(name: string, text: string, read: Read = readPlan(text, { file: name })): void {
  const { plan, issues, document } = read;
  const known = get().name === name ? get().plan : undefined;
  if (plan) drawn = document.plain as PlainValue;
  set({
    name,
    text,
    issues,
    dragging: false,
    plain: document.plain as PlainValue | undefined,
    ...(plan && { plan: known ? sharing(known, plan) : plan }),
  });
}

/** Puts another plan on the bench, with what can still be undone in it. One that somebody has read already is not read again. */
export function layAnew(name: string, text: string, revision: number, read?: ReadPlan): void {
  set({ revision, plan: undefined, option: undefined, against: undefined, selected: undefined, note: undefined });
  lay(name, text, read && { plan: read.plan, issues: [], document: read });
  set({ ...keptHistory(name, text, revision), ...keptOptions(name, get().plan) });
  if (read) setTimeout(() => warmUp(text, read), WARM_UP);
}

useBench.subscribe((now, before) => {
  // without a plan another one is being laid out
  if (now.plan && (now.option !== before.option || now.against !== before.against)) keepOptions(now.name, now);
});

/** ms after the opening: by then the page stands. */
const WARM_UP = 1500;
/** What the first change does for the first time, done ahead: to read the plan, and to write into its text. */
const warmUp = (text: string, { plain }: ReadPlan): void =>
  whenIdle(
    () => planOf(plain),
    () => applyEdits(text, [{ op: 'set', path: ['setwright'], value: PLAN_VERSION }]),
  );

/** Shows a change that is still under the hand; nothing is kept until `change` is called. No edits: as it was. */
export function preview(edits: readonly Edit[]): void {
  const { plain, plan } = get();
  if (plain === undefined) return;
  const changed = applyToPlain(plain, edits);
  if (!changed.ok) return;
  const read = planOf(changed.value);
  if (read.plan)
    set({ plan: plan ? sharing(plan, read.plan) : read.plan, issues: [], dragging: edits.length > 0, held: edits });
}

/** What the plan says that is drawn: of a text with faults another one, the last that could be read. */
let drawn: PlainValue | undefined;
/** What an entry of a list begins with: its id, or the name of the piece. */
const nameIn = (entry: unknown): string => `${Object.values(entry ?? {})[0]}`;
/** Whether places by number, which come from what is drawn, are places of the same things in the text. */
const meansTheSame = (edits: readonly Edit[], plain: PlainValue | undefined): boolean =>
  edits.every(
    (edit) =>
      edit.op === 'text' ||
      [edit.path, edit.op === 'move' ? edit.from : []].every((path) => {
        let [a, b]: unknown[] = [drawn, plain];
        return path.every((step) => {
          [a, b] = [a, b].map((at) => (at as Record<string | number, unknown> | undefined)?.[step]);
          return typeof step === 'string' || nameIn(a) === nameIn(b);
        });
      }),
  );

/** Makes a change: the text, what is read from it, and how to undo it. What is wrong with it when it cannot be made; `told` by the caller, or here. */
export function change(title: string, edits: readonly Edit[], told = false): readonly Issue[] {
  if (edits.length === 0) return [];
  const before = get();
  if (before.issues.length > 0 && !meansTheSame(edits, before.plain)) {
    const message = 'The file was changed elsewhere and has faults: put these right first.';
    say(message);
    preview([]);
    return [{ path: [], message }];
  }
  const result = applyEdits(before.text, edits);
  const read = result.ok ? (readByEdits(edits) ?? readPlan(result.value.text, { file: before.name })) : undefined;
  const issues = result.ok ? read!.issues : result.issues;
  // a plan that has faults already may keep them, but no change adds one
  if (!result.ok || issues.length > before.issues.length) {
    set({ message: told ? undefined : `${title}: ${issues[0] ? explainThere(issues[0]) : 'this cannot be done'}.` });
    preview([]);
    return issues;
  }
  lay(before.name, result.value.text, read);
  const { inverse } = result.value;
  set({ ...further(before, { title, inverse }), undone: [], message: title });
  keepHistory(before.name, get().text, get());
  return [];
}

/** The history with one step more; a text that cannot be read is nothing to come back to. */
const further = ({ issues, done, revision }: Bench, made: Omit<Change, 'base'>): Partial<History> =>
  issues.length > 0 ? { done: [], below: revision } : { done: [...done, { ...made, base: revision }] };

/** Puts a text on the bench that was written elsewhere: a step of its own between those that were made here. One that was asked for here has a title. */
export function takeOver(name: string, text: string, title?: string): void {
  const before = get();
  const inverse = difference(text, before.text);
  const made =
    title === undefined ? { title: 'a change made elsewhere', inverse, elsewhere: true } : { title, inverse };
  lay(name, text);
  if (made.inverse.length === 0) return;
  const { revision } = before;
  // what is done here leaves nothing to be done again
  const undone = title === undefined ? before.undone : [];
  if (title !== undefined) set({ undone });
  set({ ...further(before, made), ...(undone.length > 0 && { undone: [...undone, { ...made, base: revision }] }) });
  keepHistory(name, text, get());
}

/**
 * What the changed text says, from what the old one said: the same as reading it, without doing so. Only where nothing is wrong with
 * either, since places of faults are those of the text.
 */
function readByEdits(edits: readonly Edit[]): Read | undefined {
  const { plain, issues } = get();
  if (plain === undefined || issues.length > 0 || edits.some((edit) => edit.op === 'text')) return undefined;
  const changed = applyToPlain(plain, edits);
  const read = changed.ok ? planOf(changed.value) : undefined;
  if (!changed.ok || !read?.plan || read.issues.length > 0) return undefined;
  return { plan: read.plan, issues: [], document: { plain: changed.value } };
}

/** A whole new text, as one change that can be undone. */
export function changeText(title: string, text: string): void {
  const { text: old } = get();
  change(title, [{ op: 'text', at: 0, old, new: text }]);
}

/** Takes the last step back, or does it again. */
export function step(from: 'done' | 'undone'): void {
  const before = get();
  const last = before[from].at(-1);
  if (!last) return;
  const to = from === 'done' ? 'undone' : 'done';
  const result = applyEdits(before.text, last.inverse);
  const read = result.ok ? readPlan(result.value.text, { file: before.name }) : undefined;
  if (!result.ok || read!.issues.length > before.issues.length) {
    giveUp(last.title);
    return;
  }
  lay(before.name, result.value.text, read);
  set({
    [from]: before[from].slice(0, -1),
    [to]: [...before[to], { ...last, inverse: result.value.inverse }],
    message: `${from === 'done' ? 'Undone' : 'Done again'}: ${last.title}${unseen(before.plan)}`,
  });
  keepHistory(before.name, get().text, get());
}
/** Where all that changed lies in an option that is not looked at: else nobody sees that anything did. */
function unseen(old: Plan | undefined): string {
  const { plan, option } = get();
  const [own, ...more] = plan?.options.filter((one) => !old?.options.includes(one)) ?? [];
  if (!plan || !own || more.length > 0 || own === optionOf(plan, option)) return '';
  return old?.options.some((one) => one.id === own.id) ? `, in ${own.title ?? own.id}` : '';
}
/** What was made here no longer fits, but the server has every text there was. */
export function giveUp(title: string): void {
  const message = `"${title}" cannot be taken back by itself: the plan was changed elsewhere since. Undo goes back by whole revisions from here.`;
  set({ message, done: [], undone: [], below: get().revision });
}

export const optionOf = (plan: Plan, id: string | undefined): Option =>
  findOption(plan, id) ?? findOption(plan) ?? plan.options[0]!;
