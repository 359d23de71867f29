import type { CheckRow } from './reckoner.ts';

type Shared = Omit<CheckRow, 'inputs' | 'expected'>;
type Row = readonly [
  inputs: CheckRow['inputs'],
  expected: number,
  change?: Partial<Pick<CheckRow, 'also' | 'unit' | 'tolerance'>>,
];

/** Check rows that share a calculator and a source: one line each, as a printed table has them. */
export const checkRows = (shared: Shared, rows: readonly Row[]): readonly CheckRow[] =>
  rows.map(([inputs, expected, change]) => ({ ...shared, inputs, expected, ...change }));

/** Within half a unit of the printed digit, or whatever the reason beside it says. */
export const absolute = (value: number): CheckRow['tolerance'] => ({ absolute: value });
export const relative = (value: number): CheckRow['tolerance'] => ({ relative: value });
