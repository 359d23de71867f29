import { TICKS_PER_MM } from '../quantity/index.ts';
import type { BayOpening, Part, PlacedPiece } from '../scene/index.ts';

/**
 * The judge of what casework builds: it sees the solids alone, in whole ticks, and shares no code with the builder nor with the
 * box algebra of core/geometry. Each law returns what breaks it.
 */
type Axis = 'x' | 'y' | 'z';
const AXES: readonly Axis[] = ['x', 'y', 'z'];
type Range = readonly [number, number];
export type Cells = Readonly<Record<Axis, Range>>;
type AnyBox = Part['solid']['box'];

/** A length that is no whole number of ticks is a fault in itself: nothing here is rounded to hide it. */
function ticks(length: number): number {
  const whole = Math.round(length * TICKS_PER_MM);
  if (Math.abs(length * TICKS_PER_MM - whole) > 1e-6) throw new Error(`${length} mm is not a whole number of ticks`);
  return whole;
}
export const cells = (b: AnyBox): Cells => ({
  x: [ticks(b.min.x), ticks(b.max.x)],
  y: [ticks(b.min.y), ticks(b.max.y)],
  z: [ticks(b.min.z), ticks(b.max.z)],
});
const common = (a: Cells, b: Cells): Cells => ({
  x: [Math.max(a.x[0], b.x[0]), Math.min(a.x[1], b.x[1])],
  y: [Math.max(a.y[0], b.y[0]), Math.min(a.y[1], b.y[1])],
  z: [Math.max(a.z[0], b.z[0]), Math.min(a.z[1], b.z[1])],
});
const solid = (c: Cells) => AXES.every((axis) => c[axis][1] > c[axis][0]);
const within = (c: Cells, of: Cells) => AXES.every((axis) => c[axis][0] >= of[axis][0] && c[axis][1] <= of[axis][1]);

/** Cubic ticks go beyond what a double holds exactly. */
const volume = (c: Cells): bigint => AXES.reduce((product, axis) => product * BigInt(c[axis][1] - c[axis][0]), 1n);

/** Volume of `b` that none of `others` covers, by compressing coordinates: a grid of all the planes, each cell asked at its middle. */
export function uncovered(b: Cells, others: readonly Cells[]): bigint {
  const near = others.map((o) => common(b, o)).filter(solid);
  const planes = (axis: Axis) => [...new Set([...b[axis], ...near.flatMap((o) => o[axis])])].sort((p, q) => p - q);
  const [xs, ys, zs] = [planes('x'), planes('y'), planes('z')];
  const covers = (o: Cells, x: number, y: number, z: number) =>
    o.x[0] < x && x < o.x[1] && o.y[0] < y && y < o.y[1] && o.z[0] < z && z < o.z[1];
  let sum = 0n;
  for (let i = 1; i < xs.length; i++) {
    for (let j = 1; j < ys.length; j++) {
      for (let k = 1; k < zs.length; k++) {
        const [x, y, z] = [(xs[i - 1]! + xs[i]!) / 2, (ys[j - 1]! + ys[j]!) / 2, (zs[k - 1]! + zs[k]!) / 2];
        if (near.some((o) => covers(o, x, y, z))) continue;
        sum += volume({ x: [xs[i - 1]!, xs[i]!], y: [ys[j - 1]!, ys[j]!], z: [zs[k - 1]!, zs[k]!] });
      }
    }
  }
  return sum;
}

/** No two parts are in the same place, once what the joints take out is out. */
export function overlaps(placed: PlacedPiece): string[] {
  const parts = placed.parts.map((part) => ({
    id: part.id,
    cells: cells(part.solid.box),
    taken: part.solid.taken.map((m) => cells(m.box)),
  }));
  const faults: string[] = [];
  parts.forEach((a, i) => {
    for (const b of parts.slice(i + 1)) {
      const shared = common(a.cells, b.cells);
      if (solid(shared) && uncovered(shared, [...a.taken, ...b.taken]) > 0n) faults.push(`${a.id} and ${b.id} overlap`);
    }
  });
  return faults;
}

