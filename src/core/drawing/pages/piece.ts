import { type Box, side, vec } from '../../geometry/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { type Area, area, below, group, LETTER, line, rectangle, right, text } from '../draw.ts';
import { nameIn } from '../layout/name-in.ts';
import { balloon, type Places, placesIn, takeFirst } from '../layout/place.ts';
import { type Scale, scalesOf } from '../layout/scale.ts';
import type { Mark } from '../marks.ts';
import { type Dimensions, type LaidView, layView, stopsOf, telling } from '../view/dimensioned.ts';
import { type Seen, seen } from '../view/hidden-lines.ts';
import { FRONTS, hatchOf, overOf } from '../view/manner.ts';
import { type Body, bodiesOf, faceOf, facesOf, type Look, sectionFaces } from '../view/project.ts';
import { areaOnPaper, drawBehind, drawSeen, onPaper } from '../view/view.ts';
import type { Desk, NumberedNote } from './desk.ts';
import { MARGIN, stateOf } from './elevation.ts';
import { detailPages } from './joint-details.ts';
import { noteMargin, toneOf } from './notes.ts';
import type { Draft } from './sheet.ts';

/** For each piece that is built: its front, a section through the side and one through the plan, to one scale; then its joints. */
export function piecePages(desk: Desk): readonly Draft[] {
  return desk.input.pieces.filter((p) => p.parts.length > 0).flatMap((piece) => onePiece(desk, piece));
}

interface View {
  readonly look: Look;
  readonly title: string;
  readonly seen: Seen;
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
  readonly dimensions: Dimensions;
}

const GAP = 9;
const CAPTION = 6;

function onePiece(desk: Desk, piece: PlacedPiece): readonly Draft[] {
  const { sheet, letter } = desk;
  const notes = desk.notesOn(piece.id).filter((n) => n.note.verdict !== 'fine');
  const parts = new Map(piece.parts.map((p) => [p.id, p]));
  const views = viewsOf(piece);
  const wide = layThree(desk, views, sheet.body);
  const narrowBody = { ...sheet.body, width: sheet.body.width - MARGIN - 6 };
  const narrow = notes.length > 0 ? layThree(desk, views, narrowBody) : undefined;
  const beside = narrow !== undefined && narrow.scale.ratio === wide.scale.ratio;
  const { laid, scale } = beside ? narrow : wide;
  const places = placesIn(beside ? narrowBody : sheet.body);
  const marks: Mark[] = [];
  laid.forEach((view, i) => {
    const { look, seen: shown, title } = views[i]!;
    const fronts =
      look === 'front'
        ? facesOf(
            bodiesOf(piece).filter((b) => FRONTS.has(b.part.role)),
            'front',
          )
        : [];
    const behind =
      fronts.length === 0
        ? []
        : drawBehind(
            seen(
              facesOf(
                bodiesOf(piece).filter((b) => !FRONTS.has(b.part.role)),
                'front',
              ),
            ),
            fronts,
            view.place,
          );
    marks.push(
      ...behind,
      ...drawSeen(shown, view.place, { hatch: hatchOf(parts), over: overOf(parts, look) }),
      ...view.dimensions,
    );
    marks.push(text(view.frame.x, view.frame.y - captionLift(view), title, { tone: 'faint' }));
  });
  marks.push(...cutSigns(piece, laid));
  const numbered = new Set<string>();
  laid.forEach((view, i) => {
    marks.push(...partNumbers(desk, views[i]!, view, places, numbered));
  });
  const front = laid[0]!;
  marks.push(...notes.flatMap((n) => pieceBalloon(n, piece, front, places)));
  if (beside)
    marks.push(...noteMargin(notes, area(right(sheet.body) - MARGIN, sheet.body.y, MARGIN, sheet.body.height)));
  const main: Draft = {
    id: `piece-${piece.id}`,
    chapter: 'Pieces',
    title: piece.title,
    scale: scale.text,
    ...(notes.length > 0 && { state: stateOf(notes) }),
    marks: [group(piece.id, marks, piece.title)],
  };
  return [main, ...detailPages(desk, piece, letter, beside ? [] : notes)];
}

const captionLift = (view: LaidView): number => {
  const tops = view.dimensions.flatMap((m) =>
    m.kind === 'line' ? [m.from.y, m.to.y] : m.kind === 'text' ? [m.at.y - 3.2] : [],
  );
  return Math.max(2, view.frame.y - Math.min(view.frame.y, ...tops) + 2);
};

