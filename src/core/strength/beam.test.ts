import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveBeam } from './beam.testing.ts';
import {
  beamMoment,
  beamSag,
  midspanSag,
  overhangFraction,
  overhangSags,
  POINT,
  SUPPORTS,
  type Supports,
  UNIFORM,
} from './beam.ts';
import { builtUp, hollow, rectangle, shelfSection } from './section.ts';

/** A span cut into even elements, held as named; two spans over a middle support when it says so. */
function frame(supports: Supports, span: number, uniform: number, point: number, pieces = 120) {
  const spans = supports === 'two-span' ? 2 : 1;
  const n = pieces * spans + 1;
  const x = Array.from({ length: n }, (_, i) => (i * span) / pieces);
  const loads = new Array<number>(n).fill(0);
  if (supports === 'cantilever') loads[n - 1] = point;
  else for (let s = 0; s < spans; s++) loads[s * pieces + pieces / 2] = point;
  const held = x.map((_, i) => ({
    down: supports === 'cantilever' ? i === 0 : i % pieces === 0,
    turn: (i === 0 && ['fixed', 'propped', 'cantilever'].includes(supports)) || (i === n - 1 && supports === 'fixed'),
  }));
  return { x, uniform: new Array<number>(n - 1).fill(uniform / span), point: loads, held };
}

describe('deflections against the stiffness method', () => {
  // 120 elements a span: the nodes are exact, the peak between them is missed by less than (π/120)²/8 of it
  it.each(SUPPORTS)('%s, uniform load', (supports) =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (span, load) => {
          const { down } = solveBeam({ ...frame(supports, span, load, 0), stiffness: 7 });
          const sag = beamSag({ span, supports, uniform: load }, 7);
          expect(Math.max(...down) / sag).toBeCloseTo(1, 3);
        },
      ),
      { numRuns: 5 },
    ),
  );
  it.each(SUPPORTS)('%s, point load', (supports) => {
    const { down } = solveBeam({ ...frame(supports, 2, 0, 30), stiffness: 7 });
    expect(Math.max(...down) / beamSag({ span: 2, supports, uniform: 0, point: 30 }, 7)).toBeCloseTo(1, 3);
  });
  it.each(SUPPORTS)('%s, both together are never under-reckoned', (supports) => {
    const { down } = solveBeam({ ...frame(supports, 2, 100, 30), stiffness: 7 });
    const sag = beamSag({ span: 2, supports, uniform: 100, point: 30 }, 7);
    expect(Math.max(...down)).toBeLessThanOrEqual(sag * (1 + 1e-6));
    expect(Math.max(...down)).toBeGreaterThan(0.98 * sag);
  });
  it('one span of two left empty lets the other sag up to 1.7 times as far', () => {
    const both = frame('two-span', 1, 100, 0);
    const one = { ...both, uniform: both.uniform.map((q, i) => (i < 120 ? q : 0)) };
    const most = (f: typeof both) => Math.max(...solveBeam({ ...f, stiffness: 1 }).down);
    expect(most(one) / most(both)).toBeGreaterThan(1.65);
    expect(most(one) / most(both)).toBeLessThan(1.71);
  });
});

it('three rods under a limp shelf: the middle one carries 1.9 times the mean', () => {
  const { reactions } = solveBeam({ ...frame('two-span', 1, 1, 0), stiffness: 1 });
  const rods = [reactions[0]!, reactions[120]!, reactions[240]!].map(Math.abs);
  expect(rods[1]! / (rods.reduce((a, b) => a + b) / 3)).toBeCloseTo(1.875, 3);
});

describe('moments and shear', () => {
  // E I v″ along the first span, v downwards: less the support moment, plus reaction and the load passed, each times its arm
  const mostMoment = (supports: Supports, uniform: number, point: number): number => {
    const L = 2;
    const { reactions, moments } = solveBeam({ ...frame(supports, L, uniform, point), stiffness: 7 });
    const at = (x: number) =>
      Math.abs(
        -moments[0]! +
          reactions[0]! * x +
          (uniform / L) * (x ** 2 / 2) +
          (supports === 'cantilever' ? 0 : point * Math.max(0, x - L / 2)),
      );
    return Math.max(...Array.from({ length: 401 }, (_, i) => at((i * L) / 400)));
  };
  it.each(SUPPORTS)('%s: largest moments are those of the frame', (supports) => {
    expect(mostMoment(supports, 100, 0) / beamMoment({ span: 2, supports, uniform: 100 })).toBeCloseTo(1, 4);
    expect(mostMoment(supports, 0, 30) / beamMoment({ span: 2, supports, uniform: 0, point: 30 })).toBeCloseTo(1, 4);
    expect(mostMoment(supports, 100, 30)).toBeLessThanOrEqual(
      beamMoment({ span: 2, supports, uniform: 100, point: 30 }) * (1 + 1e-6),
    );
  });
  it('shear deflection is the sum of the shear force up to the place', () => {
    const sum = (V: (x: number) => number, to: number) =>
      Array.from({ length: 1000 }, (_, i) => (V(((i + 0.5) * to) / 1000) * to) / 1000).reduce((a, b) => a + b);
    // unit load on a unit span: by symmetry the fixed beam has the shear of the simple one
    const even = sum((x) => 0.5 - x, 0.5);
    const middle = sum(() => 0.5, 0.5);
    expect([UNIFORM.simple.shear, UNIFORM.fixed.shear]).toEqual([1 / 8, 1 / 8]);
    expect(even).toBeCloseTo(1 / 8, 9);
    expect([POINT.simple.shear, POINT.fixed.shear]).toEqual([1 / 4, 1 / 4]);
    expect(middle).toBeCloseTo(1 / 4, 9);
    expect(sum((x) => 1 - x, 1)).toBeCloseTo(UNIFORM.cantilever.shear!, 9);
    expect(sum(() => 1, 1)).toBeCloseTo(POINT.cantilever.shear!, 9);
  });
});

