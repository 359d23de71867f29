import type { Bay } from '../plan/index.ts';
import { fromTicks } from '../quantity/index.ts';
import { hingeCount, stayCount } from './defaults.ts';
import { halves, type Ticks } from './divide.ts';
import { addPart, cuboid, type DraftPart, join, long, type Span } from './draft.ts';
import { type Job, partOf, type Space } from './space.ts';

/** Behind another door every front is inset: there is no edge left to lie on. */
export const styleOf = ({ habits }: Job, bay: Bay, space: Space): 'inset' | 'overlay' =>
  space.behind ? 'inset' : (bay.style ?? habits.style);

/**
 * Where the fronts of a bay lie: within the opening by the gap, or over its edges. Undefined, with an issue, when inset fronts
 * would reach into the back.
 */
export function frontArea(
  job: Job,
  space: Space,
  style: 'inset' | 'overlay',
): { readonly x: Span; readonly y: Span; readonly z: Span } | undefined {
  const { habits, draft } = job;
  const t = habits.front.thickness;
  const { open, cover, face } = space;
  const inward = { left: -habits.gap, right: -habits.gap, top: -habits.gap, bottom: -habits.gap };
  const by = style === 'overlay' ? cover : inward;
  const z: Span = style === 'overlay' ? [face, face + t] : [face - t, face];
  if (style === 'inset' && z[0] - habits.gap <= space.z[0]) {
    draft.issues.push({
      path: space.path,
      message: 'there is no depth for an inset front and anything behind it',
      found: draft.notMore(Math.max(0, face - space.z[0])),
      expected: `more than the front and the gap behind it, ${draft.notLess(t + habits.gap)}`,
    });
    return undefined;
  }
  return { x: [open.x[0] - by.left, open.x[1] + by.right], y: [open.y[0] - by.bottom, open.y[1] + by.top], z };
}

export const frontBand = ({ habits }: Job) =>
  habits.band && { ...habits.band, towards: ['left', 'right', 'up', 'down'] as const };

/** Hangs the door or the pair of a bay and returns what is left of the space behind it. */
export function hangDoors(job: Job, bay: Bay, space: Space): Space {
  const { draft, habits, oddAtEnd } = job;
  const style = styleOf(job, bay, space);
  const area = frontArea(job, space, style);
  if (!area) return space;
  const hinge = bay.door!;
  const leaf = (what: string, x: Span, side: 'left' | 'right' | 'top' | 'bottom') => {
    const door = addPart(draft, {
      ...partOf(space, what),
      role: 'door',
      material: habits.front,
      box: cuboid(x, area.y, area.z),
      length: 'y',
      thickness: 'z',
      band: frontBand(job),
      path: [...space.path, 'door'],
    });
    if (!door) return;
    const edge = side === 'left' || side === 'right' ? long(area.y) : long(x);
    join(draft, 'hung', door, space.members[side], ['hinges']);
    draft.fittings.push({
      id: `${door.id}/hinges`,
      piece: draft.piece,
      use: 'hinge',
      name: `${style} hinges of ${door.name}`,
      count: hingeCount(fromTicks(edge)),
    });
    if (side === 'top' || side === 'bottom')
      draft.fittings.push({
        id: `${door.id}/stays`,
        piece: draft.piece,
        use: 'flap stay',
        name: `flap stays of ${door.name}`,
        count: stayCount(fromTicks(edge)),
      });
    draft.needs.push({ what: `swing of ${door.name}`, box: swing(door, side), part: door.id });
  };
  if (hinge === 'pair') {
    const [left, right] = halves(long(area.x) - habits.gap, oddAtEnd);
    leaf('left-door', [area.x[0], area.x[0] + left], 'left');
    leaf('right-door', [area.x[1] - right, area.x[1]], 'right');
  } else {
    leaf('door', area.x, ({ left: 'left', right: 'right', up: 'top', down: 'bottom' } as const)[hinge]);
  }
  const limit = style === 'inset' ? Math.min(space.z[1], area.z[0] - habits.gap) : space.z[1];
  return { ...space, z: [space.z[0], limit], face: limit, behind: true, members: space.panels };
}

/** The box a leaf sweeps through before the face it lies in, turned by a quarter about its hinged edge. */
function swing(door: DraftPart, side: 'left' | 'right' | 'top' | 'bottom') {
  const { min, max } = door.box;
  const reach: Ticks = side === 'left' || side === 'right' ? max.x - min.x : max.y - min.y;
  return cuboid([min.x, max.x], [min.y, max.y], [max.z, max.z + reach]);
}
