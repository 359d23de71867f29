import {
  type Area,
  area,
  below,
  holds,
  LETTER,
  line,
  overlaps,
  point,
  right,
  text,
  textArea,
  textsOf,
} from '../draw.ts';
import type { Mark, Point, Tone } from '../marks.ts';
import {
  isDot,
  isTaken,
  isTakenAt,
  lay,
  onTheWay,
  over,
  type Squares,
  squaresIn,
  type Turn,
  takeBack,
  type Way,
  wayFrom,
} from './squares.ts';

/** Keeps account of which places of a drawing are taken, and finds free ones. Mutable, and lives no longer than one page. */
export interface Places {
  readonly within: Area;
  /** Only ever grows. */
  readonly taken: Area[];
  /** What is taken, as far as it was asked for, by where it lies. */
  readonly squares: Squares;
  /** How many things were placed although they cross or cover another, or found no place. */
  forced: number;
  /** Where balloons stood, which are to stand there again wherever they can. */
  readonly before?: Spots;
  /** Where they stand now. */
  readonly now?: Spots;
}
/** With spots, what is placed stands where it stood by them; where there is none in them yet, it is put down there. */
export const placesIn = (within: Area, taken: readonly Area[] = [], spots?: Spots): Places => ({
  within,
  taken: [...taken],
  squares: squaresIn(within),
  forced: 0,
  ...(spots && (spots.turns.length > 0 ? { before: spots } : { now: spots })),
});
function squaresOf({ taken, squares }: Places): Squares {
  for (let i = squares.all.length; i < taken.length; i++) lay(squares, taken[i]!);
  return squares;
}
/** Whether a straight line goes through nothing that is taken. */
export const isClear = (places: Places, from: Point, to: Point): boolean =>
  onTheWay(squaresOf(places), from, to).length === 0;
export const isFree = (places: Places, at: Area): boolean => !isTaken(squaresOf(places), at);

/** From what is written to what is drawn, mm: nearer they seem to touch. */
export const CLEAR = 0.8;

const overlapOf = (a: Area, b: Area): number =>
  Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));

/** The first candidate that is free and inside; undefined when there is none. Takes it. */
export function takeFirst<C extends { readonly area: Area }>(places: Places, candidates: Iterable<C>): C | undefined {
  for (const candidate of candidates) {
    if (!holds(places.within, candidate.area)) continue;
    if (!isFree(places, candidate.area)) continue;
    places.taken.push(candidate.area);
    return candidate;
  }
  return undefined;
}

/** One thing to place on a drawing: its marks where it found a place. */
export interface InTurn {
  (places: Places): readonly Mark[];
  /** What it tells of, where it is to be known again. */
  readonly of?: string;
}
/** How often all are placed anew before the best of the rounds is taken. */
const ROUNDS = 12;
/** And how many of them may bring nothing better. */
const PATIENCE = 2;

/**
 * Several things placed one after the other, in the order given as long as each finds a clear place; in a next round those go first
 * that found none, most often first. Gives the marks of the best round, in the order given, and takes its places.
 */
