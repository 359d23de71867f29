import type { Working } from '../notes/index.ts';
import type { Option } from '../plan/index.ts';
import type { PlacedRoom, PlacedWall } from '../room/index.ts';
import type { Fitting } from '../scene/index.ts';
import type { WallInput } from '../strength/index.ts';

type BoxSaid = NonNullable<Option['boxes']>[number];
type CableSaid = NonNullable<Option['cables']>[number];

/** The hole of a box in the board of its wall, and what is behind it. Lengths mm, from the left end of the wall and the floor. */
export interface WallBox {
  readonly said: BoxSaid;
  readonly wall: PlacedWall;
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly depth: number;
}

/** A cable as it runs: along which walls, how long. */
export interface CableRun {
  readonly said: CableSaid;
  /** Corners of its way, each on one wall. */
  readonly legs: readonly { readonly wall: string; readonly from: Spot; readonly to: Spot }[];
  /** Along the way, and with the slack at both ends. */
  readonly way: number;
  readonly length: number;
  /** Studs it crosses inside walls. */
  readonly crosses: number;
  readonly working: Working;
}
interface Spot {
  readonly x: number;
  readonly y: number;
}

/** An old-work box of one gang, mm. Common practice. */
const BOX = { width: 57, tall: 95, depth: 70 } as const;
/** Slack at each end of a cable: out of the box, to the plug, and one to spare, mm. Common practice. */
const SLACK = 300;

/** Beside everything that is said of what lies in a wall. */
export const CAUTION =
  'Mains wiring is for a licensed electrician and the local code; power off and proved dead before a wall is opened. A flexible cord or an extension never runs inside a wall (NEC 400.12); signal cable in a wall carries a marking for it; mains and signal keep apart (NEC 725.136, 800.133: 2 in). Sections of the code move between editions: verify them.';

/** The boxes of the option where they are cut into their walls. */
export function wallBoxes({ option, room }: Pick<WallInput, 'option' | 'room'>): readonly WallBox[] {
  return (option.boxes ?? []).flatMap((said) => {
    const wall = room.walls.find((w) => w.id === said.wall);
    if (!wall) return [];
    const [width, tall] = [said.width ?? BOX.width, said.tall ?? BOX.tall];
    return [
      {
        said,
        wall,
        x: [said.at - width / 2, said.at + width / 2] as const,
        y: [said.height - tall / 2, said.height + tall / 2] as const,
        depth: said.depth ?? BOX.depth,
      },
    ];
  });
}

/** Where a cable ends: in a box, at a service, or behind the middle of a piece. */
function endOf(
  { option, room, pieces }: WallInput,
  name: string,
): { readonly wall: PlacedWall; readonly at: Spot } | undefined {
  const wallOf = (id: string | undefined): PlacedWall | undefined => room.walls.find((w) => w.id === id);
  const box = option.boxes?.find((b) => b.id === name);
  const service = room.services.find((s) => s.id === name);
  const piece = pieces.find((p) => p.id === name);
  const [wall, at] = box
    ? [wallOf(box.wall), { x: box.at, y: box.height }]
    : service
      ? [wallOf(service.wall), { x: (service.x[0] + service.x[1]) / 2, y: (service.y[0] + service.y[1]) / 2 }]
      : piece?.wall
        ? [
            wallOf(piece.wall.id),
            {
              x: piece.wall.from + (piece.outside.min.x + piece.outside.max.x) / 2,
              y: piece.frame.origin.y + (piece.outside.min.y + piece.outside.max.y) / 2,
            },
          ]
        : [undefined, { x: 0, y: 0 }];
  return wall && { wall, at };
}

/** Every cable with its way: straight up or down at its ends, level between them at the lower end, round the corners of the room. */
export function cableRuns(input: WallInput): readonly CableRun[] {
  return (input.option.cables ?? []).flatMap((said): readonly CableRun[] => {
    const [a, b] = [endOf(input, said.from), endOf(input, said.to)];
    return a && b ? [runOf(input.room, said, a, b)] : [];
  });
}

/** Boxes and cables as they are bought. A cable is one length from end to end; a mains cable is priced here and laid by an electrician. */
export function inWallFittings(input: WallInput): readonly Fitting[] {
  const boxes = (input.option.boxes ?? []).map(
    (said): Fitting => ({
      id: `box/${said.id}`,
      piece: said.id,
      use: 'wall box',
      name: `box for ${said.id} (${said.carries})`,
      count: 1,
    }),
  );
  const cables = cableRuns(input).map(
    ({ said, length }): Fitting => ({
      id: `cable/${said.id}`,
      piece: said.id,
      use: said.carries === 'signal' ? 'signal cable' : said.carries,
      name: `${said.id}, ${said.from} to ${said.to}${said.rated ? ', marked for walls' : ''}`,
      count: 1,
      amount: { value: length, unit: 'mm' },
    }),
  );
  return [...boxes, ...cables];
}

