import { describe, expect, it } from 'vitest';
import { inch } from '../quantity/index.ts';
import { boardSection, corrected, densityOf, fixingLength, fixingThickness, rackNotes, slipNotes } from './items.ts';
import { stockPlan } from './stock.testing.ts';
import { gravityOfWood } from './woods.ts';

it.each<[string, number | undefined]>([
  ['screws 10 × 80', 80],
  ['screws 5 × 60 mm', 60],
  ['#10 × 1-1/2 in', 38.1],
  ['screws #8 × 1-1/4', 31.75],
  ['#8 x 1.25', 31.75],
  ['#8 × 2', 50.8],
  ['#8 × 32', 32],
  ['screws 4.2 × 9.5', 9.5],
  ['brads', undefined],
])('a fixing called %s is %s mm long', (name, length) => {
  expect(fixingLength(name)).toBe(length);
});

// ANSI/ASME B18.6.1, wood screws by number: basic diameters 0.164, 0.190 and 0.216 in
it.each<[string, number | undefined]>([
  ['screws #8 × 1-1/4', 4.1656],
  ['self-drilling screws #10 × 1-1/2 in', 4.826],
  ['#12 x 3 in', 5.4864],
  ['lag screws 1/4 in × 3 in', 6.35],
  ['lag screws 5/16 x 4', 7.9375],
  ['frame plugs 10 × 80 mm with screw', 10],
  ['screws 4.2 × 9.5', 4.2],
  ['brads', undefined],
])('a fixing called %s is %s mm thick', (name, thickness) => {
  const has = fixingThickness(name);
  expect(has === undefined ? has : Number(has.toFixed(6))).toBe(thickness);
});

describe('section of a board', () => {
  // American Softwood Lumber Standard, NIST PS 20, minimum dressed dry sizes: 1x4 is 3/4 × 3-1/2 in, 2x10 is 1-1/2 × 9-1/4 in.
  it.each([
    { nominal: '1x4', thickness: 0.75, width: 3.5 },
    { nominal: '2x10', thickness: 1.5, width: 9.25 },
  ])('of a $nominal is the dressed one', ({ nominal, thickness, width }) => {
    const section = boardSection({ nominal, thickness: undefined, width: undefined })!;
    expect(section.thickness).toBeCloseTo(inch(thickness), 9);
    expect(section.width).toBeCloseTo(inch(width), 9);
    expect(section.from).toBe('nominal');
  });
  it('is what was measured, where something was', () => {
    const measured = { nominal: '1x4', thickness: undefined, width: inch(3.4375) };
    expect(boardSection(measured)).toEqual({ thickness: 19.05, width: 87.3125, from: 'both' });
    expect(boardSection({ nominal: undefined, thickness: inch(1), width: inch(2) })!.from).toBe('given');
    expect(boardSection({ nominal: '9x9', thickness: undefined, width: undefined })).toBeUndefined();
  });
});

describe('density', () => {
  const { stock } = stockPlan({
    stock: {
      panels: [
        { id: 'a', kind: 'birch plywood', thickness: 18 },
        { id: 'b', kind: 'MDF', thickness: 19 },
        { id: 'c', kind: 'straw', thickness: 19 },
        { id: 'd', thickness: 19, density: 432 },
      ],
      boards: [
        { id: 'e', species: 'poplar', nominal: '1x4' },
        { id: 'f', species: 'red oak', nominal: '1x4' },
        { id: 'g', species: 'American red oak', nominal: '1x4' },
        { id: 'h', species: 'soft maple', nominal: '1x4' },
        { id: 'i', species: 'white pine', nominal: '1x4' },
        { id: 'j', species: 'oak', nominal: '1x4' },
      ],
    },
  });
  it.each([
    ['a', { from: 'plywood', near: true }],
    ['b', { from: 'MDF', near: false }],
    ['d', { value: 432, from: 'given', near: false }],
    ['e', { from: 'yellow-poplar', near: true }],
    // the whole of what is said comes before one word of it
    ['f', { from: 'northern red oak', near: true }],
    ['g', { from: 'northern red oak', near: true }],
    ['h', { from: 'red maple', near: true }],
    ['i', { from: 'eastern white pine', near: true }],
    ['j', { from: 'white oak', near: true }],
  ] as const)('of %s', (id, expected) => {
    expect(densityOf(stock, id)).toMatchObject(expected);
  });
  it('is not guessed', () => {
    expect(densityOf(stock, 'c')).toBeUndefined();
    expect(densityOf(stock, 'nowhere')).toBeUndefined();
  });
});

