import { WAITING, type Waiting } from '../finish/index.ts';

/**
 * Saturation pressure of water vapour over water, Pa, t in °C: the Magnus formula.
 *
 *     e_s = 611.2 · exp(17.62 t / (243.12 + t))
 *
 * Source: Sonntag, Zeitschrift für Meteorologie 70, 1990; WMO No. 8, 2008 edition, annex 4.B. −45 to 60 °C; within 0.3 % of steam tables.
 */
export const saturationPressure = (celsius: number): number => 611.2 * Math.exp((17.62 * celsius) / (243.12 + celsius));

export interface DryingAir {
  readonly celsius: number;
  /** Relative humidity, %. */
  readonly humidity: number;
}
/** What product sheets of paint give their drying times for: 77 °F and half-dry air. */
export const SHEET_AIR: DryingAir = { celsius: 25, humidity: 50 };

/** What pulls water out of a film, Pa: saturation pressure less what the air holds already. */
export const vapourDeficit = ({ celsius, humidity }: DryingAir): number =>
  saturationPressure(celsius) * (1 - humidity / 100);

/**
 * How much longer water takes to leave a film than where its drying time was measured: evaporation goes as the deficit (Dalton's law).
 */
export const dryingFactor = (air: DryingAir, measured: DryingAir = SHEET_AIR): number =>
  vapourDeficit(measured) / vapourDeficit(air);

/** Below this neither latex nor PVA makes a film, °C. Source: product sheets of both, 50 °F. */
export const LEAST_WARMTH = 10;
/** Above this nothing made with water dries in any known time, %. Common practice. */
export const MOST_DAMP = 85;

/** What loses its water to the air; glue loses it to the wood. */
const TO_THE_AIR: ReadonlySet<Waiting> = new Set([
  'latex paint, dry to touch',
  'latex paint, next coat',
  'light filler',
  'ready-mixed joint compound, a coat',
]);
/** The air the published waits are for: paint by its sheets, the others at about 20 °C and half-dry. */
const measuredIn = (step: Waiting): DryingAir => (step.startsWith('latex') ? SHEET_AIR : { celsius: 20, humidity: 50 });

/** Minutes to wait: the longest published, longer in cold and damp air and never shorter than published. */
export function waitFor(step: Waiting, air: DryingAir): number {
  const factor = TO_THE_AIR.has(step) ? Math.max(1, dryingFactor(air, measuredIn(step))) : 1;
  return Math.ceil(WAITING[step].to * 60 * factor);
}