/** Every part lies in the outside; together they reach all six faces of what was asked. */
export function outsideFaults(placed: PlacedPiece): string[] {
  const outside = cells(placed.outside);
  const faults = placed.parts
    .filter((part) => !within(cells(part.solid.box), outside))
    .map((part) => `${part.id} sticks out`);
  for (const axis of AXES) {
    const ranges = placed.parts.map((part) => cells(part.solid.box)[axis]);
    if (Math.min(...ranges.map((r) => r[0])) !== outside[axis][0]) faults.push(`nothing reaches the least ${axis}`);
    if (Math.max(...ranges.map((r) => r[1])) !== outside[axis][1]) faults.push(`nothing reaches the greatest ${axis}`);
  }
  return faults;
}

/** Nothing stands in a bay's clear opening but what belongs to that bay or to a bay within it. */
export function openingFaults(placed: PlacedPiece): string[] {
  const faults: string[] = [];
  for (const bay of placed.bays) {
    const clear = cells(bay.clear);
    if (!solid(clear)) faults.push(`${bay.id} has no opening`);
    const whole = bay.id === `${placed.id}/inside`;
    for (const part of placed.parts) {
      const own = part.id.startsWith(`${bay.id}/`) || part.id.startsWith(`${bay.id}-`);
      if (!own && !(whole && INNER.has(part.role)) && solid(common(clear, cells(part.solid.box))))
        faults.push(`${part.id} stands in ${bay.id}`);
    }
  }
  return faults;
}
const INNER = new Set([
  'upright',
  'fixed shelf',
  'adjustable shelf',
  'stile',
  'rail',
  'door',
  'drawer front',
  'drawer side',
  'drawer box front',
  'drawer box back',
  'drawer bottom',
]);

/** Joints name parts that exist and face each other; their contact lies on both; together they hold every part. */
export function jointFaults(placed: PlacedPiece): string[] {
  const faults: string[] = [];
  const byId = new Map(placed.parts.map((part) => [part.id, part]));
  const touches = (contact: Cells, box: Cells, gap: boolean) =>
    AXES.every((axis) => contact[axis][0] <= box[axis][1] && contact[axis][1] >= box[axis][0]) &&
    (gap || within(contact, box));
  const root = new Map<string, string>();
  const find = (id: string): string => {
    const up = root.get(id) ?? id;
    return up === id ? id : find(up);
  };
  for (const joint of placed.joints) {
    const [a, b] = [byId.get(joint.a), byId.get(joint.b)];
    if (!a || !b || a === b) {
      faults.push(`${joint.id} joins what is not there`);
      continue;
    }
    const contact = cells(joint.contact);
    const [ca, cb] = [cells(a.solid.box), cells(b.solid.box)];
    const hardware = joint.kind === 'hung' || joint.kind === 'slid' || joint.kind === 'pinned';
    if (!touches(contact, ca, hardware) || !touches(contact, cb, hardware))
      faults.push(`${joint.id}: its contact is not on both`);
    const flat = AXES.filter((axis) => contact[axis][0] === contact[axis][1]).length;
    if (flat > 1) faults.push(`${joint.id}: only an edge is in contact`);
    const inLet = joint.kind === 'rabbet' || joint.kind === 'dado' || joint.kind === 'groove';
    if (inLet !== (flat === 0) && !hardware)
      faults.push(`${joint.id}: a ${joint.kind} with ${flat === 0 ? 'depth' : 'no depth'}`);
    if (inLet) {
      const machined = b.solid.taken.some(
        (m) =>
          m.kind === joint.kind &&
          AXES.every(
            (axis) => cells(m.box)[axis][0] === contact[axis][0] && cells(m.box)[axis][1] === contact[axis][1],
          ),
      );
      if (!machined) faults.push(`${joint.id}: nothing is taken out of ${b.id}`);
      if (
        uncovered(
          contact,
          a.solid.taken.map((m) => cells(m.box)),
        ) <= 0n
      )
        faults.push(`${joint.id}: nothing of ${a.id} is left in it`);
    }
    root.set(find(joint.a), find(joint.b));
  }
  const ids = placed.joints.map((joint) => joint.id);
  if (new Set(ids).size !== ids.length)
    faults.push(`two joints of one id: ${ids.filter((id, i) => ids.indexOf(id) !== i).join(', ')}`);
  const first = placed.parts[0];
  for (const part of placed.parts)
    if (first && find(part.id) !== find(first.id)) faults.push(`${part.id} is joined to nothing that holds`);
  return faults;
}

