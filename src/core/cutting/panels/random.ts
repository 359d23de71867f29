/** A repeatable stream of whole numbers: the chance a search may use. */
export interface Random {
  /** 0 ≤ result < n, n < 2³¹. */
  readonly below: (n: number) => number;
  /** 0 ≤ result < 1. */
  readonly unit: () => number;
}

/** xorshift32. Source: Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003, triple (13, 17, 5). */
export function randomFrom(seed: number): Random {
  let state = Math.imul(seed | 0, 0x9e3779b1) ^ 0x5bd1e995;
  if (state === 0) state = 0x1234567;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  for (let i = 0; i < 8; i++) next();
  return { below: (n) => Math.floor((next() / 4294967296) * n), unit: () => next() / 4294967296 };
}
