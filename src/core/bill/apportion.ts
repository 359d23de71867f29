/**
 * A whole amount split by weights into whole shares that add up to it exactly: each gets its quota rounded down, what is then left goes
 * one by one to the largest remainders, the earlier first. Source: the largest remainder (Hamilton) method of apportionment.
 * Weights may not be negative; where all are nothing the first takes all.
 */
export function apportion(total: number, weights: readonly number[]): readonly number[] {
  if (!Number.isSafeInteger(total)) throw new RangeError(`expected a whole amount, got ${total}`);
  if (weights.length === 0) return [];
  const sum = weights.reduce((a, w) => {
    if (!(w >= 0)) throw new RangeError(`a weight may not be negative, got ${w}`);
    return a + w;
  }, 0);
  if (sum === 0) return weights.map((_, i) => (i === 0 ? total : 0));
  const quotas = weights.map((w) => (total * w) / sum);
  const shares = quotas.map(Math.floor);
  const left = total - shares.reduce((a, s) => a + s, 0);
  const order = quotas.map((q, i) => ({ i, rest: q - shares[i]! })).toSorted((a, b) => b.rest - a.rest || a.i - b.i);
  for (let k = 0; k < left; k++) shares[order[k % order.length]!.i]! += 1;
  return shares;
}
