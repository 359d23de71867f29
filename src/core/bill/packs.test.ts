import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../quantity/index.ts';
import type { Fitting } from '../scene/index.ts';
import { stockPlan } from '../stock/stock.testing.ts';
import { amountAsSold, packNeeds } from './packs.ts';

const fitting = (piece: string, use: string, count: number, more: Partial<Fitting> = {}): Fitting => ({
  id: `${piece}/${use}`,
  piece,
  use,
  name: use,
  count,
  ...more,
});
const bought = (packs: readonly object[], ...fittings: readonly Fitting[]) => {
  const { needs, notes } = packNeeds(fittings, stockPlan({ stock: { packs } }));
  return { packs: needs.map((n) => [n.pack.id, n.packs] as const), notes: notes.map((n) => n.id), needs };
};

describe('whole packs', () => {
  it.each([
    { need: 200, packs: 1 },
    { need: 201, packs: 2 },
    { need: 1, packs: 1 },
  ])('of 200 screws for $need', ({ need, packs }) => {
    expect(bought([{ id: 's', use: 'screw', holds: 200, price: 10 }], fitting('a', 'screw', need)).packs).toEqual([
      ['s', packs],
    ]);
  });
  it('shared by pieces', () => {
    const { packs, needs } = bought(
      [{ id: 's', use: 'Screw', holds: 200, price: 10 }],
      fitting('a', 'screw', 150),
      fitting('b', 'screw', 50),
    );
    expect(packs).toEqual([['s', 1]]);
    expect([...needs[0]!.byPiece]).toEqual([
      ['a', 150],
      ['b', 50],
    ]);
  });
  it('of the size that costs least', () => {
    const sizes = [
      { id: 'small', use: 'screw', holds: 50, price: 4 },
      { id: 'large', use: 'screw', holds: 200, price: 10 },
    ];
    expect(bought(sizes, fitting('a', 'screw', 40)).packs).toEqual([['small', 1]]);
    expect(bought(sizes, fitting('a', 'screw', 140)).packs).toEqual([['large', 1]]);
    expect(bought([{ ...sizes[0], price: undefined }, sizes[1]!], fitting('a', 'screw', 40)).packs).toEqual([
      ['large', 1],
    ]);
  });
  describe('reels of lights', () => {
    const strip = (piece: string, length: number, perMetre = 60, volts = 5) =>
      fitting(piece, 'strip light', 1, {
        name: `${volts} V, ${perMetre} to the metre`,
        amount: { value: length, unit: 'mm' },
        lights: { perMetre, volts },
      });
    const reel = { id: 'reel', use: 'strip light', holds: '5 m', price: 24 };
    it.each([
      ['lengths that do not come off one', [2600, 2600], 2],
      ['two halves of one', [2500, 2500], 1],
      ['one longer than it, and what its rest serves for', [7000, 2900], 2],
      ['one longer than it, and what it does not', [7000, 3100], 3],
    ])('%s', (_, lengths, packs) =>
      expect(bought([reel], ...lengths.map((length, i) => strip(`${i}`, length))).packs).toEqual([['reel', packs]]),
    );
    it('each kind off its own: by the name, and where that tells nothing, by themselves', () => {
      const [sparse, dense] = [
        { ...reel, id: 'sparse', name: 'strip of lights, 60 to the metre, 5 V' },
        { ...reel, id: 'dense', name: 'lights 144/m' },
      ];
      expect(bought([sparse, dense], strip('a', 1000), strip('b', 1000, 144)).packs).toEqual([
        ['sparse', 1],
        ['dense', 1],
      ]);
      expect(bought([sparse], strip('a', 1000, 60, 12)).notes).toEqual(['no-pack:strip light/60']);
      expect(bought([sparse], strip('a', 1000, 30), strip('b', 1000, 144)).notes).toEqual([
        'no-pack:strip light/30',
        'no-pack:strip light/144',
      ]);
      expect(bought([reel], strip('a', 1000), strip('b', 1000, 144)).packs).toEqual([['reel', 2]]);
    });
  });
  it('of tiles by what they are made of and by their side, where the name of a pack tells it', () => {
    const tiles = (piece: string, material: string, side: number, count: number): Fitting =>
      fitting(piece, 'absorber tile', count, { name: `tiles of ${material}`, tiles: { material, side } });
    const foam = { id: 'f', use: 'absorber tile', name: 'foam tiles 12 × 12 × 2 in', holds: 12, price: 38 };
    const wool = { id: 'w', use: 'absorber tile', name: 'glass-fibre tiles 600 × 600 mm', holds: 4, price: 72 };
    const any = { id: 'a', use: 'absorber tile', holds: 1, price: 5 };
    const wanted = [
      tiles('n', 'contoured open-cell foam 2 in', 304.8, 20),
      tiles('s', 'rigid glass-fibre board 2 in', 600, 6),
    ];
    expect(bought([foam, wool], ...wanted).packs).toEqual([
      ['f', 2],
      ['w', 2],
    ]);
    expect(bought([foam], ...wanted)).toMatchObject({
      packs: [['f', 2]],
      notes: ['no-pack:absorber tile/rigid glass-fibre board 2 in'],
    });
    expect(bought([foam], tiles('n', 'contoured open-cell foam 2 in', 600, 2)).packs).toEqual([]);
    expect(bought([foam], tiles('n', 'contoured open-cell foam 2 in', 300, 2)).packs).toEqual([['f', 1]]);
    expect(bought([any], ...wanted).packs).toEqual([['a', 26]]);
  });
  it('of what there is enough of', () => {
    const few = { id: 'few', use: 'screw', holds: 50, price: 2, count: 1 };
    const many = { id: 'many', use: 'screw', holds: 100, price: 6 };
    expect(bought([few, many], fitting('a', 'screw', 50)).packs).toEqual([['few', 1]]);
    expect(bought([few, many], fitting('a', 'screw', 51)).packs).toEqual([['many', 1]]);
    expect(bought([few], fitting('a', 'screw', 51)).packs).toEqual([['few', 2]]);
  });
  it.each<[string, readonly string[], readonly string[]]>([
    ['the longest that stays in the wood', ['screws 4 × 16', 'screws 4 × 25', 'screws 4 × 30'], ['screws 4 × 25']],
    ['of inches too', ['screws #8 × 1 in', 'screws #8 × 1-1/4 in'], ['screws #8 × 1 in']],
    ['none where all would come out of the face', ['screws 4 × 30', 'screws 4 × 35'], []],
    ['one that does not tell its length is left to the maker', ['some'], ['some']],
  ])('of screws driven from behind: %s', (_title, sold, chosen) => {
    const packs = sold.map((name, i) => ({
      id: name,
      name,
      use: i === 0 ? 'front screw' : 'screw',
      holds: 100,
      price: 10 - i,
    }));
    const { packs: taken, notes } = bought(packs, fitting('a', 'front screw', 12, { longest: 28.6 }));
    expect(taken.map(([id]) => id)).toEqual(chosen);
    expect(notes).toEqual(chosen.length > 0 ? [] : ['no-pack:front screw']);
  });
  it('of edge band by length, and named ones only where they are named', () => {
    const packs = [
      { id: 'birch', use: 'edge band', holds: '20 m', price: 12 },
      { id: 'oak', use: 'edge band', holds: '25 ft', price: 1 },
    ];
    const band = (mm: number, stock: string) =>
      fitting('a', 'edge band', 1, { amount: { value: mm, unit: 'mm' }, stock });
    expect(bought(packs, band(20_000, 'birch')).packs).toEqual([['birch', 1]]);
    expect(bought(packs, band(20_001, 'birch'), band(7620, 'oak')).packs).toEqual([
      ['birch', 2],
      ['oak', 1],
    ]);
  });
  it('of edge band never one roll for each piece, however long: how much is on a roll is asked', () => {
    const band = fitting('a', 'edge band', 1, { amount: { value: 90_000, unit: 'mm' }, stock: 'birch' });
    const { packs, notes } = bought([{ id: 'birch', use: 'edge band', price: 12 }], band);
    expect(packs).toEqual([]);
    expect(notes).toEqual(['pack-holds:birch']);
  });
  it('of what cannot be compared none, which a total without them knows of', () => {
    const glue = fitting('a', 'glue', 1, { amount: { value: 230_000, unit: 'mm²' } });
    const plan = stockPlan({ stock: { packs: [{ id: 'g', use: 'glue', holds: '500 g', price: 6 }] } });
    const { needs, notes, unserved } = packNeeds([glue, fitting('a', 'brad', 9)], plan);
    expect(needs).toEqual([]);
    expect(unserved).toEqual(['brad', 'glue']);
    expect(notes.find((n) => n.id === 'pack-holds:g')!.advice).toMatch(
      /^Write 'holds' as an area or a volume, such as 750 ml\. /,
    );
  });
  it('of so many lengths each', () => {
    const twice = fitting('a', 'moulding', 2, { amount: { value: 15_000, unit: 'mm' } });
    expect(bought([{ id: 'm', use: 'moulding', holds: '20 m', price: 6 }], twice).packs).toEqual([['m', 2]]);
  });
  it('of rods, which may not be pieced together', () => {
    const rods = (n: number, mm: number) => fitting('a', 'rod', n, { amount: { value: mm, unit: 'mm' } });
    // 1000 mm gives three of 300 with a hacksaw between, not four of 250.
    expect(bought([{ id: 'r', use: 'rod', holds: '1000 mm', price: 6 }], rods(3, 300)).packs).toEqual([['r', 1]]);
    expect(bought([{ id: 'r', use: 'rod', holds: '1000 mm', price: 6 }], rods(4, 250)).packs).toEqual([['r', 2]]);
    // between the second and the third the saw takes its due as well: 3 · 332.5 + 2 · 1.5 is more than 1000
    expect(bought([{ id: 'r', use: 'rod', holds: '1000 mm', price: 6 }], rods(3, 332)).packs).toEqual([['r', 1]]);
    expect(bought([{ id: 'r', use: 'rod', holds: '1000 mm', price: 6 }], rods(3, 332.5)).packs).toEqual([['r', 2]]);
    expect(bought([{ id: 'r', use: 'rod', holds: '1000 mm', price: 6 }], rods(1, 1200)).notes).toEqual([
      'pack-holds:r',
    ]);
  });
  it('of shelf pins that go into their holes', () => {
    const pins = (name: string) =>
      bought([{ id: 'p', use: 'shelf pin', name, holds: 24, price: 5 }], fitting('a', 'shelf pin', 4, { diameter: 5 }));
    for (const name of ['shelf pins 5 mm', 'pins 3/16 in', 'shelf pins', 'pins 5 mm × 16 mm'])
      expect(pins(name).packs).toEqual([['p', 1]]);
    for (const name of ['pins 1/4 in', 'shelf pins 6 mm', 'pins 3 mm']) {
      expect(pins(name).packs).toEqual([]);
      expect(pins(name).notes).toEqual(['no-pack:shelf pin']);
    }
  });
  it('of rods as thick as they are wanted', () => {
    const rod = (diameter: number) => fitting('a', 'rod', 1, { diameter, amount: { value: 200, unit: 'mm' } });
    const packs = [
      { id: 'thin', use: 'rod', name: 'steel rod 1/2 in × 36 in', holds: '36 in', price: 5 },
      { id: 'thick', use: 'rod', name: 'rod 16 mm', holds: '1 m', price: 9 },
    ];
    expect(bought(packs, rod(12), rod(16)).packs).toEqual([
      ['thin', 1],
      ['thick', 1],
    ]);
    expect(bought(packs, rod(15.875)).packs).toEqual([['thick', 1]]);
    expect(bought(packs, rod(20)).notes).toEqual(['no-pack:rod']);
    expect(bought([{ ...packs[1], name: 'round steel' }], rod(20)).packs).toEqual([['thick', 1]]);
  });
  it('of wall plates, each out of one bar', () => {
    const plates = fitting('a', 'wall plate', 3, { amount: { value: 600, unit: 'mm' } });
    expect(bought([{ id: 'w', use: 'wall plate', holds: '1 m', price: 6 }], plates).packs).toEqual([['w', 3]]);
  });
  it('of rods too short for one is said as it is', () => {
    const rod = fitting('a', 'rod', 1, { amount: { value: 1200, unit: 'mm' } });
    const titleOf = (holds: unknown) =>
      packNeeds([rod], stockPlan({ stock: { packs: [{ id: 'r', use: 'rod', holds }] } })).notes[0]!.title;
    expect(titleOf('1000 mm')).toMatch(/shorter than what is needed in one length, 1200 mm/);
    expect(titleOf('3 kg')).toMatch(/cannot be compared/);
  });
  it('of a use that is misspelt are told, with the word that is asked for; another use, or another size of the same, is no slip', () => {
    const noteFor = (packs: readonly object[], ...more: readonly Fitting[]) =>
      packNeeds([fitting('a', 'brad', 10), ...more], stockPlan({ stock: { packs } })).notes[0]!;
    const note = noteFor([
      { id: 'g', use: 'glue', holds: 1 },
      { id: 'b', use: 'brd', name: 'brads 30', holds: 100 },
    ]);
    expect(note.advice).toMatch(/^brads 30 says 'use: brd', which nothing asks for: is brad meant\? Else add a pack/);
    expect(note.cure!.edits).toEqual([{ op: 'set', path: ['stock', 'packs', 1, 'use'], value: 'brad' }]);
    expect(noteFor([{ id: 'g', use: 'glue', holds: 1 }])).not.toHaveProperty('cure');
    const short = { id: 's', use: 'Wood Screw', name: 'screws 5 × 20', holds: 100 };
    const long = fitting('a', 'wood screw', 4, { length: 60 });
    expect(packNeeds([long], stockPlan({ stock: { packs: [short] } })).notes.map((n) => n.cure)).toEqual([undefined]);
  });
  it('of wall fixings long enough and little longer, by what stands behind the cross', () => {
    const screws = (length: number) => fitting('a', 'wood screw', 4, { length });
    const packs = [
      { id: 'short', use: 'wood screw', name: 'screws 5 × 50', holds: 100, price: 1 },
      { id: 'right', use: 'wood screw', name: 'screws 5 × 60 mm', holds: 100, price: 3 },
      { id: 'inch', use: 'wood screw', name: 'screws #10 × 3-1/2 in', holds: 100, price: 2 },
    ];
    expect(bought(packs, screws(60)).packs).toEqual([['right', 1]]);
    expect(bought(packs, screws(88.9)).packs).toEqual([['inch', 1]]);
    expect(bought(packs, screws(120)).notes).toEqual(['no-pack:wood screw']);
    // nor thinner than it was reckoned, nor so thick that it splits the wood, however cheap
    const thick = (diameter: number) => fitting('a', 'wood screw', 4, { length: 60, diameter });
    expect(bought(packs, thick(5)).packs).toEqual([['right', 1]]);
    expect(bought(packs, thick(5.4864)).notes).toEqual(['no-pack:wood screw']);
    expect(bought(packs, thick(4)).notes).toEqual(['no-pack:wood screw']);
    // a fixing or a pack without a length is not turned away
    expect(bought(packs, fitting('a', 'wood screw', 4)).packs).toEqual([['short', 1]]);
  });
  it('of cables, each out of one ring', () => {
    const cable = (mm: number) => fitting('a', 'signal cable', 1, { amount: { value: mm, unit: 'mm' } });
    const ring = [{ id: 'c', use: 'signal cable', holds: '10 m', price: 9 }];
    expect(bought(ring, cable(6000), cable(3900)).packs).toEqual([['c', 1]]);
    expect(bought(ring, cable(6000), cable(6000)).packs).toEqual([['c', 2]]);
  });
  it('of glue, from the glued area', () => {
    // 2 m² under a wet film of 0.2 mm is 0.4 L.
    const glue = fitting('a', 'glue', 1, { amount: { value: 2e6, unit: 'mm²' } });
    const { packs, needs } = bought([{ id: 'g', use: 'glue', holds: '250 ml', price: 6 }], glue);
    expect(packs).toEqual([['g', 2]]);
    expect(needs[0]!.need).toBeCloseTo(0.4, 12);
    expect(bought([{ id: 'g', use: 'glue', holds: '1 m²', price: 6 }], glue).packs).toEqual([['g', 2]]);
  });
  it('of drawer slides of the right length', () => {
    const slides = (length: number) => fitting('a', 'drawer slide', 1, { length });
    const packs = [
      { id: 'x', use: 'drawer slide', name: 'slides 14 in', price: 9 },
      { id: 'y', use: 'drawer slide', name: 'slides 450 mm', price: 1 },
    ];
    expect(bought(packs, slides(350)).packs).toEqual([['x', 1]]);
    expect(bought(packs, slides(450)).packs).toEqual([['y', 1]]);
    expect(bought(packs, slides(300)).notes).toEqual(['no-pack:drawer slide']);
  });
});

