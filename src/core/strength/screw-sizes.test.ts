import { expect, it } from 'vitest';
import { inch } from '../quantity/index.ts';
import { fixingThickness } from '../stock/index.ts';
import { WOOD_SCREWS } from './timber-fixing.ts';

// NDS appendix L, table L3, and ANSI/ASME B18.6.1
it.each(Object.entries(WOOD_SCREWS))(
  'a pack named after screws of number %s is bought as %s in thick',
  (number, shank) => expect(fixingThickness(`#${number} × 2 in`)).toBeCloseTo(inch(shank), 9),
);
