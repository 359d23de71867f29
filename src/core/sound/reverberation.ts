import { powerAttenuation, sabineConstant } from './air.ts';

/**
 * Reverberation time of a room, s, by the formulas that suit it. Volumes m³, areas m², coefficients 0 … 1.
 *
 * All share T = k V / (absorption + 4 m V), k = 24 ln 10 / c; they differ in how the surfaces' coefficients make the absorption.
 * Statistical: they describe a room whose sound goes everywhere, above the Schroeder frequency.
 */
export interface Patch {
  readonly area: number;
  readonly coefficient: number;
}
export interface Enclosed {
  readonly volume: number;
  readonly patches: readonly Patch[];
  /** Absorption of people and things, m². */
  readonly objects?: number;
  /** Attenuation of the air, dB/km. */
  readonly air?: number;
  /** k, s/m; 24 ln 10 / c at 343 m/s when left out. */
  readonly constant?: number;
}

export const STANDARD_SPEED = 343;

export const totalArea = (patches: readonly Patch[]): number => patches.reduce((sum, p) => sum + p.area, 0);
/** Σ S α, m² (metric sabins). */
export const absorption = (patches: readonly Patch[]): number =>
  patches.reduce((sum, p) => sum + p.area * p.coefficient, 0);
export const meanCoefficient = (patches: readonly Patch[]): number => absorption(patches) / totalArea(patches);

const rest = ({ volume, objects = 0, air = 0 }: Enclosed): number => objects + 4 * powerAttenuation(air) * volume;
const constantOf = ({ constant }: Enclosed): number => constant ?? sabineConstant(STANDARD_SPEED);
/** −ln(1 − α): what a surface takes from each pass, as an exponent. Infinite for a surface that sends nothing back. */
const exponent = (coefficient: number): number => {
  if (!(coefficient >= 0 && coefficient <= 1))
    throw new RangeError(`a coefficient lies between 0 and 1, got ${coefficient}`);
  return -Math.log1p(-coefficient);
};

/** T = k V / (Σ S α + A + 4 m V). Good while the mean coefficient is below about 0.2. Source: W. C. Sabine; H. Kuttruff, Room Acoustics. */
export const sabine = (room: Enclosed): number =>
  (constantOf(room) * room.volume) / (absorption(room.patches) + rest(room));

/** T = k V / (−S ln(1 − ᾱ) + A + 4 m V): right at the dead end too, for absorption spread evenly. Source: C. F. Eyring (1930). */
export const eyring = (room: Enclosed): number =>
  (constantOf(room) * room.volume) / (totalArea(room.patches) * exponent(meanCoefficient(room.patches)) + rest(room));

/** T = k V / (−Σ S_i ln(1 − α_i) + A + 4 m V). A single surface of α = 1 makes it 0: not for open windows. Source: G. Millington (1932). */
export const millington = (room: Enclosed): number =>
  (constantOf(room) * room.volume) /
  (room.patches.reduce((sum, p) => sum + (p.area > 0 ? p.area * exponent(p.coefficient) : 0), 0) + rest(room));

/** Area and mean coefficient of each of the three pairs of opposite faces: across x, y, z. */
export type Pairs = readonly [Patch, Patch, Patch];

/** T = (k V / S²) Σ S_j / (−ln(1 − α_j)): for absorption on one pair of faces; overstates when a pair is hard. Source: D. Fitzroy (1959). */
export function fitzroy({
  volume,
  pairs,
  constant,
  air = 0,
}: Omit<Enclosed, 'patches' | 'objects'> & { readonly pairs: Pairs }): number {
  const k = constant ?? sabineConstant(STANDARD_SPEED);
  const S = totalArea(pairs);
  const m4v = 4 * powerAttenuation(air) * volume;
  return pairs.reduce((sum, p) => sum + ((p.area / S) * k * volume) / (S * exponent(p.coefficient) + m4v), 0);
}

/** T = Π [k V / (−S ln(1 − α_j) + 4 m V)]^(S_j/S): uneven absorption on three pairs of faces. Source: H. Arau-Puchades, Acustica 65 (1988). */
export function arau({
  volume,
  pairs,
  constant,
  air = 0,
}: Omit<Enclosed, 'patches' | 'objects'> & { readonly pairs: Pairs }): number {
  const k = constant ?? sabineConstant(STANDARD_SPEED);
  const S = totalArea(pairs);
  const m4v = 4 * powerAttenuation(air) * volume;
  return pairs.reduce(
    (product, p) => product * ((k * volume) / (S * exponent(p.coefficient) + m4v)) ** (p.area / S),
    1,
  );
}

/** Absorption a room needs for a reverberation time by Sabine, m²: A = k V / T. */
export const absorptionFor = (volume: number, time: number, constant = sabineConstant(STANDARD_SPEED)): number =>
  (constant * volume) / time;

/** Mean distance between reflections in a diffuse room, m: 4 V / S. */
export const meanFreePath = (volume: number, area: number): number => (4 * volume) / area;

/** The three pairs of faces of a box: across the length, across the width, floor and ceiling, m². */
export const pairAreas = (length: number, width: number, height: number): readonly [number, number, number] => [
  2 * width * height,
  2 * length * height,
  2 * length * width,
];
