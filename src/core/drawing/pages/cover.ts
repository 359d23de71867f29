import type { Tally } from '../../bill/index.ts';
import { type Area, area, below, extentOf, LETTER, line, right, text } from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { grouped } from '../group.ts';
import { type Column, LEADING, layTable } from '../layout/table.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import { type Desk, type NumberedNote, numberRuns } from './desk.ts';
import { picture } from './elevation.ts';
import { layNotes } from './notes.ts';
import type { Draft, TallyItem } from './sheet.ts';

interface Figure {
  readonly name: string;
  readonly of: (t: Tally) => number | undefined;
  readonly show: (value: number, letter: Lettering) => string;
}
const count = (value: number): string => `${value}`;
export const FIGURES: readonly Figure[] = [
  { name: 'Cost', of: (t) => t.cost, show: (v, l) => l.money(v) },
  { name: 'Panels', of: (t) => t.panels, show: count },
  { name: 'Boards', of: (t) => t.boards, show: count },
  { name: 'Cuts', of: (t) => t.cuts, show: count },
  { name: 'Parts', of: (t) => t.parts, show: count },
  { name: 'Weight', of: (t) => t.mass, show: (v, l) => l.mass(v) },
  { name: 'Heaviest lift', of: (t) => t.heaviest, show: (v, l) => l.mass(v) },
  { name: 'Hours', of: (t) => t.hours, show: (v) => `${Math.round(v)}` },
];

export function tallyItems({ input, letter }: Desk): readonly TallyItem[] {
  const { tally } = input;
  const items = FIGURES.filter((f) => f.name !== 'Weight').flatMap(({ name, of, show }): readonly TallyItem[] => {
    const value = of(tally);
    return name === 'Hours' && value === undefined
      ? []
      : [{ name, value: value === undefined ? 'not known' : show(value, letter) }];
  });
  const open = tally.stops + tally.cautions;
  const notes =
    open === 0
      ? 'none open'
      : tally.stops > 0
        ? `${tally.stops} stop, ${tally.cautions} caution`
        : `${tally.cautions} caution`;
  return [...items, { name: 'Notes', value: notes, alert: tally.stops > 0 }];
}

/** Title and remark, this option beside the others, and every note with its advice; more sheets where the notes need them. */
export function coverPages(desk: Desk, after: readonly Draft[]): readonly Draft[] {
  const { input, sheet } = desk;
  const { body } = sheet;
  const gutter = 9;
  const left = area(body.x, body.y, (body.width - gutter) * 0.42, body.height);
  const marks: Mark[] = [];
  let y = body.y + LETTER.cover + 3;
  for (const words of wrapText(input.plan.title, LETTER.cover, left.width, true)) {
    marks.push(text(left.x, y, words, { height: LETTER.cover, bold: true }));
    y += LETTER.cover * 1.5;
  }
  y += 0.5;
  const subtitle = input.option.title ?? input.option.id;
  for (const words of wrapText(subtitle, LETTER.head, left.width)) {
    marks.push(text(left.x, y - 2, words, { height: LETTER.head }));
    y += LETTER.head * 1.6;
  }
  for (const remark of [input.plan.remark, input.option.remark]) {
    if (!remark) continue;
    y += 2;
    for (const words of wrapText(remark, LETTER.small, left.width)) {
      if (y > below(left) - 60) break;
      marks.push(text(left.x, y, words));
      y += LEADING;
    }
  }
  const table = comparison(desk, area(left.x, y + 3, left.width, below(left) - y - 3));
  marks.push(...table);
  const low = table.length === 0 ? y : below(extentOf(table)!);

  const x = right(left) + gutter;
  const open = desk.notes.filter((n) => n.note.verdict !== 'fine');
  const held = desk.notes.filter((n) => n.note.verdict === 'fine');
  const first = area(x, body.y, right(body) - x, body.height);
  marks.push(...heading(open.length === 0 ? 'No note stands open' : `Notes and cautions`, first));
  const rest = layNotes(open, [inside(first)]);
  marks.push(...rest.marks);
  const notes = notePages(desk, rest.left, held);
  const noted = rest.marks.length === 0 ? first.y : below(extentOf(rest.marks)!);
  const free = area(first.x, noted + 8, first.width, below(first) - noted - 8);
  const under = area(left.x, low + 8, left.width, below(left) - low - 8);
  const listed = contents(notes, after, free.height >= under.height ? free : under);
  marks.push(...listed);
  const end = free.height >= under.height && listed.length > 0 ? below(extentOf(listed)!) : noted;
  const show = area(first.x, end + 8, first.width, below(first) - end - 8);
  if (show.height >= PICTURE) marks.push(...picture(desk, { ...show, x: show.x + 4, width: show.width - 8 }));
  return [{ id: 'cover', chapter: 'Overview', title: 'Overview', marks }, ...notes];
}

