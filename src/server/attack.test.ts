import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { CLIENT_HEADER } from '../core/workspace/index.ts';
import { liveEvents } from './events.ts';
import { NAME, newFolder, PLAN, type Trial, trial } from './server.testing.ts';

/** What a stranger on the wire, or a folder made by one, may try. Raw sockets: no client library is in between that would be polite. */
const closers: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});
async function listening(changes: Parameters<typeof trial>[0] = {}): Promise<Trial & { readonly port: number }> {
  let port = 80;
  const bench = await trial({ port: () => port, ...changes });
  closers.push(bench.close);
  await bench.app.listen({ port: 0, host: '127.0.0.1' });
  port = (bench.app.server.address() as AddressInfo).port;
  return { ...bench, port };
}
const dial = (port: number, localAddress = '127.0.0.1'): Promise<Socket> =>
  new Promise((resolve, reject) => {
    const socket = connect({ port, host: '127.0.0.1', localAddress }, () => resolve(socket));
    socket.once('error', reject);
    closers.push(() => void socket.destroy());
  });
/** Writes, and reads until the other side closes or `wait` ms have passed. */
async function say(port: number, text: string | Buffer, wait = 700): Promise<string> {
  const socket = await dial(port);
  let answer = '';
  socket.setEncoding('latin1').on('data', (chunk: string) => {
    answer += chunk;
  });
  socket.on('error', () => undefined);
  socket.write(text);
  await new Promise<void>((resolve) => {
    const late = setTimeout(resolve, wait);
    socket.once('close', () => {
      clearTimeout(late);
      resolve();
    });
  });
  socket.destroy();
  return answer;
}
/** Writes all of it before it looks at the answer, as many programs do; `ended` says that the other side closed in good order. */
async function pour(port: number, text: Buffer): Promise<{ readonly answer: string; readonly ended: boolean }> {
  const socket = await dial(port);
  socket.pause().on('error', () => undefined);
  await new Promise((resolve) => {
    socket.once('close', resolve);
    socket.write(text, resolve);
  });
  let answer = '';
  let ended = false;
  socket.setEncoding('latin1').on('data', (chunk: string) => {
    answer += chunk;
  });
  socket.once('end', () => {
    ended = true;
  });
  socket.resume();
  await new Promise<void>((resolve) => {
    socket.once('close', resolve);
    setTimeout(resolve, 600);
  });
  socket.destroy();
  return { answer, ended };
}
const alive = async (port: number): Promise<string> =>
  (await say(port, `GET /api/1/session HTTP/1.1\r\nHost: localhost:${port}\r\nConnection: close\r\n\r\n`, 5000)).slice(
    0,
    12,
  );

