import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveLengths, solvePanels } from '../cutting/index.ts';
import { boxAt } from '../geometry/index.ts';
import type { Plan } from '../plan/index.ts';
import { type Kg, mm } from '../quantity/index.ts';
import type { Fitting, Part, PlacedPiece } from '../scene/index.ts';
import { cutJobs, realLayouts } from '../stock/index.ts';
import { partOf, stockPlan } from '../stock/stock.testing.ts';
import { type Bill, type Cut, makeBill } from './bill.ts';
import { compareOptions, makeTally, PACES, partMass } from './tally.ts';

const TODAY = '2026-11-25';
const cutsOf = (parts: readonly Part[], plan: Plan, steps = 40): readonly Cut[] =>
  cutJobs(parts, plan).map((job) => ({
    job,
    answer: job.from === 'panel' ? solvePanels(job.problem, { steps }) : solveLengths(job.problem, { steps: 20_000 }),
  }));
const pieceOf = (id: string, parts: readonly Part[]): PlacedPiece => ({
  id,
  kind: 'case',
  title: id.toUpperCase(),
  frame: { origin: { x: 0, y: 0, z: 0 }, turn: 0 },
  outside: boxAt(0, 0, 0, 1, 1, 1),
  needs: [],
  parts: parts.filter((p) => p.piece === id),
  joints: [],
  fittings: [],
  bays: [],
});
const billOf = (
  plan: Plan,
  parts: readonly Part[],
  fittings: readonly Fitting[] = [],
  steps?: number,
): { bill: Bill; cuts: readonly Cut[]; pieces: readonly PlacedPiece[] } => {
  const cuts = cutsOf(parts, plan, steps);
  const pieces = [...new Set(parts.map((p) => p.piece))].map((id) => pieceOf(id, parts));
  return { bill: makeBill({ plan, pieces, parts, fittings, cuts, today: TODAY }), cuts, pieces };
};
const sum = (shares: readonly { readonly cost: number }[]): number => shares.reduce((s, x) => s + x.cost, 0);

const dated = { supplier: 'mill', date: '2026-11-01' };
const stock = {
  tax: 8.25,
  suppliers: [
    { id: 'mill', name: 'The mill' },
    { id: 'shop', name: 'The shop' },
  ],
  panels: [
    { id: 'ply', kind: 'plywood', thickness: 18, sizes: [{ length: 2440, width: 1220, price: '48.00', ...dated }] },
    {
      id: 'mdf',
      kind: 'MDF',
      thickness: 18,
      grain: 'none',
      sizes: [{ length: 2440, width: 1220, price: '31.95', supplier: 'shop', date: '2026-11-01' }],
    },
  ],
  boards: [
    {
      id: 'pine',
      species: 'ponderosa pine',
      nominal: '1x4',
      lengths: [
        { length: 2400, price: '9.17', ...dated },
        { length: 3000, price: '12.03', ...dated },
      ],
    },
  ],
  packs: [{ id: 'screws', use: 'screw', holds: 100, price: '7.77', supplier: 'shop', date: '2026-11-01' }],
};
const screws = (piece: string, count: number): Fitting => ({
  id: `${piece}/screws`,
  piece,
  use: 'screw',
  name: 'screws',
  count,
});

describe('a bill worked out by hand', () => {
  // One panel of ply at 48.00 holds a 1200 × 600 of `a` and a 600 × 600 of `b`: two thirds and one third.
  // 130 screws are two packs at 7.77 = 15.54. Tax at 8.25 %: the mill 3.96, the shop 1.28205 → 1.28.
  const parts = [partOf('a/x', 'ply', 1200, 600), partOf('b/x', 'ply', 600, 600)];
  const { bill } = billOf(stockPlan({ stock }), parts, [screws('a', 30), screws('b', 100)]);
  it('counts, prices and taxes', () => {
    expect(bill.lines.map((l) => [l.id, l.count, l.price, l.total, l.tax, l.cost])).toEqual([
      ['ply#1', 1, 4800, 4800, 396, 5196],
      ['screws#1', 2, 777, 1554, 128, 1682],
    ]);
    expect([bill.net, bill.tax, bill.total, bill.complete]).toEqual([6354, 524, 6878, true]);
  });
  it('splits by piece, material and supplier', () => {
    // 5196 · 2/3 = 3464 and 1732; 1682 · 30/130 = 388.15 → 388 and 1294.
    expect(bill.byPiece.map((s) => [s.id, s.name, s.cost])).toEqual([
      ['a', 'A', 3464 + 388],
      ['b', 'B', 1732 + 1294],
    ]);
    expect(bill.byMaterial.map((s) => [s.id, s.cost])).toEqual([
      ['ply', 5196],
      ['screws', 1682],
    ]);
    expect(bill.bySupplier.map((s) => [s.name, s.cost])).toEqual([
      ['The mill', 5196],
      ['The shop', 1682],
    ]);
    expect(bill.shopping.map((s) => [s.name, s.lines.map((l) => l.count), s.net, s.tax, s.cost])).toEqual([
      ['The mill', [1], 4800, 396, 5196],
      ['The shop', [2], 1554, 128, 1682],
    ]);
  });
  it('accounts for the panel: parts, what goes to the rack, waste', () => {
    const [use] = bill.uses;
    expect(use!.bought).toBe(2440 * 1220);
    expect(use!.inParts).toBe(1200 * 600 + 600 * 600);
    expect(use!.toRack + use!.inParts + use!.waste).toBeCloseTo(use!.bought, 6);
    expect(bill.rack.left.length).toBeGreaterThan(0);
    expect(bill.rack.taken).toEqual([]);
  });
});