export function placeInTurn(places: Places, things: readonly InTurn[]): readonly (readonly Mark[])[] {
  const late = things.map(() => 0);
  const nameOf = (i: number): string => things[i]!.of ?? `${i}`;
  let turns = things.map((_, i) => i);
  let best: { readonly marks: readonly (readonly Mark[])[]; readonly own: Places; readonly round: number } | undefined;
  const { within, before } = places;
  const base = places.taken.length;
  // what stood somewhere does not change its place for the sake of others, and finds the place free that it had by its turn
  const rounds = before ? 1 : ROUNDS;
  if (before) {
    const turnOf = new Map(before.turns.map((name, turn) => [name, turn]));
    const own = turns.map((i) => turnOf.get(nameOf(i)) ?? Number.POSITIVE_INFINITY);
    turns = turns.toSorted((a, b) => own[a]! - own[b]! || a - b);
  }
  // one round after the other lays on the same squares what it takes, and takes it back
  const squares = squaresOf(places);
  for (let round = 0; round < rounds; round++) {
    const own: Places = {
      ...{ within, taken: [...places.taken], squares, forced: 0 },
      ...(before ? { before } : places.now && { now: { ...noSpots(), turns: turns.map(nameOf) } }),
    };
    const marks: (readonly Mark[])[] = [];
    for (const i of turns) {
      const { forced } = own;
      marks[i] = things[i]!(own);
      if (own.forced > forced) late[i]!++;
    }
    takeBack(squares, base);
    if (!best || own.forced < best.own.forced) best = { marks, own, round };
    if (own.forced === 0 || round - best.round >= PATIENCE) break;
    const next = turns.toSorted((a, b) => late[b]! - late[a]!);
    if (next.every((i, k) => i === turns[k])) break;
    turns = next;
  }
  places.taken.push(...best!.own.taken.slice(base));
  places.forced += best!.own.forced;
  const { now } = best!.own;
  if (now) {
    for (const [name, spot] of now.at) places.now!.at.set(name, spot);
    for (const [name, spot] of now.named) places.now!.named.set(name, spot);
    places.now!.turns.push(...now.turns);
  }
  return best!.marks;
}

/**
 * The first free candidate whose leader, from what it tells of to its words, goes through nothing that is taken; where there is none, the
 * first free one, unless that is not wanted. Takes it and its leader.
 */
export function takeLed<C extends { readonly area: Area; readonly leader: readonly [Point, Point] }>(
  places: Places,
  candidates: Iterable<C>,
  atAnyCost = true,
): C | undefined {
  let found: C | undefined;
  // what lies on the very place that is told of is crossed from wherever one comes
  let there: C | undefined;
  // over another leader rather than over what is written
  let leading: C | undefined;
  let free: C | undefined;
  for (const candidate of candidates) {
    if (!holds(places.within, candidate.area) || !isFree(places, candidate.area)) continue;
    const [from, to] = candidate.leader;
    free ??= candidate;
    const crossed = onTheWay(squaresOf(places), from, to);
    if (crossed.length === 0) {
      found = candidate;
      break;
    }
    if (!there && crossed.every((t) => overlaps(t, area(from.x, from.y, 0, 0)))) there = candidate;
    if (!leading && crossed.every(isDot)) leading = candidate;
  }
  const taking = found ?? there ?? leading ?? (atAnyCost ? free : undefined);
  if (!taking) places.forced += LOST;
  else if (!found) places.forced += taking !== there ? 1 : isDotted(places, there.leader[0]) ? 0 : 1;
  if (taking) places.taken.push(taking.area, ...alongLeader(taking.leader[1], taking.leader[0]));
  return taking;
}

export const BALLOON = 3.1;
/** Rings round the target on which a balloon may stand, nearest first, then the directions, up and right first. */
const RINGS = [7, 10, 14, 19, 25, 32, 40, 50];
const DIRECTIONS = [-45, -135, 45, 135, -90, 0, 90, 180, -22, -67, -112, -157, 22, 67, 112, 157];
/** Where those leave no clear place: further off and all the way round. */
const MORE = { rings: [...RINGS, 62, 75, 90], turns: Array.from({ length: 72 }, (_, i) => 5 * i - 45) };

/** What a balloon says. */
export interface Numbered {
  readonly number: number;
  readonly tone?: Tone;
  /** What it tells of, so that it is known again in another drawing of the same. */
  readonly of?: string;
}

