import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../core/outcome.ts';
import {
  applyToPlain,
  type Edit,
  kindOf,
  lookUp,
  nameOf,
  PIECE_KINDS,
  type PlainValue,
  type Plan,
  planOf,
  readPlan,
} from '../core/plan/index.ts';
import { findPiece, placeEdits, type Scene, SIZED, sizeEdits, written } from './arrange.ts';
import {
  bayAround,
  bayNumber,
  bayPath,
  divideEdits,
  dropEdits,
  type Fill,
  fillEdits,
  fillOf,
  joinEdits,
} from './bays.ts';
import { addEdits, copyEdits, freshName, mirrorEdits, otherSide, removeEdits } from './whole-pieces.ts';

const text = readFileSync(join(import.meta.dirname, '../../examples/lesson-room.plan.yaml'), 'utf8');
const read = readPlan(text, {});
const plain = read.document.plain as PlainValue;
const sceneIn = (plan: Plan, option = 0): Scene => {
  const { room, pieces } = sceneOf(plan, plan.options[option]!);
  return { plan, option: plan.options[option]!, room, pieces };
};
const scene = sceneIn(read.plan!);

/** The plan after edits, which have to leave it sound. */
function after(edits: readonly Edit[], from: PlainValue = plain): { plain: PlainValue; scene: Scene } {
  const changed = applyToPlain(from, edits);
  if (!changed.ok) throw new Error(changed.issues[0]!.message);
  const { plan, issues } = planOf(changed.value);
  expect(issues).toEqual([]);
  return { plain: changed.value, scene: sceneIn(plan!) };
}
const at = (s: Scene, name: string) => s.pieces.find((p) => p.id === name)!;
const find = (s: Scene, name: string) => findPiece(s, name)!;
/** What stands at a wall by itself; a light along an edge goes where the edge goes. */
const onWall = scene.pieces
  .filter((p) => p.wall && SIZED.has(find(scene, p.id) && kindOf(find(scene, p.id).piece)))
  .map((p) => p.id);

