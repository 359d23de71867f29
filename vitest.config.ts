import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const inBrowser = 'test/browser/**/*.test.ts';

export default defineConfig({
  test: {
    testTimeout: 120_000,
    // to read the core anew for each file took five minutes in all; what a file changes, it puts back
    isolate: false,
    // what a browser or a server does is waited for, not timed: a busy machine takes its while
    expect: { poll: { timeout: 60_000 } },
    hookTimeout: 120_000,
    pool: 'forks',
    setupFiles: ['./test/seed.ts'],
    reporters: ['default', './tools/count-reporter.mjs'],
    projects: [
      {
        extends: true,
        test: {
          name: 'code',
          include: ['src/**/*.test.ts', 'src/**/*.test.tsx', 'test/**/*.test.ts'],
          exclude: [inBrowser],
          // two cores are both worth having: what is left to itself keeps one of them free
          maxWorkers: Math.max(2, availableParallelism() - 1),
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: [inBrowser],
          // a browser and a server are several processes already, and get the machine to themselves
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
