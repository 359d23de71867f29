import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve } from '../../src/server/kills.testing.ts';

/** The workbench as a person uses it: the built pages, the real server, a real browser. */
const root = join(import.meta.dirname, '../..');
const program = [process.env.SETWRIGHT_PROGRAM ?? join(root, 'dist/cli/main.js')];
const executablePath = [
  process.env.CHROMIUM,
  ...(process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, 'chromium')),
].find((file) => file !== undefined && existsSync(file));
const why = executablePath === undefined ? ' (skipped: no chromium on the PATH, nor named by CHROMIUM)' : '';

let browser: Browser;
const folders: string[] = [];
const stops: (() => void)[] = [];
beforeAll(async () => {
  if (executablePath === undefined) return;
  browser = await chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
});
afterAll(async () => {
  await browser?.close();
  for (const stop of stops) stop();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const newFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-browser-'));
  folders.push(folder);
  return folder;
};
async function bench(plan?: string): Promise<{ address: string; folder: string; file: string }> {
  const folder = newFolder();
  const file = join(folder, 'lesson-room.plan.yaml');
  if (plan !== undefined) copyFileSync(join(root, 'examples', plan), file);
  const { address, child } = await serve(program, plan === undefined ? folder : file);
  stops.push(() => child.kill('SIGTERM'));
  return { address, folder, file };
}
async function page(address: string, hash = '', width = 1440, height = 900): Promise<{ page: Page; faults: string[] }> {
  // the judge of accessibility needs a context of its own
  const opened = await (await browser.newContext({ viewport: { width, height } })).newPage();
  const faults: string[] = [];
  opened.on('pageerror', (error) => faults.push(error.message));
  opened.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await opened.goto(`${address}/${hash}`);
  await opened.waitForSelector('[data-ready]');
  return { page: opened, faults };
}
const saved = (p: Page) => p.getByText('Saved', { exact: true }).waitFor();
const axe = async (p: Page): Promise<readonly string[]> =>
  (await new AxeBuilder({ page: p }).analyze()).violations.map(
    (v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`,
  );

describe.skipIf(executablePath === undefined)(`the workbench${why}`, () => {
  it('comes from an empty bench to a first plan by keyboard alone, and keeps it as a file', async () => {
    const { address, folder } = await bench();
    const { page: p, faults } = await page(address);
    await p.getByLabel('What is it called?').focus();
    await p.keyboard.press('Control+A');
    await p.keyboard.type('Attic nook');
    await p.keyboard.press('Enter');
    await p.getByRole('button', { name: /^case 1, case/ }).waitFor();
    expect(readFileSync(join(folder, 'attic-nook.plan.yaml'), 'utf8')).toContain('title: "Attic nook"');
    expect(faults).toEqual([]);
    await p.close();
  });

  it('keeps a typed size in the file, with its comments, and undoes it after the page was loaded again', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml');
    const before = readFileSync(file, 'utf8');
    const { page: p, faults } = await page(address);
    await p.getByRole('button', { name: /^Scores, case/ }).focus();
    await p.getByLabel('width', { exact: true }).fill('1.4 m');
    await p.keyboard.press('Enter');
    await expect
      .poll(() => readFileSync(file, 'utf8'))
      .toBe(before.replace(`width: 4' 6", height: 30"`, `width: 1.4 m, height: 30"`));
    await p.reload();
    await p.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => readFileSync(file, 'utf8')).toBe(before);
    await p.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(() => readFileSync(file, 'utf8')).toContain('width: 1.4 m, height: 30"');
    expect(faults).toEqual([]);
    await p.close();
  });

  it('says what is wrong with a length it cannot read, and keeps the plan', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml');
    const before = readFileSync(file, 'utf8');
    const { page: p } = await page(address);
    await p.getByRole('button', { name: /^Scores, case/ }).focus();
    await p.getByLabel('width', { exact: true }).fill('wide');
    await p.keyboard.press('Enter');
    await p.locator('.wrong').waitFor();
    expect(await axe(p)).toEqual([]);
    expect(readFileSync(file, 'utf8')).toBe(before);
    await p.close();
  });

  it('moves a piece by hand and by arrows, copies it and takes it away again', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await page(address);
    const shelf = p.getByRole('button', { name: /^Upper shelf, shelf/ });
    const box = (await shelf.boundingBox())!;
    await p.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await p.mouse.down();
    await p.mouse.move(box.x + box.width / 2 + 40, box.y + box.height / 2, { steps: 5 });
    await p.mouse.up();
    await expect.poll(() => readFileSync(file, 'utf8')).not.toMatch(/shelf: upper shelf\n.*\n.*\n\s+from: 8"/);
    const placed = readFileSync(file, 'utf8');
    await shelf.focus();
    await p.keyboard.press('ArrowRight');
    await expect.poll(() => readFileSync(file, 'utf8')).not.toBe(placed);
    await p.keyboard.press('Control+d');
    await p.getByRole('button', { name: /^Upper shelf 2, shelf/ }).waitFor();
    await expect.poll(() => readFileSync(file, 'utf8')).toContain('shelf: upper shelf 2');
    await p.getByRole('button', { name: 'Delete' }).click();
    await expect.poll(() => readFileSync(file, 'utf8')).not.toContain('upper shelf 2');
    expect(faults).toEqual([]);
    await p.close();
  });

  it('has nothing for axe to find, on sheets, views and pop-ups, on the desk and on a phone', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await page(address);
    for (const hash of [
      '#/page/cover',
      '#/page/plan',
      '#/view/options',
      '#/view/prices',
      '#/view/rack',
      '#/view/revisions',
      '#/view/words',
      '#/shop',
      '#/part/scores%2Fleft-side',
      '#/page/',
    ]) {
      await p.goto(`${address}/${hash}`);
      await p.waitForTimeout(700);
      expect([hash, await axe(p)]).toEqual([hash, []]);
    }
    for (const name of [/^Cost/, /^Hours/, 'More']) {
      await p.getByRole('button', { name }).click();
      await p.locator('dialog[open]').waitFor();
      expect(await axe(p)).toEqual([]);
      await p.keyboard.press('Escape');
    }
    await p.setViewportSize({ width: 390, height: 844 });
    for (const name of ['Pages', 'Notes and sizes', 'Drawing']) {
      await p.locator('.panes').getByRole('button', { name }).click();
      expect(await axe(p)).toEqual([]);
      expect(await p.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
    }
    expect(faults).toEqual([]);
    await p.close();
  });

  it('ticks a cut without a connection, and delivers the tick when there is one again', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p } = await page(address, '#/shop', 390, 844);
    const done = p.getByRole('button', { name: 'Done' });
    await done.waitFor();
    await p.getByText(/^0 of \d+ cuts done/).waitFor();
    await p.route('**/ticks', (route) => route.abort());
    await done.click();
    await p.getByText(/1 tick waits/).waitFor();
    await p.unroute('**/ticks');
    await p.getByText(/1 tick waits/).waitFor({ state: 'hidden' });
    const other = await page(address, '#/shop', 390, 844);
    await other.page.getByText(/^1 of \d+ cuts done/).waitFor();
    await other.page.close();
    await p.close();
  });

  it('shows on one page what another saved', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const [one, two] = [await page(address), await page(address)];
    await one.page.getByRole('button', { name: /^Machines, case/ }).focus();
    await one.page.getByLabel('title').fill('Amplifiers');
    await one.page.keyboard.press('Enter');
    await saved(one.page);
    await two.page.getByRole('button', { name: /^Amplifiers, case/ }).waitFor();
    await one.page.close();
    await two.page.close();
  });
});
