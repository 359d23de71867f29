import { hostname } from 'node:os';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CLIENT_HEADER } from '../core/workspace/index.ts';
import { accessOf, cookieOf, isOwnHost, lanAddresses } from './access.ts';
import { openDatabase } from './database.ts';
import { NAME, newFolder, PLAN, SECRET } from './server.testing.ts';
import { trials } from './trials.testing.ts';

const start = trials();
const PHONE = { remoteAddress: '192.168.1.40', headers: { host: 'bench.test', origin: 'http://bench.test' } };
const atLan = (more: object = {}) => ({ ...PHONE, headers: { ...PHONE.headers, ...more } });

describe('a foreign page', () => {
  it.each([
    'evil.test',
    'localhost.evil.test',
    '127.0.0.1.evil.test',
    'localhost:81',
    '10.0.0.9',
    'localhost:80:80',
    'local host',
  ])('under the host %j (a name that was pointed at this machine) gets nothing', async (host) => {
    const { ask } = await start();
    for (const path of ['session', `plans/${NAME}`, '/']) {
      const { status, raw } = await ask('GET', path, undefined, { headers: { host } });
      expect(status).toBe(403);
      expect(raw.toString()).not.toContain('Back wall');
    }
  });
  it.each([
    'http://evil.test',
    'https://localhost',
    'http://localhost:3000',
    'null',
    'http://localhost.evil.test',
    'file://',
  ])('of the origin %j changes nothing', async (origin) => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const body = { base: 1, text: PLAN.replace('54', '60') };
    const { status } = await ask('PUT', `plans/${NAME}`, body, { headers: { origin } });
    expect(status).toBe(403);
    expect(text()).toBe(PLAN);
  });
  it('is let through by no header that allows it to read or to ask first', async () => {
    const { ask } = await start();
    const { status, headers } = await ask('OPTIONS', `plans/${NAME}`, undefined, {
      headers: { origin: 'http://evil.test', 'access-control-request-method': 'PUT' },
    });
    expect(status).toBeGreaterThanOrEqual(400);
    const read = await ask('GET', `plans/${NAME}`, undefined, { headers: { origin: 'http://evil.test' } });
    for (const all of [headers, read.headers])
      expect(Object.keys(all).filter((name) => name.startsWith('access-control-'))).toEqual([]);
    expect(read.headers['cross-origin-resource-policy']).toBe('same-origin');
  });
  it.each(['cross-site', 'same-site'])('that the browser calls %s reads nothing either', async (site) => {
    const { ask } = await start();
    expect((await ask('GET', `plans/${NAME}`, undefined, { headers: { 'sec-fetch-site': site } })).status).toBe(403);
  });
  it('cannot send what a form can send', async () => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x']) {
      const { status } = await ask(
        'PUT',
        `plans/${NAME}`,
        JSON.stringify({ base: 1, text: PLAN.replace('54', '60') }),
        {
          headers: { 'content-type': type },
        },
      );
      expect([400, 415]).toContain(status);
    }
    expect(text()).toBe(PLAN);
  });
  it('cannot leave out the name of the page', async () => {
    const { ask } = await start();
    const { status } = await ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN }, { headers: { [CLIENT_HEADER]: '' } });
    expect(status).toBe(403);
  });
});

describe('every answer', () => {
  it.each([
    '/',
    '/api/1/opening',
    '/api/1/session',
    `/api/1/plans/${NAME}/export`,
    '/api/1/nothing',
    '/assets/none.js',
    '/api/1/events/x',
  ])('carries a policy that lets in no script but ours and asks for no HTTPS: %s', async (path) => {
    const { ask } = await start();
    const { headers } = await ask('GET', path);
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toMatch(/script-src 'self' 'wasm-unsafe-eval'(;|$)/);
    expect(policy).not.toMatch(/unsafe-inline|unsafe-eval' '|upgrade-insecure-requests|https?:/);
    expect(headers['strict-transport-security']).toBeUndefined();
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['x-frame-options']).toBe('DENY');
  });
});

