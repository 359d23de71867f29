import { fromTicks, mm, toTicks } from '../quantity/index.ts';
import type { Joint, Part } from '../scene/index.ts';
import type { Drive } from './drive.ts';
import type { Rack } from './gauge.ts';
import { type Location, locate, onBench, type Place, placeAmong, restsOn, type Surroundings } from './locate.ts';
import {
  type Body,
  type blockersOf,
  boundsOf,
  cellOf,
  DIRECTIONS,
  high,
  isLetIn,
  low,
  opposite,
  reach,
  WAYS,
  type Way,
} from './solids.ts';

/**
 * What makes one order better than another, in units of one measured mark. All common practice: a part rested on another is truer than a
 * mark; glue is wiped off where a joint is slid home along its length; a turned case is a chance to knock it out of square; what cannot
 * be nailed must be left in clamps.
 */
export const WEIGHTS = {
  /** A mark that must be measured. */
  mark: 6,
  /** A spacer to be cut for it; a gauge that is there; packing. */
  spacer: 2.5,
  gauge: 1,
  shim: 1,
  flush: 0.3,
  /** Turning what is on the bench. */
  turn: 1.5,
  /** Turning it with drawers, shelves or doors in it. */
  turnHung: 6,
  /** Neither stands by itself nor drops into its place. */
  held: 2,
  stands: 0.3,
  rests: 0.6,
  /** Each 100 mm of glued joint slid along. */
  slide: 1,
  /** A joint whose screws or brads cannot be driven at that step. */
  shut: 40,
  slanting: 1,
  /** A thin panel nailed on from the side: it must be held up and square meanwhile, and lies by itself when the case is turned. */
  aside: 4,
  /** The work stands on end, tall for its footing, though it will not stand so: it topples, and its top is out of reach. */
  onEnd: 12,
  /** It would reach deeper than the bench that the work lies on: the work has to be raised for it. */
  beneath: 12,
  /** Touches nothing that is there yet. */
  loose: 100,
  /** A second person. */
  helper: 8,
  /** Each edge of a thin panel that nothing holds yet. */
  early: 3,
  /** A stout part that only a thin panel carries: it wags until something stiffer holds it. */
  onThin: 8,
  /** A first part that does not lie flat. */
  onEdge: 0.5,
} as const;

export interface Task {
  readonly bodies: readonly Body[];
  /** Joints between two different bodies, with the index of each. */
  readonly joints: readonly {
    readonly joint: Joint;
    readonly a: number;
    readonly b: number;
    readonly drives: readonly Drive[];
  }[];
  /** This body is there first; left out, whichever is best. */
  readonly first?: number;
  readonly around: Surroundings;
  /** Which bodies stand in the way of each, in each direction. */
  readonly blockers: ReturnType<typeof blockersOf>;
  readonly rack: Rack;
  /** Loose while these bodies are not yet there. */
  readonly isLoose: (part: Part, present: (index: number) => boolean) => boolean;
  /** kg of each body, 0 where it is not known. */
  readonly masses: readonly number[];
  readonly alone: { readonly mass: number; readonly length: number };
  /** How it must stand for what is hung or slid into it. */
  readonly upright: Way;
  /** States kept at each size; more is slower and nearer to the best. */
  readonly width: number;
}

/** One body put in place: from where, in what position of the whole, and what was found out. */
export interface Move {
  readonly body: number;
  readonly way?: Way;
  readonly down: Way;
  readonly cost: number;
}
export interface Order {
  readonly moves: readonly Move[];
  readonly cost: number;
  /** Every order was weighed, none is cheaper under these weights. */
  readonly proven: boolean;
}

/** The cheapest way found so far to be left with a set of bodies, lying on one side. */
interface State {
  readonly down: Way | -1;
  readonly cost: number;
  readonly move?: Move;
  readonly next?: State;
  readonly left: Left;
}
/** Bodies that can be left standing, and the cheapest state of them on each side. */
interface Left {
  readonly present: Uint8Array;
  readonly key: SetKey;
  readonly states: State[];
}
/** Sets in the order of their first differing body: a number while it is exact, which is quicker to look up. */
type SetKey = number | string;
const NUMBERED = 53;
const keyWithout = (left: Left, rest: Uint8Array, body: number): SetKey =>
  typeof left.key === 'number' ? left.key - 2 ** (rest.length - 1 - body) : String.fromCharCode(...rest);

/** Differences less than this are rounding. */
const SAME = 1e-9;

/**
 * The cheapest order in which every body reaches its place in one straight move, found by taking the whole apart. Taking a body away
 * never shuts another in, so whatever can be taken out first still leaves the rest free: a whole that gets stuck has no such order at
 * all. All sets that can be left standing are kept while there are no more than `width` of them; then the cheapest so many.
 */
