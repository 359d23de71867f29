import type { Working } from '../../notes/index.ts';
import { originText } from '../../notes/index.ts';
import { formatNumber } from '../../quantity/index.ts';
import { type Area, area, below, group, LETTER, line, right, text } from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import { grouped } from '../group.ts';
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
/** Units of a plan in inches, exact by definition. Source: NIST SP 811 (2008), appendix B.8. */
const IN_INCHES: Readonly<Record<string, readonly [string, number]>> = {
  mm: ['in', 1 / 25.4],
  m: ['ft', 1 / 0.3048],
  'm²': ['ft²', 1 / 0.3048 ** 2],
  kg: ['lb', 1 / 0.45359237],
  N: ['lbf', 1 / (0.45359237 * 9.80665)],
};
/** A formula is reckoned in the units of its source; beside them stands what it is in the plan's own. */
function withUnit({ unit: plan }: Lettering, value: number | string, unit: string): string {
  const own = `${typeof value === 'number' ? formatNumber(value, 5) : value}${unit === '' ? '' : ` ${unit}`}`;
  const other = plan === 'ft-in' || plan === 'in' ? IN_INCHES[unit] : undefined;
  return other && typeof value === 'number' && value !== 0
    ? `${own} = ${formatNumber(value * other[1], 4)} ${other[0]}`
    : own;
}

function layWorking(letter: Lettering, titles: readonly string[], w: Working, width: number): readonly Line[] {
  const para = (words: string, style: { bold?: boolean; faint?: boolean } = {}, indent = 0): readonly Line[] =>
    wrapText(words, H, width - indent, style.bold).map(
      (l): Line =>
        (x, y) => [
          text(x + indent, y, l, { ...(style.bold && { bold: true }), ...(style.faint && { tone: 'faint' }) }),
        ],
    );
  const row = (symbol: string, name: string, value: string, from?: string): readonly Line[] => {
    const label = symbol === '' || symbol === name ? name : `${symbol}  ${name}`;
    const words = wrapText(from === undefined ? label : `${label} (${from})`, H, width - textWidth(value, H) - 3);
    return words.map(
      (l, i): Line =>
        (x, y) => [text(x, y, l), ...(i === 0 ? [text(x + width, y, value, { align: 'right' })] : [])],
    );
  };
  return [
    ...titles.flatMap((title) => para(title, { bold: true })),
    ...(titles.includes(w.what) ? [] : para(w.what)),
    ...para(w.formula, {}, 3),
    ...w.inputs.flatMap((i) =>
      row(i.symbol, i.name, withUnit(letter, i.value, i.unit), i.source && originText(i.source)),
    ),
    (x, y) => [
      text(x, y, 'Result', { bold: true }),
      text(x + width, y, withUnit(letter, w.result.value, w.result.unit), { bold: true, align: 'right' }),
    ],
    ...(w.also ?? []).flatMap((a) => row(a.symbol, a.name, withUnit(letter, a.value, a.unit))),
    ...(w.limit
      ? row(
          'limit',
          w.limit.why,
          withUnit(letter, w.limit.value, w.limit.unit),
          w.limit.source && originText(w.limit.source),
        )
      : []),
    ...(w.assumes.length > 0 ? para(`Assumes: ${w.assumes.join('; ')}.`, { faint: true }) : []),
    ...para(`Source: ${originText(w.source)}.`, { faint: true }),
    ...(w.caution === undefined ? [] : para(w.caution, { bold: true })),
  ];
}
