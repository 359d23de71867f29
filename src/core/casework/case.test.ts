import { describe, expect, it } from 'vitest';
import { pathText } from '../issue/index.ts';
import { inch, mm } from '../quantity/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { buildCase, DEFAULTS, fastenerCount, hingeCount, mirrored, type WallContext } from './index.ts';
import { jointFaults, openingFaults, outsideFaults, overlaps, partFaults } from './laws.testing.ts';
import { AT_ORIGIN, firstOf, planOf, type WrittenPlan } from './plan.testing.ts';

/** Builds the one case of a plan that must have nothing wrong with it. */
function build(written: WrittenPlan, unit: 'mm' | 'in'): PlacedPiece {
  const plan = planOf(written, unit);
  const { placed, issues } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN);
  expect(issues).toEqual([]);
  const thickness = new Map([
    ...plan.stock.panels.map((p) => [p.id, p.thickness as number] as const),
    ...plan.stock.boards.map((b) => [b.id, b.thickness ?? inch(0.75)] as const),
  ]);
  expect([
    ...overlaps(placed),
    ...outsideFaults(placed),
    ...openingFaults(placed),
    ...jointFaults(placed),
    ...partFaults(placed, thickness),
  ]).toEqual([]);
  return placed;
}

const part = (placed: PlacedPiece, id: string) => {
  const found = placed.parts.find((p) => p.id === `${placed.id}/${id}`);
  if (!found) throw new Error(`no ${id}; there are ${placed.parts.map((p) => p.id).join(', ')}`);
  return found;
};
const near = (value: number) => Number(value.toFixed(6));
const cutMm = (placed: PlacedPiece, id: string) => {
  const { length, width } = part(placed, id).cut;
  return [near(length), near(width)];
};
const cutIn = (placed: PlacedPiece, id: string) => {
  const { length, width } = part(placed, id).cut;
  return [near(length / 25.4), near(width / 25.4)];
};
const clearIn = (placed: PlacedPiece, id: string) => {
  const { min, max } = placed.bays.find((bay) => bay.id === `${placed.id}/${id}`)!.clear;
  return [near((max.x - min.x) / 25.4), near((max.y - min.y) / 25.4)];
};

describe('a plain butted case, worked by hand', () => {
  // 800 × 600 × 300, 18 mm panel, 6 mm back laid on behind, no toe
  const placed = build(
    {
      panels: [
        { id: 'ply', thickness: 18 },
        { id: 'thin', thickness: 6 },
      ],
      make: { panel: 'ply', joint: 'butt', back: { kind: 'applied', panel: 'thin' } },
      pieces: [{ case: 'plain', size: { width: 800, height: 600, depth: 300 }, inside: { shelves: 1 } }],
    },
    'mm',
  );
  it.each([
    // depth of the carcass 300 − 6 = 294
    ['left-side', [600, 294]],
    ['right-side', [600, 294]],
    // between the sides: 800 − 2 · 18 = 764
    ['bottom', [764, 294]],
    ['top', [764, 294]],
    ['back', [600, 800]],
    // play 3: 764 − 3 = 761; setback 6: 294 − 6 = 288
    ['bay-1/shelf-1', [761, 288]],
  ])('%s is cut %j', (id, cut) => expect(cutMm(placed, id)).toEqual(cut));
  it('has four pins a shelf, and holes for them two pitches either way', () => {
    expect(placed.fittings.find((f) => f.use === 'shelf pin')?.count).toBe(4);
    expect(part(placed, 'left-side').solid.taken.filter((m) => m.kind === 'bore')).toHaveLength(2 * 5);
    // 18/2 − 1 = 8 is less than the usual 10: the holes of two bays never meet in an upright
    const bore = part(placed, 'left-side').solid.taken.find((m) => m.kind === 'bore')!;
    expect(near(bore.box.max.x - bore.box.min.x)).toBe(8);
  });
  it('is glued at both ends of bottom and top, and all round its back', () => {
    // 4 · 294 · 18 + 2 · 600 · 18 + 2 · 764 · 18 = 70,272 mm²
    expect(placed.fittings.find((f) => f.use === 'glue')?.amount).toEqual({ value: 70_272, unit: 'mm²' });
  });
  it('has grain to be kept where it shows, and none on its back', () => {
    const grains = ['left-side', 'top', 'bay-1/shelf-1', 'back'].map((id) => part(placed, id).grain);
    expect(grains).toEqual(['fixed', 'fixed', 'fixed', 'free']);
  });
  it('rests its adjustable shelf on a hole of the grid', () => {
    // floor at 18, holes every 32 mm, pin radius 2.5; evenly it would lie at 18 + (564 − 18)/2 = 291; (291 − 2.5 − 18)/32 = 8.45 → 8
    expect(near(part(placed, 'bay-1/shelf-1').solid.box.min.y)).toBe(18 + 8 * 32 + 2.5);
  });
});

