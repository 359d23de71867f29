import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, brotliDecompressSync, gunzipSync, gzipSync } from 'node:zlib';
import { afterAll, afterEach, expect, it } from 'vitest';
import { newFolder, type Trial, trial } from './server.testing.ts';

const web = newFolder();
const SCRIPT = 'console.log("a page");'.repeat(50);
mkdirSync(join(web, 'assets'));
writeFileSync(
  join(web, 'index.html'),
  '<!doctype html><meta property="csp-nonce" nonce="%NONCE%"><script type="module" src="/assets/main-Ab3dE5gH.js"></script>',
);
writeFileSync(join(web, 'assets/main-Ab3dE5gH.js'), SCRIPT);
writeFileSync(join(web, 'assets/main-Ab3dE5gH.js.br'), brotliCompressSync(SCRIPT));
writeFileSync(join(web, 'assets/main-Ab3dE5gH.js.gz'), gzipSync(SCRIPT));
writeFileSync(join(web, 'icon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
writeFileSync(join(web, '.secret'), 'hidden');
afterAll(() => rmSync(web, { recursive: true }));

const open: Trial[] = [];
const start = async (): Promise<Trial> => {
  const one = await trial({ web });
  open.push(one);
  return one;
};
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

it('the page is never stored, and carries a mark of its own each time that its policy names', async () => {
  const { ask } = await start();
  const marks = new Set<string>();
  for (let i = 0; i < 5; i++) {
    const { status, headers, raw } = await ask('GET', '/');
    expect([status, headers['cache-control'], headers['content-type']]).toEqual([
      200,
      'no-store',
      'text/html; charset=utf-8',
    ]);
    const mark = /nonce="([^"]+)"/.exec(raw.toString())![1]!;
    expect(String(headers['content-security-policy'])).toContain(`style-src 'self' 'nonce-${mark}'`);
    expect(String(headers['content-security-policy'])).toMatch(/script-src 'self' 'wasm-unsafe-eval';/);
    expect(headers['x-frame-options']).toBe('DENY');
    marks.add(mark);
  }
  expect(marks.size).toBe(5);
});
it('a name with a hash is kept for ever, the rest is asked for again', async () => {
  const { ask } = await start();
  expect((await ask('GET', '/assets/main-Ab3dE5gH.js')).headers['cache-control']).toBe(
    'public, max-age=31536000, immutable',
  );
  expect((await ask('GET', '/icon.svg')).headers['cache-control']).toBe('no-cache');
});
it('what was compressed beforehand is sent so, by what the browser takes', async () => {
  const { ask } = await start();
  const path = '/assets/main-Ab3dE5gH.js';
  const brotli = await ask('GET', path, undefined, { headers: { 'accept-encoding': 'gzip, br' } });
  expect(brotli.headers['content-encoding']).toBe('br');
  expect(brotliDecompressSync(brotli.raw).toString()).toBe(SCRIPT);
  const gzip = await ask('GET', path, undefined, { headers: { 'accept-encoding': 'gzip' } });
  expect(gzip.headers['content-encoding']).toBe('gzip');
  expect(gunzipSync(gzip.raw).toString()).toBe(SCRIPT);
  const plain = await ask('GET', path);
  expect([plain.headers['content-encoding'], plain.raw.toString()]).toEqual([undefined, SCRIPT]);
  for (const { headers } of [brotli, gzip, plain]) {
    expect(String(headers['content-type'])).toMatch(/^(text|application)\/javascript/);
    expect(String(headers.vary)).toMatch(/accept-encoding/i);
  }
});
it('an address of the page itself opens the page; a file that is not there does not', async () => {
  const { ask } = await start();
  const html = { headers: { accept: 'text/html' } };
  expect((await ask('GET', '/part/scores.left', undefined, html)).status).toBe(404);
  expect((await ask('GET', '/shop/today', undefined, html)).headers['content-type']).toBe('text/html; charset=utf-8');
  expect((await ask('GET', '/assets/gone-12345678.js', undefined, html)).status).toBe(404);
  expect((await ask('GET', '/shop/today')).status).toBe(404);
});
it.each([
  '/.secret',
  '/assets/../.secret',
  '/%2esecret',
  '/assets/%2e%2e/%2e%2e/etc/passwd',
  '/..%2f..%2fetc/passwd',
  '/assets/..%5c..%5csecret',
])('nothing hidden and nothing outside is sent: %s', async (path) => {
  const { ask } = await start();
  const { status, raw } = await ask('GET', path);
  expect(status).toBeGreaterThanOrEqual(400);
  expect(raw.toString()).not.toContain('hidden');
});
