import { create } from 'zustand';
import type { CutProblem, FromCutter, ToCutter } from '../core/cutting/index.ts';
import { USUAL_STEPS } from '../core/outcome.ts';
import { keepAnswer } from './bench.ts';

/** Cutting plans come from a worker, so that no search ever holds up the page. `revision` grows with every new answer. */
interface Answers {
  readonly revision: number;
  readonly busy: number;
  readonly ask: (problems: readonly CutProblem[]) => void;
}

let worker: Worker | undefined;
let revision = 0;
const asked = new Map<number, CutProblem>();

/** A pause before asking: while a size is dragged, only where it comes to rest is worth a search. */
const PAUSE = 120;
let pending: ReturnType<typeof setTimeout> | undefined;

export const useAnswers = create<Answers>()((set) => {
  function end(): void {
    worker?.terminate();
    worker = undefined;
    asked.clear();
  }
  function receive(message: FromCutter): void {
    const problem = asked.get(message.revision);
    if (!problem) return;
    if (message.type === 'crashed') {
      asked.delete(message.revision);
      console.error(`the cutter failed: ${message.message}`);
    } else {
      const final = message.type === 'done';
      if (final) asked.delete(message.revision);
      keepAnswer(problem, message.answer, final);
    }
    set((a) => ({ revision: a.revision + 1, busy: asked.size }));
  }
  function start(problems: readonly CutProblem[]): void {
    const wanted = problems.map((p) => JSON.stringify(p));
    const running = [...asked.values()].map((p) => JSON.stringify(p));
    if (wanted.every((w) => running.includes(w)) && running.every((r) => wanted.includes(r))) return;
    end();
    if (problems.length === 0) {
      set({ busy: 0 });
      return;
    }
    worker = new Worker(new URL('./cutter.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<FromCutter>) => receive(data);
    for (const problem of problems) {
      asked.set(++revision, problem);
      worker.postMessage({ revision, type: 'solve', problem, steps: USUAL_STEPS } satisfies ToCutter);
    }
    set({ busy: asked.size });
  }
  return {
    revision: 0,
    busy: 0,
    ask(problems) {
      clearTimeout(pending);
      pending = setTimeout(() => start(problems), PAUSE);
    },
  };
});
