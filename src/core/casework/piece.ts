import type { AbsorberPiece, DisplayPiece, Piece, Plan, StripPiece, ThingPiece } from '../plan/index.ts';
import { kindOf, nameOf } from '../plan/index.ts';
import { fromTicks, toTicks } from '../quantity/index.ts';
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

/** Lamps, seats, cameras and strips on a wall: no parts, their outside. */
function buildPlain(piece: Piece, plan: Plan, placing: Placing): Built {
  const { width, height } = piece.size;
  const depth = 'depth' in piece.size ? piece.size.depth : 0;
  const draft = newDraft(kindOf(piece), nameOf(piece), piece.title, pathOf(plan.options, piece, nameOf(piece)), plan);
  const outside = cuboid([0, toTicks(width)], [0, toTicks(height)], [0, toTicks(depth)]);
  return finish(draft, placing, outside, 'mass' in piece ? piece.mass : undefined);
}

/** A strip that follows a piece stands for all of that piece's front edges: its outside is the upper front edge of it. */
function buildStrip(piece: StripPiece, plan: Plan, placing: Placing): Built {
  const led = plan.options.find((o) => o.pieces.includes(piece))?.pieces.find((p) => nameOf(p) === piece.along);
  if (!led) return buildPlain(piece, plan, placing);
  const draft = newDraft('strip', piece.strip, piece.title, pathOf(plan.options, piece, piece.strip), plan);
  const [width, height] = [toTicks(led.size.width), toTicks(led.size.height)];
  const depth = 'depth' in led.size ? toTicks(led.size.depth) : 0;
  const [tall, deep] = [toTicks(piece.size.height), toTicks(piece.size.depth)];
  return finish(
    draft,
    placing,
    cuboid([0, width], [Math.max(0, height - tall), height], [Math.max(0, depth - deep), Math.max(depth, deep)]),
  );
}

/** Tiles on a wall; with a backing, panels like those of a lining behind them, cut out round what is on the wall. */
function buildAbsorber(piece: AbsorberPiece, plan: Plan, placing: Placing, context: WallContext): Built {
  const depth = toTicks(piece.size.depth);
  const { backing } = piece;
  if (backing === undefined) return buildPlain(piece, plan, placing);
  const built = buildLining(
    { ...piece, lining: piece.absorber, panel: backing, board: 'vertical', gap: undefined },
    plan,
    placing,
    context,
  );
  const { min, max } = built.placed.outside;
  const outside = { min, max: { ...max, z: max.z + fromTicks(depth) } };
  return { ...built, placed: { ...built.placed, kind: 'absorber', outside } };
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
  if ('thing' in piece) return buildThing(piece, plan, placing);
  if ('strip' in piece) return buildStrip(piece, plan, placing);
  if ('absorber' in piece) return buildAbsorber(piece, plan, placing, context);
  return buildPlain(piece, plan, placing);
}

/** Whether a piece that is built otherwise has a fault that it had not. */
export function addsFault(before: Pick<Built, 'issues'>, after: Pick<Built, 'issues'>): boolean {
  const known = new Set(before.issues.map(({ message }) => message));
  return after.issues.some(({ message }) => !known.has(message));
}
