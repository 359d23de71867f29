import { grouped } from '../../grouped.ts';
import type { Working, WorkingInput } from '../../notes/index.ts';
import { originText, sayFigure } from '../../notes/index.ts';
import { isSaidOtherwise } from '../../quantity/index.ts';
import { type Area, area, below, group, LETTER, line, right, text } from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import { LEADING } from '../layout/table.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import type { Draft } from './sheet.ts';

const H = LETTER.small;
const GUTTER = 8;
/** The least width of a column, and the fewest lines of a working that stand alone at the head or foot of one. */
const COLUMN = 74;
const TOGETHER = 4;

interface Titled {
  readonly titles: readonly string[];
  readonly about: string;
  readonly working: Working;
}

/** Every working of the packet: formula, inputs, result, limit, source and what is assumed; equal ones once, in columns. */
export function workingPages(desk: Desk): readonly Draft[] {
  const { body } = desk.sheet;
  const each = [
    ...desk.notes.flatMap(({ number, note }) =>
      note.working ? [{ title: `Note ${number}: ${note.title}`, about: note.id, working: note.working }] : [],
    ),
    ...(desk.input.workings ?? []).map((working) => ({ title: working.what, about: working.what, working })),
  ];
  if (each.length === 0) return [];
  const all = [...grouped(each, ({ working }) => JSON.stringify(working)).values()].map(
    (same): Titled => ({ ...same[0]!, titles: same.map(({ title }) => title) }),
  );
  const count = Math.max(1, Math.floor((body.width + GUTTER) / (COLUMN + GUTTER)));
  const width = (body.width - (count - 1) * GUTTER) / count;
  const columnAt = (i: number): Area => area(body.x + (i % count) * (width + GUTTER), body.y, width, body.height);
  const sheets: Mark[][] = [[]];
  let column = 0;
  let y = body.y;
  const room = (): number => Math.floor((below(body) - y) / LEADING);
  for (const { titles, about, working } of all) {
    const lines = layWorking(desk.letter, titles, working, width);
    if (y > body.y && room() < Math.min(TOGETHER, lines.length)) [column, y] = [column + 1, body.y];
    lines.forEach((own, i) => {
      const left = lines.length - i;
      // no last line or two by themselves at the head of a column
      if (y > body.y && (room() < 1 || (left === TOGETHER && room() < left))) [column, y] = [column + 1, body.y];
      while (sheets.length <= Math.floor(column / count)) sheets.push([]);
      y += LEADING;
      sheets[Math.floor(column / count)]!.push(group(about, own(columnAt(column).x, y - 0.8)));
    });
    if (y + 5 < below(body)) {
      const place = columnAt(column);
      sheets[Math.floor(column / count)]!.push(line(place.x, y + 1.4, right(place), y + 1.4, 'thin', 'faint'));
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
/** Words of a row keep at least this share of the column; a longer value goes below them. */
const WORDS = 0.4;

/** What a value is, and the value at the right edge: beside it, or below it where that would leave the words no room. */
function across(words: string, value: string, width: number): readonly Line[] {
  const beside = width - textWidth(value, H) - 3;
  const told = wrapText(words, H, beside < WORDS * width ? width : beside);
  const values = beside < WORDS * width ? wrapText(value, H, width - 3) : [];
  return [
    ...told.map(
      (l, i): Line =>
        (x, y) => [
          text(x, y, l),
          ...(i === 0 && values.length === 0 ? [text(x + width, y, value, { align: 'right' })] : []),
        ],
    ),
    ...values.map(
      (l): Line =>
        (x, y) => [text(x + width, y, l, { align: 'right' })],
    ),
  ];
}

function layWorking(letter: Lettering, titles: readonly string[], w: Working, width: number): readonly Line[] {
  const said = (figure: Pick<WorkingInput, 'value' | 'unit'>): string => sayFigure(w, figure, letter.units);
  const para = (words: string, style: { bold?: boolean; faint?: boolean } = {}, indent = 0): readonly Line[] =>
    wrapText(words, H, width - indent, style.bold).map(
      (l): Line =>
        (x, y) => [
          text(x + indent, y, l, { ...(style.bold && { bold: true }), ...(style.faint && { tone: 'faint' }) }),
        ],
    );
  // what the formula names by a letter stands in a column of its own; a word that only names an input says no more than its explanation
  const isNamed = (symbol: string, name: string): boolean =>
    symbol !== '' && symbol !== name && (!/^[a-z][a-z-]+$/.test(symbol) || w.formula.includes(symbol));
  const lettered = [...w.inputs, ...(w.also ?? [])].filter(({ symbol, name }) => isNamed(symbol, name));
  const hang = Math.max(0, ...lettered.map(({ symbol }) => textWidth(symbol, H, true))) + 2;
  // a source that several values come from is told in full with the first of them
  const told = new Map<string, string>();
  const sourceOf = (symbol: string, from: string): string => {
    const before = told.get(from);
    if (before !== undefined && textWidth(from, H) > textWidth(before, H)) return before;
    if (symbol !== '') told.set(from, `as ${symbol}`);
    return from;
  };
  const row = (symbol: string, name: string, value: string, from?: string): readonly Line[] => {
    const words = from === undefined ? name : `${name} (${sourceOf(symbol, from)})`;
    if (!isNamed(symbol, name)) return across(words, value, width);
    return across(words, value, width - hang).map(
      (own, i): Line =>
        (x, y) => [...(i === 0 ? [text(x, y, symbol, { bold: true })] : []), ...own(x + hang, y)],
    );
  };
  return [
    ...titles.flatMap((title) => para(title, { bold: true })),
    ...(titles.includes(w.what) ? [] : para(w.what)),
    ...para(w.formula, {}, 3),
    ...(w.reckonedIn && isSaidOtherwise('mm', letter.units)
      ? para('In metric units, in brackets, as its source or the trade has it.')
      : []),
    ...w.inputs.flatMap((i) => row(i.symbol, i.name, said(i), i.source && originText(i.source))),
    (x, y) => [
      text(x, y, 'Result', { bold: true }),
      text(x + width, y, said(w.result), { bold: true, align: 'right' }),
    ],
    ...(w.also ?? []).flatMap((a) => row(a.symbol, a.name, said(a))),
    ...(w.limit ? row('', `Limit: ${w.limit.why}`, said(w.limit), w.limit.source && originText(w.limit.source)) : []),
    ...(w.assumes.length > 0 ? para(`Assumes: ${w.assumes.join('; ')}.`, { faint: true }) : []),
    ...para(`Source: ${originText(w.source)}.`, { faint: true }),
    ...(w.caution === undefined ? [] : para(w.caution, { bold: true })),
  ];
}
