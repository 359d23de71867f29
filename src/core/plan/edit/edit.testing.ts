import fc from 'fast-check';
import type { Path } from '../document.ts';
import type { Edit, PlainValue } from './edit.ts';
import { lookUp } from './plain.ts';

/** Values as a plan has them, and worse. */
export const anyText = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.constantFrom(`3' 4-1/2"`, '40 1/2', 'north', 'birch 3/4', '1*', '1029 mm', "teacher's chair", `0"`),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      '',
      ' ',
      '#d8c9a0',
      'a # b',
      'a: b',
      '1,029 mm',
      '- x',
      '[x',
      '}',
      '&a',
      '*a',
      '!t',
      '%x',
      '@x',
      '`',
      '|',
      '>',
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      '12',
      '1.5',
      'true',
      'null',
      '~',
      'yes',
      '0x10',
      '<<',
      '½"',
      '"',
      `'`,
      `''`,
      '\\',
      'é𝄞',
      '---',
    ),
  },
  { weight: 1, arbitrary: fc.constantFrom('two\nlines', 'end\n', '\n', ' lead', 'trail ', 'a\tb') },
  { weight: 1, arbitrary: fc.string({ maxLength: 6, unit: fc.constantFrom(...`ab 1'":#,-[]{}&*!|>%@?\\`) }) },
);
const anyScalar = fc.oneof(
  anyText,
  fc.integer({ min: -99, max: 9999 }),
  fc.constantFrom(0.5, 84.5, 1.25e-3),
  fc.boolean(),
  fc.constant(null),
);
const anyKey = fc.oneof(
  fc.constantFrom('case', 'wall', 'from', 'size', 'width', 'open', 'make', 'toe'),
  fc.constantFrom(`2' 6"`, 'a b', '0', '12', `10'`),
);

export const anyValue: fc.Arbitrary<PlainValue> = fc.letrec<{ value: PlainValue; map: PlainValue; list: PlainValue }>(
  (tie) => ({
    value: fc.oneof(
      { maxDepth: 3, depthIdentifier: 'v' },
      anyScalar,
      tie('map'),
      tie('list'),
    ) as fc.Arbitrary<PlainValue>,
    map: fc.dictionary(anyKey, tie('value'), {
      maxKeys: 4,
      noNullPrototype: true,
      depthIdentifier: 'v',
    }) as fc.Arbitrary<PlainValue>,
    list: fc.array(tie('value'), { maxLength: 4, depthIdentifier: 'v' }) as fc.Arbitrary<PlainValue>,
  }),
).value;
export const anyMap: fc.Arbitrary<PlainValue> = fc.dictionary(anyKey, anyValue, {
  minKeys: 1,
  maxKeys: 5,
  noNullPrototype: true,
});

/** A hand that writes YAML in changing ways: brackets or lines, quotes or none, comments, blank lines, wide or narrow steps. */
export interface Hand {
  readonly choices: readonly number[];
  readonly crlf: boolean;
  readonly bom: boolean;
  readonly end: boolean;
}
export const anyHand: fc.Arbitrary<Hand> = fc.record({
  choices: fc.array(fc.nat(59), { minLength: 1, maxLength: 30 }),
  crlf: fc.boolean(),
  bom: fc.boolean(),
  end: fc.boolean(),
});