it('tells a pack from the panel of the same name', () => {
  const named = stockPlan({
    stock: { ...stock, packs: [{ ...stock.packs[0], id: 'ply', name: 'ply screws' }] },
  });
  const { bill } = billOf(named, [partOf('a/x', 'ply', 1200, 600)], [screws('a', 10)]);
  expect(bill.lines.map((l) => [l.id, l.kind, l.name])).toEqual([
    ['ply#1', 'panel', 'ply'],
    ['pack ply#1', 'pack', 'ply screws'],
  ]);
  expect(bill.byMaterial.map((s) => [s.id, s.name, s.cost])).toEqual([
    ['ply', 'ply', 5196],
    ['pack ply', 'ply screws', 841],
  ]);
});

describe('what has no price is never nothing', () => {
  const unpriced = stockPlan({
    stock: {
      ...stock,
      panels: [{ id: 'ply', kind: 'plywood', thickness: 18, sizes: [{ length: 2440, width: 1220 }] }],
    },
  });
  const { bill } = billOf(unpriced, [partOf('a/x', 'ply', 1200, 600)], [screws('a', 10)]);
  it('is a line without one, a note, and no total', () => {
    expect(bill.lines[0]).toMatchObject({ id: 'ply#1', count: 1 });
    expect(bill.lines[0]).not.toHaveProperty('price');
    expect(bill.lines[0]).not.toHaveProperty('cost');
    expect(bill).not.toHaveProperty('total');
    expect(bill.complete).toBe(false);
    expect(bill.known).toBe(777 + 64);
    expect(bill.notes.map((n) => n.id)).toEqual(['no-price:ply#1']);
  });
  it.each([
    ['a part too large for every panel', [partOf('a/x', 'ply', 3000, 600)], [], 'too-large:a/x'],
    ['a stock the plan does not have', [partOf('a/x', 'gold', 300, 600)], [], 'no-stock:gold'],
    [
      'a fitting no pack serves',
      [partOf('a/x', 'ply', 300, 600)],
      [{ ...screws('a', 1), use: 'hinge' }],
      'no-pack:hinge',
    ],
  ] as const)('%s', (_, parts, fittings, id) => {
    const { bill: b } = billOf(stockPlan({ stock }), parts, fittings);
    expect(b.notes.map((n) => n.id)).toContain(id);
    expect(b).not.toHaveProperty('total');
  });
  it('more packs than there are, and a weight nobody knows', () => {
    const few = stockPlan({
      stock: {
        ...stock,
        panels: [{ id: 'ply', thickness: 18, sizes: stock.panels[0]!.sizes }],
        packs: [{ ...stock.packs[0]!, count: 1 }],
      },
    });
    const { bill: b } = billOf(few, [partOf('a/x', 'ply', 300, 300)], [screws('a', 101)]);
    expect(b.notes.map((n) => n.id)).toEqual(['too-few:screws', 'no-density:ply']);
    expect(b).not.toHaveProperty('total');
  });
  it('what nobody sells, once', () => {
    const none = stockPlan({ stock: { ...stock, panels: [{ id: 'ply', kind: 'plywood', thickness: 18 }] } });
    const { bill: b } = billOf(none, [partOf('a/x', 'ply', 300, 300)]);
    expect(b.notes.map((n) => [n.verdict, n.title])).toEqual([['stop', expect.stringMatching(/^Nobody sells ply/)]]);
    expect(b).not.toHaveProperty('total');
  });
  it.each([
    [18, []],
    [17.9, ['band-too-narrow:tape']],
    [undefined, []],
  ] as const)('a band %s mm wide on a part of 18 mm', (width, ids) => {
    const plan = stockPlan({
      stock: { ...stock, packs: [{ id: 'tape', use: 'edge band', holds: '20 m', price: 9, width, ...dated }] },
    });
    const edges = [{ towards: 'front', band: 'tape', thickness: mm(0), length: mm(300) }] as const;
    const { bill: b } = billOf(plan, [partOf('a/x', 'ply', 300, 300, { edges }), partOf('a/y', 'ply', 300, 300)]);
    expect(b.notes.map((n) => n.id)).toEqual(ids);
  });
  it('panels of which there are too few', () => {
    const few = stockPlan({
      stock: {
        ...stock,
        panels: [
          {
            id: 'ply',
            kind: 'plywood',
            thickness: 18,
            sizes: [{ length: 1000, width: 1000, price: 10, count: 1, ...dated }],
          },
        ],
      },
    });
    const { bill: b } = billOf(few, [partOf('a/x', 'ply', 900, 900), partOf('a/y', 'ply', 900, 900)]);
    expect(b.notes.map((n) => n.id)).toEqual(['cannot-cut:ply']);
    expect(b).not.toHaveProperty('total');
  });
});