describe('hostile bodies', () => {
  it.each<[string, unknown]>([
    ['a number for a plan', 5],
    ['nothing', {}],
    ['a key too many', { base: 1, text: PLAN, admin: true }],
    ['text and edits', { base: 1, text: PLAN, edits: [] }],
    ['a base that is no number', { base: '1', text: PLAN }],
    ['a base that is not whole', { base: 1.5, text: PLAN }],
    ['an edit of no kind', { base: 1, edits: [{ op: 'eval', path: [] }] }],
    ['a path of objects', { base: 1, edits: [{ op: 'remove', path: [{}] }] }],
    ['too many edits', { base: 1, edits: Array.from({ length: 2001 }, () => ({ op: 'remove', path: [] })) }],
    ['an id with markup', { base: 1, id: '<b>', text: PLAN }],
  ])('are refused: %s', async (_what, body) => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    const { status } = await ask('PUT', `plans/${NAME}`, body, {
      headers: { 'content-type': 'application/json' },
      payload: JSON.stringify(body),
    });
    expect(status).toBe(400);
    expect(text()).toBe(PLAN);
  });
  it.each([
    '{"base":1,"__proto__":{"text":"x"}}',
    '{"base":1,"constructor":{"prototype":{"x":1}},"text":""}',
    '{"base":',
    '\u0000',
    '[]',
  ])('that are no plain JSON are refused: %j', async (payload) => {
    const { ask } = await start();
    const { status } = await ask('PUT', `plans/${NAME}`, undefined, {
      payload,
      headers: { 'content-type': 'application/json' },
    });
    expect(status).toBe(400);
  });
  it('nested too deep are refused', async () => {
    const { ask, log } = await start();
    await ask('GET', `plans/${NAME}`);
    for (const depth of [100, 5_000, 300_000]) {
      const payload = `{"base":1,"edits":[{"op":"set","path":["x"],"value":${'['.repeat(depth)}${']'.repeat(depth)}}]}`;
      const { status } = await ask('PUT', `plans/${NAME}`, undefined, {
        payload,
        headers: { 'content-type': 'application/json' },
      });
      expect(status).toBe(400);
    }
    expect(log).toEqual([]);
  });
  it('that are too large are refused before they are read', async () => {
    const { ask } = await start();
    const { status, body } = await ask('PUT', `plans/${NAME}`, { base: 1, text: 'x'.repeat(5_000_000) });
    expect([status, body.error.code]).toEqual([413, 'too-large']);
    expect((await ask('POST', `plans/${NAME}/restore`, { revision: 1, base: 1, id: 'x'.repeat(70_000) })).status).toBe(
      413,
    );
  });
  it.each([
    [
      'aliases that multiply',
      `a: &a [x, x, x, x, x, x, x, x, x]\n${[...'bcdefghij'].map((c, i) => `${c}: &${c} [${Array(9).fill(`*${'abcdefghij'[i]}`).join(', ')}]`).join('\n')}\n`,
    ],
    ['an alias of itself', 'a: &a [*a]\n'],
    ['brackets without end', '['.repeat(100_000)],
    ['two documents', `${PLAN}---\n${PLAN}`],
    ['a million characters', `# ${'x'.repeat(999_990)}\n`],
  ])('that are YAML bombs leave the workbench standing: %s', async (_what, bomb) => {
    const { ask, text } = await start();
    await ask('GET', `plans/${NAME}`);
    for (const evenIfWrong of [false, true]) {
      const { status } = await ask('PUT', `plans/${NAME}`, { base: 1, text: bomb, evenIfWrong });
      expect([422, 413]).toContain(status);
    }
    expect([413, 422]).toContain((await ask('POST', 'plans', { name: 'bomb', text: bomb })).status);
    expect(text()).toBe(PLAN);
    expect((await ask('GET', `plans/${NAME}`)).status).toBe(200);
  });
  it('of any JSON never make a fault of the workbench', async () => {
    const { ask, log } = await start();
    const paths = [
      ['PUT', `plans/${NAME}`],
      ['POST', 'plans'],
      ['POST', `plans/${NAME}/ticks`],
      ['POST', 'prices'],
      ['POST', 'prices/import'],
      ['PUT', 'suppliers'],
      ['POST', `plans/${NAME}/restore`],
      ['POST', `plans/${NAME}/rack`],
    ] as const;
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 3 }), fc.constantFrom(...paths), async (value, [method, path]) => {
        const { status } = await ask(method, path, undefined, {
          payload: JSON.stringify(value),
          headers: { 'content-type': 'application/json' },
        });
        expect(status).toBeGreaterThanOrEqual(400);
        expect(status).toBeLessThan(500);
      }),
      { numRuns: 200 },
    );
    expect(log).toEqual([]);
  });
  it.each([
    '/%',
    '/api/1/plans/%ff',
    '/api/1/plans/%2e%2e%2f%2e%2e%2fetc%2fpasswd',
    '/..%2f..%2fpackage.json',
    '//evil.test/',
    '/assets/..%2f..%2findex.html',
    '/api/1/plans/x.yaml/revisions/-1',
    '/api/1/plans/x.yaml/revisions/1e9',
    '/api/1/plans/wall.plan.yaml/revisions?most=1e9',
    '/api/1/plans/wall.plan.yaml/packet.pdf?steps=99999999',
    '/api/1/plans/wall.plan.yaml/packet.pdf?option=a&option=b',
  ])('and addresses do no better: %s', async (path) => {
    const { ask, log } = await start();
    const { status } = await ask('GET', path);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(log).toEqual([]);
  });
});

