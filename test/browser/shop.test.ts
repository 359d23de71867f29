import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call, serve } from '../../src/server/kills.testing.ts';
import { axe, bench, built, hasBrowser, open, PHONE, program, useBrowser, why } from './browser.testing.ts';

useBrowser();

const PLAN = 'lesson-room.plan.yaml';
const asPhone = { viewport: PHONE } as const;

/** Ticks as another device makes them, each in a request of its own. */
const tickedElsewhere = async (address: string, abouts: readonly string[], done = true): Promise<void> => {
  for (const [i, about] of abouts.entries()) {
    const ticks = [{ id: `elsewhere-${done}-${i}`, about, done, at: new Date().toISOString() }];
    expect((await call(address, 'POST', `plans/${PLAN}/ticks`, { ticks })).status).toBe(200);
  }
};
let called: readonly string[] | undefined;
/** What the first cuts are called by: as a page that ticked them told its server. */
async function firstCuts(many: number): Promise<readonly string[]> {
  if (!called) {
    const { address } = await bench(PLAN, [], built);
    const { page: p } = await open(address, '#/shop', asPhone);
    for (let made = 1; made <= 4; made++) {
      await p.getByRole('button', { name: 'Done' }).click();
      await p.getByText(new RegExp(`^${made} of \\d+ cuts done`)).waitFor();
    }
    await p.getByText(/ticks? waits?/).waitFor({ state: 'hidden' });
    const { text } = await call(address, 'GET', `plans/${PLAN}/ticks`);
    called = (JSON.parse(text) as { ticks: { about: string }[] }).ticks.map(({ about }) => about);
    await p.context().close();
  }
  return called.slice(0, many);
}

