import { type Direction, type Part, type Sticking, stickingOf } from '../../scene/index.ts';
import { codeModules, QUIET_MODULES } from '../code.ts';
import { type Area, area, below, group, LETTER, line, point, polygon, rectangle, right, text } from '../draw.ts';
import { fitEnds, fitText, textWidth, wrapText } from '../font/measure.ts';
import { LEADING } from '../layout/table.ts';
import { type Mark, PAPERS, type PaperName, type Point } from '../marks.ts';
import type { Desk, NumberedPart } from './desk.ts';
import type { Draft } from './sheet.ts';

/** A sheet of labels by its plain measures in mm: how many across and down, their size, the first one's place, the gaps between. */
export interface LabelSheet {
  readonly paper: PaperName;
  readonly columns: number;
  readonly rows: number;
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  readonly across: number;
  readonly down: number;
  /** Draw lines to cut along: plain paper. */
  readonly cut?: true;
}
const INCH = 25.4;

/**
 * Common geometries, by paper and columns × rows. The sizes are common practice among sheets sold; printers differ by a
 * millimetre, so a first sheet on plain paper held against the light shows whether they meet.
 */
export const LABEL_SHEETS: Readonly<Record<string, LabelSheet>> = {
  'A4 plain': {
    paper: 'A4',
    columns: 3,
    rows: 7,
    width: 64,
    height: 38,
    left: 9,
    top: 15.5,
    across: 0,
    down: 0,
    cut: true,
  },
  'Letter plain': {
    paper: 'Letter',
    columns: 3,
    rows: 7,
    width: 64,
    height: 37,
    left: 11.95,
    top: 10.2,
    across: 0,
    down: 0,
    cut: true,
  },
  'A4 2x7': {
    paper: 'A4',
    columns: 2,
    rows: 7,
    width: 99.1,
    height: 38.1,
    left: 4.65,
    top: 15.15,
    across: 2.5,
    down: 0,
  },
  'A4 3x7': {
    paper: 'A4',
    columns: 3,
    rows: 7,
    width: 63.5,
    height: 38.1,
    left: 7.25,
    top: 15.15,
    across: 2.5,
    down: 0,
  },
  'A4 2x8': {
    paper: 'A4',
    columns: 2,
    rows: 8,
    width: 99.1,
    height: 33.9,
    left: 4.65,
    top: 12.9,
    across: 2.5,
    down: 0,
  },
  'Letter 2x5': {
    paper: 'Letter',
    columns: 2,
    rows: 5,
    width: 4 * INCH,
    height: 2 * INCH,
    left: 0.15625 * INCH,
    top: 0.5 * INCH,
    across: 0.1875 * INCH,
    down: 0,
  },
  'Letter 2x7': {
    paper: 'Letter',
    columns: 2,
    rows: 7,
    width: 4 * INCH,
    height: (4 / 3) * INCH,
    left: 0.15625 * INCH,
    top: (5 / 6) * INCH,
    across: 0.1875 * INCH,
    down: 0,
  },
};

/** The sheet asked for by name; left out, plain paper near the packet's own size. */
export function labelSheet(paper: PaperName, name?: string): LabelSheet {
  const inches = paper === 'Letter' || paper === 'Tabloid';
  return LABEL_SHEETS[name ?? ''] ?? LABEL_SHEETS[inches ? 'Letter plain' : 'A4 plain']!;
}

/**
 * On plain paper a row more on every sheet, where that spares one that would carry no more than a row, and the labels stay high enough for
 * their codes and words.
 */
export function withoutRemnant(sheet: LabelSheet, count: number): LabelSheet {
  const { cut, columns, rows, paper } = sheet;
  const whole = Math.floor(count / (columns * rows));
  const over = count - whole * columns * rows;
  const height = (PAPERS[paper].height - 2 * UNPRINTED) / (rows + 1);
  const spares = over > 0 && over <= columns && count <= whole * columns * (rows + 1);
  return cut && spares && height >= LEAST ? { ...sheet, rows: rows + 1, height, top: UNPRINTED } : sheet;
}
/** What printers leave bare at the edge of a sheet, with some air, mm. Common practice. */
const UNPRINTED = 6.5;
/** Height of a label on plain paper at least, mm. */
const LEAST = 35;