it('splits a panel by the area that each piece takes of it, not by length', () => {
  const plain = stockPlan({
    stock: {
      panels: [{ id: 'ply', kind: 'plywood', thickness: 18, sizes: [{ length: 2440, width: 1220, price: 48 }] }],
    },
  });
  const { bill: b } = billOf(plain, [partOf('a/x', 'ply', 1000, 500), partOf('b/x', 'ply', 1000, 250)]);
  expect(b.byPiece.map((p) => [p.id, p.cost])).toEqual([
    ['a', 3200],
    ['b', 1600],
  ]);
});

it('tells what is left of a panel whose grain runs across it by the panel’s own length and width', () => {
  const across = stockPlan({
    stock: {
      panels: [
        {
          id: 'ply',
          kind: 'plywood',
          thickness: 18,
          grain: 'width',
          sizes: [{ length: 2440, width: 1220, price: 48 }],
        },
      ],
    },
  });
  // 1000 with the grain, which is across the panel: 1840 × 1220 and 600 × 220 are left of it
  const { bill: b } = billOf(across, [partOf('a/x', 'ply', 1000, 600)]);
  expect(b.rack.left.map(({ length, width }) => [length, width])).toEqual([
    [1840, 1220],
    [600, 220],
  ]);
  const racked = stockPlan({
    stock: {
      panels: [{ id: 'ply', kind: 'plywood', thickness: 18, grain: 'width', sizes: [] }],
      rack: [{ stock: 'ply', length: 700, width: 1220 }],
    },
  });
  expect(billOf(racked, [partOf('a/x', 'ply', 1000, 600)]).bill.rack.taken).toMatchObject([
    { length: 700, width: 1220 },
  ]);
});

it('takes what the rack has before it buys, and says what it took', () => {
  const withRack = stockPlan({
    stock: { ...stock, rack: [{ id: 'rest', stock: 'ply', length: 1300, width: 700, where: 'left of the saw' }] },
  });
  const { bill } = billOf(withRack, [partOf('a/x', 'ply', 1200, 600)]);
  expect(bill.lines).toEqual([]);
  expect(bill.total).toBe(0);
  expect(bill.rack.taken).toEqual([{ stock: 'ply', id: 'rest', length: 1300, width: 700, where: 'left of the saw' }]);
  // strips of 100 mm by 1,300 and of 100 by 600 are left of it, less the kerf: too narrow to keep
  const [use] = bill.uses;
  expect(use).toMatchObject({ bought: 0, fromRack: 1300 * 700, inParts: 1200 * 600 });
  expect(use!.waste).toBeCloseTo(1300 * 700 - 1200 * 600 - use!.toRack, 6);
});

