/**
 * Exponential, logarithm and cosine for what searches and draws lots, made only of what IEEE 754 rounds in one way: +, −, × and ÷.
 * ECMAScript leaves the last digits of `Math.exp`, `Math.log` and `**` to the engine, and they do differ from one version to the next. A
 * figure that is shown does not mind; a search that compares with them would go another way, and plan otherwise, on another machine.
 *
 * Method: reduction by powers of two, then the power series. Source: Cody & Waite, Software Manual for the Elementary Functions, 1980.
 */

/** ln 2 in two parts; the first has so few digits that small multiples of it are exact. Source: fdlibm, e_exp.c, 1993. */
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const LN2 = LN2_HIGH + LN2_LOW;
/** Below the first eˣ is less than the least number with all its digits, and taken for 0; above the second more than the greatest. */
const LEAST = -708.39;
const MOST = 709.78;

/** 1/n! up to the last that counts for numbers below 1. */
const FACTORIALS = [1];
for (let n = 1; n < 18; n++) FACTORIALS.push(FACTORIALS[n - 1]! / n);

/** eˣ for every number, to about two units in the last place; 0 below x = −708.39. */
export function exponential(x: number): number {
  if (Number.isNaN(x)) return x;
  if (x < LEAST) return 0;
  if (x > MOST) return Number.POSITIVE_INFINITY;
  const k = Math.round(x / LN2);
  const r = x - k * LN2_HIGH - k * LN2_LOW;
  let sum = 0;
  for (let n = FACTORIALS.length - 1; n >= 0; n--) sum = sum * r + FACTORIALS[n]!;
  // doubled and halved exactly
  for (let n = k; n > 0; n--) sum *= 2;
  for (let n = k; n < 0; n++) sum /= 2;
  return sum;
}

/** Natural logarithm of a finite number above 0, to about two units in the last place. @throws RangeError for any other. */
export function logarithm(x: number): number {
  if (!(x > 0 && x < Number.POSITIVE_INFINITY)) throw new RangeError(`no logarithm of ${x}`);
  let m = x;
  let e = 0;
  for (; m > Math.SQRT2; e++) m /= 2;
  for (; m < Math.SQRT1_2; e--) m *= 2;
  // ln m = 2 artanh s
  const s = (m - 1) / (m + 1);
  let sum = 0;
  for (let n = 25; n > 0; n -= 2) sum = sum * s * s + 1 / n;
  return e * LN2_HIGH + (2 * s * sum + e * LN2_LOW);
}

/** By what to multiply, in so many steps, to come from one number to another, both above 0. */
export const stepFactor = (from: number, to: number, steps: number): number =>
  exponential(logarithm(to / from) / steps);

/** Cosine of a share of a whole turn, 0 to 1, to about one unit in the last place of 1. */
export function cosineOfTurn(share: number): number {
  const half = Math.min(share, 1 - share);
  // as far from the nearest end of the half turn
  const near = Math.min(half, 0.5 - half);
  const sign = half > 0.25 ? -1 : 1;
  const isSteep = near > 0.125;
  // of the near angle, or of what it lacks to a right one
  const angle = 2 * Math.PI * (isSteep ? 0.25 - near : near);
  let sum = 0;
  for (let n = isSteep ? 17 : 16; n >= 0; n -= 2) sum = FACTORIALS[n]! - sum * angle * angle;
  return sign * sum * (isSteep ? angle : 1);
}
