/**
 * Costs as whole multiples of one unit, with no common divisor left. Prices are decimal fractions, so some power of ten makes them
 * whole; where none up to a millionth does, each is rounded down to a millionth of the dearest, which can only lower a bound, and
 * `exact` is false: a plan that meets its bound in such units is not proven to the last digit.
 */
export interface WholeCosts {
  readonly costs: readonly number[];
  readonly costUnit: number;
  readonly exact: boolean;
}

export function wholeCosts(costs: readonly number[]): WholeCosts {
  const dearest = costs.reduce((a, b) => Math.max(a, b), 0);
  if (dearest === 0) return { costs: costs.map(() => 0), costUnit: 1, exact: true };
  // One price: nothing to compare it with, so it is the unit.
  if (costs.every((cost) => cost === 0 || cost === dearest))
    return { costs: costs.map((cost) => (cost === 0 ? 0 : 1)), costUnit: dearest, exact: true };
  for (let scale = 1; scale <= 1e6; scale *= 10) {
    const whole = costs.map((cost) => Math.round(cost * scale));
    if (whole.every((value, i) => Math.abs(value / scale - costs[i]!) <= 1e-12 * dearest && value < 2 ** 40))
      return reduced(whole, 1 / scale, true);
  }
  const unit = dearest / 1e6;
  return reduced(
    costs.map((cost) => Math.floor(cost / unit)),
    unit,
    false,
  );
}

function reduced(whole: readonly number[], unit: number, exact: boolean): WholeCosts {
  const divisor = whole.reduce(gcd, 0);
  return { costs: whole.map((value) => value / divisor), costUnit: divisor * unit, exact };
}

export const gcd = (a: number, b: number): number => {
  let [x, y] = [a, b];
  while (y > 0) [x, y] = [y, x % y];
  return x;
};

/**
 * What layouts cost, in the user's own numbers: so many of each kind of stock at its price, in the order of the stock. Added layout by
 * layout, the last digit would hang on their order, and one plan would cost this or that.
 */
export function costOfLayouts(
  stock: readonly { readonly id: string; readonly cost: number }[],
  layouts: readonly { readonly stock: string; readonly times: number }[],
): number {
  const times = new Map<string, number>();
  for (const layout of layouts) times.set(layout.stock, (times.get(layout.stock) ?? 0) + layout.times);
  return stock.reduce((sum, { id, cost }) => sum + (times.get(id) ?? 0) * cost, 0);
}
