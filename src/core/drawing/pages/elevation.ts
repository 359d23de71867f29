import { openWords } from '../../bill/index.ts';
import { thingCalled, wallCalled } from '../../called.ts';
import { cornersOf, fromRoom, toRoom } from '../../geometry/index.ts';
import { lazy } from '../../lazy.ts';
import { remember } from '../../remember.ts';
import type { PlacedWall, WallFeature } from '../../room/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import {
  type Area,
  area,
  below,
  edgesOfArea,
  extentOf,
  group,
  line,
  polyline,
  rectangle,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import { balloonsInTurn, type InTurn, isFree, type Places, placeInTurn, placesIn } from '../layout/place.ts';
import { LEADING } from '../layout/table.ts';
import type { Mark, Point } from '../marks.ts';
import { layView, stopsOf, telling, wholeOutside } from '../view/dimensioned.ts';
import { seen } from '../view/hidden-lines.ts';
import { FRONTS } from '../view/manner.ts';
import { bodiesOf, facesOf } from '../view/project.ts';
import { areaOnPaper, drawBehind, drawSeen, onPaper, type Placement } from '../view/view.ts';
import { type AtWall, frontOf, lies, looseIn, measuredIn, piecesAt } from './at-wall.ts';
import { type Desk, type Held, type NumberedNote, numberRuns } from './desk.ts';
import { pieceNames } from './elevation-names.ts';
import { noteMargin, toneOf } from './notes.ts';
import type { Draft } from './sheet.ts';

/** Width of the margin for notes beside a drawing. */
export const MARGIN = 58;
const GUTTER = 6;
/** So much smaller a drawing may not get for the notes beside it: 1:50 where there is room for 1:25. */
const SMALLER = 1.5;

/** One page for each wall that has a piece, or only for the one that is asked for: everything on it, seen from the room, with its heights and distances. */
export function elevationPages(desk: Desk, only?: string, held: Held = {}): readonly Draft[] {
  return desk.input.room.walls.flatMap((wall) => {
    if (only !== undefined && only !== pageOf(wall)) return [];
    const pieces = piecesAt(desk, wall);
    return pieces.length === 0 ? [] : [elevation(desk, wall, pieces, held)];
  });
}

const pageOf = (wall: PlacedWall): string => `elevation-${wall.id}`;