describe('a dadoed case of 23/32 panel with a grooved back, worked by hand', () => {
  // US PS 1 Performance Category 23/32, recommended label thickness 0.703 in; a category 1/4 back is 0.225 in. Sold as 3/4 and 1/4.
  // With 0.703 and a dado 0.234 deep: bottom = 36 − 2 · 0.703 + 2 · 0.234 = 35.062, not the 34.968 of a nominal 3/4 panel.
  const placed = build(
    {
      panels: [
        { id: 'ply', thickness: '0.703 in' },
        { id: 'thin', thickness: '0.225 in' },
      ],
      make: { panel: 'ply', joint: 'dado', let: '0.234 in', back: { kind: 'grooved', panel: 'thin', inset: '1/2 in' } },
      pieces: [
        {
          case: 'books',
          size: { width: '36 in', height: '30 in', depth: '12 in' },
          toe: { height: '3-1/2 in', setback: '3 in' },
          inside: { columns: [{ width: '12 in', open: true }, { open: true }] },
        },
      ],
    },
    'in',
  );
  it.each([
    ['left-side', 30, 12],
    ['bottom', 36 - 2 * 0.703 + 2 * 0.234, 12],
    ['top', 36 - 2 * 0.703 + 2 * 0.234, 12],
    // let into bottom and top: 30 − 3.5 − 2 · 0.703 + 2 · 0.234 = 25.562; from the back's face, 12 − 0.5 − 0.225 = 11.275
    ['upright-1', 25.562, 11.275],
    // let in all round: height 30 − 3.5 − 2 · 0.703 + 2 · 0.234, width as the bottom
    ['back', 25.562, 35.062],
    ['toe-board', 36, 3.5],
  ])('%s is cut %f × %f in', (id, length, width) => {
    const [l, w] = cutIn(placed, id);
    // lengths are kept to the nearest tick, 1/640 mm
    expect(l).toBeCloseTo(length, 3);
    expect(w).toBeCloseTo(width, 3);
  });
  it('keeps the clear widths: 12 in, and the rest', () => {
    expect(clearIn(placed, 'bay-1')[0]).toBeCloseTo(12, 4);
    expect(clearIn(placed, 'bay-2')[0]).toBeCloseTo(36 - 3 * 0.703 - 12, 3);
  });
  it('cuts dadoes exactly as wide as the panel is thick', () => {
    const dado = part(placed, 'bottom').solid.taken.find((m) => m.kind === 'dado')!;
    expect((dado.box.max.x - dado.box.min.x) / 25.4).toBeCloseTo(0.703, 4);
    expect((dado.box.max.y - dado.box.min.y) / 25.4).toBeCloseTo(0.234, 4);
  });
  it('notches the sides for the toe board: setback and board', () => {
    const notch = part(placed, 'left-side').solid.taken.find((m) => m.kind === 'notch')!;
    expect((notch.box.max.z - notch.box.min.z) / 25.4).toBeCloseTo(3.703, 3);
    expect((notch.box.max.y - notch.box.min.y) / 25.4).toBeCloseTo(3.5, 6);
  });
});

