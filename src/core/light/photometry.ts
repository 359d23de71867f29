import { parallelFactor, perpendicularFactor } from './form-factor.ts';

/** Light without a room model: points, discs, lumens over an area, cavities. Lengths m, areas m², lm, cd, lx. */

/** E = I h/(h² + x²)^1.5 on a level plane h below a source, x aside. Source: inverse square and cosine laws. */
export const pointIlluminance = (intensity: number, height: number, aside = 0): number =>
  (intensity * height) / (height * height + aside * aside) ** 1.5;

/** I = Φ/4π of a source that shines the same every way. */
export const meanIntensity = (flux: number): number => flux / (4 * Math.PI);

/** Mean over a disc of radius r under a source of even intensity: 2π I (1 − cos θ)/(π r²). */
export const discMean = (intensity: number, height: number, radius: number): number =>
  (2 * intensity * (1 - height / Math.hypot(height, radius))) / (radius * radius);

/** Under the middle of an evenly bright diffuse disc: π L r²/(r² + h²). */
export const discIlluminance = (luminance: number, radius: number, height: number): number =>
  (Math.PI * luminance * radius * radius) / (radius * radius + height * height);

/** Interreflected over direct light in a closed even room (a sphere): ρ/(1 − ρ). */
export const interreflectionGain = (reflectance: number): number => reflectance / (1 - reflectance);
/** Integrating-sphere multiplier with a share f of its wall open: ρ/(1 − ρ(1 − f)). Source: D. G. Goebel, Appl. Opt. 6 (1967). */
export const sphereMultiplier = (reflectance: number, ports: number): number =>
  reflectance / (1 - reflectance * (1 - ports));
/** Mean illuminance of a closed room of one reflectance: Φ/(S(1 − ρ)). Flux balance. */
export const enclosureIlluminance = (flux: number, surface: number, reflectance: number): number =>
  flux / (surface * (1 - reflectance));

/** N Φ UF MF / A, with what is lost on the way taken out. */
export interface LumenMethod {
  readonly area: number;
  /** Share of the lumens that reaches the plane. */
  readonly utilisation: number;
  /** What is left of it in service. */
  readonly maintenance?: number;
  /** The same as a divisor: more than 1. */
  readonly depreciation?: number;
  readonly waste?: number;
}
const share = ({ utilisation, maintenance = 1, depreciation = 1, waste = 1 }: LumenMethod): number =>
  (utilisation * maintenance) / (depreciation * waste);
export const meanIlluminance = (lumens: number, method: LumenMethod): number => (lumens * share(method)) / method.area;
export const lumensFor = (illuminance: number, method: LumenMethod): number =>
  (illuminance * method.area) / share(method);

/** RCR = 5 h (L + W)/(L W). Source: IES zonal cavity method. */
export const cavityRatio = (height: number, length: number, width: number): number =>
  (5 * height * (length + width)) / (length * width);
/** k = L W/(h (L + W)) = 5/RCR. */
export const roomIndex = (height: number, length: number, width: number): number =>
  (length * width) / (height * (length + width));

/**
 * What a cavity (the room above the lamps, or below the table tops) sends back through its opening: three diffuse surfaces solved
 * exactly, the walls as one. The IES formula for the effective cavity reflectance is the same sum.
 */
export function cavityReflectance(base: number, walls: number, length: number, width: number, height: number): number {
  if (height === 0) return base;
  const f = parallelFactor(length, width, height); // base ↔ opening
  const areaBase = length * width;
  const areaWalls = 2 * height * (length + width);
  const toWalls = 1 - f;
  const back = (areaBase / areaWalls) * toWalls; // walls → base, and walls → opening
  const ww = 1 - 2 * back;
  // 1 lm/m² comes in through the opening: E_b = f + M_w·toWalls…, in exitances: M_b = ρ_b(f + (1−f) M_w), M_w = ρ_w(back + back M_b + ww M_w)
  const Mw = (walls * back * (1 + base * f)) / (1 - walls * ww - walls * back * base * toWalls);
  const Mb = base * (f + toWalls * Mw);
  return f * Mb + toWalls * Mw;
}

/** Form factors of a box from its floor: to the ceiling, to one long wall (L × H) and to one short (W × H). */
export function boxFactors(
  length: number,
  width: number,
  height: number,
): { readonly ceiling: number; readonly long: number; readonly short: number } {
  return {
    ceiling: parallelFactor(length, width, height),
    long: perpendicularFactor(width, height, length),
    short: perpendicularFactor(length, height, width),
  };
}

export interface GreySurface {
  readonly area: number;
  readonly emissivity: number;
  /** K; undefined: it keeps no heat (insulated) and finds its own temperature. */
  readonly kelvin?: number;
}

/** Stefan–Boltzmann constant, W/(m²·K⁴). Source: CODATA 2018. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

/**
 * Heat exchanged by radiation in a closed enclosure of grey diffuse surfaces: J_i − (1 − ε_i) Σ F_ij J_j = ε_i σ T_i⁴. The same
 * linear system as interreflected light, with ρ = 1 − ε and M0 = ε σ T⁴. Source: J. P. Holman, Heat Transfer, ch. 8.
 * @returns heat given off by each, W, and its temperature, K
 */
export function greyExchange(
  surfaces: readonly GreySurface[],
  factors: readonly (readonly number[])[],
  sigma = STEFAN_BOLTZMANN,
): { readonly heat: readonly number[]; readonly kelvin: readonly number[] } {
  const n = surfaces.length;
  if (factors.length !== n || factors.some((row) => row.length !== n))
    throw new RangeError(`${n} surfaces need ${n} rows of ${n} factors`);
  const a = surfaces.map((s, i) => {
    const keeps = s.kelvin === undefined ? 1 : 1 - s.emissivity;
    return [
      ...surfaces.map((_, j) => (i === j ? 1 : 0) - keeps * factors[i]![j]!),
      s.kelvin === undefined ? 0 : s.emissivity * sigma * s.kelvin ** 4,
    ];
  });
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[best]![c]!)) best = r;
    if (Math.abs(a[best]![c]!) < 1e-14) throw new RangeError('no surface has a temperature that settles the others');
    [a[c], a[best]] = [a[best]!, a[c]!];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const f = a[r]![c]! / a[c]![c]!;
      for (let k = c; k <= n; k++) a[r]![k]! -= f * a[c]![k]!;
    }
  }
  const J = a.map((row, i) => row[n]! / row[i]!);
  const heat = surfaces.map((s, i) => s.area * (J[i]! - factors[i]!.reduce((sum, f, j) => sum + f * J[j]!, 0)));
  return { heat, kelvin: surfaces.map((s, i) => s.kelvin ?? (J[i]! / sigma) ** 0.25) };
}

/** Share of light a polished surface mirrors straight back: ((n − 1)/(n + 1))². Source: A. Fresnel; n = 1.5 for glass gives 0.04. */
export const mirrorShare = (index: number): number => ((index - 1) / (index + 1)) ** 2;

/** Luminance that room light adds to a display, cd/m²: diffuse E ρ/π and mirrored L r. */
export const veilOf = (illuminance: number, diffuse: number, mirrored: number, share: number): number =>
  (illuminance * diffuse) / Math.PI + mirrored * share;
/** Contrast of a display with light on it: (L_white + veil)/(L_black + veil). */
export const contrastOf = (white: number, black: number, veil: number): number => (white + veil) / (black + veil);
