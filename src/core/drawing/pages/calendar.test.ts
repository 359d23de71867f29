import { describe, expect, it } from 'vitest';
import { area, extentOf, holds, textsOf } from '../draw.ts';
import type { PaperName } from '../marks.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { calendarPages } from './calendar.ts';
import { collisions } from './collisions.testing.ts';
import { deskOf } from './desk.ts';
import { sheetOf } from './sheet.ts';

const inputs = new Map(EXAMPLES.map((name) => [name, exampleInput(name)]));
const rows = EXAMPLES.flatMap((name) => (['A4', 'Letter', 'A3'] as PaperName[]).map((paper) => ({ name, paper })));

describe.each(rows)('the calendar pages of $name on $paper', ({ name, paper }) => {
  const drafts = calendarPages(deskOf(inputs.get(name)!, paper));
  const pages = drafts.map((draft, i) => ({ ...draft, number: i + 1, ...sheetOf(paper) }));

  it('stay within the sheet and write no text over another', () => {
    const { body } = sheetOf(paper);
    const within = area(body.x - 0.5, body.y - 0.5, body.width + 1, body.height + 1);
    expect(pages.length).toBeGreaterThan(4);
    for (const page of pages) expect(holds(within, extentOf(page.marks)!), page.title).toBe(true);
    expect(pages.flatMap((page) => collisions(page))).toEqual([]);
  });

  it('tell the first task and the last, and what decides the end', () => {
    const words = pages
      .filter((page) => page.id.startsWith('week-'))
      .flatMap((page) => textsOf(page.marks))
      .map((mark) => mark.text)
      .join(' ');
    for (const start of ['Clear and cover the room', 'Check the set on camera', 'decides the end'])
      expect(words).toContain(start);
  });
});
