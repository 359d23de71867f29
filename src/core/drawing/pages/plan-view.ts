import { thingCalled, wallCalled } from '../../called.ts';
import { cosSin, toRoom, type Vec3, vec } from '../../geometry/index.ts';
import type { PlacedRoom, PlacedWall, WallFeature } from '../../room/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import {
  type Area,
  area,
  extentOf,
  group,
  LETTER,
  line,
  overlaps,
  padded,
  point,
  polygon,
  polyline,
  rectangle,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import { wrapText } from '../font/measure.ts';
import { nameBeside, nearest } from '../layout/name-beside.ts';
import { nameIn } from '../layout/name-in.ts';
import {
  balloonsInTurn,
  CLEAR,
  type InTurn,
  isClear,
  type Places,
  placeInTurn,
  placesIn,
  takeFirst,
  takeLed,
} from '../layout/place.ts';
import { isTaken, lay, over, squaresIn } from '../layout/squares.ts';
import { linesOf, wordsIn } from '../layout/words-in.ts';
import type { Mark, Point } from '../marks.ts';
import { type Dimensions, layView, stopsOf, telling, wholeOutside } from '../view/dimensioned.ts';
import { onPaper, type Placement } from '../view/view.ts';
import { measuredIn } from './at-wall.ts';
import type { Desk, Held } from './desk.ts';
import { MARGIN, STANDING, stateOf } from './elevation.ts';
import { noteMargin, toneOf } from './notes.ts';
import type { Draft } from './sheet.ts';

/** The room is cut at this height, mm; what hangs above it is drawn as an outline. Common practice: about 4 ft. */
const CUT = 1200;
/** Drawn thickness of a wall outside its measured face, mm. Only its face is measured. */
const WALL = 110;

/** The room from above with everything that stands in it, the swing of its doors, and the runs of its walls. */
export function planPages(desk: Desk, { hold, spots: stood }: Held = {}): readonly Draft[] {
  const { input, letter, sheet } = desk;
  const { body } = sheet;
  const { outline } = input.room;
  if (outline.length < 3) return [];
  const notes = desk.notes.filter((n) => n.note.verdict !== 'fine' && n.note.at);
  const reach = [
    ...offset(outline, WALL),
    ...input.room.openings.flatMap((o) => outward(input.room, o)),
    ...input.pieces.flatMap(cornersOf),
  ];
  const xs = reach.map((p) => p.x);
  const zs = reach.map((p) => p.z);
  const u = [Math.min(...xs), Math.max(...xs)] as const;
  const v = [Math.min(...zs), Math.max(...zs)] as const;
  const dimensions = roomDimensions(desk);
  const lay = (into: Area) => layView({ u, v, into, letter, dimensions, ...(hold && { hold }) });
  const narrow = { ...body, width: body.width - MARGIN - 6 };
  const beside = notes.length > 0 && lay(narrow).scale.ratio <= lay(body).scale.ratio;
  const into = beside ? narrow : body;
  const { place, scale, dimensions: figures } = lay(into);
  const places = placesIn(into, textsOf(figures).map(textArea), stood);
  const at = (p: Vec3): Point => onPaper(place, p.x, p.z);
  const marks: Mark[] = [
    ...walls(desk, at),
    ...input.room.openings.flatMap((o) => openingMarks(input.room.walls.find((w) => w.id === o.wall)!, o, at, place)),
    ...input.room.services.flatMap((s) => serviceMarks(input.room.walls.find((w) => w.id === s.wall)!, s, at)),
    ...pieceMarks(desk, at),
    ...figures,
    ...northArrow(point(right(into) - 7, into.y + 9)),
  ];
  places.taken.push(area(right(into) - 14, into.y, 14, 18));
  const named: InTurn = (on) => names(desk, at, place, on, figures);
  if (!beside) marks.push(...named(places));
  else {
    const spots = notes.map(({ note, number }) => {
      const target = at(vec(note.at!.x, 0, note.at!.z));
      // no name is written where a note points
      places.taken.push(area(target.x - DOT, target.y - DOT, 2 * DOT, 2 * DOT));
      return { note, number, target, tone: toneOf(note.verdict), of: note.id };
    });
    const balloons = balloonsInTurn(spots, ({ note }, own) => group(note.id, own, note.title));
    marks.push(...placeInTurn(places, [named, ...balloons]).flat());
    marks.push(...noteMargin(notes, area(right(body) - MARGIN, body.y, MARGIN, body.height)));
  }
  return [
    {
      id: 'plan',
      chapter: 'Room',
      title: 'Plan of the room',
      scale: scale.text,
      view: { kind: 'plan', ...place, area: hold?.area ?? into },
      ...(notes.length > 0 && { state: stateOf(notes) }),
      marks,
    },
  ];
}

