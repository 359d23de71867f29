export { CANONICAL_UNIT, type Dimension } from '../quantity/index.ts';
export { absolute, checkRows, relative } from './check-rows.ts';
export { type CheckCase, checkTable } from './check-table.ts';
export { FEW } from './few.ts';
export { type Formula, formula, type Outcome } from './formula.ts';
export { byUrgency, type Note, type Verdict } from './note.ts';
export type {
  AnyCalculator,
  Calculator,
  CheckRow,
  ChoiceInput,
  InputSpec,
  InputSpecs,
  InputValues,
  QuantityInput,
} from './reckoner.ts';
export { sayFigure } from './say-figure.ts';
export { alsoOf, work } from './work.ts';
export { type Origin, originText, type Source, type Working, type WorkingInput, type WorkingValue } from './working.ts';
