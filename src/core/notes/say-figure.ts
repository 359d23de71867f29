import { isSaidOtherwise, type SaidIn, sayValue } from '../quantity/index.ts';
import type { Working, WorkingInput } from './working.ts';

const METRIC: SaidIn = { length: 'mm' };

/** A figure of a working as a plan says it, on paper as on the screen; where it is reckoned in metric units all the same, with those behind it. */
export function sayFigure(
  { reckonedIn }: Working,
  { value, unit }: Pick<WorkingInput, 'value' | 'unit'>,
  units: SaidIn,
): string {
  if (typeof value === 'string') return value;
  const own = sayValue(value, unit, units);
  return reckonedIn !== undefined && isSaidOtherwise(unit, units) ? `${own} (${sayValue(value, unit, METRIC)})` : own;
}
