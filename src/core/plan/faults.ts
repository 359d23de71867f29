import type { z } from 'zod';
import { type Issue, nearest } from '../issue/index.ts';
import type { Path } from './document.ts';
import { formsAt, isPiece, keysOf, kindSaid, piecesOf } from './forms.ts';
import { PIECE_KINDS } from './schema/plan.ts';
import { dateMeant, dayHoursMeant, daysMeant, isDuration } from './times-said.ts';

type Fault = z.core.$ZodIssue;
/** An issue, and which part of its path it is about where that is not the value. */
export interface Told extends Issue {
  readonly at?: 'key' | 'parent';
}
interface Context {
  readonly plain: unknown;
  readonly schema: z.ZodType;
}

/** What the schema has against the document, in words for a person, with what would do and what was probably meant. */
export function explainFaults(faults: readonly Fault[], plain: unknown, schema: z.ZodType): readonly Told[] {
  const context: Context = { plain, schema };
  const issues = faults.flatMap((fault) => told(fault, [], context));
  // a key that is only misspelt is not missing too
  const meant = new Set(
    issues.flatMap((issue) =>
      issue.nearest === undefined ? [] : [pathKey([...issue.path.slice(0, -1), issue.nearest])],
    ),
  );
  return issues.filter((issue) => !(issue.at === 'parent' && meant.has(pathKey(issue.path))));
}
const pathKey = (path: Path): string => JSON.stringify(path);

function told(fault: Fault, base: Path, context: Context): readonly Told[] {
  const path = [...base, ...(fault.path as (string | number)[])];
  const value = valueAt(context.plain, path);
  if (fault.code === 'unrecognized_keys') return fault.keys.map((key) => strangeKey(path, key, context));
  if (fault.code === 'custom' && fault.params?.issue) {
    const issue = fault.params.issue as Issue;
    return [{ ...issue, path: [...path, ...issue.path] }];
  }
  if (value === undefined && path.length > 0 && fault.code !== 'invalid_key') return [missing(path, context)];
  if (value === null && !(fault.code === 'invalid_union' && isPiece(path))) return [empty(path, context)];
  switch (fault.code) {
    case 'invalid_union':
      return isPiece(path) ? pieceFaults(fault, path, value, context) : narrowed(fault, path, value, context);
    case 'invalid_type': {
      const keys = fault.expected === 'object' ? [...keysAt(path, context)] : [];
      const expected =
        ownWords(fault.message).expected ??
        (keys.length > 0 ? `keys and values among ${keys.join(', ')}` : descriptionAt(path, context));
      const near = fault.expected === 'array' ? asList(value, path, context) : undefined;
      return [
        {
          path,
          message: `this is not ${kindText(fault.expected)}`,
          found: foundText(value),
          ...(expected === undefined ? {} : { expected }),
          ...(near === undefined ? {} : { nearest: near }),
        },
      ];
    }
    case 'invalid_value': {
      const near = typeof value === 'string' ? nearest(value, fault.values.map(String)) : undefined;
      return [
        {
          path,
          message:
            fault.values.length === 1
              ? 'this has only one right value'
              : 'this is none of the words that are known here',
          found: foundText(value),
          expected: choices(fault.values),
          ...(near === undefined ? {} : { nearest: near }),
        },
      ];
    }
    case 'too_small':
    case 'too_big':
      return [{ path, message: sizeText(fault), found: foundText(value) }];
    case 'invalid_key':
      return fault.issues.flatMap((inner) =>
        told({ ...inner, path: [] } as Fault, path, { ...context, plain: keyedBy(context.plain, path) }).map(
          (issue) => ({
            ...issue,
            at: 'key' as const,
          }),
        ),
      );
    default: {
      const near = fault.code === 'invalid_format' && fault.format === 'date' ? dateMeant(String(value)) : undefined;
      return [
        { path, ...ownWords(fault.message), found: foundText(value), ...(near === undefined ? {} : { nearest: near }) },
      ];
    }
  }
}

/** One entry by itself, where a list of them is wanted. */
const asList = (value: unknown, path: Path, context: Context): string | undefined =>
  typeof value === 'string' &&
  formsAt(context.schema, context.plain, [...path, 0]).some((form) => (form as z.ZodType).safeParse(value).success)
    ? `[${value}]`
    : undefined;

/** The schema's messages are either a fact ("must be more than 0") or begin with what was expected. */
function ownWords(message: string): Pick<Issue, 'message' | 'expected'> {
  return message.startsWith('expected ')
    ? { message: 'this cannot be read', expected: message.slice('expected '.length) }
    : { message: NO_WORDS.test(message) ? 'this cannot be read' : message };
}

