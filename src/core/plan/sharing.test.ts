import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { anyValue } from './edit/edit.testing.ts';
import { SMALL_PLAN } from './plan.testing.ts';
import { planOf } from './read.ts';
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
