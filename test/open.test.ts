import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { call, killTrial, serve } from '../src/server/kills.testing.ts';
import { NAME, PLAN } from '../src/server/server.testing.ts';

const root = join(import.meta.dirname, '..');
// already built by `npm test`; its own set-up would read every source again for each start
const program = [process.env.SETWRIGHT_PROGRAM ?? join(root, 'dist/cli/main.js')];
const folder = mkdtempSync(join(tmpdir(), 'setwright-open-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const example = join(folder, 'lesson-room.plan.yaml');
copyFileSync(join(root, 'examples/lesson-room.plan.yaml'), example);

describe('setwright open', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)('prints its address, serves, and stops cleanly on %s', async (signal) => {
    const { address, child, ended, said } = await serve(program, example);
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
    const { status, text } = await call(address, 'GET', 'session');
    expect([status, JSON.parse(text).open]).toEqual([200, 'lesson-room.plan.yaml']);
    child.kill(signal);
    expect(await ended).toEqual({ code: 0, signal: null });
    expect(said()).not.toMatch(/fault|error/i);
  });

  it('stops while a page listens, and while a packet is drawn', async () => {
    const { address, child, ended } = await serve(program, example);
    const gone = call(address, 'GET', 'events').catch(() => 'gone');
    const drawing = call(address, 'GET', 'plans/lesson-room.plan.yaml/packet.pdf').catch(() => 'gone');
    await call(address, 'GET', 'session');
    child.kill('SIGTERM');
    expect((await ended).code).toBe(0);
    await Promise.all([gone, drawing]);
  });

  it('begins on an empty bench in a folder', async () => {
    const empty = mkdtempSync(join(tmpdir(), 'setwright-empty-'));
    const { address, child, ended } = await serve(program, empty);
    expect(JSON.parse((await call(address, 'GET', 'session')).text).open).toBe('');
    expect(JSON.parse((await call(address, 'GET', 'plans')).text)).toEqual({ plans: [] });
    expect((await call(address, 'POST', 'plans', { name: 'first', text: PLAN })).status).toBe(201);
    expect(readFileSync(join(empty, 'first.plan.yaml'), 'utf8')).toBe(PLAN);
    child.kill('SIGTERM');
    await ended;
    rmSync(empty, { recursive: true });
  });

  it('listens on this machine only', async () => {
    const { address, child, ended } = await serve(program, example);
    const port = new URL(address).port;
    const { networkInterfaces } = await import('node:os');
    const others = Object.values(networkInterfaces()).flatMap((all) =>
      (all ?? []).filter((one) => !one.internal && one.family === 'IPv4'),
    );
    for (const { address: other } of others)
      await expect(call(`http://${other}:${port}`, 'GET', 'session', undefined, other)).rejects.toThrow();
    child.kill('SIGTERM');
    await ended;
  });

  it('prints the packet that the command line prints, byte for byte', async () => {
    const { address, child, ended } = await serve(program, example);
    const url = `${address}/api/1/plans/lesson-room.plan.yaml/packet.pdf?today=2026-11-25&steps=20`;
    const answer = await fetch(url);
    expect(answer.status).toBe(200);
    const served = Buffer.from(await answer.arrayBuffer());
    const out = join(folder, 'out');
    const printed = spawnSync(process.execPath, [
      ...program,
      'packet',
      example,
      '--today',
      '2026-11-25',
      '--steps',
      '20',
      '--out',
      out,
    ]);
    expect(printed.status).toBe(0);
    expect(served.equals(readFileSync(join(out, 'packet.pdf')))).toBe(true);
    child.kill('SIGTERM');
    await ended;
  }, 600_000);

  it.each(['constructor', 'none such'])('prints no packet on labels that there are none of: %s', async (labels) => {
    const { address, child, ended, said } = await serve(program, example);
    const path = `plans/lesson-room.plan.yaml/packet.pdf?labels=${encodeURIComponent(labels)}`;
    const { status, text } = await call(address, 'GET', path);
    expect([status, JSON.parse(text).error.message]).toEqual([422, expect.stringContaining('sheet of labels')]);
    child.kill('SIGTERM');
    await ended;
    expect(said()).not.toMatch(/fault/i);
  });

  it('with --lan says a code, and that others can read along', async () => {
    const { child, ended, said } = await serve(program, example, ['--lan']);
    while (!said().includes('read by others')) await new Promise((resolve) => child.stderr!.once('data', resolve));
    child.kill('SIGTERM');
    expect(await ended).toEqual({ code: 0, signal: null });
    expect(said()).toMatch(/Pairing code: \S*[2-9A-Z]{4}-[2-9A-Z]{4}|no address on a local network/);
    expect(said()).toMatch(/read by others/);
  });

  it.each([
    [['none.yaml'], /there is no such file/],
    [[join(root, 'package.json')], /cannot be the name of a plan/],
    [[example, '--port', '99999'], /at most 65535/],
    [[example, '--port', 'x'], /whole number/],
  ])('ends with 2 and a plain word when it is called wrong: %j', (args, message) => {
    const { status, stderr } = spawnSync(process.execPath, [...program, 'open', '--no-browser', ...args], {
      encoding: 'utf8',
      timeout: 60_000,
    });
    expect(stderr).toMatch(message);
    expect(status).toBe(2);
  });

  it('says that a port is taken', async () => {
    const { address, child, ended } = await serve(program, example);
    const { port } = new URL(address);
    const { status, stderr } = spawnSync(
      process.execPath,
      [...program, 'open', example, '--no-browser', '--port', port],
      { encoding: 'utf8' },
    );
    expect([status, stderr]).toEqual([2, expect.stringMatching(/is taken/)]);
    child.kill('SIGTERM');
    await ended;
  });

  // root may write anything, so the server then runs as a user who may not
  const asNobody = process.getuid?.() === 0;
  it.skipIf(process.platform === 'win32')(
    'shows a plan in a read-only folder, says so, and keeps the file as it is',
    async () => {
      const locked = mkdtempSync(join(tmpdir(), 'setwright-locked-'));
      const file = join(locked, NAME);
      writeFileSync(file, PLAN);
      chmodSync(file, 0o444);
      chmodSync(locked, 0o555);
      const { address, child, ended, said } = await serve(
        program,
        file,
        [],
        asNobody ? { uid: 65534, gid: 65534 } : {},
      );
      const session = JSON.parse((await call(address, 'GET', 'session')).text);
      expect(session.readOnly).toMatch(/may not be written/);
      expect(session.forgetful).toMatch(/until the workbench stops/);
      const { revision } = JSON.parse((await call(address, 'GET', `plans/${NAME}`)).text);
      const save = await call(address, 'PUT', `plans/${NAME}`, { base: revision, text: PLAN.replace('54', '60') });
      expect([save.status, JSON.parse(save.text).error.code]).toEqual([403, 'read-only']);
      expect(readFileSync(file, 'utf8')).toBe(PLAN);
      expect(said()).toMatch(/may not be written/);
      child.kill('SIGTERM');
      expect((await ended).code).toBe(0);
      chmodSync(locked, 0o755);
      rmSync(locked, { recursive: true });
    },
  );

  it('two workbenches on one folder lose nothing of one another', async () => {
    const shared = mkdtempSync(join(tmpdir(), 'setwright-two-'));
    const file = join(shared, NAME);
    writeFileSync(file, PLAN);
    const benches = await Promise.all([serve(program, file), serve(program, file)]);
    const walls = ['north', 'east'];
    await Promise.all(
      benches.map(async ({ address }, i) => {
        let state = JSON.parse((await call(address, 'GET', `plans/${NAME}`)).text);
        for (let n = 0; n < 15; n++) {
          const text = state.text.replace(new RegExp(`(id: ${walls[i]}, length: )\\d+`), `$1${200 + n}`);
          const answer = await call(address, 'PUT', `plans/${NAME}`, { base: state.revision, text });
          expect(answer.status).toBe(200);
          state = JSON.parse(answer.text);
        }
      }),
    );
    const text = readFileSync(file, 'utf8');
    for (const wall of walls) expect(text).toContain(`id: ${wall}, length: 214`);
    for (const { child, ended } of benches) {
      child.kill('SIGTERM');
      expect((await ended).code).toBe(0);
    }
    rmSync(shared, { recursive: true });
  });

  // `npm run bench -- kills` does two hundred
  it('killed in the middle of saves has lost nothing that it acknowledged, and torn no file', async () => {
    let n = 0;
    const result = await killTrial(program, 6, () => (n++ % 7) / 7);
    expect(result).toMatchObject({ kills: 6, lost: 0, torn: 0 });
    expect(result.acknowledged).toBeGreaterThanOrEqual(6);
  }, 600_000);
});
