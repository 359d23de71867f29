import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { cruise } from 'dependency-cruiser';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** The rules of the house hold only while they bite: each is broken once, in a copy, and must be found. */
const root = join(import.meta.dirname, '..');
let copy = '';
const rules = (await import('../.dependency-cruiser.cjs')).default;

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), 'house-'));
  cpSync(join(root, 'tsconfig.json'), join(copy, 'tsconfig.json'));
});
afterAll(() => rmSync(copy, { recursive: true }));

async function broken(files: Record<string, string>): Promise<string[]> {
  rmSync(join(copy, 'src'), { recursive: true, force: true });
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(copy, name)), { recursive: true });
    writeFileSync(join(copy, name), text);
  }
  const { doNotFollow, tsPreCompilationDeps, enhancedResolveOptions } = rules.options;
  const { output } = await cruise(
    ['src'],
    { ruleSet: { forbidden: rules.forbidden }, validate: true, baseDir: copy, doNotFollow, tsPreCompilationDeps },
    enhancedResolveOptions,
  );
  if (typeof output === 'string') throw new Error(output);
  expect(output.summary.totalCruised).toBeGreaterThan(0);
  return output.summary.violations.map((violation) => violation.rule.name);
}

const door = 'export const door = 1;\n';
describe('the import rules', () => {
  it('lets the core import the core through its doors', async () => {
    const files = { 'src/core/a/index.ts': door, 'src/core/b/index.ts': "export { door } from '../a/index.ts';\n" };
    expect(await broken(files)).toEqual([]);
  });
  it.each([
    ['core-no-node-builtins', { 'src/core/a/index.ts': "export { readFileSync } from 'node:fs';\n" }],
    ['core-is-pure', { 'src/core/a/index.ts': "export { door } from '../../cli/main.ts';\n", 'src/cli/main.ts': door }],
    [
      'one-door-per-topic',
      {
        'src/core/a/inner.ts': door,
        'src/core/a/index.ts': door,
        'src/core/b/index.ts': "export { door } from '../a/inner.ts';\n",
      },
    ],
    [
      'core-through-doors',
      { 'src/core/a/inner.ts': door, 'src/cli/main.ts': "export { door } from '../core/a/inner.ts';\n" },
    ],
    ['web-apart-from-server', { 'src/server/a.ts': door, 'src/web/b.ts': "export { door } from '../server/a.ts';\n" }],
    ['server-apart-from-cli', { 'src/cli/a.ts': door, 'src/server/b.ts': "export { door } from '../cli/a.ts';\n" }],
    ['print-below-shells', { 'src/cli/a.ts': door, 'src/print/b.ts': "export { door } from '../cli/a.ts';\n" }],
    ['no-circular', { 'src/core/a/index.ts': "import './b.ts';\n", 'src/core/a/b.ts': "import './index.ts';\n" }],
    [
      'no-tests-in-product',
      { 'src/core/a/x.testing.ts': door, 'src/core/a/index.ts': "export { door } from './x.testing.ts';\n" },
    ],
  ])('finds a break of %s', async (rule, files) => {
    expect(await broken(files as unknown as Record<string, string>)).toContain(rule);
  });
});

describe('the core', () => {
  const files = readdirSync(join(root, 'src/core'), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.ts$/.test(name) && !/\.(test|testing)\.ts$/.test(name))
    .map((name) => ({ name, text: readFileSync(join(root, 'src/core', name), 'utf8') }));

  it('has no clock and no chance of its own', () => {
    const forbidden = /\bMath\.random\b|\bDate\.now\b|\bnew Date\(\)|\bperformance\.now\b|\bcrypto\./;
    expect(files.length).toBeGreaterThan(20);
    expect(files.filter(({ text }) => forbidden.test(text)).map(({ name }) => name)).toEqual([]);
  });
});

describe('what searches and draws lots', () => {
  /** ECMAScript leaves the last digits of these to the engine, and a comparison may hang on them. */
  const loose = /^(?:a?(?:cos|sin|tan)h?|atan2|exp|expm1|log(?:2|10|1p)?|pow|cbrt|hypot)$/;
  /** An angle of a mitre, of which ticks are made with room for the last digits. */
  const forgiving = new Set(['src/core/cutting/lengths/model.ts', 'src/core/cutting/check.ts']);
  const places = ['cutting', 'calendar/solver', 'calendar/three-point.ts', 'assembly/search.ts', 'elementary.ts'];
  function looseIn(file: string, text: string): string[] {
    const found: string[] = [];
    const visit = (node: ts.Node): void => {
      if (ts.isPropertyAccessExpression(node) && node.expression.getText() === 'Math' && loose.test(node.name.text))
        found.push(`${file}: Math.${node.name.text}`);
      // whole powers of two are exact
      const isPower =
        ts.isBinaryExpression(node) &&
        [ts.SyntaxKind.AsteriskAsteriskToken, ts.SyntaxKind.AsteriskAsteriskEqualsToken].includes(
          node.operatorToken.kind,
        );
      if (isPower && node.left.getText() !== '2') found.push(`${file}: ${node.getText()}`);
      ts.forEachChild(node, visit);
    };
    visit(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true));
    return found;
  }

  it('goes the same way on every engine', () => {
    const files = places.flatMap((place) =>
      place.endsWith('.ts')
        ? [`src/core/${place}`]
        : readdirSync(join(root, 'src/core', place), { recursive: true, encoding: 'utf8' })
            .filter((name) => /\.ts$/.test(name) && !/\.(test|testing)\.ts$/.test(name))
            .map((name) => `src/core/${place}/${name}`),
    );
    expect(files.length).toBeGreaterThan(30);
    const found = files
      .filter((file) => !forgiving.has(file))
      .flatMap((file) => looseIn(file, readFileSync(join(root, file), 'utf8')));
    expect(found).toEqual([]);
  });
  it.each(['Math.exp(x)', 'Math.hypot(x, 1)', 'const { a } = b, c = a ** 3', 'let x = 3; x **= 2', '(1 / x) ** 0.5'])(
    'would be found not to: %s',
    (text) => expect(looseIn('a.ts', text)).toHaveLength(1),
  );
  it.each(['2 ** k', 'Math.sqrt(x)', 'Math.floor(x) * x'])('lets be: %s', (text) =>
    expect(looseIn('a.ts', text)).toEqual([]),
  );
});

