import type { Page } from '../core/drawing/index.ts';
import type { Note } from '../core/notes/index.ts';
import { solidsOf } from '../core/outcome.ts';
import type { Edit, Plan } from '../core/plan/index.ts';
import { type Bench, optionOf, preview, useBench } from './bench.ts';
import { useFindings } from './findings.ts';
import type { FromHand, Lying, ToHand, Told } from './hand-protocol.ts';
import { whenIdle } from './idle.ts';
import type { Sheet } from './packet-protocol.ts';
import { patched } from './redraw.ts';
import type { Step } from './sheet-svg.tsx';
import { create } from './store.ts';
import { keepRough, unknownOf } from './work.ts';
import { workHere } from './worked-plan.ts';

/**
 * What is under the hand is worked out and drawn by a worker of its own, so that the page itself is free for the next move: it only takes
 * over what changed. The worker is told beforehand what lies on the bench; where it does not know that yet, the page does it all itself.
 */
export interface Drawn extends Pick<Told, 'tally' | 'pieces' | 'standing'> {
  readonly sheet: Sheet;
  readonly step: Step;
  readonly notes: readonly Note[];
}
interface Hand {
  /** What is held is worked out beside the page. */
  readonly beside: boolean;
  /** The newest state of it that is known. */
  readonly drawn: Drawn | undefined;
}
const NONE: Hand = { beside: false, drawn: undefined };
export const useHand = create<Hand>(() => NONE);

let worker: Worker | undefined;
let revision = 0;
/** What the worker was told lies there, and whether it has answered. */
let known: Lying | undefined;
let ready = false;
/** The revision in which it was told so. */
let laid = 0;
let last: Drawn | undefined;
/** A state is being worked out; what the hand did meanwhile is asked next. */
let busy = false;
let again = false;
/** The first revision of this hand: what is told of an earlier one comes too late. */
let first = 0;
/** The page that is looked at, if it is one that is worked on, and where its view lies. */
let shown: Pick<Page, 'id' | 'view'> | undefined;

const post = (message: ToHand): void => worker!.postMessage(message);

function start(): Worker {
  const made = new Worker(new URL('./hand.worker.ts', import.meta.url), { type: 'module' });
  made.onmessage = ({ data }: MessageEvent<FromHand>) => {
    if (made !== worker || data.revision < laid) return;
    if (data.told) last = taken(data.told, last);
    if (data.revision === laid) ready = data.told !== undefined;
    busy = false;
    if (!useHand.getState().beside) return;
    if (data.told && data.revision >= first) useHand.setState({ drawn: last });
    if (again) ask();
  };
  // a fault of the worker is no end of the page
  made.onerror = () => {
    if (made !== worker) return;
    forget();
    const { dragging, held } = useBench.getState();
    useHand.setState(NONE);
    if (dragging) preview(held);
  };
  return made;
}
function forget(): void {
  clearTimeout(pending);
  worker?.terminate();
  worker = undefined;
  known = last = undefined;
  ready = busy = false;
}

/** A state as it follows from the one before. */
function taken({ page, around, patch, notes, cutting, ...state }: Told, before: Drawn | undefined): Drawn {
  for (const [problem, answer] of cutting) keepRough(problem, answer);
  const over = before?.sheet.parts.marks ?? [];
  const told = notes.map((note) => (typeof note === 'number' ? before!.notes[note]! : note));
  return {
    sheet: { page, parts: { ...around, marks: patched(over, patch) } },
    step: { over, patch },
    // the same list where all of it is as it was: nobody goes through it again
    notes:
      before && told.length === before.notes.length && told.every((note, i) => note === before.notes[i])
        ? before.notes
        : told,
    ...state,
  };
}

function ask(): void {
  again = busy;
  if (busy) return;
  busy = true;
  post({
    type: 'held',
    revision: ++revision,
    edits: useBench.getState().held,
    ...(shown?.view && { hold: shown.view }),
  });
}

const isSame = (a: Lying, b: Lying): boolean =>
  a.cutting.length === b.cutting.length &&
  a.cutting.every(([, answer], i) => answer === b.cutting[i]![1]) &&
  (Object.keys(a) as (keyof Lying)[]).every((key) => key === 'cutting' || a[key] === b[key]);

const PAUSE = 200;
let pending: ReturnType<typeof setTimeout> | undefined;

/** Tells the worker, when there is time for it, what lies on the bench and how its page lies on the paper. */
export function lies(lying: Lying): void {
  clearTimeout(pending);
  if (known && isSame(known, lying)) return;
  // it comes up meanwhile
  worker ??= start();
  pending = setTimeout(() => {
    if (useBench.getState().dragging) return;
    // what is only known better by now is no reason to do without what was told
    ready &&= known?.plain === lying.plain && known.option === lying.option && known.page === lying.page;
    known = lying;
    last = undefined;
    busy = true;
    laid = ++revision;
    post({ type: 'lies', revision: laid, lying });
  }, PAUSE);
}

export const look = (page: Pick<Page, 'id' | 'view'> | undefined): void => {
  shown = page;
};

/** What was let go of is worked out by the page itself, a part at a time; the worker's drawing of it stands until then. */
function letGo(plan: Plan): void {
  const option = optionOf(plan, useBench.getState().option);
  const { finish } = useFindings.getState();
  const unlessChanged = (work: () => unknown) => (): void => {
    if (useHand.getState().beside && useBench.getState().plan === plan) work();
  };
  whenIdle(
    ...[
      () => solidsOf(plan, option),
      () => finish && unknownOf(plan, option, finish),
      () => workHere(plan, option),
      () => useHand.setState(NONE),
    ].map(unlessChanged),
  );
}

const isKnown = ({ plan, plain, option }: Bench): boolean =>
  known !== undefined &&
  known.plain === plain &&
  known.page === shown?.id &&
  plan !== undefined &&
  known.option === optionOf(plan, option).id;

useBench.subscribe((now, before) => {
  if (now.dragging && !before.dragging) {
    clearTimeout(pending);
    first = revision + 1;
    useHand.setState({ beside: ready && isKnown(now), drawn: undefined });
  } else if (!now.dragging && useHand.getState().beside) {
    again = false;
    if (before.dragging && now.plain !== before.plain && now.plan) letGo(now.plan);
    // what else is changed is not what the worker drew
    else if (now.plan !== before.plan || now.option !== before.option || before.dragging) useHand.setState(NONE);
  }
  if (now.held !== before.held && now.dragging && useHand.getState().beside) ask();
});

/** Shows edits that are under the hand; nothing is kept until `change` is called. */
export function holding(edits: readonly Edit[]): void {
  const now = useBench.getState();
  const beside = now.dragging ? useHand.getState().beside : edits.length > 0 && ready && isKnown(now);
  // the worker reads what they make of the plan
  if (beside) useBench.setState({ dragging: true, held: edits, issues: [] });
  else preview(edits);
}