describe('a face-frame case with inset doors, worked by hand', () => {
  // 1x2 is 3/4 × 1-1/2 (PS 20). 40 × 32 × 14, panels 3/4, frame of 1x2, gap 1/8.
  const placed = build(
    {
      panels: [{ id: 'ply', thickness: 0.75 }],
      boards: [{ id: '1x2', nominal: '1x2' }],
      make: {
        panel: 'ply',
        back: { kind: 'rabbeted' },
        joint: 'butt',
        let: 0.25,
        style: 'inset',
        gap: 0.125,
        frame: { board: '1x2' },
      },
      pieces: [
        {
          case: 'cupboard',
          size: { width: 40, height: 32, depth: 14 },
          toe: { height: 4, setback: 3 },
          inside: { columns: [{ width: 12, open: true }, { door: 'pair' }] },
        },
      ],
    },
    'in',
  );
  it.each([
    // sides behind the frame: 14 − 0.75 = 13.25 deep, to the floor
    ['left-side', [32, 13.25]],
    // stiles from the toe up: 32 − 4 = 28; rails between them: 40 − 2 · 1.5 = 37
    ['left-stile', [28, 1.5]],
    ['bottom-rail', [37, 1.5]],
    ['top-rail', [37, 1.5]],
    // between the rails: 28 − 2 · 1.5 = 25
    ['stile-1', [25, 1.5]],
    // floor flush with the rail, 4 + 1.5 = 5.5; underside of the top 32 − 0.75 = 31.25; back face at 0.75: depth 13.25 − 0.75 = 12.5
    ['upright-1', [25.75, 12.5]],
    // rabbeted in by 1/4 all round: 40 − 1.5 + 0.5 = 39 wide, 25.75 + 0.5 = 26.25 high
    ['back', [26.25, 39]],
    // opening 37 − 1.5 − 12 = 23.5 wide, 25 high: two leaves (23.5 − 3 · 0.125)/2 = 11.5625, 25 − 0.25 = 24.75
    ['bay-2/left-door', [24.75, 11.5625]],
    ['bay-2/right-door', [24.75, 11.5625]],
  ])('%s is cut %j in', (id, cut) => expect(cutIn(placed, id)).toEqual(cut));
  it('leaves the openings between its stiles and rails', () => {
    expect(clearIn(placed, 'bay-1')).toEqual([12, 25]);
    expect(clearIn(placed, 'bay-2')).toEqual([23.5, 25]);
  });
  it('centres the upright behind the stile', () => {
    // stile from 1.5 + 12 = 13.5 to 15; upright 13.875 to 14.625
    expect(near(part(placed, 'upright-1').solid.box.min.x / 25.4)).toBe(13.875);
  });
  it('hangs the doors from the frame', () => {
    const hung = placed.joints.filter((j) => j.kind === 'hung').map((j) => [j.a, j.b]);
    expect(hung).toEqual([
      ['cupboard/bay-2/left-door', 'cupboard/stile-1'],
      ['cupboard/bay-2/right-door', 'cupboard/right-stile'],
    ]);
  });
});

describe('a frameless case with overlay fronts and banded edges, worked by hand', () => {
  // 900 × 720 × 560, 18 mm, capped, band 1 mm, reveal 2, gap 3, fronts 18: carcass 560 − 18 (fronts) − 8 (back) = 534 deep
  const placed = build(
    {
      panels: [
        { id: 'ply', thickness: 18 },
        { id: 'back', thickness: 8 },
      ],
      packs: [{ id: 'tape', use: 'edge band', thickness: 1 }],
      make: {
        panel: 'ply',
        back: { panel: 'back' },
        capped: true,
        band: 'tape',
        reveal: 2,
        gap: 3,
        drawer: { side: 13, slides: [400, 450, 500, 550] },
      },
      pieces: [
        {
          case: 'desk side',
          size: { width: 900, height: 720, depth: 560 },
          inside: {
            columns: [
              { width: 400, drawers: [140, '1*'] },
              { door: 'right', shelves: 2 },
            ],
          },
        },
      ],
    },
    'mm',
  );
  it.each([
    // capped: 720 − 18 = 702 high; banded at the front: 534 − 1 = 533
    ['left-side', [702, 533]],
    // over the sides, banded at the front and both ends: 900 − 2 = 898
    ['top', [898, 533]],
    ['bottom', [864, 533]],
    // bays: 864 − 18 = 846 clear, 400 and 446. Left fronts reach 18 − 2 = 16 over the side, (18 − 3)/2 = 7.5 over the upright:
    // 400 + 16 + 7.5 = 423.5 wide, banded all round 421.5. Height 684 + 2 · 16 = 716 in all; 140 and 716 − 3 − 140 = 573
    ['bay-1/drawer-1/front', [421.5, 138]],
    ['bay-1/drawer-2/front', [421.5, 571]],
    // 446 + 7.5 + 16 = 469.5
    ['bay-2/door', [714, 467.5]],
    // 446 − 3 = 443; 534 − 6 = 528 less the band
    ['bay-2/shelf-1', [443, 527]],
  ])('%s is cut %j', (id, cut) => expect(cutMm(placed, id)).toEqual(cut));
  it('builds the upper drawer box inside both its front and the opening', () => {
    // behind the fronts 542 − 8 = 534, less 10 behind: the 500 slide. Box 400 − 2 · 13 = 374 wide.
    expect(cutMm(placed, 'bay-1/drawer-1/left-side')[0]).toBe(500);
    // front from 578 to 718 (16 over the top's underside at 702): box from 578 + 12.7 to 702 − 12.7, 98.6 high
    expect(cutMm(placed, 'bay-1/drawer-1/left-side')[1]).toBe(98.6);
    expect(cutMm(placed, 'bay-1/drawer-1/box-front')).toEqual([374 - 36, 98.6]);
    // grooves 18/3 = 6 deep: 338 + 12 = 350 wide, 500 − 36 + 12 = 476 long
    expect(cutMm(placed, 'bay-1/drawer-1/bottom')).toEqual([350, 476]);
  });
  it('buys two hinges, two pairs of slides, eight pins and all the edge band', () => {
    const count = (use: string) => placed.fittings.filter((f) => f.use === use).reduce((sum, f) => sum + f.count, 0);
    expect([count('hinge'), count('drawer slide'), count('shelf pin')]).toEqual([hingeCount(716 as never), 2, 8]);
    const band = placed.fittings.find((f) => f.use === 'edge band')!;
    const edges = [702, 702, 864, 900, 534, 534, 684];
    const fronts = [423.5, 423.5, 140, 140, 423.5, 423.5, 573, 573, 469.5, 469.5, 716, 716, 443, 443];
    const all = [...edges, ...fronts];
    expect(band.amount?.value).toBeCloseTo(all.reduce((a, b) => a + b, 0) + 50 * all.length, 6);
  });
});

