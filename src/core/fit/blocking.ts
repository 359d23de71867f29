import { thingCalled } from '../called.ts';
import { type Box, signedArea, vec } from '../geometry/index.ts';
import type { Note, Verdict, Working } from '../notes/index.ts';
import { remember } from '../remember.ts';
import { type PlacedRoom, type PlacedWall, pointOnWall, type WallFeature } from '../room/index.ts';
import type { BayOpening, PlacedPiece } from '../scene/index.ts';
import { type Body, isLoose, type Standing } from './bodies.ts';
import {
  distanceTo,
  overlapDepth,
  type PlanPoint,
  seenFrom,
  sharedOutline,
  type Upright,
  upright,
} from './oriented.ts';
import { lengthWorking, named, type Show, TOUCH } from './said.ts';

/** Casing and sash stand out of a wall about this far, mm. Common practice. */
const CASING = 25;

/** Pieces in the way of what the walls carry: outlets, switches, vents, radiators, windows and doors. */
export function blockingNotes(room: PlacedRoom, all: readonly Standing[], show: Show): readonly Note[] {
  const walls = new Map(room.walls.map((w) => [w.id, w]));
  const features = [...room.openings, ...room.services];
  const each = all.map((s) =>
    blocked(s, [room, show], () =>
      features.map((feature) => {
        const wall = walls.get(feature.wall);
        return wall && noteFor(feature, wall, s, show);
      }),
    ),
  );
  return features.flatMap((_, i) => each.flatMap((notes) => notes[i] ?? []));
}

/** Of each feature of the room. */
const blocked = remember<Standing, readonly (Note | undefined)[]>();

interface Told {
  readonly verdict: Verdict;
  readonly title: string;
  readonly advice: string;
  readonly working?: Working;
  readonly id?: string;
}

function noteFor(feature: WallFeature, wall: PlacedWall, s: Standing, show: Show): Note | undefined {
  const told =
    feature.kind === 'door' || feature.kind === 'opening'
      ? before(feature, wall, s, show)
      : feature.kind === 'window'
        ? overWindow(feature, wall, s, show)
        : overService(feature, wall, s);
  if (!told) return undefined;
  const { id, ...rest } = told;
  return {
    id: `${id ?? `blocks-${feature.kind}`}:${s.piece.id}/${feature.id}`,
    about: s.piece.id,
    at: pointOnWall(wall, (feature.x[0] + feature.x[1]) / 2, (feature.y[0] + feature.y[1]) / 2),
    ...rest,
    verdict: isLoose(s.piece) && rest.verdict === 'stop' ? 'caution' : rest.verdict,
  };
}

/** The space in front of a feature, standing in the room. */
const spaceBefore = (wall: PlacedWall, f: WallFeature, depth: number, margin = 0): Upright =>
  upright(wall.frame, boxBefore(f, depth, margin));
const boxBefore = (f: WallFeature, depth: number, margin: number): Box => ({
  min: vec(f.x[0] - margin, f.y[0] - margin, 0),
  max: vec(f.x[1] + margin, f.y[1] + margin, depth),
});
const hits = (bodies: readonly Body[], into: Upright): readonly Body[] =>
  bodies.filter((b) => overlapDepth(b.upright, into) > TOUCH);

