import { parentPort } from 'node:worker_threads';
import { type NeutralProblem, serveCut, type ToCutter } from '../core/cutting/index.ts';

/** A thread of the pool in solve-pool.ts. */
parentPort?.on('message', (message: ToCutter<NeutralProblem>) => {
  serveCut(
    message,
    (reply) => parentPort?.postMessage(reply),
    () => performance.now(),
  );
});