/** Sizes, cut sizes, bands, thickness of stock, names: each part agrees with its own solid and with the stock. */
export function partFaults(placed: PlacedPiece, thicknessOf: ReadonlyMap<string, number>): string[] {
  const faults: string[] = [];
  for (const part of placed.parts) {
    const box = cells(part.solid.box);
    const along = (axis: Axis) => box[axis][1] - box[axis][0];
    const { length, width, thickness } = part.axes;
    if (new Set([length, width, thickness]).size !== 3) faults.push(`${part.id}: two of its sizes lie along one axis`);
    if (
      along(length) !== ticks(part.size.length) ||
      along(width) !== ticks(part.size.width) ||
      along(thickness) !== ticks(part.size.thickness)
    )
      faults.push(`${part.id}: its size is not its solid's`);
    const stock = thicknessOf.get(part.stock);
    if (stock === undefined || ticks(stock) !== along(thickness))
      faults.push(`${part.id}: ${part.size.thickness} mm thick, but ${part.stock} is ${stock} mm`);
    const faces = { left: 'x', right: 'x', up: 'y', down: 'y', back: 'z', front: 'z' } as const;
    let [cutLength, cutWidth] = [along(length), along(width)];
    for (const edge of part.edges) {
      if (faces[edge.towards] === length) cutLength -= ticks(edge.thickness);
      else if (faces[edge.towards] === width) cutWidth -= ticks(edge.thickness);
      else faults.push(`${part.id}: a band on a face`);
      if (ticks(edge.length) !== along(faces[edge.towards] === length ? width : length))
        faults.push(`${part.id}: a band of the wrong length`);
    }
    if (cutLength !== ticks(part.cut.length) || cutWidth !== ticks(part.cut.width))
      faults.push(`${part.id}: its cut size is not its size less the bands`);
    for (const machined of part.solid.taken)
      if (!solid(common(cells(machined.box), box))) faults.push(`${part.id}: something is taken out beside it`);
    if (faces[part.label.up] === faces[part.label.show])
      faults.push(`${part.id}: its up mark cannot be drawn on its show face`);
  }
  for (const [what, list] of [
    ['id', placed.parts.map((part) => part.id)],
    ['name', placed.parts.map((part) => part.label.name)],
    ['fitting', placed.fittings.map((fitting) => fitting.id)],
    ['bay', placed.bays.map((bay) => bay.id)],
  ] as const)
    for (const twice of new Set(list.filter((id, i) => list.indexOf(id) !== i)))
      faults.push(`two of one ${what}: ${twice}`);
  return faults;
}

/** Volume of one part by two routes that share nothing: the grid above, and the removed boxes by inclusion and exclusion. */
export function volumesOf(part: Part): { readonly byGrid: bigint; readonly byInclusion: bigint } {
  const box = cells(part.solid.box);
  const taken = part.solid.taken.map((m) => common(cells(m.box), box)).filter(solid);
  // boxes that meet nothing but themselves cost one term; only those that do meet are expanded further
  const removed = (from: number, within: Cells | undefined, sign: bigint): bigint => {
    let sum = 0n;
    for (let i = from; i < taken.length; i++) {
      const shared = within ? common(within, taken[i]!) : taken[i]!;
      if (solid(shared)) sum += sign * volume(shared) + removed(i + 1, shared, -sign);
    }
    return sum;
  };
  return { byGrid: uncovered(box, taken), byInclusion: volume(box) - removed(0, undefined, 1n) };
}

