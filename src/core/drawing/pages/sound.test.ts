import { expect, test } from 'vitest';
import { textsOf } from '../draw.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { packetPages } from './packet.ts';
import { listed } from './sound.ts';

test.each([
  [['90', '91'], '90 and 91'],
  [['90', '91', '92', '94'], '90, 91, 92 and 94'],
  [['116', '116'], '116 twice'],
  [['90', '92', '92', '92'], '90 and 92 3 times'],
])('the modes %j are told as %s', (figures, told) => expect(listed(figures)).toBe(told));

test.each(EXAMPLES)('no order of a mode is broken between two lines on the sheets of %s', (name) => {
  const lines = packetPages(exampleInput(name), { paper: 'Letter' })
    .filter(({ id }) => id.startsWith('sound'))
    .flatMap(({ marks }) => textsOf(marks).map((mark) => mark.text));
  expect(lines.some((own) => /\(\d.\d.\d\)/.test(own))).toBe(true);
  for (const own of lines) expect(own).not.toMatch(/\(\d(?:\s\d)?$/);
});
