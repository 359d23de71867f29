import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyCase, anyWildCase, readUnspelt } from '../../casework/random.testing.ts';
import type { Plan } from '../../plan/index.ts';
import { area, extentOf, holds } from '../draw.ts';
import type { PaperName } from '../marks.ts';
import { inputOf } from '../packet.testing.ts';
import { collisions } from './collisions.testing.ts';
import { packetPages } from './packet.ts';

const anyPaper = fc.constantFrom<PaperName>('A4', 'A3', 'Letter', 'Tabloid');

function judge(plan: Plan, paper: PaperName): void {
  const pages = packetPages(inputOf(plan, plan.options[0]!), { paper });
  for (const page of pages) {
    const extent = extentOf(page.marks);
    if (extent && !holds(area(3, 3, page.width - 6, page.height - 6), extent))
      expect.fail(`${page.id}: something leaves the sheet, ${JSON.stringify(extent)}`);
  }
  expect(pages.flatMap(collisions)).toEqual([]);
}

describe('packets of plans never seen', () => {
  it('whatever case is drawn, nothing leaves its sheet and no text lies on another', () =>
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
