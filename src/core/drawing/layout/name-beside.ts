import {
  type Area,
  area,
  below,
  holds,
  LETTER,
  line,
  overlaps,
  padded,
  point,
  rectangle,
  right,
  text,
} from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import type { Mark, Point } from '../marks.ts';
import { CLEAR, type Places, takeLed } from './place.ts';
import { onTheWay, over, type Squares } from './squares.ts';
import { LEADING } from './table.ts';

const FAR = [5, 7, 10, 13, 17, 22, 28, 36];
const DIRECTIONS = Array.from({ length: 16 }, (_, i) => {
  const angle = (i * Math.PI) / 8;
  return { cos: Math.cos(angle), sin: Math.sin(angle) };
});

/** Shorter than this, mm, it is one place. */
const LONG = 6;
/** A word over one of these costs more than the longest leader. */
const HEAVY = 50;

/** Where a name may stand beside what it names, on a leader. Only of the name and the drawing, whatever else is written. */
export interface Beside {
  readonly lines: readonly string[];
  readonly area: Area;
  readonly leader: readonly [Point, Point];
  /** Whether it lies over something else, or its leader goes through it. */
  readonly isPoor: boolean;
  /** Which of all places it is: the same one when what is named stands elsewhere. */
  readonly number: number;
}
export interface Naming {
  /** The sheet: what would lie off it is no place. */
  readonly within: Area;
  /** Ways to break it into lines. */
  readonly broken: readonly (readonly string[])[];
  readonly at: Area;
  readonly drawn: Squares;
  /** How many lines a word there would break: of walls and dimensions. */
  readonly heavy: (at: Area) => number;
  /** Over none of them, or not at all. */
  readonly clean?: boolean;
  /** A leader rather goes round what is drawn, but for what is named. */
  readonly round?: boolean;
  readonly bold: boolean;
}

/**
 * A name beside what is too thin to hold it, on a leader: clear of what is written, its leader too, and as far as can be of what is drawn, of
 * walls and dimensions above all. It is broken into lines as suits the place best. Nothing where there is no free place.
 */
export const nameBeside = (places: Places, naming: Omit<Naming, 'within'>): readonly Mark[] =>
  marksOf(takeLed(places, besidePlaces({ within: places.within, ...naming })), naming.bold);

/** Best first. Most names find room close by: what lies further off is looked at when it is asked for. */
export function* besidePlaces(naming: Naming): Generator<Beside> {
  const ways = waysOf(naming);
  let waiting: Costed[] = [];
  for (let k = 0; k < FAR.length; k++) {
    for (let way = 0; way < ways.length; way++)
      for (let direction = 0; direction < DIRECTIONS.length; direction++) {
        const place = placeAt(naming, ways[way]!, way * OF_WAY + k * DIRECTIONS.length + direction);
        if (place) waiting.push(place);
      }
    waiting.sort((a, b) => a.cost - b.cost || a.number - b.number);
    // no place further off costs less than it is far
    const next = FAR[k + 1] ?? Number.POSITIVE_INFINITY;
    const ready = waiting.findIndex(({ cost }) => cost >= next);
    const count = ready < 0 ? waiting.length : ready;
    yield* waiting.slice(0, count);
    waiting = waiting.slice(count);
  }
}
/** The place of this number, where there is still one. */
export function besideAgain(naming: Naming, number: number): Beside | undefined {
  const way = waysOf(naming)[Math.floor(number / OF_WAY)];
  return way && placeAt(naming, way, number);
}
const OF_WAY = FAR.length * DIRECTIONS.length;
interface Costed extends Beside {
  readonly cost: number;
}
/** From where the leader goes out, and what it leads to. */
interface Way {
  readonly lines: readonly string[];
  readonly from: Point;
  readonly wide: number;
  readonly high: number;
}

