import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noteOn, notesOf, read, roomOf, sceneIn } from '../plan.testing.ts';
import { fixings } from './held.ts';

interface Hung {
  readonly centre: number;
  readonly plate: number;
  readonly pattern?: number;
  readonly count?: number;
  readonly first?: number;
}
const hung = ({ centre, plate, pattern, count, first = 200 }: Hung) =>
  read(
    roomOf(
      `      - {display: d, wall: north, centre: ${centre}, above: 900, size: {width: 1000, height: 600, depth: 60}, mass: 20 kg, mount: {kind: fixed, ${pattern === undefined ? '' : `holes: {width: ${pattern}, height: 200}, `}plate: {width: ${plate}, height: 300}}${count === undefined ? '' : `, fix: {kind: lag screw, count: ${count}}`}}`,
      { framing: `{kind: timber stud, spacing: 400, first: ${first}, board: 12.5}` },
    ),
  ).plan;
const heldIn = (given: Hung) => {
  const scene = sceneIn(hung(given));
  const [held] = fixings({ ...scene, massOf: () => 0 }).pieces;
  return { ...held!, landed: held!.points.filter((p) => p.lands === 'stud').length };
};

describe('a display plate that may sit beside the middle', () => {
  it('slides to the second stud and says so', () => {
    // slots reach from 1460 to 1880 behind the middle: the stud at 1800 alone; 60 to the left they reach 1400 too
    const given = { centre: 1670, plate: 440, pattern: 200 };
    const held = heldIn(given);
    expect(held.shift).toBeCloseTo(-60, 9);
    expect([...new Set(held.points.map((p) => Math.round(p.x)))]).toEqual([1400, 1800]);
    expect(held.landed).toBe(4);
    expect(noteOn(notesOf(hung(given)), 'fixing:d')!.advice).toContain(
      "sits 60 mm to the left of the display's centre: there 4 of its 4 fixings land",
    );
  });

  it('stays in the middle where sliding gains nothing, and where nobody knows how far it may slide', () => {
    expect(heldIn({ centre: 1600, plate: 440, pattern: 200 }).shift).toBeUndefined();
    expect(heldIn({ centre: 1670, plate: 440 }).shift).toBeUndefined();
    // rails 340 apart leave (440 − 340)/2 − 20 = 30 each way: not enough
    expect(heldIn({ centre: 1670, plate: 440, pattern: 340 }).shift).toBeUndefined();
  });

  it('two holes in the middle of the plate are put on a stud, unless it stands too far beside the weight', () => {
    expect(heldIn({ centre: 1710, plate: 700, count: 2 })).toMatchObject({ landed: 0 });
    const held = heldIn({ centre: 1710, plate: 700, pattern: 50, count: 2 });
    expect(held).toMatchObject({ landed: 2 });
    expect(held.shift).toBeCloseTo(90, 9);
    expect(heldIn({ centre: 1600, plate: 700, pattern: 50, count: 2 }).shift).toBeUndefined();
  });

  it('law: never worse than in the middle, never off its rails, and no shift tried by the millimetre reaches more studs', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 900, max: 3000 }),
        fc.integer({ min: 300, max: 900 }),
        fc.integer({ min: 50, max: 400 }),
        fc.integer({ min: 50, max: 390 }),
        (centre, plate, pattern, first) => {
          const [free, middle] = [heldIn({ centre, plate, pattern, first }), heldIn({ centre, plate, first })];
          expect(free.landed).toBeGreaterThanOrEqual(middle.landed);
          expect(free.use!).toBeLessThanOrEqual(middle.use!);
          const shift = free.shift ?? 0;
          const limit = Math.max(0, (plate - pattern) / 2 - 20);
          expect(Math.abs(shift)).toBeLessThanOrEqual(limit);
          for (const { x } of free.points)
            expect(Math.abs(x - centre - shift)).toBeLessThanOrEqual(plate / 2 - 10 + 1e-6);
          // by hand: a shift whose slots reach a stud on either side of the centre of gravity
          const reaches = (s: number) => {
            const studs = Array.from({ length: 12 }, (_, i) => first + 400 * i).filter(
              (x) => x < 3950 && Math.abs(x - centre - s) <= plate / 2 - 10,
            );
            return studs.some((x) => x <= centre) && studs.some((x) => x >= centre) && studs.length >= 2;
          };
          for (let s = -Math.floor(limit); s <= limit; s++) if (reaches(s)) expect(free.landed).toBe(4);
        },
      ),
      { numRuns: 40 },
    ));
});
