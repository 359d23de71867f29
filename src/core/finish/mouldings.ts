import { thingCalled } from '../called.ts';
import type { Note, Working } from '../notes/index.ts';
import { type Edit, nameOf, type Option, type Plan, type Printers, printersFor } from '../plan/index.ts';
import { remember } from '../remember.ts';
import { type PlacedRoom, type PlacedWall, pointOnWall, type WallFeature } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { mouldingWidth } from './finishing.ts';
import { coversOf, lowestOf, type SeenJoint, scribeRuns, skirtingRuns } from './take-off.ts';

/** What mouldings are laid in: the room as it is, and the pieces of one option. */
export interface MouldingInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
}

/** Nearer than this two edges touch, mm. */
const TOUCH = 0.01;
/** Narrower than this nobody rips a casing or a filler, mm. Common practice. */
const NARROWEST = 10;
/** What must stay reachable, and lies flat in the wall. */
const BOXES: ReadonlySet<string> = new Set(['outlet', 'switch', 'data', 'thermostat', 'vent', 'return']);
const CALLED: Readonly<Record<string, string>> = { data: 'data outlet', return: 'return air grille' };

interface Rect {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}
const shared = (a: readonly [number, number], b: readonly [number, number]): number =>
  Math.min(a[1], b[1]) - Math.max(a[0], b[0]);
const onto = (a: Rect, b: Rect): boolean => shared(a.x, b.x) > TOUCH && shared(a.y, b.y) > TOUCH;

/** An opening with its casing. */
function cased(f: WallFeature): Rect {
  const { x, y } = f;
  const trim = f.trim ?? 0;
  return { x: [x[0] - trim, x[1] + trim], y: [lowestOf(f), y[1] + trim] };
}
const called = ({ kind, id }: WallFeature): string => thingCalled(CALLED[kind] ?? kind, id);

/** Mouldings that are wider than the place they are to lie in: casings of the room, skirting, and what covers the gaps at cases. */
export const mouldingNotes = (input: MouldingInput): readonly Note[] => {
  const print = printersFor(input.plan.units);
  return [
    ...casings(input.room, [input.plan.room, print.length], () => casingNotes(input, print)),
    ...skirtingNotes(input, print),
    ...scribeNotes(input, print),
  ];
};
const casings = remember<PlacedRoom, readonly Note[]>();

function working(what: string, gap: number, width: number, why: string): Working {
  return {
    what,
    formula: 'the distance between the edges on the wall, which the moulding may fill and no more',
    inputs: [{ symbol: 'w', name: 'width that is to lie there', value: width, unit: 'mm' }],
    result: { value: gap, unit: 'mm' },
    limit: { value: width, unit: 'mm', why },
    source: 'common practice',
    assumes: ['wall and pieces as the plan gives them; walls flat and plumb'],
  };
}

/** Where the casing of an opening ends at the corner, the ceiling, the floor, the next opening or a box in the wall. */
function casingNotes({ plan, room }: MouldingInput, print: Printers): readonly Note[] {
  const notes: Note[] = [];
  // one that stands on no wall is an issue of the plan, and shifts the count
  const path = (i: number) => ['room', 'openings', i, 'trim'];
  const known = plan.room.openings.length === room.openings.length;
  const cure = (i: number, gap: number): Pick<Note, 'cure'> => {
    // rounded down as it is written, so that it fits
    const width = Math.floor(gap * 10 + TOUCH) / 10;
    if (!known || width < NARROWEST) return {};
    const edits: readonly Edit[] = [{ op: 'set', path: path(i), value: `${width} mm` }];
    return { cure: { title: `Make its casing ${print.notMore(width)} wide`, edits } };
  };
  const tell = (f: WallFeature, wall: PlacedWall, where: string, gap: number, more: Partial<Note> = {}): void => {
    const room = Math.max(0, gap);
    notes.push({
      id: `casing-gap:${f.id}/${where}`,
      about: 'room',
      at: pointOnWall(wall, (f.x[0] + f.x[1]) / 2, (f.y[0] + f.y[1]) / 2),
      verdict: 'caution',
      title: `The casing of ${called(f)} is ${print.length(f.trim!)} wide, and only ${print.notMore(room)} are free to the ${where}`,
      advice: `Measure the opening and the ${where} again. If they are right, rip that length of casing to what is free, choose a narrower casing, or butt it against what it meets and scribe it.`,
      working: working(`Free wall beside the casing, to the ${where}`, room, f.trim!, 'width of the casing'),
      ...more,
    });
  };
  for (const [i, f] of room.openings.entries()) {
    const wall = room.walls.find((w) => w.id === f.wall);
    const trim = f.trim ?? 0;
    if (!wall || trim === 0) continue;
    const before = room.walls[(room.walls.indexOf(wall) + room.walls.length - 1) % room.walls.length]!;
    const straight = (corner: number): boolean => Math.abs(corner - 180) < 1;
    const sides: readonly (readonly [where: string, gap: number, judged: boolean])[] = [
      ['left corner', f.x[0], !straight(before.corner)],
      ['right corner', wall.length - f.x[1], !straight(wall.corner)],
      ['top of the wall', wall.height - f.y[1], true],
      ['floor', f.y[0], cased(f).y[0] < f.y[0]],
    ];
    for (const [where, gap, judged] of sides) if (judged && gap < trim - TOUCH) tell(f, wall, where, gap, cure(i, gap));
    for (const [j, g] of room.openings.entries()) {
      // told once, of the later; where only one has a casing, of that one
      if (i === j || g.wall !== f.wall || (j > i && (g.trim ?? 0) > 0) || !onto(cased(f), cased(g))) continue;
      const other = g.trim ?? 0;
      const [across, up] = [-shared(f.x, g.x), -shared(f.y, g.y)];
      const gap = Math.max(0, across, up);
      tell(f, wall, called(g), gap, {
        title: `The casings between ${called(g)} and ${called(f)} want ${print.notLess(trim + other)}, and only ${print.notMore(gap)} are free`,
        advice:
          'Measure both openings again. If they are right, cover what is between them with one board that both casings run into, or rip the two to what is free.',
        working: working(
          'Free wall between two openings',
          gap,
          trim + other,
          'the width of the casings that meet there',
        ),
        ...cure(i, gap - other),
      });
    }
    for (const s of room.services) {
      if (s.wall !== f.wall || !BOXES.has(s.kind) || !onto(cased(f), s)) continue;
      const gap = Math.max(0, -shared(f.x, s.x), -shared(f.y, s.y));
      tell(f, wall, called(s), gap, {
        title: `The casing of ${called(f)} runs over ${called(s)}`,
        advice: `Measure both again. If they are right, rip the casing to ${print.notMore(gap)} there, or have the box moved by an electrician: a cover must lie flat and come off.`,
        ...cure(i, gap),
      });
    }
  }
  return notes;
}