export function bestOrder(task: Task): Order | { readonly stuck: readonly number[] } {
  const { bodies, joints } = task;
  const n = bodies.length;
  const whole: Left = { present: new Uint8Array(n).fill(1), key: n <= NUMBERED ? 2 ** n - 1 : '', states: [] };
  whole.states.push({ down: -1, cost: 0, left: whole });
  let layer: readonly Left[] = [whole];
  let proven = true;
  const touching = bodies.map((_, i) => joints.filter((j) => j.a === i || j.b === i));
  const straight = bodies.map((body, i) => straightOn(body, i, touching[i]!));
  for (let size = n; size > 0; size--) {
    const reached = new Map<SetKey, Left>();
    let count = 0;
    for (const left of layer) {
      const turn = turning(task, left.present);
      const onEnd = onEndCosts(task, left.present);
      for (let body = 0; body < n; body++) {
        if (!left.present[body] || (body === task.first && size > 1)) continue;
        const rest = left.present.slice();
        rest[body] = 0;
        const moves = movesOf(task, touching[body]!, straight[body], rest, body, onEnd, size === 1);
        if (moves.length === 0) continue;
        const key = keyWithout(left, rest, body);
        let after = reached.get(key);
        if (!after) {
          after = { present: rest, key, states: [] };
          reached.set(key, after);
        }
        for (const move of moves) {
          let at = after.states.findIndex(({ down }) => down === move.down);
          for (const state of left.states) {
            const cost = state.cost + move.cost + (state.down === -1 || state.down === move.down ? 0 : turn);
            if (at >= 0 && after.states[at]!.cost <= cost + SAME) continue;
            const better = { down: move.down, cost, move, next: state, left: after };
            if (at >= 0) after.states[at] = better;
            else {
              at = after.states.push(better) - 1;
              count++;
            }
          }
        }
      }
    }
    if (count === 0) {
      const { present } = layer[0]!;
      return { stuck: bodies.map((_, i) => i).filter((i) => present[i] === 1) };
    }
    layer = [...reached.values()];
    if (count > task.width) {
      layer = cheapest(layer, task.width);
      proven = false;
    }
  }
  const ends = layer.flatMap((left) => left.states);
  const best = ends.reduce((a, b) =>
    b.cost < a.cost - SAME || (Math.abs(b.cost - a.cost) <= SAME && before(b, a)) ? b : a,
  );
  const moves: Move[] = [];
  for (let state: State | undefined = best; state?.move; state = state.next) moves.push(state.move);
  return { moves, cost: best.cost, proven };
}

/** Which of two equally cheap states is taken, so that the answer does not hang on the way it was found. */
const before = (a: State, b: State): boolean => (a.left.key === b.left.key ? a.down < b.down : a.left.key < b.left.key);

/** Only the cheapest so many states, sets in the order of their cheapest. */
function cheapest(layer: readonly Left[], width: number): readonly Left[] {
  const states = layer.flatMap((left) => left.states);
  states.sort((a, b) => a.cost - b.cost || (before(a, b) ? -1 : 1));
  const kept = new Map<Left, State[]>();
  for (const state of states.slice(0, width)) {
    const there = kept.get(state.left);
    if (there) there.push(state);
    else kept.set(state.left, [state]);
  }
  return [...kept].map(([left, chosen]) => ({ ...left, states: chosen }));
}

/** Tipping a case over an edge takes half its weight at the far edge (statics of a uniform body). */
function turning(task: Task, present: Uint8Array): number {
  const mass = massOfAll(task, present);
  const hung = task.joints.some(
    ({ joint, a, b }) => present[a] && present[b] && ['slid', 'hung', 'pinned'].includes(joint.kind),
  );
  return WEIGHTS.turn + (hung ? WEIGHTS.turnHung : 0) + (mass / 2 > task.alone.mass ? WEIGHTS.helper : 0);
}
const massOfAll = (task: Task, present: Uint8Array): number =>
  task.masses.reduce((sum, mass, i) => sum + (present[i] ? mass : 0), 0);

