import { type Area, below, overlaps, right } from '../draw.ts';
import type { Point } from '../marks.ts';

/** mm of paper: a balloon wide, so that few things lie in a square and few squares under a thing. */
const SIDE = 6;
/** A line that runs along the edge of a square is looked for on both sides of it. */
const SLACK = 1e-6;

/**
 * What lies on a sheet, kept by the squares of it, so that what is over an area or on the way of a line is looked for only there. What
 * lies beside the sheet is kept in the squares at its edge. Mutable: it grows.
 */
export interface Squares {
  readonly within: Area;
  readonly all: Area[];
  /** Of each of them its left, upper, right and lower edge, one behind the other: read so often that looking into each takes long. */
  readonly edges: number[];
  readonly columns: number;
  readonly rows: number;
  /** By square, row after row: the places in `all` of what lies over it. */
  readonly under: (number[] | undefined)[];
  /** For each of `all`, the last asking that met it: most lie over several squares. */
  readonly met: number[];
  asked: number;
}

export function squaresIn(within: Area): Squares {
  const columns = Math.max(1, Math.ceil(within.width / SIDE));
  const rows = Math.max(1, Math.ceil(within.height / SIDE));
  return { within, all: [], edges: [], columns, rows, under: new Array(columns * rows), met: [], asked: 0 };
}

const indexIn = (at: number, start: number, count: number): number =>
  Math.max(0, Math.min(count - 1, Math.floor((at - start) / SIDE)));
const columnAt = ({ within, columns }: Squares, x: number): number => indexIn(x, within.x, columns);
const rowAt = ({ within, rows }: Squares, y: number): number => indexIn(y, within.y, rows);

export function lay(squares: Squares, a: Area): void {
  const { all, edges, under, columns, met } = squares;
  const i = all.push(a) - 1;
  edges.push(a.x, a.y, right(a), below(a));
  met.push(0);
  const [first, last] = [columnAt(squares, a.x), columnAt(squares, right(a))];
  const [top, bottom] = [rowAt(squares, a.y), rowAt(squares, below(a))];
  for (let row = top; row <= bottom; row++)
    for (let column = first; column <= last; column++) {
      const at = row * columns + column;
      const here = under[at];
      if (here) here.push(i);
      else under[at] = [i];
    }
}

/** Takes away what was laid last, so that the first `count` are left. */
export function takeBack(squares: Squares, count: number): void {
  const { all, edges, under, columns, met } = squares;
  for (let i = all.length - 1; i >= count; i--) {
    const a = all[i]!;
    const [first, last] = [columnAt(squares, a.x), columnAt(squares, right(a))];
    const [top, bottom] = [rowAt(squares, a.y), rowAt(squares, below(a))];
    // what was laid last is the last in each of its squares
    for (let row = top; row <= bottom; row++)
      for (let column = first; column <= last; column++) under[row * columns + column]!.pop();
  }
  all.length = count;
  edges.length = 4 * count;
  met.length = count;
}

/** Whether anything lies over an area, if only in part. */
export const isTaken = (squares: Squares, a: Area): boolean => isTakenAt(squares, a.x, a.y, right(a), below(a));

/** The same of an area between two upright and two level edges: asked so often that none is made for it. */
export function isTakenAt(squares: Squares, x: number, y: number, end: number, deep: number): boolean {
  const { edges, under, columns } = squares;
  const last = columnAt(squares, end);
  const bottom = rowAt(squares, deep);
  for (let row = rowAt(squares, y); row <= bottom; row++)
    for (let column = columnAt(squares, x); column <= last; column++) {
      const here = under[row * columns + column];
      if (!here) continue;
      for (const i of here)
        if (edges[4 * i]! < end && x < edges[4 * i + 2]! && edges[4 * i + 1]! < deep && y < edges[4 * i + 3]!)
          return true;
    }
  return false;
}

/** All that lies over an area, in the order in which it was laid. */
export function over(squares: Squares, a: Area): readonly Area[] {
  const { all, under, columns, met } = squares;
  const now = ++squares.asked;
  const found: number[] = [];
  const last = columnAt(squares, right(a));
  const bottom = rowAt(squares, below(a));
  for (let row = rowAt(squares, a.y); row <= bottom; row++)
    for (let column = columnAt(squares, a.x); column <= last; column++) {
      const here = under[row * columns + column];
      if (!here) continue;
      for (const i of here) {
        if (met[i] === now) continue;
        met[i] = now;
        if (overlaps(all[i]!, a)) found.push(i);
      }
    }
  return found.sort((i, k) => i - k).map((i) => all[i]!);
}