describe('a flood', () => {
  it('is stopped, and said to be', async () => {
    const { ask } = await start();
    const statuses: number[] = [];
    for (let i = 0; i < 700; i++) statuses.push((await ask('GET', 'session')).status);
    expect(statuses.filter((status) => status === 200)).toHaveLength(600);
    const { status, body, headers } = await ask('GET', 'session');
    expect([status, body.error.code]).toEqual([429, 'too-many']);
    expect(Number(headers['retry-after'])).toBeGreaterThan(0);
    // of one address only
    expect((await ask('GET', 'session', undefined, { remoteAddress: '127.0.0.2' })).status).toBe(200);
  });
});

describe('pairing', () => {
  const lan = { lan: true, names: ['bench.test'] };
  it('lets nobody in from the network without it, to anything but the pages', async () => {
    const { ask } = await start(lan);
    for (const path of [
      'session',
      'plans',
      `plans/${NAME}`,
      'prices',
      'events',
      'devices',
      `plans/${NAME}/packet.pdf`,
    ]) {
      const { status, body } = await ask('GET', path, undefined, PHONE);
      expect([status, body.error.code]).toEqual([401, 'not-paired']);
    }
    expect((await ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN }, PHONE)).status).toBe(401);
    expect((await ask('POST', 'pair/code', {}, PHONE)).status).toBe(401);
    expect((await ask('GET', '/', undefined, PHONE)).status).toBe(503);
  });
  it.each([
    '/%61pi/1/plans',
    '/api/%31/plans',
    '/api/1/%70lans',
    '/API/1/plans',
    '//api/1/plans',
    '/api/1/plans;x',
    '/api/1/pair/../plans',
    '/api/1/pair%2f..%2fplans',
  ])('is not to be got around by another way of writing an address: %s', async (path) => {
    const { ask } = await start(lan);
    const { status, raw } = await ask('GET', path, undefined, PHONE);
    expect([401, 404, 503]).toContain(status);
    expect(raw.toString()).not.toContain('Back wall');
  });
  it('is not to be had without --lan', async () => {
    const { ask } = await start();
    expect((await ask('POST', 'pair', { code: 'x', device: 'phone' })).status).toBe(404);
    expect((await ask('POST', 'pair/code', {})).status).toBe(404);
    expect((await ask('GET', 'session', undefined, PHONE)).status).toBe(403);
    expect((await ask('GET', 'session', undefined, { remoteAddress: '192.168.1.40' })).status).toBe(401);
  });
  it('takes the code once, however it is typed, and gives a cookie that no script can read', async () => {
    const { ask } = await start(lan);
    const { body: code } = await ask('POST', 'pair/code', {});
    const typed = ` ${code.code.toLowerCase().replace('-', ' ')}`;
    const paired = await ask('POST', 'pair', { code: typed, device: 'phone' }, PHONE);
    expect([paired.status, paired.body.device, paired.body.here]).toEqual([200, 'phone', false]);
    const cookie = String(paired.headers['set-cookie']);
    expect(cookie).toMatch(/^setwright-80=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=\d+$/);
    const session = atLan({ cookie: `other=1; ${cookie.split(';')[0]}` });
    expect((await ask('GET', 'session', undefined, session)).body.device).toBe('phone');
    expect((await ask('POST', 'pair', { code: typed, device: 'thief' }, PHONE)).status).toBe(401);
    // its saves carry its name
    await ask('GET', `plans/${NAME}`, undefined, session);
    const saved = await ask('PUT', `plans/${NAME}`, { base: 1, text: PLAN.replace('54', '60') }, session);
    expect(saved.body.author).toBe('phone');
    // it may leave, and may not put others out or let them in
    const { body: list } = await ask('GET', 'devices', undefined, session);
    expect(JSON.stringify(list)).not.toContain('token');
    expect((await ask('DELETE', 'devices/999', undefined, session)).status).toBe(403);
    expect((await ask('POST', 'pair/code', {}, session)).status).toBe(403);
    expect((await ask('DELETE', `devices/${list.devices[0].id}`, undefined, session)).status).toBe(204);
    expect((await ask('GET', 'session', undefined, session)).status).toBe(401);
  });
  it('is closed after some wrong codes, to that address first', async () => {
    const { ask } = await start(lan);
    const { body: code } = await ask('POST', 'pair/code', {});
    const attempt = (typed: string, address: string) =>
      ask('POST', 'pair', { code: typed, device: 'x' }, { ...PHONE, remoteAddress: address }).then(
        ({ status }) => status,
      );
    for (let i = 0; i < 8; i++) expect(await attempt('AAAA-AAAA', '192.168.1.66')).toBe(401);
    expect(await attempt(code.code, '192.168.1.66')).toBe(429);
    expect(await attempt(code.code, '192.168.1.67')).toBe(200);
  });
  it('goes by the time that passes, though the clock is set back', async () => {
    let now = Date.parse('2026-05-04T10:00:00Z');
    let passed = 0;
    const database = openDatabase(newFolder());
    const access = accessOf(
      database.db,
      () => SECRET,
      () => now,
      () => passed,
    );
    for (let i = 0; i < 8; i++) await expect(access.pair('AAAAAAAA', 'phone', 'a')).rejects.toThrow('wrong');
    await expect(access.pair('AAAAAAAA', 'phone', 'a')).rejects.toThrow('Too many');
    const { code } = access.newCode(80);
    now -= 86_400_000;
    passed += 11 * 60_000;
    // who guessed wrong is not shut out for a day, and the code has run out
    await expect(access.pair(code, 'phone', 'a')).rejects.toThrow('run out');
    expect((await access.pair(access.newCode(80).code, 'phone', 'a')).device.name).toBe('phone');
    database.close();
  });
  it('runs out, as does a session', async () => {
    let now = Date.parse('2026-05-04T10:00:00Z');
    const database = openDatabase(newFolder());
    const access = accessOf(
      database.db,
      () => SECRET,
      () => now,
      () => now,
    );
    const old = access.newCode(80).code;
    now += 11 * 60_000;
    await expect(access.pair(old, 'phone', 'a')).rejects.toMatchObject({ body: { error: { code: 'wrong-code' } } });
    const first = access.newCode(80).code;
    const { token } = await access.pair(access.newCode(80).code, 'phone', 'a');
    await expect(access.pair(first, 'phone', 'b')).rejects.toThrow();
    expect((await access.deviceOf(token))?.name).toBe('phone');
    for (const wrong of [undefined, '', `${token}x`, `${token.slice(0, 42)}-`, 'x'.repeat(43)])
      if (wrong !== token) expect(await access.deviceOf(wrong)).toBeUndefined();
    now += 61 * 86_400_000;
    expect(await access.deviceOf(token)).toBeUndefined();
    database.close();
  });
  it('makes codes of letters that are not mistaken, hardly ever the same', () => {
    const database = openDatabase(newFolder());
    const access = accessOf(database.db, () => SECRET);
    const codes = new Set(Array.from({ length: 2000 }, () => access.newCode(80).code));
    expect(codes.size).toBe(2000);
    for (const code of codes) expect(code).toMatch(/^[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{4}$/);
    database.close();
  });
});