/** Half of what the dot of a note takes up, with a little air, mm. */
const DOT = 0.8;

/** How far a door that opens outwards swings. */
function outward(room: PlacedRoom, o: WallFeature): readonly Vec3[] {
  const wall = room.walls.find((w) => w.id === o.wall);
  if (!wall || o.kind !== 'door' || o.swing !== 'out') return [];
  const far = -WALL - (o.x[1] - o.x[0]);
  return o.x.map((x) => toRoom(wall.frame, vec(x, 0, far)));
}

const SIDES = { 0: 'above', 90: 'right', 180: 'below', 270: 'left' } as const;

/** Along each wall that lies square to the sheet: its pieces, its openings, its whole length. */
function roomDimensions(desk: Desk): Dimensions {
  const { input } = desk;
  const isMeasured = measuredIn(desk);
  const sides: Record<'above' | 'right' | 'below' | 'left', (readonly number[])[]> = {
    above: [],
    right: [],
    below: [],
    left: [],
  };
  for (const wall of input.room.walls) {
    const turn = Math.round((((wall.frame.turn % 360) + 360) % 360) * 1000) / 1000;
    if (!(turn in SIDES)) continue;
    const side = SIDES[turn as keyof typeof SIDES];
    const axis = side === 'above' || side === 'below' ? 'x' : 'z';
    const real = (x: number): number => toRoom(wall.frame, vec(x, 0, 0))[axis];
    const ends = [real(0), real(wall.length)];
    const pieces = input.pieces.filter((p) => p.wall?.id === wall.id && lowest(p) < STANDING && isMeasured(p));
    const along = pieces.flatMap((p) => [p.wall!.from + p.outside.min.x, p.wall!.from + p.outside.max.x].map(real));
    const openings = input.room.openings.filter((o) => o.wall === wall.id).flatMap((o) => o.x.map((x) => real(x)));
    sides[side].push(...wholeOutside([stopsOf([...ends, ...along]), stopsOf([...ends, ...openings])], stopsOf(ends)));
  }
  const only = (chains: readonly (readonly number[])[]) => telling(chains).slice(0, 4);
  return { above: only(sides.above), right: only(sides.right), below: only(sides.below), left: only(sides.left) };
}

/** The measured faces as a heavy line, the thickness of the walls hatched outside them. */
function walls({ input }: Desk, at: (p: Vec3) => Point): readonly Mark[] {
  const { outline } = input.room;
  const outer = offset(outline, WALL);
  const masonry = new Set(input.plan.room.walls.filter((w) => w.framing?.kind === 'masonry').map((w) => w.id));
  const bands = outline.map((p, i): Mark => {
    const next = (i + 1) % outline.length;
    const wall = input.room.walls[i];
    return polygon([p, outline[next]!, outer[next]!, outer[i]!].map(at), {
      hatch: wall && masonry.has(wall.id) ? 'masonry' : 'board',
      tone: 'faint',
    });
  });
  return [...bands, polygon(outer.map(at), { pen: 'visible' }), polygon(outline.map(at), { pen: 'wall' })];
}

/** The outline moved outwards, corners mitred. It runs clockwise seen from above, so outside lies to its left. */
function offset(outline: readonly Vec3[], by: number): readonly Vec3[] {
  const n = outline.length;
  return outline.map((p, i) => {
    const before = outline[(i + n - 1) % n]!;
    const after = outline[(i + 1) % n]!;
    const a = directionOf(before, p);
    const b = directionOf(p, after);
    // Normals to the left of the run, seen with z downward: (dz, −dx).
    const [na, nb] = [vec(a.z, 0, -a.x), vec(b.z, 0, -b.x)];
    const cos = na.x * nb.x + na.z * nb.z;
    const k = by / Math.max(0.2, 1 + cos);
    return vec(p.x + (na.x + nb.x) * k, 0, p.z + (na.z + nb.z) * k);
  });
}
function directionOf(a: Vec3, b: Vec3): Vec3 {
  const length = Math.hypot(b.x - a.x, b.z - a.z) || 1;
  return vec((b.x - a.x) / length, 0, (b.z - a.z) / length);
}

