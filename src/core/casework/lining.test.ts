import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathText } from '../issue/index.ts';
import { mm } from '../quantity/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { cutJobs } from '../stock/index.ts';
import { buildLining, type WallContext, wallBehindPiece } from './index.ts';
import { cells, overlaps, partFaults, uncovered } from './laws.testing.ts';
import { AT_ORIGIN, firstOf, planOf } from './plan.testing.ts';

const STOCK = {
  panels: [
    { id: 'slat', thickness: 21, sizes: [{ length: 2440, width: 1220 }] },
    { id: 'bare', thickness: 9 },
  ],
  boards: [{ id: 'batten', thickness: 18, width: 45, lengths: [{ length: 2400 }] }],
};
const THICKNESS = new Map([
  ['slat', 21],
  ['bare', 9],
  ['batten', 18],
]);
type Rectangle = readonly [string, number, number, number, number];
const wall = (...rectangles: Rectangle[]): WallContext => ({
  features: rectangles.map(([id, x0, x1, y0, y1]) => ({
    id,
    kind: 'outlet',
    x: [mm(x0), mm(x1)],
    y: [mm(y0), mm(y1)],
  })),
  studs: [],
});
function build(piece: object, context?: WallContext, over: object = {}) {
  const plan = planOf({
    ...STOCK,
    ...over,
    pieces: [{ lining: 'w', size: { width: 3000, height: 2400 }, panel: 'slat', ...piece }],
  });
  return buildLining(firstOf(plan, 'lining'), plan, AT_ORIGIN, context);
}
const spans = (placed: PlacedPiece, role = 'lining panel') =>
  placed.parts.filter((p) => p.role === role).map(({ solid: { box } }) => [box.min.x, box.max.x, box.min.y, box.max.y]);

describe('a lining', () => {
  it('takes whole panels from the left and rips the last', () => {
    expect(spans(build({}).placed)).toEqual([
      [0, 1220, 0, 2400],
      [1220, 2440, 0, 2400],
      [2440, 3000, 0, 2400],
    ]);
  });
  it('is one panel where one is enough, lying the other way if it has no grain', () => {
    const size = { width: 2000, height: 1100 };
    const grainless = { panels: [{ ...STOCK.panels[0], grain: 'none' }] };
    expect(spans(build({ size }, undefined, grainless).placed)).toEqual([[0, 2000, 0, 1100]]);
    // with grain, upright it stays
    expect(spans(build({ size }).placed)).toHaveLength(2);
  });
  it.each<[string, object[], number]>([
    ['the fewest panels where nothing has a price', [{}, {}], 1],
    ['two small ones that cost less than a large one', [{ price: '90' }, { price: '40' }], 2],
    ['the large one where two small ones cost more', [{ price: '79' }, { price: '40' }], 1],
    ['the large one where there is only one small one', [{ price: '90' }, { price: '40', count: 1 }], 1],
    ['what has a price before what has none', [{}, { price: '40' }], 2],
  ])('chooses %s', (_, [large, small], panels) => {
    const sizes = [
      { length: 2500, width: 2500, ...large },
      { length: 2500, width: 1250, ...small },
    ];
    const over = { panels: [{ ...STOCK.panels[0], sizes }] };
    expect(spans(build({ size: { width: 2400, height: 2400 } }, undefined, over).placed)).toHaveLength(panels);
  });
  it('lays them lengthwise from the floor up', () => {
    expect(spans(build({ board: 'horizontal' }).placed)).toEqual([
      [0, 2440, 0, 1220],
      [2440, 3000, 0, 1220],
      [0, 2440, 1220, 2400],
      [2440, 3000, 1220, 2400],
    ]);
  });
  it('makes the last two alike where the last would be a sliver', () => {
    // 2480 − 2440 = 40 is less than 150: (2480 − 1220)/2 = 630 each
    expect(spans(build({ size: { width: 2480, height: 2400 } }).placed).map(([a, b]) => [a, b])).toEqual([
      [0, 1220],
      [1220, 1850],
      [1850, 2480],
    ]);
  });
  it('leaves the open joint that was asked, and takes the trim off the panel', () => {
    expect(spans(build({ joint: 4 }, undefined, { shop: { trim: 10 } }).placed).map(([a, b]) => [a, b])).toEqual([
      [0, 1200],
      [1204, 2404],
      [2408, 3000],
    ]);
  });
  it('covers what no panel would be left for beside the joint, by two alike', () => {
    expect(spans(build({ joint: 3, size: { width: 1222, height: 2400 } }).placed)).toEqual([
      [0, 609.5, 0, 2400],
      [612.5, 1222, 0, 2400],
    ]);
    expect(spans(build({ joint: 900, size: { width: 1222, height: 2400 } }).placed).map(([, x]) => x)).toEqual([
      161, 1222,
    ]);
  });
  it('can be cut from the panels it is laid out for, whichever way their grain runs, and its battens from trimmed boards', () => {
    const over = {
      panels: [{ ...STOCK.panels[0], grain: 'width' }],
      shop: { ends: 10, trim: 5 },
    };
    for (const board of ['vertical', 'horizontal']) {
      const piece = { board, battens: { board: 'batten', spacing: 600 }, size: { width: 2400, height: 2400 } };
      const plan = planOf({ ...STOCK, ...over, pieces: [{ lining: 'w', panel: 'slat', ...piece }] });
      const { placed } = build(piece, undefined, over);
      expect(cutJobs(placed.parts, plan).map((job) => job.left)).toEqual([[], []]);
    }
  });
  it('cuts out what is on the wall with the clearance, and notches what reaches an edge', () => {
    const { placed } = build({ clear: 3 }, wall(['socket', 300, 370, 400, 515], ['window', 1000, 1500, 900, 2600]));
    const taken = placed.parts.map((p) =>
      p.solid.taken.map((m) => [m.kind, m.why, m.box.min.x, m.box.max.x, m.box.min.y, m.box.max.y]),
    );
    expect(taken[0]).toEqual([
      ['cut-out', 'socket', 297, 373, 397, 518],
      ['notch', 'window', 997, 1220, 897, 2400],
    ]);
    expect(taken[1]).toEqual([['notch', 'window', 1220, 1503, 897, 2400]]);
  });
  it('becomes two parts where something reaches right across, and none where nothing is left', () => {
    const { placed } = build({}, wall(['door', 1300, 2100, 0, 2400]));
    expect(spans(placed).map(([a, b]) => [a, b])).toEqual([
      [0, 1220],
      [1220, 1300],
      [2100, 2440],
      [2440, 3000],
    ]);
    expect(build({}, wall(['all', -10, 3010, -10, 2410])).placed.parts).toEqual([]);
  });
  it('stands on battens no further apart than asked, whole lengths where they reach, broken at a window', () => {
    const { placed } = build({ battens: { board: 'batten', spacing: 600 } }, wall(['window', 1000, 1500, 500, 1000]));
    // 2400 − 45 = 2355 over 600: 4 steps of 588.75; each run of 3000 in two pieces of 1500, for boards of 2400
    const battens = placed.parts.filter((p) => p.role === 'batten');
    expect([...new Set(battens.map((p) => p.solid.box.min.y))]).toEqual([0, 588.75, 1177.5, 1766.25, 2355]);
    expect(
      battens.filter((p) => p.solid.box.min.y === 588.75).map((p) => [p.solid.box.min.x, p.solid.box.max.x]),
    ).toEqual([
      [0, 1000],
      [1500, 3000],
    ]);
    expect(placed.outside.max.z).toBe(18 + 21);
    expect(placed.parts.filter((p) => p.role === 'lining panel').every((p) => p.solid.box.min.z === 18)).toBe(true);
  });
  it.each<[string, object, string]>([
    ['a panel nobody has', { panel: 'x' }, 'panel'],
    ['battens nobody has', { battens: { board: 'x', spacing: 400 } }, 'battens.board'],
    ['a panel without a size', { panel: 'bare' }, 'panel'],
    [
      'too small for battens',
      { size: { width: 400, height: 80 }, battens: { board: 'batten', spacing: 400 } },
      'battens',
    ],
  ])('says what is wrong: %s', (_, piece, path) =>
    expect(build(piece).issues.map((issue) => pathText(issue.path))).toEqual([`options[0].pieces[0].${path}`]),
  );
});

