/**
 * Direct-current networks: resistors between nodes, supplies, and loads that may take a constant current, a constant power or
 * behave as a resistance or a string of diodes behind a resistor. Solved for every node's potential.
 *
 * Nodes are numbered from 0. Potentials V, currents A, resistances Ω, powers W.
 *
 * Method: nodal equations; the matrix is put in a narrow profile (reverse Cuthill–McKee) and factored as L D Lᵀ inside that
 * profile. Loads are brought in by Newton's method from the unloaded network downwards. The stationary points of
 *     Φ(v) = ½ vᵀGv − jᵀv + Σ ∫ i(u) du
 * are the solutions, and the working one is the minimum reached from above; a pivot that is not positive there means that the
 * network carries no such voltage (constant-power collapse) and is reported as such.
 */

export interface Resistor {
  readonly from: number;
  readonly to: number;
  readonly ohm: number;
}

/** A supply of `volts` from `minus` to `plus`; with `ohm` 0 the voltage is held exactly. */
export interface Source {
  readonly plus: number;
  readonly minus: number;
  readonly volts: number;
  readonly ohm: number;
}

export type Demand =
  | {
      /** A fixed current, as a driver chip takes it; below `full` volts it fades in a straight line, to nothing at `none`. */
      readonly kind: 'current';
      readonly amps: number;
      readonly none?: number;
      readonly full?: number;
    }
  | {
      /** A fixed power, as a regulator takes it; below `least` volts it goes on as the resistance it had there. */
      readonly kind: 'power';
      readonly watts: number;
      readonly least?: number;
    }
  | { readonly kind: 'resistance'; readonly ohm: number }
  /** Diodes in series with a resistor: (u − forward)/ohm above the forward voltage, nothing below. */
  | { readonly kind: 'diodes'; readonly forward: number; readonly ohm: number };

export interface Load {
  readonly plus: number;
  readonly minus: number;
  readonly demand: Demand;
}

export interface Network {
  readonly nodes: number;
  /** The node at 0 V. */
  readonly ground: number;
  readonly resistors: readonly Resistor[];
  readonly sources: readonly Source[];
  readonly loads: readonly Load[];
}

export type NetworkAnswer =
  | {
      readonly status: 'solved';
      readonly potentials: Float64Array;
      readonly loadCurrents: Float64Array;
      /** Current each source gives out of its plus, in the order given. */
      readonly sourceCurrents: Float64Array;
      /** Heat in the resistors and inside the sources. */
      readonly loss: number;
      readonly steps: number;
      /** Largest current left over at any node, A: how well Kirchhoff's law is met. */
      readonly residual: number;
    }
  /** No steady state with these loads: they ask for more power than the conductors can bring. */
  | { readonly status: 'collapsed'; readonly steps: number }
  /** A node without any path to the ground, or sources that contradict one another. */
  | { readonly status: 'loose'; readonly node: number };

const MOST_STEPS = 200;

/** Current through a load at u volts, its slope, and the area under it from 0. */
export function demandAt(
  demand: Demand,
  u: number,
): { readonly i: number; readonly slope: number; readonly area: number } {
  switch (demand.kind) {
    case 'resistance':
      return { i: u / demand.ohm, slope: 1 / demand.ohm, area: (u * u) / (2 * demand.ohm) };
    case 'diodes': {
      const over = u - demand.forward;
      return over > 0
        ? { i: over / demand.ohm, slope: 1 / demand.ohm, area: (over * over) / (2 * demand.ohm) }
        : { i: 0, slope: 0, area: 0 };
    }
    case 'current': {
      const { amps } = demand;
      const none = demand.none ?? 0;
      const full = demand.full ?? none;
      if (demand.none === undefined && demand.full === undefined) return { i: amps, slope: 0, area: amps * u };
      if (u >= full) return { i: amps, slope: 0, area: amps * (u - (full + none) / 2) };
      if (u <= none) return { i: 0, slope: 0, area: 0 };
      const slope = amps / (full - none);
      return { i: slope * (u - none), slope, area: (slope * (u - none) ** 2) / 2 };
    }
    case 'power': {
      const { watts } = demand;
      const least = demand.least ?? 0;
      if (u > least) return { i: watts / u, slope: -watts / (u * u), area: watts * Math.log(u) };
      if (least <= 0) return { i: Number.NaN, slope: Number.NaN, area: Number.NaN };
      const slope = watts / (least * least);
      return { i: slope * u, slope, area: (slope * u * u) / 2 - watts / 2 + watts * Math.log(least) };
    }
    default:
      return demand satisfies never;
  }
}

