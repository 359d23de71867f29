import { type Demand, demandAt, type Network } from './network.ts';

/** Gaussian elimination with partial pivoting on a dense matrix: a general solver that shares nothing with the network's own. */
export function solveDense(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const a = matrix.map((row, i) => [...row, right[i]!]);
  const n = a.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[best]![c]!)) best = r;
    [a[c], a[best]] = [a[best]!, a[c]!];
    for (let r = c + 1; r < n; r++) {
      const f = a[r]![c]! / a[c]![c]!;
      if (f !== 0) for (let k = c; k <= n; k++) a[r]![k]! -= f * a[c]![k]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let r = n - 1; r >= 0; r--) {
    let sum = a[r]![n]!;
    for (let k = r + 1; k < n; k++) sum -= a[r]![k]! * x[k]!;
    x[r] = sum / a[r]![r]!;
  }
  return x;
}

/**
 * The same network by modified nodal analysis: potentials and source currents as unknowns of one dense matrix, and loads by
 * plain repetition (each load a current source of its last current, half way to the new one).
 */
export function solveByTableau(network: Network, rounds = 4000): number[] {
  const sources = network.sources;
  const size = network.nodes + sources.length;
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (const { from, to, ohm } of network.resistors) {
    matrix[from]![from]! += 1 / ohm;
    matrix[to]![to]! += 1 / ohm;
    matrix[from]![to]! -= 1 / ohm;
    matrix[to]![from]! -= 1 / ohm;
  }
  sources.forEach((s, k) => {
    const row = network.nodes + k;
    matrix[s.plus]![row]! -= 1;
    matrix[s.minus]![row]! += 1;
    matrix[row]![s.plus]! += 1;
    matrix[row]![s.minus]! -= 1;
    matrix[row]![row]! += s.ohm;
  });
  matrix[network.ground] = matrix[network.ground]!.map((_, k) => (k === network.ground ? 1 : 0));
  let x: number[] = [];
  let currents = network.loads.map(() => 0);
  for (let round = 0; round < rounds; round++) {
    const right = new Array<number>(size).fill(0);
    network.loads.forEach((l, k) => {
      right[l.plus]! -= currents[k]!;
      right[l.minus]! += currents[k]!;
    });
    sources.forEach((s, k) => {
      right[network.nodes + k] = s.volts;
    });
    right[network.ground] = 0;
    x = solveDense(matrix, right);
    const now = network.loads.map((l) => currentOf(l.demand, x[l.plus]! - x[l.minus]!));
    const off = Math.max(0, ...now.map((i, k) => Math.abs(i - currents[k]!)));
    currents = now.map((i, k) => (i + currents[k]!) / 2);
    if (off < 1e-13) break;
  }
  return x.slice(0, network.nodes);
}

const currentOf = (demand: Demand, u: number): number => demandAt(demand, u).i;
