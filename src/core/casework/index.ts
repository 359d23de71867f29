export { buildCase, type CaseOptions } from './case.ts';
export { DEFAULTS, FASTENER_SPACING, fastenerCount, hingeCount } from './defaults.ts';
export type { Built } from './draft.ts';
export { buildShelf } from './floating-shelf.ts';
export { buildLining } from './lining.ts';
export { mirrored } from './mirrored.ts';
export { addsFault, buildDisplay, buildPiece, buildThing } from './piece.ts';
export { leastPartsOf } from './walk.ts';
export { BARE_WALL, type WallContext, wallBehindPiece } from './wall.ts';
