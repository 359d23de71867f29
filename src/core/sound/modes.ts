/** Standing waves of a rigid box. Lengths m, frequencies Hz. */

export interface Mode {
  readonly order: readonly [number, number, number];
  readonly frequency: number;
  readonly kind: 'axial' | 'tangential' | 'oblique';
}

/** f = (c/2) √((p/L)² + (q/W)² + (r/H)²). Source: G. Ballou (ed.), Handbook for Sound Engineers (2008), ch. 6; H. Kuttruff, Room Acoustics. */
export const modeFrequency = (
  [p, q, r]: readonly [number, number, number],
  [L, W, H]: readonly [number, number, number],
  speed: number,
): number => (speed / 2) * Math.hypot(p / L, q / W, r / H);

/** More than this many are not worth listing, and would take minutes. */
const MOST_MODES = 200_000;
const ordersBelow = (size: readonly [number, number, number], speed: number, limit: number): readonly number[] =>
  size.map((s) => Math.floor((2 * limit * s) / speed + 1e-9));
const boxOf = (most: readonly number[]): number => most.reduce((product, m) => product * (m + 1), 1);

/**
 * A frequency up to which the modes can be listed: the one that is wanted, or a lower one for a room of sizes that none has.
 * @throws RangeError when a size is not above 0
 */
export function listedUpTo(size: readonly [number, number, number], speed: number, wanted: number): number {
  if (!size.every((s) => s > 0 && s < Number.POSITIVE_INFINITY)) throw new RangeError(`no room is ${size.join(' × ')}`);
  let limit = wanted;
  while (!(boxOf(ordersBelow(size, speed, limit)) <= MOST_MODES)) limit /= 2;
  return limit;
}

/**
 * Every mode up to a frequency, ascending; equal ones in the order of their numbers.
 * @throws RangeError when there would be hundreds of thousands of them
 */
export function modesBelow(size: readonly [number, number, number], speed: number, limit: number): readonly Mode[] {
  const modes: Mode[] = [];
  const most = ordersBelow(size, speed, limit);
  if (!(boxOf(most) <= MOST_MODES))
    throw new RangeError(
      'so large a room has too many modes to list below so high a frequency: statistics serve better there',
    );
  for (let p = 0; p <= most[0]!; p++)
    for (let q = 0; q <= most[1]!; q++)
      for (let r = 0; r <= most[2]!; r++) {
        const zeros = [p, q, r].filter((n) => n === 0).length;
        if (zeros === 3) continue;
        const frequency = modeFrequency([p, q, r], size, speed);
        if (frequency > limit * (1 + 1e-12)) continue;
        modes.push({
          order: [p, q, r],
          frequency,
          kind: zeros === 2 ? 'axial' : zeros === 1 ? 'tangential' : 'oblique',
        });
      }
  return modes.sort(
    (a, b) =>
      a.frequency - b.frequency || b.order[0] - a.order[0] || b.order[1] - a.order[1] || b.order[2] - a.order[2],
  );
}

/** The lowest `count` modes. */
export function lowestModes(size: readonly [number, number, number], speed: number, count: number): readonly Mode[] {
  for (let limit = speed / Math.max(...size); ; limit *= 1.5) {
    const modes = modesBelow(size, speed, limit);
    if (modes.length >= count) return modes.slice(0, count);
  }
}

/** How many modes lie up to a frequency, each pair of orders at once. @throws RangeError for a room so large that it would take seconds. */
export function countModes([L, W, H]: readonly [number, number, number], speed: number, limit: number): number {
  const k = (2 * limit * (1 + 1e-12)) / speed;
  const [ps, qs] = [Math.floor(k * L), Math.floor(k * W)];
  if (!((ps + 1) * (qs + 1) <= 1e6))
    throw new RangeError('so large a room has too many modes below so high a frequency to count');
  let count = -1; // 0, 0, 0 is no mode
  for (let p = 0; p <= ps; p++)
    for (let q = 0; q <= qs; q++) {
      const left = k * k - (p / L) ** 2 - (q / W) ** 2;
      if (left >= 0) count += Math.floor(H * Math.sqrt(left)) + 1;
    }
  return count;
}

/** 4πV f³/(3c³) + πS f²/(4c²) + L f/(8c), L = 4(l + w + h): the smooth count. Source: H. Kuttruff, Room Acoustics. */
export function smoothModeCount([l, w, h]: readonly [number, number, number], speed: number, f: number): number {
  const V = l * w * h;
  const S = 2 * (l * w + l * h + w * h);
  const L = 4 * (l + w + h);
  const x = f / speed;
  return (4 * Math.PI * V * x ** 3) / 3 + (Math.PI * S * x ** 2) / 4 + (L * x) / 8;
}

/** Above it the modes overlap at least threefold and statistics hold: 2000 √(T/V). Source: M. R. Schroeder. */
export const schroederFrequency = (time: number, volume: number): number => 2000 * Math.sqrt(time / volume);

/** Least distance between neighbouring modes and where several fall within a share of one another: what colours a voice. */
export function crowdedModes(modes: readonly Mode[], share = 0.05): readonly (readonly Mode[])[] {
  const groups: Mode[][] = [];
  for (const mode of modes) {
    const last = groups.at(-1);
    if (last && mode.frequency - last.at(-1)!.frequency <= share * mode.frequency) last.push(mode);
    else groups.push([mode]);
  }
  return groups.filter((g) => g.length > 1);
}
