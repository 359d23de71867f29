import type { Issue } from '../issue/index.ts';

type Words = Pick<Issue, 'message' | 'expected'>;

export const TAB = 'a line begins with a tab';
const QUOTES = `quotes round the whole value: "…", with \\" for a quote inside, or '…'`;

/** What the parser has against a text, by its code and message, in the words of a person who writes plans. The first that fits. */
const WORDS: readonly (readonly [RegExp, Words])[] = [
  [/^DUPLICATE_KEY/, { message: 'this key is written twice' }],
  [/^TAB_AS_INDENT/, { message: TAB, expected: 'spaces' }],
  [/^MULTIPLE_DOCS/, { message: 'the file holds more than one document', expected: 'one plan' }],
  [/^TAG_RESOLVE_FAILED|_TAGS/, { message: 'a plan has no tags of its own', expected: 'the value without its !' }],
  [/^BAD_ALIAS|_ANCHORS|ALIAS_PROPS/, { message: 'this anchor or alias has no name that can be used' }],
  [
    /flow sequence in block.*|flow sequence and end/i,
    {
      message: 'the list opened with [ is not closed before this',
      expected: "']' at its end, or its lines set further in",
    },
  ],
  [
    /flow map in block.*|flow map and end/i,
    {
      message: 'the group opened with { is not closed before this',
      expected: "'}' at its end, or its lines set further in",
    },
  ],
  [
    /closing/,
    { message: 'a quote is opened here and never closed', expected: 'the same quote at the end of the value' },
  ],
  [
    /without - indicator/,
    {
      message: 'this stands between the entries of a list',
      expected: "'- ' before it, or the same indentation as what it belongs to",
    },
  ],
  [
    /^BAD_INDENT.*sequence items/,
    { message: 'the entries of this list do not begin in one column', expected: "each '- ' under the first" },
  ],
  [
    /^BAD_INDENT.*mapping items/,
    { message: 'the keys of this group do not begin in one column', expected: 'each key under the first' },
  ],
  [
    /^BAD_INDENT|^BAD_COLLECTION_TYPE/,
    { message: 'the indentation does not fit', expected: 'lines of one group in one column' },
  ],
  [
    /^BLOCK_AS_IMPLICIT_KEY/,
    {
      message: 'a colon with a space after it begins a value, and this has two of them',
      expected: 'quotes round a value with a colon in it',
    },
  ],
  [/^BLOCK_IN_FLOW/, { message: 'the entries between brackets are not parted', expected: 'a comma between them' }],
  [
    /Missing , |Missing , or :/,
    { message: 'the entries between brackets are not parted', expected: 'a comma between them' },
  ],
  [
    /Unexpected empty item|Unexpected , in/,
    { message: 'there is a comma too many between the brackets', expected: 'one between two entries' },
  ],
  [
    /flow-(?:map|seq)-end|Unexpected [\]}] in/,
    {
      message: 'a bracket is closed here that was not opened',
      expected: 'the one that opens it, or quotes round the value',
    },
  ],
  [
    /followed by map values|^MULTILINE_IMPLICIT_KEY|block-seq-ind/,
    { message: 'a key stands on one line with its colon', expected: 'key: value' },
  ],
  [/scalar at node end/, { message: 'something follows the closing quote', expected: QUOTES }],
  [/^BAD_SCALAR_START/, { message: 'a value cannot begin with this mark', expected: 'quotes round it' }],
  [
    /^BAD_DQ_ESCAPE/,
    {
      message: 'this is no escape that is known between double quotes',
      expected: `\\\\ for a backslash, or single quotes`,
    },
  ],
  [
    /Comments must be/,
    { message: "a comment begins with a space before its '#'", expected: "' #', or quotes round the value" },
  ],
];

const INDENTED: Words = {
  message: 'the next line is set further in, as if it belonged to this value',
  expected: 'each key of a group in one column',
};

/** A fault of the parser as an issue's words; `source` is the text from the fault on. */
export function yamlWords(
  code: string,
  message: string,
  source: string,
): Pick<Issue, 'message' | 'found' | 'expected'> {
  const [line = ''] = source.trim().split('\n');
  const shown = code === 'DUPLICATE_KEY' ? /^[^:\n]*/.exec(source)![0].trim() : line.slice(0, 40).trim();
  const isIndented = code === 'BLOCK_AS_IMPLICIT_KEY' && !/:(?:\s|$)/.test(line);
  const told = isIndented ? INDENTED : WORDS.find(([fits]) => fits.test(`${code} ${message}`))?.[1];
  return {
    ...(told ?? { message: 'this cannot be read as YAML' }),
    ...(shown !== '' && told?.message !== TAB && { found: `'${shown}'` }),
  };
}