/** The front as it stands, a section seen towards the right, and a plan section from above. */
function viewsOf(piece: PlacedPiece): readonly View[] {
  const { outside: o } = piece;
  const bodies = bodiesOf(piece);
  const cutX = sectionAt(piece, 'x');
  const cutY = sectionAt(piece, 'y');
  const uprights = edgesOf(piece, 'x');
  const levels = edgesOf(piece, 'y');
  const front: View = {
    look: 'front',
    title: 'Front',
    seen: seen(facesOf(bodies, 'front')),
    u: [o.min.x, o.max.x],
    v: [-o.max.y, -o.min.y],
    dimensions: {
      below: telling([stopsOf([o.min.x, o.max.x, ...uprights]), [o.min.x, o.max.x]]),
      left: telling([
        stopsOf([o.min.y, o.max.y, ...levels])
          .map((y) => -y)
          .toReversed(),
        [-o.max.y, -o.min.y],
      ]),
    },
  };
  const depths = stopsOf([o.min.z, o.max.z, ...carcassDepths(bodies, o)]);
  const sideView: View = {
    look: 'right',
    title: 'Section A, seen to the right',
    seen: seen(sectionFaces(bodies, 'right', -cutX)),
    u: [o.min.z, o.max.z],
    v: [-o.max.y, -o.min.y],
    dimensions: { below: telling([depths, [o.min.z, o.max.z]]) },
  };
  const plan: View = {
    look: 'top',
    title: 'Plan section B, wall at the top',
    seen: seen(sectionFaces(bodies, 'top', cutY)),
    u: [o.min.x, o.max.x],
    v: [o.min.z, o.max.z],
    dimensions: { left: telling([depths, [o.min.z, o.max.z]]) },
  };
  return [front, sideView, plan];
}

/** Where the section lies: through the middle of a bay, where it cuts the fewest parts along their faces. */
function sectionAt(piece: PlacedPiece, axis: 'x' | 'y'): number {
  const { min, max } = piece.outside;
  const middle = (min[axis] + max[axis]) / 2;
  const bays = piece.bays.map(({ clear }) => (clear.min[axis] + clear.max[axis]) / 2);
  const along = piece.parts.filter((p) => p.axes.thickness === axis);
  // A little off the middle of a bay, so that a centred partition or a meeting of two doors is not cut lengthwise.
  const candidates = [...bays, ...bays.map((b) => b + 40), middle, middle + 30];
  const cost = (at: number): number =>
    along.filter(({ solid: { box } }) => box.min[axis] <= at && box.max[axis] >= at).length * 1000 +
    Math.abs(at - middle) / 10;
  return candidates.reduce((best, c) => (cost(c) < cost(best) ? c : best), candidates[0]!);
}

/** Faces of carcass parts that divide a piece along an axis: sides and uprights across, bottoms and shelves up. */
function edgesOf(piece: PlacedPiece, axis: 'x' | 'y'): readonly number[] {
  return piece.bays
    .filter((b) => b.kind !== 'divided')
    .flatMap(({ clear }) => [clear.min[axis], clear.max[axis]])
    .filter((at) => at > piece.outside.min[axis] + 0.1 && at < piece.outside.max[axis] - 0.1);
}

/** Front faces of the back, rear faces of the fronts: what divides the depth. */
function carcassDepths(bodies: readonly Body[], outside: Box): readonly number[] {
  return bodies
    .filter(({ part }) => part.axes.thickness === 'z' && side(part.solid.box, 'y') > side(outside, 'y') / 4)
    .flatMap(({ part }) => [part.solid.box.min.z, part.solid.box.max.z]);
}

/** The three views to the largest scale at which they fit: the front, the section to its right, the plan below it. */
function layThree(
  desk: Desk,
  views: readonly View[],
  into: Area,
): { readonly laid: readonly LaidView[]; readonly scale: Scale } {
  const [front, sideView, plan] = views as [View, View, View];
  const { letter } = desk;
  const scales = scalesOf(letter.unit);
  const huge = area(0, 0, 1e5, 1e5);
  const measure = (view: View, scale: Scale, dimensions = view.dimensions): Area => {
    const laid = layView({ u: view.u, v: view.v, into: huge, letter, dimensions, from: scale, stand: 'top' });
    const { frame } = laid;
    const reach = laid.dimensions.flatMap((m) => (m.kind === 'line' ? [m.from, m.to] : []));
    const left = Math.max(0, ...reach.map((p) => frame.x - p.x));
    const low = Math.max(0, ...reach.map((p) => p.y - below(frame)));
    return area(left, low, frame.width, frame.height);
  };
  const total = (scale: Scale) => {
    const [a, b, c] = [measure(front, scale), measure(sideView, scale), measure(plan, scale)];
    const left = Math.max(a.x, c.x) + 4;
    const lower = Math.max(a.y, b.y) + 5;
    return {
      a,
      b,
      c,
      left,
      lower,
      width: left + a.width + GAP + 6 + b.width + 4,
      height: CAPTION + a.height + lower + GAP + CAPTION + c.height + 2,
    };
  };
  const scale =
    scales.find((s) => {
      const t = total(s);
      return t.width <= into.width && t.height <= into.height;
    }) ?? scales.at(-1)!;
  const t = total(scale);
  const x = into.x + (into.width - t.width) / 2;
  const y = into.y + (into.height - t.height) / 2;
  const exact = (view: View, left: number, top: number): LaidView => {
    const own = layView({
      u: view.u,
      v: view.v,
      into: huge,
      letter,
      dimensions: view.dimensions,
      from: scale,
      stand: 'top',
    });
    const [dx, dy] = [left - own.frame.x, top - own.frame.y];
    return layView({
      u: view.u,
      v: view.v,
      into: area(dx, dy, huge.width, huge.height),
      letter,
      dimensions: view.dimensions,
      from: scale,
      stand: 'top',
    });
  };
  const laid = [
    exact(front, x + t.left, y + CAPTION),
    exact(sideView, x + t.left + t.a.width + GAP + 6, y + CAPTION),
    exact(plan, x + t.left, y + CAPTION + t.a.height + t.lower + GAP + CAPTION),
  ];
  return { laid, scale };
}

