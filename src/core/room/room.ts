import type { Frame, Vec3 } from '../geometry/index.ts';
import type { Mm } from '../quantity/index.ts';

/** A wall as it stands: its frame has its origin at the left end at the floor, x along it to the right, z into the room. */
export interface PlacedWall {
  readonly id: string;
  readonly frame: Frame;
  readonly length: Mm;
  readonly height: Mm;
  /** Centres of its studs from the left end; empty in masonry or where nothing is known. */
  readonly studs: readonly { readonly at: Mm; readonly width: Mm; readonly measured: boolean }[];
}

/** An opening or a service on its wall, as a rectangle of the wall's own frame: x to the right, y up. */
export interface WallFeature {
  readonly id: string;
  readonly wall: string;
  readonly kind: string;
  readonly x: readonly [Mm, Mm];
  readonly y: readonly [Mm, Mm];
  /** How far it stands out of the wall, and how much is to be kept free before it. */
  readonly out: Mm;
  readonly clear: Mm;
  readonly hinge?: 'left' | 'right';
  readonly swing?: 'in' | 'out';
}

/** The room as solids know it. The outline runs clockwise seen from above, at the floor. */
export interface PlacedRoom {
  readonly ceiling: Mm;
  readonly outline: readonly Vec3[];
  readonly walls: readonly PlacedWall[];
  readonly openings: readonly WallFeature[];
  readonly services: readonly WallFeature[];
  /** How far the measured outline failed to close, before it was shared out. */
  readonly misclosure: Mm;
}
