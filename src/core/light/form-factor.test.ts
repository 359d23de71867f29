import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Vec3, vec } from '../geometry/index.ts';
import {
  facing,
  offsetParallelFactor,
  offsetPerpendicularFactor,
  parallelFactor,
  patch,
  patchFactor,
  perpendicularFactor,
  pointToPolygon,
} from './form-factor.ts';

const side = (min = 0.2, max = 5) => fc.double({ min, max, noNaN: true });

describe('the closed forms', () => {
  it('agree where both apply: opposed rectangles, rectangles with a common edge', () =>
    fc.assert(
      fc.property(side(), side(), side(), (a, b, c) => {
        expect(offsetParallelFactor([0, a], [0, b], [0, a], [0, b], c)).toBeCloseTo(parallelFactor(a, b, c), 9);
        expect(offsetPerpendicularFactor([0, a], [0, b], [0, b], [0, c])).toBeCloseTo(perpendicularFactor(a, c, b), 9);
      }),
    ));
  it('close a box: every face sends all it has to the other five', () =>
    fc.assert(
      fc.property(side(), side(), side(), (l, w, h) => {
        const sum = parallelFactor(l, w, h) + 2 * perpendicularFactor(w, h, l) + 2 * perpendicularFactor(l, h, w);
        expect(sum).toBeCloseTo(1, 9);
      }),
    ));
  it('are reciprocal: A1 F12 = A2 F21', () =>
    fc.assert(
      fc.property(side(), side(), side(), (w, h, l) => {
        expect(w * perpendicularFactor(w, h, l)).toBeCloseTo(h * perpendicularFactor(h, w, l), 9);
      }),
    ));
  it('add up over the parts of what is seen', () =>
    fc.assert(
      fc.property(side(), side(), side(), side(0.1, 0.9), (a, b, c, t) => {
        const whole = offsetParallelFactor([0, a], [0, b], [0, 2 * a], [0, b], c);
        const parts =
          offsetParallelFactor([0, a], [0, b], [0, 2 * a * t], [0, b], c) +
          offsetParallelFactor([0, a], [0, b], [2 * a * t, 2 * a], [0, b], c);
        expect(parts).toBeCloseTo(whole, 9);
        const wall = offsetPerpendicularFactor([0, a], [0, b], [0, b], [0, c]);
        const low = offsetPerpendicularFactor([0, a], [0, b], [0, b], [0, t * c]);
        const high = offsetPerpendicularFactor([0, a], [0, b], [0, b], [t * c, c]);
        expect(low + high).toBeCloseTo(wall, 9);
      }),
    ));
});

it('agrees with points spread over the first rectangle, wherever the second lies', () =>
  fc.assert(
    fc.property(side(0.3, 2), side(0.3, 2), side(0.5, 3), side(-2, 2), (a, b, c, shift) => {
      const ceiling = patch(
        [vec(shift, c, 0), vec(shift + a, c, 0), vec(shift + a, c, b), vec(shift, c, b)],
        'ceiling',
      );
      const floor = patch([vec(0, 0, 0), vec(0, 0, 1), vec(1, 0, 1), vec(1, 0, 0)], 'floor');
      expect(offsetParallelFactor([0, 1], [0, 1], [shift, shift + a], [0, b], c)).toBeCloseTo(
        patchFactor(floor, ceiling, 32),
        3,
      );
      // A wall at x = −0.5, seen from the floor 0.5 to 1.5 away from their common line.
      const wall = patch(
        [vec(-0.5, 0.2, shift), vec(-0.5, 0.2 + c, shift), vec(-0.5, 0.2 + c, shift + b), vec(-0.5, 0.2, shift + b)],
        'wall',
      );
      expect(wall.normal.x).toBeCloseTo(1, 12);
      expect(offsetPerpendicularFactor([0.5, 1.5], [0, 1], [shift, shift + b], [0.2, 0.2 + c])).toBeCloseTo(
        patchFactor(floor, wall, 32),
        3,
      );
    }),
    { numRuns: 60 },
  ));