/** The cheapest way of putting a body to those that are there, for each position of the whole. */
function movesOf(
  task: Task,
  touching: Task['joints'],
  straight: Way | undefined,
  rest: Uint8Array,
  body: number,
  onEnd: readonly number[],
  alone: boolean,
): readonly Move[] {
  const moving = task.bodies[body]!;
  if (alone)
    return WAYS.map((down) => ({
      body,
      down,
      cost:
        earlyCost(task, touching, rest, moving) +
        (moving.parts.length > 1 || thinnest(moving) === down >> 1 ? 0 : WEIGHTS.onEdge) +
        onEnd[down]!,
    }));
  const free = WAYS.filter((way) => !task.blockers[body]![way]!.some((i) => rest[i]));
  if (free.length === 0) return [];
  const met = touching.filter((j) => rest[j.a === body ? j.b : j.a]);
  const open = straight !== undefined && free.includes(straight) ? [straight] : free;
  const ways = open.map((way) => ({ way, slide: slideCost(met, way) }));
  const place = placeOf(task, rest, body);
  const anyWayUp = locate(place);
  const early = earlyCost(task, touching, rest, moving);
  const carriers = met.map((j) => task.bodies[j.a === body ? j.b : j.a]!);
  const wags = !isThin(moving) && carriers.length > 0 && carriers.every(isThin) ? WEIGHTS.onThin : 0;
  const best: Move[] = [];
  const there = boundsOf(task.bodies.flatMap((b, i) => (rest[i] ? [b.bounds] : [])));
  for (const down of WAYS) {
    const beneath = reach(moving.bounds, down) > reach(there, down) + OVERHANG ? WEIGHTS.beneath : 0;
    let chosen: Move | undefined;
    const at = settingCost(task, met, place, rest, onBench(anyWayUp, place, down), down);
    for (const { way, slide } of ways) {
      // nothing comes up through the bench
      if (way === opposite(down)) continue;
      const cost =
        early +
        wags +
        onEnd[down]! +
        beneath +
        slide +
        at.cost +
        holdCost(at.rests, way === down) +
        helpCost(task, body, at.rests, way, down);
      if (!chosen || cost < chosen.cost - 1e-9) chosen = { body, way, down, cost };
    }
    if (chosen) best.push(chosen);
  }
  return best;
}

/** So much may hang down beside the bench or where the work lies on strips. Common practice. */
const OVERHANG = toTicks(mm(20));
/** What is higher than this, and than so many times its lesser footing, does not stay where it is put. Common practice. */
const TALL = toTicks(mm(600));
const SLENDER = 3;
function onEndCosts(task: Task, present: Uint8Array): readonly number[] {
  const bounds = boundsOf(task.bodies.flatMap((body, i) => (present[i] ? [body.bounds] : [])));
  const sizes = [0, 1, 2].map((axis) => high(bounds, axis) - low(bounds, axis));
  return WAYS.map((down) => {
    const height = sizes[down >> 1]!;
    if (down === task.upright || height <= TALL) return 0;
    const footing = Math.min(...sizes.filter((_, axis) => axis !== down >> 1));
    return height > SLENDER * footing ? WEIGHTS.onEnd : 0;
  });
}

/** A thin panel that is held all round goes in when what holds it is there: it squares the frame, and flaps about until then. */
function earlyCost(task: Task, touching: Task['joints'], rest: Uint8Array, moving: Body): number {
  if (moving.parts.length > 1 || moving.parts[0]!.size.thickness > THIN || touching.length < 3) return 0;
  const body = task.bodies.indexOf(moving);
  return WEIGHTS.early * touching.filter((j) => !rest[j.a === body ? j.b : j.a] && isLetInOrApplied(j.joint)).length;
}
/** Panels up to this bend in the hand. Common practice. */
const THIN = mm(10);
/** A thin strip that stands up no higher than this is held square by the hand that holds it. Common practice. */
const HELD_BY_ONE_HAND = toTicks(mm(400));
const isThin = ({ parts }: Body): boolean => parts.length === 1 && parts[0]!.size.thickness <= THIN;
const isLetInOrApplied = (joint: Joint): boolean => isLetIn(joint) || joint.kind === 'applied';

const thinnest = (body: Body): number => {
  const size = (axis: number) => high(body.bounds, axis) - low(body.bounds, axis);
  return [0, 1, 2].reduce((a, b) => (size(b) < size(a) ? b : a));
};

/** Glued joints slid along their length. */
function slideCost(met: Task['joints'], way: Way): number {
  let cost = 0;
  for (const { joint } of met) {
    if (!isLetIn(joint) || !joint.fasten.includes('glue')) continue;
    const contact = cellOf(joint.contact);
    const along = fromTicks(high(contact, way >> 1) - low(contact, way >> 1));
    if (along > 30) cost += (WEIGHTS.slide * along) / 100;
  }
  return cost;
}

