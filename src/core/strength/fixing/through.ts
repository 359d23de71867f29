import { fromRoom } from '../../geometry/index.ts';
import type { Wall } from '../../plan/index.ts';
import { inch } from '../../quantity/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import type { Part, PlacedPiece } from '../../scene/index.ts';
import type { Subject, WallInput } from '../plan-input.ts';
import { isHung } from './carried.ts';
import { isGear, standsOf } from './gear.ts';
import { gravityOfStock } from './ground.ts';
import { isHungPanel, screwedParts } from './hung-panel.ts';
import type { FixKind } from './point.ts';
import { railsOf } from './rails.ts';

/** Steel of a bracket or wall plate under the head, mm. Common practice. */
export const PLATE = 3;

/** What a fixing goes through before it reaches the framing or the masonry, mm. */
export interface Through {
  /** Board or plaster, and a lining or a hollow between it and what is under the head. */
  readonly board: number;
  /** Wood under the head, a batten, a panel or the back of a case, with its specific gravity; left out: the steel of a plate. */
  readonly wood?: { readonly thickness: number; readonly gravity: number };
}

/** Everything before the framing, with the wood or the steel under the head, mm. */
export const throughAll = ({ board, wood }: Through): number => board + (wood?.thickness ?? PLATE);

/**
 * A hexagon head on wood takes a washer; on the steel of a plate it needs none. NDS-2018, 12.1.3.3, asks of bolts a standard cut washer, or a
 * plate or strap of no less, between wood and head; of lag screws, 12.1.4 says nothing of it: common practice. What it adds to what the
 * wood under the head bears is not counted.
 */
export const takesWasher = ({ kind }: { readonly kind: FixKind }, { wood }: Through): boolean =>
  kind === 'lag screw' && wood !== undefined;

/** What the fixings of a piece go through on their way into the wall. */
export function throughOf(input: WallInput, subject: Subject, wall: PlacedWall, saidWall: Wall): Through {
  const { placed, said } = subject;
  const lining = liningBehind(input, subject)?.outside.max.z ?? 0;
  const back = 'case' in said ? placed.parts.find((p) => p.role === 'back') : undefined;
  const rail = railsThrough(subject)[0];
  // a case may stand off its wall, and a back in a groove or the rails behind it stand off the rear edges
  const rear = (rail ?? back)?.solid.box.min.z ?? 0;
  const off = 'case' in said ? fromRoom(wall.frame, placed.frame.origin).z + rear : 0;
  const board = (saidWall.framing?.board ?? inch(0.5)) + Math.max(lining, off);
  const under = back ?? (isHungPanel(said) ? screwedParts(placed)[0] : undefined);
  if (!under) return { board };
  // the back is glued to the rail behind it: both bear, as the weaker of the two
  if (back && rail)
    return {
      board,
      wood: {
        thickness: back.size.thickness + rail.size.thickness,
        gravity: Math.min(gravityOfStock(input.plan, back.stock), gravityOfStock(input.plan, rail.stock)),
      },
    };
  return { board, wood: { thickness: under.size.thickness, gravity: gravityOfStock(input.plan, under.stock) } };
}

/** The rails that every fixing of a case goes through; none where the plan puts one of them elsewhere. */
export function railsThrough({ placed, said }: Subject): readonly Part[] {
  const rails = railsOf(placed);
  const missed = said.fix?.heights?.some(
    (h) => !rails.some(({ solid: { box } }) => h > box.min.y + RAIL_EDGE && h < box.max.y - RAIL_EDGE),
  );
  return missed ? [] : rails;
}
/** Wood to leave between a fixing and the edges of a rail, mm. Common practice. */
const RAIL_EDGE = 15;

/** The lining a piece hangs before, where its plate or its back covers some of one: it is screwed through it. */
export function liningBehind(input: WallInput, subject: Subject): PlacedPiece | undefined {
  const { placed, said } = subject;
  const hangs =
    ('case' in said && isHung(input, subject)) || (isGear(said) && standsOf(input, subject) === 'on a wall');
  if (!('display' in said || 'shelf' in said || hangs) || !placed.wall) return undefined;
  const box = (p: PlacedPiece) => ({
    x: [p.wall!.from + p.outside.min.x, p.wall!.from + p.outside.max.x] as const,
    y: [p.frame.origin.y + p.outside.min.y, p.frame.origin.y + p.outside.max.y] as const,
  });
  const own = box(placed);
  const middle = { x: (own.x[0] + own.x[1]) / 2, y: (own.y[0] + own.y[1]) / 2 };
  return input.pieces.find((p) => {
    if (p.kind !== 'lining' || p.wall?.id !== placed.wall!.id) return false;
    const { x, y } = box(p);
    return middle.x > x[0] && middle.x < x[1] && middle.y > y[0] && middle.y < y[1];
  });
}

/** Between a lining and its wall, as deep as its battens. */
export const hollowOf = ({ parts }: PlacedPiece): number => parts.find((p) => p.role === 'batten')?.size.thickness ?? 0;
