import fc from 'fast-check';
import { expect, it } from 'vitest';
import { catchAt, equalSpacing } from './snap.ts';

const place = fc.double({ min: 0, max: 4000, noNaN: true });

it('catches nothing out of reach, and otherwise lands exactly on the nearest target', () => {
  fc.assert(
    fc.property(
      place,
      fc.array(place, { maxLength: 8 }),
      fc.double({ min: 0.1, max: 100, noNaN: true }),
      (start, ats, reach) => {
        const targets = ats.map((at) => ({ at, what: `${at}` }));
        const caught = catchAt({ start, end: start + 300 }, targets, reach);
        const distances = ats.flatMap((at) => [Math.abs(at - start), Math.abs(at - start - 300)]);
        const least = Math.min(Infinity, ...distances);
        if (!caught) {
          expect(least).toBeGreaterThan(reach);
          return;
        }
        expect(Math.abs(caught.by)).toBeCloseTo(least, 5);
        const landed = start + caught.by;
        expect(Math.min(Math.abs(landed - caught.at), Math.abs(landed + 300 - caught.at))).toBeLessThan(1e-6);
      },
    ),
  );
});

it('catches only the middle on what is a middle', () => {
  const targets = [{ at: 100, what: 'middle of the wall', middle: true }];
  expect(catchAt({ start: 100, end: 300, middle: 200 }, targets, 10)).toBeUndefined();
  expect(catchAt({ start: 5, end: 205, middle: 105 }, targets, 10)?.by).toBeCloseTo(-5);
});

it('finds the place that leaves equal spaces', () => {
  const others = [
    { start: 0, end: 500, name: 'a' },
    { start: 700, end: 1200, name: 'b' },
  ];
  const starts = equalSpacing(300, others, [0, 3000]).map((t) => t.at);
  expect(starts).toContain(1400); // 200 after b, as between a and b
  expect(starts).toContain(1200 + (1800 - 300) / 2); // amid what is left of the wall
});
