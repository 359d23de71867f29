import { fileURLToPath } from 'node:url';
import { build, defineConfig, type Plugin, type Rolldown } from 'vite';
import { sheetCss } from './src/print/svg.ts';

/** The rules of the sheets as a style sheet of its own: the content policy allows no style inside the page. */
const sheets = (): Plugin => ({
  name: 'sheets',
  resolveId: (id) => (id === 'virtual:sheets.css' ? `\0${id}` : undefined),
  // the colours come from the page itself, which knows whether it is light or dark
  load: (id) => (id === '\0virtual:sheets.css' ? sheetCss('light').replace(/^\.sheet\{[^}]*\}/, '') : undefined),
});

/** The core is pure: a module of it that nothing is used of is left out, whatever it works out at its top. */
const TARGET = 'es2022';
const shaken = {
  treeshake: {
    manualPureFunctions: ['formula', 'remember', 'unit', 'shifted'],
    propertyReadSideEffects: false as const,
    moduleSideEffects: (id: string) => !/\/src\/(core|print)\//.test(id),
  },
};

/**
 * What the first drawing needs goes into one file, and nothing else does. Left to itself the bundler goes by who imports what, however
 * little of it: what the page and the findings share would be loaded with both. So the page is bundled once by itself, without what it
 * loads later; the modules of which something is left then are the first ones.
 */
const first = new Set<string>();
/** What the page itself names stays a file of its own. */
const ENTRY = /\/src\/web\/(?:main\.tsx|index\.html)/;
const firstFile = (): Plugin => ({
  name: 'first-file',
  apply: 'build',
  async buildStart() {
    if (first.size > 0) return;
    const alone: Plugin = {
      name: 'alone',
      resolveDynamicImport: (id) => ({ id: String(id), external: true }),
      // workers are files of their own
      transform: (code, id) => (/\/src\/web\//.test(id) ? code.replaceAll('import.meta.url', '""') : undefined),
    };
    const made = await build({
      configFile: false,
      root: fileURLToPath(new URL('src/web', import.meta.url)),
      logLevel: 'error',
      plugins: [alone, sheets(), onlyReading()],
      build: { target: TARGET, write: false, minify: false, rolldownOptions: shaken },
    });
    for (const { output } of [made].flat() as Rolldown.RolldownOutput[])
      for (const part of output)
        if (part.type === 'chunk')
          for (const [id, { code }] of Object.entries(part.modules)) if (code && !ENTRY.test(id)) first.add(id);
  },
});

/**
 * What can be asked of a schema and no schema of ours is: every schema has it, and it keeps kinds of schemas that nobody makes. A schema that
 * asks for one anew ends with an error as soon as a page is opened.
 */
const UNASKED = [
  ...['with', 'brand', 'register', 'overwrite', 'apply', 'readonly', 'catch', 'and', 'or', 'nullish', 'nonoptional'],
  ...['isOptional', 'isNullable', '"~standard"', 'spa', 'parseAsync', 'safeParseAsync', 'validate', 'validateAsync'],
  ...[
    'encode',
    'decode',
    'encodeAsync',
    'decodeAsync',
    'safeEncode',
    'safeDecode',
    'safeEncodeAsync',
    'safeDecodeAsync',
  ],
  ...[
    'toJSONSchema',
    'includes',
    'startsWith',
    'endsWith',
    'nonempty',
    'lowercase',
    'uppercase',
    'normalize',
    'slugify',
  ],
  ...[
    'toLowerCase',
    'toUpperCase',
    'keyof',
    'catchall',
    'passthrough',
    'loose',
    'strict',
    'strip',
    'safeExtend',
    'merge',
  ],
  ...['pick', 'omit', 'partial', 'exactPartial', 'required'],
];
function withoutUnasked(code: string): string {
  const left = new Set(UNASKED);
  const method =
    /^ {4}(?:async )?(?:[gs]et )?("?[~\w]+"?)(?:\([^\n]*\) \{|: (?:async )?function [^\n]*)\n[\s\S]*?^ {4}\},?\n/gm;
  const made = code.replace(method, (whole, name: string) => {
    if (!UNASKED.includes(name)) return whole;
    left.delete(name);
    return '';
  });
  if (left.size > 0) throw new Error(`of the schema library stand elsewhere now: ${[...left].join(', ')}`);
  return made;
}

/**
 * The pages and their workers read by the schemas and never write any, and say what is wrong in our words: what makes JSON Schemas of
 * them is left out, and so are the library's own messages. So is what it remembers lest a value leads back into itself: a document that
 * does is refused before it is read by a schema. So are the kinds of values that only YAML 1.1 has: a plan is read by 1.2. And so are the formats of addresses, numbers and the like a text may have: no schema asks
 * for one.
 */
const onlyReading = (): Plugin => ({
  name: 'only-reading',
  transform(code, id) {
    if (/\/zod\/v4\/locales\/en\.js$/.test(id)) return 'export default () => ({});';
    if (/\/yaml\/.*\/schema\/yaml-1\.1\/(?!merge)\w+\.js$/.test(id))
      return [...code.matchAll(/^export \{ (.*) \};/gm)]
        .flatMap(([, names]) => names!.split(', '))
        .map((name) => `export const ${name} = undefined;`)
        .join('\n');
    if (/\/zod\/v4\/core\/memoizer\.js$/.test(id))
      return 'export class $ZodCyclicError extends Error {} export const memoizer = () => undefined, isBackEdge = () => false, isRecursiveSchema = () => true;';
    if (/\/zod\/v4\/classic\/schemas\.js$/.test(id)) {
      const methods =
        /(?<=\$constructor\("ZodString", \(inst, def\) => \{[^{}]*\}, )\{\n {4}email\([\s\S]*?\n\}(?=\);)/;
      const written = /^ {4}inst\._zod\.processJSONSchema = .*;\n/gm;
      const told = /(?<=util\.derived\()\{\n[\s\S]*?\n\}(?=, \{)/g;
      for (const [what, found] of [
        ['the text formats', methods],
        ['the writers of JSON Schemas', written],
        ['the bounds told', told],
      ] as const)
        if (code.search(found) < 0) throw new Error(`${what} of the schema library stand elsewhere now`);
      const made = code.replace(methods, '{}').replace(written, '').replace(told, '{}');
      return withoutUnasked(made.replaceAll('core.$ZodObjectJIT', 'core.$ZodObject'));
    }
    if (!/\/zod\/v4\/core\/(?:json-schema-processors|to-json-schema)\.js$/.test(id)) return undefined;
    const names = [...code.matchAll(/^export (?:const|function) (\w+)/gm)].map(([, name]) => name!);
    return names
      .map((name) => `export const ${name} = () => () => { throw new Error('no JSON Schema is written here'); };`)
      .join('\n');
  },
});

/** The workbench's pages. The command line and the server are bundled by tools/build.mjs. */
export default defineConfig({
  root: 'src/web',
  base: './',
  plugins: [sheets(), onlyReading(), firstFile()],
  worker: {
    format: 'es',
    plugins: () => [onlyReading()],
    rolldownOptions: { ...shaken, checks: { pluginTimings: false } },
  },
  build: {
    target: TARGET,
    outDir: '../../dist/web',
    emptyOutDir: true,
    // no data: addresses, so that the content policy can stay strict
    assetsInlineLimit: 0,
    sourcemap: true,
    rolldownOptions: {
      ...shaken,
      checks: { pluginTimings: false },
      output: {
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [{ name: (id: string) => (first.has(id) ? 'first' : null) }],
        },
      },
    },
  },
});
