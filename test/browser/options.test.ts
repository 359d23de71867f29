import { describe, expect, it } from 'vitest';
import { bench, hasBrowser, open, useBrowser, why } from './browser.testing.ts';

useBrowser();

describe.skipIf(!hasBrowser)(`options by keyboard${why}`, () => {
  it('keeps the focus where one is built, and where one is taken away, and says where undo did something that is not looked at', async () => {
    const { address } = await bench('lesson-room.plan.yaml');
    const { page: p, faults } = await open(address, '#/page/elevation-north');
    const focused = () => p.evaluate(() => document.activeElement?.textContent?.trim() ?? '');
    await p.getByRole('button', { name: /^Scores, case/ }).focus();
    await p.getByRole('button', { name: 'Mirror' }).press('Enter');
    await p.getByText('Scores mirrored').waitFor();
    await p.getByLabel('Option', { exact: true }).selectOption({ label: 'Tall cases and a bridge' });
    await p.keyboard.press('Control+z');
    await p.getByText('Undone: Scores mirrored, in Low run under the window').waitFor();
    await p.keyboard.press('Control+Shift+z');
    await p.getByText('Done again: Scores mirrored, in Low run under the window').waitFor();
    await p.getByLabel('Option', { exact: true }).selectOption({ label: 'Low run under the window' });
    await p.keyboard.press('Control+z');
    await p.getByText('Undone: Scores mirrored', { exact: true }).waitFor();

    await p.goto(`${address}/#/view/options`);
    await p.getByRole('button', { name: 'Build this one' }).press('Enter');
    await p.getByText('Another option is built').waitFor();
    await expect.poll(focused).toBe('Work on it');
    await p.getByRole('button', { name: 'Take it away' }).last().press('Enter');
    await p.getByText('Option taken away').waitFor();
    await expect.poll(() => p.evaluate(() => document.activeElement?.id)).toBe('drawing');
    expect(faults).toEqual([]);
    await p.context().close();
  });
});
