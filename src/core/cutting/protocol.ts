import type { Effort } from './problem.ts';
import type { CutProblem } from './shapes.ts';
import type { CutProblemAnswer } from './solve.ts';

/**
 * Messages between a page (or a pool of threads) and a worker that cuts. Each reply names the revision it answers; the asker drops
 * every reply whose revision is not its latest. A worker computes without pause, so there is no message to stop one: the asker ends
 * it (which takes effect at once), keeps the last `better` answer, and starts another.
 */
export interface ToCutter<P = CutProblem> {
  readonly revision: number;
  readonly type: 'solve';
  readonly problem: P;
  readonly steps: number;
  readonly seed?: number;
  /** Milliseconds after which the best answer so far is the answer. */
  readonly limit?: number;
  /** Whether `better` messages are wanted. */
  readonly progress?: boolean;
}
export type FromCutter<A = CutProblemAnswer> = { readonly revision: number } & (
  | { readonly type: 'better'; readonly answer: A }
  | { readonly type: 'done'; readonly answer: A; readonly milliseconds: number }
  /** A bug: end this worker, start another. */
  | { readonly type: 'crashed'; readonly message: string }
);

/** The worker's whole work: one message in, its replies out. `now` is a clock in milliseconds. */
export function serveCut<P, A>(
  solve: (problem: P, effort: Omit<Effort, 'onBetter'> & { readonly onBetter?: (answer: A) => void }) => A,
  message: ToCutter<P>,
  reply: (message: FromCutter<A>) => void,
  now: () => number,
): void {
  const { revision, problem, steps, seed, limit, progress } = message;
  const started = now();
  try {
    const answer = solve(problem, {
      steps,
      ...(seed !== undefined && { seed }),
      ...(limit !== undefined && { shouldStop: () => now() - started >= limit }),
      ...(progress && { onBetter: (better: A) => reply({ revision, type: 'better', answer: better }) }),
    });
    reply({ revision, type: 'done', answer, milliseconds: now() - started });
  } catch (error) {
    reply({ revision, type: 'crashed', message: error instanceof Error ? error.message : String(error) });
  }
}