it('notes what nobody sells, and what cannot be compared, and never calls it nothing', () => {
  expect(bought([], fitting('a', 'hinge', 2))).toMatchObject({ packs: [], notes: ['no-pack:hinge'] });
  const band = fitting('a', 'edge band', 1, { amount: { value: 100, unit: 'mm' } });
  expect(bought([{ id: 'b', use: 'edge band', holds: 'a roll', price: 3 }], band)).toMatchObject({
    packs: [],
    notes: ['pack-holds:b'],
  });
});

it('of a use whose packs are all of another size, the packs are named', () => {
  const stock = { stock: { packs: [{ id: 's', use: 'wood screw', name: '#10 × 3 in', holds: 25 }] } };
  const wanted = fitting('a', 'wood screw', 4, { name: '#12 × 3"', diameter: 5.5, length: 76 });
  const [note] = packNeeds([wanted], stockPlan(stock)).notes;
  expect(note!.advice).toMatch(/^It is of another size or kind: not #10 × 3 in\. Add a pack/);
});

it('tells many uses that no pack serves in one note, by name', () => {
  const { notes, unserved } = packNeeds(
    [fitting('a', 'hinge', 2), fitting('a', 'screw', 9), fitting('b', 'screw', 9), fitting('b', 'glue', 1)],
    stockPlan({ stock: { packs: [] } }),
  );
  expect(unserved).toEqual(['hinge', 'screw', 'glue']);
  expect(notes.map((n) => [n.id, n.title])).toEqual([
    ['no-packs', 'No pack of the stock serves for 3 things that are needed'],
  ]);
  expect(notes[0]!.advice).toContain("'use: hinge' (hinge), 'use: screw' (screw and 1 more), 'use: glue' (glue)");
});

describe('how much is needed', () => {
  const plan = stockPlan({ stock: { packs: [] } });
  const told = (held: string | number, need: number, dimension: 'length' | 'liquid volume' = 'length'): string => {
    const read = typeof held === 'number' ? undefined : parseQuantity(held, dimension);
    const holds = read === undefined ? (held as number) : read.ok ? read.value : Number.NaN;
    const unit = read === undefined ? '' : dimension === 'length' ? 'mm' : 'L';
    return amountAsSold({ pack: { id: 'p', use: 'u', holds: held } as never, need, holds, unit }, plan);
  };
  it.each([
    ['20 m', 37_389, '37.4 m'],
    ['25 ft', 34_143, '113 ft'],
    ['50 m', 21_690, '21.7 m'],
    ['36 in', 711.2, '28 in'],
    ['1000 mm', 1440, '1440 mm'],
  ])('of what is sold by %s is told as it is sold', (held, need, words) => expect(told(held, need)).toBe(words));
  it.each([
    ['750 ml', 0.1948, '195 ml'],
    ['16 fl oz', 0.18, '6.1 fl oz'],
    ['1 gal', 7.158, '1.9 gal'],
    ['5 L', 1.473, '1.5 L'],
  ])('of what is sold by %s, too', (held, need, words) => expect(told(held, need, 'liquid volume')).toBe(words));
  it('of pieces is a whole number', () => expect([told(24, 16), told(1, 3)]).toEqual(['16', '3']));

  it('is never less than is needed, and no more than a tenth of it above, or the last figure told', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('m', 'ft', 'in', 'cm', 'mm', 'yd'),
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 3_000_000 }),
        (unit, count, tenths) => {
          const need = tenths / 10;
          if (!parseQuantity(`${count} ${unit}`, 'length').ok) return;
          const words = told(`${count} ${unit}`, need);
          expect(words.endsWith(` ${unit}`)).toBe(true);
          const read = parseQuantity(words, 'length');
          const one = parseQuantity(`1 ${unit}`, 'length');
          if (!read.ok || !one.ok) throw new Error(words);
          expect(read.value).toBeGreaterThanOrEqual(need - 0.001 * one.value);
          expect(read.value).toBeLessThanOrEqual(need + Math.max(0.1 * need, 0.0101 * one.value));
        },
      ),
    );
  });
});
