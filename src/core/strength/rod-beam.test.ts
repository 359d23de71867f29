import fc from 'fast-check';
import { expect, it } from 'vitest';
import { solveBeam } from './beam.testing.ts';
import { overhangSags } from './beam.ts';
import { beamOnRods } from './rod-beam.ts';

const anyBeam = fc
  .record({
    gaps: fc.array(fc.integer({ min: 80, max: 700 }), { minLength: 1, maxLength: 6 }),
    left: fc.integer({ min: 20, max: 400 }),
    right: fc.integer({ min: 20, max: 400 }),
  })
  .map(({ gaps, left, right }) => {
    const supports = [left];
    for (const gap of gaps) supports.push(supports.at(-1)! + gap);
    return { supports, length: supports.at(-1)! + right };
  });

it('law: moments and sags are those of the stiffness method, whatever stands where', () =>
  fc.assert(
    fc.property(anyBeam, ({ supports, length }) => {
      const [w, EI] = [0.3, 1e9];
      const { parts, moments, most } = beamOnRods(length, supports, w);
      const STEPS = 40;
      const marks = [0, ...supports, length];
      const x = [
        ...marks
          .slice(1)
          .flatMap((to, i) => Array.from({ length: STEPS }, (_, k) => marks[i]! + ((to - marks[i]!) * k) / STEPS)),
        length,
      ];
      const { down } = solveBeam({
        x,
        stiffness: EI,
        uniform: x.slice(1).map(() => w),
        point: x.map(() => 0),
        held: x.map((at) => (supports.includes(at) ? { down: true } : {})),
      });
      parts.forEach(({ kind, sag }, i) => {
        const own = down.slice(i * STEPS, (i + 1) * STEPS + 1);
        const other = kind === 'end' ? own[i === 0 ? 0 : STEPS]! : Math.max(...own);
        expect(Math.abs(sag / EI - other)).toBeLessThan(2e-3 * Math.max(...down.map(Math.abs)) + 1e-9);
      });
      expect(Math.max(...moments.map(Math.abs))).toBeLessThanOrEqual(most * (1 + 1e-12));
      // the moment by the curvature of the other route, away from the nodes' ends
      const curved = Math.max(
        ...x.slice(1, -1).map((_, i) => {
          const h = x[i + 1]! - x[i]!;
          if (Math.abs(x[i + 2]! - x[i + 1]! - h) > 1e-6) return 0;
          return Math.abs((EI * (down[i]! - 2 * down[i + 1]! + down[i + 2]!)) / h ** 2);
        }),
      );
      expect(curved).toBeLessThan(most * 1.02 + 1);
    }),
    { numRuns: 150 },
  ));

it('two supports under a board, as the sags of its overhangs have it', () => {
  for (const a of [0.05, 0.2, 0.3]) {
    const { parts } = beamOnRods(1, [a, 1 - a], 1);
    const { middle, tip } = overhangSags(a);
    expect(parts[0]!.sag).toBeCloseTo(tip, 12);
    if (middle > 0) expect(parts[1]!.sag).toBeCloseTo(middle, 12);
  }
});

it('published moments of even spans: wl²/8 over the middle of three rods, wl²/10 over the inner of four', () => {
  // AISC Steel Construction Manual, table 3-22c, continuous beams of equal spans
  expect(beamOnRods(2, [0, 1, 2], 1).moments[1]).toBeCloseTo(1 / 8, 12);
  const three = beamOnRods(3, [0, 1, 2, 3], 1);
  expect(three.moments[1]).toBeCloseTo(0.1, 12);
  expect(three.moments[2]).toBeCloseTo(0.1, 12);
  // δ = 0.0069 w l⁴/EI in the outer spans; two spans have wl⁴/185
  expect(three.parts[1]!.sag).toBeCloseTo(0.00688, 4);
  expect(beamOnRods(2, [0, 1, 2], 1).parts[1]!.sag).toBeCloseTo(1 / 184.6, 5);
  expect(beamOnRods(1, [0, 1], 1)).toMatchObject({ most: 1 / 8 });
});
