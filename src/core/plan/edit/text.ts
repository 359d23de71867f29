import {
  type Document,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { fail, type Issue, ok, type Result } from '../../issue/index.ts';
import { keyOf, MOST_CHARACTERS, type Path, YAML } from '../document.ts';
import type { Edit, PlainValue } from './edit.ts';
import { applyToPlain, lookUp } from './plain.ts';
import { flow, inKind, listItem, mapEntry } from './render.ts';

/** A replacement of characters: from `at` to `end` by `text`. */
interface Splice {
  readonly at: number;
  readonly end: number;
  readonly text: string;
}
interface Source {
  readonly text: string;
  readonly document: Document.Parsed;
  readonly plain: PlainValue;
}

/** Thrown inside this file only: the text has a form that cannot be spliced, so it is written anew by the library. */
class Unspliceable extends Error {}

/**
 * Edits on the text of a file. Only the characters of what changes are touched, so comments, quotes and spaces elsewhere stay as
 * they are; each step is read back, and one that would not mean what the edit means is written anew by the YAML library, which keeps
 * the comments but may change spaces. The inverse restores the text to the last byte, and must be applied to exactly this result.
 */
export function applyEdits(
  text: string,
  edits: readonly Edit[],
): Result<{ readonly text: string; readonly inverse: readonly Edit[] }> {
  let now = text;
  for (const edit of edits) {
    const next = applyOne(now, edit);
    if (!next.ok) return next;
    now = next.value;
  }
  return ok({ text: now, inverse: difference(now, text) });
}

/** One replacement of characters that leads from one text to the other; none when they are the same. */
export function difference(from: string, to: string): readonly Edit[] {
  if (from === to) return [];
  let head = 0;
  const most = Math.min(from.length, to.length);
  while (head < most && from[head] === to[head]) head++;
  if (isHighHalf(from, head - 1)) head--;
  let tail = 0;
  while (tail < most - head && from[from.length - 1 - tail] === to[to.length - 1 - tail]) tail++;
  if (isHighHalf(from, from.length - tail - 1) || isHighHalf(to, to.length - tail - 1)) tail--;
  tail = Math.max(0, tail);
  return [{ op: 'text', at: head, old: from.slice(head, from.length - tail), new: to.slice(head, to.length - tail) }];
}
/** The first half of a character of two code units, which must not be parted. */
const isHighHalf = (text: string, i: number): boolean => i >= 0 && /[\ud800-\udbff]/.test(text[i] ?? '');

function applyOne(text: string, edit: Edit): Result<string> {
  if (edit.op === 'text') {
    const end = edit.at + edit.old.length;
    if (text.slice(edit.at, end) !== edit.old)
      return fail({
        path: [],
        message: 'the file has changed since: other text stands where this edit was made',
        found: `'${text.slice(edit.at, end).slice(0, 40)}'`,
        expected: `'${edit.old.slice(0, 40)}'`,
      });
    return ok(text.slice(0, edit.at) + edit.new + text.slice(end));
  }
  const source = parse(text);
  if ('message' in source) return fail(source);
  const wanted = applyToPlain(source.plain, [edit]);
  if (!wanted.ok) return wanted;
  if (same(source.plain, wanted.value)) return ok(text);
  for (const attempt of [
    () => splice(text, edit, source),
    () => splice(expandAliases(source), edit),
    () => rewritten(source, edit),
    () => rewritten(parsed(expandAliases(source)), edit),
  ]) {
    try {
      const next = attempt();
      const read = parse(next);
      if (!('message' in read) && same(read.plain, wanted.value)) return ok(next);
    } catch (error) {
      if (!(error instanceof Unspliceable)) throw error;
    }
  }
  return fail({
    path: 'path' in edit ? edit.path : [],
    message: 'this cannot be changed without rewriting the file by hand',
  });
}

function parse(text: string): Source | Issue {
  if (text.length > MOST_CHARACTERS) return { path: [], message: 'the file is too large for a plan' };
  try {
    const document = parseDocument(text, {
      ...YAML,
      keepSourceTokens: true,
      prettyErrors: false,
      logLevel: 'error',
    });
    const [error] = document.errors;
    if (error) return { path: [], message: `the file is not YAML that can be edited: ${error.message}` };
    return { text, document, plain: document.toJS({ maxAliasCount: 100 }) as PlainValue };
  } catch (error) {
    return {
      path: [],
      message: `the file is not YAML that can be edited: ${error instanceof Error ? error.message : error}`,
    };
  }
}
function parsed(text: string): Source {
  const source = parse(text);
  if ('message' in source) throw new Unspliceable(source.message);
  return source;
}

export function same(a: PlainValue | undefined, b: PlainValue | undefined): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === 0 && b === 0;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every(
      (key) =>
        Object.hasOwn(b, key) && same((a as Record<string, PlainValue>)[key], (b as Record<string, PlainValue>)[key]),
    )
  );
}

