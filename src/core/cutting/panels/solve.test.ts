import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPanels } from '../check.ts';
import type { PanelAnswer, PanelProblem } from '../problem.ts';
import { anyPanelProblem } from './problems.testing.ts';
import { solvePanels } from './solve.ts';

const sheet = { id: 'sheet', length: 2440, width: 1220, cost: 48, count: null };
const problem = (over: Partial<PanelProblem>): PanelProblem => ({
  name: 'test',
  kind: 'panels',
  kerf: 3.2,
  trim: 0,
  stock: [sheet],
  parts: [],
  ...over,
});

describe('solvePanels', () => {
  it('gives plans that can be cut, complete and at the cost they say, whatever the job', () => {
    fc.assert(
      fc.property(anyPanelProblem(), (any) => {
        const answer = solvePanels(any, { steps: 200 });
        expect(answer.status).not.toBe('infeasible');
        expect(checkPanels(any, answer)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  // Two layouts of one pattern once lost the parts of one of them where a few sheets were cut anew, and the cheaper "plan" was called
  // optimal. Sizes: Pisinger & Sigurd, Discrete Optimization 2, 2005, instance 46 of class 1; here at the price of their area.
  it('loses no part where sheets of several sizes are cut anew by the few', () => {
    const sizes = (text: string): readonly (readonly [number, number])[] =>
      text.split(' ').map((size) => size.split('x').map(Number) as [number, number]);
    const any = problem({
      kerf: 0,
      stock: sizes('10x10 7x7 7x6 6x8 8x8').map(([length, width], i) => ({
        id: `s${i}`,
        length,
        width,
        cost: length * width,
        count: null,
      })),
      parts: sizes(
        '8x8 8x3 5x5 2x3 4x9 10x8 2x9 6x5 10x1 7x6 3x2 6x5 8x4 6x10 7x10 5x2 4x8 4x5 7x10 9x7 7x10 5x9 8x6 5x6 8x9 3x6 ' +
          '9x3 7x9 4x6 8x10 2x10 1x8 3x8 2x2 3x9 4x7 8x4 10x1 10x6 9x6 3x4 2x6 6x9 2x8 9x6 8x3 6x2 2x7 6x8 6x6 10x8 10x3 ' +
          '2x1 4x10 9x8 3x7 4x3 4x4 9x3 9x6 4x1 2x10 10x10 10x8 9x8 6x4 2x6 3x6 8x9 9x5 2x5 5x5 2x4 6x4 8x1 10x3 7x4 7x7 ' +
          '4x4 2x4 1x5 3x4 4x5 1x3 8x6 10x7 7x1 9x8 3x9 8x10 5x10 1x2 4x10 7x3 5x5 6x10 4x7 4x9 4x1 7x1',
      ).map(([length, width], i) => ({ id: `p${i}`, length, width, count: 1 })),
    });
    const answer = solvePanels(any, { steps: 12_000 });
    expect(answer.status).not.toBe('infeasible');
    expect(checkPanels(any, answer)).toEqual([]);
  });

  it('gives the same answer for the same steps, and never a worse one for more', () => {
    fc.assert(
      fc.property(anyPanelProblem(8), (any) => {
        const [a, b] = [solvePanels(any, { steps: 150 }), solvePanels(any, { steps: 150 })];
        expect(b).toEqual(a);
        const more = solvePanels(any, { steps: 600 });
        if (a.status !== 'infeasible' && more.status !== 'infeasible') {
          expect(more.cost).toBeLessThanOrEqual(a.cost);
          expect(more.bound).toBeLessThanOrEqual(a.cost);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('tells of every better answer, each sound and cheaper than the last, and ends with the best', () => {
    fc.assert(
      fc.property(anyPanelProblem(), (any) => {
        const told: PanelAnswer[] = [];
        const last = solvePanels(any, { steps: 300, onBetter: (answer) => told.push(answer as PanelAnswer) });
        const costs = told.map((answer) => (answer.status === 'infeasible' ? Number.NaN : answer.cost));
        for (const answer of told) expect(checkPanels(any, answer)).toEqual([]);
        for (let i = 1; i < costs.length; i++) expect(costs[i]!).toBeLessThan(costs[i - 1]!);
        if (last.status !== 'infeasible') expect(costs.at(-1)).toBe(last.cost);
      }),
      { numRuns: 40 },
    );
  });

  it('says one cost for one plan, in whatever order its layouts stand', () => {
    // 12.35 + 12.35 + 48 + 48 and the other way round differ in the last digit; the answer told early and the last one did so.
    const any = problem({
      kerf: 0,
      stock: [
        { id: 'rack', length: 463, width: 300, cost: 12.35, count: null },
        { ...sheet, id: 'full' },
      ],
      parts: [
        { id: 'p0', length: 98, width: 148, count: 5 },
        { id: 'p1', length: 1073, width: 730, count: 6, turn: true },
        { id: 'p2', length: 463, width: 153, count: 5, turn: true },
        { id: 'p3', length: 20, width: 20, count: 1 },
      ],
    });
    const told: PanelAnswer[] = [];
    const last = solvePanels(any, { steps: 300, onBetter: (answer) => told.push(answer as PanelAnswer) });
    expect(last.status === 'infeasible' ? undefined : last.cost).toBe(2 * 12.35 + 2 * 48);
    expect(told.at(-1)).toMatchObject({ cost: 2 * 12.35 + 2 * 48 });
  });

  it('stops when asked, with a whole plan and the word that it was cut short', () => {
    const parts = Array.from({ length: 60 }, (_, i) => ({
      id: `p${i}`,
      length: 501 + 37 * (i % 17),
      width: 303 + 29 * (i % 11),
      count: 1,
    }));
    let asked = 0;
    const answer = solvePanels(problem({ parts }), { steps: Number.POSITIVE_INFINITY, shouldStop: () => ++asked > 20 });
    expect(asked).toBeGreaterThan(20);
    expect(answer).toMatchObject({ status: 'feasible', cutShort: true });
    expect(checkPanels(problem({ parts }), answer)).toEqual([]);
  });

  it('has a whole plan at whatever moment it is stopped, before the first fill is done too', () => {
    fc.assert(
      fc.property(anyPanelProblem(40), fc.integer({ min: 1, max: 60 }), (any, moment) => {
        let asked = 0;
        const answer = solvePanels(any, {
          steps: Number.POSITIVE_INFINITY,
          shouldStop: () => ++asked >= moment,
        });
        expect(answer.status).not.toBe('infeasible');
        expect(checkPanels(any, answer)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  it('just fits: kerf between parts, none at the edge, trim all round', () => {
    // 3 × 811.2 + 2 × 3.2 = 2440 and 1220 = 608.4 × 2 + 3.2.
    const tight = problem({ parts: [{ id: 'p', length: 811.2, width: 608.4, count: 6 }] });
    expect(solvePanels(tight, { steps: 10 })).toMatchObject({ status: 'optimal', cost: 48 });
    const trimmed = problem({ trim: 10, parts: [{ id: 'p', length: 2420, width: 1200, count: 1 }] });
    expect(solvePanels(trimmed, { steps: 10 })).toMatchObject({ status: 'optimal', cost: 48 });
    const over = problem({ trim: 10, parts: [{ id: 'p', length: 2420.1, width: 1200, count: 1 }] });
    expect(solvePanels(over, { steps: 10 })).toMatchObject({ status: 'infeasible' });
  });

  it('keeps the grain, and turns only what may turn', () => {
    const across = { id: 'p', length: 1000, width: 2000, count: 1 };
    expect(solvePanels(problem({ parts: [across] }), { steps: 1 }).status).toBe('infeasible');
    expect(solvePanels(problem({ parts: [{ ...across, turn: true }] }), { steps: 1 })).toMatchObject({
      status: 'optimal',
      layouts: [{ placed: [{ length: 2000, width: 1000 }] }],
    });
  });

  it('uses the rack first when it costs nothing', () => {
    const answer = solvePanels(
      problem({
        stock: [sheet, { id: 'offcut', length: 700, width: 500, cost: 0, count: 1 }],
        parts: [{ id: 'p', length: 600, width: 400, count: 1 }],
      }),
      { steps: 100 },
    );
    expect(answer).toMatchObject({ status: 'optimal', cost: 0, layouts: [{ stock: 'offcut', times: 1 }] });
  });

  it('says what is wrong with a job that cannot be cut', () => {
    const part = { id: 'p', length: 100, width: 100, count: 1 };
    const bad: readonly [string, Partial<PanelProblem>][] = [
      ['zero', { parts: [{ ...part, length: 0 }] }],
      ['negative', { parts: [{ ...part, width: -5 }] }],
      ['NaN', { parts: [{ ...part, width: Number.NaN }] }],
      ['endless', { parts: [{ ...part, width: Number.POSITIVE_INFINITY }] }],
      ['half a part', { parts: [{ ...part, count: 1.5 }] }],
      ['minus one part', { parts: [{ ...part, count: -1 }] }],
      ['more than a million parts', { parts: [{ ...part, count: 1_000_001 }] }],
      [
        'a list of a hundred thousand rows',
        { parts: Array.from({ length: 100_000 }, (_, i) => ({ ...part, id: `p${i}` })) },
      ],
      ['smaller than a tick', { parts: [{ ...part, width: 1e-9 }] }],
      ['beyond all measure', { parts: [{ ...part, width: 1e300 }] }],
      ['endlessly many', { parts: [{ ...part, count: Number.POSITIVE_INFINITY }] }],
      ['a part too large', { parts: [{ ...part, length: 2441 }] }],
      ['no stock', { stock: [], parts: [part] }],
      ['stock of nothing', { stock: [{ ...sheet, count: 0 }], parts: [part] }],
      ['a bad cost', { stock: [{ ...sheet, cost: -1 }], parts: [part] }],
      ['a bad kerf', { kerf: Number.NaN, parts: [part] }],
      ['all trim', { trim: 700, parts: [part] }],
      ['two parts of one name', { parts: [part, part] }],
      ['too few sheets', { stock: [{ ...sheet, count: 1 }], parts: [{ ...part, length: 1300, count: 30 }] }],
      [
        'too few sheets, by shape',
        { stock: [{ ...sheet, count: 1 }], parts: [{ ...part, length: 1300, width: 700, count: 2 }] },
      ],
    ];
    for (const [what, over] of bad) {
      const answer = solvePanels(problem(over), { steps: 50 });
      expect(answer.status, what).toBe('infeasible');
      if (answer.status === 'infeasible') expect(answer.issues.length, what).toBeGreaterThan(0);
    }
  });

  const few = { id: 'p', length: 600, width: 300, count: 40 };
  it.each<[string, Partial<PanelProblem>, object]>([
    ['a blade wider than the parts', { kerf: 700, parts: [few] }, { status: 'optimal', cost: 20 * 48 }],
    ['a blade wider than everything', { kerf: 1e300, parts: [few] }, { status: 'optimal', cost: 40 * 48 }],
    ['a part asked for no times', { parts: [few, { ...few, id: 'q', count: 0 }] }, { status: 'optimal' }],
    // A sheet for parts that weigh nothing beside it: the bound was none at all.
    [
      'dust',
      { kerf: 0, parts: [{ id: 'p', length: 1 / 640, width: 1 / 640, count: 5 }] },
      { status: 'optimal', cost: 48, bound: 48 },
    ],
    // Costs were rounded to a millionth, and the sum was no longer that of the sheets.
    ['a price of a third', { stock: [{ ...sheet, cost: 100 / 3 }], parts: [few] }, { status: 'optimal' }],
    ['a price of next to nothing', { stock: [{ ...sheet, cost: 1e-9 }], parts: [few] }, { status: 'optimal' }],
    [
      'prices with no common measure',
      {
        stock: [
          { ...sheet, cost: Math.PI },
          { ...sheet, id: 'half', length: 1220, cost: Math.E },
        ],
        parts: [few],
      },
      { status: 'feasible' },
    ],
    ['a price beyond counting', { stock: [{ ...sheet, cost: 1e300 }], parts: [few] }, { status: 'optimal' }],
    ['a million parts', { parts: [{ ...few, count: 1_000_000 }] }, {}],
  ])('answers soundly: %s', (_, over, expected) => {
    const answer = solvePanels(problem(over), { steps: 300 });
    expect(answer).toMatchObject(expected);
    expect(answer.status).not.toBe('infeasible');
    expect(checkPanels(problem(over), answer)).toEqual([]);
  });

  it('needs no sheet for no parts, nor any stock', () => {
    expect(solvePanels(problem({}), { steps: 1 })).toMatchObject({ status: 'optimal', cost: 0, layouts: [] });
    expect(solvePanels(problem({ stock: [] }), { steps: 1 })).toMatchObject({ status: 'optimal', cost: 0 });
  });
});
