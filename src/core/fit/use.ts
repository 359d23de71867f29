import { thingCalled } from '../called.ts';
import { type Box, vec } from '../geometry/index.ts';
import type { Note } from '../notes/index.ts';
import { remember } from '../remember.ts';
import { distanceFromOutline, isInside, type PlacedRoom, pointOnWall, type WallFeature } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { leafReach } from './blocking.ts';
import { isLoose, type Standing } from './bodies.ts';
import { reaching } from './meeting.ts';
import { areNear, overlapDepth, type Upright, upright } from './oriented.ts';
import { lengthWorking, named, type Show, TOUCH } from './said.ts';

const asked = remember<Standing, readonly Need[]>();
const NONE: readonly Need[] = [];
const needsOf = (of: Standing): readonly Need[] =>
  of.needs.length === 0
    ? NONE
    : asked(of, NONE, () => of.needs.map((space, i) => ({ of, piece: of.piece, need: of.piece.needs[i]!, space })));
/** What each of its needs meets of the room itself. */
const againstRoom = remember<Standing, readonly (readonly Note[])[]>();

/** A door or drawer of a piece that cannot open against one of the others. */
export const openingNotes = (s: Standing, others: readonly Standing[], show: Show): readonly Note[] =>
  needsOf(s).flatMap((n) => againstPieces(n, others, show));

/** The same, and against the room: a wall, a radiator, its own door. */
export function openingNotesInRoom(
  room: PlacedRoom,
  s: Standing,
  others: readonly Standing[],
  show: Show,
): readonly Note[] {
  const still = againstRoom(s, [room, show], () =>
    needsOf(s).map((n) => [...againstWalls(n, room, show), ...againstFeatures(n, room)]),
  );
  return needsOf(s).flatMap((n, i) => [...againstPieces(n, others, show), ...still[i]!]);
}

/** What a piece and one of the others cannot have open at once. */
export const oneAtATimeNotes = (s: Standing, others: readonly Standing[]): readonly Note[] =>
  needsOf(s).flatMap((b) =>
    others.flatMap((other) =>
      needsOf(other).flatMap((a): readonly Note[] => {
        if (!areNear(a.space, b.space) || overlapDepth(a.space, b.space) <= TOUCH) return [];
        const [first, second] = [subject(a), subject(b)].toSorted();
        return [
          {
            id: `one-at-a-time:${first}|${second}`,
            about: b.need.part ?? b.piece.id,
            at: middle(b.space),
            verdict: 'caution',
            title: `${said(b)} and ${said(a)} cannot be open at once`,
            advice:
              'Hang a door on its other side, or leave it if they are seldom used together; handles may meet as well.',
          },
        ];
      }),
    ),
  );

interface Need {
  readonly of: Standing;
  readonly piece: PlacedPiece;
  readonly need: { readonly what: string; readonly box: Box; readonly part?: string };
  readonly space: Upright;
}
const subject = ({ piece, need }: Need): string => need.part ?? `${piece.id}/${need.what}`;
const said = ({ piece, need }: Need): string => `${named(piece)}: ${need.what}`;
const middle = (u: Upright) =>
  vec((u.corners[0]!.x + u.corners[2]!.x) / 2, (u.low + u.high) / 2, (u.corners[0]!.z + u.corners[2]!.z) / 2);

function againstPieces(n: Need, all: readonly Standing[], show: Show): readonly Note[] {
  return reaching(all, n.piece.id, n.space).map(({ by, depth }) => ({
    id: `cannot-open:${subject(n)}/${by.piece.id}`,
    about: n.need.part ?? n.piece.id,
    at: middle(n.space),
    verdict: isLoose(by.piece) ? ('caution' as const) : ('stop' as const),
    title: `${said(n)} meets ${named(by.piece)}`,
    advice: isLoose(by.piece)
      ? `Keep it ${show(depth)} further away, or move it when the front is used.`
      : 'Move one of them, hang the door on its other side, or put a filler between.',
    working: lengthWorking(
      'How far the space it needs reaches into the other piece',
      'the shortest straight move that parts them',
      [],
      depth,
      {
        value: 0,
        why: 'a front opens freely',
      },
    ),
  }));
}

function againstWalls(n: Need, room: PlacedRoom, show: Show): readonly Note[] {
  // A front flush with the side of its case opens along the wall it stands against; half a millimetre is no collision.
  const tolerance = Math.max(0.5, room.misclosure);
  const out = n.space.corners.filter((c) => !isInside(room.outline, c, tolerance));
  if (out.length === 0) return [];
  const depth = Math.max(...out.map((c) => distanceFromOutline(room.outline, c)));
  return [
    {
      id: `cannot-open:${subject(n)}/wall`,
      about: n.need.part ?? n.piece.id,
      at: middle(n.space),
      verdict: 'stop',
      title: `${said(n)} meets a wall, ${show(depth)} short of the space it needs`,
      advice:
        'Leave a filler between the case and the wall, hang the door on its other side, or make the piece shallower.',
      working: lengthWorking(
        'How far the space it needs reaches through the wall',
        'the distance outside the walls',
        [],
        depth,
        {
          value: 0,
          why: 'a front opens freely',
        },
      ),
    },
  ];
}
/** Radiators and the like stand out of the wall; the leaf of the room's door sweeps the floor. */
function againstFeatures(n: Need, room: PlacedRoom): readonly Note[] {
  return [...room.services, ...room.openings].flatMap((f): readonly Note[] => {
    const wall = room.walls.find((w) => w.id === f.wall);
    if (!wall) return [];
    const swings = f.kind === 'door' && f.swing === 'in';
    const met = swings
      ? leafReach(f, wall, { outside: n.space, bodies: () => [{ upright: n.space, role: '' }] }) <
        f.x[1] - f.x[0] - TOUCH
      : f.out > 0 && overlapDepth(n.space, upright(wall.frame, standsOut(f))) > TOUCH;
    if (!met) return [];
    return [
      {
        id: `${swings ? 'one-at-a-time' : 'cannot-open'}:${subject(n)}/${f.id}`,
        about: n.need.part ?? n.piece.id,
        at: swings ? middle(n.space) : pointOnWall(wall, (f.x[0] + f.x[1]) / 2, (f.y[0] + f.y[1]) / 2),
        verdict: f.kind === 'radiator' ? 'stop' : 'caution',
        title: swings
          ? `${said(n)} and ${thingCalled('door', f.id)} cannot be open at once`
          : `${said(n)} meets ${thingCalled(f.kind, f.id)}`,
        advice: swings
          ? 'Whoever comes in may strike it: hang one of them on its other side, or move the piece.'
          : 'Move the piece, or leave a filler so that the front clears it.',
      },
    ];
  });
}
const standsOut = (f: WallFeature): Box => ({ min: vec(f.x[0], f.y[0], 0), max: vec(f.x[1], f.y[1], f.out) });
