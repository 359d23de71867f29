import fc from 'fast-check';
import { expect, it } from 'vitest';
import { applyEdits, difference } from '../core/plan/index.ts';
import { inTurn } from './elsewhere.ts';

const text = (from: string, edits: Parameters<typeof applyEdits>[1]): string => {
  const result = applyEdits(from, edits);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value.text;
};
/** Some of the characters replaced by others, of another alphabet each: whose a character is shows. */
const replaced = (base: string, at: number, long: number, by: string): string => {
  const from = at % (base.length + 1);
  return base.slice(0, from) + by + base.slice(from + long);
};

it('two changes lead to the same text in either order, or it is said that they cannot be told apart', () => {
  let turned = 0;
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom('a', 'b'), minLength: 8, maxLength: 30 }),
      fc.tuple(fc.nat(), fc.nat(3), fc.string({ unit: fc.constantFrom('x', 'y'), maxLength: 3 })),
      fc.tuple(fc.nat(), fc.nat(3), fc.string({ unit: fc.constantFrom('p', 'q'), maxLength: 3 })),
      (base, one, two) => {
        const middle = replaced(base, ...one);
        const end = replaced(middle, ...two);
        const [first, second] = [difference(base, middle), difference(middle, end)];
        const other = inTurn(first, second);
        if (!other) return;
        turned++;
        expect(text(text(base, other[0]), other[1])).toBe(end);
        // neither puts in, nor takes away, what is the other's
        expect(text(base, other[0])).not.toMatch(/[xy]/);
      },
    ),
    { numRuns: 2000 },
  );
  expect(turned).toBeGreaterThan(500);
});