describe('a connection', () => {
  it('that never says anything, says its headers or its body letter by letter, is let go', async () => {
    const { port } = await listening({ patience: 1200 });
    const own = `Host: localhost:${port}\r\n`;
    const beginnings = [
      '',
      'G',
      `GET / HTTP/1.1\r\n${own}X-Slow: `,
      `PUT /api/1/plans/${NAME} HTTP/1.1\r\n${own}Origin: http://localhost:${port}\r\n${CLIENT_HEADER}: x\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{`,
    ];
    const ends = await Promise.all(
      beginnings.map(async (beginning) => {
        const socket = await dial(port);
        socket.on('error', () => undefined);
        socket.resume();
        if (beginning !== '') socket.write(beginning);
        const drip = beginning.length > 1 ? setInterval(() => socket.write('x'), 150) : undefined;
        const ended = await new Promise<boolean>((resolve) => {
          socket.once('close', () => resolve(true));
          setTimeout(() => resolve(false), 8000);
        });
        clearInterval(drip);
        return ended;
      }),
    );
    expect(ends).toEqual([true, true, true, true]);
    expect(await alive(port)).toBe('HTTP/1.1 200');
  }, 60_000);

  it('is one of so many from one address; others are still let in', async () => {
    const { port } = await listening();
    const sockets = await Promise.all(Array.from({ length: 200 }, () => dial(port, '127.0.0.9')));
    let gone = 0;
    for (const socket of sockets) {
      socket.on('error', () => undefined);
      socket.once('close', () => gone++);
    }
    await expect.poll(() => gone, { timeout: 5000 }).toBe(50);
    expect(await alive(port)).toBe('HTTP/1.1 200');
  }, 60_000);

  it.each<[string, (own: string) => string | Buffer]>([
    ['a proxy is asked for', (own) => `CONNECT evil.test:443 HTTP/1.1\r\n${own}\r\n`],
    [
      'an upgrade is asked for',
      (own) =>
        `GET /api/1/plans HTTP/1.1\r\nHost: evil.test\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n\r\n${own}`,
    ],
    ['another name of this machine is used', () => 'GET /api/1/plans HTTP/1.1\r\nHost: localhost.\r\n\r\n'],
    [
      'a name with a user in it is used',
      (own) => `GET /api/1/plans HTTP/1.1\r\n${own.replace('localhost', 'localhost@evil.test')}\r\n`,
    ],
    [
      'an address in another spelling is used',
      (own) => `GET /api/1/plans HTTP/1.1\r\n${own.replace('localhost', '2130706433')}\r\n`,
    ],
    ['no version is said', () => 'GET /api/1/plans\r\n\r\n'],
    ['an old version and no host is said', () => 'GET /api/1/plans HTTP/1.0\r\n\r\n'],
    ['a line is folded', (own) => `GET /api/1/plans HTTP/1.1\r\n${own}X: a\r\n b\r\nHost: evil.test\r\n\r\n`],
    ['zero bytes are sent', (own) => `GET /api/1/plans\0 HTTP/1.1\r\n${own}\r\n`],
    [
      'a request is hidden in another',
      (own) =>
        `POST /api/1/plans HTTP/1.1\r\n${own}Content-Length: 4\r\nContent-Length: 40\r\n\r\nabcdGET /api/1/plans HTTP/1.1\r\n${own}\r\n`,
    ],
    ['it is no HTTP', () => Buffer.from([0x16, 0x03, 0x01, 0x02, 0x00, 0x01, 0x00, 0x01, 0xfc, 0x03, 0x03])],
  ])('on which %s reads nothing', async (_what, text) => {
    const { port } = await listening();
    const answer = await say(port, text(`Host: localhost:${port}\r\n`));
    expect(answer).not.toMatch(/^HTTP\/1\.1 2/);
    expect(answer).not.toContain('Back wall');
    expect(await alive(port)).toBe('HTTP/1.1 200');
  });

  it('cannot send more than was asked for, whole or in chunks that go on', async () => {
    const { port } = await listening();
    const head = `PUT /api/1/plans/${NAME} HTTP/1.1\r\nHost: localhost:${port}\r\nOrigin: http://localhost:${port}\r\n${CLIENT_HEADER}: x\r\nContent-Type: application/json\r\n`;
    expect(await say(port, `${head}Content-Length: 999999999\r\n\r\n{`)).toMatch(/^HTTP\/1\.1 413/);
    const chunk = `10000\r\n${'x'.repeat(0x10000)}\r\n`;
    expect(await say(port, `${head}Transfer-Encoding: chunked\r\n\r\n${chunk.repeat(80)}`, 1500)).toMatch(
      /^HTTP\/1\.1 413/,
    );
    expect(await alive(port)).toBe('HTTP/1.1 200');
  });

  it.each<[string, string, (body: string) => string]>([
    ['stays', '', (body) => `Content-Length: ${body.length}\r\n\r\n${body}`],
    ['is to be closed', 'Connection: close\r\n', (body) => `Content-Length: ${body.length}\r\n\r\n${body}`],
    [
      'is to be closed, in chunks,',
      'Connection: close\r\n',
      (body) => `Transfer-Encoding: chunked\r\n\r\n${body.length.toString(16)}\r\n${body}\r\n0\r\n\r\n`,
    ],
  ])('that %s and brings far too much is told so every time, rather than cut off', async (_what, more, sent) => {
    const { port } = await listening();
    const head = `PUT /api/1/plans/${NAME} HTTP/1.1\r\nHost: localhost:${port}\r\nOrigin: http://localhost:${port}\r\n${CLIENT_HEADER}: x\r\nContent-Type: application/json\r\n${more}`;
    const text = Buffer.from(`${head}${sent('x'.repeat(40_000_000))}`);
    for (let time = 0; time < 5; time++) {
      const { answer, ended } = await pour(port, text);
      expect(answer).toMatch(/^HTTP\/1\.1 413[\s\S]*That is more than can be sent at once/);
      expect(ended).toBe(more !== '');
    }
    expect(await alive(port)).toBe('HTTP/1.1 200');
  });

  it('that brings more than is worth reading is cut off', async () => {
    const { port } = await listening();
    const head = `PUT /api/1/plans/${NAME} HTTP/1.1\r\nHost: localhost:${port}\r\n${CLIENT_HEADER}: x\r\nContent-Type: application/json\r\n`;
    const socket = await dial(port);
    socket.on('error', () => undefined).resume();
    const cut = new Promise<boolean>((resolve) => {
      socket.once('close', () => resolve(true));
      setTimeout(() => resolve(false), 20_000);
    });
    socket.write(Buffer.from(`${head}Content-Length: 900000000\r\n\r\n${'x'.repeat(100_000_000)}`));
    expect(await cut).toBe(true);
    expect(await alive(port)).toBe('HTTP/1.1 200');
  }, 30_000);

  it('may send many requests at once and gets an answer to each', async () => {
    const { port } = await listening();
    const one = `GET /api/1/session HTTP/1.1\r\nHost: localhost:${port}\r\n\r\n`;
    const answer = await say(port, one.repeat(50), 3000);
    expect(answer.match(/HTTP\/1\.1 200/g)).toHaveLength(50);
  });
});

