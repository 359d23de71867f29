import { expect, it } from 'vitest';
import { LETTER, textsOf } from '../draw.ts';
import { exampleInput } from '../packet.testing.ts';
import { boardLayoutPages } from './board-layouts.ts';
import { deskOf } from './desk.ts';

const example = exampleInput('radio-corner');
const { job, answer } = example.cuts.find((c) => c.job.from === 'board')!;
/** The boards of a stock, no two of them cut alike. */
function cutInto(stock: string, count: number): (typeof example.cuts)[number] {
  if (answer.status === 'infeasible' || job.from !== 'board') throw new Error('no board is cut');
  const { layouts } = answer;
  const different = Array.from({ length: count }, (_, i) => {
    const { placed, ...rest } = layouts[0]!;
    return { ...rest, times: 1, placed: placed.map((p) => ({ ...p, length: p.length - i })) };
  });
  return { job: { ...job, stock }, answer: { ...answer, layouts: different } as typeof answer };
}
/** On each sheet, of each heading how many boards stand under it. */
const sheetsOf = (counts: readonly number[]) =>
  boardLayoutPages(deskOf({ ...example, cuts: counts.map((n, i) => cutInto(`stock ${i + 1}`, n)) }, 'A4')).map(
    (page) => {
      const under: [string, number][] = [];
      for (const t of textsOf(page.marks))
        if (t.height === LETTER.head) under.push([t.text, 0]);
        else if (/ left/.test(t.text)) under.at(-1)![1] += 1;
      return under;
    },
  );

it('the boards of a stock that go on over a sheet have its name there again, and none stands there alone', () => {
  const counts = Array.from({ length: 24 }, (_, i) => i + 1);
  for (const first of [1, 2, 3])
    for (const count of counts) {
      const sheets = sheetsOf([first, count]);
      const all = sheets.flat();
      expect(all.reduce((sum, [, n]) => sum + n, 0)).toBe(first + count);
      for (const sheet of sheets.slice(1)) {
        expect(sheet[0]![0]).toMatch(/^stock 2/);
        if (count > 1) expect(sheet[0]![1], `${first} and ${count}`).toBeGreaterThan(1);
      }
      expect(all.filter(([head]) => head === 'stock 2').length).toBe(1);
      expect(all.filter(([head]) => head === 'stock 2, continued').length).toBe(all.length - 2);
    }
  expect(sheetsOf([3, 24]).length).toBeGreaterThan(2);
});