describe('overhangs', () => {
  it.each(['equal sag', 'equal moment', 'level ends'] as const)('%s', (rule) => {
    const a = overhangFraction(rule);
    const n = 400;
    const x = Array.from({ length: n + 1 }, (_, i) => i / n);
    // put two nodes exactly on the supports
    const k = Math.round(a * n);
    x[k] = a;
    x[n - k] = 1 - a;
    const held = x.map((_, i) => ({ down: i === k || i === n - k }));
    const { down } = solveBeam({
      x,
      stiffness: 1,
      uniform: new Array<number>(n).fill(1),
      point: new Array<number>(n + 1).fill(0),
      held,
    });
    const { middle, tip } = overhangSags(a);
    expect(down[n / 2]!).toBeCloseTo(middle, 7);
    expect(down[0]!).toBeCloseTo(tip, 7);
    if (rule === 'equal sag') expect(middle).toBeCloseTo(tip, 12);
    if (rule === 'equal moment') expect(a ** 2 / 2).toBeCloseTo((1 - 2 * a) ** 2 / 8 - a ** 2 / 2, 12);
    // level ends: the slope at the tip is nothing
    if (rule === 'level ends') expect(Math.abs(down[1]! - down[0]!) * n).toBeLessThan(1e-4);
  });
});

describe('sections', () => {
  const size = fc.double({ min: 1, max: 400, noNaN: true });
  it('agrees with a sum over thin slices', () =>
    fc.assert(
      fc.property(
        fc.array(fc.record({ width: size, height: size, y: size, modulus: size }), { minLength: 1, maxLength: 4 }),
        (strips) => {
          const slices = strips.flatMap((s) =>
            Array.from({ length: 500 }, (_, i) => ({
              force: (s.modulus * s.width * s.height) / 500,
              y: s.y - s.height / 2 + (s.height * (i + 0.5)) / 500,
            })),
          );
          const total = slices.reduce((sum, p) => sum + p.force, 0);
          const axis = slices.reduce((sum, p) => sum + p.force * p.y, 0) / total;
          const stiffness = slices.reduce((sum, p) => sum + p.force * (p.y - axis) ** 2, 0);
          const got = builtUp(strips);
          expect(got.axis / axis).toBeCloseTo(1, 9);
          // slices leave out their own I: 1/500² of the strip's
          expect(got.stiffness / stiffness).toBeCloseTo(1, 4);
        },
      ),
      { numRuns: 50 },
    ));
  it('takes a hollow shelf as the hollow rectangle', () => {
    const { stiffness } = shelfSection({ depth: 300, thickness: 50, modulus: 1, hollow: { skin: 6, webs: 36 } });
    expect(stiffness).toBeCloseTo(hollow(300, 50, 264, 38), 6);
  });
  it('never loses stiffness by a lip, whichever way it hangs', () =>
    fc.assert(
      fc.property(size, size, size, size, size, (depth, thickness, height, t, modulus) => {
        const plain = shelfSection({ depth, thickness, modulus: 10 }).stiffness;
        const lipped = shelfSection({
          depth,
          thickness,
          modulus: 10,
          lip: { height, thickness: t, modulus },
        }).stiffness;
        expect(lipped).toBeGreaterThan(plain);
      }),
    ));
});

it('sags with the cube of the span for a given load, and less for everything stiffer', () =>
  fc.assert(
    fc.property(
      fc.constantFrom(...SUPPORTS),
      fc.double({ min: 100, max: 2000, noNaN: true }),
      fc.double({ min: 1.01, max: 3, noNaN: true }),
      (supports, span, factor) => {
        const at = (s: number, stiffness: number) => beamSag({ span: s, supports, uniform: 100 }, stiffness);
        expect(at(span * factor, 1e9) / at(span, 1e9)).toBeCloseTo(factor ** 3, 6);
        expect(at(span, 1e9 * factor)).toBeLessThan(at(span, 1e9));
      },
    ),
  ));

it('refuses a shelf of no size', () => {
  const shelf = { span: 900, depth: 300, thickness: 18, modulus: 3000 };
  expect(midspanSag(shelf, 0.5)).toBeCloseTo((5 * 0.5 * 900 ** 4) / (384 * 3000 * rectangle(300, 18)), 9);
  for (const wrong of [{ span: 0 }, { depth: -1 }, { thickness: 0 }, { modulus: Number.NaN }])
    expect(() => midspanSag({ ...shelf, ...wrong }, 0.5)).toThrow(RangeError);
});

it('moments agree with statics: simple beam, half the load at each end', () => {
  // M(L/2) = (W/2)(L/2) − (W/2)(L/4) by cutting the beam in the middle
  expect(beamMoment({ span: 2, supports: 'simple', uniform: 8 })).toBeCloseTo(4 * 1 - 4 * 0.5, 12);
  expect(beamMoment({ span: 2, supports: 'cantilever', uniform: 8, point: 1 })).toBeCloseTo(8 * 1 + 2, 12);
});
