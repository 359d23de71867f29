import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain, explainThere, nearest, pathText } from './index.ts';

describe('the nearest name', () => {
  it.each<[string, string[], string | undefined]>([
    ['widht', ['width', 'height', 'depth'], 'width'],
    ['Wall', ['wall', 'from'], 'wall'],
    ['tax', ['taxes', 'tax'], 'tax'],
    ['bicrh', ['birch', 'poplar'], 'birch'],
    ['door', ['drawers', 'shelves'], undefined],
    ['x', ['y'], 'y'],
    // two letters as near: seldom is the first one wrong
    ['mn', ['in', 'mm', 'cm'], 'mm'],
    ['im', ['mm', 'cm', 'in'], 'in'],
    ['width', [], undefined],
  ])('%s among %o is %s', (typed, names, expected) => expect(nearest(typed, names)).toBe(expected));

  it('is the name itself when it is there', () =>
    fc.assert(
      fc.property(fc.array(fc.string({ minLength: 1 }), { minLength: 1 }), fc.nat(), (names, n) => {
        const name = names[n % names.length]!;
        expect(nearest(name, names)?.toLowerCase()).toBe(name.toLowerCase());
      }),
    ));

  it('forgives one slip of the pen: a letter too many, too few, another, or two exchanged', () =>
    fc.assert(
      fc.property(
        fc.string({ minLength: 4, maxLength: 12, unit: fc.constantFrom(...'abcdefgh') }),
        fc.nat(),
        fc.nat(3),
        (name, n, slip) => {
          const i = n % (name.length - 1);
          const typed = [
            `${name.slice(0, i)}z${name.slice(i)}`,
            name.slice(0, i) + name.slice(i + 1),
            `${name.slice(0, i)}z${name.slice(i + 1)}`,
            name.slice(0, i) + name[i + 1] + name[i] + name.slice(i + 2),
          ][slip]!;
          expect(nearest(typed, ['zzzzzzzzzzzzzzzzzzzz', name])).toBe(name);
        },
      ),
    ));
});

describe('an issue in words', () => {
  it('says where, what, what was found, what would do and what was meant', () =>
    expect(
      explain({
        file: 'a.yaml',
        place: { line: 3, column: 7 },
        path: ['options', 0, 'pieces', 2, 'size'],
        message: 'no',
        found: 'x',
        expected: 'y',
        nearest: 'z',
      }),
    ).toBe('a.yaml, line 3, column 7: options[0].pieces[2].size: no (found x; expected y; did you mean z?)'));
  it('says to who looks at the place only what is not there to be seen', () =>
    expect(explainThere({ path: ['width'], message: 'no', found: 'x', expected: 'y', nearest: 'z' })).toBe(
      'no (expected y; did you mean z?)',
    ));
  it('shows of what was found neither all of a file nor what a terminal obeys', () => {
    const words = explain({ path: [], message: 'no', found: `\u001b[2J\u0007${'x'.repeat(5000)}` });
    expect(words).toMatch(/^no \(found ·\[2J·x+ …\)$/);
    expect(words.length).toBeLessThan(200);
  });
  it('says no more than it knows', () => expect(explain({ path: [], message: 'no' })).toBe('no'));
  it('writes a path', () => expect(pathText([0, 'a', 'b', 1])).toBe('[0].a.b[1]'));
});
