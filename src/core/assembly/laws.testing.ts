import { TICKS_PER_MM } from '../quantity/index.ts';
import type { Joint, Part, PartId, PlacedPiece } from '../scene/index.ts';
import type { AssemblyPlan, AssemblyStep } from './index.ts';

/**
 * Judges a plan of assembly from the piece alone and shares no code with what made it. Solids are asked column by column: over each
 * cell of the grid that all edges make across the way of a move, a part is a few stretches along that way.
 */
type Span = readonly [number, number];
type Brick = readonly [Span, Span, Span];
const tick = (mm: number) => Math.round(mm * TICKS_PER_MM);
type AnyBox = Part['solid']['box'];
const brick = (b: AnyBox): Brick => [
  [tick(b.min.x), tick(b.max.x)],
  [tick(b.min.y), tick(b.max.y)],
  [tick(b.min.z), tick(b.max.z)],
];
interface Wood {
  readonly body: Brick;
  readonly holes: readonly Brick[];
}
const woodOf = (part: Part): Wood => ({
  body: brick(part.solid.box),
  holes: part.solid.taken.filter((m) => !m.round).map((m) => brick(m.box)),
});

const covers = (s: Span, at: number) => s[0] < at && at < s[1];
/** The stretches of wood along an axis over one point of the other two. */
function stretches(wood: Wood, axis: number, u: number, v: number): Span[] {
  const [a, b] = [0, 1, 2].filter((k) => k !== axis) as [number, number];
  if (!covers(wood.body[a]!, u) || !covers(wood.body[b]!, v)) return [];
  let list: Span[] = [wood.body[axis]!];
  for (const hole of wood.holes) {
    if (!covers(hole[a]!, u) || !covers(hole[b]!, v)) continue;
    const [from, to] = hole[axis]!;
    list = list.flatMap(([p, q]): Span[] =>
      [[p, Math.min(q, from)] as const, [Math.max(p, to), q] as const].filter(([x, y]) => y > x),
    );
  }
  return list;
}
function* columns(x: Wood, y: Wood, axis: number): Generator<readonly [number, number]> {
  const [a, b] = [0, 1, 2].filter((k) => k !== axis) as [number, number];
  const lines = (k: number): number[] => {
    const from = Math.max(x.body[k]![0], y.body[k]![0]);
    const to = Math.min(x.body[k]![1], y.body[k]![1]);
    if (to <= from) return [];
    const all = [from, to, ...[...x.holes, ...y.holes].flatMap((h) => h[k]!)].filter((p) => p >= from && p <= to);
    return [...new Set(all)].sort((p, q) => p - q);
  };
  const [us, vs] = [lines(a), lines(b)];
  for (let i = 1; i < us.length; i++)
    for (let j = 1; j < vs.length; j++) yield [(us[i - 1]! + us[i]!) / 2, (vs[j - 1]! + vs[j]!) / 2];
}

const WAYS = { right: [0, 1], left: [0, -1], up: [1, 1], down: [1, -1], front: [2, 1], back: [2, -1] } as const;
type Word = keyof typeof WAYS;

/** Does `moving`, on its last straight way home, pass through `still`? Asked as: is any of `still` behind any of `moving`? */
function collides(moving: Wood, still: Wood, word: Word): boolean {
  const [axis, sign] = WAYS[word];
  for (const [u, v] of columns(moving, still, axis)) {
    const [m, s] = [stretches(moving, axis, u, v), stretches(still, axis, u, v)];
    if (m.length === 0 || s.length === 0) continue;
    // coming from the far negative side for a positive way: everything of `still` must lie beyond all of `moving`
    const front = sign > 0 ? Math.max(...m.map((p) => p[1])) : -Math.min(...m.map((p) => p[0]));
    const first = sign > 0 ? Math.min(...s.map((p) => p[0])) : -Math.max(...s.map((p) => p[1]));
    if (first < front) return true;
  }
  return false;
}
/** Do a plain box and a part share any space? */
function fills(box: Brick, part: Wood): boolean {
  const plain: Wood = { body: box, holes: [] };
  for (const [u, v] of columns(plain, part, 0))
    for (const [p, q] of stretches(part, 0, u, v)) if (p < box[0][1] && q > box[0][0]) return true;
  return false;
}
const brickOf = (cell: readonly number[]): Brick => [
  [cell[0]!, cell[1]!],
  [cell[2]!, cell[3]!],
  [cell[4]!, cell[5]!],
];

