import { type Box, withoutAll } from '../geometry/index.ts';
import { lazy } from '../lazy.ts';
import { remember } from '../remember.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { type Reach, reachOf, type Upright, upright } from './oriented.ts';

/** One solid of a piece as it stands in the room, and what it is a part of. */
export interface Body {
  readonly upright: Upright;
  readonly role: string;
  readonly part?: string;
}

/** A piece with all that notes about its place need, worked out once. */
export interface Standing {
  readonly piece: PlacedPiece;
  readonly outside: Upright;
  /** All that it takes up or needs. */
  readonly reach: Reach;
  /** Most pieces have nothing near: what they consist of is not asked for. */
  readonly bodies: () => readonly Body[];
  /** Its parts as whole boxes, without their cut-outs. */
  readonly uncut: () => readonly Body[];
  /** The spaces its fronts need to open, in the order of its needs. */
  readonly needs: readonly Upright[];
}

/** What lets something pass from outside; a groove or a bore is filled by its own joint. */
const OPEN = new Set(['notch', 'cut-out']);

const kept = remember<PlacedPiece, Standing>();
export const standing = (piece: PlacedPiece): Standing => kept(piece, [], () => stand(piece));

function stand(piece: PlacedPiece): Standing {
  const { frame, parts } = piece;
  const outside = upright(frame, piece.outside);
  const needs = piece.needs.map(({ box }) => upright(frame, box));
  const reach = reachOf([outside, ...needs]);
  if (parts.length === 0) {
    const own = [{ upright: outside, role: piece.kind }];
    const bodies = () => own;
    return { piece, outside, reach, bodies, uncut: bodies, needs };
  }
  const body = (box: Box, role: string, part: string): Body => ({ upright: upright(frame, box), role, part });
  return {
    piece,
    outside,
    reach,
    bodies: lazy(() =>
      parts.flatMap(({ id, role, solid }) =>
        withoutAll(
          solid.box,
          solid.taken.filter((t) => OPEN.has(t.kind)).map((t) => t.box),
        ).map((box) => body(box, role, id)),
      ),
    ),
    uncut: lazy(() => parts.map(({ id, role, solid }) => body(solid.box, role, id))),
    needs,
  };
}

/** A thing can be pushed aside, and its box says less about its shape: what it gets in the way of is a caution, not a stop. */
/** What hangs over everything, is no wider than an edge, or is a person: only whether it lies inside the room is judged. */
const LIGHT = new Set(['strip', 'lamp', 'seat', 'camera']);
export const isSolid = (piece: PlacedPiece): boolean => !LIGHT.has(piece.kind);

export const isLoose = (piece: PlacedPiece): boolean => piece.kind === 'thing';