describe('what a material is called', () => {
  it.each([
    ['birch plywod', 'birch plywood'],
    ['chipbaord', 'chipboard'],
    ['red mapel', 'red maple'],
    // woods, and words of the trade, that only look like a slip of another
    ...['larch', 'sapele', 'beech', 'birch plywood', 'fire retardant plywood', 'whitewood', 'blockboard', 'teak'].map(
      (words) => [words, undefined] as const,
    ),
  ] as const)('%s: %s is meant', (words, meant) => {
    expect(corrected(words)).toBe(meant);
  });

  it('is told with what it is taken for, and put right by one edit; of what nothing is cut from nothing is told', () => {
    const { stock } = stockPlan({
      stock: {
        panels: [
          { id: 'a', kind: 'MDF', thickness: 18 },
          { id: 'b', kind: 'birch plywod', thickness: 6 },
        ],
        boards: [{ id: 'c', species: 'white birhc', thickness: 20, width: 90 }],
      },
    });
    expect(slipNotes(stock, ['a', 'b', 'b']).map(({ id, cure }) => [id, cure?.edits])).toEqual([
      ['slip:b', [{ op: 'set', path: ['stock', 'panels', 1, 'kind'], value: 'birch plywood' }]],
    ]);
    expect(slipNotes(stock, ['c'])[0]!.title).toBe(
      "The species of c is 'white birhc', which is taken for 'white birch'",
    );
    // plywood, and no solid birch
    expect(densityOf(stock, 'b')!.from).toBe('plywood');
  });

  // NDS-2018, table 12.3.3A (at second hand); Wood Handbook FPL-GTR-190, tables 5-3a and 5-3b; EN 338, table 1, from memory
  it.each([
    ['Hem-Fir', 0.43],
    ['hem fir', 0.43],
    ['SPF', 0.42],
    ['S-P-F', 0.42],
    ['SPF-S', 0.36],
    ['Southern Yellow Pine', 0.55],
    ['c24', 0.375],
    ['white oak', 0.68],
    ['cedar', 0.32],
    ['MDF', undefined],
    ['moonwood', undefined],
  ] as const)('%s has a specific gravity of %s under screws', (words, gravity) => {
    expect(gravityOfWood(words)).toBe(gravity);
  });
});

it('an offcut larger than any that is sold is told: 230 written for 23', () => {
  const { stock } = stockPlan({
    stock: {
      panels: [
        { id: 'p', thickness: 18, sizes: [{ length: 2440, width: 1220 }] },
        { id: 'q', thickness: 18 },
      ],
      boards: [{ id: 'b', thickness: 20, width: 90, lengths: [{ length: 2400 }] }],
      rack: [
        { id: 'whole', stock: 'p', length: 1225, width: 2445 },
        { id: 'wide', stock: 'p', length: 2000, width: 1300 },
        { id: 'long', stock: 'p', length: 5842, width: 600 },
        { id: 'unknown', stock: 'q', length: 5842, width: 600 },
        { id: 'board', stock: 'b', length: 3000 },
        { id: 'rip', stock: 'b', length: 2400, width: 40 },
      ],
    },
  });
  const told = (ids: readonly string[]) => rackNotes(stock, ids, (mm) => `${mm}`).map(({ id }) => id);
  expect(told(['p', 'q', 'b'])).toEqual(['rack-size:wide', 'rack-size:long', 'rack-size:board']);
  expect(told(['b'])).toEqual(['rack-size:board']);
});
