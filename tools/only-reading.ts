import type { Plugin } from 'vite';

/**
 * The pages and their workers read by the schemas and never write any, and say what is wrong in our words. Left out of them is therefore:
 * what makes JSON Schemas; the schema library's own messages; what it remembers lest a value leads back into itself, for a document that does
 * is refused before a schema reads it; the formats of addresses, numbers and the like that a text may have; and of YAML the schemas but the
 * core one of 1.2, by which a plan is read, its merge keys, the folding of long lines, and its errors drawn with a pointer under the line.
 */
export const onlyReading = (): Plugin => ({
  name: 'only-reading',
  transform(code, id) {
    if (/\/zod\/v4\/locales\/en\.js$/.test(id)) return 'export default () => ({});';
    if (/\/zod\/v4\/core\/memoizer\.js$/.test(id)) return UNREMEMBERED;
    if (/\/zod\/v4\/core\/(?:json-schema-processors|to-json-schema)\.js$/.test(id)) return withoutWriters(code);
    if (/\/zod\/v4\/classic\/schemas\.js$/.test(id)) return withoutUnasked(withoutFormats(code));
    const yaml = /\/yaml\/.*\/dist\/(.*)\.js$/.exec(id)?.[1];
    return yaml === undefined ? undefined : YAML[yaml]?.(code);
  },
});

const TEXT = `(?:'(?:[^'\\\\\\n]|\\\\.)*'|"(?:[^"\\\\\\n]|\\\\.)*"|\`[^\`]*\`)`;
const DESCRIBED = new RegExp(`\\s*\\.describe\\(\\s*${TEXT},?\\s*\\)`, 'g');
const FOR = new RegExp(`(\\n {2}title: [^\\n]*\\n {2}about:)\\s*${TEXT}`, 'g');
const ABOUT = /(\babout:\s*)'((?:[^'\\\n]|\\.)*)'/g;

/**
 * Of a calculator a page shows the workings, and of what is given to it the name alone: what stands before a colon or semicolon. What the
 * calculator is for, and how to choose, is told by `reckon` on the command line and in docs/formulas.md. What a key of a plan means is read
 * from the schema's file, once something is wrong. All of this is left out before anything else has read the source.
 */
export const onlyWorkings = (): Plugin => ({
  name: 'only-workings',
  enforce: 'pre',
  transform(code, id) {
    if (/\/src\/core\/plan\/schema\/.*\.ts$/.test(id)) return code.replace(DESCRIBED, '');
    if (!/\/src\/core\/.*\.ts$/.test(id) || !/\bformula\(/.test(code)) return undefined;
    return code
      .replace(FOR, "$1 ''")
      .replace(ABOUT, (_, about: string, text: string) => `${about}'${text.split(/[:;]/)[0]}'`);
  },
});

const UNREMEMBERED = `export class $ZodCyclicError extends Error {}
export const memoizer = () => undefined, isBackEdge = () => false, isRecursiveSchema = () => true;`;

const withoutWriters = (code: string): string =>
  [...code.matchAll(/^export (?:const|function) (\w+)/gm)]
    .map(([, name]) => `export const ${name} = () => () => { throw new Error('no JSON Schema is written here'); };`)
    .join('\n');

/** In the stead of modules of the YAML library, by their paths. */
const YAML: Readonly<Record<string, (code: string) => string>> = {
  'schema/tags': () => `import { schema } from './core/schema.js';
    export const coreKnownTags = {}, getTags = () => schema.slice();`,
  'schema/yaml-1.1/merge': () => 'export const isMergeKey = () => false, addMergeToJSMap = () => undefined;',
  'stringify/foldFlowLines': () => `export const FOLD_FLOW = 'flow', FOLD_BLOCK = 'block', FOLD_QUOTED = 'quoted';
    export const foldFlowLines = (text) => text;`,
  'doc/applyReviver': () => 'export const applyReviver = () => { throw new Error("no values are revived here"); };',
  'parse/cst-visit': () => 'export const visit = () => { throw new Error("no tokens are visited here"); };',
  errors: (code) =>
    without(code, 'the drawn errors', /(?<=prettifyError = \(src, lc\) => \(error\) => )\{\n[\s\S]*?\n\}/, '{}'),
  visit: (code) => without(code, 'the visit in its own time', /^visitAsync\.\w+ = .*;$/gm, ''),
};
function without(code: string, what: string, found: RegExp, instead: string): string {
  if (code.search(found) < 0) throw new Error(`${what} of a library stand elsewhere now`);
  return code.replace(found, instead);
}

/**
 * What stands in the library, and what instead. Its writers end with an error when they are called, its formats when they are asked for; of
 * the bounds that it tells of its schemas there is then none.
 */
const FORMATS: readonly (readonly [what: string, found: RegExp, instead: string])[] = [
  [
    'the text formats',
    /(?<=\$constructor\("ZodString", \(inst, def\) => \{[^{}]*\}, )\{\n {4}email\([\s\S]*?\n\}(?=\);)/,
    '{}',
  ],
  ['the writers of JSON Schemas', /^ {4}inst\._zod\.processJSONSchema = .*;\n/gm, ''],
  ['the bounds told', /(?<=util\.derived\()\{\n[\s\S]*?\n\}(?=, \{)/g, '{}'],
  // objects are read without code that is made for each
  ['the code made for objects', /core\.\$ZodObjectJIT/g, 'core.$ZodObject'],
];
const withoutFormats = (code: string): string =>
  FORMATS.reduce((left, [what, found, instead]) => without(left, what, found, instead), code);

/**
 * What can be asked of a schema and no schema of ours is: every schema has it, and it keeps kinds of schemas that nobody makes. A schema that
 * asks for one anew ends with an error as soon as a page is opened.
 */
const UNASKED: readonly string[] = [
  ...['with', 'brand', 'register', 'overwrite', 'apply', 'readonly', 'catch', 'and', 'or', 'nullish', 'nonoptional'],
  ...['isOptional', 'isNullable', '"~standard"', 'spa', 'parseAsync', 'safeParseAsync', 'validate', 'validateAsync'],
  ...['encode', 'decode', 'encodeAsync', 'decodeAsync', 'safeEncode', 'safeDecode', 'safeEncodeAsync'],
  ...['safeDecodeAsync', 'toJSONSchema', 'includes', 'startsWith', 'endsWith', 'nonempty', 'lowercase', 'uppercase'],
  ...['normalize', 'slugify', 'toLowerCase', 'toUpperCase', 'keyof', 'catchall', 'passthrough', 'loose', 'strict'],
  ...['strip', 'safeExtend', 'merge', 'pick', 'omit', 'partial', 'exactPartial', 'required'],
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
