import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveBeam } from './beam.testing.ts';
import { curedPlan, noteOn, notesOf, read, roomOf } from './plan.testing.ts';
import { asUniform } from './stood-on/weighed.ts';

const notesIn = (pieces: readonly string[]) => {
  const { plan, plain } = read(roomOf(pieces.map((p) => `      - ${p}`).join('\n')));
  return { plain, notes: notesOf(plan) };
};
const said = (pieces: readonly string[], id: string) => notesIn(pieces).notes.find((n) => n.id === `stood-on:${id}`);

const shelf = (load?: number) =>
  `{shelf: s, wall: north, from: 100, above: 1400, size: {width: 1200, height: 60, depth: 200}, skin: thin${load === undefined ? '' : `, load: ${load / 10} kg`}}`;
const size = 'size: {width: 100, height: 80, depth: 150}';
/** 18 thick with a back of 6 in a rabbet; the top of the fixed shelf in its middle is 459 above the floor. */
const CASE = 'size: {width: 900, height: 900, depth: 300}, inside: {fixed: 1}';

/** Tenths of a kilogram: their sums are exact. */
const mass = fc.integer({ min: 1, max: 300 });

describe('law: told exactly where more stands on it than it is reckoned with', () => {
  it('a floating shelf with a load, things beside and upon each other; what hangs and what stands below it is not on it', () =>
    fc.assert(
      fc.property(
        fc.array(fc.record({ kg: mass, upon: fc.option(mass, { nil: undefined }) }), { minLength: 1, maxLength: 6 }),
        // often just what stands on it, or the next more or less
        fc.oneof(fc.integer({ min: 1, max: 1500 }), fc.constantFrom('-1', '0', '1')),
        fc.boolean(),
        (things, asked, byName) => {
          const sum = things.reduce((total, { kg, upon = 0 }) => total + kg + upon, 0);
          const load = Math.max(1, typeof asked === 'string' ? sum + Number(asked) : asked);
          const pieces = [
            shelf(load),
            ...things.flatMap(({ kg, upon }, i) => [
              `{thing: t${i}, wall: north, from: ${150 + 150 * i}, ${byName ? 'on: s' : 'above: 1460'}, ${size}, mass: ${kg / 10} kg}`,
              ...(upon === undefined ? [] : [`{thing: u${i}, on: t${i}, ${size}, mass: ${upon / 10} kg}`]),
            ]),
            `{thing: picture, wall: north, from: 300, above: 1800, ${size}, mass: 50 kg}`,
            `{thing: mirror, wall: north, from: 20, above: 1460, ${size}, mass: 50 kg}`,
            `{thing: chest, wall: north, from: 300, ${size}, mass: 80 kg}`,
          ];
          const note = said(pieces, 's');
          expect(note !== undefined).toBe(sum > load);
          if (note) expect(note.working!.result.value).toBeCloseTo(sum / 10, 9);
        },
      ),
      { numRuns: 40 },
    ));

  it('a shelf of a case: what its design load comes to', () =>
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 5 }),
        fc.constantFrom('books', 'gear', 'light things'),
        (kgs, carries) => {
          const note = said(
            [
              `{case: k, wall: north, from: 0, carries: ${carries}, ${CASE}}`,
              ...kgs.map(
                (kg, i) => `{thing: t${i}, wall: north, from: ${50 + 150 * i}, above: 480, ${size}, mass: ${kg} kg}`,
              ),
            ],
            'k/bay-1/fixed-shelf-1',
          );
          // psf by AWS 1.2.21 and KCMA; 864 clear, 294 − 6 deep
          const load = ({ books: 50, gear: 40, 'light things': 15 }[carries]! * 47.88026 * 0.864 * 0.288) / 9.80665;
          expect(note !== undefined).toBe(kgs.reduce((a, b) => a + b, 0) > load);
        },
      ),
      { numRuns: 40 },
    ));
});

