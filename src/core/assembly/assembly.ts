import type { Kg, Mm } from '../quantity/index.ts';
import { fromTicks, mm } from '../quantity/index.ts';
import type { Direction, Joint, Part, PartId, PlacedPiece } from '../scene/index.ts';
import { drivesOf, type Fasten, TOOL } from './drive.ts';
import { type Gauge, type Rack, rackOf } from './gauge.ts';
import { type Location, locate, onBench, restsOn, surroundings } from './locate.ts';
import { bestOrder, chooseDrive, helpReason, type Move, type Order, placeOf, type Task } from './search.ts';
import { type Body, blockersOf, bodyOf, boundsOf, DIRECTIONS, high, isLetIn, low, type Way, wayOf } from './solids.ts';

export interface AssemblyOptions {
  /** Parts of other pieces of the job, cut and still loose while this one is built: they may serve as gauges. */
  readonly loose?: readonly Part[];
  /** kg, where it is known. */
  readonly massOf?: (part: PartId) => number | undefined;
  /** What one person handles, kg. Left out: 23 kg, the load constant of the revised lifting equation (Waters et al., Ergonomics 36, 1993). */
  readonly aloneMass?: number;
  /** Longest part one person sets where it can neither rest nor drop in: the span of two arms. Common practice, 1800 mm. */
  readonly aloneLength?: Mm;
  /** Sets of parts that the search keeps at each size. */
  readonly effort?: number;
}

/** What carries it while it is fastened. */
export type Held = 'bench' | 'part' | 'gauge' | 'hand';
export interface SetBy {
  readonly along: Direction;
  readonly by: Location['by'];
  readonly against?: PartId;
  readonly gauge?: Gauge;
}

/** One thing done at the bench: a part, or a sub-assembly, put where it belongs. */
export interface AssemblyStep {
  readonly number: number;
  /** The sub-assembly this step builds; of the piece itself when it is left out. */
  readonly builds?: string;
  readonly adds: readonly PartId[];
  /** A sub-assembly that is put in as one. */
  readonly asOne?: string;
  /** Everything of this assembly that is there before the step. */
  readonly present: readonly PartId[];
  /** The straight way it moves, the last of it; nothing for what is laid down first. */
  readonly moves?: Direction;
  /** Which side of the piece lies on the bench; `turned` when it did not lie so before. */
  readonly down: Direction;
  readonly turned: boolean;
  readonly held: Held;
  /** What sets it along each axis. Nothing for what is laid down first. */
  readonly set: readonly SetBy[];
  /** Joints glued at this step. */
  readonly glue: readonly string[];
  readonly fasteners: readonly Fasten[];
  /** Joints whose screws or brads cannot be reached: they stay in clamps until the glue holds. */
  readonly clamped: readonly string[];
  readonly clamps: number;
  /** Diagonals to be made equal, when the step closes a frame: their length. */
  readonly diagonal?: Mm;
  /** Must be left until the glue holds before the next step. */
  readonly wait: boolean;
  readonly helper?: { readonly why: 'mass' | 'length' | 'turning'; readonly mass?: Kg };
  /** Has to be in before this part: afterwards no straight way is left. */
  readonly before?: PartId;
  /** Primed or finished before it goes in: it cannot be reached well, or must stay free to move, afterwards. */
  readonly prefinish: readonly PartId[];
}

export interface SubAssembly {
  readonly id: string;
  readonly name: string;
  readonly parts: readonly PartId[];
  readonly proven: boolean;
}
/** A block to be cut for setting a part: thickness and width as comes to hand. */
export interface Spacer {
  readonly distance: Mm;
  readonly count: number;
  readonly steps: readonly number[];
  readonly from: 'spacer' | 'shim';
}