/** A part as the mirror sees it: its solid with left and right exchanged, and what else does not change. */
export function seen(part: Part, width: number, inMirror: boolean) {
  const flip = (c: Cells): Cells => (inMirror ? { ...c, x: [width - c.x[1], width - c.x[0]] } : c);
  const turned = { left: 'right', right: 'left' } as Readonly<Record<string, string>>;
  const direction = (d: string) => (inMirror ? (turned[d] ?? d) : d);
  const text = (c: Cells) => JSON.stringify(flip(c));
  return JSON.stringify({
    role: part.role,
    stock: part.stock,
    box: text(cells(part.solid.box)),
    taken: part.solid.taken.map((m) => `${m.kind} ${text(cells(m.box))}`).sort(),
    cut: part.cut,
    axes: part.axes,
    grain: part.grain,
    edges: part.edges.map((e) => `${direction(e.towards)} ${e.band} ${e.thickness} ${e.length}`).sort(),
  });
}

const distance = (a: Range, b: Range) => Math.max(a[0] - b[1], b[0] - a[1]);

/** Fronts keep the gap that was asked: between each other always, and exactly where they are neighbours of one bay or one stack. */
export function frontFaults(placed: PlacedPiece, gap: number): string[] {
  const faults: string[] = [];
  const asked = ticks(gap);
  const fronts = placed.parts.filter((part) => part.role === 'door' || part.role === 'drawer front');
  const boxes = new Map(fronts.map((part) => [part.id, cells(part.solid.box)]));
  fronts.forEach((a, i) => {
    for (const b of fronts.slice(i + 1)) {
      const [ca, cb] = [boxes.get(a.id)!, boxes.get(b.id)!];
      if (distance(ca.z, cb.z) >= 0) continue;
      if (Math.max(distance(ca.x, cb.x), distance(ca.y, cb.y)) < asked)
        faults.push(`${a.id} and ${b.id} are nearer than the gap`);
    }
    const below = a.id.replace(/drawer-(\d+)\/front$/, (_, n: string) => `drawer-${Number(n) + 1}/front`);
    const right = a.id.replace(/left-door$/, 'right-door');
    const next = below !== a.id ? boxes.get(below) : right !== a.id ? boxes.get(right) : undefined;
    if (!next) return;
    const own = boxes.get(a.id)!;
    if (distance(own[below !== a.id ? 'y' : 'x'], next[below !== a.id ? 'y' : 'x']) !== asked)
      faults.push(`${a.id} does not keep the gap to the next`);
  });
  return faults;
}

/** A door is named by its bay; one over a whole case that is divided by the case alone. */
export const isDoorOf = (placed: PlacedPiece, bay: BayOpening, door: string): boolean =>
  door.slice(0, door.lastIndexOf('/')) === (bay.id === `${placed.id}/inside` ? placed.id : bay.id);

/** Behind an inset door everything stays back by the gap; behind one that lies on the face, by nothing. */
export function behindDoorFaults(placed: PlacedPiece, gap: number): string[] {
  const faults: string[] = [];
  const asked = ticks(gap);
  for (const door of placed.parts.filter((part) => part.role === 'door')) {
    const bay = placed.bays.find((one) => isDoorOf(placed, one, door.id));
    if (!bay) {
      faults.push(`${door.id} belongs to no bay`);
      continue;
    }
    const [leaf, clear] = [cells(door.solid.box), cells(bay.clear)];
    const inset = leaf.y[0] >= clear.y[0] && leaf.y[1] <= clear.y[1];
    if (inset && clear.z[1] > leaf.z[0] - asked) faults.push(`${bay.id} is clear only up to its door`);
    for (const part of placed.parts) {
      const whole = bay.id === `${placed.id}/inside`;
      const inside = whole || part.id.startsWith(`${bay.id}/`) || part.id.startsWith(`${bay.id}-`);
      if (!inside || (part.role === 'door' && isDoorOf(placed, bay, part.id))) continue;
      const box = cells(part.solid.box);
      if (distance(box.x, leaf.x) >= 0 || distance(box.y, leaf.y) >= 0) continue;
      if (leaf.z[0] - box.z[1] < (inset ? asked : 0)) faults.push(`${part.id} is nearer to ${door.id} than the gap`);
    }
  }
  return faults;
}

