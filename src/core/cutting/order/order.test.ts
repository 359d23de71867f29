import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toTicks } from '../../quantity/index.ts';
import type { PlacedPart } from '../problem.ts';
import { type CutOrder, type CutPiece, type CutShop, offcuts, orderOfCuts, type SheetToCut } from './index.ts';

const shop: CutShop = {
  rip: 650,
  table: { length: 2440, width: 800 },
  track: 2700,
  lift: 23,
  arealDensity: 12,
  keep: 150,
};

/** A sheet cut at random, edge to edge, with waste left here and there. In whole ticks. */
const anySheet: fc.Arbitrary<SheetToCut> = fc
  .record({
    dice: fc.infiniteStream(fc.nat(1_000_000)),
    kerf: fc.integer({ min: 0, max: 4 * 640 }),
    trim: fc.constantFrom(0, 3, 640, 10 * 640),
    length: fc.integer({ min: 300 * 640, max: 2440 * 640 }),
    width: fc.integer({ min: 300 * 640, max: 1220 * 640 }),
  })
  .map(({ dice, kerf, trim, length, width }) => {
    const draw = (below: number): number => (dice.next().value as number) % below;
    const placed: PlacedPart[] = [];
    const pieces = [{ x: trim, y: trim, l: length - 2 * trim, w: width - 2 * trim }];
    for (let piece = pieces.pop(); piece; piece = pieces.pop()) {
      const { x, y, l, w } = piece;
      const along = draw(2) === 0;
      const room = (along ? l : w) - kerf;
      if (room < 80 * 640 || placed.length + pieces.length >= 14) {
        if (placed.length > 0 && draw(4) === 0) continue;
        const [cutL, cutW] = [draw(3) === 0 ? draw(Math.floor(l / 2)) : 0, draw(3) === 0 ? draw(Math.floor(w / 2)) : 0];
        placed.push({
          part: `p${placed.length}`,
          x: (x + draw(2) * cutL) / 640,
          y: (y + draw(2) * cutW) / 640,
          length: (l - cutL) / 640,
          width: (w - cutW) / 640,
        });
        continue;
      }
      const first = 30 * 640 + draw(room - 60 * 640);
      if (along) pieces.push({ ...piece, l: first }, { ...piece, x: x + first + kerf, l: l - first - kerf });
      else pieces.push({ ...piece, w: first }, { ...piece, y: y + first + kerf, w: w - first - kerf });
    }
    return { length: length / 640, width: width / 640, trim: trim / 640, kerf: kerf / 640, placed };
  });

const rectangle = (p: { x: number; y: number; length: number; width: number }) => ({
  x0: toTicks(p.x),
  y0: toTicks(p.y),
  x1: toTicks(p.x) + toTicks(p.length),
  y1: toTicks(p.y) + toTicks(p.width),
});
const keyOf = (p: CutPiece | PlacedPart): string => JSON.stringify(rectangle(p));

