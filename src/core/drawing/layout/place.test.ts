import fc from 'fast-check';
import { expect, it } from 'vitest';
import { area, holds, overlaps, text, textsOf } from '../draw.ts';
import { balloon, placeInTurn, placesIn, takeFirst } from './place.ts';
import { crosses } from './squares.ts';

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
        const drawn = targets.map((t, i) => balloon(places, t, i + 1));
        const rings = drawn.map((marks) => {
          const [leader, , ring] = marks;
          if (leader?.kind !== 'line' || ring?.kind !== 'circle')
            throw new Error('a balloon is a leader, a dot and a ring');
          const { centre, radius } = ring;
          return { leader, area: area(centre.x - radius, centre.y - radius, 2 * radius, 2 * radius) };
        });
        rings.forEach(({ area: a }, i) => {
          expect(holds(within, a)).toBe(true);
          for (const { area: b } of rings.slice(i + 1)) expect(overlaps(a, b)).toBe(false);
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

it('what finds no clear place goes before the others', () => {
  const places = placesIn(area(0, 0, 10, 10));
  // the first stands anywhere, the second on the left only
  const either = (on: typeof places) =>
    takeFirst(on, [{ area: area(0, 0, 5, 10) }, { area: area(5, 0, 5, 10) }])
      ? [text(0, 0, `${on.taken.at(-1)!.x}`)]
      : [];
  const left = (on: typeof places) => {
    const found = takeFirst(on, [{ area: area(0, 0, 5, 10) }]);
    if (!found) on.forced++;
    return found ? [text(0, 0, 'left')] : [];
  };
  const words = placeInTurn(places, [either, left]).map((marks) => textsOf(marks).map((t) => t.text));
  expect(words).toEqual([['5'], ['left']]);
  expect(places.taken).toHaveLength(2);
  expect(places.forced).toBe(0);
});

it('a balloon stands where its leader goes round what is written', () => {
  // on the way to the place that is tried first, which itself is free
  const name = area(50.5, 48.9, 0.6, 0.6);
  const places = placesIn(area(0, 0, 100, 100), [name]);
  const [leader] = balloon(places, { x: 50, y: 50 }, 1);
  if (leader?.kind !== 'line') throw new Error('a balloon begins with its leader');
  expect(crosses(leader.from, leader.to, name)).toBe(false);
});