function elevation(desk: Desk, wall: PlacedWall, pieces: readonly AtWall[], { hold, spots: stood }: Held): Draft {
  const { input, letter, sheet } = desk;
  const notes = notesAt(desk, pieces).filter((n) => n.note.verdict !== 'fine');
  const { body } = sheet;
  const features = [...input.room.openings, ...input.room.services].filter((f) => f.wall === wall.id);
  const openings = input.room.openings.filter((f) => f.wall === wall.id);

  const ends = [0, wall.length];
  const along = (of: readonly AtWall[]): readonly number[] =>
    stopsOf([...ends, ...of.flatMap(({ box }) => [box.min.x, box.max.x])]);
  const stands = ({ box }: AtWall): boolean => box.min.y < STANDING;
  const [isLoose, isMeasured] = [looseIn(desk), measuredIn(desk)];
  const fixed = pieces.filter(({ piece }) => !isLoose(piece));
  const levels = stopsOf([0, wall.height, ...fixed.flatMap(({ box }) => [box.min.y, box.max.y])]);
  const measured = fixed.filter(({ piece }) => isMeasured(piece));
  // a piece may stick out past the wall: a mistake, and the drawing is where it is seen
  const { u, v } = reachOf(wall, pieces);
  const view = {
    u,
    v,
    letter,
    ...(hold && { hold }),
    dimensions: {
      below: wholeOutside([along(measured.filter(stands)), along(measured.filter((p) => !stands(p)))], ends),
      above: telling([
        stopsOf([...ends, ...openings.flatMap((o) => [...o.x])]),
        stopsOf([...ends, ...wall.studs.map((s) => s.at)]),
      ]).filter((c) => c.length > 2),
      levelsLeft: levels,
      levelsRight: stopsOf(openings.flatMap((o) => [...o.y]).filter((y) => y > 0)),
    },
  };
  const narrow = area(body.x, body.y, body.width - MARGIN - GUTTER, body.height);
  const wide = notes.length > 0 ? area(body.x, body.y, body.width, body.height - LEADING) : body;
  const ratioIn = (into: Area): number => layView({ ...view, into }).scale.ratio;
  // a wall that the notes beside it would make much smaller has only their numbers: their words stand on their own sheets
  const beside = notes.length > 0 && (hold ? hold.area.width < body.width : ratioIn(narrow) < SMALLER * ratioIn(wide));
  const drawing = beside ? narrow : wide;
  const { place, scale, dimensions } = layView({ ...view, into: drawing });

  const places = placesIn(drawing, textsOf(dimensions).map(textArea), stood);
  const marks: Mark[] = [
    ...wallMarks(wall, place),
    ...features.flatMap((f) => featureMarks(f, place)),
    ...neighbours(desk, wall, pieces, place),
    ...pieceMarks(pieces, place),
    ...dimensions,
  ];
  const named = pieceNames(pieces, place, {
    within: drawing,
    signs: features.filter((f) => !openings.includes(f)).map((f) => areaOf(f, place)),
    lines: [
      ...features.flatMap((f) => edgesOfArea(areaOf(f, place))),
      ...edgesOfArea(areaOnPaper(place, [0, wall.length], [-wall.height, 0])),
      ...dimensions.flatMap((m) => (m.kind === 'line' ? [extentOf([m])!] : [])),
    ],
  });
  const spots = noteSpots(notes, wall, pieces, place, places, named);
  // no balloon stands on what another points at
  places.taken.push(...spots.map(({ target: { x, y } }) => area(x - 0.8, y - 0.8, 1.6, 1.6)));
  const balloons = balloonsInTurn(
    spots.map((spot) => ({ ...spot, tone: toneOf(spot.note.verdict), of: spot.note.id })),
    ({ note }, own) => group(note.id, own, note.title),
  );
  marks.push(...placeInTurn(places, [...named, ...balloons]).flat());
  const margin = area(right(body) - MARGIN, body.y, MARGIN, body.height);
  if (beside) marks.push(...noteMargin(notes, margin));
  else if (notes.length > 0)
    marks.push(
      text(right(body), below(body) - 1, `${numberRuns(notes.map((n) => n.number))}: see the notes`, {
        align: 'right',
        tone: 'faint',
      }),
    );
  return {
    id: pageOf(wall),
    chapter: 'Room',
    title: `Elevation, ${wallCalled(wall.id)}`,
    scale: scale.text,
    view: { kind: 'elevation', wall: wall.id, ...place, area: hold?.area ?? drawing },
    ...(notes.length > 0 && { state: stateOf(notes) }),
    marks,
  };
}

/** The wall that has most to build, as a picture without figures; nothing where nothing is built. */
export function picture(desk: Desk, into: Area): readonly Mark[] {
  const { input, letter } = desk;
  const walls = input.room.walls.map((wall) => ({ wall, pieces: piecesAt(desk, wall) }));
  const count = ({ pieces }: (typeof walls)[number]): number =>
    pieces.reduce((sum, p) => sum + p.piece.parts.length, 0);
  const best = walls.reduce<(typeof walls)[number] | undefined>(
    (a, b) => (count(b) > (a ? count(a) : 0) ? b : a),
    undefined,
  );
  if (!best) return [];
  const { wall, pieces } = best;
  const { place } = layView({ ...reachOf(wall, pieces), into, letter, stand: 'floor' });
  const features = [...input.room.openings, ...input.room.services].filter((f) => f.wall === wall.id);
  return [
    ...wallMarks({ ...wall, studs: [] }, place),
    ...features.flatMap((f) => featureMarks(f, place)),
    ...pieceMarks(pieces, place),
  ];
}

export const stateOf = (notes: readonly NumberedNote[]): string => {
  const stops = notes.filter((n) => n.note.verdict === 'stop').length;
  return stops > 0 ? openWords({ stops, cautions: 0 }) : `${notes.length} ${notes.length === 1 ? 'note' : 'notes'}`;
};

/** A piece whose lowest point is below this stands on the floor, for the chains; the others hang. */
export const STANDING = 300;

