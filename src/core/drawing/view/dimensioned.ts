import { type Area, below, right } from '../draw.ts';
import { type Chain, dimensionStack, gathered, isNarrow, type Side, stackDepth } from '../layout/dimension.ts';
import { runningLevels, runningWidth } from '../layout/running.ts';
import { type Scale, scalesOf } from '../layout/scale.ts';
import type { Lettering } from '../lettering.ts';
import type { Mark } from '../marks.ts';
import { areaOnPaper, onPaper, type Placement, placed } from './view.ts';

type Range = readonly [number, number];

/** Real positions to be dimensioned, on each side of a view: chains in the view's u or v, nearest to the object first; levels as heights. */
export interface Dimensions {
  readonly above?: readonly (readonly number[])[];
  readonly below?: readonly (readonly number[])[];
  readonly left?: readonly (readonly number[])[];
  readonly right?: readonly (readonly number[])[];
  /** Heights (−v) told from the datum, as running dimensions. */
  readonly levelsLeft?: readonly number[];
  readonly levelsRight?: readonly number[];
}
export interface LaidView {
  readonly scale: Scale;
  readonly place: Placement;
  /** The view's own extent on the paper. */
  readonly frame: Area;
  readonly dimensions: readonly Mark[];
}
export interface ViewRequest {
  readonly u: Range;
  readonly v: Range;
  readonly into: Area;
  readonly letter: Lettering;
  readonly dimensions?: Dimensions;
  /** Thicknesses told elsewhere: their figures are left out where there is no room for them between their stops. */
  readonly quiet?: readonly number[];
  /** Only this scale, or smaller ones where it does not fit. */
  readonly from?: Scale;
  /** Where the view stands in its area when it is smaller; left out: in the middle. */
  readonly stand?: 'middle' | 'floor' | 'top';
  /** Laid here and nowhere else, whether it fits or not: under a hand that moves a piece the drawing keeps its place. */
  readonly hold?: Placement;
}

/** Stops without repeats (closer than a tenth of a millimetre), ascending. */
export function stopsOf(values: readonly number[]): readonly number[] {
  const out: number[] = [];
  for (const value of [...values].sort((a, b) => a - b))
    if (out.length === 0 || value - out.at(-1)! > 0.1) out.push(value);
  return out;
}

/** Drops chains that say the same as one before, and chains of none. */
export const telling = (chains: readonly (readonly number[])[]): readonly (readonly number[])[] =>
  chains.filter(
    (c, i) => c.length > 1 && !chains.slice(0, i).some((b) => b.length === c.length && b.every((x, k) => x === c[k])),
  );
/** Chains of parts from end to end, and the whole outside them: the longer stands further out. Common practice. */
export const wholeOutside = (parts: readonly (readonly number[])[], ends: readonly number[]) =>
  telling([...parts.filter((chain) => chain.length > 2), ends]);

/** Lays a view with its dimensions into an area at the largest standard scale at which all of it fits. */
export function layView({
  u,
  v,
  into,
  letter,
  dimensions = {},
  quiet = [],
  from,
  stand = 'middle',
  hold,
}: ViewRequest): LaidView {
  // whatever the scale, the figures are the same
  const figures = new Map<readonly number[], readonly string[]>();
  const figuresOf = (real: readonly number[]): readonly string[] => {
    const known = figures.get(real) ?? real.slice(1).map((stop, i) => letter.figure(stop - real[i]!));
    figures.set(real, known);
    return known;
  };
  const chain = (real: readonly number[], at: (x: number) => number): Chain => {
    const stops = real.map(at);
    const shown = figuresOf(real).map((figure, i) => {
      const length = real[i + 1]! - real[i]!;
      const known = quiet.some((t) => Math.abs(t - length) < 0.2);
      return known && isNarrow(figure, stops[i + 1]! - stops[i]!) ? '' : figure;
    });
    return gathered({ stops, figures: shown }, real, letter);
  };
  const limits = (side: Side): Range =>
    side === 'left' || side === 'right' ? [into.y, below(into)] : [into.x, right(into)];
  const depth = (side: Side, ratio: number): number => {
    const chains = (dimensions[side] ?? []).map((c) => chain(c, (x) => x / ratio));
    return chains.length === 0 ? 0 : stackDepth(chains, side, limits(side));
  };
  const levels = (heights: readonly number[] = []) => heights.map((h) => ({ height: h, figure: letter.figure(h) }));
  const running = (heights?: readonly number[]): number => runningWidth(levels(heights).map((l) => ({ y: 0, ...l })));
  const [runningLeft, runningRight] = [running(dimensions.levelsLeft), running(dimensions.levelsRight)];
  const insets = (ratio: number) => ({
    left: Math.max(depth('left', ratio), runningLeft),
    right: Math.max(depth('right', ratio), runningRight),
    above: depth('above', ratio),
    below: depth('below', ratio),
  });
  const fits = ({ ratio }: Scale): boolean => {
    const inset = insets(ratio);
    return (
      (u[1] - u[0]) / ratio + inset.left + inset.right <= into.width &&
      (v[1] - v[0]) / ratio + inset.above + inset.below <= into.height
    );
  };
  const scales = scalesOf(letter.unit).filter((s) => !from || s.ratio >= from.ratio);
  let scale = hold
    ? (scales.find((s) => s.ratio === hold.ratio) ?? { ratio: hold.ratio, text: `1:${hold.ratio}` })
    : scales.find(fits);
  for (let ratio = scales.at(-1)!.ratio * 2; !scale; ratio *= 2)
    // Past the standards' smallest, or an area too small for the dimensions themselves: then let the view stick out.
    if (fits({ ratio, text: '' }) || ratio > 1e5) scale = ratio > 1e5 ? scales.at(-1)! : { ratio, text: `1:${ratio}` };
  const inset = insets(scale.ratio);
  const inner: Area = {
    x: into.x + inset.left,
    y: into.y + inset.above,
    width: into.width - inset.left - inset.right,
    height: into.height - inset.above - inset.below,
  };
  const place = hold ? { origin: hold.origin, ratio: hold.ratio } : placed(u, v, scale.ratio, inner, stand);
  const frame = areaOnPaper(place, u, v);
  const toX = (x: number): number => onPaper(place, x, 0).x;
  const toY = (y: number): number => onPaper(place, 0, y).y;
  const stack = (side: Side, edge: number): readonly Mark[] =>
    dimensionStack(
      (dimensions[side] ?? []).map((c) => chain(c, side === 'left' || side === 'right' ? toY : toX)),
      side,
      edge,
      limits(side),
    );
  const heights = (side: 'left' | 'right', edge: number, of?: readonly number[]): readonly Mark[] =>
    runningLevels(
      levels(of).map(({ height, figure }) => ({ y: toY(-height), figure })),
      side,
      edge,
      [into.y, below(into)],
    );
  return {
    scale,
    place,
    frame,
    dimensions: [
      ...stack('above', frame.y),
      ...stack('below', below(frame)),
      ...stack('left', frame.x),
      ...stack('right', right(frame)),
      ...heights('left', frame.x, dimensions.levelsLeft),
      ...heights('right', right(frame), dimensions.levelsRight),
    ],
  };
}
