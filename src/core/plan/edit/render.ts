import { Document, Scalar, YAMLSeq } from 'yaml';
import { YAML } from '../document.ts';
import type { PlainValue } from './edit.ts';

const STYLE = { lineWidth: 0, flowCollectionPadding: false } as const;
type Fields = { readonly [key: string]: PlainValue };

const isFields = (value: PlainValue): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A value on one line, as it may stand within brackets: `{width: 20", door: left}`. Quoted where plain text would be misread. */
export function flow(value: PlainValue): string {
  if (isFields(value))
    return `{${Object.entries(value)
      .map(([key, item]) => `${flow(key)}: ${flow(item)}`)
      .join(', ')}}`;
  if (typeof value === 'object' && value !== null) return `[${(value as readonly PlainValue[]).map(flow).join(', ')}]`;
  // JSON's quoted text is YAML's, and stays on its line
  if (typeof value === 'string' && /\p{Cc}|\p{Cs}|[\u2028\u2029]/u.test(value)) return JSON.stringify(value);
  const list = new YAMLSeq();
  list.flow = true;
  list.items.push(new Scalar(value));
  return new Document(list, YAML).toString(STYLE).trim().slice(1, -1);
}

/** A text in the quotes that stood there before, where it had any. */
export function inKind(value: PlainValue, before: string | undefined): string {
  if (
    typeof value !== 'string' ||
    /\p{Cc}/u.test(value) ||
    (before !== Scalar.QUOTE_DOUBLE && before !== Scalar.QUOTE_SINGLE)
  )
    return flow(value);
  const scalar = new Scalar(value);
  scalar.type = before;
  const text = new Document(scalar, YAML).toString(STYLE).trim();
  return text.includes('\n') ? flow(value) : text;
}

const LONGEST_LINE = 110;

/** What follows `key:` or `-` at this indentation: on the same line where it fits, else as lines below. Lines are parted by `\n`. */
export function valueAfter(value: PlainValue, indent: number, used: number): string {
  const short = flow(value);
  const bare = typeof value !== 'object' || value === null;
  const empty = !bare && Object.keys(value).length === 0;
  if (bare || empty || used + 1 + short.length <= LONGEST_LINE) return ` ${short}`;
  return `\n${block(value, indent)}`;
}

/** A map or list as lines at this indentation. */
export function block(value: Fields | readonly PlainValue[], indent: number): string {
  const space = ' '.repeat(indent);
  if (!isFields(value))
    return (value as readonly PlainValue[]).map((item) => space + listItem(item, indent)).join('\n');
  return Object.entries(value)
    .map(([key, item]) => space + mapEntry(key, item, indent))
    .join('\n');
}

/** `key: value`, its first line without indentation. */
export function mapEntry(key: string, value: PlainValue, indent: number): string {
  const name = flow(key);
  return `${name}:${valueAfter(value, indent + 2, indent + name.length + 1)}`;
}

/** `- value`, its first line without indentation. */
export function listItem(value: PlainValue, indent: number): string {
  const short = flow(value);
  const long = typeof value === 'object' && value !== null && indent + 2 + short.length > LONGEST_LINE;
  return `- ${long ? block(value as Fields, indent + 2).trimStart() : short}`;
}