/** How the balloons of a drawing stand to what they point at, by what they tell of. Mutable: it is put down when they are first placed. */
export interface Spots {
  readonly at: Map<string, HeldSpot>;
  /** In which order everything was placed. */
  readonly turns: string[];
  /** Which of a few places of a thing is pointed at, by what is told of it. */
  readonly pointed: Map<string, number>;
  /** At which of its places beside what it names each name stands; none where there was none for it. */
  readonly named: Map<string, number | undefined>;
}
export const noSpots = (): Spots => ({ at: new Map(), turns: [], pointed: new Map(), named: new Map() });
interface HeldSpot {
  readonly turn: Turn;
  readonly ring: number;
  readonly along: Point;
  /** How many stand there in a row. */
  readonly count: number;
  /** Whether nothing was crossed on the way. */
  readonly clear: boolean;
}

/**
 * A numbered balloon with its leader: points at the target with a dot, stands where nothing else does and where the leader goes through
 * nothing that is written. What lies off the area is pointed at from its edge.
 */
export const balloon = (places: Places, real: Point, number: number, tone: Tone = 'ink'): readonly Mark[] =>
  balloonRow(places, real, [{ number, tone }])[0]!;

/**
 * Balloons that point at one spot, in a row in the order of their numbers, on one leader: references that belong together may share
 * theirs (ISO 6433, from memory). The marks of each; the leader is with the one that it ends at.
 */
export function balloonRow(
  places: Places,
  real: Point,
  numbered: readonly Numbered[],
  of = '',
): readonly (readonly Mark[])[] {
  const { within } = places;
  const target = {
    x: Math.max(within.x, Math.min(right(within), real.x)),
    y: Math.max(within.y, Math.min(below(within), real.y)),
  };
  const row = [...numbered].sort((a, b) => a.number - b.number);
  const r = Math.max(...row.map(({ number }) => radiusOf(number)));
  const taken = squaresOf(places);
  const found =
    spotAgain(within, taken, target, r, row.length, places.before?.at.get(of)) ??
    spotFor(within, taken, target, r, row.length);
  if (!found?.clear) places.forced += found ? 1 : LOST;
  if (!found) return numbered.map(() => []);
  const { centre, along, ring, turn, clear } = found;
  places.now?.at.set(of, { ring, turn, along, count: row.length, clear });
  // the row grows away from the leader, but is read from the left, or from above
  const isTurned = along.x + along.y < 0;
  const rings = row.map(({ number, tone }, i) => {
    const far = (isTurned ? row.length - 1 - i : i) * pitchOf(r);
    return balloonAt(point(centre.x + along.x * far, centre.y + along.y * far), number, tone);
  });
  const own = rings[isTurned ? row.length - 1 : 0]!;
  // its number too, which no other leader may cross on its way out of the ring
  places.taken.push(found.area, ...textsOf(rings.flat()).map(textArea), ...alongLeader(centre, target, r));
  const far = Math.hypot(target.x - centre.x, target.y - centre.y);
  const [dx, dy] = [(target.x - centre.x) / far, (target.y - centre.y) / far];
  const tone = numbered[0]!.tone ?? 'ink';
  const reached = radiusOf(row[isTurned ? row.length - 1 : 0]!.number);
  const leader: readonly Mark[] = [
    line(centre.x + dx * reached, centre.y + dy * reached, target.x, target.y, 'thin', tone),
    { kind: 'circle', centre: target, radius: 0.6, fill: tone },
  ];
  return numbered.map((each) => {
    const ring = rings[row.indexOf(each)]!;
    return ring === own ? [...leader, ...ring] : ring;
  });
}

