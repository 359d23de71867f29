import { type Area, below, LETTER, line, rectangle, right, text } from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import type { Mark, Tone } from '../marks.ts';

export interface Column<R> {
  /** Of several lines where it is broken. */
  readonly head: string;
  readonly cell: (row: R) => string;
  readonly align?: 'left' | 'right';
  /** A column may grow to take what is left, by its share; the others are as wide as their widest cell. */
  readonly share?: number;
  /** Widest a column without a share may be; longer cells wrap. */
  readonly most?: number;
  readonly bold?: boolean;
  /** A little empty box to tick instead of words. */
  readonly tick?: true;
}
/** A row of the table, or a heading that keeps with the rows after it. */
export type TableRow<R> =
  | { readonly row: R; readonly tone?: Tone }
  | { readonly heading: string; readonly aside?: string };

const H = LETTER.small;
/** Distance of baselines. Source: ISO 3098-1:2015, type B lettering: at least 1.5 h between lines without accents. */
export const LEADING = 4.2;
const PAD = 1.3;
const BETWEEN = 3.2;
const HEAD = LEADING + 2.6; // of one line
const headLines = <R>(c: Column<R>): readonly string[] => c.head.split('\n');

/**
 * A table laid into one area after another, broken between rows; its head stands on each. `areaOf(n)` is the area for its n-th
 * piece. Returns the marks of each piece and where the last one ends.
 */
export function layTable<R>(
  columns: readonly Column<R>[],
  rows: readonly TableRow<R>[],
  areaOf: (index: number) => Area,
): { readonly pieces: readonly (readonly Mark[])[]; readonly end: number } {
  const lines = Math.max(...columns.map((c) => headLines(c).length));
  const headHigh = HEAD + (lines - 1) * LEADING;
  const laidIn = (total: number) => {
    const widths = columnWidths(columns, rows, total);
    const laid = rows.map((row) => {
      if ('heading' in row) return { row, lines: [], height: LEADING + 4.5 };
      const lines = columns.map((c, i) => wrapText(c.cell(row.row), H, widths[i]! + 1e-6, c.bold));
      return { row, lines, height: Math.max(...lines.map((l) => l.length)) * LEADING + PAD };
    });
    return { widths, laid, broken: brokenAt(laid, headHigh, areaOf) };
  };
  const first = laidIn(areaOf(0).width);
  // columns stand alike in all its pieces: as wide as the narrowest of them lets
  const narrowest = Math.min(...first.broken.map((_, n) => areaOf(n).width));
  const { widths, laid, broken } = narrowest < areaOf(0).width ? laidIn(narrowest) : first;
  const lefts = widths.map((_, i) => widths.slice(0, i).reduce((sum, w) => sum + w + BETWEEN, 0));
  const starts = new Set(broken);
  const pieces: Mark[][] = [];
  let place = areaOf(0);
  let y = Number.POSITIVE_INFINITY;
  const begin = (): void => {
    place = areaOf(pieces.length);
    const marks: Mark[] = [];
    columns.forEach((c, i) => {
      headLines(c).forEach((words, k, own) => {
        const base = place.y + LEADING * (lines - own.length + k + 1);
        marks.push(cellText(c, words, place.x + lefts[i]!, widths[i]!, base, 'faint', false));
      });
    });
    marks.push(line(place.x, place.y + headHigh - 1.4, right(place), place.y + headHigh - 1.4, 'visible'));
    pieces.push(marks);
    y = place.y + headHigh;
  };
  laid.forEach(({ row, lines, height }, index) => {
    if (starts.has(index)) begin();
    const marks = pieces.at(-1)!;
    if ('heading' in row) {
      const base = y + LEADING + 1.6;
      marks.push(text(place.x, base, row.heading, { bold: true }));
      if (row.aside !== undefined) marks.push(text(right(place), base, row.aside, { align: 'right', tone: 'faint' }));
      marks.push(line(place.x, base + 1.7, right(place), base + 1.7, 'thin'));
    } else {
      columns.forEach((c, i) => {
        if (c.tick) marks.push(tickBox(place.x + lefts[i]!, y + LEADING - 0.2));
        lines[i]!.forEach((words, k) => {
          marks.push(cellText(c, words, place.x + lefts[i]!, widths[i]!, y + LEADING * (k + 1) - 0.6, row.tone));
        });
      });
      marks.push(line(place.x, y + height, right(place), y + height, 'thin', 'faint'));
    }
    y += height;
  });
  return { pieces, end: pieces.length === 0 ? areaOf(0).y : y };
}

