import fc from 'fast-check';
import { expect, it } from 'vitest';
import { flatArea, signedArea } from '../geometry/index.ts';
import { crossings, distanceFromOutline, distanceToSegment, isInside, type Outline } from './outline.ts';

const ell: Outline = [
  { x: 0, z: 0 },
  { x: 4, z: 0 },
  { x: 4, z: 2 },
  { x: 2, z: 2 },
  { x: 2, z: 3 },
  { x: 0, z: 3 },
];

it('gives a clockwise outline a positive area', () => {
  expect(signedArea(ell)).toBe(10);
  expect(signedArea(ell.toReversed())).toBe(-10);
  expect(flatArea(ell.map(({ x, z }) => ({ x, y: z })))).toBe(10);
});

it('knows a point of an L from a point of its notch', () => {
  expect(isInside(ell, { x: 1, z: 2.5 })).toBe(true);
  expect(isInside(ell, { x: 3, z: 2.5 })).toBe(false);
  expect(isInside(ell, { x: 3, z: 2.5 }, 0.4)).toBe(false);
  expect(isInside(ell, { x: 3, z: 2.5 }, 0.6)).toBe(true);
});

it('agrees with the angle a point sees the outline under, which shares no code with the even-odd rule', () => {
  const winding = (p: { x: number; z: number }): number =>
    ell.reduce((sum, a, i) => {
      const b = ell[(i + 1) % ell.length]!;
      const [u, v] = [
        { x: a.x - p.x, z: a.z - p.z },
        { x: b.x - p.x, z: b.z - p.z },
      ];
      return sum + Math.atan2(u.x * v.z - u.z * v.x, u.x * v.x + u.z * v.z);
    }, 0);
  const coordinate = fc.double({ min: -1, max: 5, noNaN: true });
  fc.assert(
    fc.property(coordinate, coordinate, (x, z) => {
      fc.pre(distanceFromOutline(ell, { x, z }) > 1e-6);
      expect(isInside(ell, { x, z })).toBe(Math.abs(winding({ x, z })) > Math.PI);
    }),
    { numRuns: 2000 },
  );
});

it.each([
  ['beyond an end', { x: -3, z: 4 }, 5],
  ['beside the middle', { x: 5, z: 2 }, 2],
  ['on it', { x: 5, z: 0 }, 0],
])('measures the distance to a segment: %s', (_, p, distance) => {
  expect(distanceToSegment(p, { x: 0, z: 0 }, { x: 10, z: 0 })).toBe(distance);
});

it('finds a bow tie, a touch, and a fold, and nothing in a plain outline', () => {
  const square = [
    { x: 0, z: 0 },
    { x: 2, z: 0 },
    { x: 2, z: 2 },
    { x: 0, z: 2 },
  ];
  expect(crossings(square)).toEqual([]);
  expect(crossings(ell)).toEqual([]);
  expect(crossings([square[0]!, square[1]!, square[3]!, square[2]!])).toEqual([[1, 3]]);
  expect(crossings([...square, { x: 1, z: 0 }]).length).toBeGreaterThan(0);
  expect(
    crossings([
      { x: 0, z: 0 },
      { x: 5, z: 0 },
      { x: 3, z: 0 },
      { x: 3, z: 3 },
    ]),
  ).toContainEqual([0, 1]);
});
