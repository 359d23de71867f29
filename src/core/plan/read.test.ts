import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMap, isScalar, isSeq, LineCounter, type Node, parse, parseDocument, stringify } from 'yaml';
import { z } from 'zod';
import { explain } from '../issue/index.ts';
import { MOST_CHARACTERS } from './document.ts';
import type { PlainValue } from './edit/edit.ts';
import { applyToPlain } from './edit/plain.ts';
import { applyEdits } from './edit/text.ts';
import type { Migration } from './migrate.ts';
import { SMALL_PLAN } from './plan.testing.ts';
import { planOf, readPlan, readVersions } from './read.ts';
import { nameOf } from './schema/plan.ts';

const refusals = (text: string): readonly string[] => readPlan(text, { file: 'my.plan.yaml' }).issues.map(explain);
/** The small plan with one thing in it changed. */
const broken = (from: string, to: string): readonly string[] => {
  expect(SMALL_PLAN.split(from).length).toBe(2);
  return refusals(SMALL_PLAN.replace(from, to));
};
const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/${name}.plan.yaml`, import.meta.url), 'utf8');

it('tells of a tab and not of what it throws out of line', () =>
  expect(refusals(SMALL_PLAN.replace("  ceiling: 8'", "\tceiling: 8'"))).toEqual([
    expect.stringMatching(/a line begins with a tab \(expected spaces\)$/),
  ]));

it('refuses days off that run backwards, where nothing would be off', () =>
  expect(refusals(`${SMALL_PLAN}\ndates: {off: [{from: 2026-12-27, to: 2026-12-24}]}\n`)).toEqual([
    expect.stringContaining('these days do not run forwards'),
  ]));

describe('a good plan', () => {
  it('is read whole, lengths in millimetres, defaults filled in', () => {
    const { plan, issues } = readPlan(SMALL_PLAN);
    expect(issues).toEqual([]);
    expect(plan?.room.ceiling).toBe(2438.4);
    expect(plan?.room.walls[0]?.framing?.board).toBe(12.7);
    expect(plan?.room.walls[1]?.corner).toBe(90);
    expect(plan?.room.openings[0]?.sill).toBe(0);
    expect(plan?.room.survey[0]?.offsets).toEqual([
      { at: 0, value: 0 },
      { at: 762, value: 1.5875 },
      { at: 1524, value: 3.175 },
    ]);
    expect(plan?.stock.panels[0]?.thickness).toBe(11428 / 640);
    expect(plan?.stock.panels[0]?.sizes[0]?.price).toBe(8450);
    expect(plan?.stock.panels[1]?.sizes).toEqual([]);
    expect(plan?.shop.lift).toBe(22.6796185);
    expect(plan?.options[0]?.pieces.map(nameOf)).toEqual(['scores', 'machines', 'upper', 'screen', 'backing', 'chair']);
    expect(plan?.options[0]?.pieces[0]).toMatchObject({
      inside: { columns: [{ open: [279.4, { share: 1 }] }, { width: 508 }, { drawers: 3 }] },
    });
  });

  it.each(['lesson-room', 'radio-corner'])('examples/%s is one', (name) => expect(refusals(example(name))).toEqual([]));

  it('is the same with a byte order mark, Windows line ends, or as JSON', () => {
    const { plan } = readPlan(SMALL_PLAN);
    expect(readPlan(`\ufeff${SMALL_PLAN}`).plan).toEqual(plan);
    expect(readPlan(SMALL_PLAN.replaceAll('\n', '\r\n')).plan).toEqual(plan);
    expect(readPlan(JSON.stringify(parse(SMALL_PLAN))).plan).toEqual(plan);
    expect(planOf(parse(SMALL_PLAN))).toEqual({ plan, issues: [] });
  });

  it('may stand on one line, however many keys that has', () => {
    const plain = parse(SMALL_PLAN);
    const thing = (i: number) => ({ thing: `box ${i}`, at: { x: i, y: 0 }, size: { width: 1, height: 1, depth: 1 } });
    plain.options[0].pieces.push(...Array.from({ length: 200 }, (_, i) => thing(i)));
    const line = JSON.stringify(plain).replaceAll('":', '": ');
    expect(line.split(': ').length).toBeGreaterThan(1000);
    expect(readPlan(line).issues).toEqual([]);
  });

  it('is the same written in another unit', () => {
    const { plan } = readPlan(SMALL_PLAN);
    for (const unit of ['mm', 'cm', 'm', 'in'] as const) {
      const changed = applyToPlain(parse(SMALL_PLAN) as PlainValue, [
        { op: 'set', path: ['units', 'length'], value: unit },
      ]);
      // every length of the small plan has its unit beside it, so none changes its meaning
      const again = planOf(changed.ok ? changed.value : undefined).plan;
      expect({ ...again, units: undefined }).toEqual({ ...plan, units: undefined });
    }
  });

  it('may share a value by an alias', () => {
    const text = SMALL_PLAN.replace(
      `size: {width: 4', height: 30", depth: 16"}`,
      `size: &size {width: 4', height: 30", depth: 16"}`,
    ).replace(`size: {width: 3', height: 30", depth: 16"}`, 'size: *size');
    const { plan } = readPlan(text);
    expect(plan?.options[0]?.pieces[1]).toMatchObject({ size: { width: 1219.2 } });
  });
});

