import type { AnyCalculator } from '../notes/index.ts';
import { letInScrews } from './fixing/let-in.ts';
import { letInBending } from './fixing/let-in-bends.ts';
import { partitionLoad } from './fixing/partition.ts';
import { railScrews } from './fixing/rails.ts';
import { fixingTwist } from './fixing/twist.ts';
import { FIXING_CALCULATORS } from './fixings.ts';
import { INTERACTION_CALCULATORS } from './interaction.ts';
import { LIFTING_CALCULATORS } from './lifting.ts';
import { MOVING_CALCULATORS } from './moving.ts';
import { headPullThrough } from './pull-through.ts';
import { SHELF_CALCULATORS } from './shelf.ts';
import { shelfBox } from './shelf-box.ts';

export const calculators: readonly AnyCalculator[] = [
  ...SHELF_CALCULATORS,
  shelfBox,
  ...FIXING_CALCULATORS,
  headPullThrough,
  fixingTwist,
  railScrews,
  letInScrews,
  letInBending,
  partitionLoad,
  ...INTERACTION_CALCULATORS,
  ...LIFTING_CALCULATORS,
  ...MOVING_CALCULATORS,
];
