import { describe, expect, it } from 'vitest';
import { area, below, extentOf, holds, textArea, textsOf } from '../draw.ts';
import type { PaperName } from '../marks.ts';
import { EXAMPLES, exampleInput, smallInput } from '../packet.testing.ts';
import { collisions } from './collisions.testing.ts';
import { packetPages } from './packet.ts';
import { sheetOf } from './sheet.ts';

const inputs = [
  ...EXAMPLES.map((name) => [name, exampleInput(name)] as const),
  ['a small room', smallInput()] as const,
];
const rows = inputs.flatMap(([name, input]) =>
  (['A4', 'A3', 'Letter', 'Tabloid'] satisfies PaperName[]).map((paper) => ({ name, input, paper })),
);

describe.each(rows)('the cover of $name on $paper', ({ input, paper }) => {
  const cover = packetPages(input, { paper })[0]!;
  const words = textsOf(cover.marks).map((t) => t.text);

  it('cuts nothing short and keeps all within its sheet', () => {
    expect(words.filter((w) => w.includes('…'))).toEqual([]);
    expect(collisions(cover)).toEqual([]);
    expect(holds(area(3, 3, cover.width - 6, cover.height - 6), extentOf(cover.marks)!)).toBe(true);
  });

  it('ends its register at the foot of the drawing, with what each chapter is for', () => {
    const told = textsOf(cover.marks).filter(
      (t) => /every sum with its source|^Workings$/.test(t.text) && t.turn !== 90,
    );
    for (const t of told) expect(below(textArea(t))).toBeLessThanOrEqual(below(sheetOf(paper).body) + 0.5);
    expect(words.join(' ')).toContain('measure again before anything is bought');
    for (const { title } of input.others ?? [])
      for (const word of title.split(' ')) expect(words.join(' ')).toContain(word);
  });
});

it('says that names have letters that the print lacks, and of no others', () => {
  const input = smallInput();
  const told = (title: string): boolean =>
    textsOf(packetPages({ ...input, plan: { ...input.plan, title } }, { paper: 'A4' })[0]!.marks)
      .map((t) => t.text)
      .join(' ')
      .includes('come out as boxes');
  expect(['ארון הספרים', '本棚', 'Łódź, café, Αθήνα, Москва'].map(told)).toEqual([true, true, false]);
});