/** Makes the cuts one by one on an imaginary sheet; shares nothing with the planner but the steps. Returns what lies in the shop at the end. */
function replay(sheet: SheetToCut, order: CutOrder): { readonly left: Map<string, CutPiece>; readonly sawn: number } {
  const whole: CutPiece = { is: 'sheet', x: 0, y: 0, length: sheet.length, width: sheet.width } as CutPiece;
  const left = new Map([[keyOf(whole), whole]]);
  let sawn = 0;
  for (const step of order.steps) {
    expect(left.has(keyOf(step.piece))).toBe(true);
    left.delete(keyOf(step.piece));
    const piece = rectangle(step.piece);
    const upright = toTicks(step.line.from.x) === toTicks(step.line.to.x);
    // From edge to edge of this very piece.
    expect(toTicks(upright ? step.line.from.y : step.line.from.x)).toBe(upright ? piece.y0 : piece.x0);
    expect(toTicks(upright ? step.line.to.y : step.line.to.x)).toBe(upright ? piece.y1 : piece.x1);
    const run = upright ? piece.y1 - piece.y0 : piece.x1 - piece.x0;
    expect(toTicks(step.run)).toBe(run);
    const taken = toTicks(step.taken);
    expect(taken).toBeLessThanOrEqual(toTicks(sheet.kerf));
    sawn += run * taken;
    // What it gives and what the blade took fill the piece, in that order along the cut's own direction.
    const [low, high] = upright ? (['x0', 'x1'] as const) : (['y0', 'y1'] as const);
    const given = step.gives.map((p) => rectangle(p)).sort((a, b) => a[low] - b[low]);
    const ends = given.flatMap((r) => [r[low], r[high]]);
    const gaps = [piece[low], ...ends, piece[high]].reduce<number[]>((sum, at, i, all) => {
      if (i % 2 === 1) sum.push(at - all[i - 1]!);
      return sum;
    }, []);
    expect(gaps.reduce((a, b) => a + b, 0)).toBe(taken);
    expect(gaps.filter((gap) => gap > 0).length).toBeLessThanOrEqual(1);
    // The setting is the size of what lies on its side of the blade.
    const measured = step.side === 'low' ? given[0] : given.at(-1);
    if (measured) expect(toTicks(step.setting)).toBe(measured[high] - measured[low]);
    for (const p of step.gives) left.set(keyOf(p), p);
  }
  return { left, sawn };
}

