import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cured, noteOn, notesOf, read, roomOf } from '../strength/plan.testing.ts';

interface Standing {
  readonly from: number;
  readonly width: number;
  readonly more?: string;
}
const caseOf = ({ from, width, more = '' }: Standing, i: number): string =>
  `      - {case: c${i}, wall: north, from: ${from}, size: {width: ${width}, height: 900, depth: 300}${more}}`;
const withCases = (...cases: readonly Standing[]) => read(roomOf(cases.map(caseOf).join('\n')));
const of = (...cases: readonly Standing[]) => noteOn(notesOf(withCases(...cases).plan), 'wall-to-wall:');

describe('cases on a wall of 4000 mm between two others', () => {
  it('that are as wide as it are told, and fillers at both ends settle it with one press', () => {
    const { plan, plain } = withCases({ from: 0, width: 2000 }, { from: 2000, width: 2000 });
    const note = noteOn(notesOf(plan), 'wall-to-wall:')!;
    expect(note).toMatchObject({ about: 'c0', verdict: 'caution', working: { result: { value: 0, unit: 'mm' } } });
    expect(note.title).toBe('c0 to c1 fill the north wall from corner to corner, with nothing to spare');
    expect(note.cure!.title).toBe('Put a filler of 25 mm at both ends');
    expect(noteOn(cured(plain, note), 'wall-to-wall:')).toBeUndefined();
  });

  it('one alone gets both fillers', () => {
    const { plan, plain } = withCases({ from: 4, width: 3992 });
    const note = noteOn(notesOf(plan), 'wall-to-wall:')!;
    expect(note.title).toBe('c0 fills the north wall from corner to corner, with only 8 mm to spare');
    expect(noteOn(cured(plain, note), 'wall-to-wall:')).toBeUndefined();
  });

  it('whose bays have widths of their own are not made narrower', () => {
    const more = ', inside: {columns: [{width: 1*, columns: [{width: 1928}]}, {width: 1000}, {width: 1000}]}';
    expect(of({ from: 0, width: 4000, more })).not.toHaveProperty('cure');
  });

  it('are told by what is free among them all, and only then', () =>
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 4, maxLength: 4 }),
        fc.constantFrom(0, 0, 30),
        (gaps, filler) => {
          const free = gaps.reduce((sum, gap) => sum + gap, 0);
          const width = (4000 - free) / 3;
          const cases = [0, 1, 2].map((i) => ({
            from: gaps.slice(0, i + 1).reduce((sum, gap) => sum + gap, 0) + i * width,
            width,
            ...(i === 2 && filler > 0 && { more: `, fillers: {right: ${filler}}` }),
          }));
          const note = of(...cases);
          expect(note !== undefined).toBe(free + filler < 10);
          if (note) expect((note.working as { result: { value: number } }).result.value).toBeCloseTo(free, 2);
        },
      ),
      { numRuns: 60 },
    ));

  it('that reach past its end are told as that, and as nothing else', () => {
    expect(of({ from: 0, width: 2000 }, { from: 2000, width: 2005 })).toBeUndefined();
  });

  it('one above the other do not fill it together', () => {
    const above = { from: 2000, width: 2000, more: ', above: 1200' };
    expect(of({ from: 0, width: 2000 }, above)).toBeUndefined();
  });
});

it('a corner that points into the room stops nothing', () => {
  const walls = [
    ['north', 2000, 270],
    ['nook', 1000, 90],
    ['far', 2000, 90],
    ['east', 3000, 90],
    ['south', 4000, 90],
    ['west', 2000, 90],
  ] as const;
  const told = (wall: string, width: number) =>
    noteOn(
      notesOf(
        read(
          roomOf(`      - {case: c, wall: ${wall}, from: 0, size: {width: ${width}, height: 900, depth: 300}}`).replace(
            /walls:\n( {4}- .*\n)+/,
            `walls: [${walls.map(([id, length, corner]) => `{id: ${id}, length: ${length}, corner: ${corner}}`).join(', ')}]\n`,
          ),
        ).plan,
      ),
      'wall-to-wall:',
    );
  expect(told('north', 2000)).toBeUndefined();
  expect(told('nook', 1000)).toBeUndefined();
  expect(told('far', 2000)).toBeDefined();
});
