import { expect, it } from 'vitest';
import { drawPage, packetPages, packetRegister } from '../index.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';

it.each(EXAMPLES)('draws each page of %s by itself just as it stands in the packet', (name) => {
  const input = exampleInput(name);
  const options = { paper: 'A4' } as const;
  const pages = packetPages(input, options);
  const counting = packetRegister(input, options);
  let step = counting.next();
  while (!step.done) step = counting.next();
  const register = step.value;
  expect(register.map(({ id, number, title }) => [id, number, title])).toEqual(
    pages.map(({ id, number, title }) => [id, number, title]),
  );
  const firsts = pages.filter((p, i) => p.id.replace(/-.*/, '') !== pages[i - 1]?.id.replace(/-.*/, ''));
  for (const page of firsts) expect(drawPage(input, options, register, page.id)).toEqual(page);
  expect(drawPage(input, options, register, 'layout-999')).toBeUndefined();
});