/** The wall and all that stands at it, along it and downwards. */
export const reachOf = (wall: PlacedWall, pieces: readonly AtWall[]) => ({
  u: [
    Math.min(0, ...pieces.map(({ box }) => box.min.x)),
    Math.max(wall.length, ...pieces.map(({ box }) => box.max.x)),
  ] as const,
  v: [
    -Math.max(wall.height, ...pieces.map(({ box }) => box.max.y)),
    -Math.min(0, ...pieces.map(({ box }) => box.min.y)),
  ] as const,
});

function wallMarks(wall: PlacedWall, place: Placement): readonly Mark[] {
  const frame = areaOnPaper(place, [0, wall.length], [-wall.height, 0]);
  const toX = (x: number): number => onPaper(place, x, 0).x;
  const studs = wall.studs.map(
    (stud): Mark => line(toX(stud.at), frame.y, toX(stud.at), below(frame), 'centre', 'faint'),
  );
  return [
    ...studs,
    polyline(
      [
        { x: frame.x, y: below(frame) },
        { x: frame.x, y: frame.y },
        { x: right(frame), y: frame.y },
        { x: right(frame), y: below(frame) },
      ],
      'visible',
    ),
    line(frame.x - 4, below(frame), right(frame) + 4, below(frame), 'wall'),
  ];
}

const areaOf = ({ x, y }: WallFeature, place: Placement): Area => areaOnPaper(place, x, [-y[1], -y[0]]);

/** An opening with its casing line and the cross of glass, or a service as its outline with the sign of its kind. */
function featureMarks(feature: WallFeature, place: Placement): readonly Mark[] {
  const at = areaOf(feature, place);
  const inner = area(at.x + 0.8, at.y + 0.8, at.width - 1.6, at.height - 1.6);
  const marks: Mark[] = [rectangle(at, { pen: 'visible', fill: 'paper' })];
  if (feature.kind === 'window') {
    marks.push(rectangle(inner, { pen: 'thin' }));
    const [x, y] = [at.x + at.width / 2, at.y + at.height / 2];
    const s = Math.min(at.width, at.height) / 5;
    marks.push(line(x - s, y, x, y - s, 'thin', 'faint'), line(x, y + s, x + s, y, 'thin', 'faint'));
  } else if (feature.kind === 'door') {
    // Lines meet at the hinges (common practice on elevations).
    const x = feature.hinge === 'right' ? right(at) : at.x;
    const far = feature.hinge === 'right' ? at.x : right(at);
    marks.push(
      line(far, at.y, x, at.y + at.height / 2, 'hidden'),
      line(far, below(at), x, at.y + at.height / 2, 'hidden'),
    );
  } else if (feature.kind === 'outlet' || feature.kind === 'data') {
    const x = at.x + at.width / 2;
    const s = Math.min(at.width * 0.18, 0.5);
    for (const y of [at.y + at.height * 0.3, at.y + at.height * 0.7])
      for (const dx of [-s, s]) marks.push(line(x + dx, y - s, x + dx, y + s, 'thin'));
  } else if (feature.kind === 'vent' || feature.kind === 'return' || feature.kind === 'radiator') {
    for (let y = at.y + 0.8; y < below(at) - 0.4; y += 0.8) marks.push(line(at.x + 0.5, y, right(at) - 0.5, y, 'thin'));
  }
  return [group(feature.id, marks, thingCalled(feature.kind, feature.id))];
}

const drawnPieces = remember<PlacedPiece, Mark>();
const pieceMarks = (pieces: readonly AtWall[], place: Placement): readonly Mark[] =>
  // What is nearer to the eye is drawn later.
  [...pieces]
    .sort((a, b) => a.box.max.z - b.box.max.z)
    .map((at) => drawnPieces(at.piece, lies(at, place), () => pieceMark(at, place)));

function pieceMark(at: AtWall, place: Placement): Mark {
  const { piece, offset, box } = at;
  const bodies = bodiesOf(piece, offset);
  if (bodies.length === 0) {
    const own = areaOnPaper(place, [box.min.x, box.max.x], [-box.max.y, -box.min.y]);
    return group(piece.id, [rectangle(own, { pen: 'outline', fill: 'paper' })], piece.title);
  }
  const faces = facesOf(bodies, 'front');
  const fronts = facesOf(
    bodies.filter((b) => FRONTS.has(b.part.role)),
    'front',
  );
  const knock = faces.map((f) => rectangle(areaOnPaper(place, f.u, f.v), { fill: 'paper' }));
  const behind =
    fronts.length === 0
      ? []
      : drawBehind(
          seen(
            facesOf(
              bodies.filter((b) => !FRONTS.has(b.part.role)),
              'front',
            ),
          ),
          fronts,
          place,
        );
  return group(piece.id, [...knock, ...behind, ...drawSeen(frontOf(at), place)], piece.title);
}

