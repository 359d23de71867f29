import { expect, it } from 'vitest';
import { findOption, sceneOf } from '../../outcome.ts';
import { applyToPlain, type PlainValue, type Plan, planOf, sharing } from '../../plan/index.ts';
import { read, roomOf, sceneIn } from '../plan.testing.ts';

const size = (width: number, height: number, depth = 350) =>
  `size: {width: ${width}, height: ${height}, depth: ${depth}}`;
const base = (width: number) => `{case: base, wall: north, from: 0, ${size(width, 900)}}`;
const BESIDE = [`{case: a, on: base, ${size(800, 900)}}`, `{case: b, after: a, ${size(800, 900)}}`];

/** How a case is told to be held: as one that stands and may be pulled over, or as one that hangs with its load. */
function heldAs(name: string, pieces: readonly string[]): 'stands' | 'hangs' {
  const { plan } = read(roomOf(pieces.map((p) => `      - ${p}`).join('\n')));
  const note = sceneIn(plan).notes.find(({ id }) => id === `fixing:${name}`)!;
  return /child hanging/.test(note.advice) ? 'stands' : 'hangs';
}

it.each([
  ['after one that stands on a case, over the same case', 'b', [base(1600), ...BESIDE], 'stands'],
  ['after one that stands on a case, with nothing under it', 'b', [base(800), ...BESIDE], 'hangs'],
  ['after one that stands on a case, less than half of it over that', 'b', [base(1150), ...BESIDE], 'hangs'],
  ['after one that stands on a case, more than half of it over that', 'b', [base(1250), ...BESIDE], 'stands'],
  [
    'at the height of a top below it',
    'b',
    [base(800), `{case: b, wall: north, from: 0, above: 900, ${size(800, 900)}}`],
    'stands',
  ],
  [
    'above a top, not on it',
    'b',
    [base(800), `{case: b, wall: north, from: 0, above: 1000, ${size(800, 900)}}`],
    'hangs',
  ],
  [
    'across two that stand',
    'b',
    [
      base(800),
      `{case: two, after: base, gap: 900, ${size(800, 900)}}`,
      `{case: b, on: base, from: 600, ${size(1300, 900)}}`,
    ],
    'stands',
  ],
  [
    "said to be 'on' one that it is not over",
    'b',
    [base(800), `{case: b, on: base, from: 1000, ${size(800, 900)}}`],
    'hangs',
  ],
  [
    'on one that hangs',
    'b',
    [`{case: low, wall: north, from: 0, above: 500, ${size(800, 400)}}`, `{case: b, on: low, ${size(800, 900)}}`],
    'hangs',
  ],
  [
    'on a thing',
    'b',
    [`{thing: chest, wall: north, from: 0, mass: 60 kg, ${size(800, 900)}}`, `{case: b, on: chest, ${size(800, 900)}}`],
    'stands',
  ],
  [
    'over a thing that may be carried off',
    'b',
    [
      `{thing: chest, wall: north, from: 0, mass: 60 kg, ${size(800, 900)}}`,
      `{case: b, wall: north, from: 0, above: 900, ${size(800, 900)}}`,
    ],
    'hangs',
  ],
  [
    'on a thing far less deep',
    'b',
    [
      `{thing: chest, wall: north, from: 0, mass: 60 kg, ${size(800, 900, 150)}}`,
      `{case: b, on: chest, ${size(800, 900)}}`,
    ],
    'hangs',
  ],
] as const)('%s', (_, name, pieces, held) => {
  expect(heldAs(name, pieces)).toBe(held);
});

it('is told anew when what was under it moves away', () => {
  const above = `{case: b, wall: north, from: 0, above: 900, ${size(800, 900)}}`;
  const { plan, plain } = read(roomOf([base(800), above].map((p) => `      - ${p}`).join('\n')));
  const told = (of: Plan) => sceneOf(of, findOption(of)!).notes.find(({ id }) => id === 'fixing:b')!;
  expect(told(plan).advice).toContain('child hanging');
  const edited = applyToPlain(plain, [{ op: 'set', path: ['options', 0, 'pieces', 0, 'from'], value: '1500 mm' }]);
  const apart = sharing(plan, planOf(edited.ok ? (edited.value as PlainValue) : undefined).plan!);
  expect(told(apart).advice).not.toContain('child hanging');
  expect(told(apart)).toEqual(told(structuredClone(apart)));
});