/**
 * Every node's potential.
 * @throws RangeError when a resistance is not positive or a node does not exist (an error of the caller, not of the network).
 */
export function solveNetwork(network: Network): NetworkAnswer {
  check(network);
  const fixed = fixedPotentials(network);
  if (typeof fixed === 'number') return { status: 'loose', node: fixed };
  const loose = unreachable(network, fixed);
  if (loose !== undefined) return { status: 'loose', node: loose };

  // Unknowns are the free nodes, in a profile-narrowing order.
  const order = narrowOrder(network, fixed);
  const row = new Int32Array(network.nodes).fill(-1);
  order.forEach((node, k) => {
    row[node] = k;
  });
  const n = order.length;
  const profile = profileOf(network, row, n);
  const v = Float64Array.from({ length: network.nodes }, (_, k) => fixed.get(k) ?? 0);
  const inner = network.sources.filter((s) => s.ohm > 0);

  const assemble = (withLoads: boolean): { matrix: Float64Array; left: Float64Array } => {
    const matrix = new Float64Array(profile.start[n]!);
    const left = new Float64Array(n); // current flowing out of each free node: must become 0
    const conduct = (a: number, b: number, g: number): void => {
      addSymmetric(matrix, profile, row[a]!, row[b]!, g);
    };
    const flow = (a: number, b: number, i: number): void => {
      if (row[a]! >= 0) left[row[a]!]! += i;
      if (row[b]! >= 0) left[row[b]!]! -= i;
    };
    for (const { from, to, ohm } of network.resistors) {
      conduct(from, to, 1 / ohm);
      flow(from, to, (v[from]! - v[to]!) / ohm);
    }
    for (const { plus, minus, volts, ohm } of inner) {
      conduct(plus, minus, 1 / ohm);
      flow(plus, minus, (v[plus]! - v[minus]! - volts) / ohm);
    }
    if (withLoads)
      for (const { plus, minus, demand } of network.loads) {
        const { i, slope } = demandAt(demand, v[plus]! - v[minus]!);
        conduct(plus, minus, slope);
        flow(plus, minus, i);
      }
    return { matrix, left };
  };
  const energy = (): number => {
    let sum = 0;
    for (const { from, to, ohm } of network.resistors) sum += (v[from]! - v[to]!) ** 2 / (2 * ohm);
    for (const { plus, minus, volts, ohm } of inner) sum += (v[plus]! - v[minus]! - volts) ** 2 / (2 * ohm);
    for (const { plus, minus, demand } of network.loads) sum += demandAt(demand, v[plus]! - v[minus]!).area;
    return sum;
  };
  const step = (matrix: Float64Array, left: Float64Array): Float64Array | undefined =>
    factor(matrix, profile, n) ? solveFactored(matrix, profile, n, left) : undefined;
  const residualOf = (left: Float64Array): number => left.reduce((most, x) => Math.max(most, Math.abs(x)), 0);

  // Unloaded network first: one exact step, from which the loads pull everything down.
  {
    const { matrix, left } = assemble(false);
    const change = step(matrix, left);
    if (!change) return { status: 'loose', node: order[0] ?? network.ground };
    for (let k = 0; k < n; k++) v[order[k]!]! -= change[k]!;
  }
  // What counts as nothing: a share of the largest current, and what rounding leaves of potentials over small resistances.
  const nothing = (): number => {
    let most = 1e-9;
    let floor = 0;
    for (const { from, to, ohm } of [
      ...network.resistors,
      ...inner.map((s) => ({ from: s.plus, to: s.minus, ohm: s.ohm })),
    ]) {
      most = Math.max(most, Math.abs(v[from]! - v[to]!) / ohm);
      floor = Math.max(floor, (Math.abs(v[from]!) + Math.abs(v[to]!)) / ohm);
    }
    return 1e-12 * most + 8 * Number.EPSILON * floor;
  };
  let steps = 0;
  let residual = Number.POSITIVE_INFINITY;
  for (; steps < MOST_STEPS; steps++) {
    const { matrix, left } = assemble(true);
    residual = residualOf(left);
    if (residual <= nothing()) break;
    const change = step(matrix, left);
    if (!change) return { status: 'collapsed', steps };
    const before = energy();
    const slope = -change.reduce((sum, x, k) => sum + x * left[k]!, 0);
    const from = v.slice();
    let length = 1;
    for (; length > 1e-6; length /= 2) {
      for (let k = 0; k < n; k++) v[order[k]!] = from[order[k]!]! - length * change[k]!;
      const after = energy();
      // Armijo's rule, with room for rounding once the step no longer shows in the energy.
      if (after <= before + 1e-4 * length * slope + 1e-12 * Math.abs(before)) break;
    }
    if (length <= 1e-6) {
      v.set(from);
      break;
    }
    // Rounding floor: the step no longer moves anything.
    if (change.every((x, k) => Math.abs(x) <= 1e-14 * Math.max(1, Math.abs(v[order[k]!]!)))) {
      residual = residualOf(assemble(true).left);
      break;
    }
  }
  if (!(residual <= 1e6 * nothing())) return { status: 'collapsed', steps };

  const loadCurrents = Float64Array.from(network.loads, (l) => demandAt(l.demand, v[l.plus]! - v[l.minus]!).i);
  const sourceCurrents = currentsOfSources(network, v, loadCurrents);
  let loss = 0;
  for (const { from, to, ohm } of network.resistors) loss += (v[from]! - v[to]!) ** 2 / ohm;
  network.sources.forEach((s, k) => {
    loss += sourceCurrents[k]! ** 2 * s.ohm;
  });
  return { status: 'solved', potentials: v, loadCurrents, sourceCurrents, loss, steps, residual };
}

