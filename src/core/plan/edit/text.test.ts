import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { explain } from '../../issue/index.ts';
import { anyHand, anyMap, anyText, anyWish, editFor, pathBy, written } from './edit.testing.ts';
import type { Edit, PlainValue } from './edit.ts';
import { applyToPlain, lookUp } from './plain.ts';
import { applyEdits, difference } from './text.ts';

const edited = (text: string, ...edits: Edit[]): string => {
  const result = applyEdits(text, edits);
  if (!result.ok) throw new Error(result.issues.map(explain).join('; '));
  return result.value.text;
};

describe('the pen that writes the test files', () => {
  it('writes what it was told', () =>
    fc.assert(
      fc.property(anyMap, anyHand, (value, hand) => {
        expect(parse(written(value, hand))).toEqual(value);
      }),
      { numRuns: 500 },
    ));
});

describe('edits on text', () => {
  it('mean on the text what they mean on plain data, and undo to the last byte', () =>
    fc.assert(
      fc.property(anyMap, anyHand, fc.array(anyWish, { minLength: 1, maxLength: 3 }), (value, hand, wishes) => {
        const text = written(value, hand);
        let plain = value;
        const edits: Edit[] = [];
        for (const wish of wishes) {
          if (Object.keys(plain as object).length === 0) break;
          const edit = editFor(plain, wish);
          const next = applyToPlain(plain, [edit]);
          if (!next.ok) throw new Error(next.issues.map(explain).join('; '));
          if (typeof next.value !== 'object' || next.value === null || Array.isArray(next.value)) break;
          plain = next.value;
          edits.push(edit);
        }
        const result = applyEdits(text, edits);
        if (!result.ok) throw new Error(result.issues.map(explain).join('; '));
        expect(parse(result.value.text)).toEqual(plain);
        const undone = applyEdits(result.value.text, result.value.inverse);
        if (!undone.ok) throw new Error(undone.issues.map(explain).join('; '));
        expect(undone.value.text).toBe(text);
        expect(edited(text, ...undone.value.inverse)).toBe(result.value.text);
      }),
      { numRuns: 1500 },
    ));

  it('touch one line when a value on one line is set to another', () =>
    fc.assert(
      fc.property(
        anyMap,
        anyHand,
        fc.array(fc.nat(7), { minLength: 1, maxLength: 5 }),
        anyText,
        (value, hand, turns, to) => {
          const text = written(value, hand);
          const path = pathBy(value, turns);
          const from = lookUp(value, path)!;
          fc.pre(
            typeof from !== 'object' &&
              !(typeof from === 'string' && /\n|^ | $/.test(from)) &&
              from !== to &&
              !text.includes('|'),
          );
          const before = text.split('\n');
          const after = edited(text, { op: 'set', path, value: to }).split('\n');
          expect(after.length).toBe(before.length);
          expect(after.filter((line, i) => line !== before[i]).length).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 400 },
    ));

  it('keep every line when something is put in', () =>
    fc.assert(
      fc.property(anyMap, anyHand, anyWish, (value, hand, wish) => {
        const text = written(value, hand);
        const edit = editFor(value, { ...wish, op: 'insert' });
        const parent = lookUp(value, edit.op === 'insert' ? edit.path.slice(0, -1) : [])!;
        fc.pre(Object.keys(parent).length > 0);
        const after = edited(text, edit);
        // nothing is taken away: the old text is what is left when the new characters are struck out
        const [inverse] = difference(after, text);
        expect(inverse?.op === 'text' && inverse.new).toBe('');
      }),
      { numRuns: 400 },
    ));
});

const LONE = /\p{Cs}/u;
const PLAN = `# a plan
setwright: 1   # version
units: {length: ft-in,  currency: USD}

make: # habits
  panel: 'birch 3/4'
  joint: "dado"

options:
  # the low one
  - id: low
    pieces:
      - case: scores   # by the window
        size: { width: 4' 6", height: 30" }

      # the second
      - case: machines
        after: scores
  - {id: tall}
paper: Letter`;

describe('edits on a plan', () => {
  it.each<[string, Edit, string, string]>([
    [
      'sets a length',
      { op: 'set', path: ['options', 0, 'pieces', 0, 'size', 'width'], value: `4' 7-1/2"` },
      `width: 4' 6"`,
      `width: 4' 7-1/2"`,
    ],
    ['keeps single quotes', { op: 'set', path: ['make', 'panel'], value: 'mdf 3/4' }, `'birch 3/4'`, `'mdf 3/4'`],
    ['keeps double quotes', { op: 'set', path: ['make', 'joint'], value: 'butt' }, '"dado"', '"butt"'],
    [
      'quotes what brackets would misread',
      { op: 'set', path: ['units', 'length'], value: 'a, b' },
      'ft-in,',
      '"a, b",',
    ],
    ['adds a key to a block', { op: 'set', path: ['make', 'gap'], value: `3/32"` }, '"dado"', `"dado"\n  gap: 3/32"`],
    [
      'adds a key in brackets',
      { op: 'set', path: ['options', 0, 'pieces', 0, 'size', 'depth'], value: `16"` },
      `height: 30" }`,
      `height: 30", depth: 16" }`,
    ],
    ['takes a key out of brackets', { op: 'remove', path: ['units', 'length'] }, 'length: ft-in,  ', ''],
    ['takes the last key out of brackets', { op: 'remove', path: ['units', 'currency'] }, ',  currency: USD', ''],
    ['takes a line out', { op: 'remove', path: ['make', 'panel'] }, `  panel: 'birch 3/4'\n`, ''],
    ['takes the last line out', { op: 'remove', path: ['paper'] }, '\npaper: Letter', ''],
    [
      'empties a block and keeps its comment',
      { op: 'set', path: ['make'], value: {} },
      `make: # habits\n  panel: 'birch 3/4'\n  joint: "dado"`,
      'make: {} # habits',
    ],
    [
      'puts a piece at the end',
      { op: 'insert', path: ['options', 0, 'pieces', 2], value: { case: 'new', wall: 'north' } },
      'after: scores',
      'after: scores\n      - {case: new, wall: north}',
    ],
    [
      'puts a piece between',
      { op: 'insert', path: ['options', 0, 'pieces', 1], value: { case: 'new' } },
      `height: 30" }\n`,
      `height: 30" }\n      - {case: new}\n`,
    ],
    [
      'moves a piece with its comments',
      { op: 'move', from: ['options', 0, 'pieces', 0], path: ['options', 0, 'pieces', 1] },
      `      - case: scores   # by the window\n        size: { width: 4' 6", height: 30" }\n\n      # the second\n      - case: machines\n        after: scores\n`,
      `\n      # the second\n      - case: machines\n        after: scores\n      - case: scores   # by the window\n        size: { width: 4' 6", height: 30" }\n`,
    ],
  ])('%s', (_title, edit, from, to) => {
    expect(PLAN).toContain(from);
    expect(edited(PLAN, edit)).toBe(PLAN.replace(from, to));
  });

  it('sets only what differs inside a group', () => {
    const text = edited(PLAN, {
      op: 'set',
      path: ['make'],
      value: { panel: 'birch 3/4', joint: 'butt', style: 'inset' },
    });
    expect(text).toBe(PLAN.replace('"dado"', '"butt"\n  style: inset'));
  });

  it('writes a large value as lines', () => {
    const value = { case: 'long', title: 'x'.repeat(60), remark: 'y'.repeat(60), size: { width: 1, height: 2 } };
    expect(edited(PLAN, { op: 'insert', path: ['options', 0, 'pieces', 2], value })).toBe(
      PLAN.replace(
        'after: scores',
        `after: scores\n      - case: long\n        title: ${'x'.repeat(60)}\n        remark: ${'y'.repeat(60)}\n        size: {width: 1, height: 2}`,
      ),
    );
  });

  it('writes an alias out before a change would reach the others', () => {
    const text = 'a: &size {width: 1, height: 2}\nb: *size # same\n';
    expect(edited(text, { op: 'set', path: ['b', 'width'], value: 5 })).toBe(
      'a: &size {width: 1, height: 2}\nb: {width: 5, height: 2} # same\n',
    );
    expect(parse(edited(text, { op: 'set', path: ['a', 'width'], value: 5 }))).toEqual({
      a: { width: 5, height: 2 },
      b: { width: 1, height: 2 },
    });
    expect(parse(edited(text, { op: 'remove', path: ['a'] }))).toEqual({ b: { width: 1, height: 2 } });
  });

  it('keeps Windows line ends', () => {
    const text = PLAN.replaceAll('\n', '\r\n');
    const after = edited(
      text,
      { op: 'insert', path: ['make', 'gap'], value: 2 },
      { op: 'remove', path: ['options', 0, 'pieces', 0] },
    );
    expect(after.replaceAll('\r\n', '')).not.toContain('\n');
  });

  it.each<[string, Edit, RegExp]>([
    ['a list entry that is not there', { op: 'set', path: ['options', 5], value: 1 }, /2 entries/],
    ['a way through nothing', { op: 'set', path: ['shop', 'kerf'], value: 1 }, /shop: there is nothing here/],
    ['a key in a list', { op: 'set', path: ['options', 'low'], value: 1 }, /counts its entries/],
    ['a number in a map', { op: 'remove', path: ['make', 0] }, /goes by names/],
    ['what is not there', { op: 'remove', path: ['make', 'front'] }, /nothing here/],
    ['what is there already', { op: 'insert', path: ['make', 'panel'], value: 1 }, /already/],
    ['a place inside a length', { op: 'set', path: ['paper', 'size'], value: 1 }, /neither keys nor a list/],
    ['nothing moved', { op: 'move', from: ['x'], path: ['y'] }, /nothing here to move/],
    ['other text', { op: 'text', at: 0, old: 'xyz', new: '' }, /changed since/],
  ])('refuses %s', (_title, edit, why) => {
    const result = applyEdits(PLAN, [edit]);
    expect(result.ok ? 'done' : result.issues.map(explain).join('; ')).toMatch(why);
  });

  it('refuses text that is no YAML', () =>
    expect(applyEdits('a: [', [{ op: 'set', path: ['a'], value: 1 }]).ok).toBe(false));
});

describe('plain data', () => {
  it('shares what was not touched', () => {
    const plain: PlainValue = { a: { b: 1 }, c: [1, { d: 2 }] };
    const next = applyToPlain(plain, [{ op: 'set', path: ['a', 'b'], value: 2 }]);
    expect(next).toEqual({ ok: true, value: { a: { b: 2 }, c: [1, { d: 2 }] } });
    if (next.ok) expect(lookUp(next.value, ['c'])).toBe(lookUp(plain, ['c']));
  });
});

describe('difference', () => {
  it('leads from one text to the other without parting a character', () =>
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('a', 'b', '𝄞', '𝄢', '\n') }),
        fc.string({ unit: fc.constantFrom('a', 'b', '𝄞', '𝄢', '\n') }),
        (a, b) => {
          const edits = difference(a, b);
          expect(edited(a, ...edits)).toBe(b);
          for (const edit of edits) if (edit.op === 'text') expect(LONE.test(`${edit.old}|${edit.new}`)).toBe(false);
        },
      ),
    ));
});