/** The chapters and the pages they are on, two columns, where there is room for them. */
function contents(notes: readonly Draft[], after: readonly Draft[], place: Area): readonly Mark[] {
  const pages = [...notes, ...after].map((d, i) => ({ chapter: d.chapter, title: d.title, number: i + 2 }));
  const rows = [...grouped(pages, (p) => p.chapter)].map(([chapter, own]) => ({
    chapter,
    numbers: numberRuns(own.map((p) => p.number)),
  }));
  if (place.height < (rows.length + 2) * 5.5) return [];
  const columns: Column<(typeof rows)[number]>[] = [
    { head: 'In this packet', cell: (r) => r.chapter, share: 1 },
    { head: 'pages', cell: (r) => r.numbers, align: 'right' },
  ];
  return layTable(
    columns,
    rows.map((row) => ({ row })),
    () => place,
  ).pieces.flat();
}

/** Less height than this, mm, and the picture on the cover is left out. */
const PICTURE = 45;

const inside = (a: Area): Area => area(a.x, a.y + 8, a.width, a.height - 8);
const heading = (words: string, a: Area): readonly Mark[] => [
  text(a.x, a.y + 3.5, words, { height: LETTER.head, bold: true }),
  line(a.x, a.y + 5.8, right(a), a.y + 5.8, 'visible'),
];

/** Notes that had no room on the cover, then what was checked and holds. */
function notePages(desk: Desk, open: readonly NumberedNote[], held: readonly NumberedNote[]): readonly Draft[] {
  const { body } = desk.sheet;
  const width = (body.width - 10) / 2;
  const pages: Draft[] = [];
  const lay = (title: string, id: string, notes: readonly NumberedNote[]): void => {
    let rest = notes;
    while (rest.length > 0) {
      const columns = [0, 1].map((i) => area(body.x + i * (width + 10), body.y + 2, width, body.height - 2));
      const { marks, left } = layNotes(rest, columns);
      if (left.length === rest.length) break; // one note larger than a sheet: nothing more can be done for it
      pages.push({ id: `${id}-${pages.length + 1}`, chapter: 'Overview', title, marks });
      rest = left;
    }
  };
  lay('Notes and cautions, continued', 'notes', open);
  lay('Checked, and it holds', 'held', held);
  return pages;
}

/** This option's figures beside the others', and by how much each of those differs. */
function comparison({ input, letter }: Desk, place: Area): readonly Mark[] {
  const others = input.others ?? [];
  if (others.length === 0) return [];
  const columns: Column<Figure>[] = [
    { head: 'Compared', cell: (f) => f.name, share: 1 },
    {
      head: 'this option',
      cell: (f) => shown(f, input.tally, letter),
      align: 'right',
      bold: true,
    },
    ...others.slice(0, 3).map(
      ({ title, tally }): Column<Figure> => ({
        head: title.length > 16 ? `${title.slice(0, 15).trimEnd()}…` : title,
        cell: (f) => shown(f, tally, letter),
        align: 'right',
      }),
    ),
  ];
  const rows: readonly Figure[] = [
    ...FIGURES,
    { name: 'Stop notes', of: (t) => t.stops, show: count },
    { name: 'Cautions', of: (t) => t.cautions, show: count },
  ];
  return layTable(
    columns,
    rows.map((row) => ({ row })),
    () => ({ ...place, height: 500 }),
  ).pieces.flat();
}
const shown = (f: Figure, tally: Tally, letter: Lettering): string => {
  const value = f.of(tally);
  return value === undefined ? 'not known' : f.show(value, letter);
};
