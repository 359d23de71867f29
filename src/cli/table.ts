/** One column: its heading, and how a row reads in it. Numbers stand to the right. */
export interface Column<T> {
  readonly title: string;
  readonly text: (row: T) => string;
  readonly right?: boolean;
}

/** Rows as aligned plain text: two spaces between columns, a rule under the headings. */
export function table<T>(rows: readonly T[], columns: readonly Column<T>[]): string {
  const cells = rows.map((row) => columns.map((column) => column.text(row)));
  const widths = columns.map((column, i) => Math.max(wide(column.title), ...cells.map((row) => wide(row[i]!))));
  const line = (texts: readonly string[]) =>
    texts
      .map((text, i) =>
        columns[i]!.right ? ' '.repeat(widths[i]! - wide(text)) + text : text + ' '.repeat(widths[i]! - wide(text)),
      )
      .join('  ')
      .trimEnd();
  return [line(columns.map((c) => c.title)), line(widths.map((w) => '─'.repeat(w))), ...cells.map(line)].join('\n');
}

/** Columns a text takes on a terminal: combining marks take none, wide East Asian letters two. */
function wide(text: string): number {
  let columns = 0;
  for (const char of text.normalize('NFC')) {
    if (/\p{M}/u.test(char)) continue;
    columns += /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]/u.test(
      char,
    )
      ? 2
      : 1;
  }
  return columns;
}
