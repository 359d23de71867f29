import { PIECE_KINDS, type PlainValue } from '../plan/index.ts';
import { weave } from './sequences.ts';

export type PlainMerge = { readonly clean: true; readonly value: PlainValue } | { readonly clean: false };

const CLASH: PlainMerge = { clean: false };
type Fields = { readonly [key: string]: PlainValue };
type Maybe = PlainValue | undefined;

/** Both changes of plain data in one: maps by key, lists by the names of their entries. The same value changed twice is a clash. */
export function mergePlain(base: PlainValue, mine: PlainValue, theirs: PlainValue): PlainMerge {
  return merged(base, mine, theirs) as PlainMerge;
}

/** A value that is left out is `undefined`: taken away on one side and untouched on the other, it stays away. */
function merged(base: Maybe, mine: Maybe, theirs: Maybe): { readonly clean: true; readonly value: Maybe } | PlainMerge {
  if (samePlain(mine, theirs) || samePlain(base, mine)) return { clean: true, value: theirs };
  if (samePlain(base, theirs)) return { clean: true, value: mine };
  if (isFields(mine) && isFields(theirs) && (isFields(base) || base === undefined)) {
    // a piece, a wall or a case made anew by both is two things, not one with the fields of both
    if (base === undefined) return CLASH;
    return mergedFields(base, mine, theirs);
  }
  if (Array.isArray(base) && Array.isArray(mine) && Array.isArray(theirs)) return mergedLists(base, mine, theirs);
  return CLASH;
}

function mergedFields(base: Fields, mine: Fields, theirs: Fields): PlainMerge {
  const fields: [string, PlainValue][] = [];
  for (const key of new Set([...Object.keys(theirs), ...Object.keys(mine)])) {
    const one = merged(own(base, key), own(mine, key), own(theirs, key));
    if (!one.clean) return CLASH;
    if (one.value !== undefined) fields.push([key, one.value]);
  }
  return { clean: true, value: Object.fromEntries(fields) };
}

function mergedLists(
  base: readonly PlainValue[],
  mine: readonly PlainValue[],
  theirs: readonly PlainValue[],
): PlainMerge {
  const names = [base, mine, theirs].map((list) => list.map(nameOfEntry));
  if (names.every((list) => list.every((name) => name !== undefined) && new Set(list).size === list.length))
    return mergedByName(base, mine, theirs, names as string[][]);
  if (base.length === mine.length && base.length === theirs.length) {
    const items: PlainValue[] = [];
    for (let i = 0; i < base.length; i++) {
      const one = mergePlain(base[i]!, mine[i]!, theirs[i]!);
      if (!one.clean) return CLASH;
      items.push(one.value);
    }
    return { clean: true, value: items };
  }
  const [b, m, t] = [base, mine, theirs].map((list) => list.map((item) => JSON.stringify(item)));
  const woven = weave(b!, m!, t!);
  if (woven.collisions.length > 0) return CLASH;
  return { clean: true, value: woven.merged.map((item) => JSON.parse(item) as PlainValue) };
}

function mergedByName(
  base: readonly PlainValue[],
  mine: readonly PlainValue[],
  theirs: readonly PlainValue[],
  [inBase, inMine, inTheirs]: readonly (readonly string[])[],
): PlainMerge {
  const woven = weave(inBase!, inMine!, inTheirs!);
  if (woven.collisions.length > 0 || new Set(woven.merged).size !== woven.merged.length) return CLASH;
  const values = [base, mine, theirs].map((list, side) => {
    const names = [inBase!, inMine!, inTheirs!][side]!;
    return new Map(list.map((item, i) => [names[i]!, item]));
  });
  const items: PlainValue[] = [];
  for (const name of new Set([...woven.merged, ...inBase!])) {
    const one = merged(values[0]!.get(name), values[1]!.get(name), values[2]!.get(name));
    if (!one.clean) return CLASH;
    if ((one.value !== undefined) !== woven.merged.includes(name)) return CLASH;
    if (one.value !== undefined) items.push(one.value);
  }
  return { clean: true, value: items };
}

/** What an entry of a list is known by: its id, or the name of a piece. */
function nameOfEntry(item: PlainValue): string | undefined {
  if (!isFields(item)) return undefined;
  for (const key of ['id', ...PIECE_KINDS]) {
    const name = own(item, key);
    if (typeof name === 'string' || typeof name === 'number') return `${key} ${name}`;
  }
  return undefined;
}

const isFields = (value: Maybe): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const own = (fields: Fields, key: string): Maybe => (Object.hasOwn(fields, key) ? fields[key] : undefined);

/** The same data; the order of keys does not matter. */
export function samePlain(a: Maybe, b: Maybe): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === 0 && b === 0;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && samePlain(own(a as Fields, key), own(b as Fields, key)))
  );
}