/** One label for each part: number, place, name, size, a code with its id, on which face it is stuck and where its arrow points. */
export function labelPages(desk: Desk, asked: LabelSheet): readonly Draft[] {
  const sheet = withoutRemnant(asked, desk.numbered().parts.length);
  const perSheet = sheet.columns * sheet.rows;
  const sheets = Math.ceil(desk.numbered().parts.length / perSheet);
  const { width, height } = PAPERS[sheet.paper];
  return Array.from({ length: sheets }, (_, i): Draft => {
    const parts = desk.numbered().parts.slice(i * perSheet, (i + 1) * perSheet);
    const marks = parts.flatMap((part, k): readonly Mark[] => {
      const column = k % sheet.columns;
      const row = Math.floor(k / sheet.columns);
      const at = area(
        sheet.left + column * (sheet.width + sheet.across),
        sheet.top + row * (sheet.height + sheet.down),
        sheet.width,
        sheet.height,
      );
      return [
        group(part.part.id, [
          ...(sheet.cut ? [rectangle(at, { pen: 'thin', tone: 'faint' })] : []),
          ...label(desk, part, at),
        ]),
      ];
    });
    return {
      id: `labels-${i + 1}`,
      chapter: 'Labels',
      title: sheets === 1 ? 'Labels' : `Labels, ${i + 1} of ${sheets}`,
      marks,
      bare: { width, height },
    };
  });
}

const PAD = 3;
/** How much nearer to the code the place of the part may come than the words below it, mm. */
const BESIDE = 2.5;
/** How high what tells where it is stuck is, mm. */
const ORIENTED = 7.5;

function label({ letter, input }: Desk, { part, piece, number }: NumberedPart, at: Area): readonly Mark[] {
  const column = Math.min(at.height - 2 * PAD - 7, 20);
  const inner = area(at.x + PAD, at.y + PAD, at.width - 2 * PAD, at.height - 2 * PAD);
  const words = inner.width - column - BESIDE - 1.5;
  const said = codeText(input.plan.title, part.id, number);
  const { count } = codeModules(said);
  // nothing stands in its quiet zone: no edge of the label, no words on its left, no arrow below it
  const code = Math.min(
    (PAD / QUIET_MODULES) * count,
    (Math.min(column + 1.5, inner.height - 1 - ORIENTED) * count) / (count + QUIET_MODULES),
  );
  const numberWidth = textWidth(`${number}`, LETTER.cover, true);
  // between the number and the code; a word that is wider still is cut short, not broken
  const beside = words + BESIDE - numberWidth - 2.5;
  const whole = held(part.label.place || piece.title)
    .split(' ')
    .map((word) => fitText(word, LETTER.small, beside))
    .join(' ');
  const size = `${letter.figure(part.cut.length)} × ${letter.figure(part.cut.width)}`;
  const banded = bandWords(part);
  const asTwo = [[size, ...banded].join(', '), part.stock];
  const wide = asTwo.some((w) => textWidth(w, LETTER.small) > words);
  const lines = (wide ? [size, part.stock, ...banded] : asTwo).map((w) => fitText(w, LETTER.small, words));
  // A long place takes a line or two more where there is room. A long name on a small label is written smaller rather than cut short, or
  // what it is cut to left out.
  const foot = below(inner) - 0.4;
  const name = held(part.label.name);
  const long = Math.min(4, Math.max(2, wrapText(whole, LETTER.small, beside).length));
  const tried = [long, 2].flatMap((most) => [LETTER.head, LETTER.small].map((height) => ({ most, height })));
  const named = tried.map(({ most, height }) => {
    const own = linesIn(name, height, words, 2, true);
    const isWhole = wrapText(name, height, words, true).length <= own.length;
    const step = height === LETTER.head ? 5 : LEADING;
    const base = inner.y + LETTER.cover + (height === LETTER.head ? 7.4 : 6.2) + (most - 2) * LEADING;
    // letters below the line of the last name, and what reaches above the capitals of the next
    const room =
      Math.floor((foot - (base + (own.length - 1) * step) - 0.32 * height - 1.2 * LETTER.small) / LEADING) + 1;
    return { most, height, own, step, base, room: Math.max(0, room), fits: isWhole && room >= lines.length };
  });
  const { most, height, own, step, base, room } = named.find((n) => n.fits) ?? named.at(-1)!;
  const place = linesIn(whole, LETTER.small, beside, most, false, fitText);
  const marks: Mark[] = [
    text(inner.x, inner.y + LETTER.cover, `${number}`, { height: LETTER.cover, bold: true }),
    ...place.map((w, i) => text(inner.x + numberWidth + 2.5, inner.y + 2.7 + i * LEADING, w)),
  ];
  marks.push(...own.map((w, i) => text(inner.x, base + i * step, w, { height, bold: true })));
  // the size comes before all else
  const kept = lines.slice(0, room);
  marks.push(...kept.map((w, i) => text(inner.x, foot - (kept.length - 1 - i) * LEADING, w)));
  const x = right(inner) - code;
  marks.push({
    kind: 'code',
    at: point(x, inner.y + 1),
    size: code,
    text: said,
  });
  marks.push(...orientation(stickingOf(part), area(right(inner) - column, below(inner) - ORIENTED, column, ORIENTED)));
  return marks;
}

