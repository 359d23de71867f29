import { expect, it } from 'vitest';
import { textsOf } from '../draw.ts';
import { packetPages } from '../index.ts';
import { letteringOf } from '../lettering.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { wholeOutside } from './dimensioned.ts';

it('the whole stands outside its parts, and is told once', () => {
  const ends = [0, 1000];
  expect(wholeOutside([ends, [0, 400, 1000], [0, 400, 1000]], ends)).toEqual([[0, 400, 1000], ends]);
  expect(wholeOutside([ends, ends], ends)).toEqual([ends]);
});

it.each(EXAMPLES)('under every wall of %s its length is the furthest of the dimensions', (name) => {
  const input = exampleInput(name);
  const { figure } = letteringOf(input.plan.units);
  let chains = 0;
  for (const page of packetPages(input, { paper: 'A4' })) {
    const wall = input.room.walls.find(({ id }) => page.id === `elevation-${id}`);
    if (!wall) continue;
    const floor = page.view!.origin.y;
    // further down than the title's rule nothing is drawn
    const under = textsOf(page.marks).filter(({ at }) => at.y > floor + 3 && at.y < page.height - 22 && at.x < 230);
    const whole = under.filter((t) => t.text === figure(wall.length));
    expect(whole, page.id).not.toEqual([]);
    const lowest = Math.max(...whole.map(({ at }) => at.y));
    const figures = under.filter((t) => /^[\d ′″⁄-]+$/.test(t.text));
    chains += figures.length - whole.length;
    for (const t of figures) expect(t.at.y, `${page.id}: ${t.text}`).toBeLessThanOrEqual(lowest);
  }
  expect(chains).toBeGreaterThan(8);
});