function splice(text: string, edit: Edit, source: Source = parsed(text)): string {
  switch (edit.op) {
    case 'set':
      return lookUp(source.plain, edit.path) === undefined
        ? insert(source, edit.path, edit.value)
        : set(source, edit.path, edit.value);
    case 'insert':
      return insert(source, edit.path, edit.value);
    case 'remove':
      return remove(source, edit.path);
    case 'move': {
      const value = lookUp(source.plain, edit.from)!;
      const lines = linesOf(source, edit.from);
      const without = parsed(remove(source, edit.from));
      return insert(without, edit.path, value, lines);
    }
    case 'text':
      throw new Unspliceable('text edits are not spliced here');
    default:
      return edit satisfies never;
  }
}

const cut = (text: string, { at, end, text: put }: Splice): string => text.slice(0, at) + put + text.slice(end);

/** Within maps and lists only what differs is set, so that the comments inside them stay. */
function set(source: Source, path: Path, value: PlainValue): string {
  const steps = smaller(lookUp(source.plain, path)!, value, path);
  if (steps.length === 1 && steps[0]!.op === 'set' && steps[0]!.path.length === path.length)
    return cut(source.text, replacement(source, path, value));
  let text = source.text;
  for (const step of steps) {
    const next = applyOne(text, step);
    if (!next.ok) throw new Unspliceable(next.issues[0]?.message);
    text = next.value;
  }
  return text;
}

function smaller(from: PlainValue, to: PlainValue, path: Path): readonly Edit[] {
  if (same(from, to)) return [];
  const whole: readonly Edit[] = [{ op: 'set', path, value: to }];
  if (typeof from !== 'object' || typeof to !== 'object' || from === null || to === null) return whole;
  if (Array.isArray(from) !== Array.isArray(to)) return whole;
  if (Object.keys(from).length === 0 || Object.keys(to).length === 0) return whole;
  if (Array.isArray(from) && Array.isArray(to)) {
    const edits: Edit[] = [];
    const shared = Math.min(from.length, to.length);
    for (let i = 0; i < shared; i++) edits.push(...smaller(from[i], to[i], [...path, i]));
    for (let i = from.length - 1; i >= shared; i--) edits.push({ op: 'remove', path: [...path, i] });
    for (let i = shared; i < to.length; i++) edits.push({ op: 'insert', path: [...path, i], value: to[i] });
    return edits;
  }
  const [old, next] = [from, to] as [Readonly<Record<string, PlainValue>>, Readonly<Record<string, PlainValue>>];
  const kept = Object.keys(old).filter((key) => Object.hasOwn(next, key));
  if (kept.length === 0) return whole;
  return [
    ...kept.flatMap((key) => smaller(old[key]!, next[key]!, [...path, key])),
    ...Object.keys(old).flatMap((key): Edit[] =>
      Object.hasOwn(next, key) ? [] : [{ op: 'remove', path: [...path, key] }],
    ),
    ...Object.keys(next).flatMap((key): Edit[] =>
      Object.hasOwn(old, key) ? [] : [{ op: 'insert', path: [...path, key], value: next[key]! }],
    ),
  ];
}

/** Where in the text something stands: its map or list, and its number among the entries of it. */
interface Spot {
  readonly parent: YAMLMap | YAMLSeq;
  readonly index: number;
  readonly pair?: Pair;
  readonly node: Node | undefined;
}