it('has a batten behind every edge of a panel that runs its way, and none further apart than asked', () => {
  const within = fc.record({
    width: fc.integer({ min: 200, max: 6000 }),
    height: fc.integer({ min: 200, max: 5000 }),
    board: fc.constantFrom('vertical', 'horizontal'),
    joint: fc.constantFrom(0, 3, 10),
    spacing: fc.integer({ min: 300, max: 700 }),
  });
  let joints = 0;
  fc.assert(
    fc.property(within, ({ width, height, board, joint, spacing }) => {
      const { placed } = build({ size: { width, height }, board, joint, battens: { board: 'batten', spacing } });
      const axis = board === 'vertical' ? 'y' : 'x';
      const spans = (role: string) =>
        placed.parts.filter((p) => p.role === role).map((p) => [p.solid.box.min[axis], p.solid.box.max[axis]] as const);
      const battens = spans('batten').toSorted((a, b) => a[0] - b[0]);
      for (const [i, [from]] of battens.slice(1).entries())
        expect(from - battens[i]![0]).toBeLessThanOrEqual(spacing + 0.01);
      // of a batten of 45 each of two edges gets half, less half the joint
      for (const [from, to] of spans('lining panel'))
        for (const [a, b] of [
          [from, from + 17],
          [to - 17, to],
        ] as const) {
          expect(battens.some(([lo, hi]) => lo <= a + 0.01 && hi >= b - 0.01)).toBe(true);
          if (a > 1 && b < (axis === 'x' ? width : height) - 1) joints += 1;
        }
    }),
    { numRuns: 200 },
  );
  expect(joints).toBeGreaterThan(100);
});