function check(network: Network): void {
  const node = (k: number): void => {
    if (!(Number.isInteger(k) && k >= 0 && k < network.nodes)) throw new RangeError(`there is no node ${k}`);
  };
  node(network.ground);
  for (const r of network.resistors) {
    node(r.from);
    node(r.to);
    if (!(r.ohm > 0 && Number.isFinite(r.ohm))) throw new RangeError(`a resistor must be more than 0 Ω, got ${r.ohm}`);
  }
  for (const s of network.sources) {
    node(s.plus);
    node(s.minus);
    if (!(s.ohm >= 0 && Number.isFinite(s.volts)))
      throw new RangeError('a source needs a finite voltage and no negative resistance');
  }
  for (const l of network.loads) {
    node(l.plus);
    node(l.minus);
  }
}

/** Nodes held at a known potential: the ground, and what exact sources tie to it. A number names a node that is contradicted or floats. */
function fixedPotentials(network: Network): Map<number, number> | number {
  const fixed = new Map([[network.ground, 0]]);
  const exact = network.sources.filter((s) => s.ohm === 0);
  const left = new Set(exact);
  for (let moved = true; moved; ) {
    moved = false;
    for (const s of left) {
      const [a, b] = [fixed.get(s.plus), fixed.get(s.minus)];
      if (a === undefined && b === undefined) continue;
      if (a !== undefined && b !== undefined) {
        if (Math.abs(a - b - s.volts) > 1e-12 * Math.max(1, Math.abs(a))) return s.plus;
      } else if (b !== undefined) fixed.set(s.plus, b + s.volts);
      else fixed.set(s.minus, a! - s.volts);
      left.delete(s);
      moved = true;
    }
  }
  for (const s of left) return s.plus; // an exact source between two floating nodes: give it its resistance
  return fixed;
}

