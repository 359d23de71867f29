import { grouped } from '../grouped.ts';
import { isInches } from '../quantity/index.ts';
import type { PlacedWall } from '../room/index.ts';
import { type FixingPoint, fixings, letIn, type PieceFixing, type Timber, type WallInput } from '../strength/index.ts';
import { type CableRun, cableRuns, type WallBox, wallBoxes } from './in-wall.ts';
import { gapAt, wallFits } from './wall-fit.ts';

/** One hole as it is marked on the wall. Lengths mm. */
export interface HoleMark {
  readonly number: number;
  readonly point: FixingPoint;
  readonly title: string;
  /** From the plumb line, to the right; from the level line, up. */
  readonly across: number;
  readonly up: number;
  /** What to put between the piece and the wall there, where the wall was surveyed. */
  readonly shim?: number;
}

/** Everything that is marked on one wall, from one plumb line and one level line. */
export interface WallSettingOut {
  readonly wall: PlacedWall;
  /** The plumb line, from the left end of the wall; the level line, above the floor. */
  readonly plumb: number;
  readonly level: number;
  readonly holes: readonly HoleMark[];
  readonly pieces: readonly PieceFixing[];
  /** Boxes cut into it, and the cables that run in or on it. */
  readonly boxes: readonly WallBox[];
  readonly cables: readonly CableRun[];
  /** Timber between its studs, there or to be let in, left to right. */
  readonly timbers: readonly Timber[];
}

/** Height of the level line: where a laser on a stool stands, and most holes are near. Common practice. */
const LEVEL = { metric: 1000, imperial: 40 * 25.4 } as const;

/**
 * The marks of every wall that has a hole: numbered left to right, then upwards. The plumb line stands at the left edge of the
 * leftmost piece, since corners of rooms are seldom plumb.
 */
export function settingOut(input: WallInput): readonly WallSettingOut[] {
  const plan = fixings(input);
  const ownFits = grouped(
    wallFits(input).flatMap((fit) => fit.run.pieces.map(({ id }) => ({ id, fit }))),
    ({ id }) => id,
  );
  const inches = isInches(input.plan.units.length);
  const level = Math.min(inches ? LEVEL.imperial : LEVEL.metric, input.room.ceiling / 2);
  const allBoxes = wallBoxes(input);
  const allCables = cableRuns(input);
  return input.room.walls.flatMap((wall) => {
    const pieces = plan.pieces.filter((p) => p.wall === wall.id);
    const boxes = allBoxes.filter((b) => b.wall.id === wall.id);
    const cables = allCables.filter((c) => c.legs.some((leg) => leg.wall === wall.id));
    if (pieces.length + boxes.length + cables.length === 0) return [];
    const timbers = letIn(input, wall, plan.points).toSorted(
      (a, b) => a.block.above - b.block.above || a.from - b.from,
    );
    const bored = new Set(pieces.map((p) => p.piece));
    const plumb = Math.min(
      ...input.pieces
        .filter((p) => p.wall?.id === wall.id && (p.kind !== 'thing' || bored.has(p.id)) && p.kind !== 'trim')
        .map((p) => p.wall!.from),
    );
    const titles = new Map(pieces.map((p) => [p.piece, p.title]));
    const holes = pieces
      .flatMap((p) => p.points)
      .sort((a, b) => a.x - b.x || a.y - b.y)
      .map((point, i): HoleMark => {
        const own = ownFits
          .get(point.piece)
          ?.toSorted((a, b) => Math.abs(a.fit.height - point.y) - Math.abs(b.fit.height - point.y))[0]?.fit;
        return {
          number: i + 1,
          point,
          title: titles.get(point.piece)!,
          across: point.x - plumb,
          up: point.y - level,
          ...(own && { shim: gapAt(own, point.x) }),
        };
      });
    return [{ wall, plumb: Number.isFinite(plumb) ? plumb : 0, level, holes, pieces, boxes, cables, timbers }];
  });
}
