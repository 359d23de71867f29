import type { DisplayPiece, Piece, Plan, ThingPiece } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import { buildCase } from './case.ts';
import { type Built, cuboid, finish, newDraft, pathOf } from './draft.ts';
import { buildShelf } from './floating-shelf.ts';
import { buildLining } from './lining.ts';
import { BARE_WALL, type WallContext } from './wall.ts';

/** A display with its mount: no parts. On an arm its outside reaches from the wall to its face, the arm's reach included. */
export function buildDisplay(piece: DisplayPiece, plan: Plan, placing: Placing): Built {
  const draft = newDraft('display', piece.display, piece.title, pathOf(plan.options, piece, piece.display), plan);
  const { width, height, depth } = piece.size;
  const { mount } = piece;
  const reach = mount?.kind === 'arm' ? toTicks(mount.reach ?? 0) : 0;
  if (mount) {
    draft.fittings.push({
      id: `${piece.display}/mount`,
      piece: piece.display,
      use: 'mount',
      name: mount.kind === 'arm' ? 'display arm' : `${mount.kind} display mount`,
      count: 1,
    });
  }
  const outside = cuboid([0, toTicks(width)], [0, toTicks(height)], [0, reach + toTicks(depth)]);
  return finish(draft, placing, outside, piece.mass + (mount?.mass ?? 0));
}

/** Something that is not made here: its outside and its mass. */
export function buildThing(piece: ThingPiece, plan: Plan, placing: Placing): Built {
  const draft = newDraft('thing', piece.thing, piece.title, pathOf(plan.options, piece, piece.thing), plan);
  const { width, height, depth } = piece.size;
  const outside = cuboid([0, toTicks(width)], [0, toTicks(height)], [0, toTicks(depth)]);
  return finish(draft, placing, outside, piece.mass);
}

/**
 * Builds any piece where it is placed. `context` is the wall behind it, for the cut-outs of backs and linings and the rods of a shelf.
 * Never throws for what a plan says; what does not fit comes back as issues with their path in the plan.
 */
export function buildPiece(piece: Piece, plan: Plan, placing: Placing, context: WallContext = BARE_WALL): Built {
  if ('case' in piece) return buildCase(piece, plan, placing, context);
  if ('shelf' in piece) return buildShelf(piece, plan, placing, context);
  if ('lining' in piece) return buildLining(piece, plan, placing, context);
  if ('display' in piece) return buildDisplay(piece, plan, placing);
  return buildThing(piece, plan, placing);
}
