import { type Box, side, vec } from '../../geometry/index.ts';
import { grouped } from '../../grouped.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import {
  type Area,
  area,
  below,
  extentOf,
  group,
  LETTER,
  line,
  rectangle,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import { nameIn } from '../layout/name-in.ts';
import { balloonsInTurn, type InTurn, type Places, placeInTurn, placesIn } from '../layout/place.ts';
import { type Scale, scalesOf } from '../layout/scale.ts';
import { LEADING } from '../layout/table.ts';
import { tag } from '../layout/words-in.ts';
import type { Mark, Point } from '../marks.ts';
import { type Dimensions, type LaidView, layView, stopsOf, telling } from '../view/dimensioned.ts';
import { type Seen, seen } from '../view/hidden-lines.ts';
import { FRONTS, hatchOf, overOf } from '../view/manner.ts';
import { type Body, bodiesOf, faceOf, facesOf, type Look, sectionFaces } from '../view/project.ts';
import { areaOnPaper, drawBehind, drawSeen, onPaper } from '../view/view.ts';
import { type Desk, type NumberedNote, numberRuns } from './desk.ts';
import { MARGIN, stateOf } from './elevation.ts';
import { detailPages, detailsOf } from './joint-details.ts';
import { noteMargin, toneOf } from './notes.ts';
import type { Draft } from './sheet.ts';

/** For each piece that is built: its front, a section through the side and one through the plan, to one scale; then its joints. */
export function piecePages(desk: Desk): readonly Draft[] {
  const built = desk.input.pieces.filter((p) => p.parts.length > 0 && p.kind !== 'trim');
  return [...grouped(built, makeOf).values()].flatMap(([piece, ...alike]) => onePiece(desk, piece!, alike));
}

/** What makes pieces alike: the same parts in the same places, joined and fitted the same way; drawn once. */
const makeOf = (piece: PlacedPiece): string => {
  const nth = new Map(piece.parts.map((p, i) => [p.id, i]));
  return JSON.stringify([
    piece.kind,
    piece.outside,
    piece.parts.map((p) => [p.role, p.label.name, p.stock, p.size, p.cut, p.solid, p.edges]),
    piece.joints.map((j) => [j.kind, nth.get(j.a), nth.get(j.b), j.fasten]),
    piece.fittings.map((f) => [f.use, f.count, f.amount]),
  ]);
};

/** What is said of pieces that are built like the one drawn: which numbers their parts have. */
function alikeWords(desk: Desk, alike: readonly PlacedPiece[]): string {
  const each = alike.map((piece) => {
    const numbers = numberRuns(piece.parts.flatMap((p) => desk.numbered().numberOf.get(p.id) ?? []));
    return `${piece.title} (parts ${numbers})`;
  });
  return `Built the same, with its parts in the same order: ${each.join(', ')}.`;
}

/** Where holes are cut out of backs, doors and panels: from the finished part's own left and lower edges, as it hangs, seen from the room. */
function cutOutWords(desk: Desk, piece: PlacedPiece): readonly string[] {
  const { length } = desk.letter;
  return piece.parts.flatMap((part) => {
    const { box, taken } = part.solid;
    const holes = taken.filter((t) => t.kind === 'cut-out' || (t.kind === 'notch' && part.role === 'lining panel'));
    if (holes.length === 0 || part.axes.thickness !== 'z') return [];
    const each = holes.map(
      ({ why, box: hole }) =>
        `${why}, ${length(hole.max.x - hole.min.x)} wide and ${length(hole.max.y - hole.min.y)} high, its left edge ${length(hole.min.x - box.min.x)} in and its lower edge ${length(hole.min.y - box.min.y)} up`,
    );
    return [
      `Cut out of part ${desk.numbered().numberOf.get(part.id)}, ${part.label.name}, seen from the room: ${each.join('; ')}.`,
    ];
  });
}

interface View {
  readonly look: Look;
  readonly title: string;
  readonly seen: Seen;
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
  readonly dimensions: Dimensions;
}

const GAP = 8;
const CAPTION = 6;
/** Room for the title of a section, mm. */
const TITLE = 46;
/** Below the words over a drawing, mm. */
const CLEARANCE = 3;
/** Lower on the paper than this, mm, a section gets a scale of its own. */
const LOW = 30;

