import { describe, expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { codeModules, QUIET_MODULES } from '../code.ts';
import { extentOf } from '../draw.ts';
import type { Mark } from '../marks.ts';
import { exampleInput, inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { LABEL_SHEETS } from './labels.ts';
import { packetPages } from './packet.ts';

type Code = Extract<Mark, { kind: 'code' }>;
// the shorter the title, the coarser the code
const terse = readPlan(SMALL_PLAN.replace(/^title: .*$/m, 'title: A')).plan!;
const short = inputOf(terse, terse.options[0]!);

describe.each(Object.entries(LABEL_SHEETS))('a label of %s', (labels, sheet) => {
  it.each([
    ['the radio corner', exampleInput('radio-corner')],
    ['a plan with a short title', short],
  ])('of %s leaves the quiet zone of its code free', (_, input) => {
    const pages = packetPages(input, { paper: sheet.paper, labels }).filter(({ id }) => id.startsWith('labels'));
    const all = pages.flatMap(({ marks }) => marks).filter((mark) => mark.kind === 'group');
    expect(all.length).toBe(input.pieces.reduce((sum, { parts }) => sum + parts.length, 0));
    for (const { marks } of all) {
      const code = marks.find((mark): mark is Code => mark.kind === 'code')!;
      const quiet = (QUIET_MODULES * code.size) / codeModules(code.text).count;
      const [x0, y0, x1, y1] = [
        code.at.x - quiet,
        code.at.y - quiet,
        code.at.x + code.size + quiet,
        code.at.y + code.size + quiet,
      ];
      const edge = sheet.cut ? extentOf(marks.slice(0, 1)) : undefined;
      for (const mark of marks) {
        const { x, y, width, height } = extentOf([mark])!;
        if (mark === code) continue;
        const round = edge !== undefined && width === edge.width && height === edge.height;
        const free = round
          ? x <= x0 && y <= y0 && x + width >= x1 - 1e-9 && y + height >= y1
          : x >= x1 || y >= y1 - 1e-9 || x + width <= x0 || y + height <= y0;
        expect(free, JSON.stringify(mark)).toBe(true);
      }
    }
  });
});

it('no label stands alone on a last sheet of plain paper that a row more on the others spares', () => {
  const input = exampleInput('radio-corner');
  const sheets = (count: number, paper: 'A4' | 'Letter', labels?: string): readonly number[] => {
    // so many parts, whichever they are
    const own = input.pieces.find(({ parts }) => parts.length > 10)!;
    const parts = Array.from({ length: count }, (_, i) => ({
      ...own.parts[i % 10]!,
      id: `${own.id}/part-${i}` as never,
    }));
    return packetPages({ ...input, pieces: [{ ...own, parts, joints: [] }] }, { paper, ...(labels && { labels }) })
      .filter(({ id }) => id.startsWith('labels'))
      .map(({ marks }) => marks.filter((mark) => mark.kind === 'group').length);
  };
  expect(sheets(43, 'A4')).toEqual([24, 19]);
  expect(sheets(46, 'A4')).toEqual([21, 21, 4]);
  expect(sheets(22, 'A4')).toEqual([22]);
  expect(sheets(42, 'A4')).toEqual([21, 21]);
  // sold sheets are as they are, and Letter is too low
  expect(sheets(43, 'A4', 'A4 3x7')).toEqual([21, 21, 1]);
  expect(sheets(43, 'Letter')).toEqual([21, 21, 1]);
});
