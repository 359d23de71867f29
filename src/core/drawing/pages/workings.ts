import type { Working } from '../../notes/index.ts';
import { originText } from '../../notes/index.ts';
import { formatNumber } from '../../quantity/index.ts';
import { type Area, area, below, group, LETTER, line, right, text } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { LEADING } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import type { Draft } from './sheet.ts';

const H = LETTER.small;
const GUTTER = 9;

interface Titled {
  readonly title: string;
  readonly about: string;
  readonly working: Working;
}

/** Every working of the packet: formula, inputs, result, limit, source and what is assumed, in two columns. */
export function workingPages(desk: Desk): readonly Draft[] {
  const { body } = desk.sheet;
  const all: readonly Titled[] = [
    ...desk.notes.flatMap(({ number, note }) =>
      note.working ? [{ title: `Note ${number}: ${note.title}`, about: note.id, working: note.working }] : [],
    ),
    ...(desk.input.workings ?? []).map((working) => ({ title: working.what, about: working.what, working })),
  ];
  if (all.length === 0) return [];
  const width = (body.width - GUTTER) / 2;
  const columnAt = (i: number): Area => area(body.x + (i % 2) * (width + GUTTER), body.y, width, body.height);
  const sheets: Mark[][] = [[]];
  let column = 0;
  let y = body.y;
  for (const { title, about, working } of all) {
    const lines = layWorking(title, working, width);
    const height = lines.length * LEADING + 5;
    // Kept whole where a column can hold it.
    if (y > body.y && y + Math.min(height, body.height) > below(body)) [column, y] = [column + 1, body.y];
    for (const own of lines) {
      if (y + LEADING > below(body)) [column, y] = [column + 1, body.y];
      while (sheets.length <= Math.floor(column / 2)) sheets.push([]);
      const place = columnAt(column);
      y += LEADING;
      sheets[Math.floor(column / 2)]!.push(group(about, own(place.x, y - 0.8)));
    }
    if (y + 5 < below(body)) {
      const place = columnAt(column);
      sheets[Math.floor(column / 2)]!.push(line(place.x, y + 1.4, right(place), y + 1.4, 'thin', 'faint'));
    }
    y += 3.4;
  }
  return sheets.map((marks, i) => ({
    id: `workings-${i + 1}`,
    chapter: 'Workings',
    title: sheets.length === 1 ? 'Workings' : `Workings, ${i + 1} of ${sheets.length}`,
    marks,
  }));
}

type Line = (x: number, y: number) => readonly Mark[];
const withUnit = (value: number | string, unit: string): string =>
  `${typeof value === 'number' ? formatNumber(value, 5) : value}${unit === '' ? '' : ` ${unit}`}`;

function layWorking(title: string, w: Working, width: number): readonly Line[] {
  const para = (words: string, style: { bold?: boolean; faint?: boolean } = {}, indent = 0): readonly Line[] =>
    wrapText(words, H, width - indent, style.bold).map(
      (l): Line =>
        (x, y) => [
          text(x + indent, y, l, { ...(style.bold && { bold: true }), ...(style.faint && { tone: 'faint' }) }),
        ],
    );
  const row = (symbol: string, name: string, value: string, from?: string): readonly Line[] => {
    const label = symbol === '' || symbol === name ? name : `${symbol}  ${name}`;
    const words = wrapText(from === undefined ? label : `${label} (${from})`, H, width - 34);
    return words.map(
      (l, i): Line =>
        (x, y) => [text(x, y, l), ...(i === 0 ? [text(x + width, y, value, { align: 'right' })] : [])],
    );
  };
  return [
    ...para(title, { bold: true }),
    ...(w.what === title ? [] : para(w.what)),
    ...para(w.formula, {}, 3),
    ...w.inputs.flatMap((i) => row(i.symbol, i.name, withUnit(i.value, i.unit), i.source && originText(i.source))),
    (x, y) => [
      text(x, y, 'Result', { bold: true }),
      text(x + width, y, withUnit(w.result.value, w.result.unit), { bold: true, align: 'right' }),
    ],
    ...(w.also ?? []).flatMap((a) => row(a.symbol, a.name, withUnit(a.value, a.unit))),
    ...(w.limit
      ? row('limit', w.limit.why, withUnit(w.limit.value, w.limit.unit), w.limit.source && originText(w.limit.source))
      : []),
    ...(w.assumes.length > 0 ? para(`Assumes: ${w.assumes.join('; ')}.`, { faint: true }) : []),
    ...para(`Source: ${originText(w.source)}.`, { faint: true }),
    ...(w.caution === undefined ? [] : para(w.caution, { bold: true })),
  ];
}
