import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkLengths } from '../check.ts';
import type { Effort, LengthAnswer, LengthProblem } from '../problem.ts';
import { leastCost } from './brute.testing.ts';
import { solveLengths } from './index.ts';
import { PUBLISHED } from './published.testing.ts';

const effort: Effort = { steps: 20_000 };
const costOf = (answer: LengthAnswer): number =>
  answer.status === 'infeasible' ? Number.POSITIVE_INFINITY : answer.cost;

/** At most eight parts on two kinds of board, one of which may run out, may have knots, and may come off the rack for nothing. */
const smallProblem = (ends: fc.Arbitrary<readonly [number, number] | undefined>): fc.Arbitrary<LengthProblem> =>
  fc
    .record({
      kerf: fc.constantFrom(0, 3, 3.2, 10),
      trim: fc.constantFrom(0, 5, 20.5),
      boards: fc.array(
        fc.record({
          length: fc.integer({ min: 500, max: 1500 }),
          cost: fc.constantFrom(0, 1, 2.5, 3, 4.75, 7),
          count: fc.constantFrom(null, null, 1, 2),
          knot: fc.option(fc.record({ from: fc.integer({ min: 0, max: 900 }), long: fc.constantFrom(1, 40, 200) })),
        }),
        { minLength: 1, maxLength: 3 },
      ),
      parts: fc.array(
        fc.record({ length: fc.integer({ min: 150, max: 700 }), count: fc.constantFrom(1, 1, 2), ends }),
        {
          minLength: 1,
          maxLength: 4,
        },
      ),
    })
    .map(({ kerf, trim, boards, parts }) => ({
      name: 'small',
      kind: 'lengths',
      kerf,
      trim,
      stock: boards.map(({ length, cost, count, knot }, i) => ({
        id: `b${i}`,
        length,
        cost,
        count,
        ...(knot && { unusable: [{ from: knot.from, to: knot.from + knot.long }] }),
      })),
      parts: parts.map(({ length, count, ends }, i) => ({
        id: `p${i}`,
        length,
        count,
        ...(ends && { ends, faceWidth: 40 }),
      })),
    }));