/** Where the sections lie, on the front: chain lines past its edges with their letters. */
function cutSigns(piece: PlacedPiece, [front]: readonly LaidView[]): readonly Mark[] {
  const { place, frame } = front!;
  const x = onPaper(place, sectionAt(piece, 'x'), 0).x;
  const y = onPaper(place, 0, -sectionAt(piece, 'y')).y;
  const letter = (px: number, py: number, words: string): Mark =>
    text(px, py, words, { align: 'centre', anchor: 'middle', bold: true, height: LETTER.head });
  return [
    line(x, frame.y - 4, x, frame.y - 0.5, 'outline'),
    line(x, frame.y - 0.5, x, below(frame) + 1, 'centre', 'faint'),
    letter(x + 3, frame.y - 2.6, 'A'),
    line(right(frame) + 0.5, y, right(frame) + 4, y, 'outline'),
    line(frame.x - 1, y, right(frame) + 0.5, y, 'centre', 'faint'),
    letter(right(frame) + 6, y, 'B'),
  ];
}

/** Each part's number once, in the first view that has room for it: in the part, else on a short leader. */
function partNumbers(desk: Desk, view: View, laid: LaidView, places: Places, numbered: Set<string>): readonly Mark[] {
  const largest = new Map<string, Area>();
  for (const { owner, u, v } of view.seen.shown) {
    const at = areaOnPaper(laid.place, u, v);
    const before = largest.get(owner);
    if (!before || at.width * at.height > before.width * before.height) largest.set(owner, at);
  }
  const lines = view.seen.edges.map(({ from, to }) => areaOnPaper(laid.place, [from[0], to[0]], [from[1], to[1]]));
  const marks: Mark[] = [];
  for (const [owner, at] of largest) {
    const number = desk.numberOf.get(owner);
    if (number === undefined || numbered.has(owner)) continue;
    const inside = nameIn(places, { words: `${number}`, at, lines, inside: true });
    const own = inside.length > 0 ? inside : tag(places, at, number);
    if (own.length === 0) continue;
    numbered.add(owner);
    marks.push(group(owner, own));
  }
  return marks;
}

/** A number on a short leader, for what is too thin to hold it. */
function tag(places: Places, at: Area, number: number): readonly Mark[] {
  const [tx, ty] = [at.x + at.width / 2, at.y + at.height / 2];
  const wide = number > 99 ? 6.4 : number > 9 ? 4.6 : 3;
  const spots = [4, 5.5, 7.5, 10].flatMap((far) =>
    [-60, -120, 60, 120, -30, -150, 30, 150, -90, 90, 0, 180].flatMap((degrees) =>
      [0, 0.3, -0.3].map((share) => {
        const angle = (degrees * Math.PI) / 180;
        const [sx, sy] = [tx + at.width * share, ty + at.height * share];
        const [x, y] = [sx + far * Math.cos(angle), sy + far * Math.sin(angle)];
        return { x, y, sx, sy, area: area(x - wide / 2, y - 1.8, wide, 3.6) };
      }),
    ),
  );
  const spot = takeFirst(places, spots);
  if (!spot) return [];
  return [
    line(spot.x, spot.y, spot.sx, spot.sy, 'thin'),
    { kind: 'circle', centre: { x: spot.sx, y: spot.sy }, radius: 0.45, fill: 'ink' },
    rectangle(spot.area, { fill: 'paper' }),
    text(spot.x, spot.y, `${number}`, { align: 'centre', anchor: 'middle', bold: true }),
  ];
}

function pieceBalloon(
  { number, note }: NumberedNote,
  piece: PlacedPiece,
  front: LaidView,
  places: Places,
): readonly Mark[] {
  const part = piece.parts.find((p) => p.id === note.about);
  const box = part?.solid.box ?? piece.outside;
  const real = vec(
    (box.min.x + box.max.x) / 2,
    part ? (box.min.y + box.max.y) / 2 : box.max.y - side(box, 'y') * 0.15,
    0,
  );
  const { u } = faceOf(box, 'front');
  const target = onPaper(front.place, part ? real.x : u[0] + (u[1] - u[0]) * 0.3, -real.y);
  return [group(note.id, balloon(places, target, number, toneOf(note.verdict)), note.title)];
}