describe('Lambert’s polygon', () => {
  // Reversed from the closed-form order so that its front looks down on the point.
  const above = (a: number, b: number, h: number): readonly Vec3[] => [
    vec(0, h, 0),
    vec(a, h, 0),
    vec(a, h, b),
    vec(0, h, b),
  ];
  it('seen from under its corner is the textbook corner factor', () =>
    fc.assert(
      fc.property(side(), side(), side(), (a, b, c) => {
        // Incropera & DeWitt / Hamilton & Morgan: differential element to a parallel rectangle with a corner above it.
        const [X, Y] = [a / c, b / c];
        const [sx, sy] = [Math.sqrt(1 + X * X), Math.sqrt(1 + Y * Y)];
        const exact = (1 / (2 * Math.PI)) * ((X / sx) * Math.atan(Y / sx) + (Y / sy) * Math.atan(X / sy));
        expect(pointToPolygon(vec(0, 0, 0), vec(0, 1, 0), above(a, b, c))).toBeCloseTo(exact, 10);
      }),
    ));
  it('cuts off what lies below the horizon', () => {
    // A wall half below the floor counts as its upper half.
    const wall = (low: number) => [vec(2, low, -1), vec(2, 1, -1), vec(2, 1, 1), vec(2, low, 1)].reverse();
    const p = vec(0, 0, 0);
    const whole = pointToPolygon(p, vec(0, 1, 0), wall(-1));
    expect(whole).toBeGreaterThan(0.01);
    expect(whole).toBeCloseTo(pointToPolygon(p, vec(0, 1, 0), wall(0)), 12);
    expect(pointToPolygon(p, vec(0, -1, 0), [vec(2, 0.5, -1), vec(2, 1, -1), vec(2, 1, 1)])).toBe(0);
  });
  it('fills the hemisphere when it is all round', () => {
    const size = 1e5;
    expect(
      pointToPolygon(
        vec(0, 0, 0),
        vec(0, 1, 0),
        above(size, size, 1).map((p) => vec(p.x - size / 2, p.y, p.z - size / 2)),
      ),
    ).toBeCloseTo(1, 4);
  });
  it('is what a count of cosine-weighted directions finds', () => {
    const polygon = [vec(-1, 2, 0.5), vec(2, 1.5, 0.2), vec(1.5, 2.2, 2)];
    const p = patch([...polygon], 'test');
    const seen = p.normal.y < 0 ? p : patch([...polygon].reverse(), 'test');
    let hits = 0;
    const n = 200_000;
    for (let k = 0; k < n; k++) {
      // A lattice over the disc, lifted to the hemisphere (Malley's method).
      const r = Math.sqrt((k + 0.5) / n);
      const a = k * Math.PI * (3 - Math.sqrt(5));
      const d = vec(r * Math.cos(a), Math.sqrt(1 - r * r), r * Math.sin(a));
      const t =
        (seen.centre.x * seen.normal.x + seen.centre.y * seen.normal.y + seen.centre.z * seen.normal.z) /
        (d.x * seen.normal.x + d.y * seen.normal.y + d.z * seen.normal.z);
      const q = vec(t * d.x, t * d.y, t * d.z);
      const inside = polygon.every((u, i) => {
        const v = polygon[(i + 1) % 3]!;
        const w = polygon[(i + 2) % 3]!;
        const cross = (s: Vec3): number => (v.x - u.x) * (s.z - u.z) - (v.z - u.z) * (s.x - u.x);
        return Math.sign(cross(q)) === Math.sign(cross(w));
      });
      if (t > 0 && inside) hits++;
    }
    expect(facing(vec(0, 0, 0), vec(0, 1, 0), seen)).toBeCloseTo(hits / n, 3);
  });
});

it('averages to the closed forms as the points grow', () => {
  const floor = patch([vec(0, 0, 0), vec(0, 0, 4), vec(5, 0, 4), vec(5, 0, 0)], 'floor');
  const ceiling = patch([vec(0, 2.6, 0), vec(5, 2.6, 0), vec(5, 2.6, 4), vec(0, 2.6, 4)], 'ceiling');
  const wall = patch([vec(0, 0, 0), vec(5, 0, 0), vec(5, 2.6, 0), vec(0, 2.6, 0)], 'wall');
  expect(floor.normal).toEqual(vec(0, 1, 0));
  expect(wall.normal).toEqual(vec(0, 0, 1));
  expect(floor.area).toBeCloseTo(20, 12);
  const off = (n: number): number => Math.abs(patchFactor(floor, ceiling, n) - parallelFactor(5, 4, 2.6));
  expect(off(8)).toBeLessThan(off(2) / 8); // second order: the factor is smooth
  expect(off(16)).toBeLessThan(1e-3);
  expect(patchFactor(floor, wall, 24)).toBeCloseTo(perpendicularFactor(4, 2.6, 5), 2);
  // The back sees nothing.
  expect(patchFactor(ceiling, patch([...floor.corners].reverse(), 'underside'), 2)).toBe(0);
});