it('covers the wall but for joints and holes, exactly, whatever is on it', () => {
  const tenth = (max: number) => fc.integer({ min: 0, max: max * 10 }).map((n) => n / 10);
  fc.assert(
    fc.property(
      fc.record({
        width: tenth(5000).map((w) => w + 50),
        height: tenth(3000).map((h) => h + 50),
        board: fc.constantFrom('vertical', 'horizontal'),
        joint: fc.constantFrom(0, 3),
        clear: fc.constantFrom(0, 2.5),
        battens: fc.constantFrom(undefined, { board: 'batten', spacing: 400 }),
        holes: fc.array(fc.tuple(tenth(5000), tenth(1200), tenth(3000), tenth(2000)), { maxLength: 4 }),
      }),
      ({ width, height, board, joint, clear, battens, holes }) => {
        const rectangles = holes.map(
          ([x, w, y, h], i): Rectangle => [`hole ${i}`, x - 100, x - 100 + w + 1, y - 100, y - 100 + h + 1],
        );
        const { placed, issues } = build(
          {
            size: { width: `${width} mm`, height: `${height} mm` },
            board,
            joint,
            clear: `${clear} mm`,
            ...(battens && { battens }),
          },
          wall(...rectangles),
        );
        expect(overlaps(placed)).toEqual([]);
        expect(partFaults(placed, THICKNESS)).toEqual([]);
        if (issues.length > 0) return;
        // second route: the wall as one slab less holes, against the panels' own solids
        const z = battens ? [18 * 640, 39 * 640] : [0, 21 * 640];
        const slab = { x: [0, Math.round(width * 640)], y: [0, Math.round(height * 640)], z } as never;
        const cutOuts = rectangles.map(([, x0, x1, y0, y1]) => ({
          x: [Math.round((x0 - clear) * 640), Math.round((x1 + clear) * 640)],
          y: [Math.round((y0 - clear) * 640), Math.round((y1 + clear) * 640)],
          z,
        }));
        const panels = placed.parts.filter((p) => p.role === 'lining panel');
        const covered = panels.reduce(
          (sum, p) =>
            sum +
            uncovered(
              cells(p.solid.box),
              p.solid.taken.map((m) => cells(m.box)),
            ),
          0n,
        );
        const wanted = uncovered(slab, cutOuts as never);
        if (joint === 0) expect(covered).toBe(wanted);
        else expect(covered).toBeLessThanOrEqual(wanted);
        // nothing of the lining, panel or batten, is left before a hole
        for (const p of placed.parts)
          for (const hole of rectangles) {
            const [box, through] = [
              cells(p.solid.box),
              {
                x: [Math.round(hole[1] * 640), Math.round(hole[2] * 640)],
                y: [Math.round(hole[3] * 640), Math.round(hole[4] * 640)],
              } as const,
            ];
            const shared = {
              x: [Math.max(box.x[0], through.x[0]), Math.min(box.x[1], through.x[1])],
              y: [Math.max(box.y[0], through.y[0]), Math.min(box.y[1], through.y[1])],
              z: box.z,
            } as const;
            if (shared.x[0]! < shared.x[1]! && shared.y[0]! < shared.y[1]!)
              expect(
                uncovered(
                  shared as never,
                  p.solid.taken.map((m) => cells(m.box)),
                ),
              ).toBe(0n);
          }
      },
    ),
    { numRuns: 1000 },
  );
});

it('of panels a hair wide, or on battens a hair apart, is refused at once', () => {
  const hair = { panels: [{ id: 'slat', thickness: 21, sizes: [{ length: 0.1, width: 0.1 }] }] };
  const { issues, placed } = build({}, undefined, hair);
  expect(issues.map(({ message }) => message)).toEqual([expect.stringMatching(/more parts than can be worked out/)]);
  expect(placed.parts).toEqual([]);
  const wide = { size: { width: 3000, height: 9e6 }, battens: { board: 'batten', spacing: 1 } };
  expect(build(wide).issues.map(({ message }) => message)).toContainEqual(expect.stringMatching(/more parts than can/));
});

it('sees the wall from where the piece stands', () => {
  const context = wallBehindPiece(
    {
      ceiling: mm(2500),
      outline: [],
      walls: [
        {
          id: 'north',
          frame: { origin: { x: 0, y: 0, z: 0 }, turn: 0 },
          length: mm(4000),
          height: mm(2500),
          studs: [{ at: mm(1000), width: mm(38), measured: true }],
          corner: 90,
        },
      ],
      openings: [
        {
          id: 'window',
          wall: 'north',
          kind: 'window',
          x: [mm(1500), mm(2500)],
          y: [mm(900), mm(2100)],
          out: mm(0),
          clear: mm(0),
        },
      ],
      services: [
        {
          id: 'other',
          wall: 'south',
          kind: 'outlet',
          x: [mm(0), mm(70)],
          y: [mm(300), mm(400)],
          out: mm(0),
          clear: mm(0),
        },
      ],
      misclosure: mm(0),
    },
    { frame: { origin: { x: 600, y: 700, z: 0 }, turn: 0 }, wall: { id: 'north', from: mm(600) } },
  );
  expect(context).toEqual({
    features: [{ id: 'window', kind: 'window', x: [900, 1900], y: [200, 1400] }],
    studs: [{ at: 400, width: 38 }],
  });
});