describe('solveLengths', () => {
  // Source of each: published.testing.ts.
  it.each(PUBLISHED)('cuts $problem.name from $optimum boards and proves it ($source)', ({ problem, optimum }) => {
    const answer = solveLengths(problem, { steps: 300_000 });
    expect(answer).toMatchObject({ status: 'optimal', cost: optimum, bound: optimum });
    expect(checkLengths(problem, answer)).toEqual([]);
  });

  it('finds the least cost of all, with knots, trims, racks and several prices, and proves it', () => {
    fc.assert(
      fc.property(smallProblem(fc.constant(undefined)), (problem) => {
        const answer = solveLengths(problem, effort);
        expect(checkLengths(problem, answer)).toEqual([]);
        expect(costOf(answer)).toBeCloseTo(leastCost(problem), 9);
        if (answer.status !== 'infeasible') expect(answer.status).toBe('optimal');
      }),
      { numRuns: 300 },
    );
  });

  it('shares every cut between equal mitres at the least cost of all', () => {
    fc.assert(
      fc.property(smallProblem(fc.constantFrom([45, 45] as const)), (problem) => {
        const answer = solveLengths(problem, effort);
        expect(checkLengths(problem, answer)).toEqual([]);
        expect(costOf(answer)).toBeCloseTo(leastCost(problem), 9);
      }),
      { numRuns: 150 },
    );
  });

  it('with ends of all sorts lays out soundly and claims nothing that trying everything refutes', () => {
    const anyEnds = fc.constantFrom(
      undefined,
      [0, 45] as const,
      [45, 45] as const,
      [22.5, 45] as const,
      [30, 0] as const,
    );
    fc.assert(
      fc.property(smallProblem(anyEnds), (problem) => {
        const answer = solveLengths(problem, { steps: 1_000 });
        expect(checkLengths(problem, answer)).toEqual([]);
        const least = leastCost(problem);
        if (answer.status === 'infeasible') return;
        expect(answer.cost).toBeGreaterThanOrEqual(least - 1e-9);
        expect(answer.bound).toBeLessThanOrEqual(least + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  /** A workshop's order: many parts, a few boards. */
  const anyOrder: fc.Arbitrary<LengthProblem> = fc
    .record({
      kerf: fc.constantFrom(0, 3.175, 3.2),
      parts: fc.array(
        fc.record({ length: fc.integer({ min: 800, max: 20_000 }), count: fc.integer({ min: 1, max: 12 }) }),
        {
          minLength: 1,
          maxLength: 30,
        },
      ),
    })
    .map(({ kerf, parts }) => ({
      name: 'order',
      kind: 'lengths',
      kerf,
      trim: 5,
      stock: [
        { id: 'short', length: 2400, cost: 9, count: null },
        { id: 'long', length: 3600, cost: 12.5, count: null },
        { id: 'rack', length: 1800, cost: 0, count: 2 },
      ],
      // Tenths of a millimetre.
      parts: parts.map(({ length, count }, i) => ({ id: `p${i}`, length: length / 10, count })),
    }));

  it('answers any order soundly, whatever the effort', () => {
    fc.assert(
      fc.property(anyOrder, fc.constantFrom(0, 1, 50, 800), (problem, steps) => {
        expect(checkLengths(problem, solveLengths(problem, { steps }))).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });
  it('never does worse with more effort, and reports ever better answers, each sound', () => {
    fc.assert(
      fc.property(anyOrder, (problem) => {
        const told: LengthAnswer[] = [];
        const answer = solveLengths(problem, { steps: 600, onBetter: (better) => told.push(better as LengthAnswer) });
        expect(costOf(answer)).toBeLessThanOrEqual(costOf(solveLengths(problem, { steps: 100 })) + 1e-9);
        for (const better of told) expect(checkLengths(problem, better)).toEqual([]);
        told.slice(1).forEach((better, i) => {
          expect(costOf(better)).toBeLessThan(costOf(told[i]!));
        });
        expect(costOf(told.at(-1)!)).toBe(costOf(answer));
      }),
      { numRuns: 15 },
    );
  });
  it('gives the same answer to the same question', () => {
    fc.assert(
      fc.property(anyOrder, (problem) => {
        expect(solveLengths(problem, { steps: 300 })).toEqual(solveLengths(problem, { steps: 300 }));
      }),
      { numRuns: 10 },
    );
  });
  it('costs no less when a part is added and no more when a board gets cheaper', () => {
    fc.assert(
      fc.property(smallProblem(fc.constant(undefined)), fc.integer({ min: 150, max: 400 }), (problem, length) => {
        const cost = costOf(solveLengths(problem, effort));
        const more = { ...problem, parts: [...problem.parts, { id: 'extra', length, count: 1 }] };
        expect(costOf(solveLengths(more, effort))).toBeGreaterThanOrEqual(cost - 1e-9);
        const cheaper = { ...problem, stock: problem.stock.map((stock) => ({ ...stock, cost: stock.cost / 2 })) };
        expect(costOf(solveLengths(cheaper, effort))).toBeCloseTo(cost / 2, 9);
      }),
      { numRuns: 100 },
    );
  });

  it('stops when told, with the best so far', () => {
    const { problem } = PUBLISHED.find(({ problem: { name } }) => name.startsWith('Hard28'))!;
    let asked = 0;
    const answer = solveLengths(problem, { steps: 1e9, shouldStop: () => ++asked > 20 });
    expect(answer).toMatchObject({ status: 'feasible', cutShort: true });
    expect(checkLengths(problem, answer)).toEqual([]);
  });

  it('says nothing untrue at whatever moment it is stopped, in the middle of a proof too', () => {
    // Hard28 instances are settled by the tree; source: published.testing.ts.
    const { problem, optimum } = PUBLISHED.find(({ problem: { name } }) => name.startsWith('Hard28'))!;
    const stopAt = (moment: number): { readonly answer: LengthAnswer; readonly asked: number } => {
      let asked = 0;
      const answer = solveLengths(problem, { steps: 300_000, shouldStop: () => ++asked >= moment });
      return { answer, asked };
    };
    const { asked } = stopAt(Number.POSITIVE_INFINITY);
    for (let share = 1; share > 1e-3; share *= 0.6) {
      const { answer } = stopAt(Math.ceil(share * (asked - 1)));
      expect(checkLengths(problem, answer)).toEqual([]);
      if (answer.status === 'infeasible') throw new Error('a plan is there from the first moment');
      expect(answer.bound).toBeLessThanOrEqual(optimum);
      if (answer.status === 'optimal') expect(answer.cost).toBe(optimum);
    }
  });

  const plain: LengthProblem = {
    name: 'x',
    kind: 'lengths',
    kerf: 3,
    trim: 0,
    stock: [{ id: 'b', length: 2400, cost: 9, count: 2 }],
    parts: [{ id: 'p', length: 700, count: 3 }],
  };
  const part = (over: object): LengthProblem => ({ ...plain, parts: [{ ...plain.parts[0]!, ...over }] });
  const stock = (over: object): LengthProblem => ({ ...plain, stock: [{ ...plain.stock[0]!, ...over }] });
  it.each<[string, LengthProblem, string]>([
    ['zero', part({ length: 0 }), 'part p has no usable length'],
    ['negative', part({ length: -1 }), 'part p has no usable length'],
    ['not a number', part({ length: Number.NaN }), 'part p has no usable length'],
    ['endless', part({ length: Number.POSITIVE_INFINITY }), 'part p has no usable length'],
    ['a count below nothing', part({ count: -1 }), 'part p has no usable count'],
    ['smaller than a tick', part({ length: 1e-9 }), 'part p is smaller than can be measured'],
    ['beyond all measure', part({ length: 1e300 }), 'part p is longer than can be cut exactly'],
    [
      'a list of a hundred thousand rows',
      { ...plain, parts: Array.from({ length: 100_000 }, (_, i) => ({ ...plain.parts[0]!, id: `p${i}` })) },
      'the list is too long',
    ],
    ['half a part', part({ count: 1.5 }), 'part p has no usable count'],
    ['two million parts', part({ count: 2_000_000 }), 'too many parts in all'],
    ['too long', part({ length: 2400.1 }), 'part p is longer than every usable stretch of stock'],
    ['too many', part({ count: 7 }), 'all the stock together is too short for the parts'],
    ['too many by a hair', part({ length: 1200, count: 3 }), 'the parts cannot be cut from the stock there is'],
    ['no stock', { ...plain, stock: [] }, 'there is no stock to cut from'],
    ['stock of which there is none', stock({ count: 0 }), 'there is no stock to cut from'],
    ['all trim', { ...plain, trim: 1200 }, 'trim and unusable stretches leave nothing of any stock'],
    ['stock of no length', stock({ length: 0 }), 'stock b has no usable length'],
    ['a price below nothing', stock({ cost: -1 }), 'stock b has no usable cost'],
    ['stock below nothing', stock({ count: -1 }), 'stock b has no usable count'],
    [
      'a knot that ends before it begins',
      stock({ unusable: [{ from: 9, to: 3 }] }),
      'an unusable stretch must end after it begins',
    ],
    [
      'a knot from before its board',
      stock({ unusable: [{ from: -5, to: 3 }] }),
      'an unusable stretch begins before its board does',
    ],
    [
      'a knot that is nowhere',
      stock({ unusable: [{ from: Number.NaN, to: 3 }] }),
      'an unusable stretch has no usable beginning or end',
    ],
    ['a kerf below nothing', { ...plain, kerf: -1 }, 'the kerf must be zero or more'],
    ['a trim that is no number', { ...plain, trim: Number.NaN }, 'the trim must be zero or more'],
    ['one name twice', { ...plain, parts: [plain.parts[0]!, plain.parts[0]!] }, 'two parts have one name'],
    ['a mitre without a face', part({ ends: [45, 45] }), 'part p is mitred; the width of its face is missing'],
    [
      'mitres that cross',
      part({ ends: [45, 45], faceWidth: 400 }),
      'the mitres of part p cross each other: it is too short',
    ],
  ])('refuses: %s', (_, problem, message) => {
    const answer = solveLengths(problem, effort);
    expect(answer.status).toBe('infeasible');
    expect(answer.status === 'infeasible' && answer.issues.map((issue) => issue.message)).toContain(message);
  });

  const many = { ...stock({ count: null }), parts: [{ id: 'p', length: 700, count: 40 }] };
  it.each<[string, Partial<LengthProblem>, object]>([
    ['a blade wider than the parts', { kerf: 800 }, { status: 'optimal', cost: 20 * 9 }],
    ['a blade wider than everything', { kerf: 1e300 }, { status: 'optimal', cost: 40 * 9 }],
    ['a part asked for no times', { parts: [...many.parts, { id: 'q', length: 9, count: 0 }] }, { status: 'optimal' }],
    // One price was rounded to a millionth of itself, so that whole boards no longer rounded the bound up.
    ['a price beyond counting', { stock: [{ ...many.stock[0]!, cost: 1e300 }] }, { status: 'optimal' }],
    ['a price of next to nothing', { stock: [{ ...many.stock[0]!, cost: 1e-9 }] }, { status: 'optimal' }],
    ['a price of a third', { stock: [{ ...many.stock[0]!, cost: 100 / 3 }] }, { status: 'optimal' }],
    [
      'two hundred thousand parts on one board',
      { kerf: 0, parts: [{ id: 'p', length: 1 / 640, count: 200_000 }] },
      { status: 'optimal', cost: 9 },
    ],
  ])('answers soundly: %s', (_, over, expected) => {
    const problem = { ...many, ...over };
    const answer = solveLengths(problem, effort);
    expect(answer).toMatchObject(expected);
    expect(checkLengths(problem, answer)).toEqual([]);
  });

  it('cuts nothing from nothing', () => {
    expect(solveLengths({ ...plain, parts: [] }, effort)).toMatchObject({ status: 'optimal', cost: 0, layouts: [] });
  });
  it('takes a million parts of one length without ado', () => {
    const problem = { ...stock({ count: null }), parts: [{ id: 'p', length: 700, count: 1_000_000 }] };
    // Three to a board: ⌈10⁶/3⌉ boards.
    expect(solveLengths(problem, effort)).toMatchObject({ status: 'optimal', cost: 9 * 333_334 });
  });
});
