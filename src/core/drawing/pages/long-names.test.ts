import { expect, test } from 'vitest';
import type { Plan } from '../../plan/index.ts';
import { textsOf } from '../draw.ts';
import type { PacketInput } from '../input.ts';
import type { Page } from '../marks.ts';
import { examplePlan, inputOf } from '../packet.testing.ts';
import { packetPages } from './packet.ts';

/** The radio corner with names as long as people give them. */
const long = (name: string): string => `${name}, as it is called in this house`;
function renamed(): PacketInput {
  const plan = examplePlan('radio-corner');
  const told = JSON.parse(
    JSON.stringify(plan, (key, value) => (key === 'title' && value !== plan.title ? long(value) : value)).replaceAll(
      '"socket west"',
      '"socket on the west wall by the window"',
    ),
  ) as Plan;
  return inputOf(told, told.options[0]!);
}
const pages = packetPages(renamed(), { paper: 'A4' });
const words = (page: Page): readonly string[] => textsOf(page.marks).map((mark) => mark.text);
const of = (id: string): Page => pages.find((page) => page.id === id)!;
/** What stands in the head and foot of every sheet may be cut short there: it stands whole elsewhere. */
const furniture = new Set(words(of('cover')));

test.each(['wiring', 'assembly-records-1', 'template-upper-1'])('no name is cut short on %s', (id) => {
  expect(words(of(id)).filter((own) => own.includes('…') && !furniture.has(own) && !own.includes('→'))).toEqual([]);
});

test('the parts of a joint are named to their ends, and what is not drawn is counted', () => {
  const told = words(of('details-records')).join(' ');
  expect(told).toMatch(/bottom of drawer 1 of bay 3 to \d+ left side of drawer 1 of bay 3/);
  expect(told).toMatch(/Drawn: 9 of 19 kinds of joint\./);
  expect(words(of('details-upper')).join(' ')).not.toMatch(/kinds of joint/);
});