/** A piece is known by its first key; only what is wrong with that kind of piece is told. */
function pieceFaults(
  fault: z.core.$ZodIssueInvalidUnion,
  path: Path,
  value: unknown,
  context: Context,
): readonly Told[] {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return [
      {
        path,
        message: 'this is not a piece',
        found: foundText(value),
        expected: `a piece, begun with its kind and name: case: scores`,
      },
    ];
  const keys = Object.keys(value);
  const kind = kindSaid(value);
  if (kind >= 0) return (fault.errors[kind] ?? []).flatMap((inner) => told(inner as Fault, path, context));
  // a misspelt kind stands where the kind should: first, or wherever a key is no key of any piece
  const known = new Set(piecesOf(context.schema).flat());
  const strange = keys.find((key) => !known.has(key));
  const near = strange === undefined ? undefined : nearest(strange, PIECE_KINDS);
  return [
    {
      ...(strange === undefined ? { path } : { path: [...path, strange], at: 'key' as const }),
      message: strange === undefined ? 'this piece does not say what it is' : `'${strange}' is no kind of piece`,
      expected: choices(PIECE_KINDS),
      ...(near === undefined ? {} : { nearest: near }),
    },
  ];
}

/** Of several forms a value may take, the one it is nearest to by its own kind; the others are not what was meant. */
function narrowed(fault: z.core.$ZodIssueInvalidUnion, path: Path, value: unknown, context: Context): readonly Told[] {
  const hours = hoursFault(fault, path, value, context);
  if (hours) return [hours];
  const wrongKind = (option: readonly { readonly code: string; readonly path: readonly PropertyKey[] }[]) =>
    option.some(
      (inner) => inner.path.length === 0 && ['invalid_type', 'invalid_value', 'invalid_union'].includes(inner.code),
    );
  const options = fault.errors.filter((option) => !wrongKind(option as never));
  const share = typeof value === 'string' && value.includes('*');
  const chosen =
    options.find((option) => share && option.some((inner) => (inner as Fault).code === 'invalid_format')) ??
    options.at(-1);
  const words = fault.message.startsWith('expected ') ? ownWords(fault.message).expected! : undefined;
  if (chosen) {
    const issues = chosen.flatMap((inner) => told(inner as Fault, path, context));
    // what is no more than unreadable is told by the words for all the forms
    if (words === undefined || chosen.some((inner) => (inner as Fault).code !== 'invalid_format')) return issues;
    const near =
      literalNear(fault, value) ??
      issues[0]?.nearest ??
      (keysAt(path, context).has('from') ? daysMeant(String(value)) : undefined);
    return [
      { path, ...ownWords(fault.message), found: foundText(value), ...(near === undefined ? {} : { nearest: near }) },
    ];
  }
  const expected =
    words ??
    [...new Set(fault.errors.flatMap((option) => option.flatMap((inner) => expectedOf(inner as Fault))))].join(' or ');
  const near = literalNear(fault, value);
  return [
    {
      path,
      message: 'this is none of the forms it may take',
      found: foundText(value),
      ...(expected === '' ? {} : { expected }),
      ...(near === undefined ? {} : { nearest: near }),
    },
  ];
}

/** Hours of a day said as how long they are, or in a shape of their own: told as one thing, however many parts it has. */
function hoursFault(
  fault: z.core.$ZodIssueInvalidUnion,
  path: Path,
  value: unknown,
  context: Context,
): Told | undefined {
  if (!formsAt(context.schema, context.plain, path).some((form) => (form as z.ZodType).meta()?.id === 'DayHours'))
    return undefined;
  const near = dayHoursMeant(value);
  if (near === undefined && !isDuration(value)) return undefined;
  return {
    path,
    ...ownWords(fault.message),
    ...(near === undefined ? { message: 'this says how long, not from when to when' } : { nearest: near }),
    found: foundText(value),
  };
}

/** The word among the forms of a union that is nearest to what is written. */
function literalNear(fault: z.core.$ZodIssueInvalidUnion, value: unknown): string | undefined {
  const words = fault.errors
    .flat()
    .flatMap((inner) => ((inner as Fault).code === 'invalid_value' ? (inner as { values: unknown[] }).values : []));
  return typeof value === 'string'
    ? nearest(
        value,
        words.filter((one) => typeof one === 'string'),
      )
    : undefined;
}

function expectedOf(fault: Fault): readonly string[] {
  if (fault.code === 'invalid_type') return [kindText(fault.expected)];
  if (fault.code === 'invalid_value') return [choices(fault.values)];
  if (fault.code === 'invalid_union') {
    const { expected } = ownWords(fault.message);
    return expected === undefined
      ? fault.errors.flatMap((o) => o.flatMap((inner) => expectedOf(inner as Fault)))
      : [expected];
  }
  return [];
}