/** What lies in the skirting: a box that its upper edge covers. */
function skirtingNotes(input: MouldingInput, print: Printers): readonly Note[] {
  const height = mouldingWidth(input, 'skirting');
  if (height === 0 || !input.room.services.some((s) => s.y[0] < height && BOXES.has(s.kind))) return [];
  const runs = skirtingRuns(input, height, mouldingWidth(input, 'scribe'));
  return input.room.services.flatMap((s): readonly Note[] => {
    const wall = input.room.walls.find((w) => w.id === s.wall);
    const struck = runs.some((r) => r.wall === s.wall && onto({ x: [r.from, r.from + r.length], y: [0, height] }, s));
    if (!wall || !struck || !BOXES.has(s.kind)) return [];
    return [
      {
        id: `skirting-gap:${s.id}`,
        about: 'room',
        at: pointOnWall(wall, (s.x[0] + s.x[1]) / 2, (s.y[0] + s.y[1]) / 2),
        verdict: 'caution',
        title: `The skirting is ${print.length(height)} high, and ${called(s)} begins ${print.notMore(Math.max(0, s.y[0]))} above the floor`,
        advice:
          'Take a lower skirting, end it on both sides of the box, or notch it round the cover plate: a box stays reachable, and an electrician brings it forward with an extender where it would lie behind wood.',
        working: working('Free wall under a box', Math.max(0, s.y[0]), height, 'height of the skirting'),
      },
    ];
  });
}

interface Obstacle extends Rect {
  readonly id: string;
  readonly name: string;
  /** Of a case with a moulding of its own on the side that faces. */
  readonly faces?: readonly SeenJoint[];
}

/** Pieces that lie on the wall, so that no moulding runs under them. */
const FLAT: ReadonlySet<string> = new Set(['case', 'lining', 'shelf', 'absorber']);

function obstaclesOn(wall: PlacedWall, { room, pieces }: MouldingInput, joints: readonly SeenJoint[]): Obstacle[] {
  const at = room.walls.indexOf(wall);
  const standing = pieces.flatMap((piece): readonly Obstacle[] => {
    const cover = FLAT.has(piece.kind) ? coversOf(piece, room)[at] : undefined;
    const { id, title } = piece;
    return cover ? [{ id, name: title || id, ...cover, faces: joints.filter((j) => j.piece === id) }] : [];
  });
  const openings = room.openings
    .filter((o) => o.wall === wall.id)
    .map((o) => ({ id: o.id, name: o.trim ? `the casing of ${called(o)}` : called(o), ...cased(o) }));
  const boxes = room.services
    .filter((s) => s.wall === wall.id && BOXES.has(s.kind))
    .map((s) => ({ id: s.id, name: called(s), x: s.x, y: s.y }));
  return [...standing, ...openings, ...boxes];
}