describe('what is wrong', () => {
  it.each<[string, string, string]>([
    [
      "ceiling: 8'",
      `ceiling: 3 4`,
      `room.ceiling: '3' and '4' stand side by side without a unit (found '3 4'; expected 3' 4" for feet and inches, or one number)`,
    ],
    [
      'tax: 7',
      'taxx: 7',
      "stock.taxx: 'taxx' is not a key that is known here (expected one of boards, packs, panels, rack, stale, suppliers, tax; did you mean tax?)",
    ],
    [
      'kind: timber stud',
      'kind: timbre stud',
      "room.walls[0].framing.kind: this is none of the words that are known here (found 'timbre stud'; expected timber stud, steel stud, masonry or unknown; did you mean timber stud?)",
    ],
    [
      'title: Loft corner',
      'title: den: north',
      "a colon with a space after it begins a value, and this has two of them (found 'den: north'; expected quotes round a value with a colon in it)",
    ],
    ["  ceiling: 8'\n", '', "room.ceiling: 'ceiling' is missing (expected height of the ceiling above the floor)"],
    ['kerf: 1/8"', 'kerf: -1/8"', "shop.kerf: must not be negative (found '-1/8\"')"],
    [
      '- thing: chair',
      '- {camera: c, at: {x: 1, y: 1}, focal: 24}\n      - thing: chair',
      'options[0].pieces[5].focal: in a room a lens has 1 to 200 mm: write its unit, as in 24 mm (found 24)',
    ],
    // 3.2 of a plan in metres
    ['kerf: 1/8"', 'kerf: 3.2 m', "shop.kerf: no blade takes more than 1 in (25.4 mm) (found '3.2 m')"],
    [
      'kerf: 1/8"',
      'kerf: [1]',
      `shop.kerf: this is none of the forms it may take (found a list of 1; expected a length, written any way: 3' 4-1/2", 40 1/2, 1029 mm, 1.03 m)`,
    ],
    [
      '- shelf: upper',
      '- shlef: upper',
      "options[0].pieces[2].shlef: 'shlef' is no kind of piece (expected case, shelf, display, lining, thing, strip, lamp, absorber, seat or camera; did you mean shelf?)",
    ],
    [
      'door: left',
      'door: lift',
      "options[0].pieces[0].inside.columns[1].door: this is none of the words that are known here (found 'lift'; expected left, right, pair, up or down; did you mean left?)",
    ],
    [
      '{drawers: 3}',
      '{drawers: 3, door: left}',
      'options[0].pieces[0].inside.columns[2]: a bay of drawers holds nothing else (found a group of keys: drawers, door)',
    ],
    [
      '{drawers: 3}',
      '{drawers: many}',
      "options[0].pieces[0].inside.columns[2].drawers: this is none of the forms it may take (found 'many'; expected a number or a list)",
    ],
    [
      '[11", 1*]',
      '[11", 0*]',
      "options[0].pieces[0].inside.columns[0].open[1]: a share must be more than 0 (found '0*')",
    ],
    [
      'date: 2026-11-03',
      'date: 3 November',
      "stock.panels[0].sizes[0].date: this cannot be read (found '3 November'; expected a date such as 2026-10-02)",
    ],
    [
      'price: 84.50',
      'price: 84.505',
      'stock.panels[0].sizes[0].price: USD has 2 decimals (found 84.505; expected an amount with 2 decimals)',
    ],
    [
      'lift: 50 lb',
      'lift: 50 pnd',
      "shop.lift: 'pnd' is not a unit of mass (found '50 pnd'; expected kg, g, t, lb, oz or st)",
    ],
    [
      `2' 6": 1/16"`,
      `2' 16": 1/16"`,
      `room.survey[0].offsets.2' 16": 16 in after ft is 12 or more, a slip of the pen more often than not (found '2' 16"'; expected less than 12 in, or the whole length in in)`,
    ],
    [`2' 6": 1/16"`, `0 mm: 1/16"`, "room.survey[0].offsets.0 mm: the same place as '0', written in another way"],
    [
      'colour: "#d8c9a0"',
      'colour: #d8c9a0',
      "room.walls[0].colour: nothing is written here; a '#' with a space before it begins a comment, and needs quotes",
    ],
    [
      "height: 3'}",
      'height: 1,029 mm}',
      "options[0].pieces[4].size.029 mm: a comma parts the entries between { }, so this stands alone (found '029 mm'; expected quotes round a value that has a comma in it)",
    ],
    [
      '{id: mill, name: The mill}',
      '{id: mill, name: Mill, old}',
      `stock.suppliers[0].old: 'old' is not a key that is known here (expected one of id, lead, name, open, remark; or quotes between { }, of a value with a comma: name: "Mill, old")`,
    ],
    [
      'length: ft-in',
      'length: feet',
      "units.length: this is none of the words that are known here (found 'feet'; expected ft-in, in, mm, cm or m)",
    ],
    ['setwright: 1', 'setwright: one', "setwright: this has only one right value (found 'one'; expected 1)"],
    [
      '- {id: mill, name: The mill}',
      '- The mill',
      "stock.suppliers[0]: this is not a group of keys with values (found 'The mill'; expected keys and values among id, name, remark, open, lead)",
    ],
  ])('%s → %s', (from, to, message) => {
    const lined = broken(from, to);
    const told = lined.map((line) => line.replace(/^my\.plan\.yaml, line \d+, column \d+: /, ''));
    expect(told).toContain(message);
    const line = SMALL_PLAN.slice(0, SMALL_PLAN.indexOf(from)).split('\n').length;
    if (!message.includes('is missing')) expect(lined[told.indexOf(message)]).toContain(`, line ${line}, column`);
    // a fault may leave a name without its owner, but nothing else is blamed
    for (const other of told) if (other !== message) expect(other).toMatch(/there is no (supplier|piece)/);
  });

  it.each<[string, string, RegExp]>([
    ['wall: south', 'wall: sout', /room\.openings\[0\]\.wall: there is no wall of this name.*did you mean 'south'/],
    ['supplier: mill, date', 'supplier: mil, date', /supplier: there is no supplier.*did you mean 'mill'/],
    [
      'stock: birch 3/4',
      'stock: birch 3/8',
      /stock\.rack\[0\]\.stock: there is no panel or board.*did you mean 'birch/,
    ],
    ['panel: birch 3/4', 'panel: poplar 1x4', /make\.panel: there is no panel/],
    ['band: band', 'band: bond', /make\.band: there is no pack.*did you mean 'band'/],
    ['build: low', 'build: high', /build: there is no option/],
    ['after: scores', 'after: score', /pieces\[1\]\.after: there is no piece of this option.*did you mean 'scores'/],
    [
      '- case: machines',
      '- {strip: glow, along: scores, supply: socket}\n      - case: machines',
      /pieces\[1\]\.supply: there is no outlet of this name.*expected an outlet, but the plan has none/,
    ],
    ['after: scores', 'after: machines', /a piece cannot stand after itself/],
    [
      'from: 6"\n        size',
      'after: machines\n        size',
      /stand after one another in a circle.*'machines' → 'scores'|'scores' → 'machines'/,
    ],
    [
      '- case: machines',
      '- case: scores',
      /options\[0\]\.pieces\[1\]\.case: another piece of this option has this name already/,
    ],
    ['{id: east', '{id: north', /room\.walls\[1\]\.id: another wall has this name already/],
    ['id: poplar 1x4', 'id: birch 1/4', /another panel or board/],
    ['skin: birch 1/4', 'skin: brich 1/4', /skin: there is no panel or board.*did you mean 'birch 1\/4'/],
    ['board: poplar 1x4', 'board: popler 1x4', /battens\.board: there is no panel or board.*did you mean 'poplar 1x4'/],
  ])('a name that leads nowhere: %s → %s', (from, to, message) => expect(broken(from, to).join('\n')).toMatch(message));

  it.each<[string, RegExp]>([
    [
      `toe: {height: 4"}`,
      /pieces\[2\]\.toe: 'toe' belongs to another kind of piece: case \(expected one of above, [^)]*skin, title, wall\)/,
    ],
    // of more keys of a case than of a shelf, it is a shelf all the same
    [
      'make: {}\n        ends: {}\n        fillers: {}\n        inside: {open: true}',
      /'inside' belongs to another kind of piece: case \(expected one of [^)]*skin/,
    ],
    ['turn: 5', /'turn' is not a key that is known here .*did you mean at\.turn\?/],
    ['height: 8"', /'height' is not a key that is known here .*expected one of above/],
    ['skim: birch 1/4', /'skim' is not a key that is known here .*did you mean skin\?/],
  ])('a key in the wrong place: %s', (key, message) => {
    const told = broken('- shelf: upper', `- shelf: upper\n        ${key}`).join('\n');
    expect(told).toMatch(message);
  });

  it('says the same where the library has no words of its own, as on the pages', () => {
    const faulty = [
      ['tax: 7', 'tax: -1'],
      ['title: Loft corner', `title: ${'x'.repeat(200)}`],
      ['drawers: 3', 'drawers: 300'],
      ['5\': 1/8"', "5': [1]"],
    ].reduce((text, [from, to]) => text.replace(from!, to!), SMALL_PLAN);
    const told = refusals(faulty);
    expect(told.length).toBeGreaterThanOrEqual(4);
    z.config({ localeError: undefined });
    try {
      expect(refusals(faulty)).toEqual(told);
    } finally {
      z.config(z.locales.en());
    }
  });

  it('is told all at once, in the order of the lines', () => {
    const text = SMALL_PLAN.replace("ceiling: 8'", 'ceiling: tall')
      .replace('tax: 7', 'taxx: 7')
      .replace('wall: south', 'wall: sout')
      .replace('- shelf: upper', '- shlef: upper')
      .replace('kerf: 1/8"', 'kerf: 1/0"')
      .replace('build: low', 'build: high');
    const { plan, issues } = readPlan(text);
    expect(plan).toBeUndefined();
    const lines = [': tall', ': sout,', 'taxx', '1/0', ': high', 'shlef'].map(
      (word) => text.slice(0, text.indexOf(word)).split('\n').length,
    );
    expect(issues.map((issue) => issue.place?.line)).toEqual(lines);
  });

  /** Every key and value of the small plan with its place, found by the YAML library and not by the code under test. */
  const spots = (() => {
    const counter = new LineCounter();
    const document = parseDocument(SMALL_PLAN, { lineCounter: counter });
    const found: { kind: 'key' | 'value'; start: number; end: number; line: number; column: number }[] = [];
    const visit = (node: Node | null): void => {
      const add = (kind: 'key' | 'value', { range }: Node) => {
        const { line, col } = counter.linePos(range![0]);
        found.push({ kind, start: range![0], end: range![1], line, column: col });
      };
      if (isMap(node))
        for (const { key, value } of node.items) {
          add('key', key as Node);
          visit(value as Node | null);
        }
      else if (isSeq(node)) for (const item of node.items) visit(item as Node);
      else if (isScalar(node)) add('value', node);
    };
    visit(document.contents as Node);
    return found;
  })();

  it('is placed where it stands: every key misspelt, every value replaced by nonsense', () => {
    expect(spots.length).toBeGreaterThan(200);
    for (const { kind, start, end, line, column } of spots) {
      const nonsense = kind === 'key' ? 'qqqqq' : '{qqqqq: 1}';
      const { plan, issues } = readPlan(SMALL_PLAN.slice(0, start) + nonsense + SMALL_PLAN.slice(end));
      expect(plan).toBeUndefined();
      expect(issues.map((issue) => issue.place)).toContainEqual({ line, column });
    }
  });
});