function overService(f: WallFeature, wall: PlacedWall, s: Standing): Told | undefined {
  const space = spaceBefore(wall, f, Math.max(f.out + f.clear, 1));
  if (overlapDepth(s.outside, space) <= TOUCH) return undefined;
  const lining = s.piece.kind === 'lining';
  // Panels that are cut out round it still bury its box: a back or a lining counts as it was before.
  const covers = (b: Body): boolean => lining || b.role === 'back';
  const struck = hits([...s.bodies().filter((b) => !covers(b)), ...s.uncut().filter(covers)], space);
  const words = WORDS[f.kind] ?? WORDS.other!;
  const name = thingCalled(words.name, f.id);
  // A back can be cut out and an adjustable shelf put elsewhere; nothing else can.
  const bay = struck.every((b) => b.role === 'back' || b.role === 'adjustable shelf')
    ? bayBefore(f, wall, s.piece)
    : undefined;
  const shelf = struck.some((b) => b.role === 'adjustable shelf');
  const reached = bay && (bay.kind === 'open' || bay.kind === 'door') ? bay : undefined;
  if (struck.length === 0)
    return reached && { verdict: 'fine', title: `${name} is reached through ${named(s.piece)}`, advice: THROUGH };
  const within = hits(struck, spaceBefore(wall, f, Math.max(f.out, 1))).length > 0;
  const working = spaceWorking(f, wall, struck);
  if (lining) return { verdict: 'caution', title: `${named(s.piece)} covers ${name}`, advice: words.lining, working };
  if (reached) {
    const behind = reached.kind === 'door' ? `a door of ${named(s.piece)}` : named(s.piece);
    return {
      verdict: 'caution',
      title: `${name} is behind ${behind}`,
      advice: shelf ? `${words.bay} Put the adjustable shelf above or below it.` : words.bay,
      working,
    };
  }
  return {
    verdict: !within && f.kind === 'radiator' ? 'caution' : 'stop',
    title: within
      ? `${named(s.piece)} covers ${name}`
      : `${named(s.piece)} stands in the space that ${name} needs before it`,
    advice: words.covered,
    working,
  };
}

/** The bay whose clear opening a feature lies wholly behind, in the piece's own width and height. */
function bayBefore(f: WallFeature, wall: PlacedWall, piece: PlacedPiece): BayOpening | undefined {
  if (piece.wall?.id !== wall.id) return undefined;
  const [dx, dy] = [piece.wall.from, piece.frame.origin.y - wall.frame.origin.y];
  return piece.bays
    .filter((bay) => bay.kind !== 'divided')
    .find(
      ({ clear }) =>
        clear.min.x + dx <= f.x[0] + TOUCH &&
        clear.max.x + dx >= f.x[1] - TOUCH &&
        clear.min.y + dy <= f.y[0] + TOUCH &&
        clear.max.y + dy >= f.y[1] - TOUCH,
    );
}

function spaceWorking(f: WallFeature, wall: PlacedWall, struck: readonly Body[]): Working {
  const out = struck.map((b) => Math.min(...seenFrom(wall.frame, b.upright).corners.map((c) => c.z)));
  return lengthWorking(
    'Free space in front of it',
    'the distance from the wall to the nearest solid in front of it',
    [
      ['out', 'it stands out of the wall', f.out],
      ['clear', 'to be kept free before it', f.clear],
    ],
    Math.max(0, Math.min(...out)),
    { value: f.out + f.clear, why: 'its own depth and the space it needs' },
  );
}

const ELECTRICAL =
  'A box may not be buried: it must stay reachable, and its front flush with what covers the wall. An electrician moves it or brings it forward with a box extender, as the local code asks; power off first.';
const THROUGH = 'Keep what stands in that bay clear of it, and leave it within reach.';
const WORDS: Readonly<
  Record<string, { readonly name: string; readonly covered: string; readonly bay: string; readonly lining: string }>