/** How one piece is put together. */
export interface AssemblyPlan {
  readonly piece: string;
  readonly steps: readonly AssemblyStep[];
  readonly subassemblies: readonly SubAssembly[];
  /** Parts set by a gauge instead of a mark. */
  readonly measurementsAvoided: number;
  /** Marks that are left to be measured. */
  readonly marks: number;
  readonly spacers: readonly Spacer[];
  /** By WEIGHTS, all groups together. */
  readonly cost: number;
  /** Every order was weighed and none is cheaper (see WEIGHTS). */
  readonly proven: boolean;
  readonly warnings: readonly string[];
}

const ALONE_MASS = 23;
const ALONE_LENGTH = mm(1800);
/** Up to ten bodies all sets are few enough to weigh each; above that this many are kept. */
const PROVABLE = 4000;
const EFFORT = 200;

/** Works out how a case or a floating shelf is built by one person; no steps for a piece that is not made of parts. */
export function assemblySteps(piece: PlacedPiece, options: AssemblyOptions = {}): AssemblyPlan {
  const builder = newBuilder(piece, options);
  if (piece.parts.length === 0) return finished(builder);
  const groups = groupsOf(piece);
  if (!buildInGroups(builder, groups)) {
    // a sub-assembly that cannot be put in as one is put in part by part
    restart(builder);
    if (!buildPart(builder, piece.parts)) builder.warnings.push('no order of straight moves puts all parts in place');
  }
  return finished(builder);
}

interface Builder {
  readonly piece: PlacedPiece;
  readonly parts: ReadonlyMap<PartId, Part>;
  readonly options: AssemblyOptions;
  readonly rack: Rack;
  readonly masses: ReadonlyMap<PartId, number | undefined>;
  readonly alone: Task['alone'];
  steps: AssemblyStep[];
  subassemblies: SubAssembly[];
  warnings: string[];
  proven: boolean;
  cost: number;
  /** Parts that are fast in something already. */
  readonly used: Set<PartId>;
}

function newBuilder(piece: PlacedPiece, options: AssemblyOptions): Builder {
  return {
    piece,
    parts: new Map(piece.parts.map((p) => [p.id, p])),
    options,
    rack: rackOf([...piece.parts, ...(options.loose ?? [])]),
    masses: new Map(piece.parts.map((p) => [p.id, options.massOf?.(p.id)])),
    alone: { mass: options.aloneMass ?? ALONE_MASS, length: options.aloneLength ?? ALONE_LENGTH },
    steps: [],
    subassemblies: [],
    warnings: [],
    proven: true,
    cost: 0,
    used: new Set(),
  };
}
function restart(builder: Builder): void {
  builder.steps = [];
  builder.subassemblies = [];
  builder.warnings = [];
  builder.proven = true;
  builder.cost = 0;
  builder.used.clear();
}

/** Held together by glue or by being let in: what is one thing once it is dry. */
const bonds = (joint: Joint): boolean => isLetIn(joint) || (joint.kind === 'butt' && joint.fasten.includes('glue'));

/** Parts bonded to each other, the largest group first; everything else by itself. */
function groupsOf(piece: PlacedPiece): readonly (readonly Part[])[] {
  const root = new Map<PartId, PartId>();
  const find = (id: PartId): PartId => {
    const up = root.get(id);
    return up === undefined || up === id ? id : find(up);
  };
  for (const joint of piece.joints) if (bonds(joint)) root.set(find(joint.a), find(joint.b));
  const groups = new Map<PartId, Part[]>();
  for (const part of piece.parts) {
    const key = find(part.id);
    const group = groups.get(key);
    if (group) group.push(part);
    else groups.set(key, [part]);
  }
  const bulk = (parts: readonly Part[]): number => {
    const b = bodyOf('', parts).bounds;
    return (high(b, 0) - low(b, 0)) * (high(b, 1) - low(b, 1)) * (high(b, 2) - low(b, 2));
  };
  const list = [...groups.values()];
  const first = list.reduce((a, b) => (bulk(b) > bulk(a) ? b : a));
  return [first, ...list.filter((g) => g !== first)];
}

