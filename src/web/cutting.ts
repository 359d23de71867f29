import type { CutProblem, FromCutter, ToCutter } from '../core/cutting/index.ts';
import { USUAL_STEPS } from '../core/outcome.ts';
import { onLost } from './insist.ts';
import { create } from './store.ts';
import { endSearch, keepAnswer, keyOf } from './work.ts';

/**
 * Cutting plans come from workers, so that no search ever holds up the page: one answers at once and roughly, so that the tally follows
 * a drag; the other searches on and is ended as soon as its answer is no longer wanted. `revision` grows with every new answer.
 */
interface Answers {
  readonly revision: number;
  readonly busy: number;
}
export const useAnswers = create<Answers>(() => ({ revision: 0, busy: 0 }));

/** A pause before the long search: while a size is dragged, only where it comes to rest is worth one. */
const PAUSE = 150;
let pending: ReturnType<typeof setTimeout> | undefined;
let revision = 0;

let telling = false;
/** With the next frame: by then a step of the hand has mostly taken the answers along, and nothing is left to be done for them. */
function tell(): void {
  if (telling) return;
  telling = true;
  requestAnimationFrame(() => {
    telling = false;
    useAnswers.setState((a) => ({ revision: a.revision + 1, busy: searcher?.asked.size ?? 0 }));
  });
}

interface Cutter {
  readonly worker: Worker;
  readonly asked: Map<number, CutProblem>;
}
function startCutter(final: boolean): Cutter {
  const worker = new Worker(new URL('./cutter.worker.ts', import.meta.url), { type: 'module' });
  const asked = new Map<number, CutProblem>();
  worker.onmessage = ({ data }: MessageEvent<FromCutter>) => {
    const problem = asked.get(data.revision);
    if (!problem) return;
    if (data.type !== 'better') asked.delete(data.revision);
    if (data.type === 'crashed') {
      console.error(`the cutter failed: ${data.message}`);
      if (final) endSearch(problem);
    } else keepAnswer(problem, data.answer, final && data.type === 'done');
    // half a rough answer would be worked out for nothing
    if (final || asked.size === 0) tell();
    if (!final && asked.size === 0) next();
  };
  const cutter = { worker, asked };
  onLost(worker, () => {
    const left = [...asked.values()];
    if (final && searcher === cutter) {
      searcher = undefined;
      search(left);
    }
    if (!final && rough === cutter) {
      rough = undefined;
      wantedRough = wantedRough.length > 0 ? wantedRough : left;
      next();
    }
  });
  return cutter;
}

let rough: Cutter | undefined;
let wantedRough: readonly CutProblem[] = [];
function next(): void {
  if (wantedRough.length === 0 || (rough?.asked.size ?? 0) > 0) return;
  rough ??= startCutter(false);
  for (const problem of wantedRough) {
    rough.asked.set(++revision, problem);
    rough.worker.postMessage({ revision, type: 'solve', problem, steps: 0 } satisfies ToCutter);
  }
  wantedRough = [];
}

let searcher: Cutter | undefined;
function search(problems: readonly CutProblem[]): void {
  const wanted = new Set(problems.map(keyOf));
  const running = new Set([...(searcher?.asked.values() ?? [])].map(keyOf));
  if (wanted.size === running.size && [...wanted].every((key) => running.has(key))) return;
  if (running.size > 0) {
    searcher!.worker.terminate();
    searcher = undefined;
  }
  if (problems.length > 0) {
    searcher ??= startCutter(true);
    for (const problem of problems) {
      searcher.asked.set(++revision, problem);
      searcher.worker.postMessage({ revision, type: 'solve', problem, steps: USUAL_STEPS } satisfies ToCutter);
    }
  }
  useAnswers.setState({ busy: problems.length });
}

/** Asks for the plans of these problems: for a rough answer of those that have none, and for a good one once the hand is still. */
export function askFor(waiting: readonly CutProblem[], unknown: readonly CutProblem[], still: boolean): void {
  wantedRough = unknown;
  next();
  clearTimeout(pending);
  if (still) pending = setTimeout(() => search(waiting), PAUSE);
}
