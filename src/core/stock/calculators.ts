import type { AnyCalculator } from '../notes/index.ts';
import { MATTER_CALCULATORS } from './reckon/matter.ts';
import { MOISTURE_CALCULATORS } from './reckon/moisture.ts';
import { SIZE_CALCULATORS } from './reckon/sizes.ts';

export const calculators: readonly AnyCalculator[] = [
  ...SIZE_CALCULATORS,
  ...MATTER_CALCULATORS,
  ...MOISTURE_CALCULATORS,
];
