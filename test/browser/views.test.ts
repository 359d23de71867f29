import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bench, hasBrowser, open, root, saved, useBrowser, why } from './browser.testing.ts';

useBrowser();

const width = (file: string): string | undefined =>
  /- case: scores[\s\S]{0,300}?width: ?["']?([^,"\n]+)/.exec(readFileSync(file, 'utf8'))?.[1];

describe.skipIf(!hasBrowser)(`beside the sheets${why}`, () => {
  it('the chart of price steps is gone along by key, step after step, without losing the focus', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await open(address, '#/view/steps');
    const slide = p.getByRole('slider');
    await slide.focus();
    const first = width(file);
    const seen = new Set([first]);
    for (let i = 0; i < 3; i++) {
      await p.keyboard.press('Shift+ArrowRight');
      await expect.poll(() => seen.has(width(file))).toBe(false);
      seen.add(width(file));
      expect(await slide.evaluate((node) => node === document.activeElement)).toBe(true);
    }
    await p.getByText('Working out what each size costs').waitFor({ state: 'hidden' });
    expect(await slide.evaluate((node) => node === document.activeElement)).toBe(true);
    for (let i = 0; i < 3; i++) await p.keyboard.press('Control+z');
    await expect.poll(() => width(file)).toBe(first);
    expect(faults).toEqual([]);
    await p.context().close();
  });

  it('a revision that is brought back is undone by its own name, and done again', async () => {
    const { address, file } = await bench('lesson-room.plan.yaml');
    const { page: p } = await open(address);
    const first = readFileSync(file, 'utf8');
    await p.getByRole('button', { name: /^Scores, case/ }).press('Alt+ArrowUp');
    await expect.poll(() => readFileSync(file, 'utf8')).not.toBe(first);
    await saved(p);
    const changed = readFileSync(file, 'utf8');
    await p.goto(`${address}/#/view/revisions`);
    await p.getByRole('button', { name: 'Bring 1 back' }).click();
    await expect.poll(() => readFileSync(file, 'utf8')).toBe(first);
    await p.getByRole('button', { name: 'Undo' }).click();
    await p.getByText('Undone: revision 1 brought back').waitFor();
    await expect.poll(() => readFileSync(file, 'utf8')).toBe(changed);
    await p.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(() => readFileSync(file, 'utf8')).toBe(first);
    await p.context().close();
  });

  it('a page takes no more than 250 kB of compressed script until it is all there', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p } = await open(address);
    // of a page that is loaded once more all is asked for again
    const scripts = new Set<string>();
    p.on('request', (request) => {
      const name = new URL(request.url()).pathname.split('/').at(-1)!;
      // of what works beside the page nothing holds it up
      if (name.endsWith('.js') && !name.includes('worker')) scripts.add(name);
    });
    await p.reload();
    await p.locator('.inspector').waitFor();
    await expect.poll(() => p.locator('.note-title').count()).toBeGreaterThan(3);
    const size = (name: string) => statSync(join(root, 'dist/web/assets', `${name}.gz`)).size;
    expect([...scripts].some((name) => name.startsWith('findings-'))).toBe(true);
    // what is drawn first waits for nothing that comes after it
    const first = [...scripts].find((name) => name.startsWith('first-'))!;
    const asksFor = readFileSync(join(root, 'dist/web/assets', first), 'utf8').matchAll(
      /\bimport\s*(?:[^"'()]*from\s*)?["']\.\/(\w+)-/g,
    );
    expect([...asksFor].map(([, name]) => name).filter((name) => name !== 'browser')).toEqual([]);
    expect([...scripts].reduce((sum, name) => sum + size(name), 0)).toBeLessThanOrEqual(250_000);
    await p.context().close();
  });
});
