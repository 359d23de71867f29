import { type Box, intersect, isEmpty, vec } from '../../geometry/index.ts';
import type { Part } from '../../scene/index.ts';
import { highest, lowest, SAME, seenBy } from '../fixing/carried.ts';
import { type Subject, titleOf } from '../plan-input.ts';
import { type Span, shelfSpans } from '../plan-shelves.ts';

/** Something of which all or a part stands on a surface. */
interface Stood {
  readonly name: string;
  /** kg of it that rest here; undefined where the plan does not say what it weighs. */
  readonly mass: number | undefined;
}

/** What can be stood on: the top of a floating shelf or of a thing, a board of a case, one clear run of a shelf. */
export interface Surface {
  readonly owner: Subject;
  /** In the owner's frame. */
  readonly box: Box;
  /** Above the floor, mm: where it bears, and the lowest that something sunk into its board may begin and still be on it. */
  readonly top: number;
  readonly from: number;
  readonly shelf?: Span;
  readonly stood: Stood[];
}

/** Whether any of it lies over a piece, from the floor of that up. */
export function isOver(one: Subject, { placed }: Subject): boolean {
  if (one.placed === placed || lowest(one.placed) < lowest(placed)) return false;
  return areaOver(seenBy(placed, one.placed), placed.outside) > 0;
}

const flat = ({ min, max }: Box): Box => ({ min: vec(min.x, 0, min.z), max: vec(max.x, 1, max.z) });

function areaOver(outline: Box, box: Box): number {
  const shared = intersect(outline, flat(box));
  return isEmpty(shared) ? 0 : (shared.max.x - shared.min.x) * (shared.max.z - shared.min.z);
}

export function surfacesOf(owner: Subject): readonly Surface[] {
  const { placed, said } = owner;
  const surface = (box: Box, shelf?: Span): Surface => ({
    owner,
    box,
    top: placed.frame.origin.y + box.max.y,
    from: placed.frame.origin.y + ('thing' in said ? box.max.y : box.min.y),
    ...(shelf && { shelf }),
    stood: [],
  });
  if ('shelf' in said || 'thing' in said) return [surface(placed.outside)];
  if (!('case' in said)) return [];
  const shelves = shelfSpans(placed);
  const isShelf = new Set<Part>(shelves.map(({ part }) => part));
  return [
    ...placed.parts
      .filter((part) => part.axes.thickness === 'y' && !isShelf.has(part))
      .map(({ solid }) => surface(solid.box)),
    ...shelves.flatMap((shelf) => {
      const { min, max } = shelf.part.solid.box;
      return shelf.runs.map(({ from, to }) =>
        surface({ min: vec(from, min.y, min.z), max: vec(to, max.y, max.z) }, shelf),
      );
    }),
  ];
}

/**
 * Puts something on the highest of what is under it, which it touches, or which the case that it stands in leaves it to come down on. What it
 * would fall on, where it stands on nothing.
 */
export function putDown({ placed, said }: Subject, surfaces: readonly Surface[]): Surface | 'floor' | undefined {
  const bottom = lowest(placed);
  const under = surfaces.flatMap((surface) => {
    const { owner, box, top, from } = surface;
    if (owner.placed === placed || from > bottom + SAME) return [];
    const area = areaOver(seenBy(owner.placed, placed), box);
    return area > 0 ? [{ surface, top, area }] : [];
  });
  const top = Math.max(...under.map((u) => u.top));
  const bearing = under.filter((u) => u.top >= top - SAME);
  if (!bearing.some(({ surface: { owner } }) => bottom <= top + SAME || bottom < highest(owner.placed)))
    return bearing[0]?.surface ?? 'floor';
  // what stands on it comes down with it
  const carried = surfaces.find(({ owner }) => owner.placed === placed)?.stood ?? [];
  const all = bearing.reduce((sum, { area }) => sum + area, 0);
  const own: Stood = { name: titleOf(placed), mass: 'thing' in said || placed.mass ? placed.mass : 0 };
  for (const { surface, area } of bearing)
    surface.stood.push(
      ...[own, ...carried].map(({ name, mass }) => ({ name, mass: mass === undefined ? mass : (mass * area) / all })),
    );
  return undefined;
}