function spotOf(source: Source, path: Path): Spot {
  let spot: Spot | undefined;
  let node: unknown = source.document.contents;
  for (const step of path) {
    if (isMap(node)) {
      const index = node.items.findIndex((pair) => keyOf(pair) === String(step));
      const pair = node.items[index];
      if (!pair) throw new Unspliceable('no such key');
      spot = { parent: node, index, pair, node: isNode(pair.value) ? pair.value : undefined };
    } else if (isSeq(node) && typeof step === 'number' && step < node.items.length) {
      const item = node.items[step];
      if (!isNode(item)) throw new Unspliceable('an entry that is a pair');
      spot = { parent: node, index: step, node: item };
    } else throw new Unspliceable('an alias, or nothing, on the way');
    node = spot.node;
  }
  if (!spot) throw new Unspliceable('the whole document');
  return spot;
}
function collectionAt(source: Source, path: Path): YAMLMap | YAMLSeq {
  const node = path.length === 0 ? source.document.contents : spotOf(source, path).node;
  if (!isMap(node) && !isSeq(node)) throw new Unspliceable('no map or list');
  return node;
}

const isFlow = (collection: YAMLMap | YAMLSeq): boolean => collection.srcToken?.type === 'flow-collection';
const isBlock = (node: Node): boolean =>
  (isScalar(node) && (node.type === 'BLOCK_FOLDED' || node.type === 'BLOCK_LITERAL')) ||
  ((isMap(node) || isSeq(node)) && !isFlow(node));

interface Token {
  readonly type: string;
  readonly offset: number;
  readonly source: string;
}
interface ItemToken {
  readonly start?: readonly Token[];
  readonly sep?: readonly Token[];
}
const itemToken = ({ parent, index }: Pick<Spot, 'parent' | 'index'>): ItemToken | undefined =>
  (parent.srcToken as { items?: readonly ItemToken[] } | undefined)?.items?.[index];

/** The end of the `:` or `-` that leads a value in. */
function leadEnd(spot: Spot): number {
  const token = itemToken(spot);
  const lead = spot.pair
    ? token?.sep?.find((part) => part.type === 'map-value-ind')
    : token?.start?.find((part) => part.type === 'seq-item-ind');
  if (!lead) throw new Unspliceable('nothing leads the value in');
  return lead.offset + lead.source.length;
}
/** Where an entry begins: its key, its dash, or its value within brackets. */
function startOf(spot: Spot): number {
  if (spot.pair) {
    const start = (spot.pair.key as Node).range?.[0];
    if (start === undefined || itemToken(spot)?.start?.some((part) => part.type === 'explicit-key-ind'))
      throw new Unspliceable('a key of an unusual form');
    return start;
  }
  if (!isFlow(spot.parent)) return leadEnd(spot) - 1;
  return spot.node!.range![0];
}
/** The end of the last visible character of an entry. */
function endOf(source: Source, spot: Spot): number {
  const { node } = spot;
  if (!node?.range || node.range[1] <= node.range[0] || (isScalar(node) && node.source === '' && node.type === 'PLAIN'))
    return isFlow(spot.parent) && spot.pair && !itemToken(spot)?.sep?.length
      ? (spot.pair.key as Node).range![1]
      : leadEnd(spot);
  return isBlock(node) ? lastVisible(source.text, node) : node.range[1];
}
/** A block ends with its last entry; comments that follow it are not its own. */
function lastVisible(text: string, node: Node): number {
  if (isMap(node) || isSeq(node)) {
    const index = node.items.length - 1;
    const last = node.items[index];
    if (last === undefined) return node.range![1];
    const inner = isMap(node) ? (last as Pair).value : last;
    return endOf({ text } as Source, {
      parent: node,
      index,
      ...(isMap(node) ? { pair: last as Pair } : {}),
      node: isNode(inner) ? inner : undefined,
    });
  }
  return text.slice(0, node.range![1]).trimEnd().length;
}

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;
/** The end of the line, before its line break. */
function lineEnd(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  if (feed < 0) return text.length;
  return text[feed - 1] === '\r' && feed - 1 >= at ? feed - 1 : feed;
}
const columnOf = (text: string, at: number): number => {
  const start = lineStart(text, at);
  return at - start - (start === 0 && text.startsWith('\ufeff') ? 1 : 0);
};
const breakOf = (text: string): string => (/\r\n/.test(text) ? '\r\n' : '\n');
const broken = (lines: string, text: string): string => lines.replaceAll('\n', breakOf(text));