describe('inset drawers and doors without a frame, worked by hand', () => {
  // 600 × 500 × 400, 20 mm panels and fronts, no back; gap 2; two equal drawers over a flap
  const placed = build(
    {
      panels: [
        { id: 'board', thickness: 20 },
        { id: 'thin', thickness: 6 },
      ],
      make: {
        panel: 'board',
        back: { kind: 'none' },
        style: 'inset',
        gap: 2,
        drawer: {
          panel: 'thin',
          bottom: 'thin',
          side: 13,
          above: 10,
          below: 10,
          rear: 0,
          groove: 8,
          slides: [300, 350],
        },
      },
      pieces: [
        {
          case: 'chest',
          size: { width: 600, height: 500, depth: 400 },
          inside: { rows: [{ height: 204, drawers: 2 }, { door: 'down' }] },
        },
      ],
    },
    'mm',
  );
  it.each([
    // opening 560 × 204: fronts 556 wide, (204 − 3 · 2)/2 = 99 high
    ['bay-1/drawer-1/front', [556, 99]],
    ['bay-1/drawer-2/front', [556, 99]],
    // 400 − 20 = 380 behind the front: the 350 slide; 99 − 20 = 79 high
    ['bay-1/drawer-1/left-side', [350, 79]],
    // 560 − 26 = 534 wide, less two sides of 6: 522
    ['bay-1/drawer-1/box-front', [522, 79]],
    // grooves 2 deep in 6 mm sides: 522 + 4 = 526; 350 − 12 + 4 = 342
    ['bay-1/drawer-1/bottom', [526, 342]],
    // 460 − 204 − 20 = 236 clear: 232 × 556
    ['bay-2/door', [232, 556]],
    // the dividing shelf is flush with the sides: 400 deep
    ['fixed-shelf-1', [560, 400]],
  ])('%s is cut %j', (id, cut) => expect(cutMm(placed, id)).toEqual(cut));
  it('hangs the flap from the bottom', () =>
    expect(placed.joints.find((j) => j.kind === 'hung')).toMatchObject({ a: 'chest/bay-2/door', b: 'chest/bottom' }));
});

describe('plinth, top, end panel and filler, worked by hand', () => {
  // 1500 × 900 × 450 with 19 mm panels: top 25, plinth 80 of 19 mm set back 50, left end 12, right filler 60
  const placed = build(
    {
      panels: [
        { id: 'ply', thickness: 19 },
        { id: 'oak', thickness: 25 },
        { id: 'end', thickness: 12 },
      ],
      make: { panel: 'ply', back: { kind: 'none' }, joint: 'rabbet', let: 6 },
      pieces: [
        {
          case: 'counter',
          size: { width: 1500, height: 900, depth: 450 },
          toe: { height: 80, setback: 50, kind: 'plinth' },
          top: { stock: 'oak', front: 20, left: 10 },
          ends: { left: 'end' },
          fillers: { right: 60 },
        },
      ],
    },
    'mm',
  );
  it.each([
    // carcass from 12 to 1440: 1428 wide; sides from 80 to 900 − 25: 795
    ['left-side', [795, 450]],
    // rabbets at both ends of the sides: 1428 − 38 + 12 = 1402
    ['bottom', [1402, 450]],
    ['top', [1402, 450]],
    // overhangs 10 left and 20 in front; none right
    ['separate-top', [1510, 470]],
    // to the floor
    ['left-end', [875, 450]],
    // from the plinth up
    ['right-filler', [795, 60]],
    // from the end panel on under the filler: 1500 − 12
    ['plinth-front', [1488, 80]],
    ['plinth-rear', [1428, 80]],
    // 450 − 50 − 2 · 19 = 362
    ['plinth-left-end', [362, 80]],
  ])('%s is cut %j', (id, cut) => expect(cutMm(placed, id)).toEqual(cut));
  it('puts cross pieces no further apart than 600 mm', () => {
    // (1428 − 19)/(600 + 19) = 2.3 → 3 runs, two pieces between the ends
    expect(placed.parts.filter((p) => p.role === 'plinth')).toHaveLength(2 + 4);
  });
  it('counts overhangs outside the size', () => {
    expect(placed.outside.min.x).toBe(-10);
    expect(placed.outside.max).toEqual({ x: 1500, y: 900, z: 470 });
  });
});

