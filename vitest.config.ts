import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const inBrowser = 'test/browser/**/*.test.ts';
const ofPages = 'src/web/**/*.test.{ts,tsx}';
/** Two cores are both worth having: what is left to itself keeps one of them free. */
const maxWorkers = Math.max(2, availableParallelism() - 1);

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
          exclude: [inBrowser, ofPages],
          maxWorkers,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'pages',
          include: [ofPages],
          // a page is one desk with one plan on it, for as long as it is open: each file has its own
          isolate: true,
          maxWorkers,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: [inBrowser],
          // a browser and a server are several processes already, and get the machine to themselves
          maxWorkers: 1,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
