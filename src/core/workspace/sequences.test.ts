import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differences, weave } from './sequences.ts';

const few = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 14 });
const distinct = fc.uniqueArray(fc.integer({ min: 0, max: 99 }).map(String), { maxLength: 20 });

/** Length of the longest common subsequence by the textbook table. */
function common(a: readonly string[], b: readonly string[]): number {
  const table = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = 1; i <= a.length; i++)
    for (let j = 1; j <= b.length; j++)
      table[i]![j] = a[i - 1] === b[j - 1] ? table[i - 1]![j - 1]! + 1 : Math.max(table[i - 1]![j]!, table[i]![j - 1]!);
  return table[a.length]![b.length]!;
}

describe('differences', () => {
  it('leads from the one to the other', () =>
    fc.assert(
      fc.property(few, few, (a, b) => {
        const out: string[] = [];
        let at = 0;
        for (const { from, to, start, end } of differences(a, b)) {
          expect(from).toBeGreaterThanOrEqual(at);
          out.push(...a.slice(at, from), ...b.slice(start, end));
          at = to;
        }
        expect([...out, ...a.slice(at)]).toEqual(b);
      }),
      { numRuns: 2000 },
    ));

  it('changes as few entries as the longest common subsequence leaves', () =>
    fc.assert(
      fc.property(few, few, (a, b) => {
        const changed = differences(a, b).reduce((sum, h) => sum + (h.to - h.from) + (h.end - h.start), 0);
        expect(changed).toBe(a.length + b.length - 2 * common(a, b));
      }),
      { numRuns: 2000 },
    ));

  // Myers 1986, figure 1: ABCABBA to CBABAC takes five single changes
  it('finds the five changes of the published example', () => {
    const hunks = differences([...'ABCABBA'], [...'CBABAC']);
    expect(hunks.reduce((sum, h) => sum + (h.to - h.from) + (h.end - h.start), 0)).toBe(5);
  });

  it('tells one great change where the sequences have nothing to do with one another', () => {
    const a = Array.from({ length: 4000 }, (_, i) => `a${i}`);
    const b = Array.from({ length: 4000 }, (_, i) => `b${i}`);
    expect(differences(a, b)).toEqual([{ from: 0, to: 4000, start: 0, end: 4000 }]);
  });
});

describe('weave', () => {
  it('gives the other side where one side changed nothing, and either where both changed the same', () =>
    fc.assert(
      fc.property(few, few, (base, changed) => {
        expect(weave(base, changed, base)).toEqual({ merged: changed, collisions: [] });
        expect(weave(base, base, changed)).toEqual({ merged: changed, collisions: [] });
        expect(weave(base, changed, changed)).toEqual({ merged: changed, collisions: [] });
      }),
      { numRuns: 1000 },
    ));

  /** Entry by entry: kept, taken away, replaced, or something put in before it. */
  const changes = fc.array(fc.constantFrom('keep', 'keep', 'keep', 'remove', 'replace', 'insert'), { maxLength: 20 });
  const apply = (base: readonly string[], how: readonly string[], mark: string) =>
    base.flatMap((entry, i) => {
      const one = how[i] ?? 'keep';
      return one === 'keep'
        ? [entry]
        : one === 'remove'
          ? []
          : one === 'replace'
            ? [`${mark}${i}`]
            : [`${mark}${i}`, entry];
    });

  it('holds both changes wherever they are of different entries', () =>
    fc.assert(
      fc.property(distinct, changes, changes, (base, ours, theirs) => {
        // what one side touches the other leaves alone; of neighbours either may go first, so there is a kept one between
        const mine = ours.map((how, i) =>
          (theirs[i] ?? 'keep') === 'keep' &&
          (theirs[i - 1] ?? 'keep') === 'keep' &&
          (theirs[i + 1] ?? 'keep') === 'keep'
            ? how
            : 'keep',
        );
        const both = base.map((_, i) => ((mine[i] ?? 'keep') === 'keep' ? `t${theirs[i] ?? 'keep'}` : `m${mine[i]}`));
        const expected = base.flatMap((entry, i) => {
          const how = both[i]!;
          const made = `${how[0]}${i}`;
          const kind = how.slice(1);
          return kind === 'keep' ? [entry] : kind === 'remove' ? [] : kind === 'replace' ? [made] : [made, entry];
        });
        const woven = weave(base, apply(base, mine, 'm'), apply(base, theirs, 't'));
        expect(woven.collisions).toEqual([]);
        expect(woven.merged).toEqual(expected);
      }),
      { numRuns: 2000 },
    ));

  it('finds every entry that both replaced', () =>
    fc.assert(
      fc.property(
        distinct.filter((base) => base.length > 0),
        fc.nat(),
        (base, n) => {
          const at = n % base.length;
          const { collisions } = weave(base, base.with(at, 'mine'), base.with(at, 'theirs'));
          expect(collisions).toEqual([{ base: [at, at + 1], mine: [at, at + 1], theirs: [at, at + 1] }]);
        },
      ),
    ));

  it('puts what both put in at one place behind one another, theirs first', () =>
    expect(weave(['a', 'b'], ['a', 'm', 'b'], ['a', 't', 'b'])).toEqual({
      merged: ['a', 't', 'm', 'b'],
      collisions: [],
    }));
  it('collides where one takes away what the other changes', () =>
    expect(weave(['a', 'b', 'c'], ['a', 'c'], ['a', 'x', 'c']).collisions).toHaveLength(1));
  it('tells where in each text the clash lies, after earlier changes moved it', () =>
    expect(weave(['a', 'b', 'c'], ['0', '1', 'a', 'b', 'm'], ['b', 't']).collisions).toEqual([
      { base: [2, 3], mine: [4, 5], theirs: [1, 2] },
    ]));
});
