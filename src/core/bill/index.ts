export { apportion } from './apportion.ts';
export {
  type Bill,
  type BillInput,
  type BillLine,
  type Cut,
  makeBill,
  type RackChange,
  type Share,
  type Use,
} from './bill.ts';
export { type Evaluate, type Evaluation, evaluationOf } from './evaluation.ts';
export { cutShopOf, orderedCutUp, orderFor } from './ordered.ts';
export { GLUE_FILM, type PackNeed, packNeeds, roundedUp } from './packs.ts';
export { type CutUp, cutUp, isKept, LEAST_STRIP, type Rest } from './rests.ts';
export {
  type CostPoint,
  MOST_POINTS,
  type Offered,
  type PriceStep,
  type PriceSteps,
  priceSteps,
  type StepsAsked,
  varied,
} from './steps.ts';
export {
  COMPARED,
  type Compared,
  compareOptions,
  costSaid,
  makeTally,
  openWords,
  PACES,
  partMass,
  type Tally,
  type TallyInput,
} from './tally.ts';