const beforeWall = remember<PlacedPiece, { readonly x: Span; readonly y: Span; readonly nearest: number }>();
type Span = readonly [number, number];

/** What stands at another wall, or free, but shows in front of this one: its outline only. */
function neighbours(desk: Desk, wall: PlacedWall, own: readonly AtWall[], place: Placement): readonly Mark[] {
  const here = new Set(own.map((o) => o.piece));
  return desk.input.pieces.flatMap((piece): readonly Mark[] => {
    if (here.has(piece)) return [];
    const { x, y, nearest } = beforeWall(piece, [wall], () => {
      const corners = cornersOf(piece.outside).map((c) => fromRoom(wall.frame, toRoom(piece.frame, c)));
      return {
        x: [Math.min(...corners.map((c) => c.x)), Math.max(...corners.map((c) => c.x))] as const,
        y: [Math.min(...corners.map((c) => c.y)), Math.max(...corners.map((c) => c.y))] as const,
        nearest: Math.min(...corners.map((c) => c.z)),
      };
    });
    if (nearest > 900 || x[1] <= 0 || x[0] >= wall.length) return [];
    const at = areaOnPaper(
      place,
      [Math.max(0, x[0]), Math.min(wall.length, x[1])],
      [-Math.min(y[1], wall.height), -y[0]],
    );
    return [group(piece.id, [rectangle(at, { pen: 'ghost', tone: 'faint' })], piece.title)];
  });
}

const notesAt = (desk: Desk, pieces: readonly AtWall[]): readonly NumberedNote[] =>
  pieces.flatMap(({ piece }) => desk.notesOn(piece.id)).sort((a, b) => a.number - b.number);

/**
 * Where the notes are; of what is told of a whole piece, a place of it where nothing would be written if the names came first, and the same
 * one as long as the spots are held.
 */
function noteSpots(
  notes: readonly NumberedNote[],
  wall: PlacedWall,
  pieces: readonly AtWall[],
  place: Placement,
  places: Places,
  named: readonly InTurn[],
): readonly (NumberedNote & { readonly target: Point })[] {
  const written = lazy(() => {
    const without = placesIn(places.within, places.taken);
    for (const name of named) name(without);
    return without;
  });
  return notes.flatMap((numbered) => {
    const { note } = numbered;
    const of = pieces.find(({ piece }) => note.about === piece.id || note.about.startsWith(`${piece.id}/`));
    if (!of) return [];
    const own = note.at ? fromRoom(wall.frame, note.at) : of.piece.parts.find((p) => p.id === note.about)?.solid.box;
    const at = (x: number, y: number): Point => onPaper(place, x, -y);
    if (own && 'min' in own) {
      const [x, y] = [(own.min.x + own.max.x) / 2, (own.min.y + own.max.y) / 2];
      return [{ ...numbered, target: at(x + of.offset.x, y + of.offset.y) }];
    }
    if (own) return [{ ...numbered, target: at(own.x, own.y) }];
    const { min, max } = of.box;
    const some = SPOTS.map(([x, y]) => at(min.x + (max.x - min.x) * x, max.y - (max.y - min.y) * y));
    const chosen =
      places.before?.pointed.get(note.id) ??
      Math.max(
        0,
        some.findIndex((p) => isFree(written(), area(p.x - 1, p.y - 1, 2, 2))),
      );
    places.now?.pointed.set(note.id, chosen);
    return [{ ...numbered, target: some[chosen]! }];
  });
}
/** Shares of a piece from its upper left corner: where its balloon may point, best first. */
const SPOTS = [
  [0.25, 0.2],
  [0.5, 0.2],
  [0.75, 0.2],
  [0.25, 0.5],
  [0.75, 0.5],
  [0.5, 0.8],
] as const;
