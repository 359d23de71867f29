import { move } from '../../geometry/index.ts';
import { remember } from '../../remember.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { type Area, edgesOfArea, LETTER, overlaps } from '../draw.ts';
import { textWidth, wrapText } from '../font/measure.ts';
import {
  type Beside,
  besideAgain,
  besidePlaces,
  gapBetween,
  keptPlaces,
  takeFairBeside,
} from '../layout/name-beside.ts';
import { type NamePlace, namePlaces, takeName } from '../layout/name-in.ts';
import type { InTurn, Places } from '../layout/place.ts';
import { isTaken, lay, type Squares, squaresIn } from '../layout/squares.ts';
import type { Mark } from '../marks.ts';
import { bodiesOf } from '../view/project.ts';
import { areaOnPaper, onPaper, type Placement } from '../view/view.ts';
import { type AtWall, frontOf, lies } from './at-wall.ts';

/** What is named only where nothing else stands before or behind its name: mouldings run behind cases, strips lie in them. */
const NAMED_IN_THE_CLEAR: ReadonlySet<string> = new Set(['trim', 'strip']);
/** Names on a leader are broken at one of these widths, mm. */
const BESIDE = [34, 20];
/** A name is read as that of what it stands nearest to: so much nearer than to anything else, mm. */
const NEARER = 2;

interface Named {
  readonly at: AtWall;
  readonly own: Area;
  readonly lines: readonly Area[];
  readonly inTheClear: boolean;
}
/** What is drawn of a wall beside its pieces. */
export interface DrawnOnWall {
  /** The sheet, as far as it is drawn on. */
  readonly within: Area;
  /** Outlets and the like, which are seen wherever they are. */
  readonly signs: readonly Area[];
  /** Lines, as flat areas: of openings, of the wall itself, of dimensions. */
  readonly lines: readonly Area[];
}

/**
 * Each piece's title: in it, where nothing stands before it; else right above or below it, over no line of the drawing and where nobody takes
 * it for a neighbour's name; else on a leader; over a line only where there is no other place.
 */
export function pieceNames(
  pieces: readonly AtWall[],
  place: Placement,
  { within, signs, lines }: DrawnOnWall,
): readonly InTurn[] {
  const all = pieces.map((at): Named => {
    const { x, y } = at.box.min;
    const { x: x1, y: y1 } = at.box.max;
    return {
      at,
      own: areaOnPaper(place, [x, x1], [-y1, -y]),
      lines: drawnLines(at.piece, lies(at, place), () => linesOf(at, place)),
      inTheClear: NAMED_IN_THE_CLEAR.has(at.piece.kind),
    };
  });
  const drawn = squaresIn(within);
  for (const each of [...lines, ...all.flatMap((named) => named.lines)]) lay(drawn, each);
  const seen = squaresIn(within);
  for (const { own, inTheClear } of all) if (!inTheClear) lay(seen, own);
  const on = { place, within, signs, lines: drawn, seen, all };
  const names = all.map((named) => ({ ...nameOf(named, on), size: size(named.own) }));
  // what has room for its name comes before what is named beside it, and of that the smallest first: it has least choice
  return names.toSorted((a, b) => a.rank - b.rank || (a.rank === 1 ? a.size - b.size : 0)).map(({ name }) => name);
}
const size = ({ width, height }: Area): number => width * height;

interface NamingOn {
  readonly place: Placement;
  readonly within: Area;
  readonly signs: readonly Area[];
  readonly lines: Squares;
  /** The pieces that no name is to cover. */
  readonly seen: Squares;
  readonly all: readonly Named[];
}

