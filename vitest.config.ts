import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['src/**/*.test.ts', 'src/**/*.test.tsx', 'test/**/*.test.ts'],
    testTimeout: 120_000,
    // what a browser or a server does is waited for, not timed: a busy machine takes its while
    expect: { poll: { timeout: 60_000 } },
    hookTimeout: 120_000,
    pool: 'forks',
    setupFiles: ['./test/seed.ts'],
    reporters: ['default', './tools/count-reporter.mjs'],
  },
});
