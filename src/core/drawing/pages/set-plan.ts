import type { Vec3 } from '../../geometry/index.ts';
import { bodyOf } from '../../surroundings/index.ts';
import {
  type Area,
  area,
  below,
  edgesOfArea,
  extentOf,
  LETTER,
  overlaps,
  polygon,
  rectangle,
  text,
  textArea,
} from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import { type Places, placesIn, takeFirst } from '../layout/place.ts';
import { type Column, LEADING, layTable } from '../layout/table.ts';
import type { Mark, Point } from '../marks.ts';
import { layView } from '../view/dimensioned.ts';
import { onPaper } from '../view/view.ts';
import type { Desk } from './desk.ts';
import type { Draft } from './sheet.ts';

/** The bare plan that the pages of light, sound and wiring are drawn on: walls, and what stands in the room in thin lines. */
export function setPlan(desk: Desk, into: Area) {
  const { outline } = desk.input.room;
  const [xs, zs] = [outline.map((p) => p.x), outline.map((p) => p.z)];
  const { place, scale } = layView({
    u: [Math.min(...xs), Math.max(...xs)],
    v: [Math.min(...zs), Math.max(...zs)],
    into,
    letter: desk.letter,
    stand: 'top',
  });
  const at = (p: Vec3): Point => onPaper(place, p.x, p.z);
  const boxes = desk.input.pieces
    .filter((p) => !['lamp', 'strip', 'camera', 'seat'].includes(p.kind))
    .map((p) => {
      const [a, b] = [at(bodyOf(p).min), at(bodyOf(p).max)];
      return area(a.x, a.y, b.x - a.x, b.y - a.y);
    });
  const places: Places = placesIn(into, alongWalls(outline.map(at)));
  return {
    marks: [
      ...boxes.map((box) => rectangle(box, { pen: 'thin', tone: 'faint' })),
      polygon(outline.map(at), { pen: 'wall' }),
    ],
    at,
    place,
    scale,
    places,
    lines: boxes.flatMap(edgesOfArea),
  };
}

/** Half of the line that walls are drawn with, and a little air, mm. */
const WALL = 0.8;
/** Small squares along the lines of the walls, so that no word is written on them. */
function alongWalls(corners: readonly Point[]): readonly Area[] {
  return corners.flatMap((a, i) => {
    const b = corners[(i + 1) % corners.length]!;
    const steps = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / (2 * WALL)));
    return Array.from({ length: steps + 1 }, (_, k) => {
      const [x, y] = [a.x + ((b.x - a.x) * k) / steps, a.y + ((b.y - a.y) * k) / steps];
      return area(x - WALL, y - WALL, 2 * WALL, 2 * WALL);
    });
  });
}

const AROUND = [
  [0, -1],
  [0, 1],
  [1, 0],
  [-1, 0],
  [1, -1],
  [-1, -1],
  [1, 1],
  [-1, 1],
] as const;

/** How far from a point words stand, and how much further they rather stand than over a line of what stands there, mm. */
const FAR = [4, 6, 9, 12, 16];
const OVER = 7;

/** Words near a point, where nothing else is written, and rather over none of the lines; nothing when there is no room. */
export function wordsAt(
  places: Places,
  at: Point,
  words: string,
  { lines, bold = false }: { readonly lines: readonly Area[]; readonly bold?: boolean },
): readonly Mark[] {
  const half = textWidth(words, LETTER.small, bold) / 2;
  // above and below, then beside the point by half of the words, then slanting off it
  const spots = FAR.flatMap((far) =>
    AROUND.map(([dx, dy]) => {
      const x = at.x + dx * (half + (dy === 0 ? far - 1.5 : 1.5));
      const mark = text(x, at.y + dy * far, words, { align: 'centre', anchor: 'middle', bold });
      const own = textArea(mark);
      return { mark, area: own, cost: far + (lines.some((line) => overlaps(line, own)) ? OVER : 0) };
    }),
  );
  const found = takeFirst(
    places,
    spots.toSorted((a, b) => a.cost - b.cost),
  );
  // what is drawn there is broken for them, as for a dimension
  return found ? [rectangle(found.area, { fill: 'paper' }), found.mark] : [];
}

/** Something under its own heading: a table that may break between rows, or words that keep together. */
export interface Block {
  readonly head: string;
  /** Height of the least of it that may stand under the heading in a column of some width, mm. */
  readonly least: (width: number) => number;
  /** Rather whole in the next column than with a few lines of it alone there. */
  readonly whole?: true;
  /** Lays it into one area after another; the marks of each, and where the last one ends. */
  readonly lay: (areaOf: (index: number) => Area) => {
    readonly pieces: readonly (readonly Mark[])[];
    readonly end: number;
  };
}

const HEAD = 7;
const AFTER = 5;
/** Less than this of a block looks lost at the head of a column, mm. Common practice. */
const LOST = 20;

