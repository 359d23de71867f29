import type { CheckRow } from '../notes/index.ts';
import { carryingChecks } from './checks-carrying.ts';
import { fixingChecks } from './checks-fixing.ts';
import { shelfChecks } from './checks-shelf.ts';

export {
  beamMoment,
  beamSag,
  bendingStress,
  midspanSag,
  overhangFraction,
  type SpanLoad,
  SUPPORTS,
  type Supports,
  shelfSagOfSection,
} from './beam.ts';
export { calculators } from './calculators.ts';
export { CREEP_CLASSES, type CreepClass, creepClassOf, deformationFactor, finalSag } from './creep.ts';
export { fixings } from './fixing/held.ts';
export { fixIssues } from './fixing/meant.ts';
export { fixingNotes } from './fixing/notes.ts';
export type { FixingPlan, FixingPoint, FixKind, Lands, PieceFixing } from './fixing/point.ts';
export { STUD_CUTS } from './fixings.ts';
export {
  type BracketReactions,
  bracketReactions,
  bracketTensions,
  DISPLAY_PATTERNS,
  type DisplayPattern,
  type FixingRow,
  GYPSUM_BOARDS,
  mountProofMass,
  mountTestForce,
  tippingPull,
} from './hanging.ts';
export { fixingUse, screwUse } from './interaction.ts';
export {
  type Lift,
  type LiftingLimit,
  liftDuration,
  liftingIndex,
  liftingLimit,
  liftReach,
  teamCapacity,
} from './lifting.ts';
export {
  type Box,
  cornerPass,
  cornerTurn,
  type DoorPass,
  type Opening,
  passesDoor,
  rectangleFits,
  standUpHeight,
  tallestToStandUp,
  turnsCorner,
  vehicleSpare,
} from './moving.ts';
export { finest, ownMass, small, type WallInput } from './plan-input.ts';
export { bendingNotes, carryingNotes } from './plan-notes.ts';
export { type BuiltUp, builtUp, hollow, rectangle, round, type ShelfSection, shelfSection } from './section.ts';
export { boltRows } from './split.ts';
export {
  BOOKS,
  DESIGN_LOADS,
  type DesignLoad,
  SAG_LIMITS,
  type SagLimitName,
  SHELF_LOAD_CAP,
  WALL_CABINET_PROOF,
} from './standards.ts';
export {
  pulloutSteel,
  pulloverSteel,
  SCREW_SAFETY,
  STUD_STEEL,
  type StudMils,
  screwShearSteel,
  studThickness,
} from './steel-fixing.ts';
export {
  combinedResistance,
  type LateralJoint,
  lagWithdrawal,
  lateralValue,
  nailWithdrawal,
  WOOD_SCREWS,
  type WoodScrew,
  woodScrewWithdrawal,
} from './timber-fixing.ts';

export const checks: readonly CheckRow[] = [...shelfChecks, ...fixingChecks, ...carryingChecks];
export { usedWords } from './used.ts';
