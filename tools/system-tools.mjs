import { spawnSync } from 'node:child_process';

/** Programs some tests look through: each with the Debian package that brings it, and what goes unseen without it. */
const TOOLS = [
  { command: 'chromium', package: 'chromium', without: 'pages are not opened in a real browser' },
  { command: 'pdftotext', package: 'poppler-utils', without: 'PDF text and pictures are not read back' },
  { command: 'qpdf', package: 'qpdf', without: 'PDF structure is not checked' },
  { command: 'zbarimg', package: 'zbar-tools', without: 'printed codes are not scanned' },
];

const there = (command) => spawnSync(command, ['--version'], { stdio: 'ignore' }).error === undefined;

/** Installs what is missing where that is possible, and says plainly what will be skipped where it is not. */
export function readyTools() {
  let missing = TOOLS.filter(({ command }) => !there(command));
  if (missing.length === 0) return;
  if (process.platform === 'linux' && process.getuid?.() === 0 && there('apt-get')) {
    console.error(`Setting up: installing ${missing.map((tool) => tool.package).join(', ')} for the tests (once) …`);
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const quiet = { stdio: ['ignore', 'ignore', 'inherit'], env, timeout: 600_000 };
    spawnSync('apt-get', ['update', '-qq'], quiet);
    spawnSync(
      'apt-get',
      ['install', '-y', '-qq', '--no-install-recommends', ...missing.map((tool) => tool.package)],
      quiet,
    );
    missing = TOOLS.filter(({ command }) => !there(command));
  }
  for (const tool of missing)
    console.error(`Not on this machine: ${tool.command}; so ${tool.without} (those tests are skipped).`);
}
