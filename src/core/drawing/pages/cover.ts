import { costSaid, openWords, type Tally } from '../../bill/index.ts';
import { grouped } from '../../grouped.ts';
import { type Area, area, below, extentOf, LETTER, line, right, text } from '../draw.ts';
import { fitText, isDrawable, textWidth, wrapText } from '../font/measure.ts';
import { standing } from '../layout/standing.ts';
import { type Column, LEADING, layTable } from '../layout/table.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import { type Desk, type NumberedNote, numberRuns } from './desk.ts';
import { picture } from './elevation.ts';
import { layNotes, type Spot } from './notes.ts';
import type { Chapter, Draft, TallyItem } from './sheet.ts';

interface Figure {
  readonly name: string;
  readonly shown: (tally: Tally, letter: Lettering) => string;
}
const FIGURES: readonly Figure[] = [
  { name: 'Cost', shown: (t, l) => costSaid(t.known, t.cost !== undefined, l.money) },
  { name: 'Panels', shown: (t) => `${t.panels}` },
  { name: 'Boards', shown: (t) => `${t.boards}` },
  { name: 'Cuts', shown: (t) => `${t.cuts}` },
  { name: 'Parts', shown: (t) => `${t.parts}` },
  { name: 'Weight', shown: (t, l) => l.mass(t.mass) },
  { name: 'Heaviest lift', shown: (t, l) => l.mass(t.heaviest) },
  { name: 'Hours', shown: (t) => `${Math.round(t.hours)}` },
];

export function tallyItems({ input, letter }: Desk): readonly TallyItem[] {
  const { tally } = input;
  const items = FIGURES.filter((f) => f.name !== 'Weight').map(
    ({ name, shown }): TallyItem => ({ name, value: shown(tally, letter) }),
  );
  return [...items, { name: 'Notes', value: openWords(tally), alert: tally.stops > 0 }];
}

/** The title of the plan, smaller where a word of it is wider than its column. */
const TITLE = [LETTER.cover, LETTER.title, LETTER.head].map((height) => ({ height, lines: 12 }));

/** Said where names would come out as boxes and nobody knew why. */
function missingLetters({ input: { plan, option } }: Desk): string | undefined {
  const words = JSON.stringify([plan.title, plan.remark, plan.room.walls.map((w) => w.id), option]);
  if (isDrawable(words)) return undefined;
  return 'Some names have letters that the typeface of the print lacks: they come out as boxes. Latin, Greek and Cyrillic letters print.';
}

