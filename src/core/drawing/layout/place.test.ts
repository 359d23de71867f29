import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Area, area, holds, overlaps, text, textsOf } from '../draw.ts';
import type { Mark, Point } from '../marks.ts';
import { balloon, balloonRow, balloonsInTurn, noSpots, placeInTurn, placesIn, type Spots, takeFirst } from './place.ts';
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

it('balloons that point at one spot stand in a row in the order of their numbers, on one leader that crosses none of them', () =>
  fc.assert(
    fc.property(
      fc.record({ x: fc.double({ min: 60, max: 140, noNaN: true }), y: fc.double({ min: 60, max: 80, noNaN: true }) }),
      fc.uniqueArray(fc.integer({ min: 1, max: 120 }), { minLength: 2, maxLength: 7 }),
      fc.array(fc.record({ x: fc.nat(200), y: fc.nat(140) }), { maxLength: 5 }),
      (target, numbers, words) => {
        const taken = words.map(({ x, y }) => area(x, y, 12, 3));
        const places = placesIn(area(0, 0, 200, 140), taken);
        const drawn = balloonRow(
          places,
          target,
          numbers.map((number) => ({ number })),
        );
        const circles = drawn.map((marks) => marks.find((m) => m.kind === 'circle' && m.radius > 1));
        const rings = circles.flatMap((m) => (m?.kind === 'circle' ? [m] : []));
        expect(rings.length).toBe(numbers.length);
        const leaders = drawn.flat().flatMap((m) => (m.kind === 'line' ? [m] : []));
        expect(leaders.length).toBe(1);
        const read = rings
          .map(({ centre }, i) => ({ ...centre, number: numbers[i]! }))
          .sort((a, b) => (Math.abs(a.y - b.y) < 1e-6 ? a.x - b.x : a.y - b.y));
        expect(read.map((b) => b.number)).toEqual(numbers.toSorted((a, b) => a - b));
        const wide = Math.max(...rings.map((ring) => 2 * ring.radius));
        for (const [i, b] of read.slice(1).entries()) {
          const [dx, dy] = [b.x - read[i]!.x, b.y - read[i]!.y];
          expect(Math.min(Math.abs(dx), Math.abs(dy))).toBeCloseTo(0, 6);
          expect(dx + dy).toBeCloseTo(wide + 0.5, 6);
        }
        const { from, to } = leaders[0]!;
        const through = rings.filter(({ centre: { x, y }, radius: r }) =>
          Array.from({ length: 99 }, (_, i) => (i + 1) / 100).some(
            (t) => Math.hypot(from.x + (to.x - from.x) * t - x, from.y + (to.y - from.y) * t - y) < r - 1e-6,
          ),
        );
        expect(through).toEqual([]);
        if (places.forced === 0)
          for (const { centre, radius: r } of rings)
            for (const t of taken) expect(overlaps(t, area(centre.x - r, centre.y - r, 2 * r, 2 * r))).toBe(false);
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

describe('what stood somewhere before', () => {
  const within = area(0, 0, 200, 140);
  const x = fc.double({ min: 20, max: 180, noNaN: true });
  const y = fc.double({ min: 20, max: 120, noNaN: true });
  const targets = fc.array(fc.record({ x, y }), { minLength: 1, maxLength: 25 });
  const words = fc.array(
    fc.record({ x, y }).map((at) => area(at.x, at.y, 12, 3)),
    { maxLength: 40 },
  );
  const numbered = (all: readonly Point[]) => all.map((target, i) => ({ target, number: i + 1, of: `thing ${i}` }));
  const drawn = (all: readonly Point[], taken: readonly Area[], spots?: Spots) => {
    const places = placesIn(within, taken, spots);
    const things = balloonsInTurn(numbered(all), ({ of }, marks) => ({ kind: 'group', about: of, marks }));
    return placeInTurn(places, things).flat();
  };
  const ringOf = (mark: Mark): Area | undefined => {
    const ring = mark.kind === 'group' ? mark.marks.find((m) => m.kind === 'circle' && m.radius > 1) : undefined;
    return ring?.kind === 'circle' ? around(ring.centre, ring.radius) : undefined;
  };
  const around = ({ x, y }: Point, r: number): Area => area(x - r, y - r, 2 * r, 2 * r);
  const isMet = (mark: Mark, come: Area): boolean =>
    mark.kind === 'group' &&
    mark.marks.some((m) =>
      m.kind === 'line'
        ? crosses(m.from, m.to, come)
        : m.kind === 'circle' && overlaps(around(m.centre, m.radius + 0.5), come),
    );

  it('stands there again where nothing has moved, and is placed as without being held', () =>
    fc.assert(
      fc.property(targets, words, (all, taken) => {
        const spots = noSpots();
        const first = drawn(all, taken, spots);
        expect(first).toEqual(drawn(all, taken));
        expect(drawn(all, taken, spots)).toEqual(first);
      }),
    ));

  it('goes elsewhere only where something has come to it, and on nothing while there is room', () =>
    fc.assert(
      fc.property(targets, fc.nat(), fc.record({ x, y }), (all, which, at) => {
        const spots = noSpots();
        const first = drawn(all, [], spots);
        const rings = first.map(ringOf);
        // over one of the balloons, or anywhere
        const upon = rings[which % rings.length];
        for (const come of [area(at.x, at.y, 12, 3), ...(upon ? [area(upon.x + 1, upon.y + 1, 3, 3)] : [])]) {
          const now = drawn(all, [come], spots);
          if (!first.some((mark) => isMet(mark, come))) expect(now).toEqual(first);
          for (const ring of now.map(ringOf)) expect(ring && overlaps(ring, come)).toBeFalsy();
        }
      }),
    ));
});