function replacement(source: Source, path: Path, value: PlainValue): Splice {
  const spot = spotOf(source, path);
  const { node } = spot;
  const { text } = source;
  const end = endOf(source, spot);
  const empty = !node?.range || node.range[1] <= node.range[0];
  if (empty) {
    const key = isFlow(spot.parent) && spot.pair && !itemToken(spot)?.sep?.length;
    return { at: end, end, text: `${key ? ':' : ''} ${flow(value)}` };
  }
  if (!isBlock(node)) return { at: node.range![0], end, text: inKind(value, isScalar(node) ? node.type : undefined) };
  // a block below its key gives way to what follows the key on its line; a comment on that line stays
  const lead = leadEnd(spot);
  const firstLineEnd = lineEnd(text, lead);
  if (isScalar(node)) {
    const header = /^[|>][^\s]*/.exec(text.slice(node.range![0]))?.[0].length ?? 0;
    const comment = text.slice(node.range![0] + header, firstLineEnd);
    return { at: lead, end, text: ` ${flow(value)}${comment.trimEnd()}` };
  }
  if (node.range![0] < firstLineEnd) return { at: node.range![0], end, text: flow(value) };
  const comment = text.slice(lead, firstLineEnd);
  return { at: lead, end, text: ` ${flow(value)}${comment.trimEnd()}` };
}

function insert(source: Source, path: Path, value: PlainValue, lines?: Lines): string {
  const { text } = source;
  const parent = collectionAt(source, path.slice(0, -1));
  const step = path.at(-1)!;
  const count = parent.items.length;
  const entry = isMap(parent) ? mapEntry(String(step), value, 0) : flow(value);
  const spotAt = (index: number): Spot => {
    const item = parent.items[index];
    if (isMap(parent)) {
      const pair = item as Pair;
      return { parent, index, pair, node: isNode(pair.value) ? pair.value : undefined };
    }
    if (!isNode(item)) throw new Unspliceable('an entry that is a pair');
    return { parent, index, node: item };
  };
  const index = isMap(parent) ? count : (step as number);

  if (isFlow(parent)) {
    const short = isMap(parent) ? `${flow(String(step))}: ${flow(value)}` : entry;
    if (count === 0) {
      const open = parent.range![0] + 1;
      return cut(text, { at: open, end: open, text: short });
    }
    if (index < count) {
      const at = startOf(spotAt(index));
      return cut(text, { at, end: at, text: `${short}, ` });
    }
    const at = endOf(source, spotAt(count - 1));
    return cut(text, { at, end: at, text: `, ${short}` });
  }

  if (count === 0) throw new Unspliceable('an empty block');
  const indent = columnOf(text, startOf(spotAt(0)));
  const space = ' '.repeat(indent);
  const made = lines
    ? reindented(lines, indent)
    : isMap(parent)
      ? mapEntry(String(step), value, indent)
      : listItem(value, indent);
  if (index === 0) {
    const at = startOf(spotAt(0));
    return cut(text, { at, end: at, text: broken(`${made}\n${space}`, text) });
  }
  const at = lineEnd(text, endOf(source, spotAt(index - 1)));
  return cut(text, { at, end: at, text: broken(`\n${space}${made}`, text) });
}

function remove(source: Source, path: Path): string {
  const { text } = source;
  const spot = spotOf(source, path);
  const { parent, index } = spot;
  const count = parent.items.length;
  if (isFlow(parent)) return cut(text, flowRemoval(source, spot));
  if (count === 1) {
    const around = path.slice(0, -1);
    if (around.length === 0) throw new Unspliceable('the last key of the document');
    return cut(text, replacement(source, around, isMap(parent) ? {} : []));
  }
  const start = startOf(spot);
  const end = lineEnd(text, endOf(source, spot));
  const before = lineStart(text, start);
  const alone = /^\ufeff?\s*$/.test(text.slice(before, start));
  if (alone) {
    const from = text[before] === '\ufeff' ? before + 1 : before;
    const next = afterBreak(text, end);
    return next > end
      ? cut(text, { at: from, end: next, text: '' })
      : cut(text, { at: lineEnd(text, Math.max(0, before - (text[before - 2] === '\r' ? 2 : 1))), end, text: '' });
  }
  // the first of its kind stands behind a dash or a key on the same line: the next one moves up to it
  const nextSpot = spotOf(source, [
    ...path.slice(0, -1),
    isMap(parent) ? keyOf(parent.items[index + 1] as Pair)! : index + 1,
  ]);
  const next = startOf(nextSpot);
  const between = text.slice(end, next);
  return between.trim() === ''
    ? cut(text, { at: start, end: next, text: '' })
    : cut(text, { at: start, end, text: '' });
}
function afterBreak(text: string, at: number): number {
  if (text.startsWith('\r\n', at)) return at + 2;
  return text[at] === '\n' ? at + 1 : at;
}

