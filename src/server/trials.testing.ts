import { afterEach } from 'vitest';
import { type Trial, trial } from './server.testing.ts';

/** Begins trials, each of which ends with the test that began it. */
export function trials(): typeof trial {
  const open: Trial[] = [];
  afterEach(async () => {
    for (const one of open.splice(0)) await one.close();
  });
  return async (...given) => {
    const one = await trial(...given);
    open.push(one);
    return one;
  };
}
