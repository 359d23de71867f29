import type { Frame, Vec3 } from '../geometry/index.ts';
import type { Mm } from '../quantity/index.ts';

/** A wall as it stands: its frame has its origin at the left end at the floor, x along it to the right, z into the room. */
export interface PlacedWall {
  readonly id: string;
  readonly frame: Frame;
  /** As it was measured: what dimensions show. The corners of the outline may differ from it by the wall's share of the misclosure. */
  readonly length: Mm;
  readonly height: Mm;
  /** Inside angle at its right end, degrees, after the angles were shared out. */
  readonly corner: number;
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
  /** Width of the casing round an opening. */
  readonly trim?: Mm;
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

/** Where a piece's own origin (its lower rear left corner) lies, and how far along which wall when it stands at one. */
export interface Placing {
  readonly frame: Frame;
  readonly wall?: { readonly id: string; readonly from: Mm };
}
