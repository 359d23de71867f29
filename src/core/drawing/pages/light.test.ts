import { expect, it } from 'vitest';
import { textsOf } from '../draw.ts';
import { exampleInput } from '../packet.testing.ts';
import { deskOf } from './desk.ts';
import { lightPages } from './light.ts';

it.each([
  ['lesson-room', /at the height of a table, about 2′ 6″/],
  ['radio-corner', /at the height of a table, about 750\smm/],
] as const)('the level light of %s is told at a height that is usual where its units are', (name, said) => {
  const pages = lightPages(deskOf(exampleInput(name), 'A4'));
  const words = pages.flatMap((p) => textsOf(p.marks).map((t) => t.text)).join(' ');
  expect(words).toMatch(said);
});
