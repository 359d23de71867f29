import { optionOf, useBench } from './bench.ts';
import type { FromGlance, Glance, ToGlance } from './glance-protocol.ts';
import { useHand } from './hand.ts';
import { onLost } from './insist.ts';
import { useRegister } from './register.ts';
import { create } from './store.ts';

/**
 * What moving a piece does to light and sound, while it is moved: a worker of its own answers as fast as it can, and what the hand did
 * meanwhile is asked next. The notes, worked out finely, follow when the hand is still.
 */
const useGlance = create<{ readonly now: Glance | undefined; readonly before: Glance | undefined }>(() => ({
  now: undefined,
  before: undefined,
}));

/** After each answer so many times as long of rest, while the hand goes on: processors are the drawing's first, where there are few. */
const RESTS = navigator.hardwareConcurrency > 2 ? 3 : 12;
/** ms without a new drawing, and the hand is still: nothing else wants the processor. */
const STILL = 150;
/** ms. What comes later than this tells of where the hand was, not of where it is, and has kept a processor from the drawing meanwhile. */
const LATE = 1000;

let worker: Worker | undefined;
let revision = 0;
/** The plan the worker has. */
let known: unknown;
let busy = false;
let again = false;
let asked = 0;
let restsUntil = 0;
let waiting: ReturnType<typeof setTimeout> | undefined;
/** The worker has answered before: the first time it is loaded, and learns. */
let warm = false;
/** The plan that is too large for it: nothing is asked of it any more. */
let late: string | undefined;

function start(): Worker {
  const made = new Worker(new URL('./glance.worker.ts', import.meta.url), { type: 'module' });
  warm = false;
  made.onmessage = ({ data: { glance } }: MessageEvent<FromGlance>) => {
    const took = performance.now() - asked;
    if (warm && took > LATE) {
      late = useBench.getState().name;
      made.terminate();
      ended();
      // what was told of where it was before the hand came would stand there for good
      return useGlance.setState({ now: undefined });
    }
    // what it took to load and learn is not rested from
    restsUntil = warm ? performance.now() + RESTS * took : 0;
    busy = false;
    if (again) wait();
    warm = true;
    if (glance) useGlance.setState(({ before }) => ({ now: glance, before: before ?? glance }));
  };
  onLost(made, () => {
    ended();
    if (again) ask();
  });
  return made;
}

/** Until the rest is over, or the hand is still. */
function wait(): void {
  clearTimeout(waiting);
  waiting = setTimeout(
    () => {
      restsUntil = 0;
      ask();
    },
    Math.min(STILL, Math.max(0, restsUntil - performance.now())),
  );
}

function ended(): void {
  clearTimeout(waiting);
  restsUntil = 0;
  worker = undefined;
  known = undefined;
  busy = false;
}

function ask(): void {
  const { name, dragging, held, plain, plan, option: id } = useBench.getState();
  again = false;
  if (!dragging || plain === undefined || !plan || name === late) return;
  if (busy || performance.now() < restsUntil) {
    again = true;
    if (!busy) wait();
    return;
  }
  clearTimeout(waiting);
  worker ??= start();
  const option = optionOf(plan, id).id;
  const post = (message: ToGlance): void => worker!.postMessage(message);
  busy = true;
  asked = performance.now();
  if (known === plain) post({ type: 'hand', revision: ++revision, option, edits: held });
  else {
    // how it was before the hand came, to tell the difference from
    known = plain;
    again = true;
    post({ type: 'plan', revision: ++revision, option, plain });
  }
}
useBench.subscribe((now, before) => {
  if (now.dragging && !before.dragging) useGlance.setState({ now: undefined, before: undefined });
  // what is drawn beside the page is drawn first
  if (now.held !== before.held && !useHand.getState().beside) ask();
});
useHand.subscribe((now, before) => {
  if (now.picture > before.picture) ask();
});
// the notes say it better
useRegister.subscribe((now, before) => {
  if (now.found !== before.found && !useBench.getState().dragging) useGlance.setState({ now: undefined });
});

// the hand that it was loaded for is there already
ask();

/** Beside the messages; not read out, since it changes with every step of the hand. */
export default function GlanceLine() {
  const { now, before } = useGlance();
  if (!now || !before) return null;
  const by = (a: number, b: number, digits: number): string => {
    const change = Number((a - b).toFixed(digits));
    return change === 0 ? '' : ` (${change > 0 ? '+' : '−'}${Math.abs(change).toFixed(digits)})`;
  };
  return (
    <p className="glance">
      {now.face && (
        <span>
          Light on {now.face.title}: {now.face.lux.toFixed(0)} lx
          {before.face && by(now.face.lux, before.face.lux, 0)}
        </span>
      )}
      <span>
        Rings {now.rings.toFixed(2)} s{by(now.rings, before.rings, 2)}
      </span>
    </p>
  );
}
