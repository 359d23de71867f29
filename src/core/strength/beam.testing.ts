/**
 * A second route to beam deflections: the stiffness method with two-node Euler–Bernoulli elements and dense Gauss
 * elimination. Shares nothing with beam.ts. Units free; deflection positive downwards.
 */
export interface FrameBeam {
  /** Node positions, rising. */
  readonly x: readonly number[];
  readonly stiffness: number;
  /** Per element. */
  readonly uniform: readonly number[];
  /** Per node. */
  readonly point: readonly number[];
  /** Per node: held down, and held from turning. */
  readonly held: readonly { readonly down?: boolean; readonly turn?: boolean }[];
}

/** `moments` are those of the supports that hold against turning; elsewhere nothing. */
export function solveBeam(beam: FrameBeam): { down: number[]; reactions: number[]; moments: number[] } {
  const n = beam.x.length;
  const size = 2 * n;
  const K = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const f = new Array<number>(size).fill(0);
  for (let e = 0; e + 1 < n; e++) {
    const L = beam.x[e + 1]! - beam.x[e]!;
    const c = beam.stiffness / L ** 3;
    const k = [
      [12, 6 * L, -12, 6 * L],
      [6 * L, 4 * L * L, -6 * L, 2 * L * L],
      [-12, -6 * L, 12, -6 * L],
      [6 * L, 2 * L * L, -6 * L, 4 * L * L],
    ];
    const q = beam.uniform[e]!;
    const load = [(q * L) / 2, (q * L * L) / 12, (q * L) / 2, (-q * L * L) / 12];
    for (let i = 0; i < 4; i++) {
      f[2 * e + i]! += load[i]!;
      for (let j = 0; j < 4; j++) K[2 * e + i]![2 * e + j]! += c * k[i]![j]!;
    }
  }
  for (let i = 0; i < n; i++) f[2 * i]! += beam.point[i]!;
  const full = K.map((row) => [...row]);
  const loads = [...f];
  beam.held.forEach((h, i) => {
    for (const [held, dof] of [
      [h.down, 2 * i],
      [h.turn, 2 * i + 1],
    ] as const) {
      if (!held) continue;
      for (let j = 0; j < size; j++) {
        K[dof]![j] = 0;
        K[j]![dof] = 0;
      }
      K[dof]![dof] = 1;
      f[dof] = 0;
    }
  });
  const u = solve(K, f);
  const reactions = full.map((row, i) => row.reduce((sum, k, j) => sum + k * u[j]!, 0) - loads[i]!);
  return {
    down: u.filter((_, i) => i % 2 === 0),
    reactions: reactions.filter((_, i) => i % 2 === 0),
    moments: reactions.filter((_, i) => i % 2 === 1),
  };
}

/** Gauss elimination with partial pivoting. */
export function solve(A: readonly (readonly number[])[], b: readonly number[]): number[] {
  const n = b.length;
  const M = A.map((row, i) => [...row, b[i]!]);
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(M[r]![c]!) > Math.abs(M[p]![c]!)) p = r;
    [M[c], M[p]] = [M[p]!, M[c]!];
    for (let r = c + 1; r < n; r++) {
      const t = M[r]![c]! / M[c]![c]!;
      if (t !== 0) for (let j = c; j <= n; j++) M[r]![j]! -= t * M[c]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let r = n - 1; r >= 0; r--) {
    let s = M[r]![n]!;
    for (let j = r + 1; j < n; j++) s -= M[r]![j]! * x[j]!;
    x[r] = s / M[r]![r]!;
  }
  return x;
}