/** What a back is asked to be: mm. `toe` is the height that its kind leaves free below. */
export interface BackAsked {
  readonly kind: 'applied' | 'rabbeted' | 'grooved' | 'none';
  readonly let: number;
  readonly inset: number;
  readonly toe: number;
}

/** A back laid on covers the carcass from the toe to its top; one let in closes the inside and reaches into all four panels alike. */
export function backFaults(placed: PlacedPiece, asked: BackAsked): string[] {
  const box = (id: string) => cells(placed.parts.find((part) => part.id === `${placed.id}/${id}`)!.solid.box);
  const back = placed.parts.find((part) => part.role === 'back');
  if (!back || asked.kind === 'none')
    return (back === undefined) === (asked.kind === 'none') ? [] : ['a back, or none'];
  const { x, y, z } = cells(back.solid.box);
  const [left, right, top, bottom] = [box('left-side'), box('right-side'), box('top'), box('bottom')];
  const depth = ticks(asked.let);
  const applied = asked.kind === 'applied';
  const wanted: readonly Range[] = applied
    ? [
        [left.x[0], right.x[1]],
        [ticks(asked.toe), top.y[1]],
      ]
    : [
        [left.x[1] - depth, right.x[0] + depth],
        [bottom.y[1] - depth, top.y[0] + depth],
      ];
  const from = asked.kind === 'grooved' ? ticks(asked.inset) : 0;
  const same = (a: Range, b: Range | undefined) => a[0] === b?.[0] && a[1] === b[1];
  return same(x, wanted[0]) && same(y, wanted[1]) && z[0] === from
    ? []
    : [`the ${asked.kind} back is not where it belongs`];
}

/** Clearances of a drawer as the plan has them, mm, and the slides there are. */
export interface DrawerRoom {
  readonly side: number;
  readonly above: number;
  readonly below: number;
  readonly rear: number;
  readonly slides: readonly number[];
}

/** Each drawer box keeps its clearances to its opening, its front and the back, and takes the longest slide that leaves them. */
export function drawerFaults(placed: PlacedPiece, { side, above, below, rear, slides }: DrawerRoom): string[] {
  const faults: string[] = [];
  for (const front of placed.parts.filter((part) => part.role === 'drawer front')) {
    const drawer = front.id.slice(0, front.id.lastIndexOf('/'));
    const bay = placed.bays.find(({ id }) => id === drawer.slice(0, drawer.lastIndexOf('/')));
    const box = placed.parts.filter((part) => part.id.startsWith(`${drawer}/`) && part !== front);
    if (!bay || box.length !== 5) {
      faults.push(`${drawer}: not a box of five in a bay`);
      continue;
    }
    const [clear, face] = [cells(bay.clear), cells(front.solid.box)];
    const outside = (axis: Axis): Range => {
      const ranges = box.map((part) => cells(part.solid.box)[axis]);
      return [Math.min(...ranges.map((r) => r[0])), Math.max(...ranges.map((r) => r[1]))];
    };
    const [x, y, z] = [outside('x'), outside('y'), outside('z')];
    if (x[0] - clear.x[0] !== ticks(side) || clear.x[1] - x[1] !== ticks(side))
      faults.push(`${drawer}: not its side clearance`);
    if (y[0] !== Math.max(face.y[0], clear.y[0]) + ticks(below)) faults.push(`${drawer}: not its clearance below`);
    if (y[1] !== Math.min(face.y[1], clear.y[1]) - ticks(above)) faults.push(`${drawer}: not its clearance above`);
    const room = face.z[0] - clear.z[0] - ticks(rear);
    const longest = Math.max(...slides.map(ticks).filter((length) => length <= room));
    if (z[1] !== face.z[0] || z[1] - z[0] !== longest)
      faults.push(`${drawer}: not as long as the longest slide that fits`);
  }
  return faults;
}

