import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyHand, anyMap, anyWish, editFor, written } from '../plan/edit/edit.testing.ts';
import { applyEdits, applyToPlain, type Edit, type PlainValue, readPlan } from '../plan/index.ts';
import { mergeTexts } from './merge.ts';
import { mergePlain, samePlain } from './merge-plain.ts';

const BASE = `setwright: 1
title: Back wall # as measured
units: {length: in, currency: USD}
room:
  ceiling: 96
  walls:
    - {id: north, length: 160}
    - {id: east, length: 120}
    - {id: south, length: 160}
    - {id: west, length: 120}
options:
  - id: low
    pieces:
      # holds the scores
      - case: scores
        wall: north
        from: 6
        size: {width: 54, height: 30, depth: 16}
        make: {panel: ply}
      - {case: bench, wall: east, from: 6, size: {width: 48, height: 20, depth: 9}}
stock:
  panels:
    - {id: ply, thickness: 0.7, sizes: [{length: 96, width: 48, price: 60}]}
`;
const edited = (text: string, ...edits: Edit[]): string => {
  const result = applyEdits(text, edits);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value.text;
};
const width = ['options', 0, 'pieces', 0, 'size', 'width'];
const height = ['options', 0, 'pieces', 0, 'size', 'height'];
const plainOf = (text: string): PlainValue => readPlan(text).document.plain as PlainValue;

it('starts from a plan without faults', () => expect(readPlan(BASE).issues).toEqual([]));

describe('mergeTexts', () => {
  it('holds changes of different lines', () => {
    const merge = mergeTexts(
      BASE,
      edited(BASE, { op: 'set', path: ['title'], value: 'Long wall' }),
      edited(BASE, { op: 'set', path: ['room', 'ceiling'], value: 97 }),
    );
    expect(merge).toEqual({
      clean: true,
      text: BASE.replace('Back wall', 'Long wall').replace('ceiling: 96', 'ceiling: 97'),
    });
  });
  it('holds changes of one line where they are of different values', () => {
    const merge = mergeTexts(
      BASE,
      edited(BASE, { op: 'set', path: width, value: 50 }),
      edited(BASE, { op: 'set', path: height, value: 32 }),
    );
    expect(merge).toEqual({ clean: true, text: BASE.replace('width: 54, height: 30', 'width: 50, height: 32') });
  });
  it('clashes over one value, and never mixes the two', () => {
    const merge = mergeTexts(
      BASE,
      BASE.replace('width: 54', `width: 4' 6"`),
      BASE.replace('width: 54', `width: 3' 8"`),
    );
    expect(merge).toMatchObject({ clean: false, clashes: [{ base: { from: 17, to: 18 } }] });
  });
  it('holds a piece each, placed by both at the end of one list', () => {
    const added = (name: string, up: number): string =>
      edited(BASE, {
        op: 'insert',
        path: ['options', 0, 'pieces', 2],
        value: { case: name, wall: 'north', from: up, size: { width: 10, height: 20, depth: 9 } },
      });
    const merge = mergeTexts(BASE, added('mine', 70), added('theirs', 90));
    expect(merge.clean && readPlan(merge.text).plan?.options[0]?.pieces.length).toBe(4);
  });
  it('clashes when both place a piece of one name', () => {
    const added = (up: number): string =>
      edited(BASE, {
        op: 'insert',
        path: ['options', 0, 'pieces', 2],
        value: { case: 'new', wall: 'north', from: up, size: { width: 10, height: 20, depth: 9 } },
      });
    expect(mergeTexts(BASE, added(70), added(90)).clean).toBe(false);
  });
  it('clashes when one takes away the piece that the other changes', () =>
    expect(
      mergeTexts(
        BASE,
        edited(BASE, { op: 'remove', path: ['options', 0, 'pieces', 0] }),
        edited(BASE, { op: 'set', path: width, value: 50 }),
      ).clean,
    ).toBe(false));
  it('clashes when each is a plan by itself and both together are none', () => {
    // one takes the panel away that the other begins to use
    const base = BASE.replace('        make: {panel: ply}\n', '');
    const mine = edited(base, { op: 'remove', path: ['stock', 'panels', 0] });
    const theirs = edited(base, { op: 'set', path: ['options', 0, 'pieces', 0, 'make'], value: { panel: 'ply' } });
    expect([mine, theirs].map((text) => readPlan(text).issues)).toEqual([[], []]);
    expect(mergeTexts(base, mine, theirs).clean).toBe(false);
  });
  it('keeps comments that either side wrote', () => {
    const merge = mergeTexts(
      BASE,
      BASE.replace('# holds the scores', '# holds scores and strings'),
      edited(BASE, { op: 'set', path: width, value: 50 }),
    );
    expect(merge.clean && merge.text).toContain('# holds scores and strings\n');
    expect(merge.clean && merge.text).toContain('width: 50');
  });
  it('does not guess about text that is no YAML', () =>
    expect(mergeTexts('a: 1\nb: 2\n', 'a: [\nb: 2\n', 'a: 1\nb: 3\n').clean).toBe(false));

  it('says where they clash, by lines', () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 53 }), fc.integer({ min: 55, max: 90 }), (a, b) => {
        const merge = mergeTexts(
          BASE,
          BASE.replace('width: 54', `width: ${a}`),
          BASE.replace('width: 54', `width: ${b}`),
        );
        expect(merge).toMatchObject({
          clean: false,
          clashes: [{ mine: { from: 17, to: 18 }, theirs: { from: 17, to: 18 } }],
        });
      }),
      { numRuns: 20 },
    ));

  it('reads as both changes of the data, on any YAML, or says that they clash', () =>
    fc.assert(
      fc.property(anyMap, anyHand, anyWish, anyWish, (value, hand, ours, others) => {
        const base = written(value, hand);
        const [one, two] = [applyEdits(base, [editFor(value, ours)]), applyEdits(base, [editFor(value, others)])];
        fc.pre(one.ok && two.ok);
        const [mine, theirs] = [one.value.text, two.value.text];
        const merge = mergeTexts(base, mine, theirs);
        if (merge.clean) {
          const wanted = mergePlain(plainOf(base), plainOf(mine), plainOf(theirs));
          expect(wanted.clean && samePlain(plainOf(merge.text), wanted.value)).toBe(true);
        }
      }),
      { numRuns: 600 },
    ));

  /** Keys that are far from one another; the values of the two sides never meet. */
  it('never clashes over different keys of a map, and keeps all remarks', () => {
    let merged = 0;
    fc.assert(
      fc.property(anyMap, anyHand, fc.nat(), fc.nat(), fc.integer(), (value, hand, i, j, n) => {
        const keys = Object.keys(value as object);
        fc.pre(keys.length > 1);
        const a = keys[i % keys.length]!;
        const b = keys[j % keys.length]!;
        fc.pre(a !== b);
        const base = written(value, hand);
        const edits: Edit[] = [
          { op: 'set', path: [a], value: n },
          { op: 'set', path: [b], value: `other ${n}` },
        ];
        const [one, two] = [applyEdits(base, [edits[0]!]), applyEdits(base, [edits[1]!])];
        fc.pre(one.ok && two.ok);
        const merge = mergeTexts(base, one.value.text, two.value.text);
        const both = applyToPlain(plainOf(base), edits);
        expect(merge.clean).toBe(true);
        expect(merge.clean && both.ok && samePlain(plainOf(merge.text), both.value)).toBe(true);
        merged++;
      }),
      { numRuns: 400 },
    );
    expect(merged).toBeGreaterThan(300);
  });

  it('does not matter who is called mine, where nothing was put in at one place by both', () =>
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 70 }), fc.integer({ min: 20, max: 40 }), (w, h) => {
        const mine = edited(BASE, { op: 'set', path: width, value: w });
        const theirs = edited(BASE, { op: 'set', path: height, value: h });
        expect(mergeTexts(BASE, mine, theirs)).toEqual(mergeTexts(BASE, theirs, mine));
      }),
      { numRuns: 30 },
    ));
});

