export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export {
  type FinishItem,
  type Finishing,
  type FinishingInput,
  finishingOf,
  type TrimCut,
} from './finishing.ts';
export { BUILDING_TOLERANCES, type BuildingTolerance, minimaxGap } from './fitting.ts';
export { type MinimaxFit, minimaxFit, type WallPoint } from './minimax.ts';
export { paintVolume, spreadingRate, WAITING, WALL_PAINT_RATE, type Waiting, wetFilm } from './paint.ts';
export { BEAD_SHAPES, type BeadShape, beadArea, CLAMP_PRESSURE, NAILS, pennyLength, WIRE_GAUGES } from './sundries.ts';
export { caulkRuns, paintedWalls, type SkirtingRun, type Surfaces, skirtingRuns, wallArea } from './take-off.ts';
export {
  mitreFront,
  mitreSaw,
  type TrimEnd,
  type TrimOptions,
  type TrimPiece,
  type TrimRun,
  trimJoints,
} from './trim.ts';