function keysAt(path: Path, context: Context): ReadonlySet<string> {
  return new Set(formsAt(context.schema, context.plain, path).flatMap(keysOf));
}
const descriptionAt = (path: Path, context: Context): string | undefined =>
  formsAt(context.schema, context.plain, path).find((form) => form.description !== undefined)?.description;

function strangeKey(path: Path, key: string, context: Context): Told {
  const here = valueAt(context.plain, path);
  if (
    /^[\d½⅓¼⅛'"]/.test(key) &&
    typeof here === 'object' &&
    here !== null &&
    (here as Record<string, unknown>)[key] === null
  )
    return {
      path: [...path, key],
      at: 'key',
      message: 'a comma parts the entries between { }, so this stands alone',
      found: `'${key}'`,
      expected: 'quotes round a value that has a comma in it',
    };
  const known = keysAt(path, context);
  const free = [...known].filter((name) => !(typeof here === 'object' && here !== null && Object.hasOwn(here, name)));
  const within = free.find((name) => keysAt([...path, name], context).has(key));
  const near = within === undefined ? (nearest(key, free) ?? nearest(key, known)) : `${within}.${key}`;
  const all = piecesOf(context.schema);
  const kinds = isPiece(path) ? PIECE_KINDS.filter((_, i) => all[i]!.includes(key)) : [];
  return {
    path: [...path, key],
    at: 'key',
    message:
      kinds.length > 0
        ? `'${key}' belongs to another kind of piece: ${choices(kinds)}`
        : `'${key}' is not a key that is known here`,
    expected: `one of ${[...known].sort().join(', ')}${near === undefined ? parted(here, key) : ''}`,
    ...(near === undefined ? {} : { nearest: near }),
  };
}

/** A key with nothing behind it may be the rest of the value before it, which has a comma and no quotes: said so, with the value that may be meant. */
function parted(here: unknown, key: string): string {
  const entries = Object.entries(here ?? {});
  const i = entries.findIndex(([name, value]) => name === key && value === null);
  const [before, value] = entries[i - 1] ?? [];
  return typeof value === 'string'
    ? `; or quotes between { }, of a value with a comma: ${before}: "${value}, ${key}"`
    : '';
}

function missing(path: Path, context: Context): Told {
  const description = descriptionAt(path, context);
  return {
    path,
    at: 'parent',
    message: `'${path.at(-1)}' is missing`,
    ...(description === undefined ? {} : { expected: description }),
  };
}

function empty(path: Path, context: Context): Told {
  const description = descriptionAt(path, context);
  return {
    path,
    message: `nothing is written here; a '#' with a space before it begins a comment, and needs quotes`,
    ...(description === undefined ? {} : { expected: description }),
  };
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of keys with values',
  record: 'a group of keys with values',
};
const kindText = (expected: string): string => KINDS[expected] ?? expected;

const choices = (values: readonly unknown[]): string => {
  const words = values.map(String);
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
};

/** The schema has no words of its own for it: the pages leave out those that come with its library. */
const NO_WORDS = /^(?:Too (?:small|big)|Invalid )/;

function sizeText(fault: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  if (!NO_WORDS.test(fault.message)) return ownWords(fault.message).expected ?? fault.message;
  const small = fault.code === 'too_small';
  const bound = small ? fault.minimum : fault.maximum;
  if (fault.origin === 'string')
    return small ? `this is shorter than ${bound} letters` : `this is longer than ${bound} letters`;
  if (fault.origin === 'array')
    return small ? `this list has fewer than ${bound} entries` : `this list has more than ${bound} entries`;
  if (small) return fault.inclusive ? `this must be at least ${bound}` : `this must be more than ${bound}`;
  return fault.inclusive ? `this must be at most ${bound}` : `this must be less than ${bound}`;
}

export function foundText(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  if (typeof value === 'string') return `'${value.length > 40 ? `${value.slice(0, 40)}…` : value}'`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') {
    const keys = Object.keys(value);
    return keys.length === 0
      ? 'an empty group'
      : `a group of keys: ${keys.slice(0, 5).join(', ')}${keys.length > 5 ? ', …' : ''}`;
  }
  return String(value);
}

export function valueAt(plain: unknown, path: Path): unknown {
  let value = plain;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** The document with the key at the path in place of its value, so that a fault of a key shows the key. */
function keyedBy(plain: unknown, path: Path): unknown {
  return replaced(plain, path, String(path.at(-1)));
}
function replaced(plain: unknown, path: Path, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  const inner = replaced(valueAt(plain, [step]), rest, value);
  return typeof step === 'number'
    ? (Array.isArray(plain) ? plain : []).toSpliced(step, 1, inner)
    : { ...(plain as object), [step]: inner };
}
