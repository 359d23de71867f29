import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPanels, solveLengths, solvePanels } from '../cutting/index.ts';
import { fromTicks } from '../quantity/index.ts';
import type { Part } from '../scene/index.ts';
import { cutJobs, kerfOf, realLayouts, toLengthProblem, toPanelProblem } from './jobs.ts';
import { partOf, stockPlan } from './stock.testing.ts';

const sheet = { length: 2440, width: 1220, price: 48 };
const plan = stockPlan({
  stock: {
    panels: [
      { id: 'ply', thickness: 18, sizes: [sheet, { length: 1220, width: 1220, price: 27 }] },
      { id: 'across', thickness: 18, grain: 'width', sizes: [sheet] },
      { id: 'mdf', thickness: 18, grain: 'none', sizes: [sheet] },
      { id: 'unsold', thickness: 18 },
      {
        id: 'unpriced',
        thickness: 18,
        sizes: [
          { length: 2440, width: 1220 },
          { length: 1000, width: 1000, price: 10 },
        ],
      },
    ],
    boards: [
      {
        id: 'pine',
        nominal: '1x4',
        lengths: [
          { length: 2400, price: 9 },
          { length: 3000, price: 12 },
        ],
      },
    ],
    rack: [
      { id: 'rest', stock: 'ply', length: 800, width: 400 },
      { stock: 'pine', length: 1500, count: 2 },
    ],
  },
  shop: { kerf: 3, trim: 10, ends: 20 },
});