/** Nearer than this their dots would run into one another, mm. */
const SAME_SPOT = 1.2;
/** What is to be numbered, those of one spot together, each lot to be placed in turn. */
export function balloonsInTurn<N extends Numbered & { readonly target: Point }>(
  all: readonly N[],
  draw: (one: N, marks: readonly Mark[]) => Mark,
): readonly InTurn[] {
  const lots: [N, ...N[]][] = [];
  for (const one of all) {
    const near = lots.find(([{ target }]) => Math.hypot(target.x - one.target.x, target.y - one.target.y) < SAME_SPOT);
    if (near) near.push(one);
    else lots.push([one]);
  }
  const known = new Map<string, number>();
  return lots.map((lot): InTurn => {
    // one thing may be told of at several spots
    const name = lot[0].of ?? '';
    const nth = known.get(name) ?? 0;
    known.set(name, nth + 1);
    const of = `${name} ${nth}`;
    const place = (places: Places): readonly Mark[] =>
      balloonRow(places, lot[0].target, lot, of).map((marks, i) => draw(lot[i]!, marks));
    return Object.assign(place, { of });
  });
}

const radiusOf = (number: number): number => BALLOON + (number > 99 ? 0.9 : 0);
/** From one balloon of a row to the next. */
const pitchOf = (r: number): number => 2 * r + 0.5;
/** Nothing lies there but dots, that of the thing itself among them. */
const isDotted = (places: Places, at: Point): boolean => over(squaresOf(places), area(at.x, at.y, 0, 0)).every(isDot);
/** What finds no place at all counts for so many that cross another. */
const LOST = 10;
interface Spot {
  readonly ring: number;
  readonly turn: Turn;
  /** Of the balloon that the leader ends at, and which way the others of the row stand from it. */
  readonly centre: Point;
  readonly along: Point;
  readonly area: Area;
}
/** A direction from what is pointed at, and which ways a row may stand there: every way that does not lead back. */
interface RowTurn extends Turn {
  readonly rows: readonly Point[];
}
const ROWS: readonly Point[] = [point(1, 0), point(-1, 0), point(0, 1), point(0, -1)];
const turned = (degrees: readonly number[]): readonly RowTurn[] =>
  degrees.map((each) => {
    const angle = (each * Math.PI) / 180;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    return { cos, sin, rows: ROWS.filter(({ x, y }) => x * cos + y * sin > -1e-9) };
  });