function onePiece(desk: Desk, piece: PlacedPiece, alike: readonly PlacedPiece[]): readonly Draft[] {
  const { letter } = desk;
  const notes = [piece, ...alike]
    .flatMap((p) => desk.notesOn(p.id))
    .filter((n) => n.note.verdict !== 'fine')
    .sort((a, b) => a.number - b.number);
  const said = [...(alike.length === 0 ? [] : [alikeWords(desk, alike)]), ...cutOutWords(desk, piece)].flatMap((para) =>
    wrapText(para, LETTER.small, desk.sheet.body.width),
  );
  const head = said.length === 0 ? 0 : said.length * LEADING + CLEARANCE;
  const { body: whole } = desk.sheet;
  const sheet = { ...desk.sheet, body: { ...whole, y: whole.y + head, height: whole.height - head } };
  const title = [piece, ...alike].map((p) => p.title).join(', ');
  const parts = new Map(piece.parts.map((p) => [p.id, p]));
  const views = viewsOf(piece);
  const wide = layThree(desk, piece, views, sheet.body);
  const narrowBody = { ...sheet.body, width: sheet.body.width - MARGIN - 6 };
  const narrow = notes.length > 0 ? layThree(desk, piece, views, narrowBody) : undefined;
  // the notes stand beside the drawing where that costs it no scale, or where they would have a sheet to themselves
  const details = detailsOf(piece);
  const beside = narrow !== undefined && (!details || narrow.scale.ratio === wide.scale.ratio);
  const { laid, scale } = beside ? narrow : wide;
  const places = placesIn(beside ? narrowBody : sheet.body);
  const marks: Mark[] = said.map((w, i) => text(whole.x, whole.y + LEADING * (i + 1) - 1, w));
  laid.forEach((view, i) => {
    const { look, seen: shown, title: caption } = views[i]!;
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
      ...tilesOf(piece, look, view),
      ...view.dimensions,
    );
    const words = view.scale.ratio === scale.ratio ? caption : `${caption}, ${view.scale.text}`;
    const over = text(view.frame.x, view.frame.y - captionLift(view), words, { tone: 'faint' });
    marks.push(over);
    places.taken.push(textArea(over), ...textsOf(view.dimensions).map(textArea));
  });
  const signs = cutSigns(piece, laid);
  marks.push(...signs);
  places.taken.push(...textsOf(signs).map(textArea));
  const numbers: InTurn = (on) => {
    const numbered = new Set<string>();
    return laid.flatMap((view, i) => partNumbers(desk, views[i]!, view, on, numbered));
  };
  const front = laid[0]!;
  const balloons = balloonsInTurn(
    notes.map((n) => ({ ...n, target: pieceSpot(n, piece, front), tone: toneOf(n.note.verdict) })),
    ({ note }, own) => group(note.id, own, note.title),
  );
  marks.push(...placeInTurn(places, [numbers, ...balloons]).flat());
  if (beside)
    marks.push(...noteMargin(notes, area(right(sheet.body) - MARGIN, sheet.body.y, MARGIN, sheet.body.height)));
  const main: Draft = {
    id: `piece-${piece.id}`,
    chapter: 'Pieces',
    title,
    scale: scale.text,
    ...(notes.length > 0 && { state: stateOf(notes) }),
    marks: [group(piece.id, marks, piece.title)],
  };
  return [main, ...detailPages(desk, piece, title, letter, beside ? [] : notes)];
}

