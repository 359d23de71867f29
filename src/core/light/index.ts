export { calculators } from './calculators.ts';
export {
  BAND_STEP,
  BANDS,
  type Cast,
  castOf,
  enclosureSpectrum,
  fromBands,
  lampBands,
  lampSpectrum,
  luxOf,
  paintSpectrum,
  reflectanceOf,
  sayCast,
  swatchOf,
  toBands,
} from './cast.ts';
export { checks } from './checks.ts';
export {
  chromaticity,
  ciede2000,
  D65_WHITE,
  labToXyz,
  linearToSrgb,
  parseHex,
  reflectanceValue,
  srgbToLinear,
  srgbToXyz,
  type Triple,
  toHex,
  uvOf,
  xyOf,
  xyzToLab,
  xyzToSrgb,
} from './colour.ts';
export {
  facing,
  offsetParallelFactor,
  offsetPerpendicularFactor,
  type Patch,
  parallelFactor,
  patch,
  patchFactor,
  perpendicularFactor,
  pointToPolygon,
  samplesOf,
} from './form-factor.ts';
export { lightNotes } from './notes.ts';
export { MEASURED_PAINTS, WAVELENGTHS } from './observer.ts';
export {
  boxFactors,
  cavityRatio,
  cavityReflectance,
  contrastOf,
  enclosureIlluminance,
  interreflectionGain,
  lumensFor,
  meanIlluminance,
  meanIntensity,
  mirrorShare,
  pointIlluminance,
  roomIndex,
  veilOf,
} from './photometry.ts';
export { TABLE_HEIGHT } from './places.ts';
export {
  COARSE,
  type FaceLight,
  FINE,
  type LightPlan,
  lightOf,
  type PaintTried,
  quickLight,
} from './plan.ts';
export {
  directAt,
  distribution,
  type Geometry,
  type GeometryOptions,
  type Lamp,
  lightAt,
  meanOver,
  type Reading,
  roomGeometry,
  type Scene,
  type Solution,
  solveLight,
} from './radiosity.ts';
export { type Inset, roomPatches } from './room-patches.ts';
export { daylight, flat, planck, type Spectrum, smoothestReflectance, xyzOf } from './spectrum.ts';
export {
  correlatedTemperature,
  daylightChromaticity,
  duvByFit,
  LAMP_TARGETS,
  mccamy,
  WHITE_POINTS,
} from './temperature.ts';
