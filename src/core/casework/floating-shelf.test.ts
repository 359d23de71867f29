import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathText } from '../issue/index.ts';
import { mm, TICKS_PER_MM } from '../quantity/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { buildShelf, type WallContext } from './index.ts';
import { cells, jointFaults, outsideFaults, overlaps, partFaults, seen, uncovered, volumesOf } from './laws.testing.ts';
import { AT_ORIGIN, firstOf, planOf } from './plan.testing.ts';

const PANELS = [
  { id: 'skin', thickness: 6 },
  { id: 'core', thickness: 12 },
  { id: 'thick', thickness: 18 },
];
const studsAt = (...at: number[]): WallContext => ({
  features: [],
  studs: at.map((x) => ({ at: mm(x), width: mm(38) })),
});

function build(piece: object, context?: WallContext) {
  const plan = planOf({
    panels: PANELS,
    boards: [{ id: 'strip', thickness: 20, width: 60 }],
    pieces: [{ shelf: 's', size: { width: 1200, height: 50, depth: 250 }, skin: 'skin', core: 'core', ...piece }],
  });
  return buildShelf(firstOf(plan, 'shelf'), plan, AT_ORIGIN, context);
}
const THICKNESS = new Map([...PANELS.map((p) => [p.id, p.thickness] as const), ['strip', 20] as const]);

/** Rods and plate are solid too: nothing of the shelf may be where they are, and the shelf must still slide by half the play either way. */
function rodFaults(placed: PlacedPiece, play: number): string[] {
  const faults: string[] = [];
  const bodies = placed.fittings.filter((f) => f.solid).map((f) => ({ id: f.id, box: cells(f.solid!.box) }));
  for (const part of placed.parts) {
    const [box, taken] = [cells(part.solid.box), part.solid.taken.map((m) => cells(m.box))];
    for (const body of bodies) {
      for (const slide of [-Math.floor((play * 640) / 2), 0, Math.floor((play * 640) / 2)]) {
        const moved = { ...body.box, x: [body.box.x[0] + slide, body.box.x[1] + slide] as const };
        const shared = {
          x: [Math.max(box.x[0], moved.x[0]), Math.min(box.x[1], moved.x[1])] as const,
          y: [Math.max(box.y[0], moved.y[0]), Math.min(box.y[1], moved.y[1])] as const,
          z: [Math.max(box.z[0], moved.z[0]), Math.min(box.z[1], moved.z[1])] as const,
        };
        if (
          shared.x[0] < shared.x[1] &&
          shared.y[0] < shared.y[1] &&
          shared.z[0] < shared.z[1] &&
          uncovered(shared, taken) > 0n
        )
          faults.push(`${body.id} meets ${part.id}, slid by ${slide} ticks`);
      }
    }
  }
  return faults;
}
const allFaults = (placed: PlacedPiece, play: number) => [
  ...overlaps(placed),
  ...outsideFaults(placed),
  ...jointFaults(placed),
  ...partFaults(placed, THICKNESS),
  ...rodFaults(placed, play),
];

