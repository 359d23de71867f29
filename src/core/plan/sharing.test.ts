import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { anyValue } from './edit/edit.testing.ts';
import type { Edit, PlainValue } from './edit/edit.ts';
import { applyToPlain } from './edit/plain.ts';
import { SMALL_PLAN } from './plan.testing.ts';
import { planOf } from './read.ts';
import { readersFor } from './readers.ts';
import { planSchema } from './schema/plan.ts';
import { sharing } from './sharing.ts';

it('changes no value', () =>
  fc.assert(
    fc.property(anyValue, anyValue, (before, after) => {
      expect(sharing(before, after)).toEqual(after);
      expect(sharing(before, structuredClone(before))).toBe(before);
    }),
  ));

it('keeps every piece that was not edited', () => {
  const before = planOf(parse(SMALL_PLAN)).plan!;
  const after = sharing(
    before,
    planOf(parse(SMALL_PLAN.replace(`width: 3', height: 30"`, `width: 3' 1", height: 30"`))).plan!,
  );
  expect(after.room).toBe(before.room);
  expect(after.stock).toBe(before.stock);
  const kept = after.options[0]!.pieces.map((piece, i) => piece === before.options[0]!.pieces[i]);
  expect(kept).toEqual([true, false, true, true, true, true]);
});

it('reads an edited plan as the whole schema does, whatever was read before', () => {
  const plain = parse(SMALL_PLAN);
  const whole = planSchema(readersFor({ length: 'ft-in', currency: 'USD' }));
  const piece = fc.tuple(fc.constant('options'), fc.constant(0), fc.constant('pieces'), fc.nat(5));
  const within = (...rest: readonly string[]) => piece.map((start) => [...start, ...rest]);
  const set = (path: fc.Arbitrary<(string | number)[]>, value: fc.Arbitrary<PlainValue>) =>
    fc.record({ op: fc.constant('set' as const), path, value });
  const edit: fc.Arbitrary<Edit> = fc.oneof(
    set(within('size', 'width'), fc.constantFrom('500 mm', `3' 2"`, 5, 'wide', null)),
    set(within('title'), fc.string()),
    set(
      fc.constantFrom(['title'], ['room', 'ceiling'], ['options', 0, 'title'], ['stock', 'tax']),
      fc.constantFrom(9, 'x'),
    ),
    set(fc.array(fc.oneof(fc.constantFrom('options', 'pieces', 'room', 'x'), fc.nat(2)), { minLength: 1 }), anyValue),
    fc.record({ op: fc.constant('remove' as const), path: piece }),
    fc.record({ op: fc.constant('insert' as const), path: piece, value: fc.constant(ANOTHER) }),
  );
  let sound = 0;
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 3 }), (edits) => {
      const edited = applyToPlain(plain, edits);
      if (!edited.ok) return;
      const read = planOf(edited.value);
      const asked = whole.safeParse(edited.value);
      if (read.plan) {
        sound++;
        expect(JSON.stringify(read.plan)).toBe(JSON.stringify(asked.data));
        expect(planOf(structuredClone(edited.value)).plan).toEqual(read.plan);
      } else expect(read.issues.length).toBeGreaterThan(0);
      if (!asked.success) expect(read.plan).toBeUndefined();
    }),
    { numRuns: 400 },
  );
  expect(sound).toBeGreaterThan(50);
});
const ANOTHER = { thing: 'another', at: { x: 5, y: 5 }, size: { width: 1, height: 1, depth: 1 } };

it('lets no list be shorter or longer than the whole schema does', () => {
  const plain = parse(SMALL_PLAN);
  const [option] = plain.options;
  delete plain.build;
  const many = (n: number) => Array.from({ length: n }, (_, i) => ({ ...option, id: `o${i}`, pieces: [] }));
  const things = (n: number) => Array.from({ length: n }, (_, i) => ({ ...ANOTHER, thing: `t${i}` }));
  expect(planOf({ ...plain, options: [] })).toMatchObject({
    issues: [{ path: ['options'], found: 'a list of 0' }],
  });
  expect(planOf({ ...plain, options: many(40) }).issues).toEqual([]);
  expect(planOf({ ...plain, options: many(41) })).toMatchObject({ issues: [{ path: ['options'] }] });
  for (const [pieces, faults] of [
    [500, 0],
    [501, 1],
  ] as const)
    expect(planOf({ ...plain, options: [{ ...option, pieces: things(pieces) }] }).issues).toHaveLength(faults);
});

it('reads only the piece anew that was edited', () => {
  const plain = parse(SMALL_PLAN);
  const before = planOf(plain).plan!;
  const edited = applyToPlain(plain, [
    { op: 'set', path: ['options', 0, 'pieces', 1, 'size', 'width'], value: `3' 1"` },
  ]);
  const after = planOf(edited.ok ? edited.value : undefined).plan!;
  expect(after.room).toBe(before.room);
  expect(after.options[0]!.pieces.map((piece, i) => piece === before.options[0]!.pieces[i])).toEqual([
    true,
    false,
    true,
    true,
    true,
    true,
  ]);
});
