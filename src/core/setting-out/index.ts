export { finishingIn } from './finishing-in.ts';
export { type CableRun, cableRuns, inWallFittings, type WallBox, wallBoxes } from './in-wall.ts';
export { type HoleMark, settingOut, type WallSettingOut } from './marks.ts';
export {
  type FloorFit,
  floorFits,
  gapAt,
  type Run,
  runsOf,
  type Toe,
  type WallFit,
  wallFits,
  wallNotes,
} from './wall-fit.ts';