export interface Judged {
  readonly faults: readonly string[];
  readonly gauges: number;
  readonly fasteners: number;
}

export function judge(
  piece: PlacedPiece,
  plan: AssemblyPlan,
  {
    loose = [],
    massOf,
    aloneMass = 23,
  }: { loose?: readonly Part[]; massOf?: (id: PartId) => number | undefined; aloneMass?: number } = {},
): Judged {
  const faults: string[] = [];
  const wood = new Map(piece.parts.map((p) => [p.id, woodOf(p)]));
  const known = new Map([...piece.parts, ...loose].map((p) => [p.id, p]));
  const joints = new Map(piece.joints.map((j) => [j.id, j]));
  const built = new Map<string, PartId[]>();
  const whole: PartId[] = [];
  const lies = new Map<string | undefined, string>();
  const fast = new Set<PartId>();
  let [gauges, fasteners] = [0, 0];
  plan.steps.forEach((step, i) => {
    const say = (what: string) => faults.push(`step ${step.number}: ${what}`);
    if (step.number !== i + 1) say('is out of count');
    const target = step.builds === undefined ? whole : (built.get(step.builds) ?? []);
    if (step.builds !== undefined) built.set(step.builds, target);
    if ([...target].sort().join() !== [...step.present].sort().join()) say('does not tell what is there');
    if (step.asOne === undefined) {
      if (step.adds.length !== 1) say('adds more than one part that is not a sub-assembly');
      for (const id of step.adds) if (fast.has(id)) say(`${id} is added twice`);
    } else {
      if ([...(built.get(step.asOne) ?? [])].sort().join() !== [...step.adds].sort().join())
        say(`${step.asOne} is not what was built`);
      for (const id of step.adds) if (whole.includes(id)) say(`${id} is added twice`);
    }
    for (const id of step.adds) if (!wood.has(id)) say(`${id} is not there`);
    // whoever builds from the words alone turns the work only where they are told to
    const lay = lies.get(step.builds) ?? step.down;
    if (step.turned !== (lay !== step.down)) say(`lies ${step.down}, lay ${lay}, and turned is ${step.turned}`);
    lies.set(step.builds, step.down);
    checkMove(step, wood, say);
    fasteners += checkFasteners(step, piece.joints, joints, wood, say);
    gauges += checkGauges(step, known, wood, fast, say);
    const mass = step.adds.reduce((sum, id) => sum + (massOf?.(id) ?? 0), 0);
    if (mass > aloneMass && !step.helper) say(`${mass} kg and nobody to help`);
    target.push(...step.adds);
    for (const id of step.adds) fast.add(id);
  });
  const missing = piece.parts.filter((p) => !whole.includes(p.id));
  if (missing.length > 0) faults.push(`never put in: ${missing.map((p) => p.id).join(', ')}`);
  const told = plan.steps.flatMap((s) => s.set).filter((s) => s.by === 'gauge').length;
  if (told !== plan.measurementsAvoided) faults.push('counts other gauges than it names');
  return { faults, gauges, fasteners };
}

type Woods = ReadonlyMap<PartId, Wood>;
type Say = (what: string) => void;

function checkMove(step: AssemblyStep, wood: Woods, say: Say): void {
  if (step.present.length === 0) return;
  if (!step.moves) {
    say('does not say where it comes from');
    return;
  }
  const [axis, sign] = WAYS[step.moves];
  const [downAxis, downSign] = WAYS[step.down];
  if (axis === downAxis && sign === -downSign) say('comes up through the bench');
  for (const id of step.adds)
    for (const there of step.present)
      if (collides(wood.get(id)!, wood.get(there)!, step.moves)) say(`${id} passes through ${there}`);
}

