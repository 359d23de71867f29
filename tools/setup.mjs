import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..');
/** Refuses an old Node in one plain sentence instead of failing somewhere deep inside. */
function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Setwright needs Node 20.19 or newer; this is ${process.versions.node}.`);
    process.exit(2);
  }
}

/** What npm itself wrote down about the installed tree, held against the lock file: the same packages at the same versions. */
function isInstalled() {
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return false;
  const packages = (file) => JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
  const there = packages(installed);
  return Object.entries(packages(join(root, 'package-lock.json'))).every(
    ([path, wanted]) => path === '' || wanted.optional || there[path]?.version === wanted.version,
  );
}

/** Installs the packages of the lock file unless exactly these are there already. */
export function install() {
  checkNode();
  if (isInstalled()) return;
  console.error('Setting up: installing packages (once) …');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const { status } = spawnSync(npm, ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
  if (status !== 0) {
    console.error('The packages could not be installed. Is the network there? Try: npm ci');
    process.exit(1);
  }
}
