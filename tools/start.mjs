import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { install, root } from './setup.mjs';

install();
const { build } = await import('./build.mjs');
await build();
const { status } = spawnSync(
  process.execPath,
  [
    join(root, 'dist/cli/main.js'),
    'packet',
    'examples/lesson-room.plan.yaml',
    '--out',
    'out',
    '--tally',
    ...process.argv.slice(2),
  ],
  { cwd: root, stdio: 'inherit' },
);
process.exit(status ?? 1);