/** Title and remark, this option beside the others, and every note with its advice; more sheets where the notes need them. */
export function coverPages(desk: Desk, after: readonly Draft[]): readonly Draft[] {
  const { input, sheet } = desk;
  const { body } = sheet;
  const gutter = 9;
  const left = area(body.x, body.y, (body.width - gutter) * 0.42, body.height);
  const marks: Mark[] = [];
  const title = standing(input.plan.title, TITLE, left.width, true);
  let y = body.y + title.height + 3;
  for (const words of title.lines) {
    marks.push(text(left.x, y, words, { height: title.height, bold: true }));
    y += title.height * 1.5;
  }
  y += 0.5;
  const subtitle = input.option.title ?? input.option.id;
  for (const words of wrapText(subtitle, LETTER.head, left.width)) {
    marks.push(text(left.x, y - 2, words, { height: LETTER.head }));
    y += LETTER.head * 1.6;
  }
  for (const remark of [missingLetters(desk), input.plan.remark, input.option.remark]) {
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
  const column = area(x, body.y, right(body) - x, body.height);
  // The register stands at the foot of the first column, or of the second where the first is full; notes take what is left.
  const atLeft = below(left) - low - 8 >= registerHeight(after, left.width);
  const high = registerHeight(after, atLeft ? left.width : column.width);
  const first = atLeft ? column : { ...column, height: column.height - high - 8 };
  marks.push(...heading(open.length === 0 ? 'No note stands open' : `Notes and cautions`, first));
  const rest = layNotes(open, [inside(first)]);
  marks.push(...rest.marks);
  const notes = notePages(desk, rest.left, held);
  const foot = atLeft
    ? area(left.x, below(left) - high, left.width, high)
    : area(x, below(column) - high, column.width, high);
  marks.push(...register(notes, after, foot));
  const noted = rest.marks.length === 0 ? first.y + 4 : below(extentOf(rest.marks)!);
  const show = area(first.x, noted + 8, first.width, below(first) - noted - 8);
  if (show.height >= PICTURE) marks.push(...picture(desk, { ...show, x: show.x + 4, width: show.width - 8 }));
  return [{ id: 'cover', chapter: 'Overview', title: 'Overview', marks }, ...notes];
}

/** What a chapter is for, in the order one reads, buys and builds. */
const FOR: Partial<Readonly<Record<Chapter, string>>> = {
  Overview: 'notes and what was checked',
  Room: 'measure again before anything is bought',
  Pieces: 'each piece with its joints and fittings',
  Parts: 'every part with its number and size',
  Cutting: 'where each part comes from, cut by cut',
  Buying: 'what to buy, by shop',
  Assembly: 'how each piece goes together',
  Labels: 'stick one on each part as it is cut',
  'Setting-out': 'holes and marks on the wall',
  'Story stick': 'heights at full size',
  Wiring: 'strip lights and their wires',
  Light: 'light on faces and walls',
  Sound: 'echo and where to treat it',
  Camera: 'what the camera sees',
  Calendar: 'what to do on which day',
  Workings: 'every sum with its source',
};
const ROW = LEADING + 0.4;

interface Chaptered {
  readonly chapter: Chapter;
  readonly numbers: string;
}
/** The chapters and the pages they are on: pages are numbered from the cover, which is 1. */
function chaptersOf(notes: number, after: readonly Draft[]): readonly Chaptered[] {
  const own = after.map((d, i) => ({ chapter: d.chapter, number: i + 2 + notes }));
  const first = {
    chapter: 'Overview' as const,
    numbers: numberRuns(Array.from({ length: notes + 1 }, (_, i) => i + 1)),
  };
  return [
    first,
    ...[...grouped(own, (p) => p.chapter)].map(([chapter, pages]) => ({
      chapter,
      numbers: numberRuns(pages.map((p) => p.number)),
    })),
  ];
}
const isWide = (width: number): boolean => width >= 96;
/** Where they end at the most, mm. */
const NUMBERS_END = 42;
/** Where the pages of a chapter end and what it is for begins, and that in its lines: where it has no room beside wide columns they are drawn together. */
function registerColumns(after: readonly Draft[], width: number): { readonly end: number; readonly told: Told } {
  // before it is known how many pages the notes take: a few, so that their numbers have room
  const rows = chaptersOf(9, after);
  const words = (end: number): Told =>
    rows.map(({ chapter }) => wrapText(FOR[chapter] ?? '', LETTER.small, width - end - 3));
  const roomy = words(NUMBERS_END);
  if (roomy.every((lines) => lines.length <= 1)) return { end: NUMBERS_END, told: roomy };
  const names = Math.max(...rows.map((r) => textWidth(r.chapter, LETTER.small, true)));
  const numbers = Math.max(...rows.map((r) => textWidth(r.numbers, LETTER.small)));
  const end = Math.min(NUMBERS_END, names + 4 + numbers);
  return { end, told: words(end) };
}
type Told = readonly (readonly string[])[];

function registerHeight(after: readonly Draft[], width: number): number {
  const { length } = chaptersOf(0, after);
  if (!isWide(width)) return 8 + ROW * Math.ceil(length / 2);
  return 8 + ROW * length + LEADING * moreLines(registerColumns(after, width).told);
}
const moreLines = (told: Told): number => told.reduce((sum, lines) => sum + Math.max(0, lines.length - 1), 0);

/** The register: chapters, their pages, and what each is for. */
function register(notes: readonly Draft[], after: readonly Draft[], place: Area): readonly Mark[] {
  const rows = chaptersOf(notes.length, after);
  const wide = isWide(place.width);
  const per = wide ? rows.length : Math.ceil(rows.length / 2);
  const half = (place.width - 6) / 2;
  const { end: numbersEnd, told } = registerColumns(after, place.width);
  return [
    ...heading('In this packet', place),
    ...rows.flatMap(({ chapter, numbers }, i): readonly Mark[] => {
      const x = place.x + (wide || i < per ? 0 : half + 6);
      const further = wide ? LEADING * moreLines(told.slice(0, i)) : 0;
      const y = place.y + 8 + ROW * ((i % per) + 1) - 1.4 + further;
      const end = x + (wide ? numbersEnd : half);
      return [
        text(x, y, chapter, { bold: true }),
        text(end, y, fitText(numbers, LETTER.small, 20), { align: 'right' }),
        ...(wide ? told[i]!.map((words, k) => text(end + 3, y + LEADING * k, words, { tone: 'faint' })) : []),
      ];
    }),
  ];
}

/** Less height than this, mm, and the picture on the cover is left out. */
const PICTURE = 45;

const inside = (a: Area): Area => area(a.x, a.y + 8, a.width, a.height - 8);
const heading = (words: string, a: Area): readonly Mark[] => [
  text(a.x, a.y + 3.5, words, { height: LETTER.head, bold: true }),
  line(a.x, a.y + 5.8, right(a), a.y + 5.8, 'visible'),
];

/** Notes that had no room on the cover, then what was checked and holds, in one run of columns. */
function notePages(desk: Desk, open: readonly NumberedNote[], held: readonly NumberedNote[]): readonly Draft[] {
  const { body } = desk.sheet;
  const width = (body.width - 10) / 2;
  const columns = [0, 1].map((i) => area(body.x + i * (width + 10), body.y, width, body.height));
  const sheets: Mark[][] = [];
  let spot: Spot = { column: columns.length, y: 0 };
  const lay = (head: string, notes: readonly NumberedNote[]): void => {
    let rest = notes;
    while (rest.length > 0) {
      if (spot.column >= columns.length) {
        sheets.push([]);
        spot = { column: 0, y: columns[0]!.y };
      }
      const place = columns[spot.column]!;
      // a heading over each column, and none alone at its foot
      const y = spot.y > place.y ? spot.y + 3 : spot.y;
      const under = layNotes(rest, [inside({ ...place, y, height: below(place) - y })]);
      if (under.left.length === rest.length && y === place.y) break; // one note larger than a sheet: nothing more can be done for it
      if (under.left.length < rest.length) {
        const words = rest === notes ? head : `${head}, continued`;
        sheets.at(-1)!.push(...heading(words, { ...place, y }), ...under.marks);
      }
      rest = under.left;
      spot =
        rest.length > 0
          ? { column: spot.column + 1, y: columns[spot.column + 1]?.y ?? 0 }
          : { ...spot, y: under.end.y };
    }
  };
  lay('Notes and cautions', open);
  lay('Checked, and it holds', held);
  const title =
    open.length === 0 ? 'Checked, and it holds' : held.length === 0 ? 'Notes and cautions' : 'Notes, and what holds';
  return sheets.map((marks, i) => ({
    id: `notes-${i + 1}`,
    chapter: 'Overview',
    title: sheets.length === 1 ? title : `${title}, ${i + 1} of ${sheets.length}`,
    marks,
  }));
}

/** As wide as the title of another option stands over its figures, mm, and in so many lines. */
const OPTION = { wide: 25, lines: 6 } as const;
function optionHead(title: string): string {
  const lines = wrapText(title, LETTER.small, OPTION.wide);
  const rest = lines.slice(OPTION.lines - 1).join(' ');
  return [...lines.slice(0, OPTION.lines - 1), ...(rest === '' ? [] : [fitText(rest, LETTER.small, OPTION.wide)])].join(
    '\n',
  );
}

/** This option's figures beside the others', and by how much each of those differs. */
function comparison({ input, letter }: Desk, place: Area): readonly Mark[] {
  const others = input.others ?? [];
  if (others.length === 0) return [];
  const columns: Column<Figure>[] = [
    { head: 'Compared', cell: (f) => f.name, share: 1 },
    {
      head: 'this option',
      cell: (f) => f.shown(input.tally, letter),
      align: 'right',
      bold: true,
    },
    ...others.slice(0, place.width < 130 ? 2 : 3).map(
      ({ title, tally }): Column<Figure> => ({
        head: optionHead(title),
        cell: (f) => f.shown(tally, letter),
        align: 'right',
      }),
    ),
  ];
  const rows: readonly Figure[] = [
    ...FIGURES,
    { name: 'Stop notes', shown: (t) => `${t.stops}` },
    { name: 'Cautions', shown: (t) => `${t.cautions}` },
  ];
  return layTable(
    columns,
    rows.map((row) => ({ row })),
    () => ({ ...place, height: 500 }),
  ).pieces.flat();
}