it('counts hinges and fasteners by the stated rules', () => {
  // hand count against the table in the doc comment
  expect([500, 900, 901, 1600, 1601, 2000, 2001, 2500, 2501].map((mm) => hingeCount(mm as never))).toEqual([
    2, 2, 3, 3, 4, 4, 5, 5, 6,
  ]);
  expect([
    fastenerCount(100 as never, 'screws'),
    fastenerCount(300 as never, 'screws'),
    fastenerCount(301 as never, 'screws'),
  ]).toEqual([2, 3, 4]);
  expect(fastenerCount(300 as never, 'brads')).toBe(4);
});

it('keeps the defaults unless told otherwise, by the case before the plan', () => {
  const written = (make: unknown, own?: unknown): WrittenPlan => ({
    panels: [{ id: 'ply', thickness: 18 }],
    make: { panel: 'ply', ...(make as object) },
    pieces: [
      {
        case: 'a',
        size: { width: 800, height: 600, depth: 300 },
        inside: { door: 'left' },
        ...(own ? { make: own } : {}),
      },
    ],
  });
  const doorOf = (placed: PlacedPiece) => cutMm(placed, 'bay-1/door')[1];
  expect(doorOf(build(written({}), 'mm'))).toBe(800 - 2 * DEFAULTS.reveal);
  expect(doorOf(build(written({ reveal: 5 }), 'mm'))).toBe(790);
  expect(doorOf(build(written({ reveal: 5 }, { reveal: 1 }), 'mm'))).toBe(798);
  expect(doorOf(build(written({ reveal: 5 }, { style: 'inset' }), 'mm'))).toBe(800 - 36 - 2 * DEFAULTS.gap);
});

