export { calculators } from './calculators.ts';
export { BANDS, lampBands, lampSpectrum, luxOf, paintSpectrum, toBands } from './cast.ts';
export { checks } from './checks.ts';
export { parseHex, srgbToLinear } from './colour.ts';
export { lightNotes } from './notes.ts';
export { TABLE_HEIGHT } from './places.ts';
export { COARSE, FINE, type LightPlan, lightOf, quickLight } from './plan.ts';
export { type Lamp, lightAt, roomGeometry, solveLight } from './radiosity.ts';
export { roomPatches } from './room-patches.ts';
