export {
  crossings,
  distanceFromOutline,
  distanceToSegment,
  isInside,
  type Outline,
} from './outline.ts';
export { type Placings, placePieces, sizeOf } from './place-pieces.ts';
export { DEFAULT_SERVICE, LARGEST_ANGLE_MISCLOSURE, largestMisclosure, placeRoom, STUD_WIDTH } from './place-room.ts';
export type { PlacedRoom, PlacedWall, Placing, WallFeature } from './room.ts';
export { shareOut } from './traverse.ts';
export { pointOnWall, wallBefore, wallOf } from './walls.ts';
