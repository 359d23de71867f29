import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nameOf, type Plan } from '../plan/index.ts';
import { type Money, mm, toTicks } from '../quantity/index.ts';
import { stockPlan } from '../stock/stock.testing.ts';
import type { Bill, Cut } from './bill.ts';
import { type Evaluate, evaluationOf } from './evaluation.ts';
import { MOST_POINTS, priceSteps, varied } from './steps.ts';

const plan: Plan = stockPlan({
  pieces: [
    { thing: 'a', at: { x: 0, y: 0 }, size: { width: 1000, height: 700, depth: 400 } },
    { case: 'c', wall: 'north', size: { width: 900, height: 700, depth: 400 } },
  ],
});
const sizeIn = (p: Plan, piece: string, dimension: 'width' | 'height' | 'depth'): number =>
  (p.options[0]!.pieces.find((x) => nameOf(x) === piece)!.size as { width: number; height: number; depth: number })[
    dimension
  ];

/** Panels of 48.00, one for every started `every` mm of the piece's width. */
const byWidth =
  (every: number): Evaluate =>
  (p) => {
    const count = Math.ceil(toTicks(sizeIn(p, 'a', 'width')) / toTicks(every));
    const cost = (4800 * count) as Money;
    return { cost, bound: cost, buys: new Map([['ply#1', { name: 'ply', kind: 'panel' as const, count }]]) };
  };
const width = { piece: 'a', dimension: 'width' as const, from: mm(900), to: mm(1100), step: mm(50) };

