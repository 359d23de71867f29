import { isInches } from '../../quantity/index.ts';
/** A scale of the drawing: `ratio` is real size over size on paper; `text` is what the title block says. */
export interface Scale {
  readonly ratio: number;
  readonly text: string;
}

/** Sources: ISO 5455:1979, table of recommended scales; 1:15, 1:25 and 1:75 of the metric rule, common practice. */
const METRIC: readonly Scale[] = [1, 2, 5, 10, 15, 20, 25, 50, 75, 100, 200, 500].map((ratio) => ({
  ratio,
  text: `1:${ratio}`,
}));

/** The architect's scales, inches on paper to the foot. Common practice. */
const IMPERIAL: readonly Scale[] = [
  ['full size', 1],
  ['6″ = 1′ 0″', 2],
  ['3″ = 1′ 0″', 4],
  ['1-1⁄2″ = 1′ 0″', 8],
  ['1″ = 1′ 0″', 12],
  ['3⁄4″ = 1′ 0″', 16],
  ['1⁄2″ = 1′ 0″', 24],
  ['3⁄8″ = 1′ 0″', 32],
  ['1⁄4″ = 1′ 0″', 48],
  ['3⁄16″ = 1′ 0″', 64],
  ['1⁄8″ = 1′ 0″', 96],
  ['1⁄16″ = 1′ 0″', 192],
  ['1⁄32″ = 1′ 0″', 384],
].map(([text, ratio]) => ({ text: text as string, ratio: ratio as number }));

export const scalesOf = (unit: string): readonly Scale[] => (isInches(unit) ? IMPERIAL : METRIC);