describe('panels', () => {
  it('states sizes sold, the rack first and for nothing, and merges parts of one size', () => {
    const parts = [
      partOf('a/side', 'ply', 700, 400),
      partOf('b/side', 'ply', 700, 400),
      partOf('a/free', 'ply', 700, 400, { grain: 'free' }),
      partOf('c/x', 'mdf', 1, 1),
    ];
    const job = toPanelProblem(parts, plan, 'ply');
    expect(job.problem).toEqual({
      name: 'ply',
      kind: 'panels',
      kerf: 3,
      trim: 10,
      stock: [
        { id: 'rack rest', length: 820, width: 420, cost: 0, count: 1 },
        { id: 'ply#1', length: 2440, width: 1220, cost: 4800, count: null },
        { id: 'ply#2', length: 1220, width: 1220, cost: 2700, count: null },
      ],
      parts: [
        { id: 'a/side', length: 700, width: 400, count: 2 },
        { id: 'a/free', length: 700, width: 400, count: 1, turn: true },
      ],
    });
    expect(job.members.get('a/side')).toEqual(['a/side', 'b/side']);
  });
  it('turns everything on a panel without grain, and exchanges the sides of one whose grain runs across', () => {
    expect(toPanelProblem([partOf('a/x', 'mdf', 700, 400)], plan, 'mdf').problem.parts[0]!.turn).toBe(true);
    const across = toPanelProblem(
      [partOf('a/x', 'across', 1200, 400), partOf('a/y', 'across', 1300, 400)],
      plan,
      'across',
    );
    expect(across.problem.stock[0]).toMatchObject({ length: 1220, width: 2440 });
    expect(across.left).toEqual(['a/y']); // 1300 along the grain is more than the panel is wide
    expect(across.notes.map((n) => n.id)).toEqual(['too-large:a/y']);
    expect(across.notes[0]!.title).toMatch(/but does turned/);
  });
  it('fits a part that fills the trimmed panel to the tick, and not one tick more', () => {
    const full = toPanelProblem([partOf('a/x', 'ply', 2420, 1200)], plan, 'ply');
    expect(full.left).toEqual([]);
    const more = toPanelProblem([partOf('a/x', 'ply', 2420 + fromTicks(1), 1200)], plan, 'ply');
    expect(more.notes.map((n) => [n.id, n.verdict])).toEqual([['too-large:a/x', 'stop']]);
    expect(more.problem.parts).toEqual([]);
  });
  it('says that nobody sells it', () => {
    const job = toPanelProblem([partOf('a/x', 'unsold', 100, 100)], plan, 'unsold');
    expect(job.notes.map((n) => n.id)).toEqual(['not-sold:unsold']);
  });
  it('plans without what has no price, unless only that will do', () => {
    expect(
      toPanelProblem([partOf('a/x', 'unpriced', 900, 900)], plan, 'unpriced').problem.stock.map((s) => s.id),
    ).toEqual(['unpriced#2']);
    const large = toPanelProblem([partOf('a/x', 'unpriced', 2000, 900)], plan, 'unpriced').problem.stock;
    expect(large.map((s) => s.id)).toEqual(['unpriced#1', 'unpriced#2']);
    // Weighed at the price by area of what is known: 10.00 for a square metre.
    expect(large[0]!.cost).toBe(Math.ceil(1000 * 2.44 * 1.22));
  });
  it('takes what has no price where there may be too few of what has one, and only then', () => {
    const size = { length: 2440, width: 1220 };
    const few = (count: number) =>
      stockPlan({
        stock: {
          panels: [{ id: 'ply', thickness: 18, sizes: [{ ...size, price: 50, count }, size] }],
          boards: [
            { id: 'lath', thickness: 9, width: 45, lengths: [{ length: 2400, price: 2, count }, { length: 2400 }] },
          ],
        },
      });
    const cut = (count: number, wanted: number, width = 1200, length = 2400) => {
      const parts = Array.from({ length: wanted }, (_, i) => partOf(`a/${i}`, 'ply', length, width));
      const laths = parts.map(({ id }) => partOf(`${id} lath`, 'lath', length, 45));
      const { problem } = toPanelProblem(parts, few(count), 'ply');
      const boards = toLengthProblem(laths, few(count), 'lath').problem;
      return [solvePanels(problem, { steps: 50 }), solveLengths(boards, { steps: 50 })].map((answer) =>
        answer.status === 'infeasible' ? answer.issues : answer.layouts.map((l) => `${l.times} ${l.stock}`),
      );
    };
    expect(cut(1, 2)).toEqual([
      ['1 ply#1', '1 ply#2'],
      ['1 lath#1', '1 lath#2'],
    ]);
    expect(cut(2, 2)).toEqual([['2 ply#1'], ['2 lath#1']]);
    expect(cut(2, 4, 600, 1200)).toEqual([['1 ply#1'], ['2 lath#1']]);
  });
  it('tells an offcut without a name from one that is called what its place would be', () => {
    const rack = [
      { id: 'offcut 2', stock: 'ply', length: 600, width: 400 },
      { stock: 'ply', length: 700, width: 400 },
    ];
    const two = stockPlan({ stock: { panels: [{ id: 'ply', thickness: 18, sizes: [sheet] }], rack } });
    const { problem } = toPanelProblem([partOf('a/x', 'ply', 650, 300)], two, 'ply');
    expect(solvePanels(problem, { steps: 50 })).toMatchObject({ cost: 0, layouts: [{ stock: 'rack offcut 4' }] });
  });
  it('says that an offcut without a width is not used', () => {
    const rack = stockPlan({
      stock: { panels: [{ id: 'ply', thickness: 18, sizes: [sheet] }], rack: [{ stock: 'ply', length: 900 }] },
    });
    expect(toPanelProblem([partOf('a/x', 'ply', 100, 100)], rack, 'ply').notes.map((n) => n.id)).toEqual([
      'rack-width:offcut 1',
    ]);
  });
  it('is a bug to ask for a panel the plan does not have', () => {
    expect(() => toPanelProblem([], plan, 'gold')).toThrow(RangeError);
  });
});

