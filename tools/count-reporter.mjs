import { writeFileSync } from 'node:fs';

/** Vitest reporter: leaves the counts where the test runner finds them, so that one closing line can tell of everything. */
export default class CountReporter {
  onTestRunEnd(modules) {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        counts[state === 'passed' || state === 'failed' ? state : 'skipped'] += 1;
      }
      if (module.errors().length > 0) counts.failed += 1;
    }
    if (process.env.SETWRIGHT_COUNTS) writeFileSync(process.env.SETWRIGHT_COUNTS, JSON.stringify(counts));
    else process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed\n`);
  }
}
