import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { bench, built, hasBrowser, open, saved, useBrowser, why } from './browser.testing.ts';

useBrowser();

const patient = { timeout: 20_000 };
const type = async (page: Page, piece: RegExp, field: string, words: string): Promise<void> => {
  await page.getByRole('button', { name: piece }).focus();
  await page.getByLabel(field, { exact: true }).fill(words);
  await page.keyboard.press('Enter');
};
const SCORES = /^Scores, case/;
const SHELF = /^Upper shelf, shelf/;

describe.skipIf(!hasBrowser)(`a plan that is changed in two tabs of one browser${why}`, () => {
  it('undoes in one what was made there, and keeps what the other made since, before it or after it', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml', [], built);
    const first = readFileSync(file, 'utf8');
    const { page: one, faults } = await open(address);
    const two = await one.context().newPage();
    await two.goto(address);
    await two.waitForSelector('[data-ready]');
    // a piece that is taken away is put back where it was, though what stands before it in the file has become longer
    await one.getByRole('button', { name: SHELF }).focus();
    await one.keyboard.press('Delete');
    await expect.poll(() => readFileSync(file, 'utf8'), patient).not.toContain('shelf: upper shelf');
    await saved(one);
    const without = readFileSync(file, 'utf8');
    await two.getByRole('button', { name: SHELF }).waitFor({ state: 'detached' });
    await type(two, SCORES, 'width', '4\' 6-17/32"');
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain('6-17/32');
    await one.getByText('Changed in another window.').waitFor();
    await one.getByRole('button', { name: 'Undo' }).click();
    const wider = (text: string) => text.replace(`width: 4' 6", height: 30"`, `width: 4' 6-17/32", height: 30"`);
    const both = wider(first);
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toBe(both);
    await one.getByText(/^Undone: .*taken away/).waitFor();
    // what the other made is next, and said to be so
    await saved(one);
    await one.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toBe(first);
    await one.getByText('Undone: a change made elsewhere').waitFor();
    for (const text of [both, wider(without)]) {
      await one.getByRole('button', { name: 'Redo' }).click();
      await expect.poll(() => readFileSync(file, 'utf8'), patient).toBe(text);
    }
    expect(faults).toEqual([]);
    await one.context().close();
  });

  it('where both changed one value, undo says that it cannot tell them apart, and goes on by revisions', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml', [], built);
    const first = readFileSync(file, 'utf8');
    const { page: one, faults } = await open(address);
    const two = await one.context().newPage();
    await two.goto(address);
    await two.waitForSelector('[data-ready]');
    await type(one, SCORES, 'width', '1.4 m');
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain('width: 1.4 m');
    await saved(one);
    await two.getByText('Changed in another window.').waitFor();
    await type(two, SCORES, 'width', '1.51 m');
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain('width: 1.51 m');
    await one.getByText('Changed in another window.').waitFor();
    const undo = one.getByRole('button', { name: 'Undo' });
    await undo.click();
    await one.getByText(/cannot be taken back by itself/).waitFor();
    expect(readFileSync(file, 'utf8')).toContain('width: 1.51 m');
    for (const text of [first.replace(`width: 4' 6", height: 30"`, 'width: 1.4 m, height: 30"'), first]) {
      await undo.click();
      await expect.poll(() => readFileSync(file, 'utf8'), patient).toBe(text);
      await saved(one);
    }
    expect(faults).toEqual([]);
    await one.context().close();
  });

  it('loses nothing when one goes on while its save, and what the other made, are still on their way', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml', [], built);
    const { page: one, faults } = await open(address);
    let letGo: () => void = () => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    let saves = 0;
    await one.route('**/plans/lesson-room.plan.yaml', async (route) => {
      if (route.request().method() === 'PUT' && ++saves === 1) await held;
      await route.continue();
    });
    await type(one, SCORES, 'width', '1.4 m');
    await expect.poll(() => saves, patient).toBe(1);
    const two = await one.context().newPage();
    await two.goto(address);
    await two.waitForSelector('[data-ready]');
    await type(two, SCORES, 'height', '32"');
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain('height: 32"');
    await saved(two);
    await type(one, SCORES, 'width', '1.45 m');
    letGo();
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain('width: 1.45 m, height: 32"');
    await one.getByText('Saved, together with a change made elsewhere.').waitFor();
    await saved(one);
    for (const width of ['1.4 m', `4' 6"`]) {
      await one.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain(`width: ${width}, height: 32"`);
    }
    expect(faults).toEqual([]);
    await one.context().close();
  });
});

describe.skipIf(!hasBrowser)(`a plan whose file is given another name${why}`, () => {
  it('goes on on the page under the new one: what is typed, undone and loaded again', async () => {
    const { address, file, folder } = await bench('lesson-room.plan.yaml', [], built);
    const first = readFileSync(file, 'utf8');
    const { page: p } = await open(address);
    await type(p, SCORES, 'width', '1.4 m');
    await saved(p);
    await expect.poll(() => readFileSync(file, 'utf8'), patient).toContain('width: 1.4 m');
    const other = join(folder, 'attic.plan.yaml');
    renameSync(file, other);
    await p.getByText('The file of this plan is called attic.plan.yaml now.').waitFor();
    await type(p, SCORES, 'width', '1.45 m');
    await expect.poll(() => readFileSync(other, 'utf8'), patient).toContain('width: 1.45 m');
    await p.getByRole('button', { name: /Cutting \d/ }).waitFor({ timeout: 120_000 });
    await p.reload();
    for (const text of [first.replace(`width: 4' 6", height: 30"`, 'width: 1.4 m, height: 30"'), first]) {
      await p.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(() => readFileSync(other, 'utf8'), patient).toBe(text);
    }
    await p.context().close();
  });

  it('goes on after a time without the server, in which something was typed', async () => {
    const { address, file, folder } = await bench('lesson-room.plan.yaml', [], built);
    const { page: p } = await open(address);
    await p.getByRole('button', { name: SCORES }).focus();
    await p.context().setOffline(true);
    await type(p, SCORES, 'width', '1.4 m');
    await p.getByText('Not saved', { exact: true }).waitFor();
    const other = join(folder, 'attic.plan.yaml');
    renameSync(file, other);
    // the server knows it by now
    await expect
      .poll(async () => (await fetch(`${address}/api/1/plans/lesson-room.plan.yaml`)).text(), patient)
      .toContain('attic.plan.yaml');
    await p.context().setOffline(false);
    await expect.poll(() => readFileSync(other, 'utf8'), patient).toContain('width: 1.4 m');
    await saved(p);
    writeFileSync(file, readFileSync(other));
    expect(await p.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('lesson-room')))).toEqual([]);
    await p.context().close();
  });
});
