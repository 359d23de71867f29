import { CANONICAL_UNIT } from '../quantity/index.ts';
import type { Calculator, InputSpecs, InputValues } from './reckoner.ts';
import type { Origin, Working, WorkingInput } from './working.ts';

/** What one sum gives back: its value in the canonical unit, and whatever else is worth seeing. */
export interface Outcome {
  readonly value: number;
  readonly also?: NonNullable<Working['also']>;
  /** Values that were looked up rather than given, each with where it comes from. */
  readonly looked?: readonly WorkingInput[];
  readonly limit?: NonNullable<Working['limit']>;
  readonly assumes?: readonly string[];
  /** Where it differs from the calculator's own, e.g. by the branch that was taken. */
  readonly formula?: string;
  readonly source?: Origin;
  readonly reckonedIn?: Working['reckonedIn'];
}

export type Formula<I extends InputSpecs> = Omit<Calculator<I>, 'reckon'> & {
  readonly assumes?: readonly string[];
  readonly compute: (values: InputValues<I>) => number | Outcome;
};

/** What stands before a colon or semicolon: the rest explains the choice to who makes it, not to who reads the working. */
const shortly = (about: string): string => about.split(/[:;]/)[0]!;

/**
 * Declares a calculator, whose working is made from its own declaration: the inputs it shows are the inputs it was given, and their names
 * and kinds are the type of what `compute` receives.
 */
export function formula<const I extends InputSpecs>({ compute, assumes = [], ...declared }: Formula<I>): Calculator<I> {
  const reckon = (values: InputValues<I>): Working => {
    const computed = compute(values);
    const outcome: Outcome = typeof computed === 'number' ? { value: computed } : computed;
    const given: WorkingInput[] = [];
    for (const [name, spec] of Object.entries(declared.inputs)) {
      const value = (values as Readonly<Record<string, number | string | readonly number[] | undefined>>)[name];
      if (value === undefined) continue;
      given.push({
        symbol: spec.symbol ?? name,
        name: shortly(spec.about),
        value,
        unit: 'choices' in spec ? '' : CANONICAL_UNIT[spec.dimension],
      });
    }
    return {
      what: declared.title,
      formula: outcome.formula ?? declared.formula,
      ...(outcome.reckonedIn && { reckonedIn: outcome.reckonedIn }),
      inputs: [...given, ...(outcome.looked ?? [])],
      result: { value: outcome.value, unit: CANONICAL_UNIT[declared.result.dimension] },
      ...(outcome.also && { also: outcome.also }),
      ...(outcome.limit && { limit: outcome.limit }),
      source: outcome.source ?? declared.source,
      assumes: [...assumes, ...(outcome.assumes ?? [])],
      ...(declared.caution !== undefined && { caution: declared.caution }),
    };
  };
  return { ...declared, reckon };
}
