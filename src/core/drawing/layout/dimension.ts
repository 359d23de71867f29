import { area, LETTER, line, point, rectangle, text } from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import type { Mark, Point } from '../marks.ts';
import { spread } from './spread.ts';

/**
 * Dimension strings (ISO 129-1:2018): a line with an oblique stroke at each stop, extension lines back to the object, the figure
 * above the line and read from below or from the right. A figure wider than its space stands further out on a leader.
 */
export type Side = 'above' | 'below' | 'left' | 'right';

export interface Chain {
  /** Where the stops are on the paper, along the chain, ascending. */
  readonly stops: readonly number[];
  /** What is written between each two stops; an empty text leaves it out. */
  readonly figures: readonly string[];
}

/** Distances in mm of paper. */
const FIRST = 7; // from the object to the first line: room for a figure of the chain on the near side
const BETWEEN = 6.5; // from one line to the next, so that the figures of both have room
const GAP = 1.2; // between object and extension line (ISO 129-1: eight line widths)
const BEYOND = 1.5; // extension line past the dimension line
const LIFT = 0.9; // figure above its line
const STROKE = 1.1; // half of an oblique stroke, along each axis
const H = LETTER.small;
const ROW = H + 2.4; // from a line to the baseline of figures that stand further out

/** How far a stack of chains reaches out from the object, in mm. */
export function stackDepth(chains: readonly Chain[], side: Side): number {
  return (
    chains.reduce((depth, chain, i) => depth + (i === 0 ? FIRST : BETWEEN) + outward(chain, side), 0) + nearSide(side)
  );
}
/** Figures of these chains stand on the outer side of their line. */
const readsOutward = (side: Side): boolean => side === 'above' || side === 'left';
const nearSide = (side: Side): number => (readsOutward(side) ? H + LIFT + 0.8 : BEYOND);
/** Too wide for its space between two stops. */
export const isNarrow = (figure: string, space: number): boolean => figure !== '' && textWidth(figure, H) + 1.2 > space;
const narrowAt = ({ figures, stops }: Chain, i: number): boolean => isNarrow(figures[i]!, stops[i + 1]! - stops[i]!);
const outward = (chain: Chain, side: Side): number =>
  chain.figures.some((_, i) => narrowAt(chain, i)) ? (readsOutward(side) ? ROW : H + 1.8) : 0;

/**
 * Chains on one side of an object, the first nearest to it. `edge` is where the object ends on that side; `limits` are how far
 * figures may spread along the chain, on the paper.
 */
export function dimensionStack(
  chains: readonly Chain[],
  side: Side,
  edge: number,
  limits: readonly [number, number] = [-Infinity, Infinity],
): readonly Mark[] {
  const marks: Mark[] = [];
  const sign = side === 'above' || side === 'left' ? -1 : 1;
  const upright = side === 'left' || side === 'right';
  /** s along the chain, t outward from the object's edge. */
  const place = (s: number, t: number): Point => (upright ? point(edge + sign * t, s) : point(s, edge + sign * t));
  const between = (s1: number, t1: number, s2: number, t2: number): Mark => {
    const [a, b] = [place(s1, t1), place(s2, t2)];
    return line(a.x, a.y, b.x, b.y, 'thin');
  };
  // A baseline seen along t: text reads towards −y, or towards −x when it is turned.
  const lift = readsOutward(side) ? 1 : -1;
  /** A figure on its baseline; the extension lines of chains further out stop short of one they would strike through. */
  const write = (s: number, t: number, figure: string, passing: readonly number[]): readonly Mark[] => {
    const { x, y } = place(s, t);
    const half = textWidth(figure, H) / 2 + 0.6;
    const own = text(x, y, figure, { align: 'centre', ...(upright && { turn: -90 }) });
    if (!passing.some((stop) => Math.abs(stop - s) < half)) return [own];
    const [a, b] = [place(s - half, t - lift * 0.6), place(s + half, t + lift * (H + 0.5))];
    const over = area(Math.min(a.x, b.x), Math.min(a.y, b.y), Math.abs(b.x - a.x), Math.abs(b.y - a.y));
    return [rectangle(over, { fill: 'paper' }), own];
  };
  let t = 0;
  const reach = new Map<number, number>();
  chains.forEach((chain, index) => {
    t += index === 0 ? FIRST : BETWEEN;
    const { stops, figures } = chain;
    for (const stop of stops) reach.set(stop, t);
    marks.push(between(stops[0]!, t, stops.at(-1)!, t));
    for (const stop of stops) {
      const { x, y } = place(stop, t);
      marks.push(line(x - STROKE, y + STROKE, x + STROKE, y - STROKE, 'visible'));
    }
    const narrow: { readonly centre: number; readonly width: number; readonly figure: string }[] = [];
    const passing = chains.slice(index + 1).flatMap((later) => later.stops);
    figures.forEach((figure, i) => {
      if (figure === '') return;
      const centre = (stops[i]! + stops[i + 1]!) / 2;
      const width = textWidth(figure, H);
      if (narrowAt(chain, i)) {
        narrow.push({ centre, width, figure });
        return;
      }
      marks.push(...write(centre, t + lift * LIFT, figure, passing));
    });
    if (narrow.length > 0) {
      const centres = spread(narrow, 1.2, limits[0], limits[1]);
      // Baseline of the outer row: figures read outward sit above a row of ordinary figures, the others hang below the line.
      const base = readsOutward(side) ? ROW + 1 : H + 1.8;
      const foot = readsOutward(side) ? base - 0.7 : base - H - 0.6;
      const knee = readsOutward(side) ? LIFT + H - 0.4 : 0.5;
      narrow.forEach(({ centre, figure }, i) => {
        marks.push(between(centre, t, centre, t + knee), between(centre, t + knee, centres[i]!, t + foot));
        marks.push(...write(centres[i]!, t + base, figure, passing));
      });
    }
    t += outward(chain, side);
  });
  for (const [stop, far] of reach) marks.unshift(between(stop, GAP, stop, far + BEYOND));
  return marks;
}