function runOf(
  room: PlacedRoom,
  said: CableSaid,
  a: { readonly wall: PlacedWall; readonly at: Spot },
  b: { readonly wall: PlacedWall; readonly at: Spot },
): CableRun {
  const level = Math.min(a.at.y, b.at.y);
  const stretches = way(room, a, b, level);
  const legs = [
    ...(a.at.y > level ? [{ wall: a.wall.id, from: a.at, to: { x: a.at.x, y: level } }] : []),
    ...stretches.map((s) => ({ wall: s.wall.id, from: { x: s.from, y: level }, to: { x: s.to, y: level } })),
    ...(b.at.y > level ? [{ wall: b.wall.id, from: { x: b.at.x, y: level }, to: b.at }] : []),
  ];
  const along = stretches.reduce((sum, s) => sum + Math.abs(s.to - s.from), 0);
  const up = Math.abs(a.at.y - b.at.y);
  const crosses =
    said.route === 'on the wall'
      ? 0
      : stretches.reduce(
          (sum, s) =>
            sum +
            s.wall.studs.filter((stud) => stud.at > Math.min(s.from, s.to) && stud.at < Math.max(s.from, s.to)).length,
          0,
        );
  const length = along + up + 2 * SLACK;
  return {
    said,
    legs,
    way: along + up,
    length,
    crosses,
    working: {
      what: `Length of ${said.id}, ${said.route}`,
      formula: 'L = Σ|Δx| + |Δy| + 2 s',
      inputs: [
        { symbol: 'Σ|Δx|', name: 'level, along the walls', value: along, unit: 'mm' },
        { symbol: '|Δy|', name: 'up or down', value: up, unit: 'mm' },
        { symbol: 's', name: 'slack at each end', value: SLACK, unit: 'mm', source: 'common practice' },
      ],
      result: { value: length, unit: 'mm' },
      source: 'common practice',
      assumes: ['straight up or down at the ends, level between them; bends add little'],
      caution: CAUTION,
    },
  };
}

/** Ways that differ by less are as long as each other, mm. */
const SAME = 1;

/** The stretches along the walls from one place to another, the shorter way round the room; of two alike, the one that meets no opening. */
function way(
  { walls, openings }: PlacedRoom,
  a: { readonly wall: PlacedWall; readonly at: Spot },
  b: { readonly wall: PlacedWall; readonly at: Spot },
  level: number,
): readonly { readonly wall: PlacedWall; readonly from: number; readonly to: number }[] {
  if (a.wall.id === b.wall.id) return a.at.x === b.at.x ? [] : [{ wall: a.wall, from: a.at.x, to: b.at.x }];
  const [i, j] = [walls.indexOf(a.wall), walls.indexOf(b.wall)];
  const n = walls.length;
  const between = (from: number, count: number, step: 1 | -1) =>
    Array.from({ length: count }, (_, k) => walls[(((from + step * (k + 1)) % n) + n) % n]!);
  const right = [
    { wall: a.wall, from: a.at.x, to: a.wall.length },
    ...between(i, ((j - i + n) % n) - 1, 1).map((wall) => ({ wall, from: 0, to: wall.length as number })),
    { wall: b.wall, from: 0, to: b.at.x },
  ];
  const left = [
    { wall: a.wall, from: a.at.x, to: 0 },
    ...between(i, ((i - j + n) % n) - 1, -1).map((wall) => ({ wall, from: wall.length as number, to: 0 })),
    { wall: b.wall, from: b.wall.length, to: b.at.x },
  ];
  const long = (w: typeof right): number => w.reduce((sum, s) => sum + Math.abs(s.to - s.from), 0);
  const barred = (w: typeof right): number =>
    w.filter(({ wall, from, to }) =>
      openings.some(
        (o) =>
          o.wall === wall.id &&
          o.y[0] < level &&
          level < o.y[1] &&
          gap([Math.min(from, to), Math.max(from, to)], o.x) < 0,
      ),
    ).length;
  const longer = long(right) - long(left);
  return (Math.abs(longer) > SAME ? longer : barred(right) - barred(left)) <= 0 ? right : left;
}

/** How far two spans lie apart, and a span from a place; less than 0 where they overlap. */
export const gap = (a: readonly [number, number], b: readonly [number, number]): number =>
  Math.max(a[0] - b[1], b[0] - a[1]);
export const gapTo = (a: readonly [number, number], at: number): number => Math.max(a[0] - at, at - a[1]);
