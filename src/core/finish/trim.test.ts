import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mitreFront, mitreSaw, trimJoints } from './trim.ts';

const corner = fc.option(fc.constantFrom(45, 60, 90, 120, 135, 180, 225, 270, 300), { nil: undefined });
const run = fc
  .record({ length: fc.integer({ min: 100, max: 9000 }), start: corner, end: corner })
  .map(({ length, start, end }) => ({
    id: 'r',
    length,
    ...(start !== undefined && { start }),
    ...(end !== undefined && { end }),
  }));

describe('mouldings round a room', () => {
  it('cover the wall exactly, and no piece is longer than it may be', () =>
    fc.assert(
      fc.property(
        fc.array(run, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 600, max: 5000 }),
        (runs, longest) => {
          const pieces = trimJoints(runs, { thickness: 18, longest });
          expect(pieces.reduce((sum, p) => sum + p.wall, 0)).toBeCloseTo(
            runs.reduce((sum, r) => sum + r.length, 0),
            6,
          );
          for (const p of pieces) {
            expect(p.length).toBeLessThanOrEqual(longest + 1e-6);
            expect(p.length).toBeGreaterThanOrEqual(p.wall - 1e-9);
          }
        },
      ),
    ));
  it('takes as few pieces as the lengths allow', () =>
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 20000 }), fc.integer({ min: 600, max: 5000 }), (length, longest) => {
        const pieces = trimJoints([{ id: 'r', length }], { thickness: 18, longest });
        const n = pieces.length;
        // one piece fewer, each but the last with its scarf, would not reach
        if (n > 1) expect(length).toBeGreaterThan((n - 2) * (longest - 18) + longest);
      }),
    ));
  it('of whole lengths, and none too short to be worth a joint', () =>
    fc.assert(
      fc.property(run, fc.integer({ min: 700, max: 5000 }), (one, longest) => {
        const pieces = trimJoints([one], { thickness: 18, longest });
        if (pieces.length === 1) return;
        for (const { length } of pieces.slice(0, -2)) expect(length).toBeCloseTo(longest, 6);
        for (const { wall } of pieces) expect(wall).toBeGreaterThanOrEqual(300 - 1e-6);
        let at = 0;
        for (const piece of pieces) {
          expect(piece.at).toBeCloseTo(at, 6);
          at += piece.wall;
        }
      }),
    ));
  it('two walls of 3580 take three boards of 2400: a whole one each, and their rests off one', () => {
    const pieces = trimJoints(
      [
        { id: 'a', length: 3580, start: 90, end: 90 },
        { id: 'b', length: 3580, start: 90, end: 90 },
      ],
      { thickness: 15, longest: 2400 },
    );
    // 2400 with its scarf of 15 covers 2385; 1195 are left of each wall, and two of those come off one board with a cut of 3
    expect(pieces.map(({ run: id, length }) => [id, length])).toEqual([
      ['a', 2400],
      ['a', 1195],
      ['b', 2400],
      ['b', 1195],
    ]);
  });
  it('a plain room of four inside corners: each piece is as long as its wall', () => {
    const walls = [4000, 3000, 4000, 3000].map((length, i) => ({ id: `w${i}`, length, start: 90, end: 90 }));
    for (const p of trimJoints(walls, { thickness: 18, longest: 4800 })) {
      expect(p.length).toBe(p.wall);
      expect(p.start).toEqual({ cut: 'mitre', corner: 'inside', saw: 45 });
    }
  });
  it('a chimney breast: the piece on its face is two thicknesses longer than the face', () => {
    const [face] = trimJoints([{ id: 'face', length: 1400, start: 270, end: 270 }], { thickness: 18, longest: 2400 });
    expect(face!.length).toBeCloseTo(1436, 9);
    expect(face!.start).toEqual({ cut: 'mitre', corner: 'outside', saw: 45 });
  });
  it('meets in the corner: the front edges of two mitred pieces end in the same point', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 330, noNaN: true }),
        fc.double({ min: 5, max: 40, noNaN: true }),
        (θ, t) => {
          // wall 1 runs along −x into the corner at the origin, wall 2 leaves it at the room angle θ; the room lies between them
          const turn = ((180 - θ) * Math.PI) / 180;
          const extra = mitreFront(θ, t);
          const front1 = { x: extra, y: t };
          const along = { x: Math.cos(turn), y: Math.sin(turn) };
          const out = { x: -Math.sin(turn), y: Math.cos(turn) };
          const front2 = { x: -extra * along.x + t * out.x, y: -extra * along.y + t * out.y };
          expect(front1.x).toBeCloseTo(front2.x, 6);
          expect(front1.y).toBeCloseTo(front2.y, 6);
          expect(mitreSaw(θ)).toBeCloseTo((Math.atan(Math.abs(extra) / t) * 180) / Math.PI, 9);
        },
      ),
    ));
  it.each([
    [
      { id: 'x', length: 0 },
      { thickness: 18, longest: 2400 },
    ],
    [
      { id: 'x', length: 10, start: 360 },
      { thickness: 18, longest: 2400 },
    ],
    [
      { id: 'x', length: 10 },
      { thickness: 0, longest: 2400 },
    ],
    [
      { id: 'x', length: 5000 },
      { thickness: 18, longest: 18 },
    ],
  ])('refuses %j', (wrong, options) => expect(() => trimJoints([wrong], options)).toThrow(RangeError));
});