function checkFasteners(
  step: AssemblyStep,
  all: readonly Joint[],
  byId: ReadonlyMap<string, Joint>,
  wood: Woods,
  say: Say,
): number {
  const there = [...step.present, ...step.adds];
  const meets = (j: Joint) =>
    (step.adds.includes(j.a) && step.present.includes(j.b)) || (step.adds.includes(j.b) && step.present.includes(j.a));
  for (const joint of all.filter(meets)) {
    const wants = joint.fasten.some((f) => f === 'screws' || f === 'brads');
    const said = step.fasteners.some((f) => f.joint === joint.id);
    if (wants && !said && !step.clamped.includes(joint.id)) say(`${joint.id} is not fastened`);
    if (joint.fasten.includes('glue') !== step.glue.includes(joint.id)) say(`${joint.id}: glue is not as asked`);
  }
  for (const fasten of step.fasteners) {
    const joint = byId.get(fasten.joint);
    if (!joint || !meets(joint)) {
      say(`${fasten.joint} is fastened and not there`);
      continue;
    }
    if (fasten.from === step.down) say(`${fasten.joint} is driven from under the bench`);
    if (fasten.room.length !== fasten.count || fasten.count < 2) say(`${fasten.joint}: not a place for each fastener`);
    const [axis, sign] = WAYS[fasten.from];
    const face = wood.get(fasten.through)!.body[axis]![sign > 0 ? 1 : 0]!;
    const contact = brick(joint.contact);
    for (const cell of fasten.room) {
      const room = brickOf(cell);
      if (room[axis]![sign > 0 ? 0 : 1] !== face) say(`${fasten.joint}: the tool is not at the face`);
      const sizes = room.map(([a, b]) => (b - a) / TICKS_PER_MM).sort((a, b) => a - b);
      if (sizes[0]! < 39.9 || sizes[2]! < 249.9) say(`${fasten.joint}: no room for a tool`);
      // seen along the tool, it is over the joint; seen from the slant, it ends there
      const over = [0, 1, 2]
        .filter((k) => k !== axis)
        .every((k) => room[k]![0] <= contact[k]![1] && room[k]![1] >= contact[k]![0]);
      if (!over) say(`${fasten.joint}: the tool is beside the joint`);
      for (const id of there)
        if (id !== fasten.through && fills(room, wood.get(id)!)) say(`${fasten.joint}: ${id} is in the tool's way`);
    }
  }
  return step.fasteners.length;
}

function checkGauges(
  step: AssemblyStep,
  known: ReadonlyMap<PartId, Part>,
  wood: Woods,
  fast: ReadonlySet<PartId>,
  say: Say,
): number {
  const there = [...step.present, ...step.adds];
  let count = 0;
  for (const { gauge, by } of step.set) {
    if ((by === 'gauge') !== (gauge !== undefined)) say('a gauge that is none');
    if (!gauge) continue;
    count += 1;
    const distance = tick(gauge.distance);
    const cell = brickOf(gauge.cell);
    const [from, to] = cell[gauge.axis]!;
    if (to - from !== distance || distance <= 0) say('a gauge of another length than its distance');
    if (gauge.from === 'parts') {
      const length = gauge.parts.reduce((sum, g) => sum + tick(known.get(g.part)!.size[g.by]), 0);
      if (Math.abs(length - distance) > 1) say(`${length} ticks set ${distance}`);
      for (const g of gauge.parts) {
        if (fast.has(g.part) || there.includes(g.part)) say(`${g.part} is fast and serves as a gauge`);
      }
      if (new Set(gauge.parts.map((g) => g.part)).size !== gauge.parts.length) say('one part in two places');
    } else if (gauge.parts.length > 0) say('a spacer made of parts');
    const [still, mine] = gauge.between;
    if (!step.present.includes(still) || !step.adds.includes(mine)) say('a gauge between what is not there');
    else {
      const [s, m] = [wood.get(still)!, wood.get(mine)!].map((w) => [
        w,
        ...w.holes.map((h) => ({ body: h, holes: [] })),
      ]) as [Wood[], Wood[]];
      const ends = (list: Wood[]) => list.flatMap((w) => w.body[gauge.axis]!);
      if (!ends(m).some((e) => e === from || e === to) || !ends(s).some((e) => e === from || e === to))
        say('a gauge that does not reach both faces');
    }
    for (const id of there) if (fills(cell, wood.get(id)!)) say(`a gauge stands in ${id}`);
    const plain: Wood = { body: cell, holes: [] };
    const back = { right: 'left', left: 'right', up: 'down', down: 'up', front: 'back', back: 'front' } as const;
    for (const id of there) if (collides(plain, wood.get(id)!, back[gauge.out])) say(`a gauge shut in by ${id}`);
  }
  return count;
}
