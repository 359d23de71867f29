import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, convertTo, inch, STANDARD_GRAVITY } from '../quantity/index.ts';
import { solve } from './beam.testing.ts';
import { bracketReactions, bracketTensions, mountProofMass, mountTestForce, tippingPull } from './hanging.ts';
import { SHELF_LOAD_CAP, WALL_CABINET_PROOF } from './standards.ts';
import { pulloutSteel, screwShearSteel } from './steel-fixing.ts';
import { combinedResistance, lagWithdrawal, lateralValue, YIELD_MODES } from './timber-fixing.ts';

const row = fc.record({ height: fc.double({ min: 5, max: 900, noNaN: true }), count: fc.integer({ min: 1, max: 4 }) });
const rows = fc.array(row, { minLength: 1, maxLength: 5 });

/**
 * A second route: a stiff plate on springs by the stiffness method. Unknowns are how far its lower edge moves out of the wall
 * and how far it leans; every fixing is a spring, the edge bears on a spring ten million times as stiff.
 */
function plateOnSprings(moment: number, fixings: readonly { height: number; count: number }[]): number[] {
  const k = 1000;
  const edge = 1e7 * k;
  let [k11, k12, k22] = [edge, 0, 0];
  for (const { height, count } of fixings) {
    k11 += count * k;
    k12 += count * k * height;
    k22 += count * k * height ** 2;
  }
  const [out, lean] = solve(
    [
      [k11, k12],
      [k12, k22],
    ],
    [0, moment],
  ) as [number, number];
  return fixings.map(({ height }) => k * (out + lean * height));
}

describe('what hangs on a wall', () => {
  it('pulls on its fixings as a stiff plate on springs does', () =>
    fc.assert(
      fc.property(fc.double({ min: 1e3, max: 1e6, noNaN: true }), rows, (moment, fixings) => {
        const tension = bracketTensions(moment, fixings);
        const springs = plateOnSprings(moment, fixings);
        const most = Math.max(...tension);
        for (const [i, T] of tension.entries()) expect(Math.abs(T - springs[i]!)).toBeLessThan(1e-4 * most);
      }),
    ));
  it('is in balance', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 900, noNaN: true }),
        rows,
        (mass, reach, fixings) => {
          const { tension, shear, thrust } = bracketReactions(mass, reach, fixings);
          const number = fixings.reduce((sum, f) => sum + f.count, 0);
          const held = fixings.reduce((sum, f, i) => sum + f.count * tension[i]! * f.height, 0);
          const pull = fixings.reduce((sum, f, i) => sum + f.count * tension[i]!, 0);
          expect(held).toBeCloseTo(mass * STANDARD_GRAVITY * reach, 4);
          expect(thrust).toBeCloseTo(pull, 6);
          expect(shear * number).toBeCloseTo(mass * STANDARD_GRAVITY, 6);
        },
      ),
    ));
  it('refuses a bracket with nothing above its edge', () => {
    expect(() => bracketTensions(1000, [{ height: 0 }])).toThrow(RangeError);
    expect(() => bracketTensions(1000, [])).toThrow(RangeError);
    expect(() => bracketTensions(1000, [{ height: -3 }, { height: 9 }])).toThrow(RangeError);
  });
  // ANSI/KCMA A161.1: 500 lb (227 kg); AWS ed. 1, 1.2.21: 200 lb a shelf
  it('keeps the proof loads of the standards', () => {
    expect(WALL_CABINET_PROOF / STANDARD_GRAVITY).toBeCloseTo(227, 0);
    expect(convertTo(SHELF_LOAD_CAP, 'lb', 'force')).toBeCloseTo(200, 9);
  });
  it('test loads never fall below the weight itself', () =>
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 500, noNaN: true }), (mass) => {
        expect(mountProofMass(mass)).toBeGreaterThanOrEqual(4 * mass - 1e-9);
        expect(mountTestForce(mass)).toBeGreaterThan(mass * STANDARD_GRAVITY);
      }),
    ));
  it('tips where the line of the two forces passes the front edge', () => {
    const F = tippingPull(40, 300, 1500);
    expect(F * 1500).toBeCloseTo(40 * STANDARD_GRAVITY * 150, 9);
  });
});

