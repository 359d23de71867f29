import { rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { API, type LiveEvent } from '../core/workspace/index.ts';
import { NAME, PLAN, type Trial, trial } from './server.testing.ts';

const closers: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

/** A workbench that listens. */
async function listening(): Promise<Trial & { readonly port: number }> {
  let port = 80;
  const bench = await trial({ port: () => port });
  closers.push(bench.close);
  await bench.app.listen({ port: 0, host: '127.0.0.1' });
  const { port: real } = bench.app.server.address() as AddressInfo;
  port = real;
  const at = (path: Parameters<Trial['ask']>[1]): string => path;
  return {
    ...bench,
    port: real,
    ask: (method, path, body, more = {}) =>
      bench.ask(method, at(path), body, {
        ...more,
        headers: {
          host: `localhost:${real}`,
          ...(method !== 'GET' && { origin: `http://localhost:${real}` }),
          ...more.headers,
        },
      }),
  };
}

interface Stream {
  readonly events: (LiveEvent & { readonly id: string })[];
  readonly until: (test: (events: Stream['events']) => boolean) => Promise<void>;
  readonly close: () => void;
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
}
/** Reads the stream by the rules of the HTML standard, section 9.2.6: fields by line, an event at each empty line. */
function stream(port: number, last?: string, page?: string): Promise<Stream> {
  return new Promise((resolve, reject) => {
    const asked = request({
      port,
      host: '127.0.0.1',
      path: `${API}/events${page === undefined ? '' : `?page=${page}`}`,
      headers: { host: `localhost:${port}`, ...(last !== undefined && { 'last-event-id': last }) },
    });
    asked.on('error', reject);
    asked.on('response', (response) => {
      const events: Stream['events'] = [];
      const waiting: { test: (all: Stream['events']) => boolean; done: () => void }[] = [];
      let text = '';
      response.setEncoding('utf8');
      response.on('data', (chunk: string) => {
        text += chunk;
        for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
          const lines = text.slice(0, end).split('\n');
          text = text.slice(end + 2);
          const field = (name: string) => lines.find((line) => line.startsWith(`${name}: `))?.slice(name.length + 2);
          const data = field('data');
          if (data !== undefined) events.push({ ...JSON.parse(data), id: field('id') });
        }
        for (const one of [...waiting]) if (one.test(events)) one.done();
      });
      response.on('error', () => undefined);
      const close = () => void asked.destroy();
      closers.push(close);
      resolve({
        events,
        close,
        status: response.statusCode!,
        headers: response.headers,
        until: (test) =>
          new Promise((done) => {
            if (test(events)) done();
            else waiting.push({ test, done });
          }),
      });
    });
    asked.end();
  });
}
const kinds = (events: Stream['events']): string[] => events.map(({ type }) => type);