const size = fc.integer({ min: 60, max: 1150 });
const anyJob = fc.record({
  parts: fc.array(fc.tuple(size, size, fc.constantFrom('ply', 'mdf', 'pine'), fc.constantFrom('a', 'b', 'c')), {
    minLength: 1,
    maxLength: 14,
  }),
  screws: fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 3, maxLength: 3 }),
  tax: fc.integer({ min: 0, max: 250_000 }),
  prices: fc.array(fc.integer({ min: 1, max: 20_000 }), { minLength: 3, maxLength: 3 }),
});
const jobParts = (given: readonly (readonly [number, number, string, string])[]): readonly Part[] =>
  given.map(([l, w, id, piece], i) =>
    partOf(`${piece}/${i}`, id, l, id === 'pine' ? 80 : w, id === 'pine' ? { from: 'board' } : {}),
  );
const pricedPlan = (tax: number, [ply, mdf, pine]: readonly number[]): Plan =>
  stockPlan({
    stock: {
      ...stock,
      tax: tax / 10_000,
      panels: stock.panels.map((p, i) => ({
        ...p,
        sizes: p.sizes.map((s) => ({ ...s, price: `${(i === 0 ? ply! : mdf!) / 100}` })),
      })),
      boards: stock.boards.map((b) => ({
        ...b,
        lengths: b.lengths.map((l, i) => ({ ...l, price: `${(pine! * (i + 1)) / 100}` })),
      })),
    },
  });

