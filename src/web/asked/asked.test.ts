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
  type Option,
  type Path,
  PIECE_KINDS,
  type PlainValue,
  type Plan,
  planOf,
  readPlan,
  type SchemaNode,
} from '../../core/plan/index.ts';
import { sizeOf } from '../../core/room/index.ts';
import { findPiece, type Scene } from '../arrange.ts';
import { useBench } from '../bench.ts';
import { type Asked, type AskedChoice, type AskedField, choiceEdits, editsOf, putIn } from './asked.ts';
import { askedOf } from './asked-pieces.ts';
import { askedOfPlace } from './asked-place.ts';

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
/** What a choice shows. */
function nowOf(known: Known, path: Path, { key, words }: AskedChoice): string {
  const { now } = find(known, path, words) as AskedChoice;
  return now ?? String(lookUp(known.plain, [...path, ...key]));
}
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

const WAY = 'its place is told by';
const optionOf = ({ plan }: Known, id: string) => plan.options.find((option) => option.id === id)!;
const pieceIn = (known: Known, option: string, name: string) =>
  optionOf(known, option).pieces.find((p) => nameOf(p) === name)!;
/** One option as it stands; nothing may be wrong with it. */
function sceneIn(known: Known, id: string): Scene {
  const option = optionOf(known, id);
  const kept = scenes.get(option);
  if (kept) return kept;
  const { room, pieces, issues } = sceneOf(known.plan, option);
  expect(issues).toEqual([]);
  const scene = { plan: known.plan, option, room, pieces };
  scenes.set(option, scene);
  return scene;
}
const scenes = new WeakMap<Option, Scene>();
const placesIn = (known: Known, option: string, name: string) =>
  askedOfPlace(sceneIn(known, option), findPiece(sceneIn(known, option), name)!).flatMap(
    ({ asked }) => asked as readonly AskedChoice[],
  );
/** What the form does when another way of saying its place is chosen. */
function placed(known: Known, option: string, name: string, words: string, text: string): Known {
  const one = placesIn(known, option, name).find((each) => each.words === words)!;
  const { plan, plain, issues } = after(known, choiceEdits(one, [], text));
  expect([name, words, text, issues]).toEqual([name, words, text, []]);
  return { plan: plan!, plain };
}
const lengthsOf = (known: Known, option: string, name: string) => {
  const { wall, from, centre, out, above } = pieceIn(known, option, name);
  return [wall, from ?? 0, centre, out ?? 0, above ?? 0];
};

const TYPED = {
  length: ['30 mm', '1-1/4"'],
  small: ['6 mm', '1/4"'],
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
          if (isOf(one)) expect([words, nowOf(now, path, one)]).toEqual([words, text]);
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

  it('law: whatever says where a piece is, it stays where it stands; what it is put on is under it', () => {
    const seen: Record<string, number> = {};
    for (const option of known.plan.options) {
      const scene = sceneIn(known, option.id);
      for (const name of option.pieces.map(nameOf)) {
        const choices = placesIn(known, option.id, name);
        const stood = findPiece(scene, name)!.placed!;
        for (const { words, of, now } of choices)
          for (const [text] of of) {
            const after = placed(known, option.id, name, words, text);
            const told = placesIn(after, option.id, name);
            expect([name, text, told.find((one) => one.words === words)?.now ?? text]).toEqual([name, text, text]);
            const stands = findPiece(sceneIn(after, option.id), name)!.placed!;
            const way = words === WAY ? text : now;
            seen[`${way}`] = (seen[`${way}`] ?? 0) + 1;
            const [from, to] = [stood.frame.origin, stands.frame.origin];
            const moved = Math.hypot(from.x - to.x, from.y - to.y, from.z - to.z);
            if (words !== WAY || text === now) continue;
            if (text === 'from' || text === 'centre' || text === 'at') {
              expect([name, text, moved < 0.06]).toEqual([name, text, true]);
              if (stood.wall)
                expect([name, text, ((stood.frame.turn - stands.frame.turn) % 360) + 0]).toEqual([name, text, 0]);
              // and back again
              const back = placed(after, option.id, name, WAY, now!);
              if (now === 'from' || now === 'centre')
                expect([name, lengthsOf(back, option.id, name)]).toEqual([name, lengthsOf(known, option.id, name)]);
            }
            if (text === 'after' && 'gap' in pieceIn(after, option.id, name))
              expect([name, text, moved < 0.06]).toEqual([name, text, true]);
            if (text === 'on') {
              const under = findPiece(sceneIn(after, option.id), pieceIn(after, option.id, name).on)!;
              expect([name, to.y]).toEqual([name, under.placed!.frame.origin.y + sizeOf(under.piece).height]);
            }
          }
      }
    }
    for (const way of ['from', 'centre', 'after', 'on', 'at']) expect([way, seen[way]! > 4]).toEqual([way, true]);
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

it('the last word of one in a list leaves the list as long as it was', () => {
  const plain = { options: [{ pieces: [{ inside: { columns: [{ heat: 40 }, { open: true }] } }] }] };
  const bay = ['options', 0, 'pieces', 0, 'inside', 'columns', 0];
  const edited = applyToPlain(plain, putIn(plain, [...bay, 'heat'], undefined));
  expect(edited.ok && lookUp(edited.value, bay.slice(0, -1))).toEqual([{}, { open: true }]);
});

/** Told in words alone, on purpose: what is rare, what wants a list of its own, and what other parts of the page say. */
const IN_WORDS = [
  ...['remark', 'towards', 'places', 'colour', 'surface', 'material'],
  ...['pixel', 'supply', 'flicker', 'bright', 'pixels', 'play', 'load'],
];
/** Of no use on what is fixed to nothing; and what is asked only of a lamp with a beam. */
const NOT_ASKED = ['lamp angle', 'seat fix', 'strip fix'];

it('every kind of piece can be told by the form what its schema knows, but for what is listed here', () => {
  const root = jsonSchema();
  const defs = root.$defs!;
  const follow = (node: SchemaNode): SchemaNode => (node.$ref ? follow(defs[node.$ref.split('/').at(-1)!]!) : node);
  /** What says where it is, and the wall it is on. */
  const PLACE = ['wall', 'after', 'on', 'at', 'centre'];
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
    const asked = new Set([...FIRST, ...PLACE, ...IN_WORDS, kind, ...asks(known, path).map(({ key }) => key[0])]);
    for (const key of Object.keys(node.properties!)) if (!asked.has(key)) left.push(`${kind} ${key}`);
  }
  expect(left.toSorted()).toEqual(NOT_ASKED);
});