describe('a floating shelf, worked by hand', () => {
  // 1200 × 50 × 250; skins 6, core 12, lip 20 thick full height; rods 14 at studs 200, 600 and 1000; play 16
  const { placed, issues } = build(
    { lip: { stock: 'strip' }, rods: { diameter: 14, length: 200, plate: 30 }, play: 16 },
    studsAt(-200, 200, 600, 1000, 1400),
  );
  const cut = (id: string) => {
    const part = placed.parts.find((p) => p.id === `s/${id}`)!;
    return [part.cut.length, part.cut.width];
  };
  it('has nothing wrong with it', () => {
    expect(issues).toEqual([]);
    expect(allFaults(placed, 16)).toEqual([]);
  });
  it.each([
    // behind the lip: 250 − 20 = 230
    ['top-skin', [1200, 230]],
    ['bottom-skin', [1200, 230]],
    ['lip', [1200, 50]],
    // hollow 50 − 2 · 6 = 38 high
    ['left-end', [230, 38]],
    // between the ends: 1200 − 12 = 1188
    ['rear-bearer', [1188, 38]],
    ['front-bearer', [1188, 38]],
    // between the bearers: rear one 5 (plate) + 12 = 17, front one from 200 − 12 = 188: 171 long
    ['spacer-1-left', [171, 38]],
  ])('%s is cut %j', (id, size) => expect(cut(id)).toEqual(size));
  it('puts a rod at each stud within reach and leaves each a way wider by the play', () => {
    const rods = placed.fittings.filter((f) => f.use === 'rod');
    expect(rods.map((r) => [r.solid!.box.min.x, r.solid!.box.max.x])).toEqual([
      [193, 207],
      [593, 607],
      [993, 1007],
    ]);
    const notches = placed.parts.find((p) => p.id === 's/rear-bearer')!.solid.taken;
    expect(notches.map((n) => n.box.max.x - n.box.min.x)).toEqual([30, 30, 30]);
    // spacers at the edges of the way: 200 ± 15
    expect(placed.parts.find((p) => p.id === 's/spacer-1-left')!.solid.box.max.x).toBe(185);
    expect(placed.parts.find((p) => p.id === 's/spacer-1-right')!.solid.box.min.x).toBe(215);
  });
  it('rides on its rods: each notch ends at the top of the rod', () => {
    // middle of 50 is 25, rod from 18 to 32
    const notch = placed.parts.find((p) => p.id === 's/rear-bearer')!.solid.taken[0]!;
    expect([notch.box.min.y, notch.box.max.y]).toEqual([6, 32]);
    expect(placed.fittings.find((f) => f.use === 'rod')!.amount).toEqual({ value: 200, unit: 'mm' });
  });
  it('spans a plate over its rods in the recess', () => {
    // 20 beyond the outer rods' centres, 30 high about the middle, 5 thick
    expect(placed.fittings.find((f) => f.use === 'wall plate')!.solid!.box).toEqual({
      min: { x: 180, y: 10, z: 0 },
      max: { x: 1020, y: 40, z: 5 },
    });
  });
});

describe('rods', () => {
  const centres = (piece: object, context?: WallContext) =>
    build(piece, context)
      .placed.fittings.filter((f) => f.use === 'rod')
      .map((f) => (f.solid!.box.min.x + f.solid!.box.max.x) / 2);
  it('stand where the plan says', () =>
    expect(centres({ rods: { at: [900, 300] } }, studsAt(200, 600))).toEqual([300, 900]));
  it('take as many of the studs as are wanted, the outer ones first', () =>
    expect(centres({ rods: { count: 3 } }, studsAt(100, 300, 500, 700, 900, 1100))).toEqual([100, 700, 1100]));
  it('are spread evenly where there are not two studs', () => {
    expect(centres({ rods: { count: 2 } }, studsAt(600))).toEqual([300, 900]);
    // one every 400 mm or so
    expect(centres({})).toEqual([200, 600, 1000]);
  });
  it('stand as near each other as their ways and spacers let them', () => {
    const near = (apart: number) => build({ core: 'core', rods: { at: [600, 600 + apart] } });
    // to either side half of a way of 12 + 20, and a spacer
    const least = 2 * (16 + THICKNESS.get('core')!);
    expect(near(least).issues).toEqual([]);
    expect(overlaps(near(least).placed)).toEqual([]);
    expect(near(least - 1).issues.map(({ expected }) => expected)).toEqual([
      expect.stringMatching(new RegExp(`, ${least} mm apart$`)),
    ]);
  });
  it('ride on the skins where the hollow is no higher than they are', () => {
    const { placed, issues } = build({ size: { width: 900, height: 24, depth: 200 }, rods: { diameter: 12 } });
    expect(issues).toEqual([]);
    expect(placed.parts.filter((p) => p.role === 'bearer')).toEqual([]);
    expect(allFaults(placed, 20)).toEqual([]);
  });
});

it.each<[string, object, string]>([
  ['skins as thick as the shelf', { size: { width: 1200, height: 12, depth: 250 } }, 'size.height'],
  ['a lip as deep as the shelf', { size: { width: 1200, height: 50, depth: 6 } }, 'size.depth'],
  ['a lip higher than the shelf', { lip: { stock: 'skin', height: 60 } }, 'lip.height'],
  ['a lip that leaves the hollow open', { lip: { stock: 'skin', height: 30 } }, 'lip.height'],
  ['rods thicker than the hollow', { rods: { diameter: 40 } }, 'rods.diameter'],
  ['rods longer than the shelf is deep', { rods: { length: 250 } }, 'rods.length'],
  ['a plate higher than the hollow', { rods: { plate: 40 } }, 'rods.plate'],
  ['a rod beyond the end', { rods: { at: [5, 600] } }, 'rods.at'],
  ['rods too near each other', { rods: { at: [600, 620] } }, 'rods.at'],
  ['a skin nobody has', { skin: 'x' }, 'skin'],
  ['a core too narrow for the hollow', { size: { width: 1200, height: 80, depth: 250 }, core: 'strip' }, 'core'],
  ['a lip nobody has', { lip: { stock: 'x' } }, 'lip.stock'],
])('says what is wrong: %s', (_, piece, path) => {
  const { placed, issues } = build(piece);
  expect(issues.map((issue) => pathText(issue.path))).toContain(`options[0].pieces[0].${path}`);
  expect(overlaps(placed)).toEqual([]);
});