function openingMarks(wall: PlacedWall, o: WallFeature, at: (p: Vec3) => Point, place: Placement): readonly Mark[] {
  const on = (x: number, z: number): Point => at(toRoom(wall.frame, vec(x, 0, z)));
  const [x0, x1] = o.x;
  const hole = polygon([on(x0, 0), on(x1, 0), on(x1, -WALL), on(x0, -WALL)], { fill: 'paper', pen: 'visible' });
  const inner = (z: number): Mark => polyline([on(x0, z), on(x1, z)], 'thin');
  if (o.kind === 'window') return [group(o.id, [hole, inner(-WALL * 0.45), inner(-WALL * 0.55)], `window ${o.id}`)];
  if (o.kind !== 'door' || o.hinge === undefined) return [group(o.id, [hole], thingCalled(o.kind, o.id))];
  const width = x1 - x0;
  const [hinge, latch] = o.hinge === 'left' ? [x0, x1] : [x1, x0];
  const inward = o.swing !== 'out';
  const z = inward ? 0 : -WALL;
  const open = on(hinge, z + (inward ? width : -width));
  const [from, to] = [on(latch, z), open];
  const centre = on(hinge, z);
  const degrees = (p: Point): number => (Math.atan2(p.y - centre.y, p.x - centre.x) * 180) / Math.PI;
  let [start, end] = [degrees(from), degrees(to)];
  if ((((end - start) % 360) + 360) % 360 > 180) [start, end] = [end, start];
  while (end < start) end += 360;
  return [
    group(
      o.id,
      [
        hole,
        polyline([centre, open], 'visible'),
        { kind: 'arc', centre, radius: width / place.ratio, start, end, pen: 'thin' },
      ],
      thingCalled('door', o.id),
    ),
  ];
}

/** Small squares along the leaf of a door and the way it swings. */
function swingAreas(marks: readonly Mark[]): readonly Area[] {
  const dot = ({ x, y }: Point): Area => area(x - 0.3, y - 0.3, 0.6, 0.6);
  const steps = (count: number) => Array.from({ length: count + 1 }, (_, k) => k / count);
  return marks.flatMap((mark): readonly Area[] => {
    if (mark.kind === 'group') return swingAreas(mark.marks);
    if (mark.kind === 'arc') {
      const { centre, radius, start, end } = mark;
      return steps(Math.ceil(radius * 2)).map((share) => {
        const [c, s] = cosSin(start + (end - start) * share);
        return dot(point(centre.x + radius * c, centre.y + radius * s));
      });
    }
    if (mark.kind !== 'shape' || mark.closed || mark.pen !== 'visible') return [];
    const [a, b] = [mark.points[0]!, mark.points.at(-1)!];
    const long = Math.hypot(b.x - a.x, b.y - a.y);
    return steps(Math.ceil(long)).map((share) => dot(point(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)));
  });
}

/** What is in a wall, as a small sign on its face: a half round for electrics, a bar for air and heat. */
function serviceMarks(wall: PlacedWall, s: WallFeature, at: (p: Vec3) => Point): readonly Mark[] {
  const on = (x: number, z: number): Point => at(toRoom(wall.frame, vec(x, 0, z)));
  const middle = (s.x[0] + s.x[1]) / 2;
  if (['outlet', 'switch', 'data', 'thermostat'].includes(s.kind)) {
    const centre = on(middle, 0);
    const inward = on(middle, 100);
    const facing = (Math.atan2(inward.y - centre.y, inward.x - centre.x) * 180) / Math.PI;
    const arc: Mark = { kind: 'arc', centre, radius: 1.3, start: facing - 90, end: facing + 90, pen: 'visible' };
    return [group(s.id, [arc], thingCalled(s.kind, s.id))];
  }
  const depth = Math.max(s.out, 25);
  const shape = polygon([on(s.x[0], 0), on(s.x[1], 0), on(s.x[1], depth), on(s.x[0], depth)], {
    pen: 'visible',
    fill: 'paper',
  });
  return [group(s.id, [shape], thingCalled(s.kind, s.id))];
}

const cornersOf = (piece: PlacedPiece): readonly Vec3[] => {
  const { min, max } = piece.outside;
  return [vec(min.x, 0, min.z), vec(max.x, 0, min.z), vec(max.x, 0, max.z), vec(min.x, 0, max.z)].map((c) =>
    toRoom(piece.frame, c),
  );
};
const lowest = (p: PlacedPiece): number => p.frame.origin.y + p.outside.min.y;
const highest = (p: PlacedPiece): number => p.frame.origin.y + p.outside.max.y;

