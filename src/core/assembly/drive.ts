import { fastenerCount } from '../casework/index.ts';
import { fromTicks, type Mm, mm, toTicks } from '../quantity/index.ts';
import type { Direction, Joint, Part, PartId } from '../scene/index.ts';
import { AXIS, type Body, type Cell, cellOf, DIRECTIONS, high, isLetIn, low, overlaps, type Way } from './solids.ts';

/**
 * Room a tool needs, in mm. Common practice: a driver with its bit and a hand behind it, or a nailer, is about 250 long; what turns
 * or slides at the work is about 40 across; a pocket screw or an angled brad wants a hand's breadth over the face.
 */
export const TOOL = { reach: mm(250), across: mm(40), over: mm(60) } as const;

/** Brads and screws split the edge of a panel thinner than this. Common practice. */
const THIN_EDGE: Mm = mm(10);
/** By how much of their spacing a row of fasteners may be moved along, to pass what stands in the way. */
const SHIFTS = [0, 0.3, -0.3] as const;

export interface Fasten {
  readonly joint: string;
  readonly kind: 'screws' | 'brads';
  readonly count: number;
  /** The part they go through first, and the one they hold in. */
  readonly through: PartId;
  readonly into: PartId;
  /** The side the tool comes from. */
  readonly from: Direction;
  /** Straight through a face into the part behind it, or slanting: screws in pockets, brads at an angle. */
  readonly manner: 'straight' | 'pocket' | 'angled';
  /** Where the tool is, one box for each fastener, in ticks. */
  readonly room: readonly Cell[];
}

/** One way to drive a joint's fasteners, and what may stand in its way. */
export interface Drive extends Fasten {
  /** Bodies by index. */
  readonly blockers: readonly number[];
}

/** All the ways to drive the screws or brads of a joint, best first; none when the joint has none. */
export function drivesOf(
  joint: Joint,
  parts: ReadonlyMap<PartId, Part>,
  bodies: readonly Body[],
  tool: typeof TOOL,
): readonly Drive[] {
  const kind = joint.fasten.find((f) => f === 'screws' || f === 'brads');
  const [a, b] = [parts.get(joint.a), parts.get(joint.b)];
  if (!kind || !a || !b) return [];
  const contact = cellOf(joint.contact);
  const flat = [0, 1, 2].find((axis) => low(contact, axis) === high(contact, axis));
  const normal = flat ?? AXIS[b.axes.thickness];
  const drives: Drive[] = [];
  const add = (through: Part, into: Part, axis: number, manner: Fasten['manner'], face?: number) => {
    // nothing is driven into the edge of a thin panel
    if (AXIS[into.axes.thickness] !== axis && into.size.thickness < THIN_EDGE) return;
    for (const shift of SHIFTS) addAt(through, into, axis, manner, face, shift);
  };
  const addAt = (
    through: Part,
    into: Part,
    axis: number,
    manner: Fasten['manner'],
    face: number | undefined,
    shift: number,
  ) => {
    const away = centre(cellOf(into.solid.box), axis) >= centre(cellOf(through.solid.box), axis) ? 1 : 0;
    const from = (manner === 'straight' ? axis * 2 + away : face!) as Way;
    const { count, at } = points(contact, axis, kind, shift);
    if (shift !== 0 && count < 4) return;
    const room = at.map((p) =>
      manner === 'straight' ? straight(p, through, from, tool) : slanting(p, through, contact, axis, away, from, tool),
    );
    const blockers = bodies.flatMap((body, i) =>
      body.cells.some((cell, k) => body.owners[k] !== through.id && room.some((r) => overlaps(r, cell))) ? [i] : [],
    );
    drives.push({
      joint: joint.id,
      kind,
      count,
      through: through.id,
      into: into.id,
      from: DIRECTIONS[from]!,
      manner,
      room,
      blockers,
    });
  };
  // what is screwed onto the face of another is held from behind, where no screw shows (common practice)
  const pairs: readonly (readonly [Part, Part])[] =
    joint.kind === 'applied' && kind === 'screws'
      ? [
          [b, a],
          [a, b],
        ]
      : [
          [a, b],
          [b, a],
        ];
  // a thinner panel in a rabbet is fastened through itself, everything else through the face it comes up to
  const flatIn = isLetIn(joint) && AXIS[a.axes.thickness] !== normal;
  const thinner = a.size.thickness < b.size.thickness;
  if (flatIn && thinner) add(a, b, AXIS[a.axes.thickness], 'straight');
  for (const [through, into] of pairs)
    if (AXIS[through.axes.thickness] === normal) add(through, into, normal, 'straight');
  if (flatIn && !thinner) add(a, b, AXIS[a.axes.thickness], 'straight');
  for (const [through, into] of pairs) {
    const axis = AXIS[through.axes.thickness];
    if (axis === normal) continue;
    for (const face of [axis * 2 + 1, axis * 2])
      add(through, into, normal, kind === 'screws' ? 'pocket' : 'angled', face);
  }
  return drives;
}

const centre = (c: Cell, axis: number): number => (low(c, axis) + high(c, axis)) / 2;

/** Fasteners along the longer side of the contact, half a spacing from its ends. */
function points(contact: Cell, normal: number, kind: 'screws' | 'brads', shift: number) {
  const [u, v] = [0, 1, 2].filter((axis) => axis !== normal) as [number, number];
  const size = (axis: number) => high(contact, axis) - low(contact, axis);
  const along = size(u) >= size(v) ? u : v;
  const count = fastenerCount(fromTicks(size(along)), kind);
  const at = Array.from({ length: count }, (_, i) => {
    const p = [centre(contact, 0), centre(contact, 1), centre(contact, 2)];
    p[along] = low(contact, along) + (size(along) * (i + 0.5 + shift)) / count;
    return p as [number, number, number];
  });
  return { count, at };
}

function around(p: readonly number[], half: number): number[] {
  return [p[0]! - half, p[0]! + half, p[1]! - half, p[1]! + half, p[2]! - half, p[2]! + half];
}
function straight(p: readonly number[], through: Part, from: Way, tool: typeof TOOL): Cell {
  const cell = around(p, toTicks(tool.across) / 2);
  const own = cellOf(through.solid.box);
  const axis = from >> 1;
  const long = toTicks(tool.reach);
  [cell[axis * 2], cell[axis * 2 + 1]] =
    from % 2 === 0 ? [high(own, axis), high(own, axis) + long] : [low(own, axis) - long, low(own, axis)];
  return cell as unknown as Cell;
}
/** Over a face of the part, from the contact backwards: the tool lies nearly along the part. */
function slanting(
  p: readonly number[],
  through: Part,
  contact: Cell,
  normal: number,
  away: number,
  from: Way,
  tool: typeof TOOL,
): Cell {
  const cell = around(p, toTicks(tool.across) / 2);
  const own = cellOf(through.solid.box);
  const [axis, over, long] = [from >> 1, toTicks(tool.over), toTicks(tool.reach)];
  [cell[axis * 2], cell[axis * 2 + 1]] =
    from % 2 === 0 ? [high(own, axis), high(own, axis) + over] : [low(own, axis) - over, low(own, axis)];
  // `away` 1: the other part lies further along the normal, so the tool comes from the nearer side
  [cell[normal * 2], cell[normal * 2 + 1]] =
    away === 1
      ? [low(contact, normal) - long, low(contact, normal)]
      : [high(contact, normal), high(contact, normal) + long];
  return cell as unknown as Cell;
}
