import { mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { API, type LiveEvent, type PlanState, type RevisionEntry } from '../src/core/workspace/index.ts';
import { call, type Served, serve } from '../src/server/kills.testing.ts';
import { NAME, PLAN } from '../src/server/server.testing.ts';

const program = [process.env.SETWRIGHT_PROGRAM ?? join(import.meta.dirname, '../dist/cli/main.js')];
const folder = mkdtempSync(join(tmpdir(), 'setwright-two-'));
const file = join(folder, NAME);
const WALLS = ['north', 'east', 'south', 'west'];
const withLength = (text: string, wall: string, length: number): string =>
  text.replace(new RegExp(`(id: ${wall}, length: )\\d+`), `$1${length}`);

// a busy machine takes its while
vi.setConfig({ testTimeout: 120_000 });
const patient = { timeout: 30_000, interval: 50 };

/** What a page of a server hears. */
async function heardFrom({ address }: Served): Promise<{ readonly events: LiveEvent[]; readonly close: () => void }> {
  const events: LiveEvent[] = [];
  const stop = new AbortController();
  const { body } = await fetch(`${address}${API}/events`, { signal: stop.signal });
  const read = async () => {
    let text = '';
    for await (const chunk of body!.pipeThrough(new TextDecoderStream())) {
      text += chunk;
      const lines = text.split('\n');
      text = lines.pop()!;
      for (const line of lines) if (line.startsWith('data: ')) events.push(JSON.parse(line.slice(6)) as LiveEvent);
    }
  };
  void read().catch(() => undefined);
  await expect.poll(() => events.length, patient).toBeGreaterThan(0);
  return { events, close: () => stop.abort() };
}

describe('two servers on one folder', () => {
  let servers: readonly [Served, Served];
  beforeAll(async () => {
    writeFileSync(file, PLAN);
    servers = await Promise.all([serve(program, file), serve(program, file)]);
  });
  afterAll(async () => {
    for (const { child } of servers) child.kill('SIGTERM');
    expect(await Promise.all(servers.map(({ ended }) => ended))).toEqual([
      { code: 0, signal: null },
      { code: 0, signal: null },
    ]);
    for (const { said } of servers) expect(said()).not.toMatch(/fault/i);
    rmSync(folder, { recursive: true, force: true });
  });
  const ask = async (server: 0 | 1, method: string, path: string, body?: unknown) => {
    const { status, text } = await call(servers[server].address, method, path, body);
    return { status, body: JSON.parse(text) };
  };
  const read = async (server: 0 | 1): Promise<PlanState> => (await ask(server, 'GET', `plans/${NAME}`)).body;

  it.each([
    [0, 1],
    [1, 0],
  ] as const)('tell the pages of one what was done at the other (%i to %i)', async (from, to) => {
    const state = await read(from);
    const page = await heardFrom(servers[to]);
    const length = 141 + from;
    const { body: saved } = await ask(from, 'PUT', `plans/${NAME}`, {
      base: state.revision,
      text: withLength(state.text, 'south', length),
    });
    const one = { type: 'plan', name: NAME, revision: saved.revision, hash: saved.hash, kind: 'saved' };
    await expect.poll(() => page.events, patient).toContainEqual(expect.objectContaining(one));
    expect((await read(to)).text).toContain(`south, length: ${length}`);
    const tick = { id: `tick-${from}`, about: 'part:scores', done: true, at: '2026-05-04T10:00:00Z' };
    await ask(from, 'POST', `plans/${NAME}/ticks`, { ticks: [tick] });
    await expect
      .poll(() => page.events, patient)
      .toContainEqual(expect.objectContaining({ type: 'ticks', ticks: [expect.objectContaining({ id: tick.id })] }));
    await ask(from, 'PUT', 'suppliers', { id: 'yard', name: `The Yard ${from}` });
    await expect.poll(() => page.events, patient).toContainEqual(expect.objectContaining({ type: 'prices' }));
    // each once
    expect(page.events.filter(({ type }) => type !== 'hello').map(({ type }) => type)).toEqual([
      'plan',
      'ticks',
      'prices',
    ]);
    page.close();
  });

  it('lose nothing of what pages of both save at once', async () => {
    const first = await read(0);
    const lengths = new Map(WALLS.map((wall) => [wall, 0]));
    await Promise.all(
      WALLS.map(async (wall, i) => {
        const server = (i % 2) as 0 | 1;
        let state = first;
        for (let n = 1; n <= 12; n++) {
          const text = withLength(state.text, wall, 150 + n);
          const save = { base: state.revision, baseHash: state.hash, id: `${wall}-${n}`, text };
          const { status, body } = await ask(server, 'PUT', `plans/${NAME}`, save);
          expect(status).toBe(200);
          state = body;
          lengths.set(wall, 150 + n);
        }
      }),
    );
    for (const [wall, length] of lengths) expect(readFileSync(file, 'utf8')).toContain(`${wall}, length: ${length}`);
    const { revisions } = (await ask(1, 'GET', `plans/${NAME}/revisions?most=500`)).body as {
      revisions: readonly RevisionEntry[];
    };
    expect(revisions.filter(({ kind }) => kind === 'outside')).toEqual([]);
    expect(revisions.length).toBeGreaterThanOrEqual(first.revision + 48);
  });

  it('both say where a plan went whose file is called otherwise, whichever of them noticed first', async () => {
    const pages = await Promise.all(servers.map(heardFrom));
    const { revision } = await read(0);
    renameSync(file, join(folder, 'moved.yaml'));
    for (const { events } of pages)
      await expect.poll(() => events, patient).toContainEqual({ type: 'plan-gone', name: NAME, to: 'moved.yaml' });
    for (const server of [0, 1] as const)
      expect((await ask(server, 'GET', 'plans/moved.yaml')).body).toMatchObject({ revision, issues: [] });
    for (const page of pages) page.close();
  });
});