describe('the pages for readers', () => {
  const pages = ['README.md', 'CONTRIBUTING.md', 'bench/README.md', 'docs/formulas.md', 'docs/plan-format.md'];
  it.each(pages)('%s points at nothing that is not there', (page) => {
    const text = readFileSync(join(root, page), 'utf8');
    const targets = [...text.matchAll(/\]\(([^)#\s]+)/g)].map(([, target]) => target!);
    const here = targets.filter((target) => !/^[a-z]+:/.test(target));
    expect(here.filter((target) => !existsSync(join(root, dirname(page), target)))).toEqual([]);
  });
  it('shows a picture in the README', () => {
    expect(readFileSync(join(root, 'README.md'), 'utf8')).toMatch(/!\[[^\]]+\]\(docs\/page\.svg\)/);
  });
});

describe('the functions that the bundler is told are pure', () => {
  const config = readFileSync(join(root, 'vite.config.ts'), 'utf8');
  const names = [...(/manualPureFunctions: \[([^\]]*)\]/.exec(config)?.[1] ?? '').matchAll(/'(\w+)'/g)].map(
    ([, name]) => name!,
  );
  /** Where each is made; elsewhere it comes from there, or through the door of that folder. */
  const home: Readonly<Record<string, string>> = {
    formula: 'src/core/notes/formula.ts',
    remember: 'src/core/remember.ts',
    unit: 'src/core/quantity/dimensions.ts',
    shifted: 'src/core/quantity/dimensions.ts',
    byWord: 'src/core/stock/items.ts',
  };
  /** Calls in a file of one of the names that are not calls of the function meant: the bundler goes by the name alone. */
  function mistaken(file: string, text: string): string[] {
    // most files do not so much as name one
    if (!new RegExp(`\\b(?:${names.join('|')})\\b`).test(text)) return [];
    const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
    const called = new Set<string>();
    const made = new Map<string, string[]>();
    const visit = (node: ts.Node): void => {
      if (ts.isCallExpression(node)) {
        let callee: ts.Node = node.expression;
        while (ts.isPropertyAccessExpression(callee) || ts.isElementAccessExpression(callee))
          callee = callee.expression;
        if (ts.isIdentifier(callee) && names.includes(callee.text)) called.add(callee.text);
      }
      const own = node as { name?: ts.Node };
      const isMember = ts.isPropertyAccessExpression(node) || ts.isTypeElement(node) || ts.isClassElement(node);
      const isField = ts.isPropertyAssignment(node) || ts.isShorthandPropertyAssignment(node);
      if (own.name && ts.isIdentifier(own.name) && !isMember && !isField && names.includes(own.name.text)) {
        const from = ts.isImportSpecifier(node) ? node.parent.parent.parent.moduleSpecifier : undefined;
        const original = ts.isImportSpecifier(node) ? (node.propertyName ?? node.name).text : own.name.text;
        const place = from && ts.isStringLiteral(from) ? join(dirname(file), from.text) : file;
        made.set(own.name.text, [...(made.get(own.name.text) ?? []), original === own.name.text ? place : original]);
      }
      ts.forEachChild(node, visit);
    };
    visit(source);
    return [...called].filter((name) => {
      const right = [home[name]!, join(dirname(home[name]!), 'index.ts')];
      const places = made.get(name) ?? [];
      return places.length === 0 || places.some((place) => !right.includes(place));
    });
  }

  it('are called by these names nowhere else, where a call of another would silently be left out', () => {
    expect(names.toSorted()).toEqual(Object.keys(home).toSorted());
    const files = ['core', 'print', 'web'].flatMap((folder) =>
      readdirSync(join(root, 'src', folder), { recursive: true, encoding: 'utf8' })
        .filter((name) => /\.tsx?$/.test(name) && !/\.(test|testing)\.tsx?$/.test(name))
        .map((name) => `src/${folder}/${name}`),
    );
    const found = files.map((file) => [file, mistaken(file, readFileSync(join(root, file), 'utf8'))] as const);
    expect(found.length).toBeGreaterThan(100);
    expect(found.filter(([, calls]) => calls.length > 0)).toEqual([]);
  });
  it.each([
    ['a function of the page', "function remember() { localStorage.x = '1'; }\nremember();"],
    ['another import', "import { formula } from './mine.ts';\nformula();"],
    ['another name for something', "import { keep as remember } from '../core/remember.ts';\nremember();"],
    ['a value taken apart', 'const { unit } = randomFrom(1);\nunit();'],
    ['a parameter', "import { remember } from '../core/remember.ts';\nconst f = (remember: () => void) => remember();"],
    ['a part of one', 'const shifted = { by: () => 0 };\nshifted.by();'],
  ])('would be found: %s', (_, text) => expect(mistaken('src/web/a.ts', text)).toHaveLength(1));
  it.each([
    ['the function itself', "import { remember } from '../core/remember.ts';\nremember();"],
    ['a value that is not called', 'const unit = 1;\nexport const two = 2 * unit;'],
    ['a method', 'export const x = (a: { unit: () => number }) => a.unit();'],
  ])('lets be: %s', (_, text) => expect(mistaken('src/web/a.ts', text)).toEqual([]));
});
