import { type Area, area, below, holds, LETTER, line, overlaps, point, right, text } from '../draw.ts';
import type { Mark, Point, Tone } from '../marks.ts';

/** Keeps account of which places of a drawing are taken, and finds free ones. Mutable, and lives no longer than one page. */
export interface Places {
  readonly within: Area;
  readonly taken: Area[];
}
export const placesIn = (within: Area, taken: readonly Area[] = []): Places => ({ within, taken: [...taken] });

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

export const BALLOON = 3.1;
/** Rings round the target on which a balloon may stand, nearest first, then the directions, up and right first. */
const RINGS = [7, 10, 14, 19, 25, 32, 40, 50];
const DIRECTIONS = [-45, -135, 45, 135, -90, 0, 90, 180, -22, -67, -112, -157, 22, 67, 112, 157];

/** A numbered balloon with its leader: points at the target with a dot, stands where nothing else does. What lies off the area is pointed at from its edge. */
export function balloon(places: Places, real: Point, number: number, tone: Tone = 'ink'): readonly Mark[] {
  const { within } = places;
  const target = {
    x: Math.max(within.x, Math.min(right(within), real.x)),
    y: Math.max(within.y, Math.min(below(within), real.y)),
  };
  const r = BALLOON + (number > 99 ? 0.9 : 0);
  // only what lies within reach of the rings can be in the way
  const reach = RINGS.at(-1)! + r + 1;
  const around = area(target.x - reach, target.y - reach, 2 * reach, 2 * reach);
  const near = places.taken.filter((t) => overlaps(t, around));
  const found = spotFor(within, near, target, r);
  if (!found) return [];
  places.taken.push(found.area);
  const { centre } = found;
  const far = Math.hypot(target.x - centre.x, target.y - centre.y);
  const [dx, dy] = [(target.x - centre.x) / far, (target.y - centre.y) / far];
  return [
    line(centre.x + dx * r, centre.y + dy * r, target.x, target.y, 'thin', tone),
    { kind: 'circle', centre: target, radius: 0.6, fill: tone },
    ...balloonAt(centre, number, tone),
  ];
}
interface Spot {
  readonly centre: Point;
  readonly area: Area;
}
const TURNS = DIRECTIONS.map((degrees) => {
  const angle = (degrees * Math.PI) / 180;
  return [Math.cos(angle), Math.sin(angle)] as const;
});
const spotAt = (target: Point, r: number, ring: number, [cos, sin]: (typeof TURNS)[number]): Spot => {
  const centre = point(target.x + ring * cos, target.y + ring * sin);
  return { centre, area: area(centre.x - r - 0.4, centre.y - r - 0.4, 2 * r + 0.8, 2 * r + 0.8) };
};
/** The first place where nothing else stands; where there is none, the one that covers least of what is there. */
function spotFor(within: Area, near: readonly Area[], target: Point, r: number): Spot | undefined {
  let best: { readonly spot: Spot; readonly covers: number } | undefined;
  for (const ring of RINGS)
    for (const turn of TURNS) {
      const spot = spotAt(target, r, ring, turn);
      if (!holds(within, spot.area)) continue;
      if (!near.some((t) => overlaps(t, spot.area))) return spot;
      const covers = cover(near, spot.area);
      if (!best || covers < best.covers) best = { spot, covers };
    }
  return best?.spot;
}
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
