import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, box, boxAt, cornersOf, cross, magnitude, scale, subtract, type Vec3, vec } from '../geometry/index.ts';
import {
  angleOfView,
  blurDiameter,
  cropTo,
  distanceFor,
  farLimit,
  focalFor,
  frameAt,
  hyperfocal,
  nearLimit,
} from './optics.ts';
import { deviate } from './people.ts';
import { pulseSwing, rippleLeft } from './shutter.ts';
import {
  type Camera,
  clipToFrame,
  drawBoxes,
  edgesOf,
  glareAt,
  hidesPoint,
  isInFrame,
  project,
  roomRound,
  seenShare,
  sightOf,
  visibleParts,
} from './view.ts';

const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyPoint: fc.Arbitrary<Vec3> = fc.record({ x: length(0, 5000), y: length(0, 2600), z: length(0, 4000) });
const anyCamera: fc.Arbitrary<Camera> = fc
  .record({ at: anyPoint, towards: anyPoint, focal: length(14, 135), roll: length(-20, 20) })
  .filter(({ at, towards }) => Math.hypot(at.x - towards.x, at.y - towards.y, at.z - towards.z) > 50)
  .map((c) => ({ ...c, width: 36, height: 20.25 }));
const level: Camera = { at: vec(2500, 1200, 4000), towards: vec(2500, 1200, 0), focal: 35, width: 36, height: 20.25 };

describe('depth of field', () => {
  it('ends where the blur is as large as the circle of confusion', () =>
    fc.assert(
      fc.property(length(14, 135), length(1.4, 16), length(0.005, 0.05), length(500, 8000), (f, N, c, s) => {
        const H = hyperfocal(f, N, c);
        const near = nearLimit(H, f, s);
        expect(blurDiameter(f, N, s, near) / c).toBeCloseTo(1, 8);
        const far = farLimit(H, f, s);
        if (far < 1e6) expect(blurDiameter(f, N, s, far) / c).toBeCloseTo(1, 6);
        else if (far === Number.POSITIVE_INFINITY)
          expect(blurDiameter(f, N, s, 1e12)).toBeLessThanOrEqual(c * (1 + 1e-6));
      }),
    ));
});

it('turns angles of view and frames round', () =>
  fc.assert(
    fc.property(length(5, 40), length(10, 200), length(300, 9000), (s, f, d) => {
      expect(focalFor(s, angleOfView(s, f))).toBeCloseTo(f, 9);
      expect(distanceFor(frameAt(s, f, d), f, s)).toBeCloseTo(d, 6);
      expect(2 * d * Math.tan((angleOfView(s, f) * Math.PI) / 360)).toBeCloseTo(frameAt(s, f, d), 6);
    }),
  ));
it('crops to a shape inside the sensor', () => {
  expect(cropTo({ width: 36, height: 24 }, 16 / 9)).toEqual({ width: 36, height: 20.25 });
  expect(cropTo({ width: 17.3, height: 13 }, 1)).toEqual({ width: 13, height: 13 });
});

// Tables of the standard normal distribution: 1.6449 at 95 %, 0.6745 at 75 %, 2.3263 at 99 %.
it.each([
  [0.95, 1.6449],
  [0.75, 0.6745],
  [0.99, 2.3263],
  [0.05, -1.6449],
  [0.5, 0],
])('has %d of a normal distribution below %d', (share, z) => expect(deviate(share)).toBeCloseTo(z, 4));

