import { wallCalled } from '../called.ts';
import type { Note, Working } from '../notes/index.ts';
import { type Option, printersFor } from '../plan/index.ts';
import { inch } from '../quantity/index.ts';
import type { PlacedRoom, PlacedWall } from '../room/index.ts';
import type { Fitting } from '../scene/index.ts';
import { type FixingPoint, fixings, STUD_CUTS, type WallInput } from '../strength/index.ts';

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
/** Board and saw cut to leave between a box and a stud's face, and round any fixing, mm. Common practice. */
const CLEAR = 5;
const FROM_FIXING = 25;
/** Slack at each end of a cable: out of the box, to the plug, and one to spare, mm. Common practice. */
const SLACK = 300;
/** A cable in a bored stud keeps this from its edges, or a steel plate covers it. Source: NEC 300.4(A)(1). */
const FROM_EDGE = inch(1.25);

const CAUTION =
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
  const stretches = way(room, a, b);
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

/** The stretches along the walls from one place to another, the shorter way round the room. */
function way(
  { walls }: PlacedRoom,
  a: { readonly wall: PlacedWall; readonly at: Spot },
  b: { readonly wall: PlacedWall; readonly at: Spot },
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
  return long(right) <= long(left) ? right : left;
}

/** Notes on boxes and cables in the walls: what stands in their way, what may not share a space, what may not run there, how long. */
export function inWallNotes(input: WallInput): readonly Note[] {
  if (!input.option.boxes && !input.option.cables) return [];
  const { points } = fixings(input);
  const boxes = wallBoxes(input);
  return [...boxes.flatMap((box) => boxNotes(input, box, boxes, points)), ...cableNotes(input, points)];
}

interface Finding {
  readonly what: string;
  readonly title: string;
  readonly advice: string;
  readonly verdict: Note['verdict'];
}

function boxNotes(
  input: WallInput,
  box: WallBox,
  boxes: readonly WallBox[],
  points: readonly FixingPoint[],
): readonly Note[] {
  const { length } = printersFor(input.plan.units);
  const faults = [...faultsOf(input, box, boxes, points)];
  const { said, wall } = box;
  if (faults.length === 0)
    return [
      {
        id: `box:${said.id}`,
        about: said.id,
        verdict: 'fine',
        title: `${said.id} fits between the studs of the ${wallCalled(wall.id)}`,
        advice: `Cut out ${length(box.x[1] - box.x[0])} × ${length(box.y[1] - box.y[0])}, its middle ${length(said.at)} from the left end and ${length(said.height)} up. Checked against studs, fixings, services and other boxes. ${CAUTION}`,
      },
    ];
  const to = faults.some(({ what }) => ANYWHERE.has(what)) ? undefined : placeFor(input, box, boxes, points);
  const index = input.plan.options.indexOf(input.option);
  const path = ['options', index, 'boxes', input.option.boxes!.indexOf(said), 'at'];
  return faults.map((fault) => ({
    id: `box:${said.id}:${fault.what}`,
    about: said.id,
    verdict: fault.verdict,
    title: fault.title,
    advice: `${fault.advice} ${CAUTION}`,
    ...(to !== undefined && {
      cure: {
        title: `Move it to ${length(to)} from the left end`,
        edits: [{ op: 'set', path, value: `${to} mm` }],
      },
    }),
  }));
}

const gap = (a: readonly [number, number], b: readonly [number, number]): number => Math.max(a[0] - b[1], b[0] - a[1]);
const gapTo = (a: readonly [number, number], at: number): number => Math.max(a[0] - at, at - a[1]);

/** Faults of a box that no other place of its wall cures. */
const ANYWHERE: ReadonlySet<string> = new Set(['masonry', 'depth']);
/** The bay of a wall a place lies in: how many studs stand left of it. */
const bayAt = (wall: PlacedWall, x: number): number => wall.studs.filter((s) => s.at < x).length;

