import { type Box, intersect, isEmpty, vec } from '../../geometry/index.ts';
import type { Part, PlacedPiece } from '../../scene/index.ts';
import { highest, lowest, SAME, seenBy } from '../fixing/carried.ts';
import { type Subject, titleOf } from '../plan-input.ts';
import { type Span, shelfSpans } from '../plan-shelves.ts';

/** Something of which all or a part stands on a surface. */
interface Stood {
  readonly name: string;
  /** kg of it that rest here; undefined where the plan does not say what it weighs. */
  readonly mass: number | undefined;
  /** Where along the surface it rests, in the owner's frame, mm. */
  readonly from: number;
  readonly to: number;
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
  /** Of the top of a case: one clear run of it between what stands under it. */
  readonly lid?: Lid;
  readonly stood: Stood[];
}

/** One clear run of the top of a case: the boards that bend together there, the uppermost first. */
export interface Lid {
  readonly boards: readonly Part[];
  /** Of several, which from the left. */
  readonly number?: number;
  readonly run: { readonly from: number; readonly to: number };
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

/**
 * The top of a case by its clear runs, between the sides and the uprights that reach up to it; each with its share of the surface, to the
 * middle of what stands under it. A separate top lies on the top of the case, and the two bend together.
 */
function lidsOf({ parts }: PlacedPiece): readonly { readonly lid: Lid; readonly box: Box }[] {
  const top = parts.find((p) => p.role === 'top');
  if (!top) return [];
  const separate = parts.find((p) => p.role === 'separate top');
  const boards = separate ? [separate, top] : [top];
  const { min, max } = boards[0]!.solid.box;
  const under = parts
    .filter(({ role }) => role === 'side' || role === 'upright')
    .map(({ solid: { box } }) => box)
    // a side that stands beside the top holds its end as well
    .filter((box) => box.max.y >= top.solid.box.min.y - 1 && box.min.y < top.solid.box.min.y - 1)
    .sort((a, b) => a.min.x - b.min.x);
  return under.slice(1).map((right, i) => {
    const left = under[i]!;
    const from = i === 0 ? min.x : (left.min.x + left.max.x) / 2;
    const to = i === under.length - 2 ? max.x : (right.min.x + right.max.x) / 2;
    return {
      lid: { boards, ...(under.length > 2 && { number: i + 1 }), run: { from: left.max.x, to: right.min.x } },
      box: { min: vec(from, min.y, min.z), max: vec(to, max.y, max.z) },
    };
  });
}

export function surfacesOf(owner: Subject): readonly Surface[] {
  const { placed, said } = owner;
  const surface = (box: Box, on: Pick<Surface, 'shelf' | 'lid'> = {}): Surface => ({
    owner,
    box,
    top: placed.frame.origin.y + box.max.y,
    from: placed.frame.origin.y + ('thing' in said ? box.max.y : box.min.y),
    ...on,
    stood: [],
  });
  if ('shelf' in said || 'thing' in said) return [surface(placed.outside)];
  if (!('case' in said)) return [];
  const shelves = shelfSpans(placed);
  const lids = lidsOf(placed);
  const told = new Set<Part>([...shelves.map(({ part }) => part), ...lids.flatMap(({ lid }) => lid.boards[0] ?? [])]);
  return [
    ...placed.parts
      .filter((part) => part.axes.thickness === 'y' && !told.has(part))
      .map(({ solid }) => surface(solid.box)),
    ...lids.map(({ box, lid }) => surface(box, { lid })),
    ...shelves.flatMap((shelf) => {
      const { min, max } = shelf.part.solid.box;
      return shelf.runs.map(({ from, to }) =>
        surface({ min: vec(from, min.y, min.z), max: vec(to, max.y, max.z) }, { shelf }),
      );
    }),
  ];
}

/**
 * Puts something on the highest of what is under it, which it touches, or which the case that it stands in leaves it to come down on. All that it
 * stands on then; or, where it stands on nothing, what it would fall on.
 */
export function putDown(
  { placed, said }: Subject,
  surfaces: readonly Surface[],
): { readonly on: readonly Surface[] } | { readonly over: Surface | 'floor' } {
  const bottom = lowest(placed);
  const under = surfaces.flatMap((surface) => {
    const { owner, box, top, from } = surface;
    if (owner.placed === placed || from > bottom + SAME) return [];
    const outline = seenBy(owner.placed, placed);
    const area = areaOver(outline, box);
    const rests = { from: Math.max(box.min.x, outline.min.x), to: Math.min(box.max.x, outline.max.x) };
    return area > 0 ? [{ surface, top, area, rests }] : [];
  });
  const top = Math.max(...under.map((u) => u.top));
  const bearing = under.filter((u) => u.top >= top - SAME);
  if (!bearing.some(({ surface: { owner } }) => bottom <= top + SAME || bottom < highest(owner.placed)))
    return { over: bearing[0]?.surface ?? 'floor' };
  // what stands on it comes down with it
  const carried = surfaces.find(({ owner }) => owner.placed === placed)?.stood ?? [];
  const all = bearing.reduce((sum, { area }) => sum + area, 0);
  const own = { name: titleOf(placed), mass: 'thing' in said || placed.mass ? placed.mass : 0 };
  for (const { surface, area, rests } of bearing)
    surface.stood.push(
      ...[own, ...carried].map(({ name, mass }) => ({
        name,
        mass: mass === undefined ? mass : (mass * area) / all,
        ...rests,
      })),
    );
  return { on: bearing.map(({ surface }) => surface) };
}
