import { grouped } from '../../grouped.ts';
import { type AlikeLayouts, alikeLayouts } from '../alike.ts';
import { type Area, area, below, group, LETTER, line, rectangle, right, text } from '../draw.ts';
import { fitText, textWidth } from '../font/measure.ts';
import type { Mark } from '../marks.ts';
import { type Desk, numberRuns } from './desk.ts';
import type { Draft } from './sheet.ts';

/** Drawn height of a board: by length only, its width is in the heading. */
const BAR = 8;
const ROW = BAR + 9.5;
const HEADING = 9;

/** Every board with its parts one after another from the left end, all boards of a sheet to one scale along their length. */
export function boardLayoutPages(desk: Desk): readonly Draft[] {
  const { body } = desk.sheet;
  const stocks = grouped(alikeLayouts(desk.input.cuts, 'board'), (a) => a.layout.stock);
  if (stocks.size === 0) return [];
  const ratio = Math.max(...[...stocks.values()].flat().map((a) => a.layout.length)) / body.width;
  const sheets: Mark[][] = [];
  let y = Number.POSITIVE_INFINITY;
  const next = (height: number): Mark[] => {
    if (y + height > below(body)) {
      sheets.push([]);
      y = body.y;
    }
    return sheets.at(-1)!;
  };
  for (const [stock, layouts] of stocks) {
    next(HEADING + ROW).push(...heading(desk, stock, layouts, area(body.x, y, body.width, HEADING)));
    y += HEADING;
    layouts.forEach((alike, i) => {
      const before = sheets.length;
      // none of a stock stands alone on a next sheet that another can go over to with it
      const isLastButOne = i === layouts.length - 2 && i > 0;
      const own = next(isLastButOne ? 2 * ROW : ROW);
      if (sheets.length > before) {
        own.push(...continued(desk, stock, area(body.x, y, body.width, HEADING)));
        y += HEADING;
      }
      own.push(...board(desk, alike, ratio, area(body.x, y, body.width, ROW)));
      y += ROW;
    });
    y += 2;
  }
  return sheets.map((marks, i) => ({
    id: `boards-${i + 1}`,
    chapter: 'Cutting',
    title: sheets.length === 1 ? 'Boards' : `Boards, ${i + 1} of ${sheets.length}`,
    marks,
  }));
}

const nameOf = ({ input }: Desk, stock: string): string =>
  input.plan.stock.boards.find((b) => b.id === stock)?.name ?? stock;
const titled = (words: string, at: Area): readonly Mark[] => [
  text(at.x, at.y + 4.4, words, { bold: true, height: LETTER.head }),
  line(at.x, at.y + 6.4, right(at), at.y + 6.4, 'thin'),
];
const continued = (desk: Desk, stock: string, at: Area): readonly Mark[] =>
  titled(`${nameOf(desk, stock)}, continued`, at);
function heading(desk: Desk, stock: string, layouts: readonly AlikeLayouts[], at: Area): readonly Mark[] {
  const boards = layouts.reduce((sum, l) => sum + l.times, 0);
  const words = `${boards} ${boards === 1 ? 'board' : 'boards'}, saw cut ${desk.letter.blade(layouts[0]!.layout.kerf)}`;
  return [...titled(nameOf(desk, stock), at), text(right(at), at.y + 4.4, words, { align: 'right', tone: 'faint' })];
}

function board(desk: Desk, { layout, times, parts }: AlikeLayouts, ratio: number, at: Area): readonly Mark[] {
  const { letter } = desk;
  const bar = area(at.x, at.y, layout.length / ratio, BAR);
  const marks: Mark[] = [rectangle(bar, { pen: 'outline', hatch: 'waste' })];
  const said: string[] = [];
  let end = 0;
  for (const [i, p] of layout.placed.entries()) {
    const number = numberRuns(parts[i]!.flatMap((id) => desk.numbered().numberOf.get(id) ?? [])) || p.part;
    const own = area(bar.x + p.x / ratio, bar.y, p.length / ratio, BAR);
    const name = desk.numbered().partOf.get(p.part)?.part.label.name ?? p.part;
    const figure = letter.figure(p.length);
    const inside = own.width - 1.4;
    const lines = [number, figure].filter((w) => textWidth(w, LETTER.small, true) <= inside);
    if (lines.length < 2) said.push(`${number}: ${figure}`);
    marks.push(
      group(
        p.part,
        [
          rectangle(own, { fill: 'paper', pen: 'visible' }),
          ...lines.map((words, k) =>
            text(own.x + own.width / 2, own.y + (lines.length === 1 ? BAR / 2 : BAR * (0.28 + 0.46 * k)), words, {
              align: 'centre',
              anchor: 'middle',
              bold: words === number,
            }),
          ),
        ],
        name,
      ),
    );
    end = Math.max(end, p.x + p.length);
  }
  const left = layout.length - layout.trim - end - layout.kerf;
  const words = [
    `${times > 1 ? `${times} alike, ` : ''}${letter.length(layout.length)}${layout.source.kind === 'rack' ? ` from the rack: ${layout.source.id}` : ''}`,
    ...(left > 1 ? [`${letter.length(left)} left`] : []),
    ...said,
  ].join('; ');
  marks.push(text(at.x, at.y + BAR + 4, fitText(words, LETTER.small, at.width), { tone: 'faint' }));
  return marks;
}
