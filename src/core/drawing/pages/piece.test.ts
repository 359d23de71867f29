import { expect, it } from 'vitest';
import { readPlan } from '../../plan/index.ts';
import { textsOf } from '../draw.ts';
import type { PaperName } from '../marks.ts';
import { inputOf, SMALL_PLAN } from '../packet.testing.ts';
import { packetPages } from './packet.ts';

const PAPERS: readonly PaperName[] = ['A4', 'A3', 'Letter', 'Tabloid'];
const rows = PAPERS.flatMap((paper) => [151, 251, 351, 451].map((depth) => ({ paper, depth })));

it.each(rows)('no number of a part of a shelf $depth deep is broken into its figures on $paper', ({ paper, depth }) => {
  const { plan, issues } = readPlan(`${SMALL_PLAN}
      - shelf: high
        title: Long shelf
        wall: long
        from: 40
        above: 1880
        size: {width: 2530, height: 57, depth: ${depth}}
        skin: ply 6
        core: ply 18
        rods: {diameter: 12, length: 120}
`);
  if (!plan) throw new Error(JSON.stringify(issues));
  const page = packetPages(inputOf(plan, plan.options[0]!), { paper }).find(({ id }) => id === 'piece-high')!;
  const numbers = textsOf(page.marks).filter((t) => t.bold && /^\d+$/.test(t.text) && t.at.y < page.height - 20);
  expect(numbers.length).toBeGreaterThan(6);
  for (const [i, a] of numbers.entries())
    for (const b of numbers.slice(i + 1))
      if (a.text.length === 1 && b.text.length === 1 && a.at.x === b.at.x)
        expect(Math.abs(a.at.y - b.at.y), `${a.text} over ${b.text}`).toBeGreaterThan(4.5);
});
