export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export {
  type FinishItem,
  type Finishing,
  type FinishingInput,
  finishingOf,
  SKIRTING_GRAB,
  type TrimCut,
} from './finishing.ts';
export { minimaxGap } from './fitting.ts';
export { minimaxFit, type WallPoint } from './minimax.ts';
export { mouldingNotes } from './mouldings.ts';
export { WAITING, type Waiting } from './paint.ts';
export { caulkRuns, paintedWalls, type Surfaces, skirtingRuns, wallArea } from './take-off.ts';
export type { TrimEnd } from './trim.ts';