describe('steps in the price', () => {
  it('finds each to the tick, names it, and offers the nearest saving', () => {
    const found = priceSteps(plan, 'only', width, byWidth(499));
    // 998 mm is the last width two panels serve.
    expect(found.steps.map((s) => [toTicks(s.at), s.before, s.after, s.words])).toEqual([
      [toTicks(998) + 1, 9600, 14400, 'ply: one panel more'],
    ]);
    expect(found.current).toEqual({ value: 1000, cost: 14400, proven: true });
    expect(found.nearest).toEqual({
      value: 998,
      cost: 9600,
      saves: 4800,
      words: '2 mm narrower saves a panel (ply), €48.00',
    });
    expect(found.cheapest).toEqual(found.nearest);
    expect(found.points.map((p) => p.value)).toEqual([900, 950, 1000, 1050, 1100]);
  });
  it('offers a size a tape shows, and still says where the step is to the tick', () => {
    // Two panels serve up to 998.03 mm; with one decimal printed that is 998.0.
    const found = priceSteps(plan, 'only', width, byWidth(499.015625));
    expect(found.nearest!.value).toBe(998);
    expect(toTicks(found.steps[0]!.at)).toBe(2 * toTicks(499.015625) + 1);
  });
  it('says of a saving what the steps on the way to it say: no exchange at the same cost, and nothing that has no step', () => {
    // from wide to narrow: a fuse for another at the same price, then a tube less, then a panel less, all within one interval
    const evaluate: Evaluate = (p) => {
      const wide = sizeIn(p, 'a', 'width');
      const [panel, tube] = [wide > 960 ? 2 : 1, wide > 970 ? 2 : 1];
      const cost = (4800 * panel + 500 * tube + 300) as Money;
      const fuse = wide > 980 ? 'fuse 2 A' : 'fuse 1 A';
      const buys = new Map([
        ['ply', { name: 'ply', kind: 'panel' as const, count: panel }],
        ['caulk', { name: 'caulk', kind: 'pack' as const, count: tube }],
        [fuse, { name: fuse, kind: 'pack' as const, count: 1 }],
      ]);
      return { cost, bound: cost, buys };
    };
    const found = priceSteps(plan, 'only', width, evaluate);
    expect(found.steps.map((s) => [toTicks(s.at), s.before, s.after, s.words])).toEqual([
      [toTicks(960) + 1, 5600, 10_400, 'ply: one panel more'],
      [toTicks(970) + 1, 10_400, 10_900, 'caulk: one pack more'],
    ]);
    expect(found.nearest?.words).toBe('30 mm narrower saves a pack (caulk), €5.00');
    expect(found.cheapest?.words).toBe('40 mm narrower saves a panel (ply) and a pack (caulk), €53.00');
  });
  it('leaves out packs without a price, says so, and compares no size that needs others', () => {
    const screws: Evaluate = (p, effort) => ({
      ...byWidth(499)(p, effort),
      without: sizeIn(p, 'a', 'width') < 940 ? ['screw', 'glue'] : ['screw'],
    });
    const found = priceSteps(plan, 'only', width, screws);
    expect(found.without).toEqual(['screw']);
    expect(found.points.map((p) => p.cost)).toEqual([undefined, 9600, 14400, 14400, 14400]);
    expect(found.points[0]!.why).toBe('more things without a price are needed');
    expect(found.nearest!.value).toBe(998);
    expect(priceSteps(plan, 'only', width, byWidth(499)).without).toEqual([]);
  });
  it('offers nothing where nothing is saved', () => {
    const found = priceSteps(plan, 'only', width, byWidth(5000));
    expect(found.steps).toEqual([]);
    expect(found).not.toHaveProperty('nearest');
    expect(found).not.toHaveProperty('cheapest');
  });
  it('agrees with going through every tick', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60 * 640, max: 500 * 640 }),
        fc.integer({ min: 950 * 640, max: 1050 * 640 }),
        (every, from) => {
          const to = from + 640;
          const evaluate = byWidth(every / 640);
          const asked = { ...width, from: mm(from / 640), to: mm(to / 640), step: mm(1) };
          const slow: number[] = [];
          for (let t = from + 1; t <= to; t++) if (Math.ceil(t / every) !== Math.ceil((t - 1) / every)) slow.push(t);
          expect(priceSteps(plan, 'only', asked, evaluate).steps.map((s) => toTicks(s.at))).toEqual(slow);
        },
      ),
      { numRuns: 100 },
    );
  });
  it('reckons exactly only where the quick answer is not proven', () => {
    const efforts: string[] = [];
    const evaluate: Evaluate = (p, effort) => {
      efforts.push(effort);
      const wide = sizeIn(p, 'a', 'width') > 1000;
      const cost = (wide && effort === 'quick' ? 200 : 100) as Money;
      return { cost, bound: 100 as Money, buys: new Map() };
    };
    const found = priceSteps(plan, 'only', width, evaluate);
    expect(found.points.every((p) => p.cost === 100 && p.proven)).toBe(true);
    expect(efforts.filter((e) => e === 'exact')).toHaveLength(2);
    expect(found.evaluations).toBe(efforts.length);
  });
  it('takes no for an answer only after the longer search', () => {
    const truth = byWidth(499);
    const evaluate: Evaluate = (p, effort) =>
      effort === 'quick' ? { buys: new Map(), why: 'not enough', unsure: true } : truth(p, effort);
    expect(priceSteps(plan, 'only', width, evaluate).steps).toEqual(priceSteps(plan, 'only', width, truth).steps);
    const notes = [{ verdict: 'stop', title: 'not enough' }];
    const bill = { lines: [], notes, known: 0, shopping: [] } as unknown as Bill;
    const cuts = [{ job: { left: [] }, answer: { status: 'infeasible' } }] as unknown as readonly Cut[];
    expect(evaluationOf(bill, cuts, 0)).toMatchObject({ unsure: true });
    expect(evaluationOf(bill, [], 0)).not.toHaveProperty('unsure');
  });
  it('leaves a gap where a size cannot be built, and says why', () => {
    const evaluate: Evaluate = (p, effort) =>
      sizeIn(p, 'a', 'width') > 1000 ? { buys: new Map(), why: 'no panel is so wide' } : byWidth(499)(p, effort);
    const found = priceSteps(plan, 'only', width, evaluate);
    expect(found.points.at(-1)).toEqual({ value: 1100, proven: false, why: 'no panel is so wide' });
    expect(found.nearest!.value).toBe(998);
  });
  it.each([
    { ...width, step: mm(0) },
    { ...width, to: mm(900) },
    { ...width, to: mm(900 + MOST_POINTS + 1), step: mm(1) },
    { ...width, piece: 'nobody' },
  ])('refuses %j', (asked) => {
    expect(() => priceSteps(plan, 'only', asked, byWidth(499))).toThrow(RangeError);
  });
});