function waysOf({ broken, at, bold }: Naming): readonly Way[] {
  // what is named may be long: the leader starts from one of a few places along it
  const shares = Math.max(at.width, at.height) < LONG ? [0.5] : [0.5, 0.3, 0.7, 0.12, 0.88];
  return shares.flatMap((share) => {
    const from =
      at.width > at.height
        ? point(at.x + at.width * share, at.y + at.height / 2)
        : point(at.x + at.width / 2, at.y + at.height * share);
    return broken.map((lines) => {
      const wide = Math.max(...lines.map((l) => textWidth(l, LETTER.small, bold))) + 1.2;
      return { lines, from, wide, high: lines.length * LEADING + 0.4 };
    });
  });
}

function placeAt(naming: Naming, { lines, from, wide, high }: Way, number: number): Costed | undefined {
  const { within, at, drawn, heavy, clean = false, round = false } = naming;
  const far = FAR[Math.floor((number % OF_WAY) / DIRECTIONS.length)]!;
  const { cos, sin } = DIRECTIONS[number % DIRECTIONS.length]!;
  // the near edge of the words lies that far off, whichever way they stand
  const x = from.x + cos * (far + wide / 2);
  const y = from.y + sin * (far + high / 2);
  const own = area(x - wide / 2, y - high / 2, wide, high);
  if (!holds(within, own)) return undefined;
  const crossed = heavy(own);
  if (clean && crossed > 0) return undefined;
  const close = over(drawn, padded(own, CLEAR));
  const covers = close.filter((d) => overlaps(d, own)).length;
  const end = nearest(own, from);
  const through = round ? onTheWay(drawn, from, end).filter((d) => d !== at && !overlaps(d, own)).length : 0;
  const cost = far + 14 * covers + 14 * through + 4 * (close.length - covers) + HEAVY * crossed;
  return { lines, area: own, leader: [from, end], isPoor: covers + through > 0, number, cost };
}

/** The same as often as it is asked for: what was looked at once is not looked at again. */
export function keptPlaces(places: Generator<Beside>): Iterable<Beside> {
  const known: Beside[] = [];
  return {
    *[Symbol.iterator]() {
      for (let i = 0; ; i++) {
        if (i === known.length) {
          const { done, value } = places.next();
          if (done) return;
          known.push(value);
        }
        yield known[i]!;
      }
    },
  };
}
/**
 * From candidates, where there are other ways left: none through what is written; and one that is poor counts, so that it is tried earlier in
 * a next round. It is put down by this name where it stands.
 */
export function takeFairBeside(
  places: Places,
  candidates: Iterable<Beside>,
  bold: boolean,
  of: string,
): readonly Mark[] {
  const found = takeLed(places, candidates, false);
  if (found?.isPoor) places.forced += 1;
  places.now?.named.set(of, found?.number);
  return marksOf(found, bold);
}

function marksOf(found: Beside | undefined, bold: boolean): readonly Mark[] {
  if (!found) return [];
  const {
    area: own,
    lines,
    leader: [from, end],
  } = found;
  return [
    rectangle(own, { fill: 'paper' }),
    line(from.x, from.y, end.x, end.y, 'thin'),
    { kind: 'circle', centre: from, radius: 0.45, fill: 'ink' },
    ...lines.map((l, i) =>
      text(own.x + own.width / 2, own.y + 0.2 + LEADING * (i + 0.5), l, { align: 'centre', anchor: 'middle', bold }),
    ),
  ];
}

/** How far two areas lie apart; 0 where they touch or overlap. */
export const gapBetween = (a: Area, b: Area): number =>
  Math.hypot(Math.max(0, b.x - right(a), a.x - right(b)), Math.max(0, b.y - below(a), a.y - below(b)));

/** The point of an area's edge that is nearest to a point outside it. */
export const nearest = (a: Area, p: { readonly x: number; readonly y: number }) =>
  point(Math.min(Math.max(p.x, a.x), a.x + a.width), Math.min(Math.max(p.y, a.y), a.y + a.height));
