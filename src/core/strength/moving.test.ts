import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { walksRound } from './moving.testing.ts';
import {
  cornerPass,
  cornerTurn,
  passesDoor,
  rectangleFits,
  standUpHeight,
  tallestToStandUp,
  turnsCorner,
} from './moving.ts';

const size = fc.double({ min: 100, max: 3000, noNaN: true });

describe('round a corner', () => {
  // the walk sees only sampled positions: pieces a tenth shorter must get round, a tenth longer must not
  it.each([
    [900, 900, 200],
    [900, 1200, 300],
    [800, 1000, 50],
    [1000, 1000, 600],
  ])('from %d into %d with a piece %d across, as a walk through sampled positions finds', (a, b, t) => {
    const longest = cornerTurn(a, b, t);
    expect(walksRound(a, b, 0.88 * longest, t)).toBe(true);
    expect(walksRound(a, b, 1.08 * longest, t)).toBe(false);
  });
  it('is the least over all angles', () =>
    fc.assert(
      fc.property(size, size, fc.double({ min: 0, max: 0.95, noNaN: true }), (a, b, share) => {
        const t = share * Math.min(a, b);
        const L = cornerTurn(a, b, t);
        let least = Number.POSITIVE_INFINITY;
        for (let i = 1; i < 4000; i++) {
          const x = (i * Math.PI) / 8000;
          const at = (a * Math.sin(x) + b * Math.cos(x) - t) / (Math.sin(x) * Math.cos(x));
          least = Math.min(least, at);
        }
        expect(L).toBeLessThanOrEqual(Math.max(0, least) + 1e-9);
        expect(L).toBeGreaterThan(Math.max(0, least) * (1 - 1e-5) - 1e-9);
      }),
    ));
  it('does not mind which passage comes first, and grows with either', () =>
    fc.assert(
      fc.property(size, size, fc.double({ min: 0, max: 0.9, noNaN: true }), (a, b, share) => {
        const t = share * Math.min(a, b);
        expect(cornerTurn(a, b, t) / cornerTurn(b, a, t)).toBeCloseTo(1, 9);
        expect(cornerTurn(a * 1.1, b, t)).toBeGreaterThanOrEqual(cornerTurn(a, b, t));
        expect(cornerPass(a, b, t)).toBeGreaterThanOrEqual(Math.max(a, b));
      }),
    ));
  it('a thin strip comes to the rod', () =>
    expect(cornerTurn(900, 1200, 1e-6) / cornerTurn(900, 1200)).toBeCloseTo(1, 8));
  it('a piece as wide as the passage cannot turn, but may go through sideways', () => {
    expect(cornerTurn(900, 1200, 900)).toBe(0);
    expect(cornerPass(900, 1200, 900)).toBe(1200);
    expect(cornerPass(900, 1200, 1300)).toBe(0);
  });
  it('turns the case on whichever side fits under the ceiling', () => {
    const tall = { width: 600, height: 2300, depth: 400 };
    expect(turnsCorner(tall, 900, 900, 2400).passes).toBe(true); // upright, 600 x 400
    expect(turnsCorner(tall, 900, 900, 2000).passes).toBe(false); // lying, 2300 long
    expect(turnsCorner({ width: 3000, height: 3000, depth: 3000 }, 900, 900, 2000).passes).toBe(false);
  });
});

describe('through an opening', () => {
  it('a turned rectangle fits as a sweep of angles finds', () =>
    fc.assert(
      fc.property(size, size, size, size, (p, q, a, b) => {
        let most = Number.NEGATIVE_INFINITY;
        for (let i = 0; i <= 2000; i++) {
          const x = (i * Math.PI) / 4000;
          const [w, h] = [p * Math.cos(x) + q * Math.sin(x), p * Math.sin(x) + q * Math.cos(x)];
          most = Math.max(most, Math.min(a - w, b - h), Math.min(b - w, a - h));
        }
        // within the coarseness of the sweep either answer may stand
        if (Math.abs(most) > 2) expect(rectangleFits(p, q, a, b)).toBe(most > 0);
      }),
    ));
  it('says what is to spare: so much larger it just fits, a little more and it does not', () =>
    fc.assert(
      fc.property(size, size, size, (width, height, depth) => {
        const door = { width: 762, height: 1981 };
        const { spare, leading, passes } = passesDoor({ width, height, depth }, door);
        expect(passes).toBe(spare >= 0);
        const face = { width: [height, depth], height: [width, depth], depth: [width, height] }[leading] as [
          number,
          number,
        ];
        if (spare > 1) {
          expect(rectangleFits(face[0] + spare - 0.01, face[1] + spare - 0.01, 762, 1981)).toBe(true);
          expect(rectangleFits(face[0] + spare + 0.01, face[1] + spare + 0.01, 762, 1981)).toBe(false);
        }
      }),
    ));
  it('an exact fit is a fit', () =>
    expect(passesDoor({ width: 762, height: 1981, depth: 5000 }, { width: 762, height: 1981 })).toMatchObject({
      passes: true,
      leading: 'depth',
    }));
});

it('a case that can just be stood up reaches the ceiling', () =>
  fc.assert(
    fc.property(
      fc.double({ min: 2000, max: 4000, noNaN: true }),
      fc.double({ min: 100, max: 900, noNaN: true }),
      (C, D) => {
        expect(standUpHeight(tallestToStandUp(C, D), D)).toBeCloseTo(C, 8);
        // swung up in steps, its top corner is never higher than the diagonal
        const H = tallestToStandUp(C, D);
        for (let i = 0; i <= 90; i++) {
          const x = (i * Math.PI) / 180;
          expect(H * Math.sin(x) + D * Math.cos(x)).toBeLessThanOrEqual(C + 1e-8);
        }
      },
    ),
  ));