/** The text of a map, its comments numbered so that none is like another. */
export function written(value: PlainValue, hand: Hand): string {
  let turn = 0;
  let comments = 0;
  const choose = (n: number): number => (hand.choices[turn++ % hand.choices.length]! + turn) % n;
  const comment = (): string => `# remark ${comments++}`;
  const scalar = (v: PlainValue, inFlow: boolean): string => {
    if (typeof v !== 'string') return v === null && !inFlow && choose(2) === 0 ? '' : JSON.stringify(v);
    const plain =
      /^[\p{L}\d][\p{L}\d '"*/½-]*(?<! )$/u.test(v) && !/^(?:\d+|\d*\.\d+|true|null|yes|0x10|[-+.\d].*e\d+)$/i.test(v);
    if (plain && choose(3) > 0) return v;
    return choose(2) === 0 && /^[\x20-\x7e]*$/.test(v) ? `'${v.replaceAll("'", "''")}'` : JSON.stringify(v);
  };
  const inBrackets = (v: PlainValue): string => {
    if (Array.isArray(v))
      return `[${v.map(inBrackets).join(choose(2) ? ', ' : ' , ')}${v.length > 0 && choose(5) === 0 ? ',' : ''}]`;
    if (typeof v === 'object' && v !== null)
      return `{${Object.entries(v)
        .map(([k, item]) => `${scalar(k, true)}: ${inBrackets(item)}`)
        .join(', ')}}`;
    return scalar(v, true);
  };
  const between = (indent: number): string[] =>
    [[], [], [], [''], [`${' '.repeat(indent)}${comment()}`], ['', `${' '.repeat(indent)}${comment()}`]][choose(6)]!;
  const trailing = (): string => (choose(4) === 0 ? ` ${choose(2) ? ' ' : ''}${comment()}` : '');
  const isSimple = (v: PlainValue): boolean => typeof v !== 'object' || v === null || Object.keys(v).length === 0;
  const below = (v: PlainValue, indent: number): string[] => {
    const space = ' '.repeat(indent);
    if (Array.isArray(v))
      return v.flatMap((item) => {
        if (isSimple(item) || choose(3) === 0)
          return [...between(indent), `${space}- ${inBrackets(item)}${trailing()}`];
        const inner = below(item, indent + 2).filter(
          (line, i) => i > 0 || (line.trim() !== '' && !line.trim().startsWith('#')),
        );
        if (inner[0]?.trim().startsWith('#') || inner[0]?.trim() === '') return [`${space}- ${inBrackets(item)}`];
        return [...between(indent), `${space}- ${inner[0]!.trimStart()}`, ...inner.slice(1)];
      });
    return Object.entries(v as Record<string, PlainValue>).flatMap(([k, item]) => {
      const key = `${space}${scalar(k, true)}:`;
      if (typeof item === 'string' && /^[ -~]+(\n[ -~]+)*\n?$/.test(item) && !/^ /.test(item) && choose(4) === 0) {
        const lines = item.endsWith('\n') ? item.slice(0, -1).split('\n') : item.split('\n');
        return [
          ...between(indent),
          `${key} ${item.endsWith('\n') ? '|' : '|-'}${trailing()}`,
          ...lines.map((line) => `${space}  ${line}`),
        ];
      }
      if (isSimple(item) || choose(3) === 0) {
        const text = typeof item === 'object' && item !== null ? inBrackets(item) : scalar(item, false);
        return [...between(indent), `${key}${text === '' ? '' : ' '}${text}${trailing()}`];
      }
      const step = Array.isArray(item) && choose(3) === 0 ? 0 : choose(3) === 0 ? 4 : 2;
      return [...between(indent), `${key}${trailing()}`, ...below(item, indent + step)];
    });
  };
  const lines = below(value, 0);
  return (
    (hand.bom ? '\ufeff' : '') + lines.join(hand.crlf ? '\r\n' : '\n') + (hand.end ? (hand.crlf ? '\r\n' : '\n') : '')
  );
}

/** A place to go to in a value, by turning at each fork as the numbers say. */
export function pathBy(value: PlainValue, turns: readonly number[]): Path {
  const path: (string | number)[] = [];
  let at = value;
  for (const turn of turns) {
    if (typeof at !== 'object' || at === null) break;
    const keys = Object.keys(at);
    if (keys.length === 0) break;
    const key = keys[turn % keys.length]!;
    const step = Array.isArray(at) ? Number(key) : key;
    path.push(step);
    at = lookUp(at, [step])!;
  }
  return path;
}

export interface Wish {
  readonly op: 'set' | 'remove' | 'insert' | 'move';
  readonly turns: readonly number[];
  readonly turns2: readonly number[];
  readonly key: string;
  readonly value: PlainValue;
}
export const anyWish: fc.Arbitrary<Wish> = fc.record({
  op: fc.constantFrom('set', 'remove', 'insert', 'move'),
  turns: fc.array(fc.nat(7), { minLength: 1, maxLength: 4 }),
  turns2: fc.array(fc.nat(7), { minLength: 1, maxLength: 4 }),
  key: fc.constantFrom('case', 'wall', 'new', `7' 2"`, 'made: up', '#', '9', 'true'),
  value: anyValue,
});

/** The wish as an edit that makes sense for this value. */
export function editFor(value: PlainValue, wish: Wish): Edit {
  const place = (from: PlainValue, turns: readonly number[]): Path => {
    const path = pathBy(from, turns);
    const at = lookUp(from, path)!;
    if (Array.isArray(at)) return [...path, turns[0]! % (at.length + 1)];
    if (typeof at === 'object' && at !== null && !Object.hasOwn(at, wish.key)) return [...path, wish.key];
    const around = path.slice(0, -1);
    const parent = lookUp(from, around)!;
    const taken = Object.keys(parent);
    const free = [wish.key, ...taken.map((_, i) => `${wish.key} ${i}`)].find((key) => !taken.includes(key))!;
    return [...around, Array.isArray(parent) ? path.at(-1)! : free];
  };
  const path = pathBy(value, wish.turns);
  switch (wish.op) {
    case 'set':
      return { op: 'set', path, value: wish.value };
    case 'remove':
      return { op: 'remove', path };
    case 'insert':
      return { op: 'insert', path: place(value, wish.turns), value: wish.value };
    case 'move': {
      const rest = removed(value, path);
      return { op: 'move', from: path, path: place(rest, wish.turns2) };
    }
    default:
      return wish.op satisfies never;
  }
}
function removed(value: PlainValue, path: Path): PlainValue {
  const [step, ...more] = path;
  if (Array.isArray(value))
    return more.length === 0
      ? value.toSpliced(step as number, 1)
      : value.with(step as number, removed(value[step as number], more));
  const entries = Object.entries(value as Record<string, PlainValue>);
  if (more.length === 0) return Object.fromEntries(entries.filter(([key]) => key !== step));
  return Object.fromEntries(entries.map(([key, item]) => [key, key === step ? removed(item, more) : item]));
}
