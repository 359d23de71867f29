import type { Calculator, InputSpecs, InputValues } from './reckoner.ts';
import type { Working } from './working.ts';

/**
 * The working of a calculator for values in canonical units; inputs left out take their defaults. By the calculator itself, not by its name
 * in the register: a page that asks for a few sums does not carry all of them.
 * @throws RangeError as the calculator does.
 */
export function work<I extends InputSpecs>(calculator: Calculator<I>, given: Partial<InputValues<I>>): Working {
  const values = Object.entries(calculator.inputs).map(([key, spec]) => [key, given[key] ?? spec.default]);
  return calculator.reckon(Object.fromEntries(values));
}

/** One of the further figures of a working. */
export function alsoOf(working: Working, symbol: string): number {
  const found = working.also?.find((a) => a.symbol === symbol);
  if (!found) throw new Error(`the working of '${working.what}' has no ${symbol}`);
  return found.value;
}
