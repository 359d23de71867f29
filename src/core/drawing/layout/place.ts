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

/** Keeps account of which places of a drawing are taken, and finds free ones. Mutable, and lives no longer than one page. */
export interface Places {
  readonly within: Area;
  readonly taken: Area[];
  /** How many things were placed although they cross or cover another, or found no place. */
  forced: number;
}
export const placesIn = (within: Area, taken: readonly Area[] = []): Places => ({
  within,
  taken: [...taken],
  forced: 0,
});

/** From what is written to what is drawn, mm: nearer they seem to touch. */
export const CLEAR = 0.8;

const overlapOf = (a: Area, b: Area): number =>
  Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));

/** The first candidate that is free and inside; undefined when there is none. Takes it. */
export function takeFirst<C extends { readonly area: Area }>(places: Places, candidates: Iterable<C>): C | undefined {
  for (const candidate of candidates) {
    if (!holds(places.within, candidate.area)) continue;
    if (places.taken.some((t) => overlaps(t, candidate.area))) continue;
    places.taken.push(candidate.area);
    return candidate;
  }
  return undefined;
}

/** One thing to place on a drawing: its marks where it found a place. */
export type InTurn = (places: Places) => readonly Mark[];
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
  let turns = things.map((_, i) => i);
  let best: { readonly marks: readonly (readonly Mark[])[]; readonly own: Places; readonly round: number } | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const own = placesIn(places.within, places.taken);
    const marks: (readonly Mark[])[] = [];
    for (const i of turns) {
      const before = own.forced;
      marks[i] = things[i]!(own);
      if (own.forced > before) late[i]!++;
    }
    if (!best || own.forced < best.own.forced) best = { marks, own, round };
    if (own.forced === 0 || round - best.round >= PATIENCE) break;
    const next = turns.toSorted((a, b) => late[b]! - late[a]!);
    if (next.every((i, k) => i === turns[k])) break;
    turns = next;
  }
  places.taken.splice(0, places.taken.length, ...best!.own.taken);
  places.forced += best!.own.forced;
  return best!.marks;
}

/**
 * The first free candidate whose leader, from what it tells of to its words, goes through nothing that is taken; where there is none, the
 * first free one. Takes it and its leader.
 */
