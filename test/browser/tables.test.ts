import { describe, expect, it } from 'vitest';
import { bench, hasBrowser, open, useBrowser, why } from './browser.testing.ts';

useBrowser();

describe.skipIf(!hasBrowser)(`tables from elsewhere${why}`, () => {
  it('of prices are kept as they were looked at, not as they were changed afterwards', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p } = await open(address, '#/view/prices');
    const keep = p.getByRole('button', { name: 'Keep it' });
    await p.getByLabel(/^First row/).fill('stock,price\nbirch 3/4,79.90');
    await p.getByRole('button', { name: 'Look at it' }).click();
    await p.getByText(/1 price would be read/).waitFor();
    expect(await keep.isEnabled()).toBe(true);
    await p.getByLabel(/^First row/).fill('stock,price\nbirch 3/4,7990');
    expect(await keep.isEnabled()).toBe(false);
    await p.context().close();
  });

  it('of prices shows each whole, and its history, in a window of any width', async () => {
    for (const plan of ['lesson-room.plan.yaml', 'radio-corner.plan.yaml']) {
      const { address } = await bench(plan);
      const { page: p } = await open(address, '#/view/prices', { viewport: { width: 1100, height: 800 } });
      await p.locator('.prices input').first().waitFor();
      for (const width of [961, 1000, 1090, 1168, 1169, 1280]) {
        await p.setViewportSize({ width, height: 800 });
        const cut = await p.evaluate(() => [
          ...[...document.querySelectorAll<HTMLInputElement>('.prices input')]
            .filter((field) => field.scrollWidth > field.clientWidth)
            .map((field) => field.value),
          document.querySelector('main')!.scrollWidth - document.querySelector('main')!.clientWidth,
        ]);
        expect([plan, width, ...cut]).toEqual([plan, width, 0]);
      }
      await p.context().close();
    }
  });

  it('of the headline figures is seen whole on a small phone', async () => {
    const { address } = await bench('radio-corner.plan.yaml');
    const { page: p } = await open(address, '', { viewport: { width: 320, height: 640 }, isMobile: true });
    const figures = p.locator('.figures');
    const hidden = () => figures.evaluate((all) => all.scrollWidth - all.clientWidth);
    expect(await hidden()).toBe(0);
    await figures.getByRole('button', { name: /^Notes/ }).waitFor();
    // held against another option they are wider
    await p.locator('.leaves').getByRole('button', { name: 'Pages' }).click();
    await p.getByLabel('Compared with').selectOption({ index: 1 });
    await p.locator('.leaves').getByRole('button', { name: 'Drawing' }).click();
    await figures.locator('small').first().waitFor();
    expect(await hidden()).toBe(0);
    await p.context().close();
  });

  it('of the rack can be put right and read again from the same file; one that is far too large is not read', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p } = await open(address, '#/view/rack');
    const file = p.getByLabel('Read a CSV');
    await file.waitFor({ state: 'attached' });
    const choose = (text: string) =>
      file.setInputFiles({ name: 'rack.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await choose('stock,length,width\nbirch 3/4,1200,400\n');
    await p.getByText(/more than 2 times as long as any that is sold/).waitFor();
    // a browser tells nothing of a file that is chosen already
    expect(await file.inputValue()).toBe('');
    await choose('x'.repeat(5_000_000));
    await p.getByText('rack.csv is too large for a rack.').waitFor();
    await p.context().close();
  });
});