it('while it looks for a step, lets quick bounds decide, and finds the same step', () => {
  const truth = byWidth(499);
  for (const spread of [0, 1, 4800, 20_000]) {
    let exact = 0;
    const evaluate: Evaluate = (p, effort) => {
      const there = truth(p, 'exact');
      if (effort === 'exact') {
        exact++;
        return { ...there, bound: (there.cost! - 1) as Money };
      }
      return {
        ...there,
        cost: (there.cost! + Math.min(spread, 4000)) as Money,
        bound: (there.cost! - spread) as Money,
      };
    };
    const found = priceSteps(plan, 'only', width, evaluate);
    expect(found.steps.map((s) => [toTicks(s.at), s.before, s.after])).toEqual([[toTicks(998) + 1, 9600, 14400]]);
    // With bounds closer than the step only the five points, the offer and the step itself are reckoned exactly.
    if (spread > 0 && spread < 4800) expect(exact).toBeLessThan(5 + 15);
  }
});

it('tells an exchange as what it is', () => {
  const evaluate: Evaluate = (p) => {
    const wide = sizeIn(p, 'a', 'width') > 950;
    const cost = (wide ? 10_000 : 9000) as Money;
    const small = { name: 'ply, small', kind: 'panel' as const, count: wide ? 3 : 1 };
    const large = { name: 'ply, large', kind: 'panel' as const, count: wide ? 1 : 2 };
    return { cost, bound: cost, buys: new Map(Object.entries({ small, large })) };
  };
  const found = priceSteps(plan, 'only', width, evaluate);
  expect(found.nearest!.words).toBe('50 mm narrower saves 2 panels (ply, small) for one more (ply, large), €10.00');
  expect(found.steps[0]!.words).toBe('ply, small: 2 panels more; ply, large: one panel less');
});

it('compares materials', () => {
  const prices: Readonly<Record<string, number>> = { birch: 9000, mdf: 5200, oak: 20_000 };
  const evaluate: Evaluate = (p) => {
    const c = p.options[0]!.pieces[1]!;
    const cost = prices[('make' in c && c.make?.panel) || 'birch'] as Money;
    return { cost, bound: cost, buys: new Map() };
  };
  const made = { ...plan, make: { ...plan.make, panel: 'birch' } };
  const found = priceSteps(
    made,
    'only',
    { piece: 'c', dimension: 'material', choices: ['birch', 'mdf', 'oak'] },
    evaluate,
  );
  expect(found.points.map((p) => p.cost)).toEqual([9000, 5200, 20_000]);
  expect(found.cheapest).toMatchObject({ value: 'mdf', saves: 3800, words: 'mdf instead of birch saves €38.00' });
});

it('changes nothing of a plan but the size asked for', () => {
  const there = varied(plan, 'only', 'a', { dimension: 'width', value: mm(950) });
  expect(sizeIn(there, 'a', 'width')).toBe(950);
  expect(there.options[0]!.pieces[1]).toBe(plan.options[0]!.pieces[1]);
  expect(there.stock).toBe(plan.stock);
  expect(sizeIn(plan, 'a', 'width')).toBe(1000);
});

it('bounds a cost from below by what the cutting plans may still save, its tax, and a unit of rounding for each supplier', () => {
  const bill = { lines: [], notes: [], total: 50_000, known: 50_000, shopping: [{}, {}] } as unknown as Bill;
  const cut = (status: string, cost: number, bound: number) =>
    ({ job: { left: [] }, answer: { status, cost, bound } }) as unknown as Cut;
  expect(evaluationOf(bill, [cut('optimal', 9000, 9000)], 20)).toMatchObject({ cost: 50_000, bound: 50_000 });
  // 50,000 − (9,000 − 5,000) · 1.20 − 2; what is proven saves nothing
  const open = [cut('feasible', 9000, 5000), cut('optimal', 7000, 7000)];
  expect(evaluationOf(bill, open, 20).bound).toBe(45_198);
  expect(evaluationOf(bill, [cut('feasible', 90_000, 0)], 20).bound).toBe(0);
});