/** The moulding over the gap between a case and its wall, where the corner, an opening or the next piece is nearer than it is wide. */
function scribeNotes(input: MouldingInput, print: Printers): readonly Note[] {
  const width = mouldingWidth(input, 'scribe');
  if (width === 0) return [];
  return input.room.walls.flatMap((wall) => {
    const joints = scribeRuns(input, wall, width);
    const obstacles = joints.length > 0 ? obstaclesOn(wall, input, joints) : [];
    return joints.flatMap((joint) => scribeNote(input, wall, joint, obstacles, width, print));
  });
}

/** How far it is from the edge of a case, on the side where its moulding lies, to what a wall ends with or carries. */
function distanceFrom({ x, y, length, free }: SeenJoint, to: Rect): number | undefined {
  const along: readonly [number, number] = free ? [y, y + length] : [x, x + length];
  if (shared(along, free ? to.y : to.x) <= TOUCH) return undefined;
  // what begins before the edge and ends behind it lies over the edge itself
  const [near, far] =
    free === 'left'
      ? [x - to.x[1], x - to.x[0]]
      : free === 'right'
        ? [to.x[0] - x, to.x[1] - x]
        : [to.y[0] - y, to.y[1] - y];
  return far > TOUCH ? Math.max(0, near) : undefined;
}

function scribeNote(
  input: MouldingInput,
  wall: PlacedWall,
  joint: SeenJoint,
  obstacles: readonly Obstacle[],
  width: number,
  print: Printers,
): readonly Note[] {
  const { free, x, y, length } = joint;
  const end = free === 'left' ? x : free === 'right' ? wall.length - x : wall.height - y;
  const ways = [
    { to: free ? 'the corner' : 'the top of the wall', corner: true, gap: end, wanted: width, pair: false },
    ...obstacles.flatMap((o) => {
      const gap = o.id === joint.piece ? undefined : distanceFrom(joint, o);
      if (gap === undefined) return [];
      const pair = o.faces?.some(
        (j) => j.free && free && j.free !== free && shared([j.y, j.y + j.length], [y, y + length]) > TOUCH,
      );
      return [{ to: o.name, corner: false, gap, wanted: pair ? 2 * width : width, pair: pair ?? false }];
    }),
  ].filter(({ gap, wanted }) => gap < wanted - TOUCH);
  const worst = ways.reduce<(typeof ways)[number] | undefined>((a, b) => (a && a.gap <= b.gap ? a : b), undefined);
  // between two cases it is told of the one on the left
  if (!worst || (worst.pair && free === 'left')) return [];
  return [
    {
      id: `moulding-gap:${joint.id}`,
      about: joint.piece,
      at: free ? pointOnWall(wall, x, y + length / 2) : pointOnWall(wall, x + length / 2, y),
      verdict: 'caution',
      title: worst.pair
        ? `The mouldings ${joint.name} and on ${worst.to} want ${print.notLess(worst.wanted)}, and only ${print.notMore(worst.gap)} are free between them`
        : `The moulding ${joint.name} is ${print.length(width)} wide, and only ${print.notMore(worst.gap)} are free to ${worst.to}`,
      advice: free
        ? 'Close the gap with a filler, move the case, take a narrower moulding, or leave it away there and scribe or caulk the joint.'
        : 'Take a narrower moulding, make the case lower, or leave it away there and scribe or caulk the joint.',
      working: working('Free wall beside a case', worst.gap, worst.wanted, 'width of what covers the joint'),
      ...(worst.corner && free && fillerCure(input, joint, worst.gap, print)),
    },
  ];
}

/** A filler from the case to the corner: the case takes the gap into its width. */
function fillerCure(
  { plan, option }: MouldingInput,
  joint: SeenJoint,
  gap: number,
  print: Printers,
): Pick<Note, 'cure'> {
  const i = option.pieces.findIndex((p) => nameOf(p) === joint.piece);
  const said = option.pieces[i];
  if (!said || !('case' in said) || said.from === undefined || gap < NARROWEST) return {};
  const side = joint.free!;
  // what follows a case, or stands on it, would move with its end
  if (option.pieces.some((p) => p.after === joint.piece || p.on === joint.piece)) return {};
  const path = ['options', plan.options.indexOf(option), 'pieces', i];
  const set = (keys: readonly string[], value: number): Edit => ({
    op: 'set',
    path: [...path, ...keys],
    value: `${value} mm`,
  });
  const wide = (said.fillers?.[side] ?? 0) + gap;
  const edits: readonly Edit[] = [
    ...(side === 'left' ? [set(['from'], said.from - gap)] : []),
    set(['size', 'width'], said.size.width + gap),
    said.fillers
      ? set(['fillers', side], wide)
      : { op: 'set', path: [...path, 'fillers'], value: { [side]: `${wide} mm` } },
  ];
  return { cure: { title: `Close the gap with a filler of ${print.length(gap)}`, edits } };
}
