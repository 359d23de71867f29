import type { Note } from '../core/notes/index.ts';
import { solidsOf } from '../core/outcome.ts';
import type { Edit, Plan } from '../core/plan/index.ts';
import { type Bench, optionOf, preview, useBench } from './bench.ts';
import { useFindings } from './findings.ts';
import type { FromHand, Lying, ToHand, Told } from './hand-protocol.ts';
import { whenIdle } from './idle.ts';
import { canPaint, type Framed, frameOf, type Seen } from './pane.ts';
import { create } from './store.ts';
import { keepRough, unknownOf } from './work.ts';
import { workHere } from './worked-plan.ts';

/**
 * What is under the hand is worked out and drawn by a worker of its own, on a canvas over the sheet, so that the page itself is free for the
 * next move: it only takes over what is said of it. The worker is told beforehand what lies on the bench; where it does not know that yet,
 * or cannot paint, the page does it all itself.
 */
export interface Drawn extends Pick<Told, 'tally' | 'pieces' | 'standing'> {
  readonly notes: readonly Note[];
}
interface Hand {
  /** What is held is worked out beside the page. */
  readonly beside: boolean;
  /** The newest state of it that is known. */
  readonly drawn: Drawn | undefined;
  /** A picture of it is on the canvas for certain: what lies below need not be painted. */
  readonly covers: boolean;
  /** Which picture of it was painted last. */
  readonly picture: number;
  /** What the worker paints on. */
  readonly canvas: HTMLCanvasElement | undefined;
}
const NONE = { beside: false, drawn: undefined, covers: false, picture: 0 } as const;
export const useHand = create<Hand>(() => ({ ...NONE, canvas: undefined }));

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
let shown: Seen | undefined;
/** How the canvas is to lie over it, until it is scrolled; and whether it lies so already. */
let framed: Framed | undefined;
let placed: Framed | undefined;

const post = (message: ToHand): void => worker!.postMessage(message);

function start(): Worker {
  const made = new Worker(new URL('./hand.worker.ts', import.meta.url), { type: 'module' });
  made.onmessage = ({ data }: MessageEvent<FromHand>) => {
    if (made !== worker || data.revision < laid) return;
    if (data.type === 'told') heard(data.revision, data.told);
    else painted(data.revision, data.painted);
  };
  const canvas = document.createElement('canvas');
  const offscreen = canvas.transferControlToOffscreen();
  made.postMessage(offscreen, [offscreen]);
  useHand.setState({ canvas });
  // a fault of the worker is no end of the page
  made.onerror = () => {
    if (made !== worker) return;
    forget();
    const { dragging, held } = useBench.getState();
    useHand.setState({ ...NONE, canvas: undefined });
    if (dragging) preview(held);
  };
  return made;
}
function forget(): void {
  clearTimeout(pending);
  worker?.terminate();
  worker = undefined;
  known = last = framed = placed = undefined;
  ready = busy = false;
}

function heard(of: number, told: Told | undefined): void {
  if (told) last = taken(told, last);
  if (of === laid) ready = told !== undefined;
  if (told && of >= first && useHand.getState().beside) useHand.setState({ drawn: last });
}
function painted(of: number, isThere: boolean): void {
  busy = false;
  const { beside, canvas } = useHand.getState();
  if (!beside) return;
  if (isThere && of >= first) {
    // where it was painted for
    if (framed && placed !== framed) Object.assign(canvas!.style, framed.place);
    placed = framed;
    // the picture comes by another way than the message, a frame later at most: with the second one the first is there
    useHand.setState(({ picture }) => ({ covers: picture > 0, picture: picture + 1 }));
  }
  if (again) ask();
}

/** A state as it follows from the one before. */
function taken({ notes, cutting, ...state }: Told, before: Drawn | undefined): Drawn {
  for (const [problem, answer] of cutting) keepRough(problem, answer);
  const told = notes.map((note) => (typeof note === 'number' ? before!.notes[note]! : note));
  return {
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
  const { canvas } = useHand.getState();
  if (busy || !canvas || !shown) return;
  framed ??= frameOf(canvas, shown);
  if (!framed) return;
  busy = true;
  const { held: edits, selected, note } = useBench.getState();
  post({
    type: 'held',
    revision: ++revision,
    edits,
    ...(shown.view && { hold: shown.view }),
    pane: { ...framed.pane, selected, note },
  });
}
/** The sheet may lie otherwise under its window. */
function reframe(): void {
  framed = undefined;
  if (useHand.getState().beside && useBench.getState().dragging) ask();
}
addEventListener('scroll', reframe, true);
addEventListener('resize', reframe);

const isSame = (a: Lying, b: Lying): boolean =>
  a.cutting.length === b.cutting.length &&
  a.cutting.every(([, answer], i) => answer === b.cutting[i]![1]) &&
  (Object.keys(a) as (keyof Lying)[]).every((key) => key === 'cutting' || a[key] === b[key]);

const PAUSE = 200;
let pending: ReturnType<typeof setTimeout> | undefined;

/** Tells the worker, when there is time for it, what lies on the bench and how its page lies on the paper. */
export function lies(lying: Lying): void {
  clearTimeout(pending);
  if (!canPaint() || (known && isSame(known, lying))) return;
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

export const look = (page: Seen | undefined): void => {
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
    framed = undefined;
    useHand.setState({ ...NONE, beside: ready && isKnown(now) });
  } else if (!now.dragging && useHand.getState().beside) {
    again = false;
    if (before.dragging && now.plain !== before.plain && now.plan) letGo(now.plan);
    // what else is changed is not what the worker drew
    else if (now.plan !== before.plan || now.option !== before.option || before.dragging) useHand.setState(NONE);
  }
  if (now.held !== before.held && now.dragging && useHand.getState().beside) ask();
});

/**
 * Follows what is held between two pictures of the display as well: some browsers tell of a pointer as soon as they know of it
 * (`pointerrawupdate` of Pointer Events, level 3; only on pages of this machine), and a worker that has nothing to do need not wait for the
 * next picture.
 */
export function followBetween(held: HTMLElement, pull: (event: PointerEvent) => void): void {
  const early = (event: Event): void => {
    if (useHand.getState().beside && !busy) pull(event as PointerEvent);
  };
  held.addEventListener('pointerrawupdate', early);
  const end = (): void => held.removeEventListener('pointerrawupdate', early);
  held.addEventListener('lostpointercapture', end, { once: true });
}

/** Shows edits that are under the hand; nothing is kept until `change` is called. */
export function holding(edits: readonly Edit[]): void {
  const now = useBench.getState();
  const beside = now.dragging ? useHand.getState().beside : edits.length > 0 && ready && isKnown(now);
  // the worker reads what they make of the plan
  if (beside) useBench.setState({ dragging: true, held: edits, issues: [] });
  else preview(edits);
}
