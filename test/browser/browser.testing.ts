import type { ChildProcess } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import judge, { type RunOptions } from 'axe-core';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, vi } from 'vitest';
import { serve } from '../../src/server/kills.testing.ts';
import { executablePath, launch } from './chromium.ts';

/** The workbench as a person uses it: the built pages, the real server, a real browser. */
export const root = join(import.meta.dirname, '../..');
export const program = [process.env.SETWRIGHT_PROGRAM ?? join(root, 'dist/cli/main.js')];
export const hasBrowser = executablePath !== undefined;
/** To be said where the tests are skipped. */
export const why = hasBrowser ? '' : ' (skipped: no chromium on the PATH, nor named by CHROMIUM)';

let browser: Browser;
const folders: string[] = [];
const stops: (() => Promise<unknown>)[] = [];

/** Starts the browser before the tests of a file, and clears up after them. */
export function useBrowser(): void {
  // a busy machine takes its while
  vi.setConfig({ testTimeout: 300_000 });
  beforeAll(async () => {
    if (executablePath === undefined) return;
    browser = await launch(executablePath);
  });
  afterAll(async () => {
    await browser?.close();
    // a server writes to its folder until it has ended
    await Promise.all(stops.map((stop) => stop()));
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  });
}

/**
 * Of an example one option, and of that what is built: without light, sound, camera and calendar a page has little to work out behind what is
 * looked at.
 */
export const built = (text: string): string =>
  text
    .replace(/^(?:dates|paints):[\s\S]*?\n\n/gm, '')
    .replace(/^ {6}- \{(?:thing|strip|lamp|absorber|seat|camera): .*\n/gm, '')
    .replace(/(^ {2}- id: [\s\S]*?)^ {2}- id: [\s\S]*?(?=^paper)/m, '$1');

/** A workbench in a folder of its own, on an empty bench or on a copy of an example, whole or what is wanted of it. */
export async function bench(
  plan?: string,
  more: readonly string[] = [],
  of = (text: string) => text,
): Promise<{ address: string; folder: string; file: string; child: ChildProcess; said: () => string }> {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-browser-'));
  folders.push(folder);
  const file = join(folder, plan ?? '');
  if (plan !== undefined) writeFileSync(file, of(readFileSync(join(root, 'examples', plan), 'utf8')));
  const { address, child, said, ended } = await serve(program, plan === undefined ? folder : file, more);
  stops.push(() => {
    child.kill('SIGTERM');
    return ended;
  });
  return { address, folder, file, child, said };
}

export const PHONE = { width: 390, height: 844 } as const;
export const LAPTOP = { width: 1440, height: 900 } as const;

/** A page of the workbench, ready, and all that went wrong on it. */
export async function open(
  address: string,
  hash = '',
  options: BrowserContextOptions = { viewport: LAPTOP },
): Promise<{ page: Page; faults: string[] }> {
  // the judge of accessibility needs a context of its own
  const page = await (await browser.newContext(options)).newPage();
  page.setDefaultTimeout(60_000);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.goto(`${address}/${hash}`);
  await page.waitForSelector('[data-ready]');
  return { page, faults };
}

export const saved = (page: Page): Promise<void> => page.getByText('Saved', { exact: true }).first().waitFor();

/** What axe finds on a page as it stands, and in the colours of the other theme: nothing else differs between the two. */
export async function axe(page: Page): Promise<readonly string[]> {
  // once for a document; the pages have no frames, which would need it each
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(judge.source);
  const dark = await page.evaluate(() => matchMedia('(prefers-color-scheme: dark)').matches);
  const [here, there] = dark ? (['dark', 'light'] as const) : (['light', 'dark'] as const);
  // without motion no colour is still on its way, neither from what was looked at before nor from the other theme
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const found = await judged(page);
  await page.emulateMedia({ colorScheme: there });
  const other = await judged(page, { runOnly: ['color-contrast'] });
  await page.emulateMedia({ colorScheme: here });
  await page.emulateMedia({ reducedMotion: null });
  return [...found, ...other.map((fault) => `${there}: ${fault}`)];
}
const judged = (page: Page, options: RunOptions = {}): Promise<readonly string[]> =>
  page.evaluate(async (asked) => {
    const { axe } = window as unknown as { axe: typeof judge };
    // to name each element that passes takes far longer than to judge it
    const { violations } = await axe.run(document, { ...asked, resultTypes: ['violations'] });
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
  }, options);

/** How far the page is wider than the window, px. Of a phone the window grows with the page; what it was laid out for does not. */
export const sticksOut = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Goes by the Tab key alone to what has this name; gives up when the whole page was gone through. */
export async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 250; i++) {
    await page.keyboard.press('Tab');
    const words = await page.evaluate(() => {
      const at = document.activeElement as HTMLInputElement | null;
      return at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '';
    });
    if (name.test(words)) return;
  }
  throw new Error(`the Tab key does not lead to ${name}`);
}
