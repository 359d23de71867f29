import type { Result } from '../issue/index.ts';
import type { AnyCalculator, CheckRow, Working } from '../notes/index.ts';
import {
  type Checked,
  type DescribedCalculator,
  describe,
  findIn,
  reckonWith,
  runCheck,
  type TypedInputs,
} from './reckon.ts';
import { CHECKS, REGISTER } from './register.ts';

export type { DescribedCalculator, DescribedInput } from './reckon.ts';
export { workingText } from './text.ts';

export const listCalculators = (): readonly AnyCalculator[] => REGISTER;
/** The published values the calculators are held against; each runs in the tests. */
export const listChecks = (): readonly CheckRow[] => CHECKS;
export const findCalculator = (name: string): Result<AnyCalculator> => findIn(REGISTER, name);

/** Does one calculation from inputs as a person types them. Every fault is named at once, with the nearest valid name. */
export function reckon(name: string, inputs: TypedInputs): Result<Working> {
  const calculator = findCalculator(name);
  return calculator.ok ? reckonWith(calculator.value, inputs) : calculator;
}

/** The register as plain data, for --json and for the page of formulas. */
export const describeRegister = (): readonly DescribedCalculator[] => REGISTER.map(describe);

export const checkAgainstSource = (row: CheckRow): Checked => runCheck(REGISTER, row);
