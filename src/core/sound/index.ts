export {
  type Air,
  airAttenuation,
  exactMidband,
  powerAttenuation,
  sabineConstant,
  soundSpeed,
} from './air.ts';
export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export type { Cure } from './cures.ts';
export { flutterDecay, flutterRate, reflectionLoss } from './echo.ts';
export {
  coefficientOf,
  FURNITURE_DENSITY,
  MATERIAL_BANDS,
  objectAbsorption,
  PERSON_ABSORPTION,
  SURFACE_MATERIALS,
  type SurfaceMaterial,
} from './materials.ts';
export {
  countModes,
  crowdedModes,
  lowestModes,
  type Mode,
  modeFrequency,
  modesBelow,
  schroederFrequency,
  smoothModeCount,
} from './modes.ts';
export { FOAM_CAUTION, soundNotes } from './notes.ts';
export { isBox, type SoundPlan, soundOf } from './plan.ts';
export {
  findReflections,
  levelOf,
  parallelPairs,
  type Reflection,
  type ReflectionOptions,
  type Reflections,
} from './reflections.ts';
export {
  absorption,
  absorptionFor,
  arau,
  type Enclosed,
  eyring,
  fitzroy,
  meanCoefficient,
  meanFreePath,
  millington,
  type Pairs,
  type Patch,
  pairAreas,
  sabine,
} from './reverberation.ts';
export {
  articulationLoss,
  bandIndex,
  clarity,
  criticalDistance,
  criticalDistanceByTime,
  directToReverberant,
  indexFromArticulation,
  modulationTransfer,
  roomConstant,
  STI_WORDS,
  sayIndex,
  speechTransmission,
  sumLevels,
} from './speech.ts';
export type { Surface } from './surfaces.ts';
export {
  CLASSROOM_BACKGROUND,
  classroomTime,
  listeningRoomTime,
  type Target,
  teachingTime,
  toleranceAbout,
} from './targets.ts';
export { absorberFittings, type CutTile, cutFromTiles, DAB, dabsFor, type TiledWall, tiledWalls } from './tiles.ts';
export {
  type Absorber,
  absorberCount,
  type BandedRoom,
  beadLength,
  contactAdhesive,
  dabTiles,
  edgeRatio,
  type LaidTile,
  layTiles,
  noiseReduction,
  type Rectangle,
  tilesAlong,
  timesByBand,
  withAbsorbers,
} from './treatment.ts';
