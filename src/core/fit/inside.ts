import { fromRoom, vec } from '../geometry/index.ts';
import type { Note } from '../notes/index.ts';
import { remember } from '../remember.ts';
import { distanceFromOutline, isInside, type PlacedRoom, pointOnWall, wallBefore, wallOf } from '../room/index.ts';
import { isLoose, type Standing } from './bodies.ts';
import { lengthWorking, named, type Show, TOUCH } from './said.ts';

const kept = remember<Standing, readonly Note[]>();

/** Pieces that stick out: past the end of their wall, through another wall, the ceiling or the floor. */
export function insideNotes(room: PlacedRoom, all: readonly Standing[], show: Show): readonly Note[] {
  return all.flatMap((s) =>
    kept(s, [room, show], () => [...heights(room, s, show), ...(pastEnd(room, s, show) ?? outOfRoom(room, s, show))]),
  );
}

function heights(room: PlacedRoom, { piece, outside }: Standing, show: Show): readonly Note[] {
  const notes: Note[] = [];
  const over = outside.high - room.ceiling;
  const middle = vec(
    (outside.corners[0]!.x + outside.corners[2]!.x) / 2,
    room.ceiling,
    (outside.corners[0]!.z + outside.corners[2]!.z) / 2,
  );
  if (over > TOUCH)
    notes.push({
      id: `through-ceiling:${piece.id}`,
      about: piece.id,
      at: middle,
      verdict: 'stop',
      title: `${named(piece)} reaches ${show(over)} above the ceiling`,
      advice: 'Make it lower, or hang it lower; a case that is stood up in place needs room to turn as well.',
      working: lengthWorking(
        'Top of the piece',
        't = above + height',
        [
          ['above', 'lowest point above the floor', outside.low],
          ['height', 'outside height', outside.high - outside.low],
        ],
        outside.high,
        { value: room.ceiling, why: 'the ceiling of the room' },
      ),
    });
  const wall = piece.wall && wallOf(room, piece.wall.id);
  if (wall && wall.height < room.ceiling - TOUCH && outside.high > wall.height + TOUCH)
    notes.push({
      id: `above-wall:${piece.id}`,
      about: piece.id,
      at: { ...middle, y: wall.height },
      verdict: 'caution',
      title: `${named(piece)} reaches ${show(outside.high - wall.height)} above wall ${wall.id}`,
      advice: 'Nothing is behind that part to fix it to; fix it lower, and see how its back looks from the other side.',
      working: lengthWorking('Top of the piece above its wall', 'above + height', [], outside.high, {
        value: wall.height,
        why: 'the height of the wall',
      }),
    });
  if (outside.low < -TOUCH)
    notes.push({
      id: `below-floor:${piece.id}`,
      about: piece.id,
      at: { ...middle, y: 0 },
      verdict: 'stop',
      title: `${named(piece)} reaches ${show(-outside.low)} below the floor`,
      advice: "Raise it: 'above' counts from the floor.",
      working: lengthWorking('Lowest point of the piece', 'above', [], outside.low, { value: 0, why: 'the floor' }),
    });
  return notes;
}

/** Along its own wall. Undefined when it stays between the wall's ends. */
function pastEnd(room: PlacedRoom, { piece }: Standing, show: Show): readonly Note[] | undefined {
  const wall = piece.wall && wallOf(room, piece.wall.id);
  if (!wall || !piece.wall) return undefined;
  const [left, right] = [piece.wall.from + piece.outside.min.x, piece.wall.from + piece.outside.max.x];
  const ends = [
    { end: 'left', past: -left, x: 0 },
    { end: 'right', past: right - wall.length, x: wall.length },
  ].filter(({ past }) => past > TOUCH);
  if (ends.length === 0) return undefined;
  const height = (piece.outside.min.y + piece.outside.max.y) / 2 + piece.frame.origin.y;
  return ends.map(({ end, past, x }) => {
    const corner = (end === 'right' ? wall : wallBefore(room, wall.id)!).corner;
    const open = corner > 180; // an outer corner: it overhangs into the room instead of meeting a wall
    return {
      id: `past-end:${piece.id}/${end}`,
      about: piece.id,
      at: pointOnWall(wall, x, height),
      verdict: open || isLoose(piece) ? ('caution' as const) : ('stop' as const),
      title: `${named(piece)} reaches ${show(past)} past the ${end} end of wall ${wall.id}`,
      advice: open
        ? 'It stands past an outer corner: nothing is behind that end to fix it to, and its back shows there.'
        : piece.kind === 'case'
          ? 'Move it or make it narrower; leave room for a filler, since corners are seldom square.'
          : 'Move it or make it narrower.',
      working: lengthWorking(
        'Room along the wall',
        'past = from + width − length of the wall, or −from',
        [
          ['from', 'left end along the wall', left],
          ['to', 'right end along the wall', right],
          ['length', 'length of the wall', wall.length],
        ],
        past,
        { value: 0, why: 'the end of the wall' },
      ),
    };
  });
}

/** Through a wall: a corner of it lies outside, or a corner of the room runs into it. */
function outOfRoom(room: PlacedRoom, { piece, outside }: Standing, show: Show): readonly Note[] {
  // What the walls were moved by when the misclosure was shared out is not the piece's fault.
  const tolerance = Math.max(TOUCH, room.misclosure);
  const out = outside.corners.filter((c) => !isInside(room.outline, c, tolerance));
  const cut =
    out.length > 0 ||
    room.outline.some((a, i) => crosses(piece, a, room.outline[(i + 1) % room.outline.length]!, tolerance));
  if (!cut) return [];
  const far = out.length === 0 ? 0 : Math.max(...out.map((c) => distanceFromOutline(room.outline, c)));
  const at = out[0] ?? outside.corners[0]!;
  return [
    {
      id: `out-of-room:${piece.id}`,
      about: piece.id,
      at: vec(at.x, (outside.low + outside.high) / 2, at.z),
      verdict: isLoose(piece) ? 'caution' : 'stop',
      title:
        far > 0
          ? `${named(piece)} sticks ${show(far)} out of the room`
          : `A corner of the room runs into ${named(piece)}`,
      advice: 'Move it into the room, turn it, or make it smaller.',
      working: lengthWorking(
        'How far it sticks out',
        'the distance from the walls to its corner that lies furthest outside',
        [],
        far,
        {
          value: 0,
          why: 'walls',
        },
      ),
    },
  ];
}

/** Whether a side of the room passes through a piece's outline in plan, deeper than `by`. */
function crosses(
  piece: Standing['piece'],
  a: { x: number; z: number },
  b: { x: number; z: number },
  by: number,
): boolean {
  const [p, q] = [a, b].map((c) => fromRoom(piece.frame, vec(c.x, 0, c.z)));
  let [from, to] = [0, 1];
  for (const axis of ['x', 'z'] as const) {
    const [low, high] = [piece.outside.min[axis] + by, piece.outside.max[axis] - by];
    // too thin for anything to pass through it as deep as that
    if (low >= high) return false;
    const run = q![axis] - p![axis];
    if (run === 0) {
      if (p![axis] <= low || p![axis] >= high) return false;
      continue;
    }
    const [t0, t1] = [(low - p![axis]) / run, (high - p![axis]) / run].toSorted((x, y) => x - y);
    from = Math.max(from, t0!);
    to = Math.min(to, t1!);
  }
  return from < to;
}
