import type { AnyCalculator } from '../notes/index.ts';
import { FITTING_CALCULATORS } from './fitting.ts';
import { PAINT_CALCULATORS } from './paint.ts';
import { SUNDRY_CALCULATORS } from './sundries.ts';

export const calculators: readonly AnyCalculator[] = [
  ...PAINT_CALCULATORS,
  ...SUNDRY_CALCULATORS,
  ...FITTING_CALCULATORS,
];
