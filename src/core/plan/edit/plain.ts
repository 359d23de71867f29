import { fail, type Issue, ok, type Result } from '../../issue/index.ts';
import type { Path } from '../document.ts';
import type { Edit, PlainValue } from './edit.ts';

type Fields = { readonly [key: string]: PlainValue };
const isFields = (value: PlainValue | undefined): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isList = (value: PlainValue | undefined): value is readonly PlainValue[] => Array.isArray(value);

/** Edits on plain data: a new value that shares with the old one whatever was not touched. `text` edits do not belong here. */
export function applyToPlain(plain: PlainValue, edits: readonly Edit[]): Result<PlainValue> {
  let value = plain;
  for (const edit of edits) {
    const next = applyOne(value, edit);
    if (!next.ok) return next;
    value = next.value;
  }
  return ok(value);
}

function applyOne(plain: PlainValue, edit: Edit): Result<PlainValue> {
  switch (edit.op) {
    case 'set':
      return edit.path.length === 0
        ? ok(edit.value)
        : at(plain, edit.path, [], (parent, step) => setIn(parent, step, edit.value));
    case 'insert':
      return at(plain, edit.path, [], (parent, step) => insertIn(parent, step, edit.value));
    case 'remove':
      return at(plain, edit.path, [], removeIn);
    case 'move': {
      const value = lookUp(plain, edit.from);
      if (value === undefined) return fail(wrong(edit.from, 'there is nothing here to move'));
      const taken = at(plain, edit.from, [], removeIn);
      if (!taken.ok) return taken;
      return at(taken.value, edit.path, [], (parent, step) => insertIn(parent, step, value));
    }
    case 'text':
      return fail(wrong([], 'an edit of the text does not apply to plain data'));
    default:
      return edit satisfies never;
  }
}

/** What stands at the path; undefined when nothing does. */
export function lookUp(plain: PlainValue, path: Path): PlainValue | undefined {
  let value: PlainValue | undefined = plain;
  for (const step of path) {
    if (isList(value) && typeof step === 'number') value = value[step];
    else if (isFields(value) && Object.hasOwn(value, step)) value = value[step];
    else return undefined;
  }
  return value;
}

const wrong = (path: Path, message: string): Issue => ({ path, message });
type Change = (parent: Fields | readonly PlainValue[], step: string | number) => PlainValue | string;

function at(value: PlainValue, path: Path, before: Path, change: Change): Result<PlainValue> {
  const [step, ...rest] = path;
  if (step === undefined) return fail(wrong(before, 'the whole document has no place to be put into or taken from'));
  if (!isFields(value) && !isList(value)) return fail(wrong(before, 'neither keys nor a list stand here'));
  if (isList(value) !== (typeof step === 'number'))
    return fail(wrong([...before, step], isList(value) ? 'a list counts its entries' : 'a map goes by names'));
  if (rest.length === 0) {
    const changed = change(value, step);
    return typeof changed === 'string' ? fail(wrong([...before, step], changed)) : ok(changed);
  }
  const inner = lookUp(value, [step]);
  if (inner === undefined) return fail(wrong([...before, step], 'there is nothing here'));
  const changed = at(inner, rest, [...before, step], change);
  return changed.ok ? ok(put(value, step, changed.value)) : changed;
}

const put = (parent: Fields | readonly PlainValue[], step: string | number, value: PlainValue): PlainValue =>
  isList(parent) ? parent.with(step as number, value) : withKey(parent, String(step), value);
const withKey = (parent: Fields, key: string, value: PlainValue): Fields => {
  const entries = Object.entries(parent);
  const i = entries.findIndex(([name]) => name === key);
  return Object.fromEntries(i < 0 ? [...entries, [key, value]] : entries.with(i, [key, value]));
};

const setIn = (
  parent: Fields | readonly PlainValue[],
  step: string | number,
  value: PlainValue,
): PlainValue | string => {
  if (!isList(parent)) return withKey(parent, String(step), value);
  const i = step as number;
  return Number.isInteger(i) && i >= 0 && i < parent.length
    ? parent.with(i, value)
    : `the list has ${parent.length} entries`;
};

function insertIn(
  parent: Fields | readonly PlainValue[],
  step: string | number,
  value: PlainValue,
): PlainValue | string {
  if (isList(parent)) {
    const i = step as number;
    return Number.isInteger(i) && i >= 0 && i <= parent.length
      ? parent.toSpliced(i, 0, value)
      : `the list has ${parent.length} entries`;
  }
  return Object.hasOwn(parent, step) ? 'something stands here already' : withKey(parent, String(step), value);
}

function removeIn(parent: Fields | readonly PlainValue[], step: string | number): PlainValue | string {
  if (isList(parent)) {
    const i = step as number;
    return Number.isInteger(i) && i >= 0 && i < parent.length
      ? parent.toSpliced(i, 1)
      : `the list has ${parent.length} entries`;
  }
  if (!Object.hasOwn(parent, step)) return 'there is nothing here';
  return Object.fromEntries(Object.entries(parent).filter(([key]) => key !== String(step)));
}