function buildInGroups(builder: Builder, groups: readonly (readonly Part[])[]): boolean {
  const names = groups.map((g) => (g.length > 1 ? nameOf(g) : g[0]!.label.name));
  const bodies = groups.map((g, i) => bodyOf(names[i]!, g));
  const outer = taskOf(builder, bodies, 0);
  const order = bestOrder(outer);
  if ('stuck' in order) return false;
  builder.proven &&= order.proven;
  builder.cost += order.cost;
  for (const [k, move] of order.moves.entries()) {
    const group = groups[move.body]!;
    const sub = k > 0 && group.length > 1 ? names[move.body]! : undefined;
    if (group.length > 1) {
      // loose until they are built in: what belongs to groups that come later
      if (!buildPart(builder, group, sub)) return false;
    }
    const present = order.moves.slice(0, k).map((m) => m.body);
    if (k > 0 || group.length === 1) addStep(builder, outer, order, k, present, undefined, sub);
    for (const part of group) builder.used.add(part.id);
  }
  return true;
}

/** Builds one group part by part. */
function buildPart(builder: Builder, parts: readonly Part[], sub?: string): boolean {
  const bodies = parts.map((part) => bodyOf(part.id, [part]));
  const task = taskOf(builder, bodies);
  const order = bestOrder(task);
  if ('stuck' in order) return false;
  builder.proven &&= order.proven;
  builder.cost += order.cost;
  if (sub !== undefined) {
    const id = `${builder.piece.id}/${sub}`;
    builder.subassemblies.push({ id, name: sub, parts: parts.map((p) => p.id), proven: order.proven });
  }
  order.moves.forEach((_, k) => {
    addStep(
      builder,
      task,
      order,
      k,
      order.moves.slice(0, k).map((m) => m.body),
      sub,
    );
  });
  for (const part of parts) builder.used.add(part.id);
  return true;
}

function taskOf(builder: Builder, bodies: readonly Body[], first?: number): Task {
  const indexOf = new Map(bodies.flatMap((b, i) => b.parts.map((p) => [p.id, i] as const)));
  const own = new Map(builder.piece.parts.map((p) => [p, indexOf.get(p.id)]));
  const joints = builder.piece.joints.flatMap((joint) => {
    const [a, b] = [indexOf.get(joint.a), indexOf.get(joint.b)];
    if (a === undefined || b === undefined || a === b) return [];
    return [{ joint, a, b, drives: drivesOf(joint, builder.parts, bodies, TOOL) }];
  });
  return {
    bodies,
    joints,
    around: surroundings(bodies, joints),
    blockers: blockersOf(bodies),
    ...(first !== undefined && { first }),
    rack: builder.rack,
    isLoose: (part, present) => {
      const index = own.get(part);
      return !builder.used.has(part.id) && (index === undefined || !present(index));
    },
    masses: bodies.map((b) => b.parts.reduce((sum, p) => sum + (builder.masses.get(p.id) ?? 0), 0)),
    alone: builder.alone,
    upright: wayOf('down'),
    width: builder.options.effort ?? (bodies.length <= 10 ? PROVABLE : EFFORT),
  };
}

