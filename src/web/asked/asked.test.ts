import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../../core/outcome.ts';
import {
  applyToPlain,
  type Edit,
  jsonSchema,
  kindOf,
  lookUp,
  nameOf,
  type Path,
  PIECE_KINDS,
  type PlainValue,
  type Plan,
  planOf,
  readPlan,
  type SchemaNode,
} from '../../core/plan/index.ts';
import { useBench } from '../bench.ts';
import { type Asked, type AskedChoice, type AskedField, choiceEdits, editsOf } from './asked.ts';
import { askedOf } from './asked-pieces.ts';

const example = (name: string) => {
  const { plan, document } = readPlan(readFileSync(join(import.meta.dirname, `../../../examples/${name}`), 'utf8'), {});
  return { plan: plan!, plain: document.plain as PlainValue };
};
const IN_INCHES = example('lesson-room.plan.yaml');
const METRIC = example('radio-corner.plan.yaml');

type Known = typeof METRIC;
const after = ({ plain }: Known, edits: readonly Edit[]) => {
  const edited = applyToPlain(plain, edits);
  if (!edited.ok) throw new Error(JSON.stringify(edited.issues));
  return { plain: edited.value, ...planOf(edited.value) };
};
const pieceAt = (plan: Plan, path: Path) => plan.options[path[1] as number]!.pieces[path[3] as number]!;
const pathOf = ({ plan }: Known, name: string): Path => {
  const i = plan.options.findIndex(({ pieces }) => pieces.some((p) => nameOf(p) === name));
  return ['options', i, 'pieces', plan.options[i]!.pieces.findIndex((p) => nameOf(p) === name)];
};
const isOf = (one: Asked): one is AskedChoice => 'of' in one;
const asks = (known: Known, path: Path): readonly Asked[] =>
  askedOf(known.plan, pieceAt(known.plan, path), true).flatMap(({ asked }) => asked);
const find = (known: Known, path: Path, words: string) => asks(known, path).find((one) => one.words === words)!;
/** What the form does when this is chosen or typed. */
function say(known: Known, path: Path, words: string, text: string) {
  useBench.setState({ plain: known.plain });
  const one = find(known, path, words);
  return after(
    known,
    isOf(one) ? choiceEdits(one, path, text) : editsOf(one.holds)(text, [...path, ...(one as AskedField).key]),
  );
}
/** The same, where nothing may be wrong with it. */
function said(known: Known, path: Path, words: string, text: string): Known {
  const { plan, plain, issues } = say(known, path, words, text);
  expect([words, text, issues]).toEqual([words, text, []]);
  return { plan: plan!, plain };
}
/** One place of each kind of piece there is in a plan. */
const kindsIn = (known: Known) =>
  PIECE_KINDS.flatMap((kind) => {
    const one = known.plan.options.flatMap(({ pieces }) => pieces).find((p) => kindOf(p) === kind);
    return one ? [[kind, pathOf(known, nameOf(one))] as const] : [];
  });

const TYPED = {
  length: ['30 mm', '1-1/4"'],
  thickness: ['6 mm', '1/4"'],
  lengths: ['100 mm; 250 mm', '4", 10"'],
} as const;
const typed = ({ holds, key }: AskedField, system: 0 | 1): string => {
  if (holds === 'mass') return system === 0 ? '3 kg' : '7 lb';
  if (holds === 'number' || holds === 'words') return key[0] === 'level' ? '0.5' : key[0] === 'percentile' ? '5' : '2';
  if (typeof holds === 'object')
    return holds.of === 'mass'
      ? ['120 kg and 150 kg', '250 lb; 300 lb'][system]!
      : ['300 mm × 200 mm', '12" x 8"'][system]!;
  return TYPED[holds][system];
};