describe('hostile files', () => {
  const bomb = [
    'a: &a [x]',
    ...'bcdefghi'.split('').map((c, i) => `${c}: &${c} [${Array(9).fill(`*${'abcdefgh'[i]}`).join(', ')}]`),
  ].join('\n');
  it.each<[string, string, RegExp]>([
    ['nothing', '', /the file is empty/],
    ['spaces', ' \n\t\n', /the file is empty/],
    ['only a byte order mark', '\ufeff', /the file is empty/],
    ['only a comment', '# later', /not a plan/],
    ['a list', '- 1', /not a plan \(found a list/],
    ['a word', 'hello', /not a plan \(found a single value/],
    ['an open bracket', 'a: [', /line 1/],
    ['a tab at the start of a line', 'a:\n\tb: 1', /line 2, column 1: a line begins with a tab/],
    ['a key twice', `${SMALL_PLAN}build: low\n`, /column 1: this key is written twice \(found 'build'\)/],
    ['two documents', `${SMALL_PLAN}---\na: 1\n`, /more than one document/],
    [
      'a tag',
      SMALL_PLAN.replace('Loft corner', '!!js/function "x"'),
      /line 3, column 8: a plan has no tags of its own/,
    ],
    [
      'a merge key',
      SMALL_PLAN.replace('build: low', '<<: {build: low}'),
      /column 1: merge keys are not part of YAML 1\.2/,
    ],
    ['a list as a key', SMALL_PLAN.replace('build: low', '? [build]\n: low'), /a key is not a name/],
    [
      'the key __proto__',
      SMALL_PLAN.replace('build: low', '__proto__: {polluted: yes}'),
      /no part of a plan is called '__proto__'/,
    ],
    [
      'the key __proto__ among offsets',
      SMALL_PLAN.replace("5': 1/8", '__proto__: 1/8'),
      /no part of a plan is called '__proto__'/,
    ],
    [
      'the key constructor',
      SMALL_PLAN.replace('build: low', 'constructor: {prototype: {polluted: yes}}'),
      /'constructor' is not a key/,
    ],
    ['the key hasOwnProperty', SMALL_PLAN.replace('build: low', 'hasOwnProperty: 1'), /'hasOwnProperty' is not a key/],
    ['an alias that leads nowhere', 'a: *b', /line 1, column 4: a: the alias \*b leads nowhere/],
    [
      'an alias into itself',
      SMALL_PLAN.replace('columns:\n', 'columns: &c\n').replace('{drawers: 3}', '{columns: *c}'),
      /leads back into itself/,
    ],
    ['aliases that multiply', bomb, /aliases of the file cannot be followed/],
    [
      'Latin letters in another encoding',
      SMALL_PLAN.replace('build: low', 'title: caf\ufffd\nbuild: low'),
      /is not UTF-8/,
    ],
    ['deep brackets', '['.repeat(200_000), /nested too deep/],
    ['deep brackets in a plan', SMALL_PLAN.replace('[11", 1*]', '['.repeat(500) + ']'.repeat(500)), /nested too deep/],
    ['deep dashes', '- '.repeat(100_000), /nested too deep/],
    ['deep lines', Array.from({ length: 500 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'), /nested too deep/],
    ['a file too large', `# ${'x'.repeat(MOST_CHARACTERS)}`, /too large/],
    ['a zero byte', 'a: \0', /line 1, column 4: the file is not text \(found the character U\+0000/],
    ['a picture', '\x89PNG\r\n\x1a\n\0\0\0\rIHDR', /the file is not text/],
    ['a number that is none', SMALL_PLAN.replace('tax: 7', 'tax: .nan'), /stock\.tax/],
    ['an endless length', SMALL_PLAN.replace("ceiling: 8'", 'ceiling: .inf'), /room\.ceiling.*found Infinity/],
    ['a number as long as a line', SMALL_PLAN.replace("ceiling: 8'", `ceiling: ${'9'.repeat(400)}`), /room\.ceiling/],
  ])('%s', (_title, text, message) => {
    const { plan, issues } = readPlan(text);
    expect(plan).toBeUndefined();
    expect(issues.map(explain).join('\n')).toMatch(message);
    expect(({} as { polluted?: string }).polluted).toBeUndefined();
  });

  it('are read whole or refused whole, and never thrown at the caller', () =>
    fc.assert(
      fc.property(
        fc.nat(SMALL_PLAN.length),
        fc.nat(40),
        fc.oneof(
          fc.string({ maxLength: 12 }),
          fc.string({ maxLength: 8, unit: fc.constantFrom(...`{}[]&*!|>%@'"#:,- \n\t?ab1`) }),
        ),
        (at, gone, put) => {
          const { plan, issues } = readPlan(SMALL_PLAN.slice(0, at) + put + SMALL_PLAN.slice(at + gone));
          expect(plan === undefined).toBe(issues.length > 0);
          for (const issue of issues) expect(explain(issue).length).toBeGreaterThan(10);
        },
      ),
      { numRuns: 150 },
    ));
});

describe('versions', () => {
  it('refuses a newer file untouched, with nothing else said about it', () => {
    const { plan, issues } = readPlan('setwright: 2\nunits: {length: furlong}\nnew: thing\n');
    expect(plan).toBeUndefined();
    expect(issues.map(explain)).toEqual([
      'line 1, column 12: setwright: this plan is newer than the program; it is left untouched (found 2; expected version 1 or older, or a newer program)',
    ]);
  });

  /** A past that never was: version 1 said `colour` of a plan's title and kept the ceiling as `high`. */
  const PAST: readonly Migration[] = [
    { from: 1, what: 'the name became the title', edits: () => [{ op: 'move', from: ['name'], path: ['title'] }] },
    {
      from: 2,
      what: 'the ceiling got its name',
      edits: () => [{ op: 'move', from: ['room', 'high'], path: ['room', 'ceiling'] }],
    },
  ];
  const old = SMALL_PLAN.replace('title:', 'name:').replace('ceiling:', 'high:');

  it('brings an older file up to date step by step', () => {
    const { plan, issues } = readVersions(old, {}, 3, PAST);
    expect(issues).toEqual([]);
    expect(plan).toEqual(readPlan(SMALL_PLAN).plan);
    expect(
      readVersions(old.replace('setwright: 1', 'setwright: 2').replace('name:', 'title:'), {}, 3, PAST).plan,
    ).toEqual(plan);
    expect(readVersions(SMALL_PLAN.replace('setwright: 1', 'setwright: 3'), {}, 3, PAST).plan).toEqual(plan);
  });

  it('says so when an older file cannot be brought up to date', () => {
    const { plan, issues } = readVersions(SMALL_PLAN, { file: 'a.yaml' }, 3, PAST);
    expect(plan).toBeUndefined();
    expect(issues.map(explain)).toEqual([
      'a.yaml, line 2, column 1: name: bringing the plan from version 1 up to date: there is nothing here to move',
    ]);
  });

  it('places a fault of a migrated file near where it stands', () => {
    const { issues } = readVersions(old.replace("high: 8'", 'high: tall'), {}, 3, PAST);
    expect(issues.map((issue) => issue.place?.line)).toEqual([6]);
  });

  it('has no gap and no overlap in its migrations', () => {
    const [first, second] = PAST as [Migration, Migration];
    for (const wrong of [[], [first], [second], [second, first], [first, first], [first, second, second]])
      expect(() => readVersions(old, {}, 3, wrong)).toThrow(/numbered 1 to 2/);
  });
});

describe('the other way', () => {
  // YAML 1.2.2, 6.8.1: a document that says it is of 1.1 is to be read, by the rules of 1.2
  it.each(['lesson-room', 'radio-corner'])('%s is the same plan where its file says YAML 1.1', (name) => {
    const old = `%YAML 1.1\n---\n${example(name)}`;
    expect(refusals(old)).toEqual([]);
    expect(readPlan(old).plan).toEqual(readPlan(example(name)).plan);
    const title = [{ op: 'set', path: ['title'], value: 'on' }] as const;
    const edited = applyEdits(old, title);
    expect(edited.ok && readPlan(edited.value.text).plan?.title).toBe('on');
  });
  it('reads a plan back from what the YAML library makes of its data', () => {
    const { plan } = readPlan(example('lesson-room'));
    expect(readPlan(stringify(parse(example('lesson-room')))).plan).toEqual(plan);
  });
});