describe('a device that is put out', () => {
  it('hears no more of what it was listening to', async () => {
    const { port, ask } = await listening({ lan: true, names: ['bench.test'] });
    const host = { host: `localhost:${port}`, origin: `http://localhost:${port}` };
    const { body: code } = await ask('POST', 'pair/code', {}, { headers: host });
    const phone = {
      remoteAddress: '192.168.1.40',
      headers: { host: `bench.test:${port}`, origin: `http://bench.test:${port}` },
    };
    const paired = await ask('POST', 'pair', { code: code.code, device: 'phone' }, phone);
    const cookie = String(paired.headers['set-cookie']).split(';')[0]!;
    const socket = await dial(port);
    let heard = '';
    let ended = false;
    socket.setEncoding('utf8').on('data', (text: string) => {
      heard += text;
    });
    socket.once('close', () => {
      ended = true;
    });
    // by the name of the network, so that it is taken for the phone
    socket.write(
      `GET /api/1/events HTTP/1.1\r\nHost: bench.test:${port}\r\nCookie: ${cookie}\r\nConnection: close\r\n\r\n`,
    );
    await expect.poll(() => heard).toContain('hello');
    const { body } = await ask('GET', 'devices', undefined, { headers: { host: host.host } });
    expect((await ask('DELETE', `devices/${body.devices[0].id}`, undefined, { headers: host })).status).toBe(204);
    await expect.poll(() => ended).toBe(true);
  });
});

describe('what is remembered of live events', () => {
  it('is bounded by its weight, not only by its number', () => {
    const events = liveEvents();
    const ticks = Array.from({ length: 500 }, (_, i) => ({
      number: i,
      id: `t${i}`,
      about: 'x'.repeat(300),
      done: true,
      at: '2026-05-04T10:00:00.000Z',
      device: 'phone',
    }));
    const before = process.memoryUsage().heapUsed;
    for (let i = 0; i < 900; i++) events.announce({ type: 'ticks', name: NAME, ticks });
    // 900 of them are 170 MB
    expect(process.memoryUsage().heapUsed - before).toBeLessThan(80e6);
    events.close();
  });
});

