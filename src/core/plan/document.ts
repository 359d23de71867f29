import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  visit,
} from 'yaml';
import type { Issue } from '../issue/index.ts';
import { TAB, yamlWords } from './yaml-words.ts';

/**
 * Read by YAML 1.2 whatever version a file says it is in: a reader of 1.2 is to read files of 1.1 too (YAML 1.2.2, 6.8.1), and by its own
 * rules nobody's `on` is no text and no date is a number of seconds. Of its kinds of values those of JSON, and no other.
 */
export const YAML = { version: '1.2', schema: 'core', resolveKnownTags: false } as const;

export type Path = readonly (string | number)[];
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** A plan file as text, as plain data, and the way from a path in the one to a place in the other. */
export interface PlanDocument {
  readonly text: string;
  /** Maps, lists and scalars as written; undefined when the text is no YAML. */
  readonly plain: unknown;
  /**
   * Where the value at the path stands, 1-based; `key` asks for the key that names it. A path that the text does not have
   * (a missing key, a default, a migrated key) gives the nearest thing around it.
   */
  readonly place: (path: Path, what?: 'value' | 'key') => Place | undefined;
}

/** Larger than any plan, small enough to be read at once. */
export const MOST_CHARACTERS = 1_000_000;
const MOST_DEPTH = 60;
const MOST_ALIASES = 100;

/** Reads YAML 1.2 into plain data. Everything that is not plain, safe and of reasonable size is an issue, never a throw. */
export function readDocument(text: string): { readonly document: PlanDocument; readonly issues: readonly Issue[] } {
  const nothing = (...issues: Issue[]) => ({ document: { text, plain: undefined, place: () => undefined }, issues });
  if (text.length > MOST_CHARACTERS)
    return nothing({
      path: [],
      message: 'the file is too large for a plan',
      found: `${text.length} characters`,
      expected: `at most ${MOST_CHARACTERS}`,
    });
  if (text.replace(/^\uFEFF/, '').trim() === '')
    return nothing({ path: [], message: 'the file is empty', expected: 'a plan' });
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  const binary = /[\0-\x08\x0b\x0c\x0e-\x1f\ufffe]/.exec(text);
  if (binary)
    return nothing({
      path: [],
      place: placeAt(text, binary.index),
      message: 'the file is not text',
      found: `the character U+${binary[0].charCodeAt(0).toString(16).padStart(4, '0').toUpperCase()}`,
      expected: 'YAML in UTF-8',
    });
  const lost = text.indexOf('\ufffd');
  if (lost >= 0)
    return nothing({
      path: [],
      place: placeAt(text, lost),
      message: 'a letter here is not UTF-8, and was lost on the way in',
      expected: 'the file saved as UTF-8',
    });
  const deep = tooDeep(text);
  if (deep !== undefined)
    return nothing({
      path: [],
      place: placeAt(text, deep),
      message: 'the brackets are nested too deep for a plan',
      expected: `at most ${MOST_DEPTH} levels`,
    });

  const counter = new LineCounter();
  let parsed: Document.Parsed;
  try {
    parsed = parseDocument(text, { ...YAML, lineCounter: counter, prettyErrors: false, logLevel: 'error' });
  } catch (error) {
    return nothing({ path: [], message: `the file cannot be read as YAML: ${reason(error)}` });
  }
  const placeOf = (offset: number): Place => {
    const { line, col } = counter.linePos(Math.min(offset, text.length));
    return { line, column: col };
  };
  const faults = [...parsed.errors, ...parsed.warnings].map(({ code, message, pos }) => {
    const from = /closing/.test(message) ? openedAt(parsed, pos[0]) : pos[0];
    return { path: [], place: placeOf(from), ...yamlWords(code, message, text.slice(from, from + 200)) };
  });
  // what else does not fit on a line follows from the first fault there
  const lines = new Set<number>();
  const issues: Issue[] = faults.filter(({ place }) => !lines.has(place.line) && lines.add(place.line));
  const usable = parsed.errors.every((error) => error.code === 'DUPLICATE_KEY');
  if (!usable) {
    // a tab throws everything after it out of line: what follows from it is no fault of its own
    const tabs = parsed.errors.some((error) => error.code === 'TAB_AS_INDENT')
      ? issues.filter((issue) => issue.message === TAB)
      : issues;
    return nothing(...tabs);
  }

  const odd = oddities(parsed, placeOf);
  issues.push(...odd.issues);
  if (odd.endless) return nothing(...issues);
  let plain: unknown;
  try {
    plain = parsed.toJS({ maxAliasCount: MOST_ALIASES });
  } catch (error) {
    // the parser counts what aliases repeat, and stops before they fill the memory
    const why = /alias count/i.test(reason(error)) ? 'they repeat one another without measure' : reason(error);
    return nothing(...issues, { path: [], message: `the aliases of the file cannot be followed: ${why}` });
  }
  if (depthOf(plain, new Map()) > MOST_DEPTH)
    return nothing(...issues, {
      path: [],
      message: 'the file is nested too deep for a plan',
      expected: `at most ${MOST_DEPTH} levels`,
    });
  if (plain === null || typeof plain !== 'object' || Array.isArray(plain))
    return nothing(...issues, {
      path: [],
      place: placeOf(parsed.contents?.range?.[0] ?? 0),
      message: 'the file is not a plan',
      found: Array.isArray(plain) ? 'a list' : 'a single value',
      expected: 'keys such as setwright, units, room and options',
    });
  const place = (path: Path, what: 'value' | 'key' = 'value'): Place | undefined => {
    const offset = offsetOf(parsed, path, what);
    return offset === undefined ? undefined : placeOf(offset);
  };
  return { document: { text, plain, place }, issues };
}