/** Lower things first, so that what stands on top covers them; things the room has in thin lines; what hangs above as a ghost. */
function pieceMarks({ input }: Desk, at: (p: Vec3) => Point): readonly Mark[] {
  return [...input.pieces]
    .sort((a, b) => highest(a) - highest(b))
    .map((piece) => {
      const corners = cornersOf(piece).map(at);
      const hangs = lowest(piece) >= CUT;
      const built = piece.parts.length > 0;
      const style = hangs
        ? { pen: 'ghost' as const }
        : { pen: built ? ('outline' as const) : ('visible' as const), fill: 'paper' as const };
      return group(piece.id, [polygon(corners, style), ...(hangs ? [] : swings(piece, at))], piece.title);
    });
}

/** The floor a door or drawer needs to be opened. */
function swings(piece: PlacedPiece, at: (p: Vec3) => Point): readonly Mark[] {
  return piece.needs.map(({ box: { min, max } }) =>
    polygon(
      [vec(min.x, 0, min.z), vec(max.x, 0, min.z), vec(max.x, 0, max.z), vec(min.x, 0, max.z)].map((c) =>
        at(toRoom(piece.frame, c)),
      ),
      { pen: 'ghost', tone: 'faint' },
    ),
  );
}

/** Paper under a name, so that no line of what hangs above or stands below goes through it. */
const cleared = (marks: readonly Mark[]): readonly Mark[] =>
  textsOf(marks).map((m) => rectangle(textArea(m), { fill: 'paper' }));
/** Names beside what they name are broken at this width, mm. */
const BESIDE = 34;
const size = (a: Area): number => a.width * a.height;

