import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { type Area, area, edgesOfArea, extentOf, overlaps, textArea, textsOf } from '../draw.ts';
import type { Mark } from '../marks.ts';
import { exampleInput, inputOf } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { lightPages } from './light.ts';
import { soundPages } from './sound.ts';

it.each([
  ['lesson-room', /at the height of a table, about 2′ 6″/],
  ['radio-corner', /at the height of a table, about 750\smm/],
] as const)('the level light of %s is told at a height that is usual where its units are', (name, said) => {
  const pages = lightPages(deskOf(exampleInput(name), 'A4'));
  const words = pages.flatMap((p) => textsOf(p.marks).map((t) => t.text)).join(' ');
  expect(words).toMatch(said);
});

const text = readFileSync(join(import.meta.dirname, '../../../../examples/lesson-room.plan.yaml'), 'utf8');
it.each(['1\' 6"', "2'", '2\' 6"', "3'", '3\' 6"', "4'"])(
  'nothing is written over who sits beside a lamp %s off the wall, nor over where one looks',
  (far) => {
    const { plan, issues } = readPlan(text.replace(`at: {x: 9' 2", y: 2' 8"}`, `at: {x: 5' 11", y: ${far}}`));
    if (!plan) throw new Error(JSON.stringify(issues));
    const [page] = lightPages(deskOf(inputOf(plan, plan.options[0]!), 'Letter'));
    const groups = page!.marks.flatMap((m) => (m.kind === 'group' ? [m] : []));
    const drawn = groups.flatMap(({ marks }) => {
      const head = marks.find((m) => m.kind === 'circle');
      // followed in small steps: a gaze slants
      return head && marks.length > 1 ? [extentOf([head])!, ...marks.flatMap(stepsOf)] : [];
    });
    expect(drawn.length).toBeGreaterThan(50);
    const lumens = textsOf(page!.marks).filter((t) => / lm, /.test(t.text));
    expect(lumens.length).toBeGreaterThan(2);
    for (const words of textsOf(groups))
      expect(
        drawn.some((own) => overlaps(own, textArea(words))),
        words.text,
      ).toBe(false);
  },
);
function stepsOf(mark: Mark): readonly Area[] {
  if (mark.kind !== 'line') return [];
  const { from, to } = mark;
  return Array.from({ length: 31 }, (_, k) =>
    area(from.x + ((to.x - from.x) * k) / 30, from.y + ((to.y - from.y) * k) / 30, 0, 0),
  );
}

it('on the plans of light and sound who sits in the lesson room is named beside the furniture, not over its lines', () => {
  const desk = deskOf(exampleInput('lesson-room'), 'Letter');
  for (const { id, marks } of [lightPages(desk)[0]!, soundPages(desk)[0]!]) {
    const furniture = marks.flatMap((m) =>
      m.kind === 'shape' && m.pen === 'thin' && m.tone === 'faint' ? edgesOfArea(extentOf([m])!) : [],
    );
    expect(furniture.length, id).toBeGreaterThan(20);
    const names = textsOf(marks).filter((t) => /^(Teacher|Pupil)( \d+ lx)?$/.test(t.text) && t.at.x < 120);
    expect(names.length, id).toBe(2);
    for (const name of names)
      expect(
        furniture.some((f) => overlaps(f, textArea(name), 0.1)),
        `${id} ${name.text}`,
      ).toBe(false);
  }
});
