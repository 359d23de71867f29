import { expect, it } from 'vitest';
import { drawLive, isLivePage, packetSheets } from '../index.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';

it.each(EXAMPLES)('draws each page of %s that is worked on by itself just as it stands in the packet', (name) => {
  const input = exampleInput(name);
  const options = { paper: 'A4' } as const;
  const { pages, register } = packetSheets(input, options);
  expect(register.map(({ id, number, title }) => [id, number, title])).toEqual(
    pages.map(({ id, number, title }) => [id, number, title]),
  );
  const live = pages.filter((page) => isLivePage(page.id));
  expect(live.map((page) => page.id)).toContain('plan');
  expect(live.length).toBeGreaterThan(1);
  for (const page of live) expect(drawLive(input, options, register, page.id)).toEqual(page);
  expect(drawLive(input, options, register, 'elevation-nowhere')).toBeUndefined();
});