describe('a folder made by a stranger', () => {
  const posix = process.platform !== 'win32';
  it.skipIf(!posix)('with pipes for plans holds nobody up', async () => {
    const bench = await trial();
    closers.push(bench.close);
    const { ask, folder, file } = bench;
    for (const name of ['pipe.yaml', 'other.plan.yaml'])
      expect(spawnSync('mkfifo', [join(folder, name)]).status).toBe(0);
    symlinkSync('pipe.yaml', join(folder, 'link.yaml'));
    for (const name of ['pipe.yaml', 'other.plan.yaml', 'link.yaml']) {
      expect((await ask('GET', `plans/${name}`)).status).toBe(422);
      expect((await ask('PUT', `plans/${name}`, { base: 1, text: PLAN })).status).toBe(422);
    }
    expect((await ask('GET', 'plans')).body.plans.filter((p: { sound: boolean }) => p.sound)).toHaveLength(1);
    // and one that takes the place of a plan that is open
    await ask('GET', `plans/${NAME}`);
    rmSync(file);
    spawnSync('mkfifo', [file]);
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN.replace('54', '60') })).status).toBe(422);
  });
  it('with links in circles, to itself and to what is outside reads nothing of it', async () => {
    const bench = await trial();
    closers.push(bench.close);
    const { ask, folder } = bench;
    const outside = newFolder();
    writeFileSync(join(outside, 'secret.yaml'), PLAN.replace('Back wall', 'SECRET'));
    mkdirSync(join(folder, 'below'));
    writeFileSync(join(folder, 'below', 'deep.yaml'), PLAN.replace('Back wall', 'SECRET'));
    symlinkSync('a.yaml', join(folder, 'b.yaml'));
    symlinkSync('b.yaml', join(folder, 'a.yaml'));
    symlinkSync('.', join(folder, 'self.yaml'));
    symlinkSync(outside, join(folder, 'out.yaml'));
    symlinkSync(join('below', 'deep.yaml'), join(folder, 'deep.yaml'));
    symlinkSync('/dev/zero', join(folder, 'zero.yaml'));
    symlinkSync('.setwright/workbench.db', join(folder, 'db.yaml'));
    for (const name of ['a.yaml', 'b.yaml', 'self.yaml', 'out.yaml', 'deep.yaml', 'zero.yaml', 'db.yaml']) {
      const { status, raw } = await ask('GET', `plans/${name}`);
      expect([name, status >= 400 && status < 500]).toEqual([name, true]);
      expect(raw.toString()).not.toContain('SECRET');
      expect((await ask('POST', 'plans', { name, text: PLAN })).status).toBeGreaterThanOrEqual(400);
    }
    expect(JSON.stringify((await ask('GET', 'plans')).body)).not.toContain('SECRET');
    expect(bench.log).toEqual([]);
    rmSync(outside, { recursive: true });
  });
});

describe('names that mean something to the program', () => {
  it.each([
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    '<b onclick=x>',
    '"><svg onload=x>',
    "'; drop table plans; --",
    '{{7*7}}',
    'é'.repeat(30),
    '\u200f',
  ])('are names like others: %j', async (name) => {
    const bench = await trial();
    closers.push(bench.close);
    const { ask, log } = bench;
    await ask('GET', `plans/${NAME}`);
    const text = PLAN.replaceAll('scores', JSON.stringify(name))
      .replace('id: ply', `id: ${JSON.stringify(name)}`)
      .replace('panel: ply', `panel: ${JSON.stringify(name)}`)
      .replace('stock: ply', `stock: ${JSON.stringify(name)}`)
      .replace('id: low', `id: ${JSON.stringify(name)}`);
    const saved = await ask('PUT', `plans/${NAME}`, { base: 1, text });
    expect([200, 422]).toContain(saved.status);
    const tick = { id: 't1', about: `part:${name}`.replace(/[^ -~é]/g, ''), done: true, at: '2026-05-04T10:00:00Z' };
    expect((await ask('POST', `plans/${NAME}/ticks`, { ticks: [tick] })).status).toBe(200);
    expect([200, 422]).toContain((await ask('GET', `plans/${NAME}/rack.csv`)).status);
    const csv = `stock,price,supplier\n"${name.replaceAll('"', '""')}",5,"${name.replaceAll('"', '""')}"\n`;
    expect((await ask('POST', 'prices/import', { csv, currency: 'USD', date: '2026-05-04' })).status).toBe(200);
    const { body } = await ask('GET', 'prices');
    expect(body.prices[0].stock).toBe(name.trim());
    expect(({} as Record<string, unknown>).price).toBeUndefined();
    expect(log).toEqual([]);
  });
});