it('keeps every law on random shelves', () => {
  let fine = 0;
  fc.assert(
    fc.property(
      fc.record({
        width: fc.integer({ min: 3000, max: 25000 }),
        height: fc.integer({ min: 250, max: 900 }),
        depth: fc.integer({ min: 1500, max: 4000 }),
        core: fc.constantFrom('skin', 'core', 'thick', 'strip'),
        skin: fc.constantFrom('skin', 'core'),
        lip: fc.constantFrom(undefined, 'strip', 'thick'),
        ends: fc.constantFrom('closed', 'open'),
        diameter: fc.option(fc.integer({ min: 60, max: 160 }), { nil: undefined }),
        length: fc.option(fc.integer({ min: 500, max: 1600 }), { nil: undefined }),
        play: fc.integer({ min: 0, max: 500 }),
        first: fc.integer({ min: 0, max: 6000 }),
        spacing: fc.integer({ min: 3000, max: 6100 }),
      }),
      ({ width, height, depth, core, skin, lip, ends, diameter, length, play, first, spacing }) => {
        const tenths = (n: number) => `${n / 10} mm`;
        const { placed, issues } = build(
          {
            size: { width: tenths(width), height: tenths(height), depth: tenths(depth) },
            core,
            skin,
            ...(lip && { lip: { stock: lip } }),
            ends,
            rods: { ...(diameter && { diameter: tenths(diameter) }), ...(length && { length: tenths(length) }) },
            play: tenths(play),
          },
          studsAt(...[0, 1, 2, 3, 4, 5].map((i) => (first + i * spacing) / 10)),
        );
        if (issues.length > 0) {
          expect(overlaps(placed)).toEqual([]);
          return;
        }
        fine += 1;
        expect(allFaults(placed, play / 10)).toEqual([]);
        for (const part of placed.parts) {
          const { byGrid, byInclusion } = volumesOf(part);
          expect(byGrid).toBe(byInclusion);
        }
      },
    ),
    { numRuns: 1000 },
  );
  expect(fine).toBeGreaterThan(500);
});

it('tells once that a board is too narrow, however many parts are cut from it', () => {
  const { issues } = build({ size: { width: 1200, height: 80, depth: 250 }, core: 'strip' });
  expect(issues.map(({ message }) => message)).toEqual(['board strip is too narrow for rear bearer']);
});

it('is mirrored by rods at mirrored places, part for part', () => {
  let fine = 0;
  fc.assert(
    fc.property(
      fc.record({
        width: fc.integer({ min: 400, max: 2400 }),
        core: fc.constantFrom('skin', 'core', 'strip'),
        ends: fc.constantFrom('closed', 'open'),
        diameter: fc.integer({ min: 4, max: 8 }),
        play: fc.integer({ min: 0, max: 25 }),
        at: fc.uniqueArray(fc.integer({ min: 60, max: 2300 }), { minLength: 1, maxLength: 4 }),
      }),
      ({ width, core, ends, diameter, play, at }) => {
        // whole millimetres twice over: every half of them is a whole tick, so the image is exact
        const shelf = (places: readonly number[]) =>
          build({
            size: { width: 2 * width, height: 60, depth: 250 },
            core,
            ends,
            play: 2 * play,
            rods: { diameter: 2 * diameter, at: places },
          });
        const mine = shelf(at.filter((x) => x < 2 * width));
        const image = shelf(at.filter((x) => x < 2 * width).map((x) => 2 * width - x));
        expect(image.issues.length).toBe(mine.issues.length);
        if (mine.issues.length > 0) return;
        fine += 1;
        const across = 2 * width * TICKS_PER_MM;
        expect(image.placed.parts.map((part) => seen(part, across, true)).sort()).toEqual(
          mine.placed.parts.map((part) => seen(part, across, false)).sort(),
        );
      },
    ),
    { numRuns: 300 },
  );
  expect(fine).toBeGreaterThan(50);
});
