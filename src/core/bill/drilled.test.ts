import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { grouped } from '../grouped.ts';
import { sceneOf } from '../outcome.ts';
import { readPlan } from '../plan/index.ts';
import { settingOut } from '../setting-out/index.ts';
import { massesOf } from '../solids.ts';
import { fixingLength, fixingThickness } from '../stock/index.ts';
import { packNeeds } from './packs.ts';

it.each([
  ['in inches', 'lesson-room'],
  ['in millimetres', 'radio-corner'],
])('what the drilling table drives into the walls is what is bought, as many and as thick: %s', (_, name) => {
  const { plan } = readPlan(readFileSync(new URL(`../../../examples/${name}.plan.yaml`, import.meta.url), 'utf8'));
  for (const option of plan!.options) {
    const scene = sceneOf(plan!, option);
    const holes = settingOut({ ...scene, massOf: massesOf(scene) })
      .flatMap((wall) => wall.holes)
      .map(({ point }) => point);
    const kinds = grouped(holes, ({ kind, diameter, length }) => [kind, diameter, length].join());
    expect(kinds.size).toBeGreaterThan(0);
    for (const [kind, { length: count, 0: hole }] of kinds) {
      const fittings = scene.fittings.filter(
        (f) => f.use === hole!.kind && f.diameter === hole!.diameter && f.length === hole!.length,
      );
      expect([kind, fittings.reduce((sum, f) => sum + f.count, 0)]).toEqual([kind, count]);
      const { needs } = packNeeds(fittings, plan!);
      expect([kind, needs.length]).toEqual([kind, 1]);
      const sold = needs[0]!.pack.name ?? needs[0]!.pack.id;
      // a third of the step from one screw number to the next, 0.013 in by ANSI/ASME B18.6.1
      if (hole!.diameter !== undefined) expect(Math.abs(fixingThickness(sold)! - hole!.diameter)).toBeLessThan(0.1);
      if (hole!.length !== undefined) expect(fixingLength(sold)!).toBeGreaterThan(hole!.length - 1);
    }
  }
});
