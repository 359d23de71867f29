import { roundedUp } from '../../bill/index.ts';
import { isInches } from '../../quantity/index.ts';
import type { Lettering } from '../lettering.ts';

/** What is sold by the metre is told so from here on, mm: nobody measures a roll of edge band to the tenth of a millimetre. */
const LONG = 5000;
/** How much is needed of what comes in rolls or rings, as the shopping list says it. */
export const runLength = (letter: Lettering, mm: number): string =>
  isInches(letter.unit) || mm < LONG ? letter.length(mm) : `${roundedUp(mm / 1000)}\u00a0m`;