describe('placing', () => {
  it('puts any piece at a wall where it is asked to stand, however the plan says where it is', () => {
    fc.assert(
      fc.property(fc.constantFrom(...onWall), fc.integer({ min: 0, max: 64 * 100 }), (name, sixtyFourths) => {
        const along = (sixtyFourths * 25.4) / 64;
        const moved = after(placeEdits(scene, find(scene, name), { along }));
        expect(at(moved.scene, name).wall!.from).toBeCloseTo(along, 2);
      }),
      { numRuns: 60 },
    );
  });

  it('moves nothing else than what stands after it', () => {
    const moved = after(placeEdits(scene, find(scene, 'machines'), { along: 2000 }));
    for (const name of onWall.filter((n) => n !== 'machines' && n !== 'window seat books'))
      expect(at(moved.scene, name).wall!.from).toBe(at(scene, name).wall!.from);
    expect(at(moved.scene, 'window seat books').wall!.from).toBeGreaterThan(at(scene, 'window seat books').wall!.from);
  });

  it('lets go of the piece before it when it is moved left of its end', () => {
    const moved = after(placeEdits(scene, find(scene, 'machines'), { along: 300 }));
    expect(lookUp(moved.plain, ['options', 0, 'pieces', 1, 'after'])).toBeUndefined();
    expect(at(moved.scene, 'machines').wall!.from).toBeCloseTo(300, 2);
  });

  it('mirrors a place twice into the same place', () => {
    for (const name of onWall) {
      const once = after(placeEdits(scene, find(scene, name), otherSide(scene, find(scene, name))!));
      const back = placeEdits(once.scene, find(once.scene, name), otherSide(once.scene, find(once.scene, name))!);
      expect(at(after(back, once.plain).scene, name).wall!.from).toBeCloseTo(at(scene, name).wall!.from, 2);
    }
  });

  it('pulls one side and leaves the other where it was', () => {
    const sides = fc.constantFrom('left', 'right', 'top', 'bottom' as const);
    fc.assert(
      fc.property(fc.constantFrom(...onWall), sides, fc.integer({ min: 1, max: 40 }), (name, side, eighths) => {
        const hangs = at(scene, name).frame.origin.y > 1;
        if (side === 'bottom' && !hangs) return;
        const by = -(eighths * 25.4) / 64;
        const { scene: pulled } = after(sizeEdits(scene, find(scene, name), side, by));
        const span = (s: Scene) => {
          const { piece, placed } = find(s, name);
          const { x, y } = { x: placed!.wall!.from, y: placed!.frame.origin.y };
          return { left: x, right: x + piece.size.width, bottom: y, top: y + piece.size.height };
        };
        const [was, is] = [span(scene), span(pulled)];
        for (const key of ['left', 'right', 'bottom', 'top'] as const) {
          const sign = key === 'left' || key === 'bottom' ? -1 : 1;
          expect(is[key]).toBeCloseTo(was[key] + (key === side ? sign * by : 0), 2);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('writes every length so that it reads back as it was', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 9000, noNaN: true }),
        fc.constantFrom('ft-in', 'in', 'mm', 'cm', 'm'),
        (mm, length) => {
          const units = { ...read.plan!.units, length } as const;
          const back = readPlan(text.replace('ceiling: 8\' 1"', `ceiling: ${JSON.stringify(written(units, mm))}`), {});
          expect(Math.abs(back.plan!.room.ceiling - mm)).toBeLessThan(0.0025);
        },
      ),
      { numRuns: 20 },
    );
  });
});

describe('pieces', () => {
  it('copies every piece, and what stood after it stands after the copy', () => {
    for (const piece of scene.option.pieces) {
      const { edits, name } = copyEdits(scene, plain, find(scene, nameOf(piece)));
      const copied = after(edits);
      expect(copied.scene.pieces.length).toBe(scene.pieces.length + 1);
      // what is built on a wall is made round what is in the wall there; a case is the same anywhere
      if ('case' in piece) expect(at(copied.scene, name).parts.length).toBe(at(scene, nameOf(piece)).parts.length);
      for (const other of copied.scene.option.pieces)
        if (nameOf(other) !== name) expect(other.after).not.toBe(nameOf(piece));
    }
  });

  it('takes any piece away and leaves all others where they are', () => {
    for (const piece of scene.option.pieces) {
      const gone = nameOf(piece);
      const { scene: left } = after(removeEdits(scene, plain, find(scene, gone)));
      const along = scene.option.pieces.filter((p) => 'along' in p && p.along === gone).map(nameOf);
      const still = scene.pieces.map((p) => p.id).filter((id) => id !== gone && !along.includes(id));
      expect(left.pieces.map((p) => p.id)).toEqual(still);
      for (const p of left.pieces) {
        expect(p.frame.origin.x).toBeCloseTo(at(scene, p.id).frame.origin.x, 2);
        expect(p.frame.origin.y).toBeCloseTo(at(scene, p.id).frame.origin.y, 2);
      }
    }
  });

  it('adds every kind of piece, which can be made wider where it has a width of its own', () => {
    for (const kind of PIECE_KINDS) {
      const { edits, name } = addEdits(scene, kind, 'north');
      const added = after(edits);
      expect(at(added.scene, name).kind).toBe(kind);
      const before = find(added.scene, name);
      const wider = sizeEdits(added.scene, before, 'right', 25.4);
      if (kind === 'seat' || kind === 'camera') expect(wider).toEqual([]);
      else
        expect(find(after(wider, added.plain).scene, name).piece.size.width).toBeCloseTo(
          before.piece.size.width + 25.4,
        );
    }
  });

  it('stands what is added free in the room clear of what was added so before', () => {
    let now = { plain, scene };
    const spots: string[] = [];
    for (const kind of ['thing', 'seat', 'camera', 'thing'] as const) {
      const { edits, name } = addEdits(now.scene, kind, 'north');
      now = after(edits, now.plain);
      const { x, z } = at(now.scene, name).frame.origin;
      spots.push(`${x} ${z}`);
    }
    expect(new Set(spots).size).toBe(spots.length);
  });

  it('hangs what finds no free place on its wall where it covers least, and says so', () => {
    let now = { plain, scene };
    const places: number[] = [];
    let remark: string | undefined;
    while (remark === undefined) {
      const added = addEdits(now.scene, 'absorber', 'north');
      const before = now.scene;
      now = after(added.edits, now.plain);
      const own = at(now.scene, added.name);
      const [from, to] = [own.wall!.from, own.wall!.from + own.outside.max.x];
      const low = own.frame.origin.y;
      const over = (y0: number, y1: number) => Math.max(0, Math.min(y1, low + own.outside.max.y) - Math.max(y0, low));
      const others = [
        ...before.pieces
          .filter((p) => p.wall?.id === 'north')
          .map(({ wall, frame: { origin }, outside: { min, max } }) => ({
            from: wall!.from + min.x,
            to: wall!.from + max.x,
            over: over(origin.y + min.y, origin.y + max.y),
          })),
        ...before.room.openings
          .filter((o) => o.wall === 'north')
          .map((o) => ({ from: o.x[0], to: o.x[1], over: over(...o.y) })),
      ];
      const covers = (x: number): number =>
        others.reduce((sum, o) => sum + o.over * Math.max(0, Math.min(o.to, x + to - from) - Math.max(o.from, x)), 0);
      remark = added.remark;
      const end = before.room.walls[0]!.length - (to - from);
      if (remark === undefined) expect(covers(from)).toBeLessThan(1);
      else for (let x = 0; x <= end; x += 50) expect(covers(from)).toBeLessThanOrEqual(covers(x) + 1e-6);
      places.push(from);
    }
    expect(remark).toContain('no free place');
  });

  it('mirrors a piece twice into itself, and keeps its parts as many', () => {
    for (const name of ['scores', 'machines', 'window seat books']) {
      const once = after(mirrorEdits(plain, find(scene, name)));
      expect(at(once.scene, name).parts.length).toBe(at(scene, name).parts.length);
      const twice = after(mirrorEdits(once.plain, find(once.scene, name)), once.plain);
      expect(twice.plain).toEqual(plain);
    }
    const mirrored = after(mirrorEdits(plain, find(scene, 'scores')));
    expect(lookUp(mirrored.plain, ['options', 0, 'pieces', 0, 'inside', 'columns', 1, 'door'])).toBe('right');
  });

  it('counts names on', () => {
    expect(freshName(['case'], 'shelf')).toBe('shelf');
    expect(freshName(['case', 'case 2'], 'case 2')).toBe('case 3');
    expect(freshName(['case 1', 'case 2'], 'case')).toBe('case 3');
    // no longer than a plan takes, and no half a letter at its end
    const long = `${'ö'.repeat(57)}👜x`;
    const names = [long, freshName([long], long)];
    names.push(freshName(names, long));
    expect(names.map((name) => name.slice(55))).toEqual(['öö👜x', 'öö 2', 'öö 3']);
  });

  it('copies what has a name and a title as long as a plan takes', () => {
    const [name, title] = ['n'.repeat(60), 't'.repeat(80)];
    const path = find(scene, 'scores').path;
    const long = after([
      { op: 'set', path: [...path, 'case'], value: name },
      { op: 'set', path: [...path, 'title'], value: title },
      { op: 'set', path: [...path.slice(0, -1), 1, 'after'], value: name },
      ...scene.option.pieces.flatMap((p, i): readonly Edit[] =>
        'along' in p && p.along === 'scores'
          ? [{ op: 'set', path: [...path.slice(0, -1), i, 'along'], value: name }]
          : [],
      ),
    ]);
    const copy = copyEdits(long.scene, long.plain, find(long.scene, name));
    const made = find(after(copy.edits, long.plain).scene, copy.name).piece;
    expect([copy.name, made.title]).toEqual([`${'n'.repeat(58)} 2`, `${'t'.repeat(78)} 2`]);
  });
});

describe('bays', () => {
  const piecePath = ['options', 0, 'pieces', 0] as const;
  it('finds each open, door and drawer bay of every case by its id', () => {
    for (const placed of scene.pieces.filter((p) => p.kind === 'case'))
      for (const bay of placed.bays) {
        const path = bayPath(plain, find(scene, placed.id).path, bay.id);
        const here = lookUp(plain, path!);
        expect(here, bay.id).toBeDefined();
        if (bay.kind === 'door' || bay.kind === 'drawers') expect(fillOf(here).fill.kind).toBe(bay.kind);
      }
  });

  it('puts doors, drawers and shelves into every bay, and divides it', () => {
    for (const bay of at(scene, 'scores').bays.filter((b) => b.kind !== 'divided')) {
      const path = bayPath(plain, piecePath, bay.id)!;
      const made = (edits: readonly Edit[]) => at(after(edits).scene, 'scores');
      const fronts = (p: ReturnType<typeof made>) => p.bays.filter((b) => b.kind === 'door').length;
      expect(fronts(made(fillEdits(plain, path, { kind: 'door', door: 'left', shelves: 1 })))).toBeGreaterThan(0);
      expect(made(fillEdits(plain, path, { kind: 'drawers', drawers: 2 })).bays.some((b) => b.kind === 'drawers')).toBe(
        true,
      );
      for (const into of ['columns', 'rows'] as const) {
        const divided = made(divideEdits(plain, path, into, 2));
        expect(divided.bays.length, `${bay.id} ${into}`).toBeGreaterThan(at(scene, 'scores').bays.length - 2);
      }
    }
  });

  it('keeps the gear, the vents and what is behind a door when a bay is filled otherwise', () => {
    const path = ['options', 0, 'pieces', 0, 'inside'];
    const filled = (bay: PlainValue, fill: Fill) => {
      const before = applyToPlain(plain, [{ op: 'set', path, value: bay }]);
      const made = applyToPlain(plain, fillEdits((before as { value: PlainValue }).value, path, fill));
      return lookUp((made as { value: PlainValue }).value, path);
    };
    const vent = { width: '6"', height: '2"', in: 'door' };
    const gear = { door: 'left', fixed: [`10"`], heat: 80, vent, style: 'inset' };
    expect(filled(gear, { kind: 'door', door: 'right', shelves: 0 })).toEqual({ ...gear, door: 'right' });
    expect(filled(gear, { kind: 'open', shelves: 1, fixed: 0 })).toEqual({ heat: 80, open: true, shelves: 1 });
    expect(filled(gear, { kind: 'drawers', drawers: 2 })).toEqual({ heat: 80, style: 'inset', drawers: 2 });
    const open = { open: true, heat: 80, vent: { ...vent, in: 'back' } };
    expect(filled(open, { kind: 'open', shelves: 2, fixed: 0 })).toEqual({ ...open, shelves: 2 });
    // fixed shelves between open rows are counted, and stay at their heights
    const rows = { open: [`11"`, `12"`, '1*'] };
    expect(fillOf(rows).fill).toEqual({ kind: 'open', shelves: 0, fixed: 2 });
    expect(filled(rows, { kind: 'open', shelves: 0, fixed: 3 })).toEqual({ open: [`11"`, `12"`, '1*', '1*'] });
    expect(filled(rows, { kind: 'open', shelves: 0, fixed: 1 })).toEqual({ open: [`11"`, '1*'] });
    expect(filled(rows, { kind: 'open', shelves: 0, fixed: 0 })).toEqual({ open: true });
    expect(filled(rows, { kind: 'door', door: 'left', shelves: 0 })).toEqual({ ...rows, door: 'left' });
    expect(filled({ ...rows, door: 'left' }, { kind: 'open', shelves: 0, fixed: 2 })).toEqual(rows);
    const told = { fixed: [`10"`], shelves: [`4"`, `9"`] };
    expect(filled(told, { kind: 'open', shelves: 2, fixed: 1 })).toEqual(told);
    expect(filled(told, { kind: 'door', door: 'pair', shelves: 1 })).toEqual({ ...told, door: 'pair', shelves: 1 });
  });

  it('makes every divided bay one again, and finds the bay round each', () => {
    const sound = find(scene, 'scores').placed!.bays;
    const ids = new Set(sound.map((bay) => bay.id));
    expect(sound.filter((bay) => bayAround(bay.id) === undefined).map((bay) => bay.id)).toEqual(['scores/inside']);
    for (const bay of sound) {
      const around = bayAround(bay.id);
      if (around === undefined) continue;
      expect(ids).toContain(around);
      // taken as divided whatever it is: of one that is not, nothing but what it holds goes
      const joined = at(after(joinEdits(plain, bayPath(plain, piecePath, around)!)).scene, 'scores');
      // an inside that is not divided is its own first bay
      const left = around === 'scores/inside' ? ['scores/bay-1'] : [];
      expect(joined.bays.map((b) => b.id).filter((id) => id !== around && bayAround(id) === around)).toEqual(left);
    }
    expect(['scores/bay-1-2', 'scores/bay-3', 'scores/inside'].map(bayNumber)).toEqual(['1.2', '3', '']);
  });

  it('takes a column out of three, and leaves one undivided out of two', () => {
    const three = after(dropEdits(plain, [...piecePath, 'inside', 'columns', 1])).plain;
    expect(lookUp(three, [...piecePath, 'inside', 'columns'])).toHaveLength(2);
    const two = after(dropEdits(three, [...piecePath, 'inside', 'columns', 0]), three).plain;
    expect(lookUp(two, [...piecePath, 'inside'])).toEqual({ drawers: 3 });
  });

  it('says nothing twice of a bay, whatever was done to it before', () => {
    const doors = ['left', 'right', 'pair', 'up', 'down'] as const;
    const fills: fc.Arbitrary<Fill> = fc.oneof(
      fc.record({ kind: fc.constant('open' as const), shelves: fc.nat(2), fixed: fc.nat(2) }),
      fc.record({ kind: fc.constant('door' as const), door: fc.constantFrom(...doors), shelves: fc.nat(2) }),
      fc.record({ kind: fc.constant('drawers' as const), drawers: fc.integer({ min: 1, max: 4 }) }),
    );
    const step = fc.tuple(fc.nat(), fc.constantFrom('fill', 'columns', 'rows', 'join', 'drop'), fills);
    fc.assert(
      fc.property(fc.array(step, { maxLength: 8 }), (steps) => {
        let now = { plain, scene };
        for (const [pick, what, fill] of steps) {
          const { bays } = at(now.scene, 'scores');
          const shown = bays.filter((b) => b.kind === 'divided' || bayNumber(b.id) !== '');
          const bay = shown[pick % shown.length]!;
          const path = bayPath(now.plain, piecePath, bay.id)!;
          const { divided } = fillOf(lookUp(now.plain, path));
          // as the form offers it
          if (what === 'fill' && bay.kind !== 'divided') now = after(fillEdits(now.plain, path, fill), now.plain);
          if ((what === 'columns' || what === 'rows') && !divided)
            now = after(divideEdits(now.plain, path, what, 2), now.plain);
          if (what === 'join' && divided) now = after(joinEdits(now.plain, path), now.plain);
          if (what === 'drop' && bayAround(bay.id) !== undefined && shown.length > 1)
            now = after(dropEdits(now.plain, path), now.plain);
          const contradictory = sceneOf(now.scene.plan, now.scene.option).issues.filter((i) =>
            i.path.includes('inside'),
          );
          expect(contradictory.map((i) => i.message).filter((m) => !/do not fit|no room|too low/.test(m))).toEqual([]);
        }
      }),
      { numRuns: 150 },
    );
  });
});