function names(
  { input }: Desk,
  at: (p: Vec3) => Point,
  place: Placement,
  places: Places,
  figures: readonly Mark[],
): readonly Mark[] {
  const all = input.pieces.map((p) => ({ piece: p, area: extentOf([polygon(cornersOf(p).map(at), {})])! }));
  const { outline } = input.room;
  const outer = offset(outline, WALL);
  const bands = outline.map((p, i) => {
    const next = (i + 1) % outline.length;
    return extentOf([polygon([p, outline[next]!, outer[next]!, outer[i]!].map(at), {})])!;
  });
  // A wall's name stands inside it, where no piece is and clear of every wall.
  const walls = input.room.walls.map((w) => {
    const [c, s] = cosSin(w.frame.turn);
    const along = (share: number): Point => at(toRoom(w.frame, vec(w.length * share, 0, 0)));
    return {
      words: w.id,
      ends: [along(0), along(1)] as const,
      told: [0.5, 0.3, 0.7].map(along),
      spots: [250, 420, 700, 1000, 1400].flatMap((out) =>
        [0.5, 0.35, 0.65, 0.2, 0.8].map((share) => {
          const on = toRoom(w.frame, vec(w.length * share, 0, 0));
          return at(vec(on.x - s * out, 0, on.z + c * out));
        }),
      ),
    };
  });
  const needed = input.pieces.flatMap((p) => swings(p, at).map((m) => extentOf([m])!));
  const openings = input.room.openings.map((o) =>
    openingMarks(input.room.walls.find((w) => w.id === o.wall)!, o, at, place),
  );
  const doors = openings.map((marks) => extentOf(marks)!);
  const swung = openings.flatMap(swingAreas);
  const isCrossed = ({ area: own }: { readonly area: Area }): boolean => swung.some((a) => overlaps(a, own));
  const dimensions = figures.flatMap((m) => (m.kind === 'line' ? [padded(extentOf([m])!, 0.5)] : []));
  const drawn = squaresIn(places.within);
  for (const each of [...bands, ...all.map((a) => a.area), ...needed, ...doors, ...dimensions]) lay(drawn, each);
  const lines = [...bands, ...dimensions, ...swung];
  const heavy = (at: Area): number => lines.filter((l) => overlaps(l, at)).length;
  const besideOf = (title: string, own: Area, bold: boolean): readonly Mark[] => {
    const lines = wrapText(title, LETTER.small, BESIDE, bold);
    const broken = lines.length === 2 ? [lines, [title]] : [lines];
    return nameBeside(places, { broken, at: own, drawn, heavy, bold });
  };
  /** What hangs and is too small for its name: named beside it where there is still room when all else is named. */
  const hung: (() => readonly Mark[])[] = [];
  const pieces = all
    // What stands on the floor first, small before large; what hangs is named where there is still room.
    .sort((a, b) => Number(lowest(a.piece) >= CUT) - Number(lowest(b.piece) >= CUT) || size(a.area) - size(b.area))
    .map(({ piece, area: own }) => {
      const bold = piece.parts.length > 0;
      const line = { words: piece.title, h: LETTER.small, bold };
      return { piece, own, bold, inside: wordsIn(places, own, [[line], linesOf(piece.title, own.width - 2, bold)]) };
    })
    // every name that has room in what it names comes before those that stand beside it
    .flatMap(({ piece, own, bold, inside }) => {
      if (inside.length > 0) return [group(piece.id, [...cleared(inside), ...inside])];
      if (lowest(piece) >= CUT) {
        hung.push(() => {
          const marks = besideOf(piece.title, own, bold);
          return marks.length > 0 ? [group(piece.id, marks)] : [];
        });
        return [];
      }
      const beside = besideOf(piece.title, own, bold);
      return [group(piece.id, beside.length > 0 ? beside : nameIn(places, { words: piece.title, at: own, bold }))];
    });
  const wallNames = walls.flatMap((wall): readonly Mark[] => {
    const candidates = wall.spots
      .map(({ x, y }) => text(x, y, wallCalled(wall.words), { align: 'centre', anchor: 'middle', tone: 'faint' }))
      .map((mark) => ({ mark, area: textArea(mark), led: [] as readonly Mark[] }))
      .filter((c) => over(drawn, c.area).every((a) => doors.includes(a)));
    const clear = candidates.filter((c) => !isTaken(drawn, padded(c.area, CLEAR)));
    // whoever reads it takes it for the name of the wall that it is nearest to
    const isOwn = ({ area: { x, y, width, height } }: (typeof candidates)[number]): boolean => {
      const off = ({ ends: [a, b] }: (typeof walls)[number]): number =>
        farFrom(point(x + width / 2, y + height / 2), a, b);
      return walls.every((other) => other === wall || off(wall) <= off(other));
    };
    const uncrossed = candidates.filter((c) => !isCrossed(c));
    const led = uncrossed
      .flatMap((c) => wall.told.map((from) => ({ ...c, leader: [from, nearest(c.area, from)] as const })))
      .filter(({ leader: [from, to] }) => isClear(places, from, to))
      .map((c) => ({ ...c, led: leaderMarks(c.leader) }))
      .sort((a, b) => lengthOf(a.leader) - lengthOf(b.leader));
    const found =
      takeFirst(places, clear.filter(isOwn)) ??
      takeFirst(places, uncrossed.filter(isOwn)) ??
      // rather no name than one that is taken for another wall's
      (led.length > 0 ? takeLed(places, led) : undefined) ??
      takeFirst(places, candidates.filter(isOwn));
    return found ? [...found.led, found.mark] : [];
  });
  return [...pieces, ...wallNames, ...hung.flatMap((name) => name())];
}

const lengthOf = ([a, b]: readonly [Point, Point]): number => Math.hypot(b.x - a.x, b.y - a.y);
/** From a point to the nearest of a stretch between two others. */
function farFrom(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const share = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1);
  const within = Math.max(0, Math.min(1, share));
  return lengthOf([p, point(a.x + dx * within, a.y + dy * within)]);
}
const leaderMarks = ([from, to]: readonly [Point, Point]): readonly Mark[] => [
  line(from.x, from.y, to.x, to.y, 'thin', 'faint'),
  { kind: 'circle', centre: from, radius: 0.45, fill: 'faint' },
];

/** Plan north: the room is drawn as the plan has it, its first wall running east. */
function northArrow({ x, y }: Point): readonly Mark[] {
  return [
    { kind: 'circle', centre: { x, y }, radius: 5, pen: 'thin' },
    polygon([point(x, y - 6.5), point(x - 2.4, y + 2.4), point(x, y + 0.8)], { fill: 'ink', pen: 'thin' }),
    polygon([point(x, y - 6.5), point(x + 2.4, y + 2.4), point(x, y + 0.8)], { pen: 'thin', fill: 'paper' }),
    line(x, y + 0.8, x, y + 5, 'thin'),
    text(x + 3.6, y - 4.6, 'N', { height: LETTER.small, bold: true }),
  ];
}