export function takeLed<C extends { readonly area: Area; readonly leader: readonly [Point, Point] }>(
  places: Places,
  candidates: Iterable<C>,
): C | undefined {
  let found: C | undefined;
  // what lies on the very place that is told of is crossed from wherever one comes
  let there: C | undefined;
  // over another leader rather than over what is written
  let over: C | undefined;
  let free: C | undefined;
  for (const candidate of candidates) {
    if (!holds(places.within, candidate.area) || places.taken.some((t) => overlaps(t, candidate.area))) continue;
    const [from, to] = candidate.leader;
    free ??= candidate;
    const crossed = places.taken.filter((t) => crosses(from, to, t));
    if (crossed.length === 0) {
      found = candidate;
      break;
    }
    if (!there && crossed.every((t) => overlaps(t, area(from.x, from.y, 0, 0)))) there = candidate;
    if (!over && crossed.every(isDot)) over = candidate;
  }
  const taking = found ?? there ?? over ?? free;
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

/**
 * A numbered balloon with its leader: points at the target with a dot, stands where nothing else does and where the leader goes through
 * nothing that is written. What lies off the area is pointed at from its edge.
 */
export function balloon(places: Places, real: Point, number: number, tone: Tone = 'ink'): readonly Mark[] {
  const { within } = places;
  const target = {
    x: Math.max(within.x, Math.min(right(within), real.x)),
    y: Math.max(within.y, Math.min(below(within), real.y)),
  };
  const r = BALLOON + (number > 99 ? 0.9 : 0);
  // only what lies within reach of the rings can be in the way
  const reach = MORE.rings.at(-1)! + r + 1;
  const around = area(target.x - reach, target.y - reach, 2 * reach, 2 * reach);
  const near = places.taken.filter((t) => overlaps(t, around));
  const found = spotFor(within, near, target, r);
  if (!found?.clear) places.forced += found ? 1 : LOST;
  if (!found) return [];
  const { centre } = found;
  const ring = balloonAt(centre, number, tone);
  // its number too, which no other leader may cross on its way out of the ring
  places.taken.push(found.area, ...textsOf(ring).map(textArea), ...alongLeader(centre, target, r));
  const far = Math.hypot(target.x - centre.x, target.y - centre.y);
  const [dx, dy] = [(target.x - centre.x) / far, (target.y - centre.y) / far];
  return [
    line(centre.x + dx * r, centre.y + dy * r, target.x, target.y, 'thin', tone),
    { kind: 'circle', centre: target, radius: 0.6, fill: tone },
    ...ring,
  ];
}
/** Nothing lies there but dots, that of the thing itself among them. */
const isDotted = ({ taken }: Places, at: Point): boolean =>
  taken.every((t) => isDot(t) || !overlaps(t, area(at.x, at.y, 0, 0)));
/** A dot or a stretch of a leader: nothing is written there. */
const isDot = ({ width, height }: Area): boolean => Math.max(width, height) < 2;
/** What finds no place at all counts for so many that cross another. */
const LOST = 10;
interface Spot {
  readonly centre: Point;
  readonly area: Area;
}
const turned = (degrees: readonly number[]) =>
  degrees.map((each) => {
    const angle = (each * Math.PI) / 180;
    return [Math.cos(angle), Math.sin(angle)] as const;
  });
const FEW = { rings: RINGS, turns: turned(DIRECTIONS) };
const MANY = { rings: MORE.rings, turns: turned(MORE.turns) };
const spotAt = (target: Point, r: number, ring: number, [cos, sin]: readonly [number, number]): Spot => {
  const centre = point(target.x + ring * cos, target.y + ring * sin);
  return { centre, area: area(centre.x - r - 0.4, centre.y - r - 0.4, 2 * r + 0.8, 2 * r + 0.8) };
};
/** The first place where nothing else stands and nothing is crossed on the way; else what crosses only leaders; else the first free one; else the one that covers least. */
function spotFor(
  within: Area,
  near: readonly Area[],
  target: Point,
  r: number,
): (Spot & { readonly clear: boolean }) | undefined {
  // what lies on the target is crossed from wherever one comes
  const others = near.filter((t) => !overlaps(t, area(target.x, target.y, 0, 0)));
  let over: Spot | undefined;
  let free: Spot | undefined;
  let best: { readonly spot: Spot; readonly covers: number } | undefined;
  for (const { rings, turns } of [FEW, MANY])
    for (const ring of rings)
      for (const turn of turns) {
        const spot = spotAt(target, r, ring, turn);
        if (!holds(within, spot.area)) continue;
        if (!near.some((t) => overlaps(t, spot.area))) {
          const crossed = others.filter((t) => crosses(spot.centre, target, t));
          if (crossed.length === 0) return { ...spot, clear: true };
          if (!over && crossed.every(isDot)) over = spot;
          free ??= spot;
        }
        if (free) continue;
        const covers = cover(near, spot.area);
        if (!best || covers < best.covers) best = { spot, covers };
      }
  const found = over ?? free ?? best?.spot;
  return found && { ...found, clear: false };
}
/** Whether a straight line goes through an area: the stretch of it between the upright edges meets the one between the level edges. */
export function crosses(from: Point, to: Point, a: Area): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  // asked of every place on every line that is tried: nothing is made on the way
  if (dx === 0 && (from.x <= a.x || from.x >= right(a))) return false;
  if (dy === 0 && (from.y <= a.y || from.y >= below(a))) return false;
  let start = 0;
  let end = 1;
  if (dx !== 0) {
    const one = (a.x - from.x) / dx;
    const other = (right(a) - from.x) / dx;
    start = Math.max(start, Math.min(one, other));
    end = Math.min(end, Math.max(one, other));
  }
  if (dy !== 0) {
    const one = (a.y - from.y) / dy;
    const other = (below(a) - from.y) / dy;
    start = Math.max(start, Math.min(one, other));
    end = Math.min(end, Math.max(one, other));
  }
  return start < end;
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
const cover = (taken: readonly Area[], a: Area): number => taken.reduce((sum, t) => sum + overlapOf(t, a), 0);

/** A balloon by itself, as it stands beside the text of its note. */
export function balloonAt(centre: Point, number: number, tone: Tone = 'ink'): readonly Mark[] {
  const radius = BALLOON + (number > 99 ? 0.9 : 0);
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
