export { airAttenuation, exactMidband } from './air.ts';
export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export { SURFACE_MATERIALS } from './materials.ts';
export { FOAM_CAUTION, soundNotes } from './notes.ts';
export { isBox, type SoundPlan, soundOf } from './plan.ts';
export { findReflections } from './reflections.ts';
export { absorberFittings, type TiledWall, tiledWalls } from './tiles.ts';
