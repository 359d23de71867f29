import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { cruise } from 'dependency-cruiser';
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
