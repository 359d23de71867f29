import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { Command } from 'commander';
import pc from 'picocolors';
import { renderUnicodeCompact } from 'uqr';
import type { MakePacket, PacketAnswer } from '../../server/index.ts';
import { wholeNumber } from '../flags.ts';
import { data, Ending, say, whyNot } from '../shell.ts';

interface Flags {
  port: number;
  browser: boolean;
  lan?: true;
  name?: string[];
}

const PACKET_SECONDS = 300;

export function openCommand(program: Command): void {
  program
    .command('open')
    .summary('open the workbench in the browser')
    .description(
      'Serves the workbench for a plan and the others in its folder, on this machine only unless --lan is given, until it is stopped.',
    )
    .argument(
      '<plan>',
      'a plan file, whose folder is the workspace; or a folder, to begin with the plans that are in it',
    )
    .option('--port <n>', 'where to listen; 0 takes any free one', wholeNumber, 4180)
    .option('--no-browser', 'only print the address')
    .option('--lan', 'let paired devices of the local network in; plain HTTP, for a network you trust')
    .option('--name <host...>', 'with --lan: further names under which the network knows this machine')
    .action(async (path: string, flags: Flags) => {
      if (flags.port > 65535) throw new Ending(2, 'A port is at most 65535.');
      const web = beside('../web');
      // fastify and the database are loaded only by those who open the workbench
      const { openBench, NewerDatabase } = await import('../../server/index.ts');
      const bench = await openBench({
        plan: path,
        port: flags.port,
        lan: flags.lan === true,
        makePacket: packetThread(),
        log: say,
        ...(flags.name && { names: flags.name }),
        ...(web !== undefined && { web }),
      }).catch((error: NodeJS.ErrnoException) => {
        if (error.code === 'EADDRINUSE')
          throw new Ending(2, `Port ${flags.port} is taken; choose another with --port, or --port 0 for any free one.`);
        if (error.code !== undefined || error instanceof NewerDatabase || error.message.includes('name of a plan'))
          throw new Ending(2, `${path}: ${whyNot(error)}`);
        throw error;
      });
      // whoever reads the address may send a signal at once
      let stopping = false;
      const stop = (): void => {
        if (stopping) process.exit(1);
        stopping = true;
        bench.close().then(
          () => process.exit(0),
          (error: unknown) => {
            say(whyNot(error));
            process.exit(1);
          },
        );
      };
      process.on('SIGINT', stop);
      process.on('SIGTERM', stop);
      process.on('SIGHUP', stop);

      data(bench.address);
      say(`The workbench of ${bench.folder}. Stop it with Ctrl-C.`);
      if (flags.lan) {
        const { code, addresses } = bench.newCode();
        const [first] = addresses;
        if (first === undefined) say('This machine has no address on a local network.');
        else {
          say(`Other devices on this network: ${addresses.join('  ')}`);
          say(`Pairing code: ${pc.bold(code)} (good once, for ten minutes; the workbench shows new ones)`);
          say(renderUnicodeCompact(`${first}#pair=${code}`));
        }
        say(
          pc.yellow('What is sent over the network can be read by others on it. Use --lan only where you trust them.'),
        );
      }
      if (flags.browser) showInBrowser(bench.address);
    });
}

/** A file or folder of the build, from the bundle or from a part of it. */
const beside = (name: string): string | undefined =>
  [name, `../${name}`].map((one) => fileURLToPath(new URL(one, import.meta.url))).find((path) => existsSync(path));

/** Draws packets in a thread of their own, so that the workbench answers meanwhile. */
function packetThread(): MakePacket {
  let busy: Worker | undefined;
  return {
    make: (request) =>
      new Promise<PacketAnswer>((resolve, reject) => {
        const file = beside('./worker.js');
        if (file === undefined) {
          reject(new Error('the worker is not built'));
          return;
        }
        const worker = new Worker(file, { workerData: request, resourceLimits: { maxOldGenerationSizeMb: 1500 } });
        busy = worker;
        const late = setTimeout(() => void worker.terminate(), PACKET_SECONDS * 1000);
        worker.once('message', (answer: PacketAnswer) => {
          resolve(answer);
          void worker.terminate();
        });
        worker.once('error', reject);
        worker.once('exit', () => {
          clearTimeout(late);
          busy = undefined;
          resolve({ ok: false, message: 'Drawing the packet took too long and was stopped.', issues: [] });
        });
      }),
    close: () => void busy?.terminate(),
  };
}

/** Asks the system to show an address; where it cannot, the printed address is enough. */
function showInBrowser(address: string): void {
  const [command, ...first] =
    process.platform === 'darwin' ? ['open'] : process.platform === 'win32' ? ['cmd', '/c', 'start', ''] : ['xdg-open'];
  try {
    const child = spawn(command!, [...first, address], { stdio: 'ignore', detached: true });
    child.on('error', () => undefined);
    child.unref();
  } catch {
    // as above
  }
}
