import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type FromCutter, serveCut, type ToCutter } from '../core/cutting/index.ts';
import { type NeutralAnswer, type NeutralProblem, solveNeutral } from '../core/neutral/index.ts';

export interface PoolEffort {
  /** For each problem; the same steps give the same answer however many threads there are. */
  readonly steps: (problem: NeutralProblem) => number;
  /** Seconds for each problem. */
  readonly limit?: number;
  readonly seed?: number;
  /** Left out: as many as the machine has cores. */
  readonly threads?: number;
  /** The bundled worker, made from solve-worker.ts. Left out, everything is cut in this thread. */
  readonly worker?: URL;
}
export interface PoolAnswer {
  readonly answer: NeutralAnswer;
  readonly seconds: number;
}

/**
 * Answers problems on all cores and hands the answers out in the order of the problems, each as soon as those before it are done.
 * Problems are taken up one at a time, no more than twice as many ahead as there are threads, so a list of any length needs little memory.
 * @throws Error when a worker breaks down: a bug, not a problem that cannot be cut.
 */
export async function* solveAll(
  problems: Iterable<NeutralProblem> | AsyncIterable<NeutralProblem>,
  effort: PoolEffort,
): AsyncGenerator<PoolAnswer> {
  const threads = Math.max(1, effort.threads ?? availableParallelism());
  const url = effort.worker;
  if (!url || threads === 1) {
    for await (const problem of problems) yield here(question(problem, 0, effort));
    return;
  }
  const idle: Worker[] = [];
  const started: Worker[] = [];
  const waiting: (() => void)[] = [];
  const borrow = async (): Promise<Worker> => {
    const free = idle.pop();
    if (free) return free;
    if (started.length < threads) {
      const worker = new Worker(url);
      // Each worker hears one question at a time, so listeners come and go; a pool with nothing to do must not hold the program open.
      worker.unref();
      started.push(worker);
      return worker;
    }
    await new Promise<void>((wake) => waiting.push(wake));
    return borrow();
  };
  const giveBack = (worker: Worker): void => {
    idle.push(worker);
    waiting.shift()?.();
  };
  const ask = async (message: ToCutter<NeutralProblem>): Promise<PoolAnswer> => {
    const worker = await borrow();
    const answer = await answerOf(worker, message);
    giveBack(worker);
    return answer;
  };
  const pending: Promise<PoolAnswer>[] = [];
  try {
    let revision = 0;
    for await (const problem of problems) {
      const asked = ask(question(problem, revision++, effort));
      // A later failure is thrown when its turn comes; until then it is not unhandled.
      asked.catch(() => {});
      pending.push(asked);
      if (pending.length >= 2 * threads) yield await pending.shift()!;
    }
    for (let next = pending.shift(); next; next = pending.shift()) yield await next;
  } finally {
    await Promise.all(started.map((worker) => worker.terminate()));
  }
}

const question = (
  problem: NeutralProblem,
  revision: number,
  { steps, limit, seed }: PoolEffort,
): ToCutter<NeutralProblem> => ({
  revision,
  type: 'solve',
  problem,
  steps: steps(problem),
  ...(seed !== undefined && { seed }),
  ...(limit !== undefined && { limit: 1000 * limit }),
});

function here(message: ToCutter<NeutralProblem>): PoolAnswer {
  let told: FromCutter<NeutralAnswer> | undefined;
  serveCut(
    solveNeutral,
    message,
    (reply) => {
      told = reply;
    },
    () => performance.now(),
  );
  return read(told!);
}

function read(reply: FromCutter<NeutralAnswer>): PoolAnswer {
  if (reply.type === 'done') return { answer: reply.answer, seconds: reply.milliseconds / 1000 };
  throw new Error(reply.type === 'crashed' ? reply.message : 'a worker told of progress nobody asked for');
}

function answerOf(worker: Worker, message: ToCutter<NeutralProblem>): Promise<PoolAnswer> {
  return new Promise((resolve, reject) => {
    const done = (): void => {
      worker.off('message', onMessage).off('error', onError).off('exit', onExit);
      worker.unref();
    };
    const onMessage = (reply: FromCutter<NeutralAnswer>): void => {
      done();
      try {
        resolve(read(reply));
      } catch (error) {
        reject(error);
      }
    };
    const onError = (error: Error): void => {
      done();
      reject(error);
    };
    const onExit = (code: number): void => {
      done();
      reject(new Error(`a worker ended early (${code})`));
    };
    worker.on('message', onMessage).on('error', onError).on('exit', onExit);
    worker.ref();
    worker.postMessage(message);
  });
}