interface Laid {
  readonly row: object;
  readonly height: number;
}
const isHeading = ({ row }: Laid): boolean => 'heading' in row;
/** Fewer rows than these look lost on a sheet of their own. Common practice. */
const FEW = 5;

/** The row that each piece begins with: no heading at a foot, and no few rows alone on the last where those before can spare some. */
function brokenAt(laid: readonly Laid[], head: number, areaOf: (index: number) => Area): readonly number[] {
  const starts: number[] = [];
  let y = Number.POSITIVE_INFINITY;
  laid.forEach((item, index) => {
    const next = isHeading(item) ? (laid[index + 1]?.height ?? 0) : 0;
    if (starts.length === 0 || y + item.height + next > below(areaOf(starts.length - 1))) {
      y = areaOf(starts.length).y + head;
      starts.push(index);
    }
    y += item.height;
  });
  const [last, before] = [starts.at(-1), starts.at(-2)];
  if (last === undefined || before === undefined || laid.length - last >= FEW) return starts;
  for (let few = FEW; few > laid.length - last; few--) {
    let from = laid.length - few;
    while (from > before && isHeading(laid[from - 1]!)) from -= 1;
    const high = laid.slice(from).reduce((sum, { height }) => sum + height, head);
    // what is left before it must not be fewer
    if (from - before >= laid.length - from && high <= areaOf(starts.length - 1).height)
      return [...starts.slice(0, -1), from];
  }
  return starts;
}

function cellText<R>(
  c: Column<R>,
  words: string,
  x: number,
  width: number,
  y: number,
  tone?: Tone,
  bold = c.bold ?? false,
): Mark {
  return text(c.align === 'right' ? x + width : x, y, words, {
    ...(c.align === 'right' && { align: 'right' }),
    ...(bold && { bold }),
    ...(tone && { tone }),
  });
}

function columnWidths<R>(
  columns: readonly Column<R>[],
  rows: readonly TableRow<R>[],
  total: number,
): readonly number[] {
  const natural = columns.map((c) => {
    const words = [...headLines(c), ...rows.flatMap((r) => ('row' in r ? [c.cell(r.row)] : []))];
    return (
      Math.min(c.most ?? Infinity, Math.max(c.tick ? 3.2 : 0, ...words.map((w) => textWidth(w, H, c.bold)))) + 0.01
    );
  });
  const shares = columns.map((c) => c.share ?? 0);
  const shared = shares.reduce((sum, s) => sum + s, 0);
  const spare = total - BETWEEN * (columns.length - 1);
  const sumOf = (widths: readonly number[]): number => widths.reduce((a, b) => a + b, 0);
  const left = spare - sumOf(natural.filter((_, i) => shares[i] === 0));
  if (shared > 0 && left > 22 * shares.filter((s) => s > 0).length)
    return natural.map((w, i) => (shares[i] === 0 ? w : (left * shares[i]!) / shared));
  if (shared === 0 && sumOf(natural) <= spare) return natural;
  // Too wide altogether: words give way before figures do, none narrower than its longest word while that can be helped.
  const least = columns.map((c, i) => {
    if (c.align === 'right' || c.tick) return natural[i]!;
    const words = [...headLines(c), ...rows.flatMap((r) => ('row' in r ? [c.cell(r.row)] : []))].flatMap((w) =>
      w.split(' '),
    );
    return Math.min(natural[i]!, Math.max(...words.map((w) => textWidth(w, H, c.bold))) + 0.01);
  });
  const [most, few] = [sumOf(natural), sumOf(least)];
  if (few > spare) return natural.map((w) => (w * spare) / most);
  const ease = (spare - few) / (most - few);
  return natural.map((w, i) => least[i]! + (w - least[i]!) * Math.min(1, ease));
}

/** A little empty box to tick. */
export const tickBox = (x: number, y: number, size = 3): Mark =>
  rectangle({ x, y: y - size, width: size, height: size }, { pen: 'visible' });