/** One after the other: whoever asks whether there is any needs no more than the first. */
function* faultsOf(
  input: WallInput,
  { said, wall, x, y, depth }: WallBox,
  boxes: readonly WallBox[],
  points: readonly FixingPoint[],
): Generator<Finding> {
  const { length } = printersFor(input.plan.units);
  const framing = input.plan.room.walls.find((w) => w.id === wall.id)?.framing;
  const fault = (verdict: Note['verdict'], what: string, title: string, advice: string): Finding => ({
    ...{ verdict, what, title, advice },
  });
  if (x[0] < 0 || x[1] > wall.length || y[0] < 0 || y[1] > wall.height)
    yield fault('stop', 'wall', `${said.id} reaches past the ${wallCalled(wall.id)}`, 'Set it within the wall.');
  const stud = wall.studs.find((s) => gap(x, [s.at - s.width / 2, s.at + s.width / 2]) < CLEAR);
  if (stud)
    yield fault(
      'stop',
      'stud',
      `${said.id} lands on the stud at ${length(stud.at)}`,
      'A box between studs needs the whole hollow: no stud is notched for it.',
    );
  if (framing?.kind === 'masonry')
    yield fault(
      'caution',
      'masonry',
      `${said.id} is chased into masonry`,
      `A chase ${length(depth)} deep weakens a thin wall and meets what is in it: find cables and pipes first, cut no more than a third of the wall's thickness, and mask against dust. A box on the wall needs none of it.`,
    );
  const hollow =
    framing?.kind === 'masonry'
      ? Number.POSITIVE_INFINITY
      : (framing?.depth ?? inch(3.5)) + (framing?.board ?? inch(0.5));
  if (depth > hollow)
    yield fault(
      'stop',
      'depth',
      `${said.id} is ${length(depth)} deep; the wall has ${length(hollow)}`,
      'Take a shallower box.',
    );
  const block =
    framing && 'blocking' in framing
      ? framing.blocking?.find((b) => gap(x, [b.from, b.to]) < CLEAR && gap(y, [b.above, b.above + b.height]) < CLEAR)
      : undefined;
  if (block)
    yield fault(
      'stop',
      'blocking',
      `${said.id} lands on the timber let in behind the board, ${length(block.above)} up`,
      'A box needs the whole hollow: what was let in to carry is not cut away for it.',
    );
  const fixing = points.find((p) => p.wall === wall.id && gapTo(x, p.x) < FROM_FIXING && gapTo(y, p.y) < FROM_FIXING);
  if (fixing)
    yield fault(
      'stop',
      'fixing',
      `A fixing of ${fixing.piece} goes into ${said.id}`,
      'Move the box or the fixing: a screw into a box can kill.',
    );
  const service = input.room.services.find(
    (s) => s.wall === wall.id && gap(x, s.x) < FROM_FIXING && gap(y, s.y) < FROM_FIXING,
  );
  if (service)
    yield fault('stop', 'service', `${said.id} meets ${service.id}`, 'Leave room for both boxes and their cables.');
  const opening = input.room.openings.find((o) => o.wall === wall.id && gap(x, o.x) < 40 && gap(y, o.y) < 40);
  if (opening)
    yield fault(
      'stop',
      'opening',
      `${said.id} stands in the framing of ${opening.id}`,
      'Studs and a header stand round every opening.',
    );
  const bay = bayAt(wall, said.at);
  const shares = boxes.find(
    (b) => b.said !== said && b.wall === wall && b.said.carries !== said.carries && bayAt(wall, b.said.at) === bay,
  );
  if (shares && wall.studs.length > 0)
    yield fault(
      'caution',
      'shares',
      `${said.id} (${said.carries}) shares a bay with ${shares.said.id} (${shares.said.carries})`,
      'Their cables must keep 2 in apart for good, fixed so, or one goes into the next bay.',
    );
  const hollowFixing = points.find(
    (p) =>
      said.carries === 'mains' &&
      p.wall === wall.id &&
      wall.studs.length > 0 &&
      p.lands === 'board only' &&
      bayAt(wall, p.x) === bay,
  );
  if (hollowFixing)
    yield fault(
      'caution',
      'anchor',
      `A ${hollowFixing.kind} of ${hollowFixing.piece} opens in the bay of ${said.id}`,
      'What spreads behind the board must not press on a mains cable: the cable would run down the other side of the bay, or the box goes into another bay.',
    );
}

/** The nearest place along its wall where nothing is in the way of a box, in steps of 10 mm. */
function placeFor(
  input: WallInput,
  box: WallBox,
  boxes: readonly WallBox[],
  points: readonly FixingPoint[],
): number | undefined {
  const half = (box.x[1] - box.x[0]) / 2;
  for (let step = 10; step <= 1500; step += 10)
    for (const at of [box.said.at - step, box.said.at + step]) {
      const moved = { ...box, said: { ...box.said, at: at as typeof box.said.at }, x: [at - half, at + half] as const };
      const others = boxes.filter((b) => b !== box);
      if (faultsOf(input, moved, [...others, moved], points).next().done) return Math.round(at * 10) / 10;
    }
  return undefined;
}

/** The opening of a wall that the way of a cable leads into. */
const openingIn = ({ openings }: PlacedRoom, legs: CableRun['legs']) =>
  openings.find((o) =>
    legs.some(
      ({ wall, from, to }) =>
        wall === o.wall &&
        gap([Math.min(from.x, to.x), Math.max(from.x, to.x)], o.x) < 0 &&
        gap([Math.min(from.y, to.y), Math.max(from.y, to.y)], o.y) <= 0,
    ),
  );

