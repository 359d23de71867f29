import { describe, expect, it } from 'vitest';
import { toTicks } from '../quantity/index.ts';
import { buildCase } from './index.ts';
import { AT_ORIGIN, firstOf, planOf } from './plan.testing.ts';

const gear = (inside: object) => {
  const plan = planOf(
    {
      panels: [
        { id: 'ply', thickness: 18 },
        { id: 'thin', thickness: 6 },
      ],
      make: { panel: 'ply', joint: 'butt', back: { kind: 'applied', panel: 'thin' } },
      pieces: [{ case: 'gear', size: { width: 800, height: 600, depth: 300 }, inside }],
    },
    'mm',
  );
  const { placed, issues } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN);
  const vents = placed.parts
    .find((p) => p.id === 'gear/back')!
    .solid.taken.filter(({ why }) => why.includes('vent'))
    .map(({ why, box }) => [why.split(' ')[0], box.min.x, box.max.x, box.min.y] as const);
  return { placed, issues, vents };
};

describe('the vents in the back of a divided bay', () => {
  it('are shared out beside an upright that would stand across them, the area whole', () => {
    // inside 18–782, the upright 391–409: the middle of 18–391 is 204.5
    const { issues, vents } = gear({ vent: { width: 200, height: 60 }, columns: [{}, {}] });
    expect(issues).toEqual([]);
    expect(vents).toEqual([
      ['lower', 154.5, 254.5, 38],
      ['lower', 545.5, 645.5, 38],
      ['upper', 154.5, 254.5, 502],
      ['upper', 545.5, 645.5, 502],
    ]);
  });

  it('stay in the middle where nothing stands there', () => {
    const { issues, vents } = gear({ vent: { width: 200, height: 60 }, columns: [{}, { width: 400 }, {}] });
    expect(issues).toEqual([]);
    expect(vents.map(([, from, to]) => [from, to])).toEqual([
      [300, 500],
      [300, 500],
    ]);
  });

  it('take more of a wider opening, and meet only the upright that stands at their own height', () => {
    const { issues, vents } = gear({
      vent: { width: 500, height: 60 },
      rows: [{}, { height: 300, columns: [{ width: 200 }, {}] }],
    });
    expect(issues).toEqual([]);
    // 18–218 and 236–782: room for 160 and 506 less the edges of 20, 500 shared out as 120.1 and 379.9
    expect(vents.map(([row]) => row)).toEqual(['lower', 'lower', 'upper']);
    const [left, right] = vents as unknown as (readonly [string, number, number, number])[];
    expect((left![1] + left![2]) / 2).toBeCloseTo(118, 2);
    expect((right![1] + right![2]) / 2).toBeCloseTo(509, 2);
    expect((left![2] - left![1]) / (right![2] - right![1])).toBeCloseTo(160 / 506, 3);
    expect(toTicks(left![2] - left![1] + right![2] - right![1])).toBe(toTicks(500));
  });

  it('are refused where the openings have not the room, with what they have; none is cut then', () => {
    const { issues, vents } = gear({ vent: { width: 700, height: 60 }, columns: [{}, {}] });
    expect(issues).toMatchObject([
      {
        path: ['options', 0, 'pieces', 0, 'inside', 'vent'],
        message: 'upright 1 would stand across the lower vent',
        found: '700 mm wide',
        expected: 'at most 666 mm wide in all, shared out between the openings beside it',
      },
    ]);
    expect(vents).toEqual([]);
    expect(gear({ vent: { width: 666, height: 60 }, columns: [{}, {}] }).issues).toEqual([]);
  });

  it('are refused where a fixed shelf would stand across them', () => {
    const { issues } = gear({ vent: { width: 200, height: 60 }, rows: [{}, { height: 50 }] });
    expect(issues).toMatchObject([{ message: 'fixed shelf 1 would stand across the lower vent' }]);
  });
});
