export { type Bill, type BillLine, type Cut, makeBill, type Share } from './bill.ts';
export { type Evaluation, evaluationOf } from './evaluation.ts';
export { orderedCutUp, orderFor } from './ordered.ts';
export { roundedUp } from './packs.ts';
export { type CostPoint, type PriceSteps, priceSteps, type StepsAsked } from './steps.ts';
export {
  COMPARED,
  type Compared,
  compareOptions,
  costSaid,
  fittingCounts,
  makeTally,
  openWords,
  PACES,
  partMass,
  type Tally,
} from './tally.ts';
