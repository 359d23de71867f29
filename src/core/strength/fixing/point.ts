import type { Working } from '../../notes/index.ts';
import type { Piece } from '../../plan/index.ts';

/** What a hole takes. */
export type FixKind = NonNullable<Piece['fix']>['kind'];

/** Goes into the framing; toggles, anchors and plugs hold in the board or the masonry itself. */
export const isScrew = (kind: FixKind): kind is 'lag screw' | 'wood screw' | 'self-drilling screw' =>
  kind === 'lag screw' || kind === 'wood screw' || kind === 'self-drilling screw';

/** What is behind a hole. */
export type Lands = 'stud' | 'edge of a stud' | 'blocking' | 'masonry' | 'edge of masonry' | 'board only' | 'unknown';

/** It opens behind the board, where a stud or blocking leaves it no room. */
export const cannotOpen = (kind: FixKind, lands: Lands): boolean =>
  (kind === 'toggle' || kind === 'hollow-wall anchor') &&
  (lands === 'stud' || lands === 'edge of a stud' || lands === 'blocking');

/** From the left end of the wall, and above the floor, mm. */
export interface Hole {
  readonly x: number;
  readonly y: number;
}

/** One hole in a wall: where it is, what goes into it, what is behind it, and what it carries. */
export interface FixingPoint {
  readonly id: string;
  readonly piece: string;
  readonly wall: string;
  /** From the left end of the wall, and above the floor, mm. */
  readonly x: number;
  readonly y: number;
  readonly fixing: string;
  readonly kind: FixKind;
  /** Nobody can choose it yet: it is neither named nor sized. */
  readonly open?: true;
  /** How thick and how long it is sold, mm; of what is no screw, where the plan says. */
  readonly diameter?: number;
  readonly length?: number;
  /** mm: what to drill first, where it is known. */
  readonly pilot?: number;
  /** A washer goes under its head. */
  readonly washer?: true;
  readonly lands: Lands;
  /** The stud behind it: number from the left end of the wall, and its centre. */
  readonly stud?: { readonly number: number; readonly at: number };
  /** N, of this fixing: pulled out of the wall, loaded along it. */
  readonly tension: number;
  readonly shear: number;
  /** Load over what it may take; undefined where that is not known. 1 is all of it. */
  readonly use?: number;
}

/** What a cure uses of what is there at the most: a twentieth is left over. Common practice. */
export const WITH_ROOM = 0.95;

/** Its fixings hold, with that left over. */
export const holdsWell = (held: PieceFixing | undefined): boolean =>
  (held?.use ?? Number.POSITIVE_INFINITY) <= WITH_ROOM;

/** It landed in wood or steel. */
export const isHeld = ({ lands }: FixingPoint): boolean => lands === 'stud' || lands === 'blocking';

/** How one piece is held to its wall. */
export interface PieceFixing {
  readonly piece: string;
  readonly title: string;
  readonly wall: string;
  readonly points: readonly FixingPoint[];
  /** Of the most used fixing. */
  readonly working?: Working;
  readonly use?: number;
  /** Its most used fixing gives way where its head bears, not behind it. */
  readonly head?: true;
  /** Nothing is asked of it: it only keeps a low case in its place, whatever a child that hangs on the case would ask. */
  readonly idle?: true;
  /** Why there is no figure. */
  readonly unknown?: string;
  /** Of a display: how far its wall plate sits to the right of its centre, mm, to reach more studs; undefined where it sits in the middle. */
  readonly shift?: number;
  /** Holes that stand too near another to count beside it; undefined where all stand far enough apart. */
  readonly crowded?: number;
  /** What lies between it and the framing and bears nothing, mm; left out where nothing does. */
  readonly gap?: number;
  /** The lining its fixings go through, and the hollow behind that, which wants packing at every hole, mm. */
  readonly behind?: { readonly title: string; readonly hollow: number };
}

/** Of a whole option. */
export interface FixingPlan {
  readonly pieces: readonly PieceFixing[];
  readonly points: readonly FixingPoint[];
}
