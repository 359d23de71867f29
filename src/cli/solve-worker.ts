import { parentPort } from 'node:worker_threads';
import { serveCut, type ToCutter } from '../core/cutting/index.ts';
import { type NeutralProblem, solveNeutral } from '../core/neutral/index.ts';

/** A thread of the pool in solve-pool.ts. */
parentPort?.on('message', (message: ToCutter<NeutralProblem>) => {
  serveCut(
    solveNeutral,
    message,
    (reply) => parentPort?.postMessage(reply),
    () => performance.now(),
  );
});
