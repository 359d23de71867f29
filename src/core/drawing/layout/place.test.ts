import fc from 'fast-check';
import { expect, it } from 'vitest';
import { area, holds, overlaps } from '../draw.ts';
import { balloon, placesIn, takeFirst } from './place.ts';

it('balloons never lie on one another nor leave their area while there is room', () =>
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          x: fc.double({ min: 20, max: 180, noNaN: true }),
          y: fc.double({ min: 20, max: 120, noNaN: true }),
        }),
        {
          maxLength: 20,
        },
      ),
      (targets) => {
        const within = area(0, 0, 200, 140);
        const places = placesIn(within);
        targets.forEach((t, i) => {
          expect(balloon(places, t, i + 1).length).toBeGreaterThan(0);
        });
        places.taken.forEach((a, i) => {
          expect(holds(within, a)).toBe(true);
          for (const b of places.taken.slice(i + 1)) expect(overlaps(a, b)).toBe(false);
        });
      },
    ),
  ));

it('takeFirst takes the first free candidate inside, and none where all are taken', () => {
  const places = placesIn(area(0, 0, 10, 10), [area(0, 0, 5, 10)]);
  const candidates = [{ area: area(1, 1, 2, 2) }, { area: area(9, 1, 2, 2) }, { area: area(6, 1, 2, 2) }];
  expect(takeFirst(places, candidates)).toBe(candidates[2]);
  expect(takeFirst(places, candidates)).toBeUndefined();
});
