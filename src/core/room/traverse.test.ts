import fc from 'fast-check';
import { expect, it } from 'vitest';
import { shareOut } from './traverse.ts';

/**
 * A worked example: "Compass Rule: adjustment of bearing and distance of a closed traverse" (classroom handout, four courses).
 * Corrections are printed to four decimals from latitudes rounded to three, so half a unit of the third is allowed.
 */
const rad = (degrees: number) => (degrees * Math.PI) / 180;
const course = (length: number, ns: 1 | -1, degrees: number, ew: 1 | -1) => ({
  x: ew * length * Math.sin(rad(degrees)),
  z: -ns * length * Math.cos(rad(degrees)), // south is positive here
});
const courses = [course(80.4, 1, 76, 1), course(46.3, -1, 36, 1), course(72.8, -1, 61, -1), course(68, 1, 38, -1)];

it.each([
  { at: 0, latitude: -0.0857, departure: 0.0935 },
  { at: 1, latitude: -0.0493, departure: 0.0538 },
  { at: 2, latitude: -0.0775, departure: 0.0846 },
  { at: 3, latitude: -0.0724, departure: 0.079 },
])('corrects course $at as the handout does', ({ at, latitude, departure }) => {
  const { legs } = shareOut(courses);
  expect(Math.abs(-(legs[at]!.z - courses[at]!.z) - latitude)).toBeLessThan(0.0005);
  expect(Math.abs(legs[at]!.x - courses[at]!.x - departure)).toBeLessThan(0.0005);
});

it('closes every traverse, and leaves a closed one alone', () => {
  const leg = fc.record({
    x: fc.double({ min: -9000, max: 9000, noNaN: true }),
    z: fc.double({ min: 1, max: 9000, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(leg, { minLength: 2, maxLength: 9 }), (given) => {
      const legs = [...given, { x: 1000, z: 0 }]; // never all one way, which would leave nothing
      const shared = shareOut(legs).legs;
      expect(
        Math.hypot(
          shared.reduce((s, l) => s + l.x, 0),
          shared.reduce((s, l) => s + l.z, 0),
        ),
      ).toBeLessThan(1e-7);
      shareOut(shared).legs.forEach((l, i) => {
        expect(Math.hypot(l.x - shared[i]!.x, l.z - shared[i]!.z)).toBeLessThan(1e-7);
      });
    }),
  );
});
