/**
 * Copper conductors: sizes by gauge or by area, and what they resist.
 * Areas mm², diameters mm, resistances Ω/km, temperatures °C.
 */

/** Resistivity of annealed copper at 20 °C, Ω·mm²/m. Source: International Annealed Copper Standard, 1/58 (NBS Handbook 100, 1966). */
export const COPPER_RESISTIVITY = 1 / 58;
/** Its temperature coefficient referred to 20 °C, 1/K. Same source. */
export const COPPER_COEFFICIENT = 0.00393;

/**
 * Diameter of a solid wire by American wire gauge, mm: 36 is 0.005 in and each step is 92^(1/39).
 * Gauges 1/0 … 4/0 are 0, −1, −2, −3. Source: ASTM B258-02.
 */
export const gaugeDiameter = (gauge: number): number => 0.005 * 25.4 * gaugeRatio(36 - gauge);

/** Ratio of the diameters of two gauges that lie `steps` apart. Source: ASTM B258-02. */
export const gaugeRatio = (steps = 1): number => 92 ** (steps / 39);

/** Cross-section of a solid wire by American wire gauge, mm². */
export const gaugeArea = (gauge: number): number => (Math.PI / 4) * gaugeDiameter(gauge) ** 2;

/** The gauge (not rounded) whose solid wire has this area. */
export const gaugeOfArea = (area: number): number =>
  36 - (39 * Math.log(Math.sqrt((4 * positive(area, 'area')) / Math.PI) / 0.127)) / Math.log(92);

/** Seven strands lie askew, so each is a little longer than the cable. Source: ratio of the columns of NFPA 70 chapter 9 table 8. */
export const LAY_FACTOR = { solid: 1, '7 strands': 1.02 } as const;
export type Stranding = keyof typeof LAY_FACTOR;

/**
 * Resistance of a copper conductor of this area, Ω/km:   R = 1000 ρ/A · [1 + α(T − 20)] · lay.
 * Source: International Annealed Copper Standard; linear in T, good from about −20 to 120 °C.
 */
export function copperResistance(area: number, temperature = 20, stranding: Stranding = 'solid'): number {
  return ((1000 * COPPER_RESISTIVITY) / positive(area, 'area')) * warmed(temperature) * LAY_FACTOR[stranding];
}

const warmed = (temperature: number): number => 1 + COPPER_COEFFICIENT * (temperature - 20);

/** R2 = R1 [1 + α(T2 − T1)], α being the coefficient that belongs to T1. */
export const resistanceAt = (resistance: number, from: number, to: number, alpha: number): number =>
  resistance * (1 + alpha * (to - from));

/** The coefficient of copper referred to another temperature: α1 = α20 / (1 + α20 (T1 − 20)). */
export const copperCoefficientAt = (temperature: number): number => COPPER_COEFFICIENT / warmed(temperature);

/** k_t = 250/(230 + t): multiply a resistance measured at t °C by it to have it at 20 °C. Source: IEC 60228:2004, annex. */
export const factorTo20 = (temperature: number): number => 250 / (230 + temperature);

/**
 * Highest d.c. resistance at 20 °C of plain copper, Ω/km by nominal mm²: class 1 and 2 (solid, stranded) and class 5 (flexible).
 * Source: IEC 60228:2004 tables 1-3, from reprints; the rows marked so are from memory and not used by a check.
 */
export const STANDARD_AREAS = {
  source: { title: 'IEC 60228', edition: '2004', place: 'tables 1-3' },
  rows: [
    { area: 0.5, solid: 36.0, flexible: 39.0 },
    { area: 0.75, solid: 24.5, flexible: 26.0 },
    { area: 1, solid: 18.1, flexible: 19.5 },
    { area: 1.5, solid: 12.1, flexible: 13.3 }, // solid: from memory
    { area: 2.5, solid: 7.41, flexible: 7.98 },
    { area: 4, solid: 4.61, flexible: 4.95 },
    { area: 6, solid: 3.08, flexible: 3.3 }, // from memory
    { area: 10, solid: 1.83, flexible: 1.91 },
  ],
} as const;
export type ConductorClass = 'solid' | 'flexible';

/** The row of IEC 60228 for a nominal area, Ω/km at 20 °C. @throws RangeError when the area is not a nominal one. */
export function standardResistance(area: number, kind: ConductorClass): number {
  const row = STANDARD_AREAS.rows.find((r) => Math.abs(r.area - area) < 1e-9);
  if (!row)
    throw new RangeError(
      `${area} mm² is not a nominal area here: ${STANDARD_AREAS.rows.map((r) => r.area).join(', ')}`,
    );
  return row[kind];
}

/**
 * D.c. resistance at 75 °C of uncoated copper, Ω per 1000 ft by gauge.
 * Source: NFPA 70 (NEC) chapter 9 table 8, from a reprint.
 */
export const RESISTANCE_AT_75 = {
  source: { title: 'NFPA 70 (NEC)', place: 'chapter 9 table 8' },
  rows: [
    { gauge: 18, solid: 7.77, stranded: 7.95 },
    { gauge: 16, solid: 4.89, stranded: 4.99 },
    { gauge: 14, solid: 3.07, stranded: 3.14 },
    { gauge: 12, solid: 1.93, stranded: 1.98 },
    { gauge: 10, solid: 1.21, stranded: 1.24 },
  ],
} as const;

/** Drop along both conductors of a two-wire run, V: ΔV = 2 L I R'. Length mm one way, current A, resistance Ω/km. */
export const twoWireDrop = (length: number, current: number, ohmPerKm: number): number =>
  2 * (length / 1e6) * current * ohmPerKm;

/** Least copper area that keeps a two-wire run within a drop, mm². */
export const areaForDrop = (length: number, current: number, drop: number, temperature = 20): number =>
  (2 * (length / 1000) * current * COPPER_RESISTIVITY * warmed(temperature)) / positive(drop, 'drop');

/**
 * Resistance of one copper rail of a strip, Ω/m: ρ/(w t), width mm, copper thickness µm.
 * One ounce a square foot is 35 µm nominal.
 */
export const railResistance = (width: number, microns: number, temperature = 20): number =>
  ((COPPER_RESISTIVITY * 1000) / (positive(width, 'width') * positive(microns, 'copper thickness'))) *
  warmed(temperature);

/**
 * Current that warms an outer trace of copper by a rise, A: I = 0.048 ΔT^0.44 a^0.725, a its section in square mils.
 * Source: IPC-2221, 6.2 (its constants from memory). Width mm, copper thickness µm, rise K.
 */
export const traceCurrent = (width: number, microns: number, rise: number): number =>
  0.048 * rise ** 0.44 * ((width * microns) / 1000 / 0.0254 ** 2) ** 0.725;

export function positive(value: number, name: string): number {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be more than nothing, got ${value}`);
  return value;
}
