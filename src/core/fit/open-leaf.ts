import type { Axis } from '../geometry/index.ts';
import type { Note } from '../notes/index.ts';
import type { Part, PlacedPiece } from '../scene/index.ts';
import { lengthWorking, named, type Show, TOUCH } from './said.ts';

/** A leaf within its opening and the edge it hangs at. */
interface Leaf {
  readonly door: Part;
  readonly axis: Axis;
  readonly end: 'min' | 'max';
}

/**
 * A leaf within its opening that turns about the corner of its face stands, at a right angle, as far into the opening as it is thick: a
 * drawer behind it that is wider than what is left meets it on its way out. A leaf over the edges stands beside the opening.
 */
export function leafNotes(piece: PlacedPiece, show: Show): readonly Note[] {
  const fronts = piece.parts.filter((part) => part.role === 'drawer front');
  if (fronts.length === 0) return [];
  return insetLeaves(piece).flatMap((leaf): readonly Note[] => {
    const { door, axis } = leaf;
    const thick = door.solid.box.max.z - door.solid.box.min.z;
    const met = fronts
      .filter((front) => isBehind(front, door))
      .map((front) => ({ front, gap: edgeGap(front, leaf) }))
      .filter(({ gap }) => thick - gap > TOUCH);
    if (met.length === 0) return [];
    const gap = Math.min(...met.map((one) => one.gap));
    const deepest = thick - gap;
    return [
      {
        id: `leaf-in-way:${door.id}`,
        about: piece.id,
        verdict: 'caution',
        title: `${named(piece)}: ${door.label.name}, open at a right angle, stands before ${met.length === 1 ? met[0]!.front.label.name.replace(/^front of /, '') : `${met.length} drawers`} by ${show(deepest)}`,
        advice: `Hang it on hinges that carry the leaf out of its opening, or give the drawers a bay of their own that keeps ${show(deepest)} clear of it by an upright or a narrower ${axis === 'y' ? 'row' : 'column'}. Reckoned as turning about the corner of its face: the drawing of the hinge decides.`,
        working: lengthWorking(
          'Open leaf before a drawer',
          'e = t − c',
          [
            ['t', 'thickness of the leaf, which turns about the corner of its face', thick],
            ['c', 'edge of the leaf to the edge of the drawer front behind it, at its hinges', gap],
          ],
          deepest,
          { value: 0, why: 'a drawer that passes the open leaf' },
        ),
      },
    ];
  });
}

/** Doors that lie within the bay they close, by the side of what they hang from. */
function insetLeaves({ parts, joints, bays }: PlacedPiece): readonly Leaf[] {
  const byId = new Map(parts.map((part) => [part.id, part]));
  return joints.flatMap(({ kind, a, b }): readonly Leaf[] => {
    const [door, post] = [byId.get(a), byId.get(b)];
    if (kind !== 'hung' || door?.role !== 'door' || !post) return [];
    const own = door.solid.box;
    const inset = bays.some(
      ({ kind: of, clear }) =>
        of === 'door' &&
        own.min.x > clear.min.x - TOUCH &&
        own.max.x < clear.max.x + TOUCH &&
        own.min.y > clear.min.y - TOUCH &&
        own.max.y < clear.max.y + TOUCH,
    );
    if (!inset) return [];
    const { min, max } = post.solid.box;
    // a leaf hangs from what stands beside it, or lies over or under it
    if (max.x <= own.min.x + TOUCH) return [{ door, axis: 'x', end: 'min' }];
    if (min.x >= own.max.x - TOUCH) return [{ door, axis: 'x', end: 'max' }];
    return [{ door, axis: 'y', end: min.y >= own.max.y - TOUCH ? 'max' : 'min' }];
  });
}

const isBehind = (front: Part, door: Part): boolean => {
  const [f, d] = [front.solid.box, door.solid.box];
  return f.max.z < d.min.z + TOUCH && f.min.x < d.max.x && f.max.x > d.min.x && f.min.y < d.max.y && f.max.y > d.min.y;
};

/** From the hinged edge of a leaf to the edge of a front on that side, mm; less than nothing where the front reaches past it. */
const edgeGap = ({ solid: { box } }: Part, { door, axis, end }: Leaf): number =>
  end === 'min' ? box.min[axis] - door.solid.box.min[axis] : door.solid.box.max[axis] - box.max[axis];
