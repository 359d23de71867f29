import type { Working } from '../notes/index.ts';
import type { PlacedPiece } from '../scene/index.ts';

/** How lengths are shown to the reader: the plan's own units. */
export type Show = (length: number) => string;
export const plainMm: Show = (length) => `${Math.round(length * 10) / 10} mm`;

/** Less than this is two pieces touching, mm: a hundredth of what a tape can read, and more than turned frames round by. */
export const TOUCH = 0.01;

export const named = (piece: PlacedPiece): string => piece.title || piece.id;

/** A length that follows from the drawing alone, with the lengths it came from. */
export function lengthWorking(
  what: string,
  formula: string,
  inputs: readonly (readonly [symbol: string, name: string, value: number])[],
  result: number,
  limit?: { readonly value: number; readonly why: string },
): Working {
  return {
    what,
    formula,
    inputs: inputs.map(([symbol, name, value]) => ({ symbol, name, value, unit: 'mm' })),
    result: { value: result, unit: 'mm' },
    ...(limit && { limit: { ...limit, unit: 'mm' } }),
    source: 'common practice',
    assumes: ['pieces and room as the plan gives them; walls flat and plumb'],
  };
}