describe('mergePlain', () => {
  const merged = (base: PlainValue, mine: PlainValue, theirs: PlainValue) => {
    const merge = mergePlain(base, mine, theirs);
    return merge.clean ? merge.value : 'clash';
  };
  it.each<[string, PlainValue, PlainValue, PlainValue, PlainValue]>([
    ['a key each', { a: 1 }, { a: 1, b: 2 }, { a: 1, c: 3 }, { a: 1, b: 2, c: 3 }],
    ['the same key, the same value', {}, { a: 1 }, { a: 1 }, { a: 1 }],
    ['the same key, two values', {}, { a: 1 }, { a: 2 }, 'clash'],
    ['taken away and left', { a: 1, b: 1 }, { b: 1 }, { a: 1, b: 2 }, { b: 2 }],
    ['taken away and changed', { a: 1 }, {}, { a: 2 }, 'clash'],
    ['two entries of a plain list', [1, 2], [9, 2], [1, 8], [9, 8]],
    ['lists that grew', [1], [1, 2], [0, 1], [0, 1, 2]],
    [
      'named entries, one moved, one changed',
      [{ id: 'a', x: 1 }, { id: 'b' }],
      [{ id: 'b' }, { id: 'a', x: 1 }],
      [{ id: 'a', x: 2 }, { id: 'b' }],
      [{ id: 'b' }, { id: 'a', x: 2 }],
    ],
    ['a map against a list', { a: [1] }, { a: [2] }, { a: { b: 1 } }, 'clash'],
  ])('%s', (_what, base, mine, theirs, expected) => expect(merged(base, mine, theirs)).toEqual(expected));
});
