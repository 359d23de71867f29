import { roundedUp } from '../../bill/index.ts';
import { type FinishItem, SKIRTING_GRAB, type TrimCut, type TrimEnd } from '../../finish/index.ts';
import { isInches } from '../../quantity/index.ts';
import { finishingIn } from '../../setting-out/index.ts';
import { type Area, area, below, LETTER, text } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { type Column, LEADING, layTable, type TableRow } from '../layout/table.ts';
import type { Mark } from '../marks.ts';
import type { Desk } from './desk.ts';
import { runLength } from './run-length.ts';
import { wallInputOf } from './setting-out.ts';
import type { Draft } from './sheet.ts';

/** The order of the work, so that nothing is painted twice. Common practice. */
const orderOf = (items: readonly FinishItem[]): readonly string[] => [
  'Fill the old holes of the walls; let it dry, sand, prime every patch: filler that is not primed flashes through the paint.',
  'Ceiling, then walls, whole, before anything stands there: every coat, as long between them as the tin says.',
  'Prime and paint the mouldings before they go up, all faces; only joints and nail holes are painted after.',
  items.some((item) => item.id === SKIRTING_GRAB)
    ? 'Fix, shim and join the cases; cut toe boards and scribes; bed the skirting of masonry walls in grab adhesive and prop it till it has set; nail the other mouldings into studs, plates and cases; glue mitres and scarfs.'
    : 'Fix, shim and join the cases; cut toe boards and scribes; nail the mouldings into studs and plates, glue mitres and scarfs.',
  'Fill nail and screw holes; let it dry, sand, fill again what has sunk, prime it.',
  'Mask, caulk every joint to the wall with paintable caulk and pull the tape while it is wet; touch up wall and trim.',
];
const CAUTIONS =
  'Before sanding, scraping or drilling anything old: paint from before 1978 may hold lead; textured coatings, floor tiles and their black adhesive, board and fillers from before 2000 may hold asbestos. Have them tested first; do not sand or scrape what is not known, wet it, mask the room off, and leave removal to a licensed trade where the local code says so. Fine dust of filler, wood and fibreboard: mask, vacuum and open window. Solvent paint and contact adhesive: no flame, air the room.';

/** The least of a table that is worth beginning on a sheet, mm. */
const TABLE = 30;

/** How the mouldings are cut, what the finishing takes, and in which order it is done. */
export function finishPages(desk: Desk): readonly Draft[] {
  const { items, cuts } = finishingIn({
    ...wallInputOf(desk),
    pieces: desk.input.pieces.filter((p) => p.kind !== 'trim'),
  });
  if (items.length + cuts.length === 0) return [];
  const { body } = desk.sheet;
  const sheets: Mark[][] = [[]];
  let y = body.y;
  const need = (height: number): void => {
    if (y > body.y && y + height > below(body)) {
      sheets.push([]);
      y = body.y;
    }
  };
  /** `following`: what follows at once, mm, so that no heading stands alone at the foot of a sheet. */
  const paragraph = (words: string, bold = false, following = 0): void => {
    const lines = wrapText(words, LETTER.small, body.width, bold);
    need(lines.length * LEADING + 1.2 + following);
    sheets.at(-1)!.push(...lines.map((l, i) => text(body.x, y + LEADING * (i + 1) - 1, l, { bold })));
    y += lines.length * LEADING + 1.2;
  };
  const table = <R>(columns: readonly Column<R>[], rows: readonly TableRow<R>[]): void => {
    if (rows.length === 0) return;
    need(TABLE);
    const start = sheets.length - 1;
    const areaOf = (i: number): Area => (i === 0 ? area(body.x, y, body.width, below(body) - y) : body);
    const { pieces, end } = layTable(columns, rows, areaOf);
    pieces.forEach((marks, i) => {
      if (!sheets[start + i]) sheets.push([]);
      sheets[start + i]!.push(...marks);
    });
    y = end + 4;
  };
  paragraph(CAUTIONS);
  y += 2;
  if (cuts.length > 0)
    paragraph(
      'Mouldings, measured along the wall; angles are from square, as the mitre saw is set. Measure every corner: few are square.',
      true,
      TABLE,
    );
  table(
    cutColumns(desk),
    cuts.map((row) => ({ row })),
  );
  paragraph('What it takes', true, TABLE);
  table(
    itemColumns(desk),
    items.map((row) => ({ row })),
  );
  paragraph('In this order', true, 2 * LEADING);
  orderOf(items).forEach((step, i) => {
    paragraph(`${i + 1}. ${step}`);
  });
  return sheets.map((marks, i) => ({
    id: `finish-${i + 1}`,
    chapter: 'Setting-out',
    title: `Trim and finish${sheets.length > 1 ? `, ${i + 1} of ${sheets.length}` : ''}`,
    marks,
  }));
}

const endWords = (end: TrimEnd): string =>
  end.cut === 'square'
    ? 'square'
    : end.cut === 'scarf'
      ? `scarf ${end.saw}°`
      : `${end.corner} mitre ${Math.round(end.saw * 10) / 10}°`;

function cutColumns(desk: Desk): readonly Column<TrimCut>[] {
  const f = desk.letter.figure;
  return [
    { head: 'Part', cell: ({ part }) => `${desk.numbered().numberOf.get(part.id) ?? ''}`, align: 'right', bold: true },
    { head: 'Where', cell: ({ part }) => part.label.place, share: 1 },
    { head: 'Moulding', cell: ({ part }) => part.label.name, share: 1 },
    { head: 'Covers', cell: ({ piece }) => f(piece.wall), align: 'right' },
    { head: 'Cut, longest edge', cell: ({ part }) => f(part.cut.length), align: 'right', bold: true },
    { head: 'Left or lower end', cell: ({ piece }) => endWords(piece.start) },
    { head: 'Right or upper end', cell: ({ piece }) => endWords(piece.end) },
    { head: 'Cut', cell: () => '', tick: true },
  ];
}

function itemColumns({ letter }: Desk): readonly Column<FinishItem>[] {
  const inches = isInches(letter.unit);
  const amount = ({ amount: n, unit }: FinishItem): string => {
    if (unit === '') return `${n}`;
    if (unit === 'mm') return runLength(letter, inches ? Math.round(n / 25.4) * 25.4 : Math.round(n));
    if (unit === 'mm²') return letter.area(n);
    // as the shopping list says it
    if (!inches) return n < 1 ? `${roundedUp(n * 1000)} ml` : `${roundedUp(n)} L`;
    const ounces = n / 0.0295735295625;
    return ounces < 32 ? `${roundedUp(ounces)} fl oz` : `${roundedUp(ounces / 128)} gal`;
  };
  return [
    { head: 'What', cell: (i) => i.what, bold: true, share: 1 },
    { head: 'How much', cell: amount, align: 'right' },
    { head: 'For', cell: (i) => i.why, share: 1 },
    { head: 'Bought as', cell: (i) => i.use },
    { head: 'Ready', cell: () => '', tick: true },
  ];
}