> = {
  outlet: {
    name: 'outlet',
    covered: `Move the piece, or have the outlet moved to where a bay is open. ${ELECTRICAL}`,
    bay: `Cut the back out round it, with room for the plug, and check that nothing that stands there presses on the cord. ${ELECTRICAL}`,
    lining: `Cut the lining out round it. ${ELECTRICAL}`,
  },
  switch: {
    name: 'switch',
    covered: `Move the piece: a switch is reached without moving anything. ${ELECTRICAL}`,
    bay: `Cut the back out round it and keep that bay clear, or have the switch moved. ${ELECTRICAL}`,
    lining: `Cut the lining out round it. ${ELECTRICAL}`,
  },
  data: {
    name: 'data outlet',
    covered: 'Move the piece, or bring the cable out where a bay is open.',
    bay: 'Cut the back out round it, with room for the plug and the bend of its cable.',
    lining: 'Cut the lining out round it and bring the box forward to the new face.',
  },
  vent: {
    name: 'vent',
    covered:
      'Move the piece, or lead the air on through the toe space with a duct and a grille of at least the same free area; ask a heating technician where the vent serves an appliance.',
    bay: 'Cut the back out and leave the bay open, or lead the air on with a duct of at least the same free area.',
    lining: 'Cut the lining out to the full vent and bring its grille forward.',
  },
  return: {
    name: 'return air grille',
    covered:
      'Move the piece: a starved return strains the blower and can draw fumes from a burner. Ask a heating technician before it is covered.',
    bay: 'Cut the back out to the full grille and leave the bay open and empty.',
    lining: 'Cut the lining out to the full grille and bring it forward.',
  },
  radiator: {
    name: 'radiator',
    covered:
      'Move the piece: a covered radiator heats the casework instead of the room. Keep the maker’s distances, and those of the local fire code for electric ones.',
    bay: 'Leave the bay without a back and with openings below and above, and keep the maker’s distances.',
    lining: 'End the lining at both sides of it, or take the radiator off first; a heating engineer drains it.',
  },
  thermostat: {
    name: 'thermostat',
    covered: 'Move the piece or have the thermostat moved: covered, it feels the casework and not the room.',
    bay: 'Have it moved to a free wall: in a bay it does not feel the room.',
    lining: 'Bring it forward to the new face; its wiring is left to a technician where it carries mains.',
  },
  valve: {
    name: 'valve',
    covered: 'Move the piece: a stop valve must be reached in a hurry.',
    bay: 'Cut the back out and keep the bay clear: a stop valve must be reached in a hurry.',
    lining: 'Leave a loose panel in front of it, marked.',
  },
  other: {
    name: 'what is marked on the wall,',
    covered: 'Move the piece, or move what it covers.',
    bay: 'Cut the back out where it is needed.',
    lining: 'Cut the lining out round it.',
  },
};

function overWindow(f: WallFeature, wall: PlacedWall, s: Standing, show: Show): Told | undefined {
  const space = spaceBefore(wall, f, f.clear);
  const struck = overlapDepth(s.outside, space) > TOUCH ? hits(s.bodies(), space) : [];
  const lies = seenFrom(wall.frame, s.outside);
  if (struck.length > 0) {
    const xs = lies.corners.map((c) => c.x);
    const covered =
      Math.max(0, Math.min(f.x[1], Math.max(...xs)) - Math.max(f.x[0], Math.min(...xs))) *
      Math.max(0, Math.min(f.y[1], lies.high) - Math.max(f.y[0], lies.low));
    const share = covered / ((f.x[1] - f.x[0]) * (f.y[1] - f.y[0]));
    return {
      verdict: 'caution',
      title: `${named(s.piece)} stands before ${Math.max(1, Math.round(share * 100))}% of window ${f.id}`,
      advice:
        'Check that the sash still opens and can be cleaned, and that the back of the piece may be seen from outside. A window may be the way out in a fire: the local code says which must stay clear.',
      working: {
        what: 'Share of the window that is covered',
        formula: 's = (w · h) / (W · H)',
        inputs: [
          { symbol: 'w · h', name: 'covered', value: covered, unit: 'mm²' },
          { symbol: 'W', name: 'width of the window', value: f.x[1] - f.x[0], unit: 'mm' },
          { symbol: 'H', name: 'height of the window', value: f.y[1] - f.y[0], unit: 'mm' },
        ],
        result: { value: share, unit: '' },
        limit: { value: 0, unit: '', why: 'light, air and a way out' },
        source: 'common practice',
        assumes: ['outside of the piece as seen straight at the wall'],
      },
    };
  }
  return overCasing(f, wall, s, show);
}