function flowRemoval(source: Source, spot: Spot): Splice {
  const { text } = source;
  const { parent, index } = spot;
  const count = parent.items.length;
  const start = startOf(spot);
  const end = endOf(source, spot);
  if (index < count - 1) {
    const comma = itemToken({ parent, index: index + 1 })?.start?.find((part) => part.type === 'comma');
    if (!comma) throw new Unspliceable('no comma');
    // what stands between the value and its comma is a comment or nothing
    if (text.slice(end, comma.offset).trim() !== '') throw new Unspliceable('a comment before the comma');
    let next = comma.offset + 1;
    while (text[next] === ' ') next++;
    return { at: start, end: next, text: '' };
  }
  if (index > 0) {
    const comma = itemToken({ parent, index })?.start?.find((part) => part.type === 'comma');
    if (!comma) throw new Unspliceable('no comma');
    if (text.slice(comma.offset + 1, start).trim() !== '') throw new Unspliceable('a comment after the comma');
    return { at: comma.offset, end, text: '' };
  }
  const after = itemToken({ parent, index: 1 })?.start?.find((part) => part.type === 'comma');
  return { at: start, end: after ? after.offset + 1 : end, text: '' };
}

/** The lines of a list entry as they are, with its comments, to be put elsewhere. Undefined when it does not stand on lines of its own. */
interface Lines {
  readonly indent: number;
  readonly text: string;
}
function linesOf(source: Source, path: Path): Lines | undefined {
  const { text } = source;
  const spot = spotOf(source, path);
  if (spot.pair || isFlow(spot.parent)) return undefined;
  const start = startOf(spot);
  if (text.slice(lineStart(text, start), start).trim() !== '') return undefined;
  return {
    indent: columnOf(text, start),
    text: text.slice(start, lineEnd(text, endOf(source, spot))).replaceAll('\r\n', '\n'),
  };
}
function reindented({ indent, text }: Lines, to: number): string {
  return text
    .split('\n')
    .map((line, i) =>
      i === 0 || line.trim() === ''
        ? line
        : ' '.repeat(Math.max(0, /^ */.exec(line)![0].length + to - indent)) + line.trimStart(),
    )
    .join('\n');
}

/** Each alias written out, so that a change at one place does not change others. */
function expandAliases({ text, document }: Source): string {
  const splices: Splice[] = [];
  visit(document, {
    Alias(_key, alias) {
      splices.push({ at: alias.range![0], end: alias.range![1], text: flow(alias.toJS(document) as PlainValue) });
    },
  });
  if (splices.length === 0) throw new Unspliceable('no aliases');
  return splices.sort((a, b) => b.at - a.at).reduce(cut, text);
}

/** The last resort: the library changes its own document and writes it anew, comments kept, spaces as it likes. */
function rewritten({ document: original }: Source, edit: Edit): string {
  const document = original.clone() as Document.Parsed;
  const change = (one: Edit): void => {
    switch (one.op) {
      case 'set':
        if (one.path.length === 0) document.contents = document.createNode(one.value) as never;
        else document.setIn(one.path, document.createNode(one.value));
        return;
      case 'remove':
        document.deleteIn(one.path);
        return;
      case 'insert': {
        const step = one.path.at(-1);
        const parent = one.path.length === 1 ? document.contents : document.getIn(one.path.slice(0, -1), true);
        if (isSeq(parent) && typeof step === 'number')
          parent.items.splice(step, 0, document.createNode(one.value) as never);
        else document.setIn(one.path, document.createNode(one.value));
        return;
      }
      case 'move': {
        const node = document.getIn(one.from, true);
        document.deleteIn(one.from);
        change({ op: 'insert', path: one.path, value: null });
        document.setIn(one.path, node);
        return;
      }
      case 'text':
        throw new Unspliceable('text');
      default:
        one satisfies never;
    }
  };
  try {
    change(edit);
    return document.toString({ lineWidth: 0, flowCollectionPadding: false });
  } catch (error) {
    throw new Unspliceable(String(error));
  }
}
