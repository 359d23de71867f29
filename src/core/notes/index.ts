export { absolute, checkRows, relative } from './check-rows.ts';
export { checkTable } from './check-table.ts';
export { FEW } from './few.ts';
export { formula } from './formula.ts';
export { byUrgency, type Note, type Verdict } from './note.ts';
export type { AnyCalculator, CheckRow, InputSpec, QuantityInput } from './reckoner.ts';
export { sayFigure } from './say-figure.ts';
export { alsoOf, work } from './work.ts';
export { type Origin, originText, type Source, type Working, type WorkingInput } from './working.ts';