describe('orderOfCuts', () => {
  it('gives, cut by cut and edge to edge, exactly the parts, the named offcuts, waste and sawdust', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const order = orderOfCuts(sheet, shop)!;
        expect(order).toBeDefined();
        const { left, sawn } = replay(sheet, order);
        if (order.steps.length === 0) return;
        const names = (is: CutPiece['is']) =>
          [...left.values()]
            .filter((p) => p.is === is)
            .map(keyOf)
            .sort();
        expect(names('part')).toEqual(sheet.placed.map(keyOf).sort());
        expect(names('offcut')).toEqual(order.offcuts.map(keyOf).sort());
        expect(names('waste')).toEqual(order.waste.map(keyOf).sort());
        expect(names('piece')).toEqual([]);
        const area = [...left.values()].reduce((sum, p) => sum + toTicks(p.length) * toTicks(p.width), 0);
        expect(area + sawn).toBe(toTicks(sheet.length) * toTicks(sheet.width));
      }),
    );
  });

  it('breaks down on the floor before it goes to the saw, and takes nothing there that does not fit or is too heavy', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const { steps } = orderOfCuts(sheet, shop)!;
        const firstSawn = steps.findIndex((step) => step.tool === 'table saw');
        if (firstSawn >= 0) expect(steps.slice(firstSawn).every((step) => step.tool === 'table saw')).toBe(true);
        for (const { tool, piece, setting, against, warnings } of steps) {
          const told = warnings.map((warning) => warning.what);
          if (tool === 'table saw') {
            expect(Math.max(piece.length, piece.width)).toBeLessThanOrEqual(2440);
            expect(Math.min(piece.length, piece.width)).toBeLessThanOrEqual(800);
            expect(told.includes('rip')).toBe(against !== 'mark' && setting > 650);
          }
          expect(told.includes('mass')).toBe(piece.mass! > 23);
          expect(piece.mass).toBeCloseTo((piece.length / 1000) * (piece.width / 1000) * 12, 9);
        }
      }),
    );
  });

  it('names offcuts A, B, C from the largest down, each big enough to keep', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const kept = offcuts(sheet, shop)!.offcuts;
        kept.forEach((piece, i) => {
          expect(piece.name).toBe(String.fromCharCode(65 + i));
          expect(Math.max(piece.length, piece.width)).toBeGreaterThanOrEqual(150);
          expect(Math.min(piece.length, piece.width)).toBeGreaterThanOrEqual(40);
          if (i > 0)
            expect(piece.length * piece.width).toBeLessThanOrEqual(kept[i - 1]!.length * kept[i - 1]!.width + 1e-6);
        });
      }),
    );
  });

  // Six equal shelves in two columns: one break-down, then one fence setting for all rips of one width.
  const shelves: SheetToCut = {
    length: 2440,
    width: 1220,
    trim: 0,
    kerf: 3,
    placed: [0, 1, 2].flatMap((row) =>
      [0, 1].map((column) => ({
        part: `s${row}${column}`,
        x: column * 1218.5,
        y: row * 403,
        length: 1215.5,
        width: 400,
      })),
    ),
  };
  it('sets the fence once for cuts of one width', () => {
    const order = orderOfCuts(shelves, { ...shop, lift: 40 })!;
    const set = order.steps
      .filter((step) => step.tool === 'table saw')
      .map((step) => `${step.against} ${step.setting}`);
    expect(order.settings).toBe(new Set(set).size);
    expect(set.every((setting, i) => i === 0 || setting === set[i - 1] || !set.slice(0, i).includes(setting))).toBe(
      true,
    );
  });

  it('says what one person should not lift and what the saw cannot do', () => {
    const small = { ...shop, track: 1000, lift: 20, rip: 300, table: { length: 1300, width: 1300 } };
    const order = orderOfCuts(shelves, small)!;
    const told = new Set(order.steps.flatMap((step) => step.warnings.map((warning) => warning.what)));
    expect([...told].sort()).toEqual(['mass', 'rip', 'track']);
    // 2.44 × 1.22 m × 12 kg/m² = 35.7 kg.
    expect(order.steps[0]!.piece).toMatchObject({ name: 'sheet', is: 'sheet' });
    expect(order.steps[0]!.piece.mass).toBeCloseTo(35.72, 2);
  });

  it('puts no sliver between fence and blade where the other side of the blade can be held', () => {
    fc.assert(
      fc.property(anySheet, fc.constantFrom(300, 650), (sheet, rip) => {
        for (const { tool, setting, side, piece, line, taken } of orderOfCuts(sheet, { ...shop, rip })!.steps) {
          if (tool !== 'table saw' || setting >= 15) continue;
          const across = line.from.x === line.to.x ? piece.length : piece.width;
          const other = across - taken - setting;
          expect({ side, other: other >= 15 }).toEqual({ side, other: false });
        }
      }),
    );
  });

  it('takes a narrow strip off a piece wider than the fence reaches with the guided saw, from a mark', () => {
    // A part 27" wide on a sheet 27-13/32" wide: the strip left is 9/32" after the blade. The fence reaches 25".
    const sheet: SheetToCut = {
      length: 1000,
      width: 696.12,
      trim: 0,
      kerf: 3.175,
      placed: [{ part: 'a', x: 0, y: 0, length: 1000, width: 685.8 }],
    };
    const table = { length: 2440, width: 1220 };
    const { steps } = orderOfCuts(sheet, { keep: 150, rip: 635, table, track: 2700 })!;
    expect(steps).toMatchObject([{ tool: 'guided saw', against: 'mark', setting: 685.8, side: 'low', warnings: [] }]);
    // With no track so long it stays at the saw, and the step says that the fence does not reach.
    const short = orderOfCuts(sheet, { keep: 150, rip: 635, table, track: 900 })!;
    expect(short.steps).toMatchObject([{ against: 'fence', setting: 685.8, warnings: [{ what: 'rip', limit: 635 }] }]);
  });

  it('is deterministic', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        expect(orderOfCuts(sheet, shop)).toEqual(orderOfCuts(sheet, shop));
      }),
    );
  });

  it('gives no order where parts lie round a hole', () => {
    const at = (part: string, x: number, y: number, length: number, width: number) => ({ part, x, y, length, width });
    const placed = [at('a', 0, 0, 60, 40), at('b', 60, 0, 40, 60), at('c', 40, 60, 60, 40), at('d', 0, 40, 40, 60)];
    expect(orderOfCuts({ length: 100, width: 100, trim: 0, kerf: 0, placed }, shop)).toBeUndefined();
  });

  it('needs no cut for a part that is the whole sheet', () => {
    const sheet = {
      length: 100,
      width: 50,
      trim: 0,
      kerf: 3,
      placed: [{ part: 'a', x: 0, y: 0, length: 100, width: 50 }],
    };
    expect(orderOfCuts(sheet, shop)).toMatchObject({ steps: [], offcuts: [], waste: [] });
  });
});