describe('the host', () => {
  it('is this machine by its own names and addresses, with the port it listens on', () => {
    const own = [...lanAddresses(), hostname(), `${hostname()}.local`, 'localhost', '127.0.0.1', '[::1]', 'BENCH.test'];
    for (const name of own) {
      expect(isOwnHost(`${name}:4180`, 4180, true, ['bench.test'])).toBe(true);
      expect(isOwnHost(`${name}:4181`, 4180, true, ['bench.test'])).toBe(false);
      expect(isOwnHost(name, 4180, true, ['bench.test'])).toBe(false);
    }
    expect(isOwnHost('bench.test:4180', 4180, false, ['bench.test'])).toBe(false);
  });
  it('is nothing else', () =>
    fc.assert(
      fc.property(fc.oneof(fc.domain(), fc.webAuthority(), fc.string()), (host) => {
        fc.pre(!/^(localhost|127\.0\.0\.1|\[::1\])(:80)?$/i.test(host));
        expect(isOwnHost(host, 80, false, [])).toBe(false);
      }),
      { numRuns: 1000 },
    ));
  it('and a cookie is found by its whole name', () => {
    expect(cookieOf('a=1; setwright-80=x; b=2', 'setwright-80')).toBe('x');
    expect(cookieOf('xsetwright-80=x', 'setwright-80')).toBeUndefined();
    expect(cookieOf(undefined, 'setwright-80')).toBeUndefined();
  });
});
