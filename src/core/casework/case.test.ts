import { expect, it } from 'vitest';
import { buildCase } from './index.ts';
import { jointFaults, openingFaults, outsideFaults, overlaps, partFaults } from './laws.testing.ts';
import { AT_ORIGIN, firstOf, planOf } from './plan.testing.ts';

it('smoke', () => {
  const plan = planOf({
    panels: [
      { id: 'ply', thickness: 18, sizes: [] },
      { id: 'thin', thickness: 6 },
    ],
    make: { panel: 'ply', joint: 'dado', back: { kind: 'grooved', panel: 'thin' } },
    pieces: [
      {
        case: 'a',
        size: { width: 1200, height: 800, depth: 400 },
        toe: { height: 90 },
        inside: {
          columns: [{ shelves: 2 }, { width: 400, drawers: 3 }, { door: 'left', rows: [{}, { height: 200 }] }],
        },
      },
    ],
  });
  const { placed, issues } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN);
  expect(issues).toEqual([]);
  const t = new Map(plan.stock.panels.map((p) => [p.id, p.thickness as number]));
  expect([
    ...overlaps(placed),
    ...outsideFaults(placed),
    ...openingFaults(placed),
    ...jointFaults(placed),
    ...partFaults(placed, t),
  ]).toEqual([]);
});