function addStep(
  builder: Builder,
  task: Task,
  order: Order,
  k: number,
  before: readonly number[],
  builds?: string,
  asOne?: string,
): void {
  const move = order.moves[k]!;
  const moving = task.bodies[move.body]!;
  const rest = new Uint8Array(task.bodies.length);
  for (const i of before) rest[i] = 1;
  const present = before.map((i) => task.bodies[i]!);
  const met = task.joints.filter((j) => (j.a === move.body && rest[j.b]) || (j.b === move.body && rest[j.a]));
  const there = (i: number): boolean => rest[i] === 1 || i === move.body;
  const fasteners: Fasten[] = [];
  const clamped: string[] = [];
  for (const { joint, drives } of met) {
    const drive = chooseDrive(drives, there, move.down);
    if (drive) {
      const { blockers: _, ...fasten } = drive;
      fasteners.push(fasten);
    } else if (drives.length > 0) {
      clamped.push(joint.id);
      const [a, b] = [builder.parts.get(joint.a)!, builder.parts.get(joint.b)!];
      if (!joint.fasten.includes('glue'))
        builder.warnings.push(
          `no straight way to drive the ${drives[0]!.kind} between ${a.label.name} and ${b.label.name}`,
        );
    }
  }
  const glue = met.filter(({ joint }) => joint.fasten.includes('glue')).map(({ joint }) => joint.id);
  const place = placeOf(task, rest, move.body);
  const locations = k === 0 ? [] : onBench(locate(place), place, move.down);
  const rests = k === 0 ? 'bench' : restsOn(place, locations, move.down);
  const help = k === 0 ? massHelp(task, move.body) : helpReason(task, move.body, rests, move.way, move.down);
  const last = builder.steps.at(-1);
  // what was built part by part lies as its last part left it, whatever comes next
  const lay = k > 0 ? builder.steps.findLast((s) => s.builds === builds)?.down : undefined;
  const turned = lay !== undefined && lay !== DIRECTIONS[move.down]!;
  const turningMass = before.reduce((sum, i) => sum + task.masses[i]!, 0);
  const why = help ?? (turned && turningMass / 2 > task.alone.mass ? 'turning' : undefined);
  const mass = why === 'turning' ? turningMass : task.masses[move.body]!;
  const onlyGlue = glue.filter((id) => !fasteners.some((f) => f.joint === id));
  const next = order.moves[k + 1];
  const closes = closesFrame(task, rest, move.body);
  const locker = lockedOutBy(task, order, k);
  builder.steps.push({
    number: (last?.number ?? 0) + 1,
    ...(builds !== undefined && { builds }),
    adds: moving.parts.map((p) => p.id),
    ...(asOne !== undefined && { asOne }),
    present: present.flatMap((b) => b.parts.map((p) => p.id)),
    ...(move.way !== undefined && { moves: DIRECTIONS[move.way]! }),
    down: DIRECTIONS[move.down]!,
    turned,
    held: rests ?? (move.way === move.down ? 'part' : 'hand'),
    set: locations.map((l) => setBy(l)),
    glue,
    fasteners,
    clamped,
    clamps: clampsFor(onlyGlue.length, rests, move),
    ...(closes && { diagonal: diagonalOf([...present, moving], move.down) }),
    wait: onlyGlue.length > 0 && (next === undefined || next.down !== move.down),
    ...(why && { helper: { why, ...(mass > 0 && { mass: mass as Kg }) } }),
    ...(locker && { before: locker }),
    prefinish: moving.parts.filter((p) => wantsFinishFirst(builder.piece, p)).map((p) => p.id),
  });
}

const massHelp = (task: Task, body: number): 'mass' | undefined =>
  task.masses[body]! > task.alone.mass ? 'mass' : undefined;

const setBy = (l: Location): SetBy => ({
  along: DIRECTIONS[l.axis * 2]!,
  by: l.by,
  ...('against' in l && { against: l.against }),
  ...(l.by === 'gauge' && { gauge: l.gauge }),
});

/** One clamp at each glued joint that nothing else draws together, one for a part that hangs in the air. Common practice. */
const clampsFor = (onlyGlue: number, rests: ReturnType<typeof restsOn>, move: Move): number =>
  onlyGlue > 0
    ? Math.max(2, onlyGlue)
    : rests === undefined && move.way !== undefined && move.way !== move.down
      ? 1
      : 0;