describe('flicker', () => {
  it('leaves of a ripple what the exposure’s mean over it leaves', () =>
    fc.assert(
      fc.property(length(50, 500), length(0.001, 0.04), (f, t) => {
        const n = 4000;
        let [re, im] = [0, 0];
        for (let k = 0; k < n; k++) {
          const x = (2 * Math.PI * f * t * (k + 0.5)) / n;
          re += Math.cos(x) / n;
          im += Math.sin(x) / n;
        }
        expect(rippleLeft(f, t)).toBeCloseTo(Math.hypot(re, im), 4);
      }),
    ));
  it('swings under pulses as a sliding window over the square wave does', () =>
    fc.assert(
      fc.property(length(100, 2000), length(0.05, 1), length(0.0005, 0.02), (f, duty, t) => {
        // On time within [s, s + t]: from its running total, exact.
        const on = (x: number): number => Math.floor(x) * duty + Math.min(x - Math.floor(x), duty);
        let [most, least] = [0, Number.POSITIVE_INFINITY];
        const n = f * t;
        for (const s of [0, duty, (1 - (n % 1)) % 1, (duty - (n % 1) + 2) % 1]) {
          const caught = on(s + n) - on(s);
          most = Math.max(most, caught);
          least = Math.min(least, caught);
        }
        expect(pulseSwing(f, duty, t)).toBeCloseTo((most - least) / (n * duty), 6);
      }),
    ));
});

describe('the picture', () => {
  it('is undone by going back to the same depth', () =>
    fc.assert(
      fc.property(anyCamera, anyPoint, (camera, p) => {
        const image = project(camera, p);
        if (!image) return;
        const { right, up, ahead } = sightOf(camera);
        const [x, y] = [image.x, image.y].map((at) => (at * image.depth) / camera.focal);
        const back = [camera.at, scale(ahead, image.depth), scale(right, x!), scale(up, y!)].reduce(add);
        expect(Math.hypot(back.x - p.x, back.y - p.y, back.z - p.z)).toBeLessThan(1e-5);
      }),
    ));
  it('has an upright, right-handed sight', () =>
    fc.assert(
      fc.property(anyCamera, (camera) => {
        const { right, up, ahead } = sightOf(camera);
        const unit = (v: Vec3): number => Math.hypot(v.x, v.y, v.z);
        for (const v of [right, up, ahead]) expect(unit(v)).toBeCloseTo(1, 10);
        expect(right.x * up.x + right.y * up.y + right.z * up.z).toBeCloseTo(0, 10);
        if (Math.abs(ahead.y) < 0.9) expect(up.y).toBeGreaterThan(0);
      }),
    ));
  it('shows east to the right of a camera that looks north, and what is higher higher', () => {
    expect(project(level, vec(3500, 1200, 0))).toEqual({ x: 35 / 4, y: 0, depth: 4000 });
    expect(project(level, vec(2500, 2200, 0))!.y).toBeCloseTo(35 / 4, 12);
    expect(project(level, vec(2500, 1200, 4500))).toBeUndefined();
  });
  it('is as wide as the pinhole says', () => {
    const edge = frameAt(36, 35, 4000) / 2;
    expect(isInFrame(level, project(level, vec(2500 + edge - 0.01, 1200, 0))!)).toBe(true);
    expect(isInFrame(level, project(level, vec(2500 + edge + 0.01, 1200, 0))!)).toBe(false);
  });
  it('cuts lines to what is in frame', () =>
    fc.assert(
      fc.property(anyCamera, anyPoint, anyPoint, (camera, a, b) => {
        const cut = clipToFrame(camera, a, b);
        for (let k = 1; k < 40; k++) {
          const t = k / 40;
          const image = project(camera, add(a, scale(subtract(b, a), t)));
          const inside = image !== undefined && isInFrame(camera, image);
          const edge = cut && (Math.abs(t - cut[0]) < 1e-6 || Math.abs(t - cut[1]) < 1e-6);
          if (!edge) expect(inside).toBe(cut !== undefined && t > cut[0] && t < cut[1]);
        }
      }),
    ));
  it('leaves as much room above a head as there is', () => {
    const room = roomRound(level, vec(2500, 1200, 2000), 510)!;
    expect(room.above).toBeCloseTo(0.5, 12);
    expect(room.left).toBeCloseTo(0.5 - (35 * 255) / 2000 / 36, 12);
    expect(room.left).toBeCloseTo(room.right, 12);
  });
});

