/**
 * Closed forms of loaded lines, for single sums and as a second route beside the network solver.
 * Lengths m, resistances per metre of the loop (both conductors together) unless said otherwise, currents A, voltages V.
 * Source: V. K. Mehta & R. Mehta, Principles of Power System, chapter 13 "D.C. distribution"; Ohm's and Kirchhoff's laws.
 */

/** Uniform load i (A/m) fed at one end: drop at x, V = i r (L x − x²/2). */
export const uniformDrop = (i: number, r: number, length: number, x: number): number =>
  i * r * (length * x - (x * x) / 2);

/** Uniform load fed at one end: loss in the conductors, i² r L³ / 3. */
export const uniformLoss = (i: number, r: number, length: number): number => (i * i * r * length ** 3) / 3;

export interface TwoEnds {
  readonly lowestAt: number;
  readonly lowest: number;
  readonly currentA: number;
  readonly currentB: number;
  readonly loss: number;
}

/** Uniform load fed at both ends A and B: x = L/2 + (VA − VB)/(i r L), V = VA − i r x²/2. Clamped when one end carries it all. */
export function uniformTwoEnds(va: number, vb: number, i: number, r: number, length: number): TwoEnds {
  const turn = length / 2 + (va - vb) / (i * r * length);
  const x = Math.min(length, Math.max(0, turn));
  // Beyond the ends the turning point is still where the current would be zero: the profile is the same parabola.
  const at = (s: number): number => va - i * r * (turn * s - (s * s) / 2);
  const currentA = i * turn;
  const currentB = i * length - currentA;
  // ∫ (i(turn − s))² r ds
  const loss = (r * i * i * (turn ** 3 + (length - turn) ** 3)) / 3;
  return { lowestAt: x, lowest: at(x), currentA, currentB, loss };
}

/** N equal loads behind equal sections of loop resistance r, fed at one end: drop at the last, i r N(N+1)/2. */
export const ladderDropOneEnd = (count: number, i: number, r: number): number => (i * r * count * (count + 1)) / 2;
/** The same fed at both ends through N+1 sections: greatest drop, i r [(N+1)² − ((N+1) mod 2)]/8. */
export const ladderDropTwoEnds = (count: number, i: number, r: number): number =>
  (i * r * ((count + 1) ** 2 - ((count + 1) % 2))) / 8;
/** Loss in the conductors of the ladder fed at one end: i² r N(N+1)(2N+1)/6. */
export const ladderLossOneEnd = (count: number, i: number, r: number): number =>
  (i * i * r * count * (count + 1) * (2 * count + 1)) / 6;
/** Loss fed equally at both ends: the sum over the N+1 sections of (i (k − N/2))² r, k = 0 … N, = i² r N(N+1)(N+2)/12. */
export const ladderLossTwoEnds = (count: number, i: number, r: number): number =>
  (i * i * r * count * (count + 1) * (count + 2)) / 12;

/** A load that is a conductance g (S/m) all along: V(L) = Vs / cosh(L √(r g)). */
export const resistiveEndVoltage = (vs: number, r: number, g: number, length: number): number =>
  vs / Math.cosh(length * Math.sqrt(r * g));

/** A load that takes the power P whatever its voltage, behind R: V = [Vs + √(Vs² − 4 P R)]/2; undefined where no voltage carries it. */
export function constantPowerVoltage(vs: number, power: number, resistance: number): number | undefined {
  const under = vs * vs - 4 * power * resistance;
  return under < 0 ? undefined : (vs + Math.sqrt(under)) / 2;
}

export interface Tapped {
  /** Metres from end A, ascending or not. */
  readonly at: readonly number[];
  /** Amperes taken there. */
  readonly loads: readonly number[];
  /** A/m along the whole line. */
  readonly uniform: number;
  readonly length: number;
  /** Ω/m of the loop. */
  readonly loop: number;
}
export interface TappedAnswer {
  readonly voltages: readonly number[];
  readonly endVoltage: number;
  readonly lowest: number;
  readonly lowestAt: number;
  readonly currentA: number;
  readonly currentB: number;
  readonly loss: number;
}

/**
 * Voltages along a line with loads tapped off at points and a uniform load besides, fed at A or at both ends, by moments:
 * the current from A follows from the drop over the whole line, everything else from walking along it.
 * @throws RangeError when a point lies off the line or the lists differ in length.
 */
export function tappedLine(line: Tapped, va: number, vb?: number): TappedAnswer {
  const { at, loads, uniform, length, loop } = line;
  if (at.length !== loads.length) throw new RangeError(`${loads.length} loads but ${at.length} positions`);
  const taps = at.map((x, k) => ({ x, i: loads[k]!, k })).sort((a, b) => a.x - b.x);
  for (const { x } of taps)
    if (!(x >= 0 && x <= length)) throw new RangeError(`a load at ${x} m is off the line of ${length} m`);
  const total = uniform * length + taps.reduce((sum, tap) => sum + tap.i, 0);
  // Moment about B: the current A must send so that the far end comes out at vb.
  const moment = (uniform * length ** 2) / 2 + taps.reduce((sum, tap) => sum + tap.i * (length - tap.x), 0);
  const currentA = vb === undefined ? total : (va - vb) / (loop * length) + moment / length;
  const voltages = new Array<number>(at.length);
  let [x, v, current, loss] = [0, va, currentA, 0];
  let [lowest, lowestAt] = [va, 0];
  const walk = (to: number): void => {
    const d = to - x;
    // The current falls by the uniform load on the way; its zero inside the section is a place of least voltage.
    const zero = uniform > 0 ? current / uniform : Number.POSITIVE_INFINITY;
    if (zero > 0 && zero < d) {
      const there = v - loop * (current * zero - (uniform * zero * zero) / 2);
      if (there < lowest) [lowest, lowestAt] = [there, x + zero];
    }
    v -= loop * (current * d - (uniform * d * d) / 2);
    loss += loop * (current * current * d - current * uniform * d * d + (uniform * uniform * d ** 3) / 3);
    current -= uniform * d;
    x = to;
    if (v < lowest) [lowest, lowestAt] = [v, x];
  };
  for (const tap of taps) {
    walk(tap.x);
    voltages[tap.k] = v;
    current -= tap.i;
  }
  walk(length);
  return { voltages, endVoltage: v, lowest, lowestAt, currentA, currentB: total - currentA, loss };
}