/** What is bought and glued on before the panels of an absorber, as an outline where it is cut through: its thickness is told there. */
function tilesOf(piece: PlacedPiece, look: Look, { place }: LaidView): readonly Mark[] {
  if (piece.kind !== 'absorber' || look === 'front') return [];
  const { min, max } = piece.outside;
  const deep = [Math.max(...piece.parts.map(({ solid }) => solid.box.max.z)), max.z] as const;
  const [u, v] = look === 'right' ? [deep, [-max.y, -min.y] as const] : [[min.x, max.x] as const, deep];
  return [rectangle(areaOnPaper(place, u, v), { pen: 'ghost' })];
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
    title: 'Section A, to the right',
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

const HUGE = area(0, 0, 1e5, 1e5);

/** The three views to the largest scale at which they fit: the front, the section to its right, the plan below it or, of what is tall, to the right of both. */
function layThree(
  { letter }: Desk,
  piece: PlacedPiece,
  views: readonly View[],
  into: Area,
): { readonly laid: readonly LaidView[]; readonly scale: Scale } {
  const quiet = stopsOf(piece.parts.map((p) => p.size.thickness));
  const lay = ({ u, v, dimensions }: View, from: Scale, place: Area): LaidView =>
    layView({ u, v, into: place, letter, dimensions, quiet, from, stand: 'top' });
  /** How far a view's dimensions reach to its left and below it, and its own size. */
  const measure = (view: View, scale: Scale) => {
    const { frame, dimensions } = lay(view, scale, HUGE);
    const reach = extentOf(dimensions) ?? frame;
    return {
      left: frame.x - Math.min(reach.x, frame.x),
      lower: Math.max(0, below(reach) - below(frame)),
      ...size(frame),
    };
  };
  const arrange = (scale: Scale, section = scale, aside = false) => {
    const [front, across, plan] = views.map((view, i) => measure(view, i === 1 ? section : scale)) as [
      Measured,
      Measured,
      Measured,
    ];
    const left = Math.max(front.left, aside ? 0 : plan.left) + 1;
    const high = Math.max(front.height + front.lower, across.height + across.lower);
    const second = left + front.width + GAP + across.left;
    // The section's title is often wider than the section.
    const beside = Math.max(across.width, TITLE) + 2;
    if (!aside)
      return {
        x: [left, second, left],
        y: [CAPTION, CAPTION, CAPTION + high + GAP + CAPTION],
        width: second + beside,
        height: CAPTION + high + GAP + CAPTION + plan.height + plan.lower,
      };
    const third = second + beside + GAP + plan.left;
    return {
      x: [left, second, third],
      y: [CAPTION, CAPTION, CAPTION],
      width: third + Math.max(plan.width, TITLE) + 2,
      height: CAPTION + Math.max(high, plan.height + plan.lower),
    };
  };
  const scales = scalesOf(letter.unit);
  const fits = ({ width, height }: { readonly width: number; readonly height: number }): boolean =>
    width <= into.width && height <= into.height;
  // under the front, where it is looked for; but what is tall would get small for it, and has room beside it
  const under = scales.find((s) => fits(arrange(s))) ?? scales.at(-1)!;
  const abreast = scales.find((s) => s.ratio < under.ratio && fits(arrange(s, s, true)));
  const aside = abreast !== undefined;
  const scale = abreast ?? under;
  // What is long and low is cut across at a scale of its own, or its section would be too small to read.
  const low = measure(views[1]!, scale).height < LOW;
  const section = low
    ? (scales.find((s) => s.ratio >= 2 && s.ratio < scale.ratio && fits(arrange(scale, s, aside))) ?? scale)
    : scale;
  const { x, y, width, height } = arrange(scale, section, aside);
  const [left, top] = [into.x + (into.width - width) / 2, into.y + (into.height - height) / 2];
  const laid = views.map((view, i) => {
    const own = i === 1 ? section : scale;
    const { frame } = lay(view, own, HUGE);
    return lay(view, own, { ...HUGE, x: left + x[i]! - frame.x, y: top + y[i]! - frame.y });
  });
  return { laid, scale };
}
type Measured = { readonly left: number; readonly lower: number; readonly width: number; readonly height: number };
const size = ({ width, height }: Area) => ({ width, height });

/** Where the sections lie, on the front: chain lines past its edges with their letters. */
function cutSigns(piece: PlacedPiece, [front]: readonly LaidView[]): readonly Mark[] {
  const { place, frame } = front!;
  const x = onPaper(place, sectionAt(piece, 'x'), 0).x;
  const y = onPaper(place, 0, -sectionAt(piece, 'y')).y;
  // Of a narrow piece the section lies under the caption: its letter stands behind it.
  const caption = textArea(text(frame.x, frame.y - captionLift(front!), 'Front', { tone: 'faint' }));
  const letter = (px: number, py: number, words: string): Mark =>
    text(px, py, words, { align: 'centre', anchor: 'middle', bold: true, height: LETTER.head });
  return [
    line(x, frame.y - 4, x, frame.y - 0.5, 'outline'),
    line(x, frame.y - 0.5, x, below(frame) + 1, 'centre', 'faint'),
    letter(Math.max(x + 3, right(caption) + 2.5), frame.y - 2.6, 'A'),
    line(right(frame) + 0.5, y, right(frame) + 4, y, 'outline'),
    line(frame.x - 1, y, right(frame) + 0.5, y, 'centre', 'faint'),
    letter(right(frame) + 6, y, 'B'),
  ];
}

/** Each part's number once, in the first view that has room for it: in the part, else on a short leader. */
function partNumbers(desk: Desk, view: View, laid: LaidView, places: Places, numbered: Set<string>): readonly Mark[] {
  const largest = new Map<string, Area>();
  for (const { owner, u, v } of view.seen.shown()) {
    const at = areaOnPaper(laid.place, u, v);
    const before = largest.get(owner);
    if (!before || at.width * at.height > before.width * before.height) largest.set(owner, at);
  }
  const lines = view.seen.edges.map(({ from, to }) => areaOnPaper(laid.place, [from[0], to[0]], [from[1], to[1]]));
  const marks: Mark[] = [];
  for (const [owner, at] of largest) {
    const number = desk.numbered().numberOf.get(owner);
    if (number === undefined || numbered.has(owner)) continue;
    // a part that is too thin for its number has it on a leader: it is never broken into its figures
    const narrow = textWidth(`${number}`, LETTER.small, true) > at.width - 2;
    const inside = narrow ? [] : nameIn(places, { words: `${number}`, at, lines, inside: true });
    const own = inside.length > 0 ? inside : tag(places, at, `${number}`);
    if (own.length === 0) continue;
    numbered.add(owner);
    marks.push(group(owner, own));
  }
  return marks;
}

function pieceSpot({ note }: NumberedNote, piece: PlacedPiece, front: LaidView): Point {
  const part = piece.parts.find((p) => p.id === note.about);
  const box = part?.solid.box ?? piece.outside;
  const real = vec(
    (box.min.x + box.max.x) / 2,
    part ? (box.min.y + box.max.y) / 2 : box.max.y - side(box, 'y') * 0.15,
    0,
  );
  const { u } = faceOf(box, 'front');
  return onPaper(front.place, part ? real.x : u[0] + (u[1] - u[0]) * 0.3, -real.y);
}
