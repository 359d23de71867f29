import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyCase, anyWildCase, readUnspelt } from '../../casework/random.testing.ts';
import type { Plan } from '../../plan/index.ts';
import { area, extentOf, holds, LETTER, textsOf } from '../draw.ts';
import type { Page, PaperName } from '../marks.ts';
import { inputOf } from '../packet.testing.ts';
import { collisions, crossings, stars } from './collisions.testing.ts';
import { labelSheet, withoutRemnant } from './labels.ts';
import { packetPages } from './packet.ts';
import { anyRoom } from './rooms.testing.ts';

const anyPaper = fc.constantFrom<PaperName>('A4', 'A3', 'Letter', 'Tabloid');

const judge = (plan: Plan, paper: PaperName): void =>
  judgePages(packetPages(inputOf(plan, plan.options[0]!), { paper }));

function judgePages(pages: readonly Page[]): void {
  for (const page of pages) {
    const extent = extentOf(page.marks);
    if (extent && !holds(area(3, 3, page.width - 6, page.height - 6), extent))
      expect.fail(`${page.id}: something leaves the sheet, ${JSON.stringify(extent)}`);
  }
  expect(pages.flatMap(collisions)).toEqual([]);
  expect(pages.filter(({ id }) => /^(plan|piece|elevation)/.test(id)).flatMap(stars)).toEqual([]);
  // where thirty holes sit within a hand's breadth, or a plan is full of names, no way round is left
  const crowded = /^(plan|piece|setting)/;
  expect(pages.filter(({ id }) => !crowded.test(id)).flatMap(crossings)).toEqual([]);
}

describe('packets of whole rooms never seen', () => {
  it('nothing leaves its sheet, no text lies on another nor under a leader, none is too small, and every label has its words within it', () =>
    fc.assert(
      fc.property(anyRoom, (room) => {
        const { input, paper, labels } = room();
        const pages = packetPages(input, { paper, ...(labels !== undefined && { labels }) });
        judgePages(pages);
        for (const page of pages)
          for (const t of textsOf(page.marks)) expect(t.height).toBeGreaterThanOrEqual(LETTER.small);
        const sheets = pages.filter((p) => p.id.startsWith('labels'));
        const count = sheets.reduce((sum, { marks }) => sum + marks.length, 0);
        const sheet = withoutRemnant(labelSheet(paper, labels), count);
        for (const page of sheets) {
          const cells = Array.from({ length: sheet.columns * sheet.rows }, (_, k) =>
            area(
              sheet.left + (k % sheet.columns) * (sheet.width + sheet.across),
              sheet.top + Math.floor(k / sheet.columns) * (sheet.height + sheet.down),
              sheet.width,
              sheet.height,
            ),
          );
          page.marks.forEach((label, k) => {
            expect(holds(cells[k]!, extentOf([label])!, 1e-6), `label ${k} of ${page.id}`).toBe(true);
          });
        }
      }),
      { numRuns: 25 },
    ));
});

describe('packets of plans never seen', () => {
  it('whatever case is drawn, nothing leaves its sheet and no text lies on another nor under a leader', () =>
    fc.assert(
      fc.property(anyCase, fc.constantFrom<'mm' | 'in'>('mm', 'in'), anyPaper, (unspelt, unit, paper) =>
        judge(readUnspelt(unspelt, unit).plan, paper),
      ),
      { numRuns: 40 },
    ));

  it('nor of cases with absurd sizes, of which most cannot be built', () =>
    fc.assert(
      fc.property(anyWildCase, anyPaper, (wild, paper) => judge(wild().plan, paper)),
      { numRuns: 40 },
    ));
});
