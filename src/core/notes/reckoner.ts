import type { Dimension } from '../quantity/index.ts';
import type { Origin, Working } from './working.ts';

/** One input of a calculator: a quantity (or a list of them), or a choice among names. */
export interface QuantityInput {
  readonly dimension: Dimension;
  readonly about: string;
  readonly symbol?: string;
  /** In the canonical unit. An input without a default and not `optional` must be given. */
  readonly default?: number;
  readonly optional?: true;
  readonly min?: number;
  readonly max?: number;
  /** The least allowed value itself is refused: "> min". */
  readonly above?: number;
  /** A comma- or space-separated list of values of this dimension. */
  readonly list?: true;
}
export interface ChoiceInput {
  readonly choices: readonly string[];
  readonly about: string;
  readonly symbol?: string;
  readonly default?: string;
  readonly optional?: true;
}
export type InputSpec = QuantityInput | ChoiceInput;
export type InputSpecs = { readonly [name: string]: InputSpec };

type Given<S extends InputSpec> = S extends ChoiceInput
  ? S['choices'][number]
  : S extends { list: true }
    ? readonly number[]
    : number;
export type InputValues<I extends InputSpecs> = {
  readonly [K in keyof I]: I[K] extends { optional: true } ? Given<I[K]> | undefined : Given<I[K]>;
};

export interface Calculator<I extends InputSpecs = InputSpecs> {
  /** Plain words with hyphens, unique in the register: `shelf-sag`. */
  readonly name: string;
  readonly title: string;
  /** The folder it lives in: strength, finish, stock, sound … */
  readonly topic: string;
  readonly about: string;
  readonly formula: string;
  readonly inputs: I;
  readonly result: { readonly symbol: string; readonly name: string; readonly dimension: Dimension };
  readonly source: Origin;
  /** The range in which the formula holds, and what it leaves out. */
  readonly validity?: string;
  readonly caution?: string;
  /**
   * Values in canonical units, already checked against `inputs`. The result's value is in the canonical unit too.
   * @throws RangeError, in words for the user, when the values do not go together (the register turns it into an issue).
   */
  readonly reckon: (values: InputValues<I>) => Working;
}

/**
 * A published or computed value that a calculator must agree with. Inputs are text as a user would type them, or numbers in
 * the canonical unit. Rows of confidence 'memory' are shown but never fail a test by themselves.
 */
export interface CheckRow {
  readonly calculator: string;
  readonly inputs: Readonly<Record<string, string | number>>;
  readonly expected: number;
  /** The unit `expected` is printed in; converted to the calculator's own. */
  readonly unit: string;
  /** Absolute, in `unit`, or relative; with its reason when it is wider than the source's rounding. */
  readonly tolerance: { readonly absolute: number } | { readonly relative: number };
  /** Name of one of `also`, when the row checks that instead of the result. */
  readonly also?: string;
  readonly source: string;
  readonly confidence: 'seen' | 'computed' | 'memory';
}

/** A calculator with its input types set aside, as the register holds it. */
// biome-ignore lint/suspicious/noExplicitAny: inputs are checked against the specs before `reckon` is called
export type AnyCalculator = Calculator<any>;
