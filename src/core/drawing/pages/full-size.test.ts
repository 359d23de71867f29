import { expect, it } from 'vitest';
import { area, overlaps, textArea, textsOf } from '../draw.ts';
import type { Mark } from '../marks.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { packetPages } from './packet.ts';

const sheets = new Map(EXAMPLES.map((name) => [name, packetPages(exampleInput(name), { paper: 'A4' })]));
const flat = (marks: readonly Mark[]): readonly Mark[] =>
  marks.flatMap((m) => (m.kind === 'group' ? flat(m.marks) : [m]));

it('the story stick names everything that is at a height', () => {
  for (const [name, said] of [
    ['lesson-room', 'Scores, Machines, Window case: upper edge'],
    ['radio-corner', 'Records, Desk gear, Microphones: upper edge'],
  ] as const) {
    const words = sheets
      .get(name)!
      .filter(({ id }) => id.startsWith('stick-'))
      .flatMap(({ marks }) => textsOf(marks).map((t) => t.text));
    expect(words.join(' ')).toContain(said);
    expect(words.filter((w) => w.includes('…'))).toEqual([]);
  }
});

it.each(EXAMPLES)('no letter of a joint stands on a hole of a template of %s', (name) => {
  let letters = 0;
  for (const { id, marks } of sheets.get(name)!.filter((page) => page.id.startsWith('template-'))) {
    const all = flat(marks);
    const holes = all.flatMap((m) =>
      m.kind === 'circle' ? [area(m.centre.x - m.radius, m.centre.y - m.radius, 2 * m.radius, 2 * m.radius)] : [],
    );
    for (const t of textsOf(marks).filter((own) => /^[A-Z]$/.test(own.text))) {
      letters++;
      expect(
        holes.filter((hole) => overlaps(hole, textArea(t))),
        `${id}: ${t.text}`,
      ).toEqual([]);
    }
  }
  expect(letters).toBeGreaterThan(3);
});

it('profiles are drawn lower where all of an uneven wall and its floor then stand on one sheet', () => {
  const pages = sheets.get('radio-corner')!.filter(({ id }) => id.startsWith('wall-fit'));
  expect(pages.map(({ id }) => id)).toEqual(['wall-fit-1']);
  expect(textsOf(pages[0]!.marks).some((t) => t.text.startsWith('Heights to cut toe boards'))).toBe(true);
});

it('no joint of a scribe line runs through a figure', () => {
  let figures = 0;
  for (const { id, marks } of sheets.get('lesson-room')!.filter((page) => page.id.startsWith('scribe-')))
    flat(marks).forEach((m, i, all) => {
      if (m.kind !== 'text' || !/[′″]$/.test(m.text) || m.align !== 'right') return;
      figures++;
      const after = all.slice(i).filter((o) => o.kind === 'line' && o.pen === 'hidden');
      const own = textArea(m);
      for (const o of after)
        if (o.kind === 'line')
          expect(overlaps(own, area(Math.min(o.from.x, o.to.x), o.from.y, Math.abs(o.to.x - o.from.x), 0.01)), id).toBe(
            false,
          );
    });
  expect(figures).toBeGreaterThan(20);
});

it('strips of a scribe line stand closer where that spares a sheet', () => {
  const pages = sheets.get('radio-corner')!.filter(({ id }) => id.startsWith('scribe-'));
  // thirteen strips, six on a sheet with room between them
  const strips = pages.map(
    ({ marks }) => marks.filter((m) => m.kind === 'shape' && m.closed && m.pen === 'thin').length,
  );
  expect(strips).toEqual([7, 6]);
});
