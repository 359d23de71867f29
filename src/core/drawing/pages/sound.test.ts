import { expect, test } from 'vitest';
import { packetInput, workOut } from '../../outcome.ts';
import { readPlan } from '../../plan/index.ts';
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

test('every field of tiles is drawn, with its whole place, and told how it goes up', () => {
  const walls = ['north', 'north', 'east', 'east', 'south', 'west'];
  const fields = walls.map(
    (wall, i) =>
      `      - {absorber: f${i}, title: Field ${i}, wall: ${wall}, from: ${200 + 1000 * (i % 2)}, above: 800, size: {width: 600, height: 600}, tile: 300${i === 5 ? ', backing: ply' : ''}}`,
  );
  const told = (count: number): readonly string[] => {
    const { plan, issues } = readPlan(`
setwright: 1
units: {length: mm, currency: EUR}
room: {ceiling: 2500, walls: [{id: north, length: 4000}, {id: east, length: 3000}, {id: south, length: 4000}, {id: west, length: 3000}]}
stock: {panels: [{id: ply, kind: birch plywood, thickness: 6, sizes: [{length: 2500, width: 1250}]}]}
options:
  - id: one
    pieces:
      - {seat: voice, at: {x: 2000, y: 1500}}
${fields.slice(0, count).join('\n')}
`);
    if (!plan) throw new Error(JSON.stringify(issues));
    const outcome = workOut(plan, plan.options[0]!, { today: '2026-11-28', effort: { steps: 0 } });
    return packetPages(packetInput(outcome, [], '2026-11-28'), { paper: 'A4' })
      .filter(({ id }) => id.startsWith('sound-treatment'))
      .flatMap(({ marks }) => textsOf(marks).map((mark) => mark.text));
  };
  const six = told(6);
  for (let i = 0; i < 6; i++) expect(six.filter((own) => own === `Field ${i}`).length, `${i}`).toBe(2); // in the table too
  expect(six.filter((own) => own.includes('…'))).toEqual([]);
  expect(six.join(' ').match(/along the \w+ wall,\s800\smm\sabove\sthe\sfloor/g)).toHaveLength(6);
  expect(six).toContain('How those without a backing panel go up');
  expect(six).toContain('How those on backing panels go up');
  expect(told(4).join(' ')).not.toContain('backing panels');
});