function cableNotes(input: WallInput, points: readonly FixingPoint[]): readonly Note[] {
  const { length } = printersFor(input.plan.units);
  const index = input.plan.options.indexOf(input.option);
  return cableRuns(input).flatMap((run): readonly Note[] => {
    const { said, legs, crosses, working } = run;
    const path = ['options', index, 'cables', input.option.cables!.indexOf(said)];
    const inside = said.route === 'in the wall';
    const outside = {
      title: 'Run it on the wall',
      edits: [{ op: 'set', path: [...path, 'route'], value: 'on the wall' }],
    };
    const note = (
      what: string,
      verdict: Note['verdict'],
      title: string,
      advice: string,
      cure?: Note['cure'],
    ): Note => ({
      id: `cable:${said.id}${what && `:${what}`}`,
      about: said.id,
      verdict,
      title,
      advice: `${advice} ${CAUTION}`,
      working,
      ...(cure && { cure }),
    });
    const found: Note[] = [];
    const kinds = legs.map((leg) => input.plan.room.walls.find((w) => w.id === leg.wall)?.framing);
    if (inside && said.carries === 'plug cord')
      found.push(
        note(
          'cord',
          'stop',
          `${said.id} is a plug cord: it may not run inside a wall`,
          'Have a socket put where it is needed, or lead the cord over the wall in a duct, in reach all along.',
          outside,
        ),
      );
    if (inside && said.carries === 'signal' && !said.rated)
      found.push(
        note(
          'rating',
          'stop',
          `${said.id} carries no marking for use inside a wall`,
          'Take a cable marked CL2, CL3 or CM (or what your code names), or a conduit that it can be drawn through; else keep it on the wall.',
          { title: 'Take a cable marked for walls', edits: [{ op: 'set', path: [...path, 'rated'], value: true }] },
        ),
      );
    if (inside && kinds.some((f) => f?.kind === 'masonry'))
      found.push(
        note(
          'masonry',
          'caution',
          `${said.id} would be chased into masonry over ${length(run.way)}`,
          'A duct on the wall or behind the cases costs no dust.',
          outside,
        ),
      );
    const hit = inside
      ? points.find((p) =>
          legs.some(
            (leg) =>
              leg.wall === p.wall &&
              gapTo([Math.min(leg.from.x, leg.to.x), Math.max(leg.from.x, leg.to.x)], p.x) < FROM_EDGE &&
              gapTo([Math.min(leg.from.y, leg.to.y), Math.max(leg.from.y, leg.to.y)], p.y) < FROM_EDGE,
          ),
        )
      : undefined;
    if (hit)
      found.push(
        note(
          'fixing',
          'stop',
          `A fixing of ${hit.piece} stands in the way of ${said.id} at ${length(hit.x)}, ${length(hit.y)} up`,
          `Lead the cable ${length(FROM_EDGE)} or more beside it, or cover it with a steel plate.`,
          outside,
        ),
      );
    const barred = openingIn(input.room, legs);
    if (barred)
      found.push(
        note(
          'opening',
          'stop',
          `${said.id} runs into ${barred.id}, ${length(Math.min(...legs.map((leg) => Math.min(leg.from.y, leg.to.y))))} up`,
          `Nothing carries a cable across an opening. Lead it under the floor, over the ceiling, or on the wall round the casing${barred.kind === 'window' ? ', or end it lower than the sill' : ''}: longer than is reckoned here, so measure that way before it is bought.`,
        ),
      );
    const hole = said.diameter ?? 8;
    const depth = kinds.find((f) => f?.kind === 'timber stud')?.depth ?? inch(3.5);
    const most = Math.min(STUD_CUTS['hole, bearing wall'] * depth, depth - 2 * FROM_EDGE);
    if (inside && crosses > 0 && kinds.some((f) => f?.kind === 'timber stud') && hole > most)
      found.push(
        note(
          'bore',
          'stop',
          `${said.id} needs a hole of ${length(hole)} through ${crosses} studs; ${length(most)} is allowed`,
          'Share the cables out over several holes, or run it on the wall.',
          outside,
        ),
      );
    if (found.length > 0) return found;
    const through =
      crosses === 0
        ? ''
        : kinds.some((f) => f?.kind === 'steel stud')
          ? ` It crosses ${crosses === 1 ? 'one steel stud' : `${crosses} steel studs`}: through punched holes, each with a grommet.`
          : ` It crosses ${crosses === 1 ? 'one stud' : `${crosses} studs`}: bore in the middle of each, ${length(FROM_EDGE)} or more from either edge, or cover the hole with a steel plate.`;
    return [
      note(
        '',
        'fine',
        `${said.id} runs ${length(run.way)} ${said.route}: ${length(run.length)} with slack`,
        `Buy the next length up, and draw a string in beside it for the cable that comes after.${through}`,
      ),
    ];
  });
}
