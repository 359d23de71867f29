import { printersFor, readersFor, type Units } from '../core/plan/index.ts';

/** How a number without a unit is read, before it is kept: of a plan in feet and inches it is inches, and feet may have been meant. */
export function bareLength(units: Units, text: string): string | undefined {
  if (!/^[^\p{L}'"′″’”]+$/u.test(text)) return undefined;
  const length = readersFor(units).length(text);
  return length.ok ? `= ${printersFor(units).length(length.value)}` : undefined;
}