/** Blocks one under another, in one column after another: the marks of each column that was begun. */
export function flow(blocks: readonly Block[], columnAt: (index: number) => Area): readonly (readonly Mark[])[] {
  const columns: Mark[][] = [];
  let index = 0;
  let y = columnAt(0).y;
  const put = (k: number, marks: readonly Mark[]): void => {
    while (columns.length <= k) columns.push([]);
    columns[k]!.push(...marks);
  };
  for (const [n, { head, least, whole: together, lay }] of blocks.entries()) {
    const whole = columnAt(index);
    const nextColumn = (): void => {
      index += 1;
      y = columnAt(index).y;
    };
    if (y > whole.y && y + HEAD + least(whole.width) > whole.y + whole.height) nextColumn();
    const laidFrom = (column: number, from: number) => {
      const own = columnAt(column);
      const under = area(own.x, from + HEAD, own.width, own.y + own.height - from - HEAD);
      return lay((n) => (n === 0 ? under : columnAt(column + n)));
    };
    let laid = laidFrom(index, y);
    // a first row may be taller than the least that was reckoned with
    const reach = extentOf(laid.pieces[0] ?? []);
    const { y: highest, height } = columnAt(index);
    if (reach && y > highest && reach.y + reach.height > highest + height) {
      nextColumn();
      laid = laidFrom(index, y);
    }
    const over = laid.pieces.length === 2 && together ? extentOf(laid.pieces[1]!) : undefined;
    // the last block stands whole too: nothing after it needs what it leaves
    if (over && (over.height < LOST || n === blocks.length - 1) && y > columnAt(index).y) {
      const alone = laidFrom(index + 1, columnAt(index + 1).y);
      if (alone.pieces.length === 1) {
        nextColumn();
        laid = alone;
      }
    }
    const { pieces, end } = laid;
    const [start, top, place] = [index, y, columnAt(index)];
    if (pieces.length === 0) continue;
    put(start, [text(place.x, top + 4, head, { height: LETTER.head, bold: true })]);
    pieces.forEach((marks, n) => {
      put(start + n, marks);
    });
    index = start + pieces.length - 1;
    y = end + AFTER;
  }
  return columns;
}

/** So few rows of a table belong together. */
const SHORT = 6;

/** A table as a block: left out where it has no rows. */
export function tableOf<R>(head: string, columns: readonly Column<R>[], rows: readonly R[]): Block {
  return {
    head,
    least: () => 8 + 2 * LEADING,
    ...(rows.length <= SHORT && { whole: true as const }),
    lay: (areaOf) => {
      if (rows.length === 0) return { pieces: [], end: 0 };
      return layTable(
        columns,
        rows.map((row) => ({ row })),
        areaOf,
      );
    },
  };
}

/** Words as a block: paragraphs, each begun by a number where there are several steps. */
export function wordsOf(head: string, paragraphs: readonly string[], numbered = false): Block {
  const lines = (width: number): readonly (readonly string[])[] =>
    paragraphs.map((p) => wrapText(p, LETTER.small, width - (numbered ? 5 : 0)));
  return {
    head,
    // what is short may stand where more would have to be broken
    least: (width) =>
      Math.min(
        30,
        lines(width).reduce((sum, l) => sum + l.length * LEADING + 1.4, 0),
      ),
    whole: true,
    lay: (areaOf) => {
      if (paragraphs.length === 0) return { pieces: [], end: 0 };
      const pieces: Mark[][] = [[]];
      let place = areaOf(0);
      let y = place.y;
      lines(place.width).forEach((wrapped, k) => {
        if (y + wrapped.length * LEADING > place.y + place.height) {
          place = areaOf(pieces.length);
          pieces.push([]);
          y = place.y;
        }
        const marks = pieces.at(-1)!;
        if (numbered) marks.push(text(place.x, y + LEADING - 0.6, `${k + 1}`, { bold: true }));
        wrapped.forEach((words, i) => {
          marks.push(text(place.x + (numbered ? 5 : 0), y + LEADING * (i + 1) - 0.6, words));
        });
        y += wrapped.length * LEADING + 1.4;
      });
      return { pieces, end: y };
    },
  };
}

/** The least place under a drawing that words are put into, mm. */
const LEAST_FREE = 34;
/** What is left of a column under what is drawn in it, for blocks to go on in: nothing where that is little. */
export function freeUnder(drawn: readonly Mark[], column: Area): readonly Area[] {
  const extent = extentOf(drawn);
  const top = extent ? below(extent) + 5 : column.y;
  const free = area(column.x, top, column.width, below(column) - top);
  return free.height < LEAST_FREE ? [] : [free];
}

/**
 * Of several ways to lay the same, the roomiest first, the first one that takes the fewest sheets: rather one closer sheet than a second
 * with little on it.
 */
export function fewestSheets(ways: readonly (() => readonly Draft[])[]): readonly Draft[] {
  let best: readonly Draft[] = [];
  for (const way of ways) {
    const pages = way();
    if (pages.length === 1) return pages;
    if (best.length === 0 || pages.length < best.length) best = pages;
  }
  return best;
}

/** Blocks down the given columns of a first page, and on as many pages of two columns after it as they need. */
export function pagesOf(
  desk: Desk,
  first: Draft,
  columns: readonly Area[],
  blocks: readonly Block[],
): readonly Draft[] {
  const { body } = desk.sheet;
  const half = (body.width - 8) / 2;
  const columnAt = (k: number): Area => {
    const own = columns[k];
    if (own) return own;
    const side = (k - columns.length) % 2;
    return area(body.x + side * (half + 8), body.y, half, body.height);
  };
  const laid = flow(blocks, columnAt);
  const rest = laid.slice(columns.length);
  return [
    { ...first, marks: [...first.marks, ...laid.slice(0, columns.length).flat()] },
    ...Array.from({ length: Math.ceil(rest.length / 2) }, (_, k): Draft => {
      const { scale: _scale, view: _view, ...same } = first;
      return {
        ...same,
        id: `${first.id}-${k + 2}`,
        title: `${first.title}, continued`,
        marks: [...(rest[2 * k] ?? []), ...(rest[2 * k + 1] ?? [])],
      };
    }),
  ];
}