function overCasing(f: WallFeature, wall: PlacedWall, s: Standing, show: Show): Told | undefined {
  if (!f.trim) return undefined;
  const casing = spaceBefore(wall, f, CASING, f.trim);
  if (overlapDepth(s.outside, casing) <= TOUCH) return undefined;
  const struck = hits(s.bodies(), casing);
  if (struck.length === 0) return undefined;
  const by = Math.max(...struck.map((b) => overlapDepth(b.upright, casing)));
  return {
    id: 'laps-casing',
    verdict: 'caution',
    title: `${named(s.piece)} laps the casing of ${thingCalled(f.kind, f.id)} by ${show(by)}`,
    advice: 'Notch or scribe the piece round the casing, cut the casing back, or move the piece.',
    working: lengthWorking(
      'How far it lies over the casing',
      'the shortest straight move off it',
      [['trim', 'width of the casing', f.trim]],
      by,
      {
        value: 0,
        why: `casing taken to stand ${CASING} mm out of the wall`,
      },
    ),
  };
}

/** A doorway: the swing of its leaf where it opens into the room, else the floor in front of it. */
function before(f: WallFeature, wall: PlacedWall, s: Standing, show: Show): Told | undefined {
  const width = f.x[1] - f.x[0];
  if (f.swing === 'in') {
    const opens = leafReach(f, wall, s);
    if (opens < width - TOUCH)
      return {
        verdict: 'stop',
        title: `${named(s.piece)} stands in the swing of ${thingCalled('door', f.id)}`,
        advice:
          'Move the piece, hang the door on its other side, or let it open the other way; the way out of a room stays clear.',
        working: lengthWorking(
          'Clear distance from the hinge',
          'the least distance in plan from the hinge to the piece, within the quarter circle the leaf sweeps',
          [['w', 'width of the leaf', width]],
          opens,
          { value: width, why: 'the leaf sweeps this far' },
        ),
      };
  } else {
    const passage = spaceBefore(wall, f, f.clear);
    const struck = overlapDepth(s.outside, passage) > TOUCH ? hits(s.bodies(), passage) : [];
    if (struck.length > 0) {
      const nearest = Math.max(0, Math.min(...struck.map((b) => nearestBefore(f, wall, b.upright))));
      return {
        verdict: 'stop',
        title: `${named(s.piece)} stands in front of ${thingCalled(f.kind, f.id)}`,
        advice: 'Move the piece: a doorway stays clear; the local code says how wide and how deep.',
        working: lengthWorking(
          'Free floor in front of the doorway',
          'the distance from the wall to the piece',
          [],
          nearest,
          {
            value: f.clear,
            why: 'room to walk through (common practice)',
          },
        ),
      };
    }
  }
  return overCasing(f, wall, s, show);
}

/** How near to the wall an upright comes within the width of a feature. */
function nearestBefore(f: WallFeature, wall: PlacedWall, u: Upright): number {
  const strip: readonly PlanPoint[] = [
    { x: f.x[0], z: -1e6 },
    { x: f.x[1], z: -1e6 },
    { x: f.x[1], z: 1e6 },
    { x: f.x[0], z: 1e6 },
  ];
  return Math.min(...sharedOutline(seenFrom(wall.frame, u).corners, strip).map((c) => c.z));
}

/**
 * How long a leaf could be before it met the piece: the least distance in plan from the hinge to what of the piece lies in the
 * quarter turn the leaf makes. Infinite when the leaf passes above or below it.
 */
export function leafReach(f: WallFeature, wall: PlacedWall, s: Pick<Standing, 'outside' | 'bodies'>): number {
  const width = f.x[1] - f.x[0];
  const hinge = { x: f.hinge === 'right' ? f.x[1] : f.x[0], z: 0 };
  const quarter: readonly PlanPoint[] = [
    { x: f.x[0], z: 0 },
    { x: f.x[1], z: 0 },
    { x: f.x[1], z: width },
    { x: f.x[0], z: width },
  ];
  let least = Number.POSITIVE_INFINITY;
  if (overlapDepth(s.outside, spaceBefore(wall, f, width)) <= TOUCH) return least;
  for (const body of s.bodies()) {
    const u = seenFrom(wall.frame, body.upright);
    if (u.high <= f.y[0] + TOUCH || u.low >= f.y[1] - TOUCH) continue;
    const within = sharedOutline(u.corners, quarter);
    if (within.length < 3 || Math.abs(signedArea(within)) < TOUCH * TOUCH) continue;
    least = Math.min(least, distanceTo(within, hinge));
  }
  return least;
}
