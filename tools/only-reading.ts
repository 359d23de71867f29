import type { Plugin } from 'vite';

/**
 * The pages and their workers read by the schemas and never write any, and say what is wrong in our words. Left out of them is therefore:
 * what makes JSON Schemas; the schema library's own messages; what it remembers lest a value leads back into itself, for a document that does
 * is refused before a schema reads it; the formats of addresses, numbers and the like that a text may have; and the kinds of values that only
 * YAML 1.1 has, for a plan is read by 1.2.
 */
export const onlyReading = (): Plugin => ({
  name: 'only-reading',
  transform(code, id) {
    if (/\/zod\/v4\/locales\/en\.js$/.test(id)) return 'export default () => ({});';
    if (/\/zod\/v4\/core\/memoizer\.js$/.test(id)) return UNREMEMBERED;
    if (/\/zod\/v4\/core\/(?:json-schema-processors|to-json-schema)\.js$/.test(id)) return withoutWriters(code);
    if (/\/zod\/v4\/classic\/schemas\.js$/.test(id)) return withoutUnasked(withoutFormats(code));
    if (/\/yaml\/.*\/schema\/yaml-1\.1\/(?!merge)\w+\.js$/.test(id)) return withoutKinds(code);
    return undefined;
  },
});

const UNREMEMBERED = `export class $ZodCyclicError extends Error {}
export const memoizer = () => undefined, isBackEdge = () => false, isRecursiveSchema = () => true;`;

const withoutWriters = (code: string): string =>
  [...code.matchAll(/^export (?:const|function) (\w+)/gm)]
    .map(([, name]) => `export const ${name} = () => () => { throw new Error('no JSON Schema is written here'); };`)
    .join('\n');

const withoutKinds = (code: string): string =>
  [...code.matchAll(/^export \{ (.*) \};/gm)]
    .flatMap(([, names]) => names!.split(', '))
    .map((name) => `export const ${name} = undefined;`)
    .join('\n');

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
  FORMATS.reduce((left, [what, found, instead]) => {
    if (left.search(found) < 0) throw new Error(`${what} of the schema library stand elsewhere now`);
    return left.replace(found, instead);
  }, code);

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
