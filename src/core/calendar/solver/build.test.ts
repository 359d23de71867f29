import fc from 'fast-check';
import { expect, it } from 'vitest';
import { builderOf, SAME } from './build.ts';
import { modelOf } from './model.ts';

/** Up to thirty tasks, of which each waits for some of the few before it; amounts that take one word of lanes, or several. */
const anyJob = fc
  .record({
    tasks: fc.array(
      fc.record({
        hours: fc.nat(6),
        needs: fc.tuple(fc.nat(4), fc.nat(4)),
        before: fc.array(fc.integer({ min: 1, max: 9 }), { maxLength: 2 }),
      }),
      { minLength: 1, maxLength: 30 },
    ),
    grain: fc.constantFrom(1, 300_000),
    moves: fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat(3)), { minLength: 1, maxLength: 12 }),
  })
  .map(({ tasks, grain, moves }) => {
    const model = modelOf({
      name: 'any',
      kind: 'calendar',
      resources: [4 * grain + 1, 5 * grain + 1],
      tasks: tasks.map(({ hours, needs, before }, i) => ({
        id: i,
        hours,
        needs: needs.map((amount) => amount * grain),
        before: before.map((step) => i + step).filter((j) => j < tasks.length),
      })),
    });
    if (!model.ok) throw new Error('refused');
    return { model: model.value, moves };
  });

it('a list varied ends and starts as the same list built from nothing; told to be the same only where it is, late only where it is', () => {
  const told = { same: 0, late: 0, other: 0 };
  fc.assert(
    fc.property(anyJob, ({ model, moves }) => {
      const n = model.count;
      const one = builderOf(model);
      let list = Int32Array.from({ length: n }, (_, i) => i);
      let end = one.build(list, model.sum);
      for (const [a, b, over] of moves) {
        // One task goes to an earlier place, as far as what it waits for lets it.
        const last = a % n;
        const i = list[last]!;
        const moved = Int32Array.from(list);
        let first = last;
        for (let k = b % n; k > 0 && first > 0 && !model.before[i]!.includes(moved[first - 1]!); k--, first--)
          moved[first] = moved[first - 1]!;
        moved[first] = i;
        const anew = builderOf(model);
        const right = anew.build(moved, model.sum);
        const limit = end - 1 + over;
        const found = one.vary(moved, first, last, limit);
        if (found === SAME) {
          told.same++;
          expect(anew.starts).toEqual(one.starts);
        } else if (found > limit) {
          told.late++;
          expect(found).toBe(limit + 1);
          expect(right).toBeGreaterThan(limit);
        } else {
          told.other++;
          expect(found).toBe(right);
          expect(one.varied).toEqual(anew.starts);
          // Gone along with: the next are held against this one, built where only as much is kept as it is long.
          list = moved;
          end = one.build(list, found);
          expect(end).toBe(found);
          expect(one.starts).toEqual(anew.starts);
        }
      }
    }),
    { numRuns: 300 },
  );
  expect(Math.min(told.same, told.late, told.other)).toBeGreaterThan(50);
});