describe('live updates', () => {
  it('tell every page what happened and whose doing it was', async () => {
    const { ask, port } = await listening();
    const one = await stream(port);
    expect([one.status, one.headers['content-type'], one.headers['cache-control']]).toEqual([
      200,
      'text/event-stream; charset=utf-8',
      'no-store',
    ]);
    expect(String(one.headers['content-security-policy'])).toContain("default-src 'none'");
    await ask('GET', `plans/${NAME}`);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN.replace('54', '60') });
    await ask('POST', `plans/${NAME}/ticks`, {
      ticks: [{ id: 't', about: 'x', done: true, at: '2026-05-04T10:00:00Z' }],
    });
    await one.until((events) => events.length >= 4);
    expect(one.events).toMatchObject([
      { type: 'hello' },
      { type: 'plan', name: NAME, revision: 1, kind: 'found' },
      { type: 'plan', revision: 2, kind: 'saved', by: 'page-1' },
      { type: 'ticks', name: NAME, by: 'page-1', ticks: [{ id: 't' }] },
    ]);
  });
  it('go on where a broken connection stopped, without a gap and without repeating', async () => {
    const { ask, port } = await listening();
    await ask('GET', `plans/${NAME}`);
    const one = await stream(port);
    await ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN.replace('54', '60') });
    await one.until((events) => events.length >= 2);
    const seen = one.events.at(-1)!.id;
    one.close();
    for (let i = 2; i < 7; i++) await ask('PUT', `plans/${NAME}`, { base: i, text: PLAN.replace('54', `6${i}`) });
    const two = await stream(port, seen);
    await two.until((events) => events.length >= 5);
    expect(two.events.map((event) => event.type === 'plan' && event.revision)).toEqual([3, 4, 5, 6, 7]);
  });
  it('say that everything is to be read anew after another run, a gap too long, or nonsense', async () => {
    const { ask, port } = await listening();
    await ask('GET', `plans/${NAME}`);
    const one = await stream(port);
    await one.until((events) => events.length > 0);
    const [run] = one.events[0]!.id.split('-');
    for (const last of ['00000000-1', 'nonsense', `${run}-999999`]) {
      const two = await stream(port, last);
      await two.until((events) => events.length > 0);
      expect(kinds(two.events)).toEqual(['again']);
    }
    for (let i = 0; i < 1010; i++)
      await ask('PUT', 'suppliers', { id: 'yard', name: `${i}` }, { remoteAddress: `127.0.${i % 250}.1` });
    const late = await stream(port, `${run}-1`);
    await late.until((events) => events.length > 0);
    expect(kinds(late.events)).toEqual(['again']);
  });
  it('are given to so many pages and no more', async () => {
    const { port, ask } = await listening();
    const streams = await Promise.all(Array.from({ length: 12 }, () => stream(port)));
    const more = await stream(port);
    await ask('PUT', 'suppliers', { id: 'yard', name: 'The Yard' });
    await Promise.all(streams.map((one) => one.until((events) => kinds(events).includes('prices'))));
    expect(more.events).toEqual([]);
  });
  it('go to a page that comes back again and again over a bad line, whose streams before never ended', async () => {
    const { port, ask } = await listening();
    for (let i = 0; i < 15; i++) await stream(port, undefined, 'phone');
    const [last, other] = [await stream(port, undefined, 'phone'), await stream(port, undefined, 'laptop')];
    await ask('PUT', 'suppliers', { id: 'yard', name: 'The Yard' });
    await Promise.all([last, other].map((one) => one.until((events) => kinds(events).includes('prices'))));
  });
  it('tell of a file that another program changed, added or took away', async () => {
    const { ask, port, file, folder } = await listening();
    await ask('GET', `plans/${NAME}`);
    const one = await stream(port);
    writeFileSync(file, PLAN.replace('54', '60'));
    await one.until((events) => events.some((event) => event.type === 'plan' && event.kind === 'outside'));
    writeFileSync(join(folder, 'second.yaml'), PLAN);
    await one.until((events) => kinds(events).includes('plans'));
    rmSync(file);
    await one.until((events) => events.some((event) => event.type === 'plan-gone' && event.name === NAME));
    expect((await ask('GET', `plans/${NAME}/revisions/2`)).body).toMatchObject({
      kind: 'outside',
      text: PLAN.replace('54', '60'),
    });
  });
});

describe('on the wire', () => {
  const send = (port: number, text: string): Promise<string> =>
    new Promise((resolve) => {
      let answer = '';
      const socket = connect(port, '127.0.0.1', () => socket.write(text));
      socket.setEncoding('latin1');
      socket.on('data', (chunk: string) => {
        answer += chunk;
      });
      socket.on('close', () => resolve(answer));
      socket.on('error', () => resolve(answer));
      closers.push(() => void socket.destroy());
      setTimeout(() => socket.end(), 400);
    });
  it('nonsense, no host, two hosts and headers without end fall on their own', async () => {
    const { port, ask } = await listening();
    const own = `Host: localhost:${port}\r\n`;
    expect(await send(port, 'nonsense\r\n\r\n')).toMatch(/^HTTP\/1\.1 400/);
    expect(await send(port, 'GET /api/1/session HTTP/1.1\r\n\r\n')).toMatch(/^HTTP\/1\.1 4/);
    expect(await send(port, `GET /api/1/session HTTP/1.1\r\n${own}Host: evil.test\r\n\r\n`)).not.toMatch(/"here"/);
    expect(
      await send(port, `GET /api/1/session HTTP/1.1\r\nHost: evil.test\r\nX-Forwarded-Host: localhost:${port}\r\n\r\n`),
    ).toMatch(/^HTTP\/1\.1 403/);
    expect(await send(port, `GET /api/1/session HTTP/1.1\r\n${own}X: ${'y'.repeat(20_000)}\r\n\r\n`)).toMatch(
      /^HTTP\/1\.1 431/,
    );
    expect(await send(port, `GET http://evil.test/api/1/session HTTP/1.1\r\n${own}\r\n`)).not.toMatch(/"here"/);
    expect(
      await send(
        port,
        `PUT /api/1/plans/${NAME} HTTP/1.1\r\n${own}Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n`,
      ),
    ).toMatch(/^HTTP\/1\.1 4/);
    expect((await ask('GET', 'session')).status).toBe(200);
  });
});