describe.each([
  ['metric', METRIC, 0],
  ['inches', IN_INCHES, 1],
] as const)('what is asked of pieces, %s', (_, known, system) => {
  it('law: whatever is chosen or typed is read, stands where it was said, and is as before when it is taken away', () => {
    let seen = 0;
    const go = (before: Known, path: Path, deep: number) => {
      for (const one of asks(before, path)) {
        const { key, words } = one;
        const texts = isOf(one) ? one.of.map(([text]) => text) : [typed(one as AskedField, system)];
        for (const text of texts) {
          const now = said(before, path, words, text);
          seen++;
          if (text === '') continue;
          const value = lookUp(now.plain, [...path, ...key]);
          expect([words, value === undefined]).toEqual([words, false]);
          if (isOf(one)) expect([words, String(value)]).toEqual([words, text]);
          const round = isOf(one) ? (one.unsaid ?? key) : key;
          const had = lookUp(before.plain, [...path, ...round]) !== undefined;
          if (!had && (!isOf(one) || one.of[0]![0] === '') && !(isOf(one) && one.along))
            expect([words, said(now, path, words, '').plain]).toEqual([words, before.plain]);
          // what is asked only then
          if (deep > 0 && asks(now, path).some(({ words: w }) => !asks(before, path).some((o) => o.words === w)))
            go(now, path, deep - 1);
        }
      }
    };
    for (const [, path] of kindsIn(known)) go(known, path, 1);
    expect(seen).toBeGreaterThan(400);
  });

  it('law: what cannot be read is refused where it stands, with what was expected', () => {
    for (const [kind, path] of kindsIn(known))
      for (const one of asks(known, path)) {
        if (isOf(one)) continue;
        const { issues } = say(known, path, one.words, 'much');
        const at = [...path, ...(one as AskedField).key];
        expect([kind, one.words, issues.length > 0]).toEqual([kind, one.words, true]);
        for (const issue of issues) {
          expect([one.words, issue.path.slice(0, at.length)]).toEqual([one.words, at]);
          expect(`${issue.message} ${issue.expected ?? ''}`).toMatch(/expected|a length|a mass|number/i);
        }
      }
  });

  it('hanging rails that are chosen come with a back in a groove before them, and can be built', () => {
    for (const name of known.plan.options.flatMap(({ pieces }) =>
      pieces.filter((p) => kindOf(p) === 'case').map(nameOf),
    )) {
      const path = pathOf(known, name);
      const panel = known.plan.make.panel!;
      const railed = said(known, path, 'hanging rails of', panel);
      const low = said(railed, path, 'hanging rails, height', system === 0 ? '70 mm' : '2-3/4"');
      const { plan } = said(low, path, 'hanging rails lie', 'top');
      const { issues, pieces } = sceneOf(plan, plan.options[path[1] as number]!);
      expect([name, issues]).toEqual([name, []]);
      const rails = pieces.find((p) => p.id === name)!.parts.filter((p) => p.role === 'hanging rail');
      expect(rails.map(({ label, size }) => [label.name, Math.round(size.width)])).toEqual([['top hanging rail', 70]]);
      expect(
        said(railed, path, 'hanging rails of', '').plan.options[path[1] as number]!.pieces[path[3] as number],
      ).not.toHaveProperty('rails', expect.anything());
    }
  });
});

/** Told in words alone, on purpose: what is rare, what wants a list of its own, and what other parts of the page say. */
const IN_WORDS = [
  ...['after', 'on', 'at', 'centre', 'wall', 'remark', 'towards', 'places', 'colour', 'surface', 'material'],
  ...['pixel', 'supply', 'flicker', 'bright', 'pixels', 'play', 'load'],
];
/** Of no use on what is fixed to nothing; and what is asked only of a lamp with a beam. */
const NOT_ASKED = ['camera fix', 'lamp angle', 'lamp fix', 'seat fix', 'strip fix', 'thing fix'];

it('every kind of piece can be told by the form what its schema knows, but for what is listed here', () => {
  const root = jsonSchema();
  const defs = root.$defs!;
  const follow = (node: SchemaNode): SchemaNode => (node.$ref ? follow(defs[node.$ref.split('/').at(-1)!]!) : node);
  const FIRST = [
    'title',
    'from',
    'above',
    'gap',
    'out',
    'size',
    'inside',
    'mass',
    'lumens',
    'kelvin',
    'focal',
    'along',
  ];
  const left: string[] = [];
  for (const kind of PIECE_KINDS) {
    const node = follow(defs[kind[0]!.toUpperCase() + kind.slice(1)]!);
    const known = [METRIC, IN_INCHES].find((k) => kindsIn(k).some(([each]) => each === kind))!;
    const path = kindsIn(known).find(([each]) => each === kind)![1];
    const asked = new Set([...FIRST, ...IN_WORDS, kind, ...asks(known, path).map(({ key }) => key[0])]);
    for (const key of Object.keys(node.properties!)) if (!asked.has(key)) left.push(`${kind} ${key}`);
  }
  expect(left.toSorted()).toEqual(NOT_ASKED);
});
