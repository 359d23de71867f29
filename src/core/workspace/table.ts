import { fail, type Issue, nearest, ok, type Result } from '../issue/index.ts';

/** Larger than any price list a shop keeps. */
const MOST_CHARACTERS = 1_000_000;
const MOST_ROWS = 5_000;
const MOST_CELL = 500;

export interface Row {
  /** 1-based, in the text. */
  readonly line: number;
  /** Trimmed; an empty text where the row ends early. */
  readonly cells: Readonly<Record<string, string>>;
}

/**
 * Rows as text: RFC 4180, lines ended by CR LF. A cell that a spreadsheet would take for a formula gets an apostrophe before it, which
 * `readTable` takes away again.
 */
export function writeTable(columns: readonly string[], rows: readonly Readonly<Record<string, string>>[]): string {
  const cell = (text: string): string => {
    const plain = /^'*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
    return /[",;\t\r\n]|^\s|\s$/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
  };
  return [columns, ...rows.map((row) => columns.map((column) => row[column] ?? ''))]
    .map((cells) => `${cells.map(cell).join(',')}\r\n`)
    .join('');
}

/**
 * A table with a first row that names its columns, parted by commas, semicolons or tabs (what a spreadsheet puts on the clipboard).
 * The names may stand in any order and case; `needed` ones must be there. All of it is read, or none.
 */
export function readTable(text: string, columns: readonly string[], needed: readonly string[]): Result<readonly Row[]> {
  if (text.length > MOST_CHARACTERS)
    return fail(wrong(undefined, 'the table is too large', `${text.length} characters`, `at most ${MOST_CHARACTERS}`));
  const lost = text.indexOf('\ufffd');
  if (lost >= 0)
    return fail(
      wrong(
        text.slice(0, lost).split('\n').length,
        'a letter here is not UTF-8, and was lost on the way in',
        undefined,
        'the table saved as UTF-8',
      ),
    );
  const body = text.replace(/^\uFEFF/, '');
  const records = split(body, separatorOf(body));
  if (!records.ok) return records;
  const [head, ...rest] = records.value.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  if (!head) return fail(wrong(undefined, 'the table is empty', undefined, `columns such as ${columns.join(', ')}`));
  if (rest.length > MOST_ROWS)
    return fail(wrong(undefined, 'the table has too many rows', `${rest.length}`, `at most ${MOST_ROWS}`));

  const names = head.cells.map((cell) => cell.trim().toLowerCase());
  // the row that names them was not copied along
  if (!names.some((name) => columns.includes(name) || nearest(name, columns) !== undefined))
    return fail(
      wrong(
        head.line,
        'the first row does not name the columns',
        `'${head.cells.join(' ').trim().slice(0, 40)}'`,
        `a row above it with ${needed.join(' and ')}, and any of ${columns.filter((c) => !needed.includes(c)).join(', ')}`,
      ),
    );
  const issues: Issue[] = [];
  names.forEach((name, i) => {
    const near = nearest(name, columns);
    if (name !== '' && !columns.includes(name))
      issues.push({
        ...wrong(head.line, 'there is no such column', `'${name.slice(0, 40)}'`, columns.join(', ')),
        ...(near !== undefined && { nearest: near }),
      });
    else if (name !== '' && names.indexOf(name) !== i)
      issues.push(wrong(head.line, 'a column is there twice', `'${name}'`));
  });
  for (const name of needed)
    if (!names.includes(name)) issues.push(wrong(head.line, `the column '${name}' is missing`, names.join(', ')));
  const rows = rest.map(({ line, cells }): Row => {
    if (cells.slice(names.length).some((cell) => cell.trim() !== ''))
      issues.push(wrong(line, 'the row has more cells than there are columns', `${cells.length}`, `${names.length}`));
    if (cells.some((cell) => cell.length > MOST_CELL))
      issues.push(wrong(line, 'a cell is too long', undefined, `at most ${MOST_CELL} characters`));
    const values = columns.map((column): [string, string] => {
      const i = names.indexOf(column);
      return [column, (i < 0 ? '' : (cells[i] ?? '')).trim().replace(/^'(?='*[=+\-@\t\r])/, '')];
    });
    return { line, cells: Object.fromEntries(values) };
  });
  return issues.length > 0 ? fail(...issues.slice(0, 50)) : ok(rows);
}

const wrong = (line: number | undefined, message: string, found?: string, expected?: string): Issue => ({
  path: [],
  ...(line !== undefined && { place: { line, column: 1 } }),
  message,
  ...(found !== undefined && { found }),
  ...(expected !== undefined && { expected }),
});

/** The one that the first row uses most, outside quotes. */
function separatorOf(text: string): string {
  const [first = ''] = text.replace(/"(?:[^"]|"")*"/g, '').split(/\r?\n/, 1);
  const count = (mark: string): number => first.split(mark).length - 1;
  return ['\t', ';', ','].reduce((best, mark) => (count(mark) > count(best) ? mark : best), ',');
}

interface Cells {
  readonly line: number;
  readonly cells: readonly string[];
}
function split(text: string, separator: string): Result<readonly Cells[]> {
  const records: Cells[] = [];
  let cells: string[] = [];
  let line = 1;
  let start = 1;
  let at = 0;
  while (at <= text.length) {
    let cell = '';
    if (text[at] === '"') {
      const opened = line;
      for (at++; ; at++) {
        const c = text[at];
        if (c === undefined) return fail(wrong(opened, 'a quotation mark is opened here and never closed'));
        if (c === '\n') line++;
        if (c !== '"') cell += c;
        else if (text[at + 1] === '"') cell += text[++at]!;
        else break;
      }
      at++;
    }
    // outside quotes, and what some programs leave behind a closing one
    while (at < text.length && text[at] !== separator && text[at] !== '\n' && text[at] !== '\r') cell += text[at++]!;
    cells.push(cell);
    if (text[at] === separator) {
      at++;
      continue;
    }
    records.push({ line: start, cells });
    cells = [];
    if (text[at] === '\r' && text[at + 1] === '\n') at++;
    at++;
    start = ++line;
  }
  return ok(records);
}
