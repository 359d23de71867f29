import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { findOption, sceneOf, solidsOf } from './outcome.ts';
import { applyToPlain, type Edit, type PlainValue, type Plan, planOf, readPlan, sharing } from './plan/index.ts';
import { read, roomOf } from './strength/plan.testing.ts';

const example = (name: string) =>
  readPlan(readFileSync(join(import.meta.dirname, '../../examples', `${name}.plan.yaml`), 'utf8'));
const pieceCount = (plan: Plan): number => findOption(plan)!.pieces.length;

/** Edits as a hand and a keyboard make them: pieces moved, sized, renamed, taken away; the shop and the room around them changed. */
const anyEdits = (plan: Plan): fc.Arbitrary<readonly Edit[]> => {
  const at = plan.options.indexOf(findOption(plan)!);
  const piece = fc.nat(pieceCount(plan) - 1);
  const set = (path: (string | number)[], value: PlainValue): Edit => ({ op: 'set', path, value });
  const mm = (min: number, max: number) => fc.integer({ min, max }).map((n) => `${n} mm`);
  const one = fc.oneof(
    fc
      .tuple(piece, fc.constantFrom('from', 'above', 'out'), mm(0, 2000))
      .map(([i, key, v]) => set(['options', at, 'pieces', i, key], v)),
    fc
      .tuple(piece, fc.constantFrom('width', 'height', 'depth'), mm(150, 1600))
      .map(([i, key, v]) => set(['options', at, 'pieces', i, 'size', key], v)),
    fc.tuple(piece, fc.constantFrom('One', 'Two')).map(([i, v]) => set(['options', at, 'pieces', i, 'title'], v)),
    piece.map((i): Edit => ({ op: 'remove', path: ['options', at, 'pieces', i] })),
    mm(2000, 3000).map((v) => set(['room', 'ceiling'], v)),
    fc.constantFrom('10 kg', '40 kg').map((v) => set(['shop', 'lift'], v)),
    fc.constantFrom('oak', 'MDF', 'birch plywood').map((v) => set(['stock', 'panels', 0, 'kind'], v)),
    fc.constantFrom('self-drilling screw', 'toggle').map((kind) => set(['options', at, 'pieces', 3, 'fix'], { kind })),
  );
  return fc.array(one, { minLength: 1, maxLength: 2 });
};

it.each(['lesson-room', 'radio-corner'])(
  '%s edited step by step is what it would be worked out from nothing',
  (name) => {
    const { plan: first, document } = example(name);
    let changes = 0;
    fc.assert(
      fc.property(fc.array(anyEdits(first!), { minLength: 1, maxLength: 5 }), (steps) => {
        let plain = document.plain as PlainValue;
        let plan = first!;
        for (const edits of steps) {
          const edited = applyToPlain(plain, edits);
          const read = edited.ok ? planOf(edited.value).plan : undefined;
          if (!edited.ok || !read) continue;
          plain = edited.value;
          plan = sharing(plan, read);
          changes++;
          const scene = sceneOf(plan, findOption(plan)!);
          // nothing of a copy was ever worked out before
          const copy = structuredClone(plan);
          expect(scene).toEqual(sceneOf(copy, findOption(copy)!));
        }
      }),
      { numRuns: 25 },
    );
    expect(changes).toBeGreaterThan(20);
  },
  300_000,
);

it('builds nothing anew but the piece that moved, and asks nothing anew of the others', () => {
  const { plan, document } = example('lesson-room');
  const before = sceneOf(plan!, findOption(plan!)!);
  const edited = applyToPlain(document.plain as PlainValue, [
    { op: 'set', path: ['options', 0, 'pieces', 3, 'from'], value: '10"' },
  ]);
  const moved = sharing(plan!, planOf(edited.ok ? edited.value : undefined).plan!);
  const after = sceneOf(moved, findOption(moved)!);
  const anew = after.pieces.filter((piece, i) => piece !== before.pieces[i]).map((piece) => piece.id);
  // a strip of lights runs along the shelf
  expect(anew).toEqual(['upper shelf', 'upper shelf light']);
  expect(after.room).toBe(before.room);
  const kept = after.notes.filter((note) => before.notes.includes(note)).length;
  expect(kept).toBeGreaterThan(5);
});

it('asks again what holds a case when the one that held it moves away', () => {
  const { plan, plain } = read(
    roomOf(`      - {case: narrow, wall: north, from: 230, size: {width: 300, height: 1900, depth: 350}}
      - {case: wide, wall: north, from: 530, size: {width: 900, height: 1900, depth: 350}}`),
  );
  const heldOf = (of: Plan) => sceneOf(of, findOption(of)!).notes.find(({ id }) => id === 'fixing:narrow')!;
  expect(heldOf(plan).advice).toContain('connector bolts');
  const edited = applyToPlain(plain, [{ op: 'set', path: ['options', 0, 'pieces', 1, 'from'], value: '1500 mm' }]);
  const apart = sharing(plan, planOf(edited.ok ? edited.value : undefined).plan!);
  expect(heldOf(apart).verdict).toBe('stop');
  expect(heldOf(apart)).toEqual(heldOf(structuredClone(apart)));
  expect(heldOf(plan).verdict).toBe('caution');
});

it('an option of a million parts is refused by its count, and nothing of it is built', () => {
  const { plan } = example('lesson-room');
  const rows = Array(24).fill({ drawers: 20 });
  const [first] = plan!.options;
  const model = first!.pieces.find((piece) => 'case' in piece)!;
  const big = Array.from({ length: 90 }, (_, i) => ({
    ...model,
    case: `big ${i}`,
    after: undefined,
    inside: { columns: Array(24).fill({ rows }) },
  }));
  const option = { ...first!, pieces: big };
  const scene = solidsOf({ ...plan!, options: [option] }, option);
  expect(scene.pieces).toEqual([]);
  expect(scene.parts).toEqual([]);
  expect(scene.issues).toContainEqual(
    expect.objectContaining({
      path: ['options', 0, 'pieces'],
      message: 'this option has more parts than can be worked out',
      found: expect.stringMatching(/more than 5000, from/),
    }),
  );
});