describe('what cannot be built is said where it stands', () => {
  const ply = { id: 'ply', thickness: 18 };
  const size = { width: 800, height: 600, depth: 300 };
  const issuesOf = (piece: object, over: Partial<WrittenPlan> = {}) => {
    const plan = planOf({
      panels: [ply, { id: 'thick', thickness: 160 }],
      make: { panel: 'ply' },
      pieces: [{ case: 'a', size, ...piece }],
      ...over,
    });
    return buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN);
  };
  const piece = 'options[0].pieces[0]';
  it.each<[string, string, object, Partial<WrittenPlan>?]>([
    ['no panel named', `${piece}.make.panel`, {}, { make: {} }],
    ['a panel nobody has', 'make.panel', {}, { make: { panel: 'pli' } }],
    ["the case's own panel unknown", `${piece}.make.panel`, { make: { panel: 'oak' } }],
    ['a front nobody has', 'make.front', {}, { make: { panel: 'ply', front: 'x' } }],
    ['an unknown band', 'make.band', {}, { make: { panel: 'ply', band: 'x' } }],
    ['an unknown toe board', `${piece}.toe.board`, { toe: { height: 90, board: 'x' } }],
    ['an unknown top', `${piece}.top.stock`, { top: { stock: 'x' } }],
    ['an unknown end', `${piece}.ends.left`, { ends: { left: 'x' } }],
    ['joints let in to the middle', 'make.let', {}, { make: { panel: 'ply', let: 9, joint: 'dado' } }],
    ['sides thicker than the width', `${piece}.size.width`, { size: { ...size, width: 36 } }],
    [
      'panels thicker than the height',
      `${piece}.size.height`,
      { size: { ...size, height: 320 }, make: { panel: 'thick' } },
    ],
    ['a back thicker than the depth', `${piece}.size.depth`, { size: { ...size, depth: 18 } }],
    [
      'a case that its toe alone fills',
      `${piece}.size.depth`,
      { toe: { height: 90, setback: 10 }, size: { ...size, depth: 30 } },
    ],
    [
      'more parts than can be worked out',
      piece,
      {
        size: { width: 9e4, height: 9e4, depth: 400 },
        inside: { columns: Array(20).fill({ rows: Array(20).fill({ drawers: 3 }) }) },
      },
    ],
    ['a toe set back beyond the depth', `${piece}.toe.setback`, { toe: { height: 90, setback: 290 } }],
    [
      'a reveal wider than the edge',
      'make.reveal',
      { inside: { door: 'left' } },
      { make: { panel: 'ply', reveal: 18 } },
    ],
    ['a gap wider than the edge', 'make.gap', { inside: { door: 'left' } }, { make: { panel: 'ply', gap: 20 } }],
    [
      'columns wider than the case',
      `${piece}.inside.columns`,
      { inside: { columns: [{ width: 500 }, { width: 400 }] } },
    ],
    [
      'columns that leave some over',
      `${piece}.inside.columns`,
      { inside: { columns: [{ width: 300 }, { width: 300 }] } },
    ],
    ['no room for a share', `${piece}.inside.columns`, { inside: { columns: [{ width: 746 }, { width: '1*' }] } }],
    [
      'rows higher than the case',
      `${piece}.inside.columns[1].rows`,
      { inside: { columns: [{}, { rows: [{ height: 600 }, {}] }] } },
    ],
    ['open rows too high', `${piece}.inside.open`, { inside: { open: [400, 400] } }],
    ['a fixed shelf above the bay', `${piece}.inside.fixed`, { inside: { fixed: [700] } }],
    ['fixed shelves in one place', `${piece}.inside.fixed`, { inside: { fixed: [200, 210] } }],
    ['too many fixed shelves', `${piece}.inside.fixed`, { inside: { fixed: 40 } }],
    ['too many adjustable shelves', `${piece}.inside.shelves`, { inside: { shelves: 20 } }],
    [
      'a setback beyond the depth',
      'make.setback',
      { inside: { shelves: 1 } },
      { make: { panel: 'ply', setback: 290 } },
    ],
    ['drawers too low', `${piece}.inside.drawers`, { inside: { drawers: 12 } }],
    ['drawer fronts higher than the bay', `${piece}.inside.drawers`, { inside: { drawers: [400, 400] } }],
    ['no slide short enough', `${piece}.make.drawer.slides`, { inside: { drawers: 2 }, size: { ...size, depth: 200 } }],
    ['shelves in a divided bay', `${piece}.inside.shelves`, { inside: { columns: [{}, {}], shelves: 2 } }],
    ['shelves in a bay open in rows', `${piece}.inside.shelves`, { inside: { open: [100, '1*'], shelves: 2 } }],
    ['a width for the whole inside', `${piece}.inside.width`, { inside: { width: 300 } }],
    ['a height for a column', `${piece}.inside.columns[0].height`, { inside: { columns: [{ height: 300 }, {}] } }],
    ['a width for a row', `${piece}.inside.rows[1].width`, { inside: { rows: [{}, { width: 300 }] } }],
    ['an open bay with a door', `${piece}.inside.open`, { inside: { open: true, door: 'left' } }],
    ['a style of nothing', `${piece}.inside.style`, { inside: { style: 'inset' } }],
    [
      'a board too narrow for the toe',
      `${piece}.toe`,
      { toe: { height: 90, board: '1x2' } },
      { boards: [{ id: '1x2', nominal: '1x2' }] },
    ],
    [
      'a board of no known section',
      `${piece}.toe.board`,
      { toe: { height: 90, board: 'b' } },
      { boards: [{ id: 'b', nominal: '1x' }] },
    ],
    [
      'a stile narrower than the panel',
      'make.frame.stile',
      {},
      { boards: [{ id: '1x2', nominal: '1x2' }], make: { panel: 'ply', frame: { board: '1x2', stile: 10 } } },
    ],
    [
      'an inset door with no depth for it',
      `${piece}.inside`,
      { inside: { door: 'left' }, size: { ...size, depth: 36 }, make: { style: 'inset' } },
    ],
  ])('%s', (_, path, asked, over) => {
    const { issues } = issuesOf(asked, over);
    expect(issues.map((issue) => pathText(issue.path))).toContain(path);
    for (const issue of issues) expect(issue.message.length).toBeGreaterThan(10);
  });
  it('bands as thick as the front they are glued round', () => {
    const over = (thickness: number) => ({
      packs: [{ id: 'lipping', use: 'edge band', thickness }],
      make: { panel: 'ply', band: 'lipping', drawer: { above: 1, below: 1, groove: 1 } },
    });
    const inside = { drawers: ['1*', 40] };
    expect(issuesOf({ inside }, over(20)).issues).toEqual([
      {
        path: [...['options', 0, 'pieces', 0], 'inside', 'drawers'],
        message: 'its edge band leaves nothing to cut of front of drawer 2 of bay 1',
        found: '40 mm high',
        expected: 'more than 40 mm',
      },
    ]);
    const { issues, placed } = issuesOf({ inside }, over(19.9));
    expect(issues).toEqual([]);
    expect(cutMm(placed, 'bay-1/drawer-2/front')[1]).toBeCloseTo(0.2, 9);
  });
  it('never asks for less than nothing', () => {
    const { issues } = issuesOf({ toe: { height: 90, setback: 10 }, size: { ...size, depth: 30 } });
    for (const { expected } of issues) expect(expected).not.toMatch(/-\d/);
  });
  it('says lengths in the units of the plan', () => {
    const { issues } = issuesOf({ inside: { fixed: [200, 210] } });
    expect(issues[0]).toMatchObject({ found: 'its top at 200 mm', expected: 'from 18 mm to 192 mm' });
  });
  it('names the nearest stock', () => {
    expect(issuesOf({}, { make: { panel: 'pli' } }).issues[0]).toMatchObject({ found: 'pli', nearest: 'ply' });
  });
  it('still builds the carcass where only the inside is wrong', () => {
    const { placed } = issuesOf({ inside: { columns: [{ width: 500 }, { width: 400 }] } });
    expect(placed.parts.map((p) => p.role)).toEqual(['side', 'side', 'bottom', 'top', 'back']);
  });
});