function neighbours(network: Network): number[][] {
  const next: number[][] = Array.from({ length: network.nodes }, () => []);
  const join = (a: number, b: number): void => {
    next[a]!.push(b);
    next[b]!.push(a);
  };
  for (const r of network.resistors) join(r.from, r.to);
  for (const s of network.sources) if (s.ohm > 0) join(s.plus, s.minus);
  return next;
}

function unreachable(network: Network, fixed: ReadonlyMap<number, number>): number | undefined {
  const next = neighbours(network);
  const seen = new Uint8Array(network.nodes);
  const queue = [...fixed.keys()];
  for (const node of queue) seen[node] = 1;
  for (let k = 0; k < queue.length; k++)
    for (const to of next[queue[k]!]!)
      if (!seen[to]) {
        seen[to] = 1;
        queue.push(to);
      }
  const lost = seen.indexOf(0);
  return lost < 0 ? undefined : lost;
}

/** Reverse Cuthill–McKee over the free nodes (loads count as links too: their slopes stand in the matrix). */
function narrowOrder(network: Network, fixed: ReadonlyMap<number, number>): number[] {
  const next = neighbours(network);
  for (const l of network.loads) {
    next[l.plus]!.push(l.minus);
    next[l.minus]!.push(l.plus);
  }
  const done = new Uint8Array(network.nodes);
  for (const node of fixed.keys()) done[node] = 1;
  const order: number[] = [];
  const degree = (node: number): number => next[node]!.length;
  const byDegree = Array.from({ length: network.nodes }, (_, k) => k).sort((a, b) => degree(a) - degree(b) || a - b);
  for (const start of byDegree) {
    if (done[start]) continue;
    const from = order.length;
    order.push(farthest(start, next, done));
    done[order[from]!] = 1;
    for (let k = from; k < order.length; k++) {
      const fresh = [...new Set(next[order[k]!]!)].filter((node) => !done[node]);
      fresh.sort((a, b) => degree(a) - degree(b) || a - b);
      for (const node of fresh) {
        done[node] = 1;
        order.push(node);
      }
    }
  }
  return order.reverse();
}

/** A node at the far end of the component, so that the levels from it are narrow. */
function farthest(start: number, next: readonly (readonly number[])[], done: Uint8Array): number {
  const seen = new Set([start]);
  const queue = [start];
  for (let k = 0; k < queue.length; k++)
    for (const to of next[queue[k]!]!)
      if (!done[to] && !seen.has(to)) {
        seen.add(to);
        queue.push(to);
      }
  return queue.at(-1)!;
}

/** Row k of the lower triangle is stored from its first filled column: entries start[k] … start[k+1]−1, the last the diagonal. */
interface Profile {
  readonly start: Int32Array;
  readonly first: Int32Array;
}

function profileOf(network: Network, row: Int32Array, n: number): Profile {
  const first = Int32Array.from({ length: n }, (_, k) => k);
  const meet = (a: number, b: number): void => {
    const [i, j] = [row[a]!, row[b]!];
    if (i < 0 || j < 0) return;
    const [low, high] = i < j ? [i, j] : [j, i];
    if (low < first[high]!) first[high] = low;
  };
  for (const r of network.resistors) meet(r.from, r.to);
  for (const s of network.sources) if (s.ohm > 0) meet(s.plus, s.minus);
  for (const l of network.loads) meet(l.plus, l.minus);
  const start = new Int32Array(n + 1);
  for (let k = 0; k < n; k++) start[k + 1] = start[k]! + (k - first[k]! + 1);
  return { start, first };
}

function addSymmetric(matrix: Float64Array, p: Profile, i: number, j: number, g: number): void {
  if (i >= 0) matrix[p.start[i + 1]! - 1]! += g;
  if (j >= 0) matrix[p.start[j + 1]! - 1]! += g;
  if (i < 0 || j < 0) return;
  if (i === j) {
    matrix[p.start[i + 1]! - 1]! -= 2 * g; // both ends on one node: no effect
    return;
  }
  const [low, high] = i < j ? [i, j] : [j, i];
  matrix[p.start[high]! + low - p.first[high]!]! -= g;
}