describe('laws', () => {
  it('pieces, materials and suppliers each add up to the total, to the smallest unit; and so do the lines, counted again', () => {
    fc.assert(
      fc.property(anyJob, ({ parts: given, screws: counts, tax, prices }) => {
        const parts = jobParts(given);
        const plan = pricedPlan(tax, prices);
        const pieces = [...new Set(parts.map((p) => p.piece))];
        const { bill, cuts } = billOf(
          plan,
          parts,
          pieces.map((p, i) => screws(p, counts[i]!)),
        );
        expect(bill.complete).toBe(true);
        for (const shares of [bill.byPiece, bill.byMaterial, bill.bySupplier, bill.shopping])
          expect(sum(shares)).toBe(bill.total);
        for (const line of bill.lines) expect(sum(line.byPiece)).toBe(line.cost);
        expect(bill.net + bill.tax).toBe(bill.total);
        // Second route: panels and boards counted off the layouts, screws off the fittings.
        const off = cuts
          .flatMap(({ job, answer }) => realLayouts(job, answer))
          .reduce((s, l) => s + (l.source.kind === 'buy' ? l.source.offer.price! : 0), 0);
        const packs = Math.ceil(pieces.reduce((s, _, i) => s + counts[i]!, 0) / 100);
        expect(bill.net).toBe(off + packs * 777);
        // Tax on each supplier's sum is right to half a unit.
        for (const s of bill.shopping) expect(Math.abs(s.tax - (s.net * tax) / 1e6)).toBeLessThanOrEqual(0.5 + 1e-6);
        // Material is conserved.
        for (const u of bill.uses) {
          expect(u.waste).toBeGreaterThanOrEqual(-1e-3);
          expect(u.inParts + u.toRack + u.waste).toBeCloseTo(u.bought + u.fromRack, 3);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('more parts are never cheaper, where both answers are proven', () => {
    let proven = 0;
    fc.assert(
      fc.property(anyJob, ({ parts: given, prices }) => {
        const parts = jobParts(given);
        const plan = pricedPlan(0, prices);
        const all = billOf(plan, parts, [], 200);
        const fewer = billOf(plan, parts.slice(0, -1), [], 200);
        if (![...all.cuts, ...fewer.cuts].every(({ answer }) => answer.status === 'optimal')) return;
        proven++;
        expect(fewer.bill.total!).toBeLessThanOrEqual(all.bill.total!);
      }),
      { numRuns: 120 },
    );
    expect(proven).toBeGreaterThan(30);
  });
});

describe('the tally', () => {
  const parts = [
    partOf('a/x', 'ply', 1200, 600),
    partOf('b/x', 'ply', 600, 600),
    partOf('b/y', 'pine', 700, 80, { from: 'board' }),
  ];
  const plan = stockPlan({ stock, shop: { pace: 1.5 } });
  const { bill, cuts, pieces } = billOf(plan, parts, [screws('a', 30)]);
  const tally = makeTally({
    plan,
    pieces,
    parts,
    cuts,
    bill,
    notes: [{ id: 'n', about: 'a', verdict: 'stop', title: '', advice: '' }],
  });
  it('counts', () => {
    expect(tally).toMatchObject({
      cost: bill.total,
      panels: 1,
      boards: 1,
      offcuts: 0,
      parts: 3,
      stops: 1,
      cautions: 0,
      unweighed: 0,
    });
  });
  it('weighs by the handbook: plywood at 600 kg/m³, the high end of table 12-1', () => {
    // 1.2 · 0.6 · 0.018 · 600 = 7.776 kg
    expect(partMass(parts[0]!, plan)).toBeCloseTo(7.776, 9);
    const drilled = {
      ...parts[0]!,
      solid: {
        box: parts[0]!.solid.box,
        taken: [{ kind: 'notch' as const, why: '', box: boxAt(0, 0, 0, 600, 18, 600) }],
      },
    };
    expect(partMass(drilled, plan)).toBeCloseTo(7.776 / 2, 9);
    // The heaviest lift is the whole panel: 2.44 · 1.22 · 0.018 · 600 = 32.15 kg.
    expect(tally.heaviest).toBeCloseTo(32.149, 3);
    expect(tally.heaviestIs).toMatch(/whole panel of ply/);
    // The working's own figures give its result again.
    for (const [working, mass] of [
      [tally.massWorking, tally.mass],
      [tally.heaviestWorking, tally.heaviest],
    ] as const) {
      const { inputs, result } = working;
      let again = 0;
      for (let i = 0; i < inputs.length; i += 2) again += Number(inputs[i]!.value) * Number(inputs[i + 1]!.value);
      expect(again).toBeCloseTo(result.value, 9);
      expect(result.value).toBeCloseTo(mass, 9);
    }
  });
  it('says of the heaviest what the plan says it weighs, and what its parts come to', () => {
    const screen = { ...pieces[0]!, title: 'Screen', mass: 40 as Kg };
    const { heaviest, heaviestIs, heaviestWorking } = makeTally({
      plan,
      pieces: [screen, ...pieces.slice(1)],
      parts,
      cuts,
      bill,
      notes: [],
    });
    expect(heaviestIs).toBe('Screen');
    const [given, volume, density] = heaviestWorking.inputs.map(({ value }) => Number(value));
    expect([given, heaviestWorking.formula]).toEqual([40, 'm = m0 + Σ V · ρ']);
    expect(given! + volume! * density!).toBeCloseTo(heaviest, 9);
    expect(heaviestWorking.result.value).toBeCloseTo(heaviest, 9);
  });
  it("reckons hours from counts, at the shop's own pace", () => {
    // 1 panel · 15 + cuts · 2 + 3 parts · 4 + 2 pieces · 60, by 1.5
    expect(tally.hours).toBeCloseTo((1.5 * (15 + tally.cuts * 2 + 12 + 120)) / 60, 9);
    expect(tally.hoursWorking.source).toBe('common practice');
  });
  it('reckons the fitting of mouldings by lengths and how far they run: ten centimetres are no hour', () => {
    const fitted = (length: number): number => {
      const all = [...pieces, { ...pieceOf('s', [partOf('s/x', 'pine', length, 80)]), kind: 'trim' as const }];
      const { hours, hoursWorking } = makeTally({ plan, pieces: all, parts, cuts, bill, notes: [] });
      // the working's own figures give its result again
      const value = (symbol: string): number => Number(hoursWorking.inputs.find((i) => i.symbol === symbol)!.value);
      const sum = PACES.reduce((s, { key }) => s + value(`n ${key}`) * value(`t ${key}`), 0);
      expect((value('pace') * sum) / 60).toBeCloseTo(hours, 9);
      return (60 * (hours - tally.hours)) / 1.5;
    };
    expect(fitted(101.6)).toBeCloseTo(15 + 1, 9);
    expect(fitted(9 * 406.4)).toBeCloseTo(15 + 36, 9);
  });
  it('counts parts it cannot weigh', () => {
    const bare = stockPlan({
      stock: { ...stock, panels: [{ id: 'ply', thickness: 18, sizes: stock.panels[0]!.sizes }] },
    });
    expect(makeTally({ plan: bare, pieces, parts, cuts, bill, notes: [] }).unweighed).toBe(2);
  });
  it('holds options against the first', () => {
    const other = { ...tally, panels: 3, cost: undefined };
    const { cost: _, ...unknown } = other;
    const [first, second] = compareOptions([
      { id: 'x', title: 'X', tally },
      { id: 'y', title: 'Y', tally: unknown as typeof tally },
    ]);
    expect(first!.difference).toMatchObject({ cost: 0, panels: 0 });
    expect(second!.difference.panels).toBe(2);
    expect(second!.difference).not.toHaveProperty('cost');
  });
});
