import fc from 'fast-check';
import { expect, it } from 'vitest';
import { anyHouse, plainOf } from '../../houses.testing.ts';
import { sceneOf } from '../../outcome.ts';
import { planOf } from '../../plan/index.ts';

it('law: the share of its fixings that a note tells is what its working comes to', () => {
  let told = 0;
  fc.assert(
    fc.property(anyHouse, (house) => {
      const { plan } = planOf(plainOf(house, 'mm'));
      for (const { id, title, working } of sceneOf(plan!, plan!.options[0]!).notes) {
        const share = id.startsWith('fixing:') && working && / (\d+) % (?:used|of what they may take)/.exec(title)?.[1];
        if (!share) continue;
        told++;
        expect([title, working.result.unit, Math.round(100 * working.result.value)]).toEqual([
          title,
          '',
          Number(share),
        ]);
        expect(working.limit!.value).toBe(1);
      }
    }),
    { numRuns: 40 },
  );
  expect(told).toBeGreaterThan(40);
});
