import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  axe,
  bench,
  built,
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

const FAULTS: readonly (readonly [what: string, from: string, to: string, said: RegExp])[] = [
  ['broken YAML', 'options:', 'options: [', /set further in/],
  ['a version to come', 'setwright: 1', 'setwright: 9', /newer than the program/],
  ['a value refused', 'width: 1.4 m', 'width: wide', /no number is found in 'wide'/],
];

describe.skipIf(!hasBrowser)(`a plan that cannot be read${why}`, () => {
  it.each(FAULTS)(
    '(%s) leads by key to its last sound revision, and undo does not break it again',
    async (_, from, to, said) => {
      const { address, file } = await bench('lesson-room.plan.yaml', [], built);
      const first = readFileSync(file, 'utf8');
      const { page: p, faults } = await open(address);
      await p.getByRole('button', { name: /^Scores, case/ }).focus();
      await p.getByLabel('width', { exact: true }).fill('1.4 m');
      await p.keyboard.press('Enter');
      await saved(p);
      await expect.poll(() => readFileSync(file, 'utf8')).toContain('width: 1.4 m, height: 30"');
      const sound = readFileSync(file, 'utf8');
      writeFileSync(file, sound.replace(from, to));
      await p.goto('about:blank');
      await p.goto(address);
      await p.getByText(said).first().waitFor();
      await p.getByRole('button', { name: /^Bring revision 2 back/ }).waitFor();
      await tabTo(p, /^Bring revision 2 back/);
      await p.keyboard.press('Enter');
      await expect.poll(() => readFileSync(file, 'utf8')).toBe(sound);
      await expect.poll(() => p.evaluate(() => document.activeElement?.id)).toBe('drawing');
      await p.keyboard.press('Control+z');
      await expect.poll(() => readFileSync(file, 'utf8')).toBe(first);
      await saved(p);
      expect(faults).toEqual([]);
      await p.context().close();
    },
  );

  it('is put right in its own words, and what was wrong is nothing that undo comes back to', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml', [], built);
    const first = readFileSync(file, 'utf8');
    writeFileSync(file, first.replace('height: 30"', 'height: tall').replace(/^( {2}hands: ).*/m, '$1some'));
    const { page: p, faults } = await open(address);
    await p.getByText('None of its revisions could be read.').waitFor();
    // what a key means comes by itself, where something is wrong with it
    await p.getByText("this is not a number (found 'some'; expected people working)").waitFor();
    await p.getByLabel(/^The file as it is/).fill(first.replace('height: 30"', 'height: 31"'));
    await p.getByRole('button', { name: 'Keep it' }).click();
    await expect.poll(() => readFileSync(file, 'utf8')).toContain('height: 31"');
    await saved(p);
    await p.keyboard.press('Control+z');
    await p.getByText('This is the first text of the plan.').waitFor();
    expect(readFileSync(file, 'utf8')).toContain('height: 31"');
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it.each([
    ['laptop', LAPTOP, ''],
    ['phone', PHONE, ''],
    ['phone in the shop', PHONE, '#/shop'],
  ] as const)('leads to another plan of the folder (%s)', async (_, viewport, hash) => {
    const { address, file, folder } = await bench('lesson-room.plan.yaml', [], built);
    copyFileSync(join(root, 'examples/radio-corner.plan.yaml'), join(folder, 'radio-corner.plan.yaml'));
    writeFileSync(join(folder, 'shopping.yaml'), 'milk: 2\n');
    writeFileSync(file, readFileSync(file, 'utf8').replace('options:', 'options: ['));
    const { page: p, faults } = await open(address, hash, { viewport });
    await p.getByText(/^And \d+ more/).waitFor();
    expect(await axe(p)).toEqual([]);
    expect(await sticksOut(p)).toBe(0);
    await tabTo(p, /^shopping.yaml/);
    await p.keyboard.press('Enter');
    await p.getByText(/^shopping.yaml cannot be read as a plan/).waitFor();
    await tabTo(p, /^Radio corner/);
    await p.keyboard.press('Enter');
    await p.getByRole('heading', { level: 1, name: /Radio corner/ }).waitFor();
    expect(faults).toEqual([]);
    await p.context().close();
  });
});
