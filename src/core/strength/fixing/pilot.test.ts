import { expect, it } from 'vitest';
import { inch } from '../../quantity/index.ts';
import { pilotOf } from './fastener.ts';

// NDS-2018: roots of appendix L, table L3; 12.1.5.2 for wood of a gravity of 0.5 to 0.6
it.each([
  ['#8', 0.164, 0.131],
  ['#10', 0.19, 0.152],
  ['#12', 0.216, 0.171],
])('the lead hole of a %s wood screw is 70 %% of its root', (_, diameter, root) => {
  expect(pilotOf('wood screw', inch(diameter))).toBeCloseTo(0.7 * inch(root), 9);
});

it('the lead hole of a metric wood screw is 70 % of its shank (EN 1995-1-1, 10.4.5): near half of its diameter', () => {
  // shanks under rolled threads of 4, 5 and 6 mm, from memory: 2.9, 3.6 and 4.3 mm
  for (const [diameter, shank] of [
    [4, 2.9],
    [5, 3.6],
    [6, 4.3],
  ] as const)
    expect(Math.abs(pilotOf('wood screw', diameter) - 0.7 * shank)).toBeLessThan(0.05);
});

it.each([6, 8, inch(0.25), inch(5 / 16)])('the lead hole of a lag screw of %d mm is within NDS-2018, 12.1.4.2', (d) => {
  expect(pilotOf('lag screw', d)).toBeGreaterThanOrEqual(0.4 * d);
  expect(pilotOf('lag screw', d)).toBeLessThanOrEqual(0.7 * d);
});
