import type { CheckRow } from './reckoner.ts';

/** inputs, expected, its unit, tolerance (a number is absolute in that unit, '0.5%' relative), and which further figure. */
export type CheckCase = readonly [
  inputs: CheckRow['inputs'],
  expected: number,
  unit: string,
  tolerance: number | `${number}%`,
  also?: string,
];

/** Check values of one calculator that share a source, where unit, tolerance or figure change from line to line. */
export const checkTable = (
  calculator: string,
  source: string,
  confidence: CheckRow['confidence'],
  cases: readonly CheckCase[],
): readonly CheckRow[] =>
  cases.map(([inputs, expected, unit, tolerance, also]) => ({
    calculator,
    inputs,
    expected,
    unit,
    tolerance:
      typeof tolerance === 'number' ? { absolute: tolerance } : { relative: Number(tolerance.slice(0, -1)) / 100 },
    ...(also !== undefined && { also }),
    source,
    confidence,
  }));