/** All that a straight line goes through, in no order that means anything. */
export function onTheWay(squares: Squares, from: Point, to: Point): readonly Area[] {
  const { within, all, under, columns, met } = squares;
  const now = ++squares.asked;
  const found: Area[] = [];
  const [a, b] = from.x <= to.x ? [from, to] : [to, from];
  const first = columnAt(squares, a.x - SLACK);
  const last = columnAt(squares, b.x + SLACK);
  const rise = b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0;
  const [least, most] = a.y < b.y ? [a.y, b.y] : [b.y, a.y];
  for (let column = first; column <= last; column++) {
    let [low, high] = [least, most];
    if (first < last) {
      // the stretch of the line over this column; what lies beside the sheet is under the outermost ones
      const start = column === first ? a.x : within.x + column * SIDE;
      const end = column === last ? b.x : within.x + (column + 1) * SIDE;
      const [one, other] = [a.y + rise * (start - a.x), a.y + rise * (end - a.x)];
      low = Math.min(one, other);
      high = Math.max(one, other);
    }
    const bottom = rowAt(squares, high + SLACK);
    for (let row = rowAt(squares, low - SLACK); row <= bottom; row++) {
      const here = under[row * columns + column];
      if (!here) continue;
      for (const i of here) {
        if (met[i] === now) continue;
        met[i] = now;
        if (crosses(from, to, all[i]!)) found.push(all[i]!);
      }
    }
  }
  return found;
}

/** A direction, by the cosine and the sine of its angle. */
export interface Turn {
  readonly cos: number;
  readonly sin: number;
}
/** A dot or a stretch of a leader: nothing is written there. */
export const isDot = ({ width, height }: Area): boolean => Math.max(width, height) < DOT;
const DOT = 2;

/** How far one can go, mm, before something is in the way, and before anything but dots is; Infinity where nothing is as far as was looked. */
export interface Way {
  readonly clear: number;
  readonly overDots: number;
}
/**
 * How far one can go on the sheet from a place of it, straight on; what lies on that place itself, or is only touched, is in nobody's way.
 * Looks at one square after the other and no further than it must.
 * Source: Amanatides and Woo, A Fast Voxel Traversal Algorithm for Ray Tracing, Eurographics 1987.
 */
export function wayFrom(squares: Squares, from: Point, { cos, sin }: Turn, far: number): Way {
  const { within, all, edges, under, columns, rows, met } = squares;
  const { x, y } = from;
  const now = ++squares.asked;
  let column = columnAt(squares, x);
  let row = rowAt(squares, y);
  // how far it is to the next square, along and down
  let across = toNext(x - within.x, column, cos);
  let down = toNext(y - within.y, row, sin);
  let clear = Number.POSITIVE_INFINITY;
  let overDots = Number.POSITIVE_INFINITY;
  for (;;) {
    const here = under[row * columns + column];
    if (here)
      for (const i of here) {
        if (met[i] === now) continue;
        met[i] = now;
        const left = edges[4 * i]! - x;
        const top = edges[4 * i + 1]! - y;
        const end = edges[4 * i + 2]! - x;
        const bottom = edges[4 * i + 3]! - y;
        // the place itself lies on it
        if (left < 0 && end > 0 && top < 0 && bottom > 0) continue;
        const at = entryOf(left, top, end, bottom, cos, sin, far, SLACK);
        if (at >= overDots) continue;
        if (at < clear) clear = at;
        if (!isDot(all[i]!)) overDots = at;
      }
    const gone = Math.min(across, down);
    if (gone >= far || gone >= overDots) return { clear, overDots };
    if (across < down) {
      column += Math.sign(cos);
      across += SIDE / Math.abs(cos);
    } else {
      row += Math.sign(sin);
      down += SIDE / Math.abs(sin);
    }
    if (column < 0 || column >= columns || row < 0 || row >= rows) return { clear, overDots };
  }
}
const toNext = (at: number, index: number, step: number): number =>
  step === 0 ? Number.POSITIVE_INFINITY : ((index + (step > 0 ? 1 : 0)) * SIDE - at) / step;
/**
 * How much of a way is gone, of `most` in all, when it goes in between two upright and two level edges, which are measured from its start;
 * Infinity where it does not, or is between them for no more than `slack`. It is between the upright ones for one stretch of the way, and
 * between the level ones for another.
 */
function entryOf(
  left: number,
  top: number,
  end: number,
  bottom: number,
  dx: number,
  dy: number,
  most: number,
  slack: number,
): number {
  const never = Number.POSITIVE_INFINITY;
  let start = 0;
  let stop = most;
  // asked of every thing near every way that is tried: nothing is made for it
  if (dx !== 0) {
    const one = left / dx;
    const other = end / dx;
    start = Math.max(start, Math.min(one, other));
    stop = Math.min(stop, Math.max(one, other));
  } else if (left >= 0 || end <= 0) return never;
  if (dy !== 0) {
    const one = top / dy;
    const other = bottom / dy;
    start = Math.max(start, Math.min(one, other));
    stop = Math.min(stop, Math.max(one, other));
  } else if (top >= 0 || bottom <= 0) return never;
  return start + slack < stop ? start : never;
}

/** Whether a straight line goes through an area; touching it is not going through. */
export const crosses = ({ x, y }: Point, to: Point, a: Area): boolean =>
  entryOf(a.x - x, a.y - y, right(a) - x, below(a) - y, to.x - x, to.y - y, 1, 0) < 1;