describe('what stands on a shelf', () => {
  it('by hand: 15 + 8 kg on a shelf for 20; raised to 23, nothing is left to say', () => {
    const pieces = [
      shelf(200),
      `{thing: amp, on: s, ${size}, mass: 15 kg}`,
      `{thing: books, on: amp, ${size}, mass: 8 kg}`,
    ];
    const { notes, plain } = notesIn(pieces);
    const note = noteOn(notes, 'stood-on:s')!;
    expect(note).toMatchObject({
      verdict: 'stop',
      title: '23 kg stands on s, which is reckoned with 20 kg',
      cure: { title: 'Raise its load to 23 kg' },
    });
    expect(note.advice).toContain('amp 15 kg; books 8 kg');
    const { plan } = curedPlan(plain, note);
    expect(noteOn(notesOf(plan), 'stood-on:s')).toBeUndefined();
    expect(noteOn(notesOf(plan), 'rods:s')!.advice).toContain('Checked with 23 kg on it');
  });

  it('in pounds, a whole number that is enough', () => {
    const { plan } = read(
      roomOf([shelf(200), `{thing: amp, on: s, ${size}, mass: 50.2 lb}`].map((p) => `      - ${p}`).join('\n'))
        .replace('length: mm', 'length: in')
        .replaceAll(/(?<=[:,] ?|\[)(\d+)(?=[,}\n])/g, '$1 mm')
        .replace('setwright: 1 mm', 'setwright: 1'),
    );
    expect(noteOn(notesOf(plan), 'stood-on:s')!.cure!.title).toBe('Raise its load to 51 lb');
  });

  // AWS 1.2.21: 40 psf are 1915.2 N/m²; 1200 × 200 carry 459.65 N, 46.87 kg
  it.each([
    [46.8, false],
    [46.9, true],
  ])('without a load in the plan: %f kg on what open casework is designed for', (kg, told) =>
    expect(said([shelf(), `{thing: amp, on: s, ${size}, mass: ${kg} kg}`], 's') !== undefined).toBe(told),
  );

  it('a plank across two shelves is shared by how much of it lies on each', () => {
    const two = (name: string, from: number, load: number) =>
      `{shelf: ${name}, wall: north, from: ${from}, above: 1400, size: {width: 800, height: 60, depth: 200}, skin: thin, load: ${load} kg}`;
    const on = (load: number) =>
      said(
        [
          two('a', 100, load),
          two('b', 1000, 100),
          '{thing: plank, wall: north, from: 600, above: 1460, size: {width: 700, height: 30, depth: 200}, mass: 30 kg}',
        ],
        'a',
      );
    // 300 of it on each
    expect(on(15)).toBeUndefined();
    expect(on(14.9)!.working!.result.value).toBeCloseTo(15, 9);
  });

  it('a thing of unknown mass is told, and not held to be nothing', () =>
    expect(said([shelf(200), `{thing: amp, on: s, ${size}}`], 's')).toMatchObject({
      verdict: 'caution',
      title: expect.stringContaining('amp on it has no mass'),
    }));

  it('a case that hangs: on its top and in it, against what its screws are reckoned with', () => {
    const hung = (kg: number | undefined, above = 1200) =>
      said(
        [
          `{case: h, wall: north, from: 2400, above: ${above}, size: {width: 600, height: 800, depth: 300}, inside: {fixed: 1}}`,
          `{thing: box, on: h, ${size}${kg === undefined ? '' : `, mass: ${kg} kg`}}`,
        ],
        'h',
      );
    // two levels of 600 × 300 by 40 psf: 2 × 344.74 N, 70.31 kg
    expect(hung(70.3)).toBeUndefined();
    expect(hung(70.4)).toMatchObject({ verdict: 'stop' });
    expect(hung(200, 0)).toBeUndefined();
    expect(hung(undefined)).toMatchObject({
      verdict: 'caution',
      title: expect.stringContaining('box on it has no mass'),
    });
    expect(hung(undefined, 0)).toBeUndefined();
  });

  it('a shelf on uprights: each of its runs by itself', () => {
    const notes = notesIn([
      '{case: k, wall: north, from: 0, size: {width: 900, height: 900, depth: 300}, inside: {rows: [{open: true}, {columns: [{open: true}, {open: true}]}]}}',
      `{thing: left, wall: north, from: 100, above: 480, ${size}, mass: 40 kg}`,
      `{thing: right, wall: north, from: 600, above: 480, ${size}, mass: 20 kg}`,
    ]).notes.filter(({ id }) => id.startsWith('stood-on:'));
    // 423 clear by 288 of depth: 23.8 kg each
    expect(notes.map(({ id }) => id)).toEqual([expect.stringMatching(/^stood-on:k\/.*\/1$/)]);
  });
});

