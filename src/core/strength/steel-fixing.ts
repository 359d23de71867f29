import { convert, inch } from '../quantity/index.ts';

/**
 * Screws in thin steel by AISI S100, section E4 (J4 in later editions). Lengths mm, stresses MPa, forces N, nominal
 * strengths; the allowable one is nominal / Ω with Ω = 3.0. Later editions of S100 adjust the pull-out equation: see the
 * edition your code names.
 */
export const SCREW_SAFETY = 3.0;

/** Pull-out from the sheet behind: 0.85 t d F_u, t the lesser of sheet and penetration. Source: AISI S100, eq. E4.4.1-1. */
export const pulloutSteel = (thickness: number, diameter: number, ultimate: number): number =>
  0.85 * thickness * diameter * ultimate;

/** Pull-over of the sheet in front over the head: 1.5 t d_w F_u, d_w at most 1/2 in (3/4 in since 2012). AISI S100, eq. E4.4.2-1. */
export const pulloverSteel = (thickness: number, head: number, ultimate: number): number =>
  1.5 * thickness * Math.min(head, inch(0.75)) * ultimate;

/**
 * Tilting and bearing in shear. t2/t1 ≤ 1: the least of 4.2 √(t2³ d) F_u2, 2.7 t1 d F_u1, 2.7 t2 d F_u2; ≥ 2.5: the least of
 * the last two; between: straight line. t1 is the sheet under the head. Source: AISI S100, section E4.3.1.
 */
export function screwShearSteel(
  head: { readonly thickness: number; readonly ultimate: number },
  behind: { readonly thickness: number; readonly ultimate: number },
  diameter: number,
): number {
  const bearing = Math.min(
    2.7 * head.thickness * diameter * head.ultimate,
    2.7 * behind.thickness * diameter * behind.ultimate,
  );
  const tilting = Math.min(4.2 * Math.sqrt(behind.thickness ** 3 * diameter) * behind.ultimate, bearing);
  const ratio = behind.thickness / head.thickness;
  if (ratio <= 1) return tilting;
  if (ratio >= 2.5) return bearing;
  return tilting + ((bearing - tilting) * (ratio - 1)) / 1.5;
}

/**
 * Steel studs by mils, minimum base thickness in inches. Design thickness is the minimum over 0.95.
 * Source: AISI S201 / S220 and manufacturers' tables (27, 68 and 118 mil from memory).
 */
export const STUD_MILS = {
  '18': 0.0179,
  '27': 0.0269,
  '30': 0.0296,
  '33': 0.0329,
  '43': 0.0428,
  '54': 0.0538,
  '68': 0.0677,
  '97': 0.0966,
  '118': 0.118,
} as const;
export type StudMils = keyof typeof STUD_MILS;
export const STUD_MILS_NAMES = ['18', '27', '30', '33', '43', '54', '68', '97', '118'] as const satisfies StudMils[];

export const studThickness = (mils: StudMils): { least: number; design: number } => ({
  least: inch(STUD_MILS[mils]),
  design: inch(STUD_MILS[mils] / 0.95),
});

const ksi = (value: number): number => convert(value, 'ksi', 'stress');
/** Yield and ultimate stress of stud steel, MPa. Source: ASTM A1003 / AISI product tables (ultimates seen as table bases). */
export const STUD_STEEL = {
  '33 ksi': { yield: ksi(33), ultimate: ksi(45) },
  '50 ksi': { yield: ksi(50), ultimate: ksi(65) },
} as const;

/**
 * The same number names different sheets in different trades, inches: why plans store mils. The three of 20 gauge were seen in
 * the trade press, framing thicknesses are those by mils; the other sheet-metal ones are from memory.
 */
export const SHEET_GAUGES = {
  'drywall framing': { '25': 0.0179, '20': 0.0296 },
  'structural framing': { '20': 0.0329, '18': 0.0428, '16': 0.0538, '14': 0.0677, '12': 0.0966 },
  'sheet-metal (Manufacturers’ Standard)': { '20': 0.0359, '18': 0.0478, '16': 0.0598, '14': 0.0747, '12': 0.1046 },
} as const satisfies Record<string, Readonly<Record<string, number>>>;
