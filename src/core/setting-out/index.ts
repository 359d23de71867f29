export { finishingIn } from './finishing-in.ts';
export { inWallFittings } from './in-wall.ts';
export { type HoleMark, settingOut, type WallSettingOut } from './marks.ts';
export { oldWallNotes } from './old-walls.ts';
export { newTimbers, sectionOf, timberFittings } from './timber.ts';
export { type FloorFit, floorFits, gapAt, type WallFit, wallFits, wallNotes } from './wall-fit.ts';
