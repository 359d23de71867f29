import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApart } from './build.mjs';
import { install, root } from './setup.mjs';
import { readyTools } from './system-tools.mjs';

/** Types, lint, import rules and every test; one closing line counts them all. */
install();
readyTools();

const bin = (name) => join(root, 'node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);
const counts = { passed: 0, failed: 0, skipped: 0 };

function check(title, command, args) {
  console.log(`\n— ${title}`);
  const { status } = spawnSync(bin(command), args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  counts[status === 0 ? 'passed' : 'failed'] += 1;
}

check('types', 'tsc', ['-p', 'tsconfig.json']);
check('types of the core, without platform', 'tsc', ['-p', 'tsconfig.core.json']);
check('lint', 'biome', ['check', '--error-on-warnings', '.']);
check('import rules', 'depcruise', ['src', '--config', '.dependency-cruiser.cjs']);

console.log('\n— tests');
if (!buildApart()) {
  console.log(`\nThe programs cannot be built.\n\n${counts.passed} passed, ${counts.failed + 1} failed`);
  process.exit(1);
}
const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
const file = join(folder, 'counts.json');
const { status } = spawnSync(bin('vitest'), ['run', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, SETWRIGHT_COUNTS: file },
  shell: process.platform === 'win32',
});
if (existsSync(file)) {
  const tests = JSON.parse(readFileSync(file, 'utf8'));
  for (const key of Object.keys(counts)) counts[key] += tests[key];
}
if (status !== 0 && counts.failed === 0) counts.failed = 1;
rmSync(folder, { recursive: true });

console.log(`\n${counts.passed} passed, ${counts.failed} failed${counts.skipped ? `, ${counts.skipped} skipped` : ''}`);
process.exit(counts.failed === 0 ? 0 : 1);
