import { copyFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  bench,
  hasBrowser,
  LAPTOP,
  open,
  PHONE,
  root,
  saved,
  sticksOut,
  tabTo,
  useBrowser,
  why,
} from './browser.testing.ts';

useBrowser();

/** The packet that the page offers to print, and that it is one. */
async function printed(page: Page, address: string): Promise<void> {
  const href = await page.locator('a.print-packet').first().getAttribute('href');
  const answer = await page.request.get(new URL(href!, address).href, { timeout: 240_000 });
  expect(answer.status()).toBe(200);
  const pdf = (await answer.body()).toString('latin1');
  expect(pdf.slice(0, 5)).toBe('%PDF-');
  expect(pdf.match(/\/Type \/Page\b/g)!.length).toBeGreaterThan(20);
}

// from an empty bench to a printed packet: by mouse, by keyboard alone, on a phone
describe.skipIf(!hasBrowser)(`a first plan${why}`, () => {
  it('is drawn, changed and printed by mouse', async () => {
    const { address, folder } = await bench();
    const { page: p, faults } = await open(address);
    await p.getByLabel('What is it called?').fill('Garden office');
    await p.getByLabel('How far back does the room go?').fill('2 in');
    await p.getByLabel('floating shelves above').click();
    await p.getByRole('button', { name: 'Draw the first plan' }).click();
    // what is wrong has the focus, and says what would do
    await p.getByText('expected at least').waitFor();
    await expect.poll(() => p.evaluate(() => document.activeElement?.hasAttribute('aria-invalid'))).toBe(true);
    // loaded again, the page still has what was answered
    await p.reload();
    expect(await p.getByLabel('What is it called?').inputValue()).toBe('Garden office');
    expect(await p.getByLabel('How far back does the room go?').inputValue()).toBe('2 in');
    expect(await p.getByLabel('floating shelves above').isChecked()).toBe(true);
    await p.getByLabel('How far back does the room go?').fill('12 ft');
    await p.getByLabel('How long is the wall?').fill('14 ft 2');
    await p.getByRole('button', { name: 'Draw the first plan' }).click();
    await p.getByRole('button', { name: /^case 1, case/ }).waitFor();
    await expect.poll(() => p.evaluate(() => document.activeElement?.id)).toBe('drawing');
    // loaded again it is still there, though the bench was empty when the server was started
    await p.reload();
    await p.getByRole('button', { name: /^case 1, case/ }).click();
    await p.getByLabel('height', { exact: true }).fill('34 1/2');
    await p.getByRole('heading', { name: 'Pieces' }).click();
    const file = () => readFileSync(join(folder, 'garden-office.plan.yaml'), 'utf8');
    await expect.poll(file).toMatch(/height: ["']?34 1\/2/);
    await saved(p);
    await printed(p, address);
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it('is not asked for where there are plans: one is opened, of several the list stands before the questions', async () => {
    const { address, folder } = await bench();
    const { page: p } = await open(address);
    copyFileSync(join(root, 'examples/radio-corner.plan.yaml'), join(folder, 'radio.plan.yaml'));
    await p.reload();
    await p.getByRole('button', { name: /^Records, case/ }).waitFor();
    copyFileSync(join(root, 'examples/lesson-room.plan.yaml'), join(folder, 'lesson.plan.yaml'));
    const { page: other } = await open(address);
    await tabTo(other, /lesson\.plan\.yaml/);
    expect(await other.getByRole('heading').allTextContents()).toEqual([
      'Setwright',
      'Open a plan',
      'Or begin a new one',
    ]);
    await other.keyboard.press('Enter');
    await other.getByRole('button', { name: /^Scores, case/ }).waitFor();
    await other.context().close();
    await p.context().close();
  });

  it('is asked for in the money that goes with its units, until another is chosen', async () => {
    const { address } = await bench();
    const { page: p } = await open(address);
    const [units, money] = [p.getByLabel('Lengths in'), p.getByLabel('Money in')];
    expect(await money.inputValue()).toBe('USD');
    await units.selectOption('mm');
    await expect.poll(() => money.inputValue()).toBe('EUR');
    await money.selectOption('GBP');
    await units.selectOption('in');
    await p.reload();
    expect(await money.inputValue()).toBe('GBP');
    await p.context().close();
  });

  it('is drawn, changed, undone and printed by keyboard alone', async () => {
    const { address, folder } = await bench();
    const { page: p, faults } = await open(address, '', { viewport: LAPTOP });
    await tabTo(p, /^What is it called/);
    await p.keyboard.press('Control+A');
    await p.keyboard.type('Attic nook');
    await tabTo(p, /^How long is the wall/);
    await p.keyboard.press('Control+A');
    await p.keyboard.type('4,2 m');
    await tabTo(p, /^books or scores/);
    await p.keyboard.press('Space');
    await tabTo(p, /^floating shelves above/);
    await p.keyboard.press('Space');
    await p.keyboard.press('Enter');
    await p.getByRole('button', { name: /^case 1, case/ }).waitFor();
    const file = () => readFileSync(join(folder, 'attic-nook.plan.yaml'), 'utf8');
    const first = file();
    expect(first).toContain('title: "Attic nook"');
    expect(first).not.toContain('name: books');
    expect(first).toContain('drawers:');
    expect(first).toContain('- shelf:');
    await tabTo(p, /^case 1, case/);
    await p.keyboard.press('Alt+ArrowUp');
    await expect.poll(file).not.toBe(first);
    await p.keyboard.press('Control+z');
    await expect.poll(file).toBe(first);
    await tabTo(p, /^Redo$/);
    await p.keyboard.press('Enter');
    await expect.poll(file).not.toBe(first);
    // the last step leaves the focus where it is
    expect(await p.evaluate(() => document.activeElement?.textContent)).toBe('Redo');
    await p.keyboard.press('Shift+Tab');
    await p.keyboard.press('Enter');
    await expect.poll(file).toBe(first);
    await tabTo(p, /^Print packet$/);
    await printed(p, address);
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it('is drawn, sized and printed on a phone, and nothing sticks out of the screen', async () => {
    const { address, folder } = await bench();
    const { page: p, faults } = await open(address, '', { viewport: PHONE, hasTouch: true, isMobile: true });
    expect(await sticksOut(p)).toBe(0);
    await p.getByLabel('What is it called?').fill('Hall');
    await p.getByLabel('Lengths in').selectOption('mm');
    await p.getByRole('button', { name: 'Draw the first plan' }).tap();
    await p.getByRole('button', { name: /^case 1, case/ }).tap();
    await p.locator('.leaves').getByRole('button', { name: 'Notes and sizes' }).tap();
    await p.getByLabel('width', { exact: true }).fill('0.8 m');
    await p.keyboard.press('Enter');
    const file = () => readFileSync(join(folder, 'hall.plan.yaml'), 'utf8');
    await expect.poll(file).toMatch(/width: ["']?0\.8 m/);
    // what was being typed in is still there when it is saved
    await saved(p);
    expect(await p.getByLabel('width', { exact: true }).isVisible()).toBe(true);
    for (const leaf of ['Pages', 'Drawing']) {
      await p.locator('.leaves').getByRole('button', { name: leaf }).tap();
      expect(await sticksOut(p)).toBe(0);
      expect(await p.locator('.history > .print-packet').isVisible()).toBe(leaf === 'Pages');
    }
    await printed(p, address);
    expect(faults).toEqual([]);
    await p.context().close();
  });
});