describe('law: what stands on a board bends its middle like the evenly spread load it is put as', () => {
  const share = fc.integer({ min: 0, max: 40 });
  const anyStood = fc
    .record({ a: share, b: share, mass: fc.integer({ min: 1, max: 90 }) })
    .filter(({ a, b }) => a !== b)
    .map(({ a, b, mass }) => ({ name: 't', mass, from: 100 + 25 * Math.min(a, b), to: 100 + 25 * Math.max(a, b) }));
  it('by the stiffness method, of any number of things wherever they stand', () =>
    fc.assert(
      fc.property(fc.array(anyStood, { minLength: 1, maxLength: 4 }), (stood) => {
        // 40 elements of 25 over the run from 100 to 1100
        const middleUnder = (uniform: readonly number[]): number =>
          solveBeam({
            x: Array.from({ length: 41 }, (_, i) => 25 * i),
            stiffness: 1e9,
            uniform,
            point: Array.from({ length: 41 }, () => 0),
            held: Array.from({ length: 41 }, (_, i) => ({ down: i === 0 || i === 40 })),
          }).down[20]!;
        const loads = Array.from({ length: 40 }, (_, e) =>
          stood.reduce((sum, { mass, from, to }) => {
            const at = 100 + 25 * e;
            return sum + (at >= from && at < to ? mass / (to - from) : 0);
          }, 0),
        );
        const put = asUniform(stood, { from: 100, to: 1100 });
        const even = Array.from({ length: 40 }, () => put / 1000);
        expect(middleUnder(even) / middleUnder(loads)).toBeCloseTo(1, 6);
      }),
    ));
  // AISC Manual table 3-23: WL³/48EI over 5WL³/384EI
  it('all of it in the middle: 1.6 times as far', () =>
    expect(asUniform([{ name: 't', mass: 10, from: 499.99, to: 500.01 }], { from: 0, to: 1000 }) / 10).toBeCloseTo(
      1.6,
      6,
    ));
  it('half of it on the end of the run bends nothing', () =>
    expect(asUniform([{ name: 't', mass: 10, from: -100, to: 100 }], { from: 0, to: 1000 })).toBeCloseTo(
      asUniform([{ name: 't', mass: 5, from: 0, to: 100 }], { from: 0, to: 1000 }),
      9,
    ));
});

describe('on the top of a case that stands', () => {
  // 18 thick, 1564 clear, 394 wide; birch plywood bends by 5WL³/384EI; let alone what creeps, L/144 is 10.86
  const top = (kg: number, inside: string, more = '') =>
    notesIn([
      `{case: k, wall: north, from: 100, size: {width: 1600, height: 800, depth: 400}${inside}${more}}`,
      `{thing: tv, on: k, from: 700, size: {width: 400, height: 500, depth: 200}, mass: ${kg} kg}`,
    ]).notes.filter(({ id }) => id.startsWith('stood-on:k/'));
  it('what bends it too far is told, with the sag of where it stands; an upright under it bears it', () => {
    const [note, ...others] = top(60, '');
    expect(others).toEqual([]);
    expect(note).toMatchObject({ verdict: 'stop', id: 'stood-on:k/top', about: 'k/top' });
    const { inputs, result, limit } = note!.working!;
    const of = (symbol: string) => inputs.find((i) => i.symbol === symbol)!.value as number;
    const W = of('m') * 9.80665;
    // 400 of 1564 in its middle, by ∫ x(3L² − 4x²): 1.55102 of the same spread over all of it
    expect(of('m')).toBeCloseTo(60 * 1.55102, 2);
    expect(result.value).toBeCloseTo((5 * W * 1564 ** 3) / (384 * of('E') * ((of('b') * 18 ** 3) / 12)), 6);
    expect(limit!.value).toBeCloseTo(1564 / 144, 9);
    expect(top(60, ', inside: {columns: [{open: true}, {open: true}]}')).toEqual([]);
    expect(top(2, '')).toEqual([]);
  });
  it('a separate top bends with it: the stiffer of the two bears it', () => {
    expect(top(60, '', ', top: {stock: thin, front: 10}')[0]!.working!.result).toEqual(top(60, '')[0]!.working!.result);
  });
  it('between uprights, each run by itself', () => {
    const notes = top(180, ', inside: {columns: [{width: 250, open: true}, {open: true}]}');
    expect(notes.map(({ id }) => id)).toEqual(['stood-on:k/top/2']);
  });
});

describe('what carries the ends of a shelf of a case', () => {
  const fine = (inside: string, joint = 'dado') => {
    const { plan } = read(
      roomOf(
        `      - {case: k, wall: north, from: 0, size: {width: 600, height: 900, depth: 300}, make: {joint: ${joint}}, inside: ${inside}}`,
      ),
    );
    return noteOn(notesOf(plan), 'shelf-sag:k')!.advice;
  };
  it('the pins: a quarter of the design load each, which their maker rates', () => {
    // AWS 1.2.21: 40 psf over 561 × 294 between sides let nothing of it in: 1915.2 × 0.561 × 0.288 N are 31.55 kg
    expect(fine('{shelves: 1}')).toMatch(/Each of its 4 pins bears 7\.9 kg.*EN 16337.*A156\.9, grade 1/);
  });
  it('let into the sides', () => expect(fine('{fixed: 1}')).toContain('Its ends are let into what carries them.'));
  it('screwed: not checked, and said so', () =>
    expect(fine('{fixed: 1}', 'butt')).toMatch(
      /glue and screws into its edge with \d+(\.\d)? kg, which is not checked/,
    ));
});