function nameOf(named: Named, { place, within, signs, lines, seen, all }: NamingOn) {
  const { at, own } = named;
  const of = `name of ${at.piece.id}`;
  const candidates = drawnNames(at.piece, lies(at, place), () => placesOfName(at, place));
  const others = all.filter((other) => other !== named && !other.inTheClear);
  if (named.inTheClear) {
    const clear = candidates.filter(
      (c) => c.words.length === 1 && !others.some((other) => overlaps(c.area, other.own)),
    );
    return { rank: 2, name: Object.assign((places: Places) => takeName(places, clear), { of }) };
  }
  const before = others.filter((other) => other.at.box.max.z > at.box.max.z).map((other) => other.own);
  const covering = [...signs, ...before].filter((a) => overlaps(a, own));
  const inside = candidates.filter((c) => c.where === 'inside' && !covering.some((a) => overlaps(a, c.area)));
  const near = candidates.filter((c) => {
    if (c.where !== 'beside' || isTaken(lines, c.area)) return false;
    const far = gapBetween(c.area, own) + NEARER;
    return others.every((other) => gapBetween(c.area, other.own) > far);
  });
  const naming = {
    ...{ within, broken: brokenAnew(at.piece.title), at: own, drawn: seen, clean: true, round: true, bold: true },
    heavy: (a: Area): number => Number(isTaken(lines, a)),
  };
  // found once, however often everything on the sheet is placed anew
  let led: Iterable<Beside> | undefined;
  const name = (places: Places): readonly Mark[] => {
    const stood = places.before?.named.get(of);
    const again = stood === undefined ? undefined : besideAgain(naming, stood);
    const marksAgain = again ? takeFairBeside(places, [again], true, of) : [];
    if (marksAgain.length > 0) return marksAgain;
    const close = takeName(places, [...inside, ...near]);
    if (close.length > 0) return close;
    // where there was no place beside it, none is looked for again under the hand
    if (stood === undefined && places.before?.named.has(of)) return takeName(places, candidates);
    led ??= keptPlaces(besidePlaces(naming));
    const marks = takeFairBeside(places, led, true, of);
    return marks.length > 0 ? marks : takeName(places, candidates);
  };
  return { rank: inside.length > 0 ? 0 : 1, name: Object.assign(name, { of }) };
}

/** A name in lines of several widths, none of its words broken. */
function brokenAnew(words: string): readonly (readonly string[])[] {
  const longest = Math.max(...words.split(/\s+/).map((w) => textWidth(w, LETTER.small, true)));
  return BESIDE.map((width) => wrapText(words, LETTER.small, Math.max(width, longest + 0.1), true));
}

const drawnNames = remember<PlacedPiece, readonly NamePlace[]>();
const drawnLines = remember<PlacedPiece, readonly Area[]>();

function linesOf(at: AtWall, place: Placement): readonly Area[] {
  const { piece, offset, box } = at;
  if (bodiesOf(piece, offset).length > 0) return edgesOf(at, place);
  return edgesOfArea(areaOnPaper(place, [box.min.x, box.max.x], [-box.max.y, -box.min.y]));
}
const edgesOf = (at: AtWall, place: Placement): readonly Area[] =>
  frontOf(at).edges.map(({ from, to }) => areaOnPaper(place, [from[0], to[0]], [from[1], to[1]]));
function placesOfName(at: AtWall, place: Placement): readonly NamePlace[] {
  const { piece, offset, box } = at;
  const words = piece.title;
  const onSheet = ({ min, max }: typeof box): Area => areaOnPaper(place, [min.x, max.x], [-max.y, -min.y]);
  if (NAMED_IN_THE_CLEAR.has(piece.kind)) {
    const parts = bodiesOf(piece, offset).length > 0 ? piece.parts.map((p) => move(p.solid.box, offset)) : [box];
    return parts.flatMap((part) => namePlaces({ words, at: onSheet(part) }));
  }
  const prefer = piece.bays.map(({ clear }) =>
    onPaper(place, (clear.min.x + clear.max.x) / 2 + offset.x, -(clear.min.y + clear.max.y) / 2 - offset.y),
  );
  return namePlaces({ words, at: onSheet(box), lines: edgesOf(at, place), prefer, along: true });
}
