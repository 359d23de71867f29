/** Whole numbers from 0 up to, not including, `below`; the same run from the same seed everywhere. */
export type Draw = (below: number) => number;

/** xorshift32. Source: Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003, triple (13, 17, 5). */
export function drawFrom(seed: number): Draw {
  // Zero is the one state that never moves; the others are stirred so that neighbouring seeds part at once.
  let state = Math.imul(seed | 0, 0x9e3779b1) ^ 0x85ebca6b || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return Math.floor(((state >>> 0) / 0x1_0000_0000) * below);
  };
}
