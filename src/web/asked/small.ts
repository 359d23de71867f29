import { printersFor, type Units } from '../../core/plan/index.ts';
import { isInches, MM_PER_INCH, type Mm } from '../../core/quantity/index.ts';

/** The finest fraction on a rule. */
const FINEST = 64;

/** A gap, a groove, a rod: in inches as the fraction it is, where it is one of a rule, and as a gauge shows it where it is none. */
export function small(units: Units, length: Mm): string {
  const print = printersFor(units);
  const steps = (length / MM_PER_INCH) * FINEST;
  return isInches(units.length) && Math.abs(steps - Math.round(steps)) < 1e-6
    ? print.length(length, { unit: 'in', fraction: `1/${FINEST}` })
    : print.thickness(length);
}

/** What holds where nobody said anything else: whole millimetres are told in inches as any other length is. */
export const usually = (units: Units, said: Mm | undefined, usual: Mm): string =>
  said === undefined && isInches(units.length) ? printersFor(units).length(usual) : small(units, said ?? usual);