describe('hidden lines', () => {
  const anyBox = fc
    .tuple(anyPoint, fc.record({ x: length(50, 1500), y: length(50, 1500), z: length(50, 1500) }))
    .map(([p, s]) => boxAt(p.x, p.y, p.z, s.x, s.y, s.z));
  it('are hidden where a point by point test says so', () =>
    fc.assert(
      fc.property(
        anyPoint,
        anyPoint,
        anyPoint,
        fc.array(anyBox, { minLength: 1, maxLength: 4 }),
        (eye, a, b, boxes) => {
          // A line of no length, or one that runs through the eye, has no picture to compare.
          const [d, w] = [subtract(b, a), subtract(eye, a)];
          fc.pre(magnitude(d) > 20 && magnitude(cross(d, w)) / magnitude(d) > 5);
          const seen = visibleParts(eye, a, b, boxes);
          for (let k = 0; k < 50; k++) {
            const t = (k + 0.5) / 50;
            if (seen.some(([s, e]) => Math.abs(t - s) < 1e-4 || Math.abs(t - e) < 1e-4)) continue;
            const p = add(a, scale(subtract(b, a), t));
            const hidden = boxes.some((bx) => hidesPoint(eye, p, bx));
            // A point on or in a box, or a graze: either answer will do.
            const touch = boxes.some(
              (bx) => hidesPoint(eye, p, inflate(bx, 0.05)) !== hidesPoint(eye, p, inflate(bx, -0.05)),
            );
            if (!touch) expect(seen.some(([s, e]) => t > s && t < e)).toBe(!hidden);
          }
        },
      ),
      { numRuns: 200 },
    ));
  const inflate = (b: ReturnType<typeof boxAt>, by: number) =>
    box(vec(b.min.x - by, b.min.y - by, b.min.z - by), vec(b.max.x + by, b.max.y + by, b.max.z + by));
  it('leave nine edges of a box seen from a corner, seven of one seen from an edge, four from the front', () => {
    const cube = boxAt(2000, 700, 500, 1000, 1000, 1000);
    const whole = (camera: Camera): number =>
      drawBoxes(camera, [cube]).filter((l) => Math.hypot(l.to.x - l.from.x, l.to.y - l.from.y) > 1e-6).length;
    const from = (at: Vec3): Camera => ({ at, towards: vec(2500, 1200, 1000), focal: 20, width: 36, height: 36 });
    expect(whole(from(vec(4800, 2500, 3900)))).toBe(9);
    expect(whole(from(vec(4800, 1200, 3900)))).toBe(7);
    expect(whole(from(vec(2500, 1200, 3900)))).toBe(4);
    expect(edgesOf(cube).length).toBe(12);
    expect(cornersOf(cube).length).toBe(8);
  });
  it('see all, half or none of a box behind another', () => {
    const target = boxAt(2000, 700, 500, 1000, 1000, 1000);
    const camera = { ...level, focal: 20 };
    expect(seenShare(camera, target, []).seen).toBe(1);
    expect(seenShare(camera, target, [boxAt(2500, 0, 2000, 2000, 2600, 50)]).seen).toBeCloseTo(0.5, 1);
    expect(seenShare(camera, target, [boxAt(0, 0, 2000, 5000, 2600, 50)])).toEqual({ inFrame: 1, seen: 0 });
  });
});

it('finds the lamp mirrored in a display, at equal angles', () => {
  const glass = { corner: vec(2000, 1000, 0), across: vec(1200, 0, 0), up: vec(0, 700, 0) };
  const glare = glareAt(vec(2600, 1350, 3000), vec(2600, 1350, 1000), glass)!;
  expect(glare.across).toBeCloseTo(0.5, 12);
  expect(glare.up).toBeCloseTo(0.5, 12);
  expect(glareAt(vec(2600, 1350, 3000), vec(2600, 4000, 3000), glass)).toBeUndefined();
  expect(glareAt(vec(2600, 1350, 3000), vec(2600, 1350, -500), glass)).toBeUndefined();
});
