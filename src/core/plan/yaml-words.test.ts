import { expect, it } from 'vitest';
import { readPlan } from './read.ts';

/** What is told first of a text that is no YAML, or none for a plan, and where. */
const first = (text: string): string => {
  const { place, message, expected = '' } = readPlan(`setwright: 1\n${text}`).issues[0]!;
  return `${place?.line}:${place?.column} ${message} (${expected})`;
};

it.each([
  ['title: [a, b\nroom: x\n', /^3:1 the list opened with \[ is not closed before this \('\]'/],
  ['title: {a: b\nroom: x\n', /^3:1 the group opened with \{ is not closed/],
  ['title: {a: b\nroom: [1, 2\n', /not closed/],
  ['  title: a\n', /^1:12 the next line is set further in/],
  ['room:\n  walls:\n  - a: 1\n   b: 2\n', /^5:1 this stands between the entries of a list/],
  ['room:\n  - a\n  b: 2\n', /^4:1 the keys of this group do not begin in one column/],
  ['room:\n\twalls: 3\n', /^3:1 a line begins with a tab \(spaces\)/],
  [`title: 'it's'\n`, /^2:12 something follows the closing quote/],
  ['title: "abc\nroom: 2\n', /^2:8 a quote is opened here and never closed/],
  [`title: 'abc\n\nroom: 2\n`, /^2:8 a quote is opened here and never closed/],
  ['title: a: b\n', /^2:8 a colon with a space after it/],
  ['title: @abc\n', /^2:8 a value cannot begin with this mark \(quotes round it\)/],
  ['title: "\\q"\n', /no escape that is known/],
  ['title\nroom: 2\n', /^2:1 a key stands on one line with its colon \(key: value\)/],
  ['- a\n', /^2:1 a key stands on one line with its colon/],
  ['room: {a: 1, b: 2}}\n', /^2:19 a bracket is closed here that was not opened/],
  ['room: ]\n', /^2:7 a bracket is closed here/],
  ['room: {a: 1 b: 2}\n', /^2:11 the entries between brackets are not parted/],
  ['room: {a: 1,, b: 2}\n', /a comma too many/],
  ['---\nsetwright: 1\n', /^2:1 the file holds more than one document/],
  ['title: !paint red\n', /a plan has no tags of its own/],
  ['title: !!binary abc\n', /a plan has no tags of its own/],
])('%j', (text, told) => {
  expect(first(text)).toMatch(told);
});
