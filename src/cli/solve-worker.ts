import { parentPort } from 'node:worker_threads';
import { serveCut, type ToCutter } from '../core/cutting/index.ts';

/** A thread of the pool in solve-pool.ts. */
parentPort?.on('message', (message: ToCutter) => {
  serveCut(
    message,
    (reply) => parentPort?.postMessage(reply),
    () => performance.now(),
  );
});