/** No line begins with the number of what the one before it names: `bay 2`, `1 of 2`. */
const held = (words: string): string =>
  words.replace(/(?<=\d) of (?=\d)| (?=\d)/g, (gap) => gap.replaceAll(' ', '\u00a0'));

/** A text in so many lines, the last cut short with an ellipsis where there are more: names of parts differ at their ends. */
function linesIn(
  words: string,
  height: number,
  width: number,
  most: number,
  bold = false,
  fit = fitEnds,
): readonly string[] {
  const lines = wrapText(words, height, width, bold);
  if (lines.length <= most) return lines;
  const rest = lines.slice(most - 1).join(' ');
  return [...lines.slice(0, most - 1), fit(rest, height, width, bold)];
}

/** What the code says: number, part and plan, readable by any reader without a network. */
export const codeText = (plan: string, part: string, number: number): string => `${number} ${part} | ${plan}`;

/** What the sides of a part are called on its label: directions of the piece as it will stand. */
export const SIDE_ON_LABEL: Readonly<Record<Direction, string>> = {
  left: 'left',
  right: 'right',
  up: 'top',
  down: 'under',
  back: 'back',
  front: 'front',
};
/** One or two banded edges by their side: which one it is cannot be told from the part. */
function bandWords({ edges }: Part): readonly string[] {
  if (edges.length === 0) return [];
  return [
    edges.length > 2
      ? `band ${edges.length} edges`
      : `band ${edges.map(({ towards }) => (towards === 'down' ? 'foot' : SIDE_ON_LABEL[towards])).join(', ')}`,
  ];
}

/**
 * Orientation: an arrow as the label reads, and a little box seen from its front upper right: its filled side is the one the label is
 * stuck on, said in words too, and the small arrow on it goes where the large one does: up, or to the front on what lies flat.
 */
function orientation({ face, arrow }: Sticking, at: Area): readonly Mark[] {
  const s = 4;
  const d = 1.8;
  const x = right(at) - s - d;
  const y = below(at) - s;
  const front = [point(x, y), point(x + s, y), point(x + s, y + s), point(x, y + s)];
  const top = [point(x, y), point(x + d, y - d), point(x + s + d, y - d), point(x + s, y)];
  const beside = [point(x + s, y), point(x + s + d, y - d), point(x + s + d, y + s - d), point(x + s, y + s)];
  // Seen from the left for a face on the left, from below for one underneath: the box mirrored.
  const mirrorX = (p: Point): Point => point(2 * x + s + d - p.x, p.y);
  const mirrorY = (p: Point): Point => point(p.x, 2 * y + s - d - p.y);
  const mirrored = face === 'left' ? mirrorX : face === 'down' ? mirrorY : (p: Point): Point => p;
  const filled =
    face === 'front' ? front : face === 'up' || face === 'down' ? top : face === 'back' ? undefined : beside;
  const box = [front, top, beside].map((side) =>
    polygon(side.map(mirrored), { pen: 'thin', fill: side === filled ? 'ink' : 'paper' }),
  );
  return [
    ...upright(area(at.x, at.y + 0.4, 5, at.height - 0.4)),
    ...box,
    ...(filled ? [polygon(pointer(filled, arrow).map(mirrored), { fill: 'paper' })] : []),
    text(x - 1, below(at), SIDE_ON_LABEL[face], { align: 'right' }),
  ];
}

/** A small arrow in a four-sided face of the box: up, or to the front, which on the upper face is towards its first edge. */
function pointer([a, b, , d]: readonly Point[], arrow: Direction): readonly Point[] {
  const flat = arrow === 'front';
  const at = (u: number, v: number): Point =>
    point(a!.x + (b!.x - a!.x) * u + (d!.x - a!.x) * v, a!.y + (b!.y - a!.y) * u + (d!.y - a!.y) * v);
  // the first corner of a face is its upper left, of the top the front left: its second edge goes to the back
  return flat ? [at(0.15, 0.5), at(0.8, 0.25), at(0.8, 0.75)] : [at(0.5, 0.15), at(0.8, 0.8), at(0.2, 0.8)];
}

/** An arrow pointing the way the label's own top goes. */
function upright(at: Area): readonly Mark[] {
  const c = at.x + at.width / 2;
  return [
    polygon([point(c, at.y), point(c + 1.9, at.y + 3.2), point(c - 1.9, at.y + 3.2)], { fill: 'ink' }),
    line(c, at.y + 3, c, below(at), 'outline'),
  ];
}
