import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { area, extentOf, holds, overlaps, textArea, textsOf } from '../draw.ts';
import { type Column, layTable, type TableRow } from './table.ts';

interface Row {
  readonly a: string;
  readonly b: string;
}
const columns: readonly Column<Row>[] = [
  { head: 'What', cell: (r) => r.a, share: 1 },
  { head: 'How many', cell: (r) => r.b, align: 'right', most: 30 },
];
const word = fc.stringMatching(/^[a-z]{1,12}$/);
const row = fc.record({
  a: fc.array(word, { minLength: 1, maxLength: 12 }).map((w) => w.join(' ')),
  b: fc.nat(99_999).map(String),
});
const rows = fc.array(
  fc.oneof(
    { weight: 6, arbitrary: row.map((r): TableRow<Row> => ({ row: r })) },
    { weight: 1, arbitrary: word.map((heading): TableRow<Row> => ({ heading })) },
  ),
  { minLength: 1, maxLength: 60 },
);

describe('layTable', () => {
  it('keeps every word, in order, inside its areas, no cell over another', () =>
    fc.assert(
      fc.property(rows, fc.integer({ min: 70, max: 240 }), fc.integer({ min: 60, max: 180 }), (list, width, height) => {
        const place = area(20, 20, width, height);
        const { pieces } = layTable(columns, list, () => place);
        const words: string[] = [];
        for (const marks of pieces) {
          expect(holds(place, extentOf(marks)!, 0.01)).toBe(true);
          const texts = textsOf(marks);
          const areas = texts.map(textArea);
          areas.forEach((a, i) => {
            for (const b of areas.slice(i + 1)) expect(overlaps(a, b, 0.02)).toBe(false);
          });
          words.push(...texts.filter((t) => t.tone !== 'faint').flatMap((t) => t.text.split(' ')));
        }
        const wanted = list.flatMap((r) => ('heading' in r ? [r.heading] : `${r.row.a} ${r.row.b}`.split(' ')));
        expect(words.join('').split('').sort().join('')).toBe(wanted.join('').split('').sort().join(''));
      }),
      { numRuns: 60 },
    ));

  it.each([
    // rows, how many fit on a sheet of that height, rows of each piece
    [11, 10, [6, 5]],
    [24, 10, [10, 9, 5]],
    [25, 10, [10, 10, 5]],
    [10, 10, [10]],
    // too few for that: shared
    [6, 5, [3, 3]],
    [7, 6, [4, 3]],
    [3, 2, [2, 1]],
    [7, 4, [4, 3]],
  ])('leaves no few of %i rows alone on the last sheet, %i to a sheet', (count, fit, wanted) => {
    const list = Array.from({ length: count }, (_, i): TableRow<Row> => ({ row: { a: `r${i}`, b: '1' } }));
    const height = extentOf(layTable(columns, list.slice(0, fit), () => area(0, 0, 100, 500)).pieces[0]!)!;
    const { pieces, end } = layTable(columns, list, () => area(0, 0, 100, height.y + height.height + 1));
    const rowsOf = (marks: (typeof pieces)[number]): number => textsOf(marks).filter((t) => /^r\d/.test(t.text)).length;
    expect(pieces.map(rowsOf)).toEqual(wanted);
    expect(end).toBeCloseTo(extentOf(pieces.at(-1)!)!.y + extentOf(pieces.at(-1)!)!.height, 0);
  });

  it('stays within a later area that is narrower than the first', () => {
    const list = Array.from(
      { length: 20 },
      (_, i): TableRow<Row> => ({ row: { a: `row ${i} with some words`, b: '1' } }),
    );
    const at = (i: number) => area(0, 0, i === 0 ? 140 : 70, 70);
    const { pieces } = layTable(columns, list, at);
    expect(pieces.length).toBeGreaterThan(1);
    pieces.forEach((marks, i) => {
      expect(holds(at(i), extentOf(marks)!, 0.01)).toBe(true);
    });
  });

  it('never leaves a heading alone at the foot of a sheet', () => {
    const list = Array.from({ length: 30 }, (_, i): readonly TableRow<Row>[] => [
      { heading: `h${i}` },
      { row: { a: 'x', b: '1' } },
    ]).flat();
    const { pieces } = layTable(columns, list, () => area(0, 0, 100, 61));
    for (const marks of pieces) expect(textsOf(marks).at(-1)!.text).toBe('1');
    expect(pieces.length).toBeGreaterThan(3);
  });
});