/** Where a body comes to, among those that are there. */
export function placeOf(task: Task, rest: Uint8Array, body: number): Place {
  const present: number[] = [];
  for (let i = 0; i < rest.length; i++) if (rest[i] === 1) present.push(i);
  const own = task.bodies[body]!.parts;
  return placeAmong(
    task.around,
    body,
    present,
    task.rack,
    (part) => !own.includes(part) && task.isLoose(part, (i) => rest[i] === 1),
  );
}

function settingCost(
  task: Task,
  met: Task['joints'],
  place: Place,
  rest: Uint8Array,
  locations: readonly Location[],
  down: Way,
) {
  let cost = met.length === 0 ? WEIGHTS.loose : 0;
  const { bounds } = task.bodies[place.moving]!;
  const flaps =
    isThin(task.bodies[place.moving]!) && high(bounds, down >> 1) - low(bounds, down >> 1) > HELD_BY_ONE_HAND;
  let aside = false;
  for (const { drives } of met) {
    if (drives.length === 0) continue;
    const drive = chooseDrive(drives, (i) => rest[i] === 1 || i === place.moving, down);
    cost += drive ? (drive.manner === 'straight' ? 0 : WEIGHTS.slanting) : WEIGHTS.shut;
    if (flaps && drive?.manner === 'straight' && drive.from !== DIRECTIONS[opposite(down)]) aside = true;
  }
  if (aside) cost += WEIGHTS.aside;
  const hardware = met.some(({ joint }) => joint.kind === 'hung' || joint.kind === 'slid' || joint.kind === 'pinned');
  if (hardware && down !== task.upright) cost += 2 * WEIGHTS.turn;
  for (const location of locations) cost += locationCost(location);
  return { cost, rests: restsOn(place, locations, down) };
}

function locationCost(location: Location): number {
  if (location.by === 'mark') return WEIGHTS.mark;
  if (location.by === 'flush') return WEIGHTS.flush;
  if (location.by !== 'gauge') return 0;
  const { from, parts } = location.gauge;
  return from === 'spacer' ? WEIGHTS.spacer : from === 'shim' ? WEIGHTS.shim : WEIGHTS.gauge * parts.length;
}

/** The first way to drive a joint with nothing there in the way, and not from under the bench. */
export const chooseDrive = (
  drives: readonly Drive[],
  present: (index: number) => boolean,
  down: Way,
): Drive | undefined => drives.find((d) => d.from !== DIRECTIONS[down] && !d.blockers.some(present));

/**
 * The one way in which a body comes to a face that it lies on or hangs before: nothing is slid along such a face, nor let down behind it,
 * however much easier it would be held, for its gaps are seen and its hinges or screws reached only so. Undefined where it has no such
 * face, or several that look different ways. Common practice.
 */
function straightOn(body: Body, index: number, touching: Task['joints']): Way | undefined {
  const ways = new Set<Way>();
  for (const { joint, a } of touching) {
    if (a !== index) continue;
    if (joint.kind === 'hung') {
      // hung in an opening it meets what it hangs on edge to face: it is its own face that tells
      const own = body.parts.find((p) => p.id === joint.a)!;
      ways.add(opposite(DIRECTIONS.indexOf(own.label.show) as Way));
    }
    if (joint.kind !== 'applied') continue;
    const contact = cellOf(joint.contact);
    for (const axis of [0, 1, 2]) {
      if (high(contact, axis) > low(contact, axis)) continue;
      const beyond = low(body.bounds, axis) + high(body.bounds, axis) > 2 * low(contact, axis);
      ways.add((2 * axis + (beyond ? 1 : 0)) as Way);
    }
  }
  return ways.size === 1 ? [...ways][0] : undefined;
}

function holdCost(rests: ReturnType<typeof restsOn>, drops: boolean): number {
  if (drops) return 0;
  return rests === 'bench' ? WEIGHTS.stands : rests === undefined ? WEIGHTS.held : WEIGHTS.rests;
}

/** Why a step wants two people; undefined when one does. */
export function helpReason(
  task: Pick<Task, 'bodies' | 'masses' | 'alone'>,
  body: number,
  rests: ReturnType<typeof restsOn>,
  way: Way | undefined,
  down: Way,
): 'mass' | 'length' | undefined {
  const moving = task.bodies[body]!;
  if (task.masses[body]! > task.alone.mass) return 'mass';
  const longest = Math.max(...[0, 1, 2].map((axis) => high(moving.bounds, axis) - low(moving.bounds, axis)));
  if (longest > toTicks(task.alone.length) && rests === undefined && way !== down) return 'length';
  return undefined;
}
const helpCost = (task: Task, body: number, rests: ReturnType<typeof restsOn>, way: Way, down: Way): number =>
  helpReason(task, body, rests, way, down) ? WEIGHTS.helper : 0;
