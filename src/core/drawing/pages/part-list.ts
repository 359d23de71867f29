import { grouped } from '../../grouped.ts';
import { type Area, area } from '../draw.ts';
import { type Column, layTable, type TableRow } from '../layout/table.ts';
import { type Desk, type NumberedPart, numberRuns } from './desk.ts';
import type { Draft } from './sheet.ts';

/** Parts of one piece that are the same to the saw and to the hand: one line of the list. */
export interface PartLine {
  readonly parts: readonly NumberedPart[];
}

/** Equal parts of a piece in one line, in the order of their first. */
export function partLines(parts: readonly NumberedPart[]): readonly PartLine[] {
  const lines = grouped(parts, ({ part }) =>
    JSON.stringify([
      part.piece,
      part.role,
      part.stock,
      part.size,
      part.cut,
      part.edges.map((e) => [e.band, e.length]),
      part.solid.taken.map((t) => t.kind),
    ]),
  );
  return [...lines.values()].map((same) => ({ parts: same }));
}

/** A name for all parts of a line: what their names begin with alike. */
export function nameOfLine({ parts }: PartLine): string {
  const names = parts.map((p) => p.part.label.name);
  if (new Set(names).size === 1) return names[0]!;
  const first = names[0]!;
  let length = first.length;
  for (const name of names) while (!name.startsWith(first.slice(0, length))) length--;
  // what they count apart goes, and with it the words that led up to it: doors of bays 2.1 and 2.2 are doors
  const common = first
    .slice(0, length)
    .replace(/[\s\d.]+$/, '')
    .replace(/ of( bay)?$/, '');
  return common.length >= 4 ? common : parts[0]!.part.role;
}

const EDGE_WORDS = ['front', 'back', 'left', 'right', 'up', 'down'] as const;

/** Every part: its number, name, how many, finished and cut sizes, stock, banded edges, mass. */
export function partListPages(desk: Desk): readonly Draft[] {
  const { letter, input, sheet } = desk;
  if (desk.numbered().parts.length === 0) return [];
  const { figure } = letter;
  const columns: Column<PartLine>[] = [
    { head: 'No.', cell: ({ parts }) => numberRuns(parts.map((p) => p.number)), bold: true, most: 24 },
    { head: 'Part', cell: nameOfLine, share: 1 },
    { head: 'Count', cell: ({ parts }) => `${parts.length}`, align: 'right' },
    { head: 'Cut length', cell: ({ parts: [p] }) => figure(p!.part.cut.length), align: 'right', bold: true },
    { head: 'Cut width', cell: ({ parts: [p] }) => figure(p!.part.cut.width), align: 'right', bold: true },
    { head: 'Thick', cell: ({ parts: [p] }) => letter.thickness(p!.part.size.thickness), align: 'right' },
    {
      head: 'Finished',
      cell: ({ parts: [p] }) => {
        const { size, cut } = p!.part;
        return size.length === cut.length && size.width === cut.width
          ? 'as cut'
          : `${figure(size.length)} × ${figure(size.width)}`;
      },
    },
    { head: 'Stock', cell: ({ parts: [p] }) => p!.part.stock, most: 34 },
    {
      head: 'Banded',
      cell: ({ parts: [p] }) =>
        EDGE_WORDS.filter((d) => p!.part.edges.some((e) => e.towards === d))
          .map((d) => (d === 'up' ? 'top' : d === 'down' ? 'bottom' : d))
          .join(', ') || '–',
      most: 24,
    },
    { head: 'Grain', cell: ({ parts: [p] }) => (p!.part.grain === 'fixed' ? 'along' : 'any') },
    ...(input.massOf
      ? [
          {
            head: 'Mass, each',
            cell: ({ parts: [p] }: PartLine) => {
              const mass = input.massOf!(p!.part.id);
              return mass === undefined ? '–' : letter.mass(mass);
            },
            align: 'right' as const,
          },
        ]
      : []),
  ];
  const rows: TableRow<PartLine>[] = input.pieces
    .filter((piece) => piece.parts.length > 0)
    .flatMap((piece): TableRow<PartLine>[] => {
      const own = desk.numbered().parts.filter((p) => p.piece === piece);
      return [
        { heading: piece.title, aside: own.length === 1 ? '1 part' : `${own.length} parts` },
        ...partLines(own).map((row) => ({ row })),
      ];
    });
  const { pieces } = layTable(
    columns,
    rows,
    (): Area => area(sheet.body.x, sheet.body.y, sheet.body.width, sheet.body.height),
  );
  return pieces.map((marks, i) => ({
    id: `parts-${i + 1}`,
    chapter: 'Parts',
    title: pieces.length === 1 ? 'Part list' : `Part list, ${i + 1} of ${pieces.length}`,
    marks,
  }));
}
