export { type Formula, formula, type Outcome } from './formula.ts';
export type { Note, Verdict } from './note.ts';
export {
  type AnyCalculator,
  CANONICAL_UNIT,
  type Calculator,
  type CheckRow,
  type ChoiceInput,
  calculator,
  type Dimension,
  type InputSpec,
  type InputSpecs,
  type InputValues,
  type QuantityInput,
} from './reckoner.ts';
export { type Origin, originText, type Source, type Working, type WorkingInput, type WorkingValue } from './working.ts';
