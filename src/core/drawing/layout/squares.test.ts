import fc from 'fast-check';
import { expect, it } from 'vitest';
import { area, overlaps } from '../draw.ts';
import { crosses, isDot, isTaken, lay, onTheWay, over, squaresIn, takeBack, wayFrom } from './squares.ts';

// halves of millimetres: edges often lie on one another and on those of the squares; some of it lies beside the sheet
const coordinate = fc.integer({ min: -60, max: 300 }).map((n) => n / 2);
const size = fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 0, max: 20 }) }, fc.integer({ min: 0, max: 200 }));
const areas = fc.tuple(coordinate, coordinate, size, size).map(([x, y, width, height]) => area(x, y, width, height));
const points = fc.tuple(coordinate, coordinate).map(([x, y]) => ({ x, y }));

it('finds by squares what looking through all of it finds', () =>
  fc.assert(
    fc.property(
      fc.array(areas, { maxLength: 60 }),
      fc.array(areas, { minLength: 1, maxLength: 10 }),
      fc.array(fc.tuple(points, points), { minLength: 1, maxLength: 10 }),
      (all, asked, lines) => {
        const squares = squaresIn(area(0, 0, 130, 90));
        for (const each of all) lay(squares, each);
        for (const each of asked) {
          const found = all.filter((a) => overlaps(a, each));
          expect(over(squares, each)).toEqual(found);
          expect(isTaken(squares, each)).toBe(found.length > 0);
        }
        for (const [from, to] of lines) {
          const met = onTheWay(squares, from, to);
          expect(met).toHaveLength(new Set(met).size);
          expect(all.filter((a) => met.includes(a))).toEqual(all.filter((a) => crosses(from, to, a)));
        }
      },
    ),
    { numRuns: 300 },
  ));

it('is as it was once what was laid last is taken back', () =>
  fc.assert(
    fc.property(
      fc.array(areas, { maxLength: 30 }),
      fc.array(areas, { maxLength: 30 }),
      fc.array(areas, { minLength: 1, maxLength: 10 }),
      (first, more, asked) => {
        const squares = squaresIn(area(0, 0, 130, 90));
        for (const each of [...first, ...more]) lay(squares, each);
        takeBack(squares, first.length);
        expect(squares.all).toEqual(first);
        for (const each of asked) {
          const found = first.filter((a) => overlaps(a, each));
          expect(over(squares, each)).toEqual(found);
          expect(isTaken(squares, each)).toBe(found.length > 0);
        }
      },
    ),
  ));

it('goes as far as one can before something is in the way', () =>
  fc.assert(
    fc.property(
      fc.array(areas, { maxLength: 40 }),
      fc.integer({ min: 0, max: 1300 }),
      fc.integer({ min: 0, max: 900 }),
      fc.integer({ min: 0, max: 359 }),
      (all, x, y, degrees) => {
        const within = area(0, 0, 130, 90);
        const squares = squaresIn(within);
        for (const each of all) lay(squares, each);
        // off the edges, which a way along them may touch or not by its last digit
        const from = { x: x / 10 + 0.0123, y: y / 10 + 0.0321 };
        const angle = ((degrees + 0.01) * Math.PI) / 180;
        const way = wayFrom(squares, from, { cos: Math.cos(angle), sin: Math.sin(angle) }, 75);
        // by stretches of the way, each longer than the one before: the first that meets something ends there
        const others = all.filter((a) => !overlaps(a, area(from.x, from.y, 0, 0)));
        const at = (d: number) => ({ x: from.x + d * Math.cos(angle), y: from.y + d * Math.sin(angle) });
        const meets = (d: number, some: typeof others) => some.some((a) => crosses(from, at(d), a));
        const isOnSheet = (d: number) => d < 75 && at(d).x > 0 && at(d).x < 130 && at(d).y > 0 && at(d).y < 90;
        const none = others.filter((a) => !isDot(a));
        for (const [told, some] of [
          [way.clear, others],
          [way.overDots, none],
        ] as const) {
          if (told < 75) {
            expect(meets(told + 1e-3, some)).toBe(true);
            expect(meets(told - 1e-3, some)).toBe(false);
          } else for (let d = 1; isOnSheet(d); d++) expect(meets(d, some)).toBe(false);
        }
      },
    ),
    { numRuns: 500 },
  ));

it.each([
  { from: [0, 5], to: [20, 5], goes: true },
  { from: [0, 0], to: [20, 20], goes: true },
  { from: [10, -5], to: [10, 3], goes: true },
  { from: [0, 0], to: [20, 0], goes: false },
  { from: [0, 11], to: [11, 22], goes: false },
  { from: [0, 5], to: [7, 5], goes: false },
  { from: [9, 4], to: [11, 6], goes: true },
])('tells whether a line from $from to $to goes through an area', ({ from, to, goes }) => {
  const [[x, y], [u, v]] = [from, to] as [[number, number], [number, number]];
  expect(crosses({ x, y }, { x: u, y: v }, area(8, 2, 4, 8))).toBe(goes);
});
