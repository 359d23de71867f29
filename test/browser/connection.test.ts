import { describe, expect, it } from 'vitest';
import { axe, bench, built, hasBrowser, open, PHONE, saved, sticksOut, useBrowser, why } from './browser.testing.ts';

useBrowser();

/** What is loaded only when it is shown: its script, where it is shown, and what stands there once it came. */
const PARTS: readonly (readonly [script: string, hash: string, there: string])[] = [
  ['shop-', '#/shop', '.shop'],
  ['views-', '#/view/prices', '.prices'],
  ['round-', '#/view/round', '.round-host canvas'],
  ['inspector-', '#/page/', '.pick'],
  ['menu-', '#/page/', '.print-packet'],
];

describe.skipIf(!hasBrowser)(`a bad connection${why}`, () => {
  it.each(PARTS)(
    'that keeps back the script %s takes nothing else along, and it comes by itself',
    async (script, hash, there) => {
      const { address } = await bench('lesson-room.plan.yaml', [], built);
      const { page: p } = await open(address);
      const broken: string[] = [];
      p.on('pageerror', (error) => broken.push(error.message));
      const assets = new RegExp(`/assets/${script}[\\w-]+\\.js$`);
      await p.context().route(assets, (route) => route.abort());
      await p.goto('about:blank');
      await p.goto(`${address}/${hash}`);
      await p
        .getByText(/not loaded yet|could not be loaded/)
        .first()
        .waitFor();
      expect(await axe(p)).toEqual([]);
      expect(await sticksOut(p)).toBe(0);
      if (hash === '#/page/') {
        // the drawing can be worked on all the same
        await p.getByRole('button', { name: /^Scores, case/ }).press('Alt+ArrowUp');
        await saved(p);
      }
      await p.context().unroute(assets);
      await p.locator(there).first().waitFor();
      expect(await p.getByText(/not loaded yet|could not be loaded/).count()).toBe(0);
      expect(broken).toEqual([]);
      await p.context().close();
    },
  );

  it('to a workbench that was built anew has the open page load itself again, once what is being typed is typed', async () => {
    const { address } = await bench('lesson-room.plan.yaml', [], built);
    const { page: p } = await open(address);
    let isNew = true;
    // its own scripts are gone, and its first page names others
    await p.route(/\/assets\/views-/, (route) => (isNew ? route.fulfill({ status: 404 }) : route.continue()));
    await p.route(`${address}/`, async (route) => {
      if (!isNew || route.request().resourceType() !== 'fetch') return route.continue();
      const answer = await route.fetch();
      const text = (await answer.text()).replace(/assets\/index-/, 'assets/anew-');
      return route.fulfill({ response: answer, body: text });
    });
    await p.getByRole('button', { name: /^Scores, case/ }).click();
    await p.getByLabel('height', { exact: true }).fill('31');
    await p.evaluate(() => {
      location.hash = '#/view/prices';
    });
    await p.getByText(/could not be loaded/).waitFor();
    const asked = p.waitForRequest((request) => request.resourceType() === 'fetch' && request.url() === `${address}/`);
    await asked;
    await p.getByLabel('height', { exact: true }).fill('31 1/2');
    expect(await p.getByLabel('height', { exact: true }).inputValue()).toBe('31 1/2');
    await p.getByLabel('height', { exact: true }).press('Enter');
    await saved(p);
    const again = p.waitForEvent('load');
    await p.locator('#drawing').focus();
    await again;
    isNew = false;
    await p.locator('.prices').waitFor();
    await p.getByRole('button', { name: 'Undo' }).click();
    await p.getByText('Undone: ').waitFor();
    await p.context().close();
  });

  it('that keeps back what finds mouldings leaves the cuts of the panels, says what is missing, and brings it later', async () => {
    const { address } = await bench('lesson-room.plan.yaml', [], built);
    const { page: p } = await open(address, '#/shop', { viewport: PHONE });
    const layouts = (): Promise<readonly string[]> =>
      p
        .getByLabel(/^Layout/)
        .locator('option')
        .allTextContents();
    await p.getByLabel(/^Layout, of/).waitFor();
    const all = await layouts();
    const first = await p.locator('.next').textContent();
    expect(all.some((words) => words.startsWith('scribe moulding'))).toBe(true);
    const findings = /\/assets\/findings-[\w-]+\.js$/;
    await p.context().route(findings, (route) => route.abort());
    await p.reload();
    await p.getByText(/What works out mouldings and days could not be loaded/).waitFor();
    await p.getByLabel('Layout', { exact: true }).waitFor();
    const panels = await layouts();
    expect(panels.length).toBeGreaterThan(0);
    expect(panels.map((words) => words.split(',')[0])).toEqual(
      all.slice(0, panels.length).map((words) => words.split(',')[0]),
    );
    expect(panels.some((words) => words.startsWith('scribe moulding') || words.startsWith('poplar'))).toBe(false);
    expect(await p.locator('.next').textContent()).toBe(first);
    expect(await axe(p)).toEqual([]);
    expect(await sticksOut(p)).toBe(0);
    await p.goto(`${address}/#/part/no%2Fsuch`);
    await p.getByText(/Looking for the part among the mouldings/).waitFor();
    await p.context().unroute(findings);
    await p.getByText(/There is no such part/).waitFor();
    await p.goto(`${address}/#/shop`);
    await p.getByLabel(/^Layout, of/).waitFor();
    expect(await layouts()).toEqual(all);
    await p.context().close();
  });

  it.each(['cutter', 'packet', 'day'] as const)(
    'that keeps back the worker %s is made good when it is over',
    async (worker) => {
      const { address } = await bench('lesson-room.plan.yaml');
      const { page: p } = await open(address);
      const script = new RegExp(`/assets/${worker}\\.worker-[\\w-]+\\.js$`);
      const kept: string[] = [];
      await p.context().route(script, (route) => {
        kept.push(route.request().url());
        return route.abort();
      });
      await p.goto('about:blank');
      await p.goto(`${address}/#/${worker === 'day' ? 'shop' : 'page/'}`);
      await expect.poll(() => kept.length, { timeout: 120_000 }).toBeGreaterThan(0);
      await p.context().unroute(script);
      const there = {
        cutter: p.getByRole('button', { name: /^Panels\s*\d+$/ }),
        packet: p.getByRole('button', { name: /Cutting \d/ }),
        day: p.locator('.shop-today'),
      };
      await there[worker].waitFor({ timeout: 120_000 });
      await p.context().close();
    },
  );
});
