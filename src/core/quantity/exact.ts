/** An exact number, so that what a person writes is rounded once, at the end, and never on the way. */
export interface Exact {
  readonly over: bigint;
  readonly under: bigint;
}

export const exact = (over: bigint | number, under: bigint | number = 1): Exact => ({
  over: BigInt(over),
  under: BigInt(under),
});
export const plus = (a: Exact, b: Exact): Exact => ({
  over: a.over * b.under + b.over * a.under,
  under: a.under * b.under,
});
export const times = (a: Exact, b: Exact): Exact => ({ over: a.over * b.over, under: a.under * b.under });
export const isWhole = (a: Exact): boolean => a.over % a.under === 0n;
export const atLeast = (a: Exact, b: Exact): boolean => a.over * b.under >= b.over * a.under;

/** The nearest whole number; a half goes away from zero. */
export function rounded(a: Exact): bigint {
  const size = a.over < 0n ? -a.over : a.over;
  const nearest = (2n * size + a.under) / (2n * a.under);
  return a.over < 0n ? -nearest : nearest;
}

/** The nearest double where both numbers, reduced, have no more than 15 digits; within one part in 10¹⁵ otherwise. */
export function toNumber(a: Exact): number {
  const common = divisor(a.over < 0n ? -a.over : a.over, a.under);
  return Number(a.over / common) / Number(a.under / common);
}

function divisor(a: bigint, b: bigint): bigint {
  return b === 0n ? (a === 0n ? 1n : a) : divisor(b, a % b);
}