/** Does the new body join two that already hold each other: is there now a ring that can be out of square? */
function closesFrame(task: Task, rest: Uint8Array, body: number): boolean {
  const near = new Set(
    task.joints.flatMap((j) => (j.a === body && rest[j.b] ? [j.b] : j.b === body && rest[j.a] ? [j.a] : [])),
  );
  if (near.size < 2) return false;
  const root = task.bodies.map((_, i) => i);
  const find = (i: number): number => (root[i] === i ? i : find(root[i]!));
  for (const j of task.joints) if (rest[j.a] && rest[j.b]) root[find(j.a)] = find(j.b);
  const list = [...near];
  const joined = (u: number, w: number) =>
    task.joints.some((j) => (j.a === u && j.b === w) || (j.a === w && j.b === u));
  return list.some((u, i) => list.slice(i + 1).some((w) => find(u) === find(w) && !joined(u, w)));
}

/** Corner to corner of what lies on the bench, seen from above. Pythagoras. */
function diagonalOf(bodies: readonly Body[], down: Way): Mm {
  const bounds = boundsOf(bodies.flatMap((b) => b.cells));
  const [u, v] = [0, 1, 2].filter((axis) => axis !== down >> 1) as [number, number];
  return fromTicks(Math.round(Math.hypot(high(bounds, u) - low(bounds, u), high(bounds, v) - low(bounds, v))));
}

/** The first body put in later that would have shut this one out. */
function lockedOutBy(task: Task, order: Order, k: number): PartId | undefined {
  const body = order.moves[k]!.body;
  const there = new Set(order.moves.slice(0, k).map((m) => m.body));
  for (const later of order.moves.slice(k + 1)) {
    there.add(later.body);
    if (task.blockers[body]!.every((list) => list.some((i) => there.has(i))))
      return task.bodies[later.body]!.parts[0]!.id;
  }
  return undefined;
}

/**
 * What is finished before it is put in: panels that float in a groove, whose bare edge would show when they shrink; backs, whose
 * corners no brush gets into; what is hung or slid in and can lie flat while it is painted. Common practice.
 */
function wantsFinishFirst(piece: PlacedPiece, part: Part): boolean {
  if (part.role === 'back') return true;
  return piece.joints.some(
    (j) =>
      (j.a === part.id && (j.kind === 'hung' || j.kind === 'pinned')) ||
      (j.a === part.id && j.kind === 'groove' && !j.fasten.includes('glue')),
  );
}

function nameOf(parts: readonly Part[]): string {
  const roles = new Set(parts.map((p) => p.role));
  if ([...roles].every((r) => r === 'stile' || r === 'rail')) return 'face frame';
  if (roles.size === 1 && roles.has('plinth')) return 'plinth';
  const drawer = parts.find((p) => p.role.startsWith('drawer'));
  const of = drawer?.label.name.match(/ of (drawer .*)$/);
  if (of) return of[1]!;
  return 'carcass';
}

function finished(builder: Builder): AssemblyPlan {
  const { steps } = builder;
  const set = steps.flatMap((s) => s.set.map((by) => ({ by, step: s.number })));
  const blocks = new Map<string, { distance: Mm; from: 'spacer' | 'shim'; steps: number[] }>();
  for (const { by, step } of set) {
    if (by.gauge === undefined || by.gauge.from === 'parts') continue;
    const { distance, from } = by.gauge;
    const key = `${from} ${distance}`;
    const there = blocks.get(key);
    if (there) there.steps.push(step);
    else blocks.set(key, { distance, from, steps: [step] });
  }
  return {
    piece: builder.piece.id,
    steps,
    subassemblies: builder.subassemblies,
    measurementsAvoided: set.filter((s) => s.by.by === 'gauge').length,
    marks: set.filter((s) => s.by.by === 'mark').length,
    // a pair, so that both ends of a part are set alike
    spacers: [...blocks.values()].map((b) => ({ ...b, count: 2 })),
    cost: builder.cost,
    proven: builder.proven,
    warnings: builder.warnings,
  };
}
