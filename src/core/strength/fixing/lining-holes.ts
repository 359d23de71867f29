import type { Box } from '../../geometry/index.ts';
import type { AbsorberPiece, Wall } from '../../plan/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { allWeighed, ownMass, type Subject, type WallInput } from '../plan-input.ts';
import type { Fixing } from './fastener.ts';
import type { Group } from './group.ts';
import { type Hung, screwedParts } from './hung-panel.ts';
import { type Hole, isScrew } from './point.ts';

/**
 * Where panels on a wall are screwed up: through the battens behind them, or through the panels themselves where there are none.
 * Lengths mm, from the left end of the wall and the floor. Spacings are common practice: 600 along a batten, 400 up a panel.
 */
const ALONG = 600;
const UP = 400;
/** From the end of a batten, and from the edge of a panel, so that neither splits. Common practice. */
const BATTEN_END = 50;
const PANEL_EDGE = 25;

/** Of tiles, kg/m³: glass-fibre board of 6 lb/ft³, more than foam or felt weighs. Common practice. */
const TILES = 96;

/** Panels on a wall hang by the screws through their battens, or through themselves. */
export function liningGroup(
  input: WallInput,
  subject: Subject,
  said: Hung,
  wall: PlacedWall,
  saidWall: Wall,
  fixing: Fixing,
): Group {
  const { placed } = subject;
  const { min, max } = placed.outside;
  const tiles = 'absorber' in said ? TILES * said.size.width * said.size.height * said.size.depth * 1e-9 : 0;
  return {
    holes: liningHoles(placed, said, wall, isScrew(fixing.kind) && saidWall.framing?.kind !== 'masonry'),
    hanging: {
      mass: ownMass(input, placed) + tiles,
      partly: !allWeighed(input, placed),
      at: placed.wall!.from + (min.x + max.x) / 2,
      reach: (max.z - min.z) / 2,
      edge: placed.frame.origin.y - wall.frame.origin.y + min.y,
    },
  };
}

/** Holes through every batten, or every panel, at the studs behind it; where screws find no studs, evenly along it. */
function liningHoles(
  { wall: at, frame, ...placed }: PlacedPiece,
  said: Hung,
  wall: PlacedWall,
  inStuds: boolean,
): readonly Hole[] {
  const left = at!.from;
  const bottom = frame.origin.y - wall.frame.origin.y;
  const joints = 'absorber' in said ? levelJoints(said).map((up) => bottom + up) : [];
  const own = said.fix;
  return screwedParts({ wall: at, frame, ...placed } as PlacedPiece).flatMap((part) => {
    const { x, y } = spansOf(part.solid.box, left, bottom);
    const batten = part.role === 'batten';
    const edge = batten ? BATTEN_END : PANEL_EDGE;
    const lying = part.axes.length === 'x';
    const within = own?.at?.map((from) => left + from).filter((v) => v > x[0] && v < x[1]);
    const behind = inStuds
      ? wall.studs.map((s) => s.at).filter((v) => v >= x[0] + PANEL_EDGE && v <= x[1] - PANEL_EDGE)
      : [];
    const columns =
      within ?? (batten && !lying ? [(x[0] + x[1]) / 2] : behind.length > 0 ? behind : spaced(x, edge, ALONG));
    const rows =
      own?.heights?.map((h) => bottom + h).filter((v) => v > y[0] && v < y[1]) ??
      (batten && lying
        ? [(y[0] + y[1]) / 2]
        : 'absorber' in said
          ? betweenTiles(joints, y)
          : spaced(y, edge, batten ? ALONG : UP));
    return columns.flatMap((column) => rows.map((row) => ({ x: column, y: row })));
  });
}

/** Level joints between rows of tiles above the lower edge of their field; what is left over is shared out above and below. */
function levelJoints({ tile, between, size }: AbsorberPiece): readonly number[] {
  const pitch = tile + between;
  const rows = Math.floor((size.height + between) / pitch + 1e-9);
  const rest = (size.height - (rows * pitch - between)) / 2;
  return Array.from({ length: rows + 1 }, (_, i) => rest + i * pitch - between / 2).filter(
    (up) => up > PANEL_EDGE && up < size.height - PANEL_EDGE,
  );
}

/** The studs behind the panels of a field, away from the edges of each, from its left end. */
export const studsBehind = (placed: PlacedPiece, { studs }: PlacedWall): readonly number[] =>
  studs
    .map(({ at }) => at - placed.wall!.from)
    .filter((x) =>
      screwedParts(placed).some(({ solid: { box } }) => x >= box.min.x + PANEL_EDGE && x <= box.max.x - PANEL_EDGE),
    );

/** The joints a panel with tiles on may be screwed through, above its lower edge: away from the edges of every panel of its backing. */
export const jointsOf = (placed: PlacedPiece, said: AbsorberPiece): readonly number[] =>
  levelJoints(said).filter((up) =>
    screwedParts(placed).every(
      ({ solid: { box } }) => Math.min(Math.abs(up - box.min.y), Math.abs(up - box.max.y)) > PANEL_EDGE,
    ),
  );

/**
 * A panel with its tiles on is screwed up through the joints between them, the lowest and the highest, so that it comes down again and
 * the tiles stay whole; near its edges where no joint crosses it.
 */
function betweenTiles(joints: readonly number[], y: readonly [number, number]): readonly number[] {
  const own = joints.filter((at) => at > y[0] + PANEL_EDGE && at < y[1] - PANEL_EDGE);
  if (own.length === 0) return spaced(y, PANEL_EDGE, 2 * ALONG);
  return own.length === 1 ? own : [own[0]!, own.at(-1)!];
}

const spansOf = ({ min, max }: Box, left: number, bottom: number) => ({
  x: [left + min.x, left + max.x] as const,
  y: [bottom + min.y, bottom + max.y] as const,
});

/** Evenly from near one end to near the other, no further apart than asked; in the middle of what is too short for two. */
function spaced([from, to]: readonly [number, number], edge: number, most: number): readonly number[] {
  const run = to - from - 2 * edge;
  if (run < 2 * edge) return [(from + to) / 2];
  const steps = Math.max(1, Math.ceil(run / most - 1e-9));
  return Array.from({ length: steps + 1 }, (_, i) => from + edge + (run * i) / steps);
}
