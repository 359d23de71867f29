import type { AnyCalculator, InputSpecs, Working } from '../notes/index.ts';
import { FIXING_CALCULATORS } from './fixings.ts';
import { INTERACTION_CALCULATORS } from './interaction.ts';
import { LIFTING_CALCULATORS } from './lifting.ts';
import { MOVING_CALCULATORS } from './moving.ts';
import { SHELF_CALCULATORS } from './shelf.ts';

const ALL: ReadonlyMap<string, AnyCalculator> = new Map(
  [
    ...SHELF_CALCULATORS,
    ...FIXING_CALCULATORS,
    ...INTERACTION_CALCULATORS,
    ...LIFTING_CALCULATORS,
    ...MOVING_CALCULATORS,
  ].map((c) => [c.name, c as AnyCalculator]),
);

/** The working of a calculator of this topic for values in canonical units; inputs left out take their defaults. */
export function work(name: string, given: Readonly<Record<string, number | string | readonly number[]>>): Working {
  const calculator = ALL.get(name);
  if (!calculator) throw new Error(`there is no calculator '${name}'`);
  const specs: InputSpecs = calculator.inputs;
  const values: Record<string, unknown> = {};
  for (const [key, spec] of Object.entries(specs)) values[key] = given[key] ?? spec.default;
  for (const key of Object.keys(given)) if (!(key in specs)) throw new Error(`'${name}' has no input '${key}'`);
  return calculator.reckon(values);
}

/** One of the further figures of a working. */
export function alsoOf(working: Working, symbol: string): number {
  const found = working.also?.find((a) => a.symbol === symbol);
  if (!found) throw new Error(`the working of '${working.what}' has no ${symbol}`);
  return found.value;
}