it('mirrors a case by its words', () => {
  const plan = planOf({
    panels: [{ id: 'ply', thickness: 18 }],
    make: { panel: 'ply' },
    pieces: [
      {
        case: 'a',
        size: { width: 800, height: 600, depth: 300 },
        ends: { left: 'ply' },
        top: { stock: 'ply', right: 12 },
        inside: {
          columns: [
            { width: 200, door: 'left' },
            { rows: [{ door: 'up' }, { columns: [{ door: 'pair' }, { drawers: 2 }] }] },
          ],
        },
      },
    ],
  });
  expect(mirrored(firstOf(plan, 'case'))).toMatchObject({
    ends: { right: 'ply' },
    top: { left: 12 },
    inside: {
      columns: [
        { rows: [{ door: 'up' }, { columns: [{ drawers: 2 }, { door: 'pair' }] }] },
        { width: 200, door: 'right' },
      ],
    },
  });
});

it('hangs a door by as many hinges as the edge they sit on is long, and holds a flap open by stays', () => {
  const hung = (width: number, height: number, door: string, wanted: string) => {
    const plan = planOf({
      panels: [{ id: 'ply', thickness: 18 }],
      make: { panel: 'ply', reveal: 3 },
      pieces: [{ case: 'a', size: { width, height, depth: 300 }, inside: { door } }],
    });
    const { fittings } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN).placed;
    return fittings.filter(({ use }) => use === wanted).map(({ count }) => count);
  };
  const hinges = (width: number, height: number, door: string) => hung(width, height, door, 'hinge');
  const stays = (width: number, door: string) => hung(width, 500, door, 'flap stay');
  expect(stays(606, 'up')).toEqual([1]);
  expect(stays(607, 'down')).toEqual([2]);
  for (const upright of ['left', 'right', 'pair']) expect(stays(700, upright)).toEqual([]);
  // an overlay front 6 mm less than the case either way: 894 → 2, 1594 → 3
  expect(hinges(500, 900, 'left')).toEqual([2]);
  expect(hinges(500, 1600, 'right')).toEqual([3]);
  expect(hinges(500, 1600, 'up')).toEqual([2]);
  expect(hinges(1600, 500, 'down')).toEqual([3]);
  expect(hinges(1600, 500, 'pair')).toEqual([2, 2]);
});

