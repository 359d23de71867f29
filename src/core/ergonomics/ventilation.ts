import { type AnyCalculator, type CheckRow, checkTable, formula } from '../notes/index.ts';

/** Air at about 25 °C. Source: textbook values, ρ = 1.2 kg/m³ rounded, c_p = 1006 J/(kg K). */
const AIR_DENSITY = 1.2;
const AIR_HEAT = 1006;
const GRAVITY = 9.80665;
/** Discharge coefficient of a sharp-edged opening. Source: ASHRAE Handbook of Fundamentals, chapter on ventilation and infiltration. */
const DISCHARGE = 0.65;

export interface Vented {
  /** Heat given off inside, W. */
  readonly power: number;
  /** Free area of the lower opening, and of an upper one as large, m². */
  readonly area: number;
  /** Between the middles of the two openings, m. */
  readonly height: number;
  /** Air of the room, °C. */
  readonly room: number;
  readonly discharge?: number;
}

/**
 * Rise of the air in a cupboard above the room, K, when warm air leaves by an upper opening and cool air enters by a lower one.
 *
 *     Q = C_d A √(g H ΔT / T),  P = ρ c_p Q ΔT   ⇒   ΔT = (P / (ρ c_p C_d A))^(2/3) · (T / (g H))^(1/3)
 *
 * Two equal openings in series share the draught. T is the mean absolute temperature, found by iteration. What goes through
 * the panels is left out: the rise is never too small. Source: ASHRAE Fundamentals, stack effect.
 */
export function ventedRise({ power, area, height, room, discharge = DISCHARGE }: Vented): number {
  let rise = 10;
  for (let i = 0; i < 60; i++) {
    const T = room + 273.15 + rise / 2;
    rise = (power / (AIR_DENSITY * AIR_HEAT * discharge * area)) ** (2 / 3) * (T / (GRAVITY * height)) ** (1 / 3);
  }
  return rise;
}

/** Free area of each of two openings that keeps the rise to a value, m². */
export function ventArea(power: number, rise: number, height: number, room: number, discharge = DISCHARGE): number {
  const T = room + 273.15 + rise / 2;
  return power / (AIR_DENSITY * AIR_HEAT * rise * discharge * Math.sqrt((GRAVITY * height * rise) / T));
}

const CAUTION =
  'Gear that must not overheat has its maker’s limits; keep vents off foam and fabric, and let no mains part be reached through them.';
const SOURCE = {
  title: 'ASHRAE Handbook of Fundamentals',
  place: 'ventilation and infiltration, stack effect',
} as const;

export const gearWarming = formula({
  name: 'gear-warming',
  title: 'Warming of gear behind a door',
  topic: 'ergonomics',
  about: 'How much warmer than the room a cupboard gets with a vent low down and one as large high up.',
  formula: 'ΔT = (P/(ρ c_p C_d A))^(2/3) (T/(g H))^(1/3)',
  inputs: {
    power: { dimension: 'power', about: 'heat given off: what the gear draws', symbol: 'P', above: 0 },
    area: {
      dimension: 'area',
      about: 'free area of each vent: grilles leave half or less open',
      symbol: 'A',
      above: 0,
    },
    height: { dimension: 'length', about: 'between the middles of the vents', symbol: 'H', above: 0 },
    room: { dimension: 'temperature', about: 'room', default: 25, min: -20, max: 60 },
    discharge: {
      dimension: 'ratio',
      about: 'discharge coefficient',
      symbol: 'C_d',
      default: DISCHARGE,
      above: 0,
      max: 1,
    },
  },
  result: { symbol: 'ΔT', name: 'rise above the room', dimension: 'temperature difference' },
  source: SOURCE,
  caution: CAUTION,
  assumes: ['no fan; nothing goes through the panels, so that it is cooler in truth', 'air as at 25 °C and sea level'],
  compute: (v) =>
    ventedRise({ power: v.power, area: v.area, height: v.height / 1000, room: v.room, discharge: v.discharge }),
});

const area = formula({
  name: 'vent-area',
  title: 'Vents that keep gear cool',
  topic: 'ergonomics',
  about: 'Free area of each of two vents, one low and one high, for a rise that is allowed.',
  formula: 'A = P / (ρ c_p ΔT C_d √(g H ΔT/T))',
  inputs: {
    power: { dimension: 'power', about: 'heat given off: what the gear draws', symbol: 'P', above: 0 },
    rise: {
      dimension: 'temperature difference',
      about: 'rise allowed above the room',
      symbol: 'ΔT',
      default: 10,
      above: 0,
      max: 100,
    },
    height: { dimension: 'length', about: 'between the middles of the vents', symbol: 'H', above: 0 },
    room: { dimension: 'temperature', about: 'room', default: 25, min: -20, max: 60 },
    discharge: {
      dimension: 'ratio',
      about: 'discharge coefficient',
      symbol: 'C_d',
      default: DISCHARGE,
      above: 0,
      max: 1,
    },
  },
  result: { symbol: 'A', name: 'free area of each vent', dimension: 'area' },
  source: SOURCE,
  caution: CAUTION,
  assumes: ['no fan; nothing goes through the panels'],
  compute: (v) => ventArea(v.power, v.rise, v.height / 1000, v.room, v.discharge),
});

export const VENTILATION_CALCULATORS: readonly AnyCalculator[] = [gearWarming, area];

const WORKED =
  'worked by hand: 100 W, 10 K, 0.6 m, 298.15 K: Q = 100/(1.2·1006·10), A = Q/(0.65 √(9.80665·0.6·10/303.15))';
export const ventilationChecks: readonly CheckRow[] = [
  ...checkTable('vent-area', WORKED, 'computed', [[{ power: '100 W', height: 600 }, 0.028926, 'm²', '0.1%']]),
  ...checkTable('gear-warming', WORKED, 'computed', [
    [{ power: '100 W', height: 600, area: '289.26 cm²' }, 10, 'K', '0.1%'],
  ]),
];