/** L D Lᵀ in place; false when a pivot is not positive. */
function factor(a: Float64Array, { start, first }: Profile, n: number): boolean {
  for (let i = 0; i < n; i++) {
    const fi = first[i]!;
    const si = start[i]! - fi;
    const size = a[si + i]!;
    for (let j = fi; j < i; j++) {
      const fj = first[j]!;
      const sj = start[j]! - fj;
      let sum = a[si + j]!;
      for (let k = Math.max(fi, fj); k < j; k++) sum -= a[si + k]! * a[sj + k]!;
      a[si + j] = sum; // still multiplied by the pivot of j
    }
    let pivot = size;
    for (let k = fi; k < i; k++) {
      const scaled = a[si + k]! / a[start[k + 1]! - 1]!;
      pivot -= a[si + k]! * scaled;
      a[si + k] = scaled;
    }
    if (!(pivot > 1e-14 * Math.abs(size))) return false;
    a[si + i] = pivot;
  }
  return true;
}

function solveFactored(a: Float64Array, { start, first }: Profile, n: number, b: Float64Array): Float64Array {
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    let sum = x[i]!;
    for (let k = first[i]!; k < i; k++) sum -= a[start[i]! + k - first[i]!]! * x[k]!;
    x[i] = sum;
  }
  for (let i = 0; i < n; i++) x[i]! /= a[start[i + 1]! - 1]!;
  for (let i = n - 1; i >= 0; i--) for (let k = first[i]!; k < i; k++) x[k]! -= a[start[i]! + k - first[i]!]! * x[i]!;
  return x;
}

/** Exact sources give whatever their nodes still lack; several that tie one node share it in the order of a spanning tree. */
function currentsOfSources(network: Network, v: Float64Array, loadCurrents: Float64Array): Float64Array {
  const out = new Float64Array(network.nodes); // current leaving each node into everything but exact sources
  const flow = (a: number, b: number, i: number): void => {
    out[a]! += i;
    out[b]! -= i;
  };
  for (const r of network.resistors) flow(r.from, r.to, (v[r.from]! - v[r.to]!) / r.ohm);
  network.loads.forEach((l, k) => {
    flow(l.plus, l.minus, loadCurrents[k]!);
  });
  const currents = new Float64Array(network.sources.length);
  network.sources.forEach((s, k) => {
    if (s.ohm === 0) return;
    currents[k] = (s.volts - (v[s.plus]! - v[s.minus]!)) / s.ohm;
    flow(s.plus, s.minus, -currents[k]!);
  });
  // Peel leaves of the forest of exact sources: a node with one unsettled source gets all it lacks from it.
  const unsettled = new Set(network.sources.flatMap((s, k) => (s.ohm === 0 ? [k] : [])));
  const touching = (node: number): number[] =>
    [...unsettled].filter((k) => network.sources[k]!.plus === node || network.sources[k]!.minus === node);
  for (let moved = true; moved && unsettled.size > 0; ) {
    moved = false;
    for (let node = 0; node < network.nodes; node++) {
      if (node === network.ground) continue;
      const here = touching(node);
      const [k] = here;
      if (here.length !== 1 || k === undefined) continue;
      const s = network.sources[k]!;
      currents[k] = s.plus === node ? out[node]! : -out[node]!;
      flow(s.plus, s.minus, -currents[k]!);
      unsettled.delete(k);
      moved = true;
    }
  }
  // Exact sources side by side carry an undetermined share; the first of each loop is given it all.
  for (const k of unsettled) {
    const s = network.sources[k]!;
    currents[k] = s.plus === network.ground ? -out[s.minus]! : out[s.plus]!;
    flow(s.plus, s.minus, -currents[k]!);
  }
  return currents;
}