function placeAt(text: string, offset: number): Place {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length, column: before.at(-1)!.length + 1 };
}

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/**
 * Where brackets or dashes are opened deeper than a plan ever needs, seen without parsing, since the parser recurses. Brackets in
 * quoted text and comments are counted too: at this depth it makes no difference to an honest file. Within brackets nothing nests
 * by dashes or colons, however many stand on one line: a whole plan may, as JSON.
 */
function tooDeep(text: string): number | undefined {
  let depth = 0;
  let dashes = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (c === '[' || c === '{') depth++;
    else if (c === ']' || c === '}') depth = Math.max(0, depth - 1);
    if (depth === 0 && (c === '-' || c === '?' || c === ':') && /\s/.test(text[i + 1] ?? ' ')) dashes++;
    else if (c === '\n') dashes = 0;
    if (depth > 10 * MOST_DEPTH || dashes > 10 * MOST_DEPTH) return i;
  }
  return undefined;
}

/**
 * What YAML allows and a plan does not: keys that are no names, merge keys, keys that reach behind an object, aliases that lead
 * nowhere or into themselves, great depth. After the last two the document cannot be made plain, which `endless` says.
 */
function oddities(
  parsed: Document.Parsed,
  placeOf: (offset: number) => Place,
): { readonly issues: readonly Issue[]; readonly endless: boolean } {
  interface Step {
    readonly node: unknown;
    readonly path: Path;
    readonly within: Step | undefined;
  }
  const issues: Issue[] = [];
  let endless = false;
  const stack: Step[] = [{ node: parsed.contents, path: [], within: undefined }];
  for (let step = stack.pop(); step; step = stack.pop()) {
    const { node, path } = step;
    const at = placed((node as Node | null)?.range?.[0], placeOf);
    // the plain kinds have none written beside them: what has one may be anything, bytes for instance
    const tag = isAlias(node) ? undefined : (node as Node | null)?.tag;
    const refuse = (message: string, expected: string) => {
      endless = true;
      issues.push({ path, ...at, message, expected });
    };
    if (tag !== undefined && !PLAIN_TAGS.test(tag)) refuse('a plan has no tags of its own', 'the value without its !');
    else if (path.length > MOST_DEPTH) refuse('this is nested too deep for a plan', `at most ${MOST_DEPTH} levels`);
    else if (isAlias(node)) {
      const target = node.resolve(parsed);
      if (!target) refuse(`the alias *${node.source} leads nowhere`, `an anchor &${node.source} before it`);
      for (let around = step.within; target && around; around = around.within)
        if (around.node === target) refuse(`the alias *${node.source} leads back into itself`, 'a value that ends');
    } else if (isMap(node)) {
      for (const pair of node.items) {
        const key = keyOf(pair);
        const here = { path, ...placed((pair.key as Node | null)?.range?.[0], placeOf) };
        if (key === undefined) issues.push({ ...here, message: 'a key is not a name', expected: 'text or a number' });
        else if (key === '__proto__') issues.push({ ...here, message: `no part of a plan is called '__proto__'` });
        else if (key === '<<')
          issues.push({
            ...here,
            message: `merge keys are not part of YAML 1.2, and '<<' is no key of a plan`,
            expected: 'the keys written out, or an alias for a whole value',
          });
        stack.push({ node: pair.value, path: [...path, key ?? ''], within: step });
      }
    } else if (isSeq(node)) {
      node.items.forEach((item, i) => {
        stack.push({ node: item, path: [...path, i], within: step });
      });
    }
  }
  return { issues, endless };
}

/** Where the quoted value begins that runs on to this place. */
function openedAt(parsed: Document.Parsed, end: number): number {
  let from = end;
  visit(parsed, {
    Scalar(_, { type, range }) {
      if (type?.startsWith('QUOTE') && range && range[0] < end && range[1] >= end) from = range[0];
    },
  });
  return from;
}

const PLAIN_TAGS = /^!$|:(?:str|int|float|bool|null|map|seq)$/;

/** Levels of maps and lists. What an alias repeats is the same object again, and is measured once. */
function depthOf(value: unknown, known: Map<object, number>): number {
  if (typeof value !== 'object' || value === null) return 0;
  const before = known.get(value);
  if (before !== undefined) return before;
  let most = 0;
  for (const inner of Object.values(value)) most = Math.max(most, depthOf(inner, known));
  known.set(value, most + 1);
  return most + 1;
}
const placed = (offset: number | undefined, placeOf: (offset: number) => Place): { place?: Place } =>
  offset === undefined ? {} : { place: placeOf(offset) };

export function keyOf(pair: Pair): string | undefined {
  const { key } = pair;
  if (!isScalar(key)) return undefined;
  return typeof key.value === 'string' || typeof key.value === 'number' ? String(key.value) : undefined;
}

function offsetOf(parsed: Document.Parsed, path: Path, what: 'value' | 'key'): number | undefined {
  let node: unknown = parsed.contents;
  let offset: number | undefined;
  for (let i = 0; i <= path.length; i++) {
    // an alias is a place too, but what is wrong stands at its anchor once the path goes inside it
    const here = (node as Node | null)?.range?.[0];
    if (here !== undefined) offset = here;
    if (i === path.length) break;
    if (isAlias(node)) node = node.resolve(parsed);
    const step = path[i]!;
    if (isMap(node)) {
      const pair = node.items.find((candidate) => keyOf(candidate) === String(step));
      if (!pair) break;
      const key = (pair.key as Node).range?.[0];
      if (key !== undefined) offset = key;
      if (i === path.length - 1 && what === 'key') break;
      node = pair.value;
    } else if (isSeq(node) && typeof step === 'number' && step < node.items.length) {
      node = node.items[step];
    } else break;
  }
  return offset;
}
