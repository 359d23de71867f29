import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findOption, sceneOf, workOut } from './outcome.ts';
import { type Plan, readPlan } from './plan/index.ts';

const UNITS = ['ft-in', 'in', 'mm', 'cm', 'm'] as const;
const example = (name: string): Plan =>
  readPlan(readFileSync(new URL(`../../examples/${name}.plan.yaml`, import.meta.url), 'utf8')).plan!;

describe.each(['lesson-room', 'radio-corner'])('%s', (name) => {
  const plan = example(name);
  const inUnits = (length: (typeof UNITS)[number]): Plan => ({ ...plan, units: { ...plan.units, length } });

  it.each(UNITS)('has the same parts, joints and verdicts told in %s', (length) => {
    for (const option of plan.options) {
      const [here, there] = [plan, inUnits(length)].map((p) => sceneOf(p, findOption(p, option.id)!));
      expect(there!.parts).toEqual(here!.parts);
      expect(there!.pieces.map((p) => p.joints)).toEqual(here!.pieces.map((p) => p.joints));
      const judged = (scene: typeof here) => scene!.notes.map(({ id, verdict }) => `${verdict} ${id}`);
      expect(judged(there)).toEqual(judged(here));
    }
  });
  it('costs the same to the cent told in other units, where kerf and trim are the shop’s own', () => {
    const option = plan.options[0]!;
    const cost = (p: Plan) => workOut(p, findOption(p, option.id)!, { today: '2026-11-20', effort: { steps: 0 } }).bill;
    expect(plan.shop.kerf).toBeDefined();
    const [here, there] = [cost(plan), cost(inUnits(plan.units.length === 'mm' ? 'ft-in' : 'mm'))];
    expect(there.total).toBe(here.total);
    expect(there.lines.map((l) => [l.id, l.count])).toEqual(here.lines.map((l) => [l.id, l.count]));
  });
});
