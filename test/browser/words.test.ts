import { describe, expect, it } from 'vitest';
import { bench, hasBrowser, open, useBrowser, why } from './browser.testing.ts';

useBrowser();

/** In the page: lengths and masses that end on another line than they begin on, in a margin of any width. */
const broken = (): readonly string[] => {
  const quantity = /\d[\s\u00a0](?:mm|m|kg|lb|lx|s)(?![\p{L}\d])|\d['′][\s\u00a0][\d/⁄-]+|\d-\u2060?\d+[/⁄]\d+/gu;
  const found = new Set<string>();
  const desk = document.querySelector<HTMLElement>('.desk')!;
  for (let wide = 150; wide < 360; wide += 6) {
    desk.style.gridTemplateColumns = `100px minmax(0, 1fr) ${wide}px`;
    for (const place of document.querySelectorAll('aside, .message, dialog[open], .issues')) {
      if (place instanceof HTMLDialogElement) place.style.width = `${wide}px`;
      const walker = document.createTreeWalker(place, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode())
        for (const match of node.textContent!.matchAll(quantity)) {
          const range = document.createRange();
          range.setStart(node, match.index);
          range.setEnd(node, match.index + match[0].length);
          if (new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1)
            found.add(`${match[0]} in ${node.parentElement!.outerHTML.slice(0, 90)}`);
        }
    }
  }
  desk.style.gridTemplateColumns = '';
  return [...found];
};

describe.skipIf(!hasBrowser)(`the words on the pages${why}`, () => {
  it.each([
    ['lesson-room.plan.yaml', 'scores', '1 in'],
    ['radio-corner.plan.yaml', 'records', '20 mm'],
  ])('of %s break no length and no mass over two lines', async (plan, piece, little) => {
    const { address } = await bench(plan);
    const { page: p } = await open(address);
    await p.locator('.note.caution').first().waitFor();
    // the notes that come later change the list
    await p.getByText('The other pages are being drawn').waitFor({ state: 'hidden', timeout: 180_000 });
    expect(await p.evaluate(broken)).toEqual([]);
    for (const note of (await p.locator('.notes > ol .note-title').all()).slice(0, 8)) {
      await note.click();
      await p.locator('.note-body').waitFor();
      expect(await p.evaluate(broken)).toEqual([]);
    }
    await p.getByLabel('Selected').selectOption(piece);
    const width = p.getByLabel('width', { exact: true });
    await width.fill(little);
    await p.keyboard.press('Enter');
    await p.locator('.wrong, .issues').first().waitFor();
    expect(await p.evaluate(broken)).toEqual([]);
    for (const figure of [/^Heaviest lift/, /^Notes/, /^Panels/]) {
      await p.getByRole('button', { name: figure }).click();
      await p.locator('dialog[open] :is(.working, .noted, li)').first().waitFor();
      expect(await p.evaluate(broken)).toEqual([]);
      await p.keyboard.press('Escape');
    }
    await p.context().close();
  });
});
