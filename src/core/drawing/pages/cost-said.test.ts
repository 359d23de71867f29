import { expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { textsOf } from '../draw.ts';
import { inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { packetPages } from './packet.ts';

/** The tally over every sheet, the figures beside another option, the sum under the shopping list. */
it.each([
  ['everything has a price', SMALL_PLAN, /^€[\d.,]+$/, 'Altogether'],
  [
    'a panel has none',
    SMALL_PLAN.replace('price: 25.00, ', ''),
    /^€[\d.,]+ \+$/,
    'Altogether, without what has no price',
  ],
  [
    'nothing has one',
    SMALL_PLAN.replaceAll(/price: [\d.]+, /g, ''),
    /^no prices$/,
    'Altogether, without what has no price',
  ],
])('where %s the cost is said in one way on all of the packet', (_, text, said, sum) => {
  const { plan } = readPlan(text);
  const made = inputOf(plan!, plan!.options[0]!);
  // hinges and the like have no price in this plan
  const whole = text === SMALL_PLAN && { total: made.bill.known };
  const input = {
    ...made,
    bill: { ...made.bill, ...whole },
    tally: { ...made.tally, ...(whole && { cost: whole.total }) },
  };
  const pages = packetPages({ ...input, others: [{ title: 'another', tally: input.tally }] }, { paper: 'A4' });
  const words = (id: string) => textsOf(pages.find((p) => p.id === id)!.marks).map((t) => t.text);
  const tally = words('shopping-1');
  const cost = tally[tally.indexOf('Cost') + 1]!;
  expect(cost).toMatch(said);
  // over the sheet, and under the list
  expect(tally.filter((t) => t === cost).length).toBeGreaterThanOrEqual(2);
  expect(tally).toContain(sum);
  // over the sheet, of this option, of the other
  expect(words('cover').filter((t) => t === cost)).toHaveLength(3);
});