/** Each adjustable shelf rests on four pins: a hole at either end, front and rear alike, its upper edge at the shelf's underside. */
export function pinFaults(placed: PlacedPiece): string[] {
  const faults: string[] = [];
  for (const shelf of placed.parts.filter((part) => part.role === 'adjustable shelf')) {
    const box = cells(shelf.solid.box);
    const sides = placed.joints.filter((joint) => joint.kind === 'pinned' && joint.a === shelf.id).map(({ b }) => b);
    if (sides.length !== 2) faults.push(`${shelf.id} hangs between ${sides.length} panels`);
    for (const side of sides) {
      const panel = placed.parts.find(({ id }) => id === side)!;
      // an upright is bored from either side: only the holes in the face before this shelf are its own
      const face = cells(panel.solid.box);
      const left = face.x[1] <= box.x[0];
      const inset = panel.solid.taken
        .filter(({ kind }) => kind === 'bore')
        .map(({ box: hole }) => cells(hole))
        .filter((hole) => hole.y[1] === box.y[0] && (left ? hole.x[1] === face.x[1] : hole.x[0] === face.x[0]))
        .filter((hole) => hole.z[0] > box.z[0] && hole.z[1] < box.z[1])
        .map((hole) => (hole.z[0] + hole.z[1] - box.z[0] - box.z[1]) / 2)
        .sort((a, b) => a - b);
      if (inset.length !== 2 || inset[0]! + inset[1]! !== 0)
        faults.push(`${shelf.id} does not rest on two holes of ${side}`);
    }
  }
  return faults;
}

/**
 * Areas add up: seen from the front, the openings and what bounds them make up the whole front, with nothing counted twice. What is
 * inside a bay (its shelves, drawers, doors) and the back are looked through.
 */
export function frontAreaFaults(
  placed: PlacedPiece,
  front: { readonly width: number; readonly height: number },
): string[] {
  const leaves = placed.bays.filter(
    (bay) => !placed.bays.some((other) => other !== bay && within3(bay.id, other.id, placed.id)),
  );
  const inLeaf = (id: string) => leaves.some((leaf) => id.startsWith(`${leaf.id}/`));
  const flat = (c: Cells): Cells => ({ ...c, z: [0, 1] });
  const bounds = placed.parts
    .filter((part) => part.role !== 'back' && part.role !== 'door' && !inLeaf(part.id))
    .map((part) => flat(cells(part.solid.box)));
  const whole: Cells = { x: [0, front.width], y: [0, front.height], z: [0, 1] };
  const openings = leaves.map((leaf) => flat(cells(leaf.clear)));
  const faults: string[] = [];
  const open = openings.reduce((sum, o) => sum + volume(o), 0n);
  const closed = volume(whole) - uncovered(whole, bounds);
  if (uncovered(whole, [...bounds, ...openings]) !== 0n) faults.push('some of the front is neither opening nor part');
  if (open + closed < volume(whole)) faults.push('openings and edges are less than the front');
  return faults;
}
const within3 = (outer: string, inner: string, piece: string) =>
  outer === `${piece}/inside` || inner.startsWith(`${outer}-`);

/** Parts that hold a point, strictly inside: the plainest way to ask whether two are in one place. */
export const holdersOf = (placed: PlacedPiece, x: number, y: number, z: number): string[] => {
  const holds = (c: Cells) => c.x[0] < x && x < c.x[1] && c.y[0] < y && y < c.y[1] && c.z[0] < z && z < c.z[1];
  return placed.parts
    .filter((part) => holds(cells(part.solid.box)) && !part.solid.taken.some((m) => holds(cells(m.box))))
    .map((part) => part.id);
};