it('less than the design load in the middle of a shelf is told where it bends too far', () => {
  const on = (where: string, kg: number) =>
    said(
      [
        '{case: k, wall: north, from: 0, size: {width: 1000, height: 900, depth: 300}, inside: {fixed: 1}}',
        `{thing: t, wall: north, ${where}, above: 480, size: {width: 60, height: 80, depth: 150}, mass: ${kg} kg}`,
      ],
      'k/bay-1/fixed-shelf-1',
    );
  // 964 by 288 at 40 psf are 54.2 kg
  expect(on('from: 470', 50)).toMatchObject({
    verdict: expect.stringMatching('caution|stop'),
    title: expect.stringContaining('near the middle'),
  });
  expect(on('from: 30', 50)).toBeUndefined();
  expect(on('from: 470', 20)).toBeUndefined();
});

describe('a thing in mid-air', () => {
  const told = (thing: string) =>
    noteOn(
      notesIn(['{thing: desk, at: {x: 1000, y: 1000}, size: {width: 1400, height: 740, depth: 700}}', thing]).notes,
      'mid-air:t',
    );

  it('law: is told where it is over neither desk nor floor, wherever it is put, and the cure puts it down', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 2500 }),
        fc.integer({ min: 100, max: 1900 }),
        fc.oneof(fc.integer({ min: 741, max: 1900 }), fc.constantFrom(740, 742)),
        (x, y, above) => {
          const { notes, plain } = notesIn([
            '{thing: desk, at: {x: 1000, y: 1000}, size: {width: 1400, height: 740, depth: 700}}',
            `{thing: t, at: {x: ${x}, y: ${y}}, above: ${above}, ${size}, mass: 2 kg}`,
          ]);
          const note = noteOn(notes, 'mid-air:t');
          // its rear left corner stands at x, y; it is 100 wide and 150 deep
          const over = x > 900 && x < 2400 && y > 850 && y < 1700;
          const inTheMiddle = x > 950 && x < 2350 && y > 925 && y < 1625;
          if (above <= 741 && over && !inTheMiddle) return;
          expect(note !== undefined).toBe(above > (over ? 741 : 100));
          if (!note) return;
          expect(note.title).toContain(over ? `${above - 740} mm above desk` : `${above} mm above the floor`);
          if (inTheMiddle || !over) expect(noteOn(notesOf(curedPlan(plain, note).plan), 'mid-air:t')).toBeUndefined();
        },
      ),
      { numRuns: 60 },
    ));

  it.each([
    ['at a wall it hangs', 'wall: north, from: 500, above: 1200'],
    ['at the ceiling', 'at: {x: 1200, y: 1200}, above: 2300'],
    ['by the house', 'at: {x: 1200, y: 1200}, above: 1200, fixed: true'],
    ['on the desk', 'on: desk'],
    ['in the desk, on a board of that', 'at: {x: 1200, y: 1200}, above: 600'],
    ['on low feet', 'at: {x: 200, y: 200}, above: 100'],
  ])('%s: not told', (_, where) => expect(told(`{thing: t, ${where}, ${size}}`)).toBeUndefined());

  it('on feet higher than any: told', () =>
    expect(told(`{thing: t, at: {x: 200, y: 200}, above: 101, ${size}}`)).toBeDefined());

  it('is told of what it is said to stand on where that is not under it, and is not told to lower it', () => {
    const note = told(`{thing: t, on: desk, from: 1500, ${size}}`)!;
    expect(note.advice).toContain("'desk', which it is said to stand on, is not under it");
    expect(note.cure).toBeUndefined();
  });

  it('sunk into the top of a shelf it is weighed there', () =>
    expect(
      said([shelf(20), `{thing: t, wall: north, from: 500, above: 1450, ${size}, mass: 3 kg}`], 's'),
    ).toBeDefined());
});

it('what is said to stand on one case and stands over another is told, and the plan can be made to say what is so', () =>
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1700 }), fc.constantFrom('k', 'l'), (from, on) => {
      const { plain, notes } = notesIn([
        `{case: k, title: Left case, wall: north, from: 0, ${CASE}}`,
        `{case: l, title: Right case, after: k, ${CASE}}`,
        `{thing: kiln, wall: north, from: ${from}, on: ${on}, ${size}, mass: 20 kg}`,
      ]);
      const note = notes.find((n) => n.id === 'on-another:kiln');
      // it is 100 wide, and each of the two 900
      expect(note !== undefined).toBe(on === 'k' ? from >= 900 : from <= 800);
      if (!note) return;
      expect(note.title).toContain(on === 'k' ? 'on Left case, and stands on Right case' : 'on Right case, and stands');
      expect(noteOn(notesOf(curedPlan(plain, note).plan), 'on-another:kiln')).toBeUndefined();
    }),
    { numRuns: 40 },
  ));
