import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { readPlan } from '../core/plan/index.ts';
import { API, CLIENT_HEADER, type PlanState } from '../core/workspace/index.ts';
import { openDatabase } from './database.ts';
import { sha256 } from './files.ts';
import { NAME, newFolder, PLAN } from './server.testing.ts';

export interface Served {
  readonly address: string;
  readonly child: ChildProcess;
  readonly ended: Promise<{ readonly code: number | null; readonly signal: string | null }>;
  readonly said: () => string;
}

/** `setwright open` in a process of its own, once it has printed its address. */
export function serve(
  program: readonly string[],
  file: string,
  more: readonly string[] = [],
  options: object = {},
): Promise<Served> {
  const child = spawn(process.execPath, [...program, 'open', file, '--port', '0', '--no-browser', ...more], {
    stdio: ['ignore', 'pipe', 'pipe'],
    // what belongs to the machine is not to come into the home of who runs the tests
    env: { ...process.env, XDG_STATE_HOME: join(tmpdir(), 'setwright-test-state') },
    ...options,
  });
  let out = '';
  let said = '';
  const ended = new Promise<{ code: number | null; signal: string | null }>((resolve) =>
    child.once('exit', (code, signal) => resolve({ code, signal })),
  );
  return new Promise((resolve, reject) => {
    child.stderr!.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    child.stdout!.setEncoding('utf8').on('data', (text: string) => {
      out += text;
      const address = /^(http:\S+)\/\n/.exec(out)?.[1];
      if (address) resolve({ address, child, ended, said: () => said });
    });
    void ended.then(({ code }) => reject(new Error(`it ended with ${code}: ${said}`)));
  });
}

/** One request over a socket; `from` is the address it seems to come from, 127.0.0.x. */
export function call(
  address: string,
  method: string,
  path: string,
  body?: unknown,
  from = '127.0.0.1',
): Promise<{ readonly status: number; readonly text: string }> {
  return new Promise((resolve, reject) => {
    const payload = body === undefined ? undefined : JSON.stringify(body);
    const asked = request(`${address}${API}/${path}`, {
      method,
      localAddress: from,
      headers: {
        [CLIENT_HEADER]: 'kills',
        origin: address,
        ...(payload !== undefined && {
          'content-type': 'application/json',
          'content-length': Buffer.byteLength(payload),
        }),
      },
    });
    asked.on('error', reject);
    asked.on('response', (response) => {
      let text = '';
      response.setEncoding('utf8');
      response.on('data', (chunk: string) => {
        text += chunk;
      });
      response.on('error', reject);
      response.on('end', () => resolve({ status: response.statusCode!, text }));
    });
    asked.end(payload);
  });
}

export interface Kills {
  readonly kills: number;
  readonly acknowledged: number;
  /** Acknowledged revisions that are not in the history as they were answered, or whose change is not in the file. */
  readonly lost: number;
  /** Times the file was found not to be a whole, sound plan. */
  readonly torn: number;
  readonly kinds: Readonly<Record<string, number>>;
}

const WALLS = ['north', 'east', 'south', 'west'];
const lengthOf = (text: string, wall: number): number =>
  Number(new RegExp(`id: ${WALLS[wall]}, length: ([\\d.]+)`).exec(text)?.[1] ?? Number.NaN);
const withLength = (text: string, wall: number, length: string): string =>
  text.replace(new RegExp(`(id: ${WALLS[wall]}, length: )[\\d.]+`), `$1${length}`);

/**
 * Several pages save as fast as they can, each its own wall; the server is killed with no warning, started again, and the file and the
 * history are read without it. `random` gives numbers from 0 to 1.
 */
export async function killTrial(
  program: readonly string[],
  kills: number,
  random: () => number,
  progress: (done: number) => void = () => undefined,
): Promise<Kills> {
  const folder = newFolder();
  const file = join(folder, NAME);
  writeFileSync(file, PLAN);
  const acknowledged: { readonly revision: number; readonly hash: string }[] = [];
  const counters = WALLS.map(() => 0);
  const kept = WALLS.map(() => 0);
  let lost = 0;
  let torn = 0;
  let kinds: Record<string, number> = {};

  for (let round = 0; round < kills; round++) {
    const { address, child, ended } = await serve(program, file);
    let first: () => void = () => undefined;
    const busy = new Promise<void>((resolve) => {
      first = resolve;
    });
    const writers = WALLS.map(async (_, wall) => {
      const from = `127.0.0.${wall + 2}`;
      try {
        let state = JSON.parse((await call(address, 'GET', `plans/${NAME}`, undefined, from)).text) as PlanState;
        for (;;) {
          const count = ++counters[wall]!;
          const text = withLength(state.text, wall, `${100 + count / 1000}`);
          const save = { base: state.revision, baseHash: state.hash, id: `${wall}-${count}`, text };
          const answer = await call(address, 'PUT', `plans/${NAME}`, save, from);
          if (answer.status === 200) {
            state = JSON.parse(answer.text) as PlanState;
            acknowledged.push({ revision: state.revision, hash: state.hash });
            kept[wall] = count;
            first();
          } else if (answer.status === 429) await new Promise((resolve) => setTimeout(resolve, 500));
          else state = JSON.parse((await call(address, 'GET', `plans/${NAME}`, undefined, from)).text) as PlanState;
        }
      } catch {
        // the server is gone
      }
    });
    await busy;
    await new Promise((resolve) => setTimeout(resolve, random() * 600));
    child.kill('SIGKILL');
    await ended;
    await Promise.all(writers);

    const text = readFileSync(file, 'utf8');
    if (readPlan(text).issues.length > 0 || sha256(text) !== sha256(readFileSync(file))) torn++;
    WALLS.forEach((_, wall) => {
      const found = Math.round((lengthOf(text, wall) - 100) * 1000);
      // what was asked for and not answered may be there or not
      if (kept[wall]! > 0 && (found < kept[wall]! || found > counters[wall]!)) lost++;
    });
    progress(round + 1);
  }

  const { db, close, forgetful, remark } = openDatabase(folder);
  if (forgetful || remark) throw new Error(forgetful ?? remark);
  const rows = await db
    .selectFrom('revisions')
    .innerJoin('texts', 'texts.hash', 'revisions.hash')
    .select(['number', 'kind', 'revisions.hash', 'body'])
    .execute();
  const history = new Map(rows.map((row) => [row.number, row]));
  for (const { revision, hash } of acknowledged) {
    const row = history.get(revision);
    if (row?.hash !== hash || sha256(inflateRawSync(row.body)) !== hash) lost++;
  }
  kinds = {};
  for (const { kind } of rows) kinds[kind] = (kinds[kind] ?? 0) + 1;
  close();
  const strange = readdirSync(folder).filter((name) => name !== NAME && !name.startsWith('.'));
  if (strange.length > 0) throw new Error(`left behind: ${strange.join(', ')}`);
  rmSync(folder, { recursive: true, force: true });
  return { kills, acknowledged: acknowledged.length, lost, torn, kinds };
}
