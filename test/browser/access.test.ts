import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe, bench, hasBrowser, LAPTOP, open, PHONE, sticksOut, useBrowser, why } from './browser.testing.ts';

useBrowser();

/** Every kind of sheet and every view, and what stands there once it is ready. */
const PLACES: readonly (readonly [string, string])[] = [
  ['#/page/cover', '.sheet-host'],
  ['#/page/plan', '.hold'],
  ['#/page/elevation-north', '.hold'],
  ['#/page/piece-scores', '.sheet-host'],
  ['#/view/round', '.round-host canvas'],
  ['#/view/options', '.compared'],
  ['#/view/steps', '.chart'],
  ['#/view/prices', '.rows'],
  ['#/view/rack', '.rows'],
  ['#/view/revisions', '.rows td'],
  ['#/view/words', 'textarea'],
  ['#/shop', '.next'],
  ['#/part/', '.part-list'],
  ['#/part/scores%2Fleft-side', '.part-card'],
];
async function visit(p: Page, address: string): Promise<readonly unknown[]> {
  const found: unknown[] = [];
  for (const [hash, there] of PLACES) {
    await p.goto(`${address}/${hash}`);
    await p.locator(there).first().waitFor();
    for (const fault of await axe(p)) found.push([hash, fault]);
    const wide = await sticksOut(p);
    if (wide !== 0) found.push([hash, `${wide} px too wide`]);
  }
  return found;
}

describe.skipIf(!hasBrowser)(`the workbench for everybody${why}`, () => {
  it('is judged by what finds a button without a name, and a grey on grey in the other theme', async () => {
    const { address } = await bench();
    const { page: p } = await open(address, '', { viewport: LAPTOP, colorScheme: 'light' });
    expect(await axe(p)).toEqual([]);
    await p.evaluate(() => {
      const button = document.createElement('button');
      button.className = 'nameless';
      const faint = document.createElement('p');
      faint.className = 'faint';
      faint.textContent = 'faint';
      faint.style.cssText = 'color: light-dark(#000, #555); background: light-dark(#fff, #444)';
      document.querySelector('main')?.append(button, faint);
    });
    expect(await axe(p)).toEqual(['button-name: .nameless', 'dark: color-contrast: .faint']);
    await p.context().close();
  });

  it('has nothing for axe to find on any page or view, on a screen, in either theme', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await open(address, '', { viewport: LAPTOP, colorScheme: 'light' });
    expect(await visit(p, address)).toEqual([]);
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it('has nothing for axe to find on a phone, in either theme', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await open(address, '', { viewport: PHONE, colorScheme: 'dark' });
    expect(await visit(p, address)).toEqual([]);
    await p.goto(`${address}/#/page/`);
    for (const leaf of ['Pages', 'Notes and sizes', 'Drawing']) {
      await p.locator('.leaves').getByRole('button', { name: leaf }).click();
      expect([leaf, await axe(p), await sticksOut(p)]).toEqual([leaf, [], 0]);
    }
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it('goes on with the focus at what was asked for, where a narrow window shows one leaf at a time', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await open(address, '', { viewport: { width: 800, height: 900 } });
    const focused = () => p.evaluate(() => document.activeElement?.id);
    // of the page that lies there already too
    for (const name of ['Price book', 'Price book', 'Plan of the room']) {
      await p.locator('.leaves').getByRole('button', { name: 'Pages' }).click();
      await p.getByRole('link', { name }).focus();
      await p.keyboard.press('Enter');
      await expect.poll(focused).toBe('drawing');
      expect(await p.getByRole('link', { name }).isVisible()).toBe(false);
    }
    // where the register stays, the focus stays in it
    await p.setViewportSize(LAPTOP);
    await p.getByRole('link', { name: 'Price book' }).focus();
    await p.keyboard.press('Enter');
    await p.locator('.prices').waitFor();
    expect(await p.evaluate(() => document.activeElement?.textContent)).toBe('Price book');
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it('has nothing for axe to find with anything open: figures, notes, lists, fields in error, the empty bench', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await open(address);
    for (const name of [/^Cost/, /^Panels/, /^Cuts/, /^Parts/, /^Hours/, /^Notes/, 'More', /^Keys/]) {
      await p.getByRole('button', { name }).click();
      await p.locator('dialog[open]').waitFor();
      await expect.poll(() => p.getByText('One moment').count()).toBe(0);
      expect([name, await axe(p)]).toEqual([name, []]);
      await p.keyboard.press('Escape');
      // the focus is back where it was
      await expect.poll(() => p.evaluate(() => document.activeElement?.tagName)).toBe('BUTTON');
    }
    await p.getByRole('button', { name: 'Add a piece' }).click();
    await p.locator('.note-title').first().click();
    await p.getByText(/checked and found to hold/).click();
    // by key: where the note is about this piece, its bays lie upon it already
    await p.getByRole('button', { name: /^Scores, case/ }).press('Enter');
    await p.locator('.bay').last().click();
    expect(await axe(p)).toEqual([]);
    await p.getByRole('button', { name: 'More' }).click();
    await p.getByRole('button', { name: 'New plan' }).click();
    await expect.poll(() => p.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
    await p.getByLabel('How long is the wall?').fill('long');
    await p.getByRole('button', { name: 'Draw the first plan' }).click();
    await p.locator('.wrong').waitFor();
    expect(await axe(p)).toEqual([]);
    expect(faults).toEqual([]);
    await p.context().close();
  });
});
