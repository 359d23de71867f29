export { type Arrangement, arrangementsOf } from './arrangements.ts';
export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export {
  type Cover,
  type Filling,
  fillsOf,
  type ImageLine,
  type Silhouette,
  silhouetteOf,
  sitsIn,
  strayThings,
  uncovered,
} from './fills.ts';
export { type Glare, glaresOf } from './glare.ts';
export { cameraNotes } from './notes.ts';
export {
  angleOfView,
  blurDiameter,
  circleOfConfusion,
  cropFactor,
  cropTo,
  diagonalOf,
  distanceFor,
  farLimit,
  focalFor,
  frameAt,
  hyperfocal,
  nearLimit,
  rowWidth,
  SENSORS,
  type Sensor,
  sensorOf,
} from './optics.ts';
export {
  ANSUR,
  PEOPLE,
  PERCENTILES,
  type Percentile,
  personSize,
  type Sex,
  SHOULDERS,
} from './people.ts';
export { type Framed, framesOf, hiddenBehind } from './plan.ts';
export {
  barsAcross,
  displaySize,
  distanceForAngle,
  MOIRE_LIMIT,
  oneMinuteDistance,
  pitchInPixels,
  pulseSwing,
  rippleLeft,
  safeShutter,
  shutterAngle,
  viewingAngle,
} from './shutter.ts';
export { type Sitter, sittersOf } from './sitters.ts';
export {
  type Camera,
  clipToFrame,
  type DrawnLine,
  drawBoxes,
  glareAt,
  type Headroom,
  hidesPoint,
  type ImagePoint,
  isInFrame,
  project,
  roomRound,
  type Sight,
  seenShare,
  sightOf,
  visibleParts,
} from './view.ts';
export { viewBoxes } from './view-boxes.ts';