describe.skipIf(!hasBrowser)(`a phone in the shop${why}`, () => {
  it('that comes back to a workbench started anew shows what was ticked since', async () => {
    const { address, file, child } = await bench(PLAN, [], built);
    const abouts = await firstCuts(2);
    const { page: p } = await open(address, '#/shop', asPhone);
    await p.getByText(/^0 of \d+ cuts done/).waitFor();
    child.kill('SIGKILL');
    const again = await serve(program, file, ['--port', new URL(address).port]);
    await tickedElsewhere(address, abouts);
    await p.getByText(/^2 of \d+ cuts done/).waitFor({ timeout: 20_000 });
    again.child.kill('SIGTERM');
    await p.context().close();
  });

  it('is let in by the square in the terminal, and again after it was put out, with the ticks it made meanwhile', async () => {
    const { address, said } = await bench(PLAN, ['--lan', '--name', 'phone.test'], built);
    const code = async () => /Pairing code: \S*?([A-Z2-9]{4}-[A-Z2-9]{4})/.exec(said())?.[1];
    await expect.poll(code).toBeDefined();
    const { page: p } = await open(address.replace('127.0.0.1', 'phone.test'), `#pair=${await code()}`, asPhone);
    await p.getByLabel('What to call this device').fill('phone');
    await p.getByRole('button', { name: 'Join' }).click();
    await p.getByText('Alder Lane lesson room').first().waitFor();
    expect(p.url()).not.toContain('pair');
    await p.goto(`${new URL(p.url()).origin}/#/shop`);
    await p.getByText(/^0 of \d+ cuts done/).waitFor();

    const { page: laptop } = await open(address);
    await laptop.getByRole('button', { name: 'More' }).click();
    await laptop.getByRole('button', { name: 'Let phone in no more' }).click();
    await laptop.getByRole('button', { name: 'Let phone in no more' }).waitFor({ state: 'hidden' });
    await p.getByRole('button', { name: 'Done' }).click();
    await p.getByText(/1 tick waits on this device/).waitFor();
    await laptop.getByRole('button', { name: 'Show a pairing code' }).click();
    const next = await laptop.locator('.pair-code').textContent();
    await p.getByRole('button', { name: 'Pair again' }).click();
    await p.getByLabel('Code', { exact: true }).fill(next!);
    await p.getByRole('button', { name: 'Join' }).click();
    await p.getByText(/^1 of \d+ cuts done/).waitFor();
    await p.getByText(/1 tick waits/).waitFor({ state: 'hidden' });
    await p.getByRole('button', { name: 'Done' }).waitFor();
    const { text } = await call(address, 'GET', `plans/${PLAN}/ticks`);
    expect((JSON.parse(text) as { ticks: unknown[] }).ticks).toMatchObject([{ device: 'another device' }]);
    await laptop.context().close();
    await p.context().close();
  });

  it('that is put out while it draws says so by itself, keeps the drawing, and is let in again with it', async () => {
    const { address, said, file } = await bench(PLAN, ['--lan', '--name', 'phone.test'], built);
    const code = async () => /Pairing code: \S*?([A-Z2-9]{4}-[A-Z2-9]{4})/.exec(said())?.[1];
    await expect.poll(code).toBeDefined();
    const { page: p } = await open(address.replace('127.0.0.1', 'phone.test'));
    expect(await axe(p)).toEqual([]);
    // nothing is asked of the server for a code that was not typed: it counts as a wrong guess
    await p.getByRole('button', { name: 'Join' }).click();
    await p.getByText('the code is still missing').waitFor();
    await p.keyboard.type((await code())!.toLowerCase());
    await p.getByLabel('What to call this device').fill('tablet');
    await p.keyboard.press('Enter');
    await p.getByRole('button', { name: /^Scores, case/ }).waitFor();

    const { page: laptop } = await open(address);
    await laptop.getByRole('button', { name: 'More' }).click();
    await laptop.getByRole('button', { name: 'Let tablet in no more' }).click();
    await p.getByText('lets this device in no more').waitFor();
    await p.getByRole('button', { name: /^Scores, case/ }).press('Alt+ArrowRight');
    await p.getByText('Not saved').waitFor();
    expect(await p.locator('.message').textContent()).not.toContain('not reached');
    expect(await axe(p)).toEqual([]);
    const before = readFileSync(file, 'utf8');
    await laptop.getByRole('button', { name: 'Show a pairing code' }).click();
    const next = await laptop.locator('.pair-code').textContent();
    await p.getByRole('button', { name: 'Pair again' }).click();
    await expect.poll(() => p.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
    await p.keyboard.type(next!);
    await p.keyboard.press('Enter');
    await p.getByRole('button', { name: /^Scores, case/ }).waitFor();
    await expect.poll(() => readFileSync(file, 'utf8')).not.toBe(before);
    expect(await p.getByText('lets this device in no more').count()).toBe(0);
    await laptop.context().close();
    await p.context().close();
  });

  it('with two pages open and no connection keeps the ticks of both, also when both are closed', async () => {
    const { address } = await bench(PLAN, [], built);
    const { page: one } = await open(address, '#/shop', asPhone);
    const context = one.context();
    await context.route('**/ticks', (route) => route.abort());
    const two = await context.newPage();
    await two.goto(`${address}/#/shop`);
    for (const [i, p] of [one, two].entries()) {
      const box = p.locator('h2.ticks-title + ol.ticks input').nth(i);
      await box.click();
      await p.getByText(/tick(s wait| waits) for the connection/).waitFor();
    }
    await one.close();
    await two.close();
    await context.unroute('**/ticks');
    const later = await context.newPage();
    await later.goto(`${address}/#/shop`);
    await later.getByText(/^2 of \d+ cuts done/).waitFor({ timeout: 20_000 });
    await context.close();
  });

  it.each([-3_600_000, 3_600_000])(
    'whose clock is off by %i ms takes back what another ticked, and keeps the order of its own taps',
    async (off) => {
      const { address } = await bench(PLAN, [], built);
      const abouts = await firstCuts(1);
      await tickedElsewhere(address, abouts);
      const { page: p } = await open(address, '#/shop', asPhone);
      await p.getByText(/^1 of \d+ cuts done/).waitFor();
      await p.clock.setFixedTime(new Date(Date.now() + off));
      const box = p.locator('h2.ticks-title + ol.ticks input').first();
      await box.click();
      await p.getByText(/^0 of \d+ cuts done/).waitFor({ timeout: 5_000 });
      // off the network, and back and forth more than once
      await p.route('**/ticks', (route) => route.abort());
      for (const made of [1, 0, 1, 0, 1]) {
        await box.click();
        await p.getByText(new RegExp(`^${made} of \\d+ cuts done`)).waitFor({ timeout: 5_000 });
      }
      await p.unroute('**/ticks');
      await p.getByText(/ticks? waits?/).waitFor({ state: 'hidden' });
      await p.getByText(/^1 of \d+ cuts done/).waitFor({ timeout: 5_000 });
      const other = await open(address, '#/shop', asPhone);
      await other.page.getByText(/^1 of \d+ cuts done/).waitFor({ timeout: 20_000 });
      await other.page.context().close();
      await p.context().close();
    },
  );
});