describe('a socket behind a case', () => {
  const wall = (x: number, y: number, kind = 'outlet'): WallContext => ({
    features: [{ id: 'socket', kind, x: [mm(x), mm(x + 70)], y: [mm(y), mm(y + 115)] }],
    studs: [],
  });
  const usual = { columns: [{ width: 400, shelves: 1 }, { rows: [{ door: 'pair' }, { height: 200, drawers: 1 }] }] };
  const holes = (context: WallContext, inside: object = usual) => {
    const plan = planOf({
      panels: [{ id: 'ply', thickness: 18 }],
      make: { panel: 'ply', back: { kind: 'grooved' } },
      pieces: [
        {
          case: 'a',
          size: { width: 1000, height: 800, depth: 300 },
          inside,
        },
      ],
    });
    const { placed } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN, context);
    expect(overlaps(placed)).toEqual([]);
    return part(placed, 'back').solid.taken.map(({ kind, why, box: { min, max } }) => [
      kind,
      why,
      min.x,
      max.x,
      min.y,
      max.y,
    ]);
  };
  it('is cut out of the back with room round it, behind an open bay or a door', () => {
    expect(holes(wall(200, 300))).toEqual([['cut-out', 'socket', 190, 280, 290, 425]]);
    expect(holes(wall(600, 500))).toHaveLength(1);
  });
  it.each([
    ['an upright', 400, 300],
    ['drawers', 600, 100],
    ['a shelf between bays', 600, 150],
    ['the side', 0, 300],
    ['nothing: it lies beside the case', 1200, 300],
  ])('is left alone behind %s', (_, x, y) => expect(holes(wall(x, y))).toEqual([]));
  it('is left alone behind drawers that a door hides', () => {
    const hidden = { door: 'pair', columns: [{ drawers: 1 }, { open: true }] };
    expect(holes(wall(200, 300), hidden)).toEqual([]);
    expect(holes(wall(700, 300), hidden)).toHaveLength(1);
  });
  it('is left alone when it is a radiator', () => expect(holes(wall(200, 300, 'radiator'))).toEqual([]));
});

it("speaks of lengths in the plan's own units, in decimals where a fraction would hide the fault", () => {
  const found = (width: string, unit: 'in' | 'mm') => {
    const plan = planOf(
      {
        panels: [{ id: 'ply', thickness: '3/4 in' }],
        make: { panel: 'ply' },
        pieces: [
          {
            case: 'a',
            size: { width: '30 in', height: '30 in', depth: '12 in' },
            inside: { columns: [{ width }, { width: '14 in' }] },
          },
        ],
      },
      unit,
    );
    return buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN).issues[0];
  };
  // 30 − 3 · 3/4 = 27-3/4 for both
  expect(found('14 in', 'in')).toMatchObject({ found: '28"', expected: '27-3/4" in all' });
  expect(found('13.755 in', 'in')).toMatchObject({ found: '27.755"' });
  expect(found('14 in', 'mm')).toMatchObject({ found: '711.2 mm', expected: '704.85 mm in all' });
});

describe('the bounds of what cannot be built', () => {
  const told = (fraction: string, piece: object, make: object = {}) => {
    const plan = planOf(
      {
        panels: [{ id: 'ply', thickness: '0.703 in' }],
        make: { panel: 'ply', ...make },
        pieces: [{ case: 'a', size: { width: '30 in', height: '30 in', depth: '12 in' }, ...piece }],
      },
      'in',
    );
    const said = { ...plan, units: { ...plan.units, fraction: fraction as never } };
    return buildCase(firstOf(said, 'case'), said, AT_ORIGIN).issues[0];
  };
  it('stand in the fraction of the plan, up for the least and down for the most', () => {
    // two panels of 0.703 in are 1.406 in
    const narrow = { size: { width: '1.4 in', height: '30 in', depth: '12 in' } };
    expect(told('1/32', narrow)).toMatchObject({ found: '1-3/8"', expected: 'more than 1-13/32"' });
    expect(told('1/8', narrow)).toMatchObject({ found: '1-3/8"', expected: 'more than 1-1/2"' });
    // half of the panel is 0.3515 in
    expect(told('1/32', {}, { let: '3/8 in' })).toMatchObject({
      found: '3/8"',
      expected: 'less than half of the panel, 11/32"',
    });
    // and what is found does not round to what is right
    expect(told('1/8', {}, { let: '0.352 in' })).toMatchObject({
      found: '3/8"',
      expected: 'less than half of the panel, 1/4"',
    });
  });
  it('are said exactly where no printed length lies between them', () =>
    expect(
      told('1/1', { size: { width: '30 in', height: '2.8 in', depth: '12 in' }, inside: { fixed: ['0.1 in'] } }),
    ).toMatchObject({
      expected: 'from 0.703" to 1.394"',
    }));
});

it('names the case whose drawers no slide is short enough for: the slides are said once for all', () => {
  const plan = planOf({
    panels: [{ id: 'ply', thickness: 18 }],
    make: { panel: 'ply' },
    pieces: [{ case: 'shallow', size: { width: 500, height: 600, depth: 200 }, inside: { drawers: 2 } }],
  });
  const { issues } = buildCase(firstOf(plan, 'case'), plan, AT_ORIGIN);
  expect(issues.map((i) => i.message)).toContain("no slide is short enough for the depth of 'shallow'");
});
