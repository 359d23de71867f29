import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Box, boxAt, type Frame, fromRoom, signedArea, toRoom, vec } from '../geometry/index.ts';
import { areNear, distanceTo, overlapDepth, sharedOutline, sharedPoint, upright } from './oriented.ts';

const anyFrame: fc.Arbitrary<Frame> = fc.record({
  origin: fc.record({
    x: fc.integer({ min: -800, max: 800 }),
    y: fc.integer({ min: 0, max: 400 }),
    z: fc.integer({ min: -800, max: 800 }),
  }),
  turn: fc.oneof(fc.constantFrom(0, 90, 180, 270), fc.double({ min: 0, max: 360, noNaN: true })),
});
const anyBox: fc.Arbitrary<Box> = fc
  .tuple(...[1, 2, 3].map(() => fc.integer({ min: 20, max: 900 })))
  .map(([w, h, d]) => boxAt(0, 0, 0, w!, h!, d!));

const holds = ({ min, max }: Box, p: { x: number; y: number; z: number }, by: number) =>
  p.x > min.x + by && p.x < max.x - by && p.y > min.y + by && p.y < max.y - by && p.z > min.z + by && p.z < max.z - by;

it('finds an overlap wherever a sampled point lies in both, and samples one wherever it finds a deep overlap', () => {
  fc.assert(
    fc.property(anyFrame, anyBox, anyFrame, anyBox, (fa, a, fb, b) => {
      const depth = overlapDepth(upright(fa, a), upright(fb, b));
      let common = false;
      const n = 14;
      for (let i = 0; i <= n; i++)
        for (let j = 0; j <= n; j++)
          for (let k = 0; k <= n; k++) {
            const p = vec((a.max.x * i) / n, (a.max.y * j) / n, (a.max.z * k) / n);
            if (holds(a, p, 1e-6) && holds(b, fromRoom(fb, toRoom(fa, p)), 1e-6)) common = true;
          }
      if (common) expect(depth).toBeGreaterThan(0);
      // what is far by its boxes is apart, and what runs along the room's own axes is near just when it is not
      const near = areNear(upright(fa, a), upright(fb, b));
      if (!near || (fa.turn % 90 === 0 && fb.turn % 90 === 0)) expect(near).toBe(depth > 0);
      if (depth > 0) {
        // The clipped outline is the second route: it must hold an area, and its middle lie in both.
        const [ua, ub] = [upright(fa, a), upright(fb, b)];
        expect(Math.abs(signedArea(sharedOutline(ua.corners, ub.corners)))).toBeGreaterThan(0);
        const p = sharedPoint(ua, ub);
        expect(holds(a, fromRoom(fa, p), -1e-6) && holds(b, fromRoom(fb, p), -1e-6)).toBe(true);
      } else expect(common).toBe(false);
    }),
    { numRuns: 1500 },
  );
});

it('parts two uprights by a move of its own length along some direction, and by no shorter one', () => {
  const directions = Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360);
  fc.assert(
    fc.property(anyFrame, anyBox, anyFrame, anyBox, (fa, a, fb, b) => {
      const depth = overlapDepth(upright(fa, a), upright(fb, b));
      fc.pre(depth > 1);
      const after = (dx: number, dy: number, dz: number) => {
        const { x, y, z } = fa.origin;
        return overlapDepth(upright({ ...fa, origin: vec(x + dx, y + dy, z + dz) }, a), upright(fb, b));
      };
      const short = 0.99 * depth;
      expect(Math.min(after(0, short, 0), after(0, -short, 0))).toBeGreaterThan(0);
      for (const t of directions) expect(after(short * Math.cos(t), 0, short * Math.sin(t))).toBeGreaterThan(0);
    }),
    { numRuns: 200 },
  );
});

it('is the same whichever comes first, and nothing for boxes that only touch', () => {
  fc.assert(
    fc.property(anyFrame, anyBox, anyFrame, anyBox, (fa, a, fb, b) => {
      const [ab, ba] = [overlapDepth(upright(fa, a), upright(fb, b)), overlapDepth(upright(fb, b), upright(fa, a))];
      expect(ab > 0).toBe(ba > 0);
      if (ab > 0) expect(ab).toBeCloseTo(ba, 6);
    }),
  );
  const at = (x: number) => upright({ origin: vec(x, 0, 0), turn: 0 }, boxAt(0, 0, 0, 100, 100, 100));
  expect(overlapDepth(at(0), at(100))).toBe(0);
  expect(overlapDepth(at(0), at(99))).toBe(1);
});

it('measures the distance from a point to an outline as sampling its sides does', () => {
  fc.assert(
    fc.property(
      anyFrame,
      anyBox,
      fc.integer({ min: -2000, max: 2000 }),
      fc.integer({ min: -2000, max: 2000 }),
      (f, b, x, z) => {
        const { corners } = upright(f, b);
        const local = fromRoom(f, vec(x, f.origin.y, z));
        const [dx, dz] = [Math.max(0, -local.x, local.x - b.max.x), Math.max(0, -local.z, local.z - b.max.z)];
        expect(distanceTo(corners, { x, z })).toBeCloseTo(Math.hypot(dx, dz), 6);
      },
    ),
  );
});
