import { area, LETTER, line, point, rectangle, text } from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import type { Mark, Point } from '../marks.ts';
import { spread } from './spread.ts';

/**
 * Dimension strings (ISO 129-1:2018): a line with an oblique stroke at each stop, extension lines back to the object, the figure
 * above the line and read from below or from the right. A figure wider than its space stands further out on a leader; where a
 * row of those is longer than the sheet has room they are turned across the chain, and what has no room even so is left out.
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
const APART = 1.2; // between figures that stand further out
const ACROSS = H + 1.3; // from one of them to the next where they are turned
const ROW = H + 2.4; // from a line to the baseline of figures that stand further out

type Limits = readonly [number, number];
const ANYWHERE: Limits = [-Infinity, Infinity];

/** How far a stack of chains reaches out from the object, in mm. */
export function stackDepth(chains: readonly Chain[], side: Side, limits = ANYWHERE): number {
  return (
    chains.reduce((depth, chain, i) => depth + (i === 0 ? FIRST : BETWEEN) + outward(chain, side, limits), 0) +
    nearSide(side)
  );
}
/** Figures of these chains stand on the outer side of their line. */
const readsOutward = (side: Side): boolean => side === 'above' || side === 'left';
const nearSide = (side: Side): number => (readsOutward(side) ? H + LIFT + 0.8 : BEYOND);
/** Too wide for its space between two stops. */
export const isNarrow = (figure: string, space: number): boolean => figure !== '' && textWidth(figure, H) + 1.2 > space;
const narrowAt = ({ figures, stops }: Chain, i: number): boolean => isNarrow(figures[i]!, stops[i + 1]! - stops[i]!);
interface Narrow {
  readonly centre: number;
  readonly width: number;
  readonly figure: string;
}
/** The figures that stand further out, and whether they are turned across the chain. */
function narrowOf(chain: Chain, [from, to]: Limits): { readonly narrow: readonly Narrow[]; readonly turned: boolean } {
  const { stops, figures } = chain;
  const narrow = figures.flatMap((figure, i): readonly Narrow[] =>
    narrowAt(chain, i) ? [{ centre: (stops[i]! + stops[i + 1]!) / 2, width: textWidth(figure, H), figure }] : [],
  );
  const turned = narrow.reduce((sum, { width }) => sum + width + APART, 0) > to - from;
  return { narrow: turned && narrow.length * ACROSS > to - from ? [] : narrow, turned };
}
function outward(chain: Chain, side: Side, limits: Limits): number {
  const { narrow, turned } = narrowOf(chain, limits);
  if (narrow.length === 0) return 0;
  return (readsOutward(side) ? ROW : H + 1.8) + (turned ? Math.max(...narrow.map(({ width }) => width)) - H : 0);
}

/** So many equal distances in a row are told once, where their figures have no room between their stops. */
const MANY = 3;
/**
 * The chain with such rows told once, between the first of their stops and the last: `74 × 1′ 4″ (= 98′ 8″)`. The number of
 * distances by the distance, what they come to in brackets: the simplified dimensioning of equal distances (technisches-zeichnen.net,
 * "Repeating geometry"; ISO 129-1:2018 from memory). Its one distance told apart from the row is left out. With the thickness of a shelf
 * between each two of them: `7 × 330 + 6 × 18 (= 2418)`.
 */
export function gathered(
  chain: Chain,
  real: readonly number[],
  { figure: figureOf, step }: { readonly figure: (mm: number) => string; readonly step: number },
): Chain {
  const written = (mm: number): number => Math.round(mm / step);
  const stops: number[] = [];
  const figures: string[] = [];
  const at = (i: number): number => real[i + 1]! - real[i]!;
  const isLike = (i: number, k: number): boolean => Math.abs(at(i) - at(k)) < 0.01;
  /** How many distances like this one stand in a row, at every `step`: of two the others are alike and told elsewhere. */
  const rowFrom = (i: number, step: 1 | 2): number => {
    let many = 0;
    for (let k = i; k < chain.figures.length && narrowAt(chain, k) && isLike(k, i); k += step) {
      many++;
      const between = k + 1;
      if (step === 2 && !(chain.figures[between] === '' && isLike(between, i + 1))) break;
    }
    return many;
  };
  for (let i = 0; i < chain.figures.length; ) {
    const each = chain.figures[i]!;
    const [close, apart] = [rowFrom(i, 1), rowFrom(i, 2)];
    const [many, end] = close >= MANY ? [close, i + close] : [apart, i + 2 * apart - 1];
    stops.push(chain.stops[i]!);
    if (many < MANY) {
      figures.push(each);
      i++;
      continue;
    }
    const between = many === close ? '' : ` + ${many - 1} × ${figureOf(at(i + 1))}`;
    const all = real[end]! - real[i]!;
    const sum = many * written(at(i)) + (between === '' ? 0 : (many - 1) * written(at(i + 1)));
    // rounded figures that do not come to it are not said to equal it
    figures.push(`${many} × ${each}${between} (${sum === written(all) ? '=' : 'in all'} ${figureOf(all)})`);
    i = end;
  }
  return { stops: [...stops, chain.stops.at(-1)!], figures };
}

/**
 * Chains on one side of an object, the first nearest to it. `edge` is where the object ends on that side; `limits` are how far
 * figures may spread along the chain, on the paper.
 */
export function dimensionStack(chains: readonly Chain[], side: Side, edge: number, limits = ANYWHERE): readonly Mark[] {
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
  const write = (s: number, t: number, figure: string, passing: readonly number[], turned = false): readonly Mark[] => {
    const { x, y } = place(s, t);
    const width = textWidth(figure, H);
    const half = (turned ? H : width) / 2 + 0.6;
    const across = { anchor: 'middle', align: side === 'below' || side === 'left' ? 'right' : 'left' } as const;
    const own = text(x, y, figure, {
      ...(turned ? across : { align: 'centre' }),
      ...(upright !== turned && { turn: -90 }),
    });
    if (!passing.some((stop) => Math.abs(stop - s) < half)) return [own];
    const [near, far] = turned ? [-0.6, width + 0.6] : [-lift * 0.6, lift * (H + 0.5)];
    const [a, b] = [place(s - half, t + near), place(s + half, t + far)];
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
    const passing = chains.slice(index + 1).flatMap((later) => later.stops);
    figures.forEach((figure, i) => {
      if (figure === '' || narrowAt(chain, i)) return;
      marks.push(...write((stops[i]! + stops[i + 1]!) / 2, t + lift * LIFT, figure, passing));
    });
    const { narrow, turned } = narrowOf(chain, limits);
    const centres = spread(turned ? narrow.map((n) => ({ ...n, width: ACROSS - APART })) : narrow, APART, ...limits);
    // Baseline of the outer row: figures read outward sit above a row of ordinary figures, the others hang below the line.
    const base = readsOutward(side) ? ROW + 1 : H + 1.8;
    const foot = readsOutward(side) ? base - 0.7 : base - H - 0.6;
    const knee = readsOutward(side) ? LIFT + H - 0.4 : 0.5;
    narrow.forEach(({ centre, figure }, i) => {
      marks.push(between(centre, t, centre, t + knee), between(centre, t + knee, centres[i]!, t + foot));
      marks.push(...write(centres[i]!, t + (turned ? foot + 0.6 : base), figure, passing, turned));
    });
    t += outward(chain, side, limits);
  });
  for (const [stop, far] of reach) marks.unshift(between(stop, GAP, stop, far + BEYOND));
  return marks;
}