const FEW = { rings: RINGS, turns: turned(DIRECTIONS) };
const MANY = { rings: MORE.rings, turns: turned(MORE.turns) };
const SINGLE = ROWS.slice(0, 1);
/** A single balloon stands one way. */
const waysFrom = ({ rows }: RowTurn, count: number): readonly Point[] => (count === 1 ? SINGLE : rows);
const spotAt = (target: Point, r: number, ring: number, turn: Turn, along: Point, count: number): Spot => {
  const centre = point(target.x + ring * turn.cos, target.y + ring * turn.sin);
  const far = (count - 1) * pitchOf(r);
  const own = area(
    centre.x + Math.min(0, along.x * far) - r - 0.4,
    centre.y + Math.min(0, along.y * far) - r - 0.4,
    Math.abs(along.x * far) + 2 * r + 0.8,
    Math.abs(along.y * far) + 2 * r + 0.8,
  );
  return { ring, turn, centre, along, area: own };
};
/** Where it stood before, as long as nothing lies there now, and nothing is on the way that was clear. */
function spotAgain(
  within: Area,
  taken: Squares,
  target: Point,
  r: number,
  count: number,
  before: HeldSpot | undefined,
): (Spot & { readonly clear: boolean }) | undefined {
  if (before?.count !== count) return undefined;
  const { ring, turn, along } = before;
  const spot = spotAt(target, r, ring, turn, along, count);
  if (!holds(within, spot.area) || isTaken(taken, spot.area)) return undefined;
  const clear = ring <= wayFrom(taken, target, turn, ring).clear;
  return clear || !before.clear ? { ...spot, clear } : undefined;
}
/** Whether the spot lies on the sheet. */
function fits(within: Area, target: Point, r: number, ring: number, { cos, sin }: Turn): boolean {
  const x = target.x + ring * cos;
  const y = target.y + ring * sin;
  const reach = r + 0.4 - 1e-6;
  return x - reach >= within.x && x + reach <= right(within) && y - reach >= within.y && y + reach <= below(within);
}
/** Whether anything lies where a single balloon would stand: asked of hundreds of places, nothing is made for it. */
function isRingTaken(taken: Squares, target: Point, r: number, ring: number, { cos, sin }: Turn): boolean {
  const x = target.x + ring * cos - r - 0.4;
  const y = target.y + ring * sin - r - 0.4;
  return isTakenAt(taken, x, y, x + (2 * r + 0.8), y + (2 * r + 0.8));
}
/** The first place where nothing else stands and nothing is crossed on the way; else what crosses only leaders; else the first free one; else the one that covers least. */
function spotFor(
  within: Area,
  taken: Squares,
  target: Point,
  r: number,
  count: number,
): (Spot & { readonly clear: boolean }) | undefined {
  let leading: Spot | undefined;
  let free: Spot | undefined;
  for (const { rings, turns } of [FEW, MANY]) {
    // from all rings one comes by the same way, nearer or further
    const ways: (Way | undefined)[] = turns.map(() => undefined);
    for (const ring of rings)
      for (let i = 0; i < turns.length; i++) {
        const turn = turns[i]!;
        if (!fits(within, target, r, ring, turn)) continue;
        const way = ways[i] ?? wayFrom(taken, target, turn, rings.at(-1)!);
        ways[i] = way;
        const clear = ring <= way.clear;
        const leads = !leading && ring <= way.overDots;
        // of no use, whether it is free or not
        if (free && !clear && !leads) continue;
        if (count === 1 && isRingTaken(taken, target, r, ring, turn)) continue;
        for (const along of waysFrom(turn, count)) {
          const spot = spotAt(target, r, ring, turn, along, count);
          if (count > 1 && (!holds(within, spot.area) || isTaken(taken, spot.area))) continue;
          if (clear) return { ...spot, clear };
          if (leads) leading ??= spot;
          free ??= spot;
        }
      }
  }
  const found = leading ?? free ?? leastCovering(within, taken, target, r, count);
  return found && { ...found, clear: false };
}
function leastCovering(within: Area, taken: Squares, target: Point, r: number, count: number): Spot | undefined {
  let best: { readonly spot: Spot; readonly covers: number } | undefined;
  for (const { rings, turns } of [FEW, MANY])
    for (const ring of rings)
      for (const turn of turns) {
        if (!fits(within, target, r, ring, turn)) continue;
        for (const along of waysFrom(turn, count)) {
          const spot = spotAt(target, r, ring, turn, along, count);
          if (count > 1 && !holds(within, spot.area)) continue;
          const covers = over(taken, spot.area).reduce((sum, t) => sum + overlapOf(t, spot.area), 0);
          if (!best || covers < best.covers) best = { spot, covers };
        }
      }
  return best?.spot;
}
/** What a leader takes up, as small squares along it: the next balloon stands clear of it. */
export function alongLeader(centre: Point, target: Point, r = 0): readonly Area[] {
  const far = Math.hypot(target.x - centre.x, target.y - centre.y);
  const count = Math.ceil((far - r) / STRIDE);
  return Array.from({ length: count }, (_, i) => {
    const share = (STRIDE * (i + 0.5)) / far;
    const [x, y] = [target.x + (centre.x - target.x) * share, target.y + (centre.y - target.y) * share];
    return area(x - 0.6, y - 0.6, 1.2, 1.2);
  });
}
const STRIDE = 2;

/** A balloon by itself, as it stands beside the text of its note. */
export function balloonAt(centre: Point, number: number, tone: Tone = 'ink'): readonly Mark[] {
  const radius = radiusOf(number);
  return [
    { kind: 'circle', centre, radius, pen: 'visible', fill: 'paper', tone },
    text(centre.x, centre.y, `${number}`, {
      align: 'centre',
      anchor: 'middle',
      height: LETTER.small,
      bold: true,
      tone,
    }),
  ];
}
