export { distanceFromOutline, isInside } from './outline.ts';
export { type Placings, placePieces, sizeOf } from './place-pieces.ts';
export { placeRoom } from './place-room.ts';
export type { PlacedRoom, PlacedWall, Placing, WallFeature } from './room.ts';
export { pointOnWall, wallBefore, wallOf } from './walls.ts';