describe('boards', () => {
  it('states lengths sold, the rack, and merges by length', () => {
    const parts = [
      partOf('a/rail', 'pine', 700, 60, { from: 'board' }),
      partOf('b/rail', 'pine', 700, 89, { from: 'board' }),
      partOf('b/long', 'pine', 2990, 89, { from: 'board' }),
    ];
    const job = toLengthProblem(parts, plan, 'pine');
    expect(job.problem).toEqual({
      name: 'pine',
      kind: 'lengths',
      kerf: 3,
      trim: 20,
      stock: [
        { id: 'rack offcut 2', length: 1540, cost: 0, count: 2 },
        { id: 'pine#1', length: 2400, cost: 900, count: null },
        { id: 'pine#2', length: 3000, cost: 1200, count: null },
      ],
      parts: [{ id: 'a/rail', length: 700, count: 2 }],
    });
    expect(job.left).toEqual(['b/long']);
  });

  it('cuts from an offcut ripped narrower only what is as narrow, and says where it does not', () => {
    const own = stockPlan({
      stock: {
        boards: [{ id: 'pine', thickness: 18, width: 90, lengths: [{ length: 2400, price: '9.00' }] }],
        rack: [
          { id: 'strip', stock: 'pine', length: 1500, width: 60 },
          { id: 'rest', stock: 'pine', length: 800 },
        ],
      },
    });
    const jobOf = (...widths: readonly number[]) =>
      toLengthProblem(
        widths.map((width, i) => partOf(`a/rail-${i}`, 'pine', 700, width, { from: 'board' })),
        own,
        'pine',
      );
    const wide = jobOf(60, 90);
    expect(wide.problem.stock.map((s) => s.id)).toEqual(['rack rest', 'pine#1']);
    expect(wide.notes).toMatchObject([
      {
        id: 'rack-narrow:strip',
        title: 'An offcut of pine on the rack is 60 mm wide, narrower than a part of 90 mm, so it is not used',
      },
    ]);
    expect(wide.notes[0]!.advice).toContain('rail-1 of a needs more');
    const narrow = jobOf(60, 45);
    expect(narrow.notes).toEqual([]);
    expect(narrow.problem.stock.map((s) => s.id)).toEqual(['rack strip', 'rack rest', 'pine#1']);
    expect([...narrow.sources.values()].map((s) => s.width)).toEqual([60, 90, 90]);
  });
});

it('takes an eighth of an inch for a blade with inches, 3.2 mm otherwise', () => {
  expect(kerfOf(stockPlan({ shop: { kerf: undefined } }))).toBe(3.2);
  expect(kerfOf(stockPlan({ shop: { kerf: undefined }, units: { length: 'ft-in' } }))).toBe(3.175);
  expect(kerfOf(plan)).toBe(3);
});

it('lays every part once, in its own size, inside the real panel or offcut and clear of all others', () => {
  const size = fc.integer({ min: 60 * 640, max: 1100 * 640 }).map((ticks) => ticks / 640);
  const anyParts = fc
    .array(fc.tuple(size, size, fc.constantFrom('ply', 'across', 'mdf'), fc.boolean()), { minLength: 1, maxLength: 16 })
    .map((all) =>
      all.map(
        ([l, w, stock, free], i): Part =>
          partOf(`p${i % 4}/part-${i}`, stock, l, w, { grain: free ? 'free' : 'fixed' }),
      ),
    );
  fc.assert(
    fc.property(anyParts, (parts) => {
      const seen = new Map<string, number>();
      for (const job of cutJobs(parts, plan)) {
        if (job.from !== 'panel') throw new Error('no boards here');
        const answer = solvePanels(job.problem, { steps: 30 });
        expect(checkPanels(job.problem, answer)).toEqual([]);
        for (const layout of realLayouts(job, answer)) {
          layout.placed.forEach((p, i) => {
            seen.set(p.part, (seen.get(p.part) ?? 0) + 1);
            const { cut } = parts.find((part) => part.id === p.part)!;
            expect([cut.length, cut.width].toSorted()).toEqual([p.length, p.width].toSorted());
            expect(Math.min(p.x, p.y)).toBeGreaterThanOrEqual(layout.trim - 1e-6);
            expect(p.x + p.length).toBeLessThanOrEqual(layout.length - layout.trim + 1e-6);
            expect(p.y + p.width).toBeLessThanOrEqual(layout.width - layout.trim + 1e-6);
            for (const q of layout.placed.slice(0, i)) {
              const apart =
                p.x >= q.x + q.length - 1e-6 ||
                q.x >= p.x + p.length - 1e-6 ||
                p.y >= q.y + q.width - 1e-6 ||
                q.y >= p.y + p.width - 1e-6;
              expect(apart).toBe(true);
            }
          });
        }
      }
      expect([...seen.entries()].toSorted()).toEqual(parts.map((p) => [p.id, 1]).toSorted());
    }),
    { numRuns: 150 },
  );
});