describe('screws', () => {
  it('at an angle hold between pure shear and pure pull', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 1e4, noNaN: true }),
        fc.double({ min: 10, max: 1e4, noNaN: true }),
        fc.double({ min: 0, max: 90, noNaN: true }),
        (W, Z, α) => {
          const R = combinedResistance(W, Z, α);
          expect(R).toBeGreaterThanOrEqual(Math.min(W, Z) * (1 - 1e-12));
          expect(R).toBeLessThanOrEqual(Math.max(W, Z) * (1 + 1e-12));
        },
      ),
    ));
  it('a lag pulls out harder from denser wood and in a thicker size', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 0.8, noNaN: true }),
        fc.double({ min: 6, max: 25, noNaN: true }),
        (G, D) => {
          expect(lagWithdrawal(G * 1.1, D) / lagWithdrawal(G, D)).toBeCloseTo(1.1 ** 1.5, 9);
          expect(lagWithdrawal(G, D * 2) / lagWithdrawal(G, D)).toBeCloseTo(2 ** 0.75, 9);
        },
      ),
    ));
  it('between two sheets never hold more than their bearing, nor jump between the ranges', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.4, max: 3, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        (t1, ratio) => {
          const head = { thickness: t1, ultimate: 310 };
          const at = (r: number) => screwShearSteel(head, { thickness: t1 * r, ultimate: 310 }, 4.8);
          expect(at(ratio)).toBeLessThanOrEqual(2.7 * t1 * Math.min(1, ratio) * 4.8 * 310 * (1 + 1e-12));
          expect(at(1 + 1e-9) / at(1)).toBeCloseTo(1, 6);
          expect(at(2.5 + 1e-9) / at(2.5)).toBeCloseTo(1, 6);
          expect(pulloutSteel(2 * t1, 4.8, 310)).toBeCloseTo(2 * pulloutSteel(t1, 4.8, 310), 9);
        },
      ),
    ));
});

describe('shear of a nail by its yield modes', () => {
  const nail = { fastener: 'nail', diameter: inch(0.162), mainGravity: 0.5, side: { gravity: 0.5 } } as const;
  const thick = { ...nail, sideThickness: inch(1.5), penetration: inch(2) };

  it('a thick side and deep nail yield in mode IV; a thin side in I_s or III_s', () => {
    expect(lateralValue(thick).mode).toBe('IV');
    expect(['Is', 'IIIs']).toContain(lateralValue({ ...thick, sideThickness: inch(0.25) }).mode);
  });
  /**
   * A second route to the modes: statics of a stiff, perfectly plastic dowel in perfectly plastic wood, solved by numbers.
   * Free body of each member with its bearing length or plastic hinge; the modes' own closed forms are not used.
   */
  it('agrees with plastic statics solved by numbers', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.double({ min: 0.35, max: 0.7, noNaN: true }),
        fc.double({ min: 0.35, max: 0.7, noNaN: true }),
        fc.constantFrom(0, 0.1, 0.5, 1.25),
        (ls, lm, Gm, Gs, gap) => {
          const D = 0.162; // in
          const [qm, qs] = [16600 * Gm ** 1.84 * D, 16600 * Gs ** 1.84 * D]; // lb/in
          const M = (90_000 * D ** 3) / 6; // plastic moment, in·lb
          // moment about the shear plane of a member that carries V: rotating bearing (no hinge) or hinged
          const rotating = (q: number, l: number, V: number) => {
            // bears forward over x next to the plane, backward over the rest: q x − q (l − x) = V
            const x = (V / q + l) / 2;
            return q * (l - x) * (x + (l - x) / 2) - (q * x ** 2) / 2;
          };
          const hinged = (q: number, V: number) => M - V ** 2 / (2 * q);
          const root = (f: (V: number) => number, most: number) => {
            let [low, high] = [0, most];
            if (f(low) < 0 || f(high) > 0) return undefined;
            for (let i = 0; i < 80; i++) {
              const V = (low + high) / 2;
              if (f(V) > 0) low = V;
              else high = V;
            }
            return (low + high) / 2;
          };
          const top = Math.min(qm * lm, qs * ls);
          const expected = {
            Im: qm * lm,
            Is: qs * ls,
            // over a gap V has an arm as well
            II: root((V) => rotating(qm, lm, V) + rotating(qs, ls, V) - V * gap, top),
            IIIm: root((V) => rotating(qm, lm, V) + hinged(qs, V) - V * gap, qm * lm),
            IIIs: root((V) => rotating(qs, ls, V) + hinged(qm, V) - V * gap, qs * ls),
            IV: root((V) => hinged(qm, V) + hinged(qs, V) - V * gap, 1e9),
          };
          const { modes } = lateralValue({
            ...nail,
            sideThickness: inch(ls),
            penetration: inch(lm),
            mainGravity: Gm,
            side: { gravity: Gs },
            gap: inch(gap),
          });
          for (const mode of YIELD_MODES) {
            const want = expected[mode];
            // the code divides by 2.2 at this diameter; a mode that statics rules out is never the least
            if (want !== undefined) expect(modes[mode] / convert(want / 2.2, 'lbf', 'force'), mode).toBeCloseTo(1, 6);
          }
        },
      ),
      { numRuns: 200 },
    ));
  it('refuses a nail that hardly reaches the framing, and takes one of six to ten diameters down', () => {
    expect(() => lateralValue({ ...thick, penetration: inch(0.9) })).toThrow(RangeError);
    const short = lateralValue({ ...thick, penetration: inch(1.3) }).value;
    expect(short).toBeLessThan(lateralValue(thick).value);
  });
});
