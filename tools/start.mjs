import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildApart } from './build.mjs';
import { install, root } from './setup.mjs';

/**
 * Sets everything up, opens the workbench on the lesson room, and meanwhile works that plan out: the tally, the notes, the packet in out/.
 * It serves until it is stopped. Where only the packet is wanted it ends with it: `npm start -- --packet-only`, and on a build server (`CI`)
 * that asked for no address.
 */
function called() {
  try {
    return parseArgs({
      options: {
        'no-browser': { type: 'boolean' },
        'packet-only': { type: 'boolean' },
        port: { type: 'string' },
        lan: { type: 'boolean' },
      },
    }).values;
  } catch (error) {
    console.error(
      `${error.message.split('. ')[0]}. npm start -- takes --no-browser, --port N, --lan and --packet-only.`,
    );
    process.exit(2);
  }
}
const flags = called();

const PLAN = 'lesson-room.plan.yaml';
const PORT = 4180;
const program = join(root, 'dist/cli/main.js');
const unattended = !['', '0', 'false'].includes(process.env.CI ?? '');
const serves = !flags['packet-only'] && (!unattended || flags['no-browser'] || flags.lan || flags.port !== undefined);

/**
 * The examples as a workspace of one's own, outside what is under version control: what is drawn, ticked and saved there changes no example.
 * A plan that nobody has touched since follows its example.
 */
function workspace() {
  const folder = join(root, 'workspace');
  const given = join(folder, '.setwright', 'examples');
  mkdirSync(given, { recursive: true });
  const same = (a, b) => existsSync(a) && existsSync(b) && readFileSync(a).equals(readFileSync(b));
  for (const name of readdirSync(join(root, 'examples')).filter((file) => file.endsWith('.plan.yaml'))) {
    const [example, own, last] = [join(root, 'examples', name), join(folder, name), join(given, name)];
    if ((existsSync(own) && !same(own, last)) || same(own, example)) continue;
    copyFileSync(example, own);
    copyFileSync(example, last);
  }
  return folder;
}

/** The usual port, or any free one when something listens there already. */
async function freePort() {
  const probe = createServer().listen(PORT, '127.0.0.1');
  const free = await once(probe, 'listening').then(
    () => true,
    () => false,
  );
  await new Promise((closed) => probe.close(closed));
  return free ? PORT : 0;
}

/** Draws the packet in a process of its own, so that the workbench answers meanwhile. Its exit code. */
function packet() {
  const child = spawn(process.execPath, [program, 'packet', join('examples', PLAN), '--out', 'out', '--tally'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  process.on('exit', () => child.kill());
  return new Promise((ended) => child.once('exit', (code) => ended(code ?? 1)));
}

/** npm hands a signal to the shell between it and this process, and some shells keep it to themselves: an orphan has been told to stop. */
function stopWithShell() {
  if (process.env.npm_lifecycle_event !== 'start' || process.platform === 'win32') return;
  const shell = process.ppid;
  setInterval(() => process.ppid === shell || process.kill(process.pid, 'SIGTERM'), 300).unref();
}

stopWithShell();
install();
if (!buildApart()) process.exit(1);
if (serves) {
  const shows = process.stdout.isTTY && !unattended && !flags['no-browser'];
  process.argv = [
    process.execPath,
    program,
    'open',
    join(workspace(), PLAN),
    ...['--port', flags.port ?? String(await freePort())],
    ...(shows ? [] : ['--no-browser']),
    ...(flags.lan ? ['--lan'] : []),
  ];
  // it prints the address, and ends this process cleanly on a signal
  await import('../dist/cli/main.js');
}
const status = await packet();
if (!serves) process.exitCode = status;
