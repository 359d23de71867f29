import type { Origin, Source } from '../../notes/index.ts';
import { convert, inch } from '../../quantity/index.ts';

const TABLE_12_1: Source = {
  title: 'Wood Handbook: Wood as an Engineering Material, FPL-GTR-190',
  edition: '2010',
  place: 'table 12-1, range of static bending properties',
};
const AWS_SHELVES: Source = {
  title: 'Architectural Woodwork Standards',
  edition: 'ed. 1, 2009',
  place: 'sec. 10, item 4.4.14.10',
};

/** A kind of panel or metal a shelf may be made of, with its bending stiffness. Low end of a range, on the safe side. */
export interface PanelKind {
  /** MPa; [low, high] where the source gives a range. */
  readonly modulus: readonly [low: number, high: number];
  readonly rupture?: readonly [low: number, high: number];
  /** kg/m³; [low, high]. */
  readonly density: readonly [low: number, high: number];
  readonly source: Origin;
  readonly densitySource: Origin;
}
const mpsi = (low: number, high = low): readonly [number, number] => [
  convert(low, 'Mpsi', 'stress'),
  convert(high, 'Mpsi', 'stress'),
];
const psi = (low: number, high = low): readonly [number, number] => [
  convert(low, 'psi', 'stress'),
  convert(high, 'psi', 'stress'),
];
/** The handbook prints the specific gravity of the range it tested. */
const gravity = (low: number, high: number): readonly [number, number] => [1000 * low, 1000 * high];

const handbook = (
  modulus: readonly [number, number],
  rupture: readonly [number, number],
  density: readonly [number, number],
): PanelKind => ({ modulus, rupture, density, source: TABLE_12_1, densitySource: TABLE_12_1 });

/** One mill's southern-pine board, GPa. Source: FPL-GTR-190 (2010), table 12-3. */
const strandBoard = (gigapascal: number): PanelKind => ({
  modulus: [1000 * gigapascal, 1000 * gigapascal],
  density: gravity(0.8, 0.8),
  source: { ...TABLE_12_1, place: 'table 12-3, mill 1, southern pine' },
  densitySource: { ...TABLE_12_1, place: 'table 12-3, mill 1, southern pine' },
});

export const PANEL_KINDS = {
  particleboard: handbook(mpsi(0.4, 0.6), psi(2200, 3500), gravity(0.6, 0.8)),
  MDF: handbook(mpsi(0.52), psi(5200), gravity(0.7, 0.9)),
  hardboard: handbook(mpsi(0.45, 0.8), psi(4500, 8200), gravity(0.9, 1.0)),
  OSB: handbook(mpsi(0.64, 0.91), psi(3161, 5027), gravity(0.5, 0.8)),
  'OSB along its strands': { ...strandBoard(4.41) },
  'OSB across its strands': { ...strandBoard(2.89) },
  plywood: handbook(mpsi(1.01, 1.24), psi(4890, 6180), gravity(0.4, 0.6)),
  LVL: handbook(mpsi(1.3, 2.79), psi(4900, 12500), gravity(0.4, 0.7)),
  'veneer-core fir plywood': {
    modulus: mpsi(0.95),
    density: gravity(0.4, 0.6),
    source: AWS_SHELVES,
    densitySource: TABLE_12_1,
  },
  'veneer-core fir plywood with hardwood faces': {
    modulus: mpsi(1.8),
    density: gravity(0.4, 0.6),
    source: AWS_SHELVES,
    densitySource: TABLE_12_1,
  },
  steel: {
    modulus: [200_000, 200_000],
    density: [7850, 7850],
    source: 'from memory',
    densitySource: 'from memory',
  },
  aluminium: {
    modulus: [69_000, 70_000],
    density: [2700, 2700],
    source: 'from memory',
    densitySource: 'from memory',
  },
} as const satisfies Record<string, PanelKind>;
export type PanelKindName = keyof typeof PANEL_KINDS;
export const PANEL_KIND_NAMES = Object.keys(PANEL_KINDS) as readonly PanelKindName[];
export const panelKindOf = (name: PanelKindName): PanelKind => PANEL_KINDS[name];

/** One row of a product standard: values for thicknesses over `over` up to `upTo` mm. */
export interface GradeRow {
  readonly over: number;
  readonly upTo: number;
  /** MPa */
  readonly rupture?: number;
  readonly modulus?: number;
  /** Internal bond, MPa. */
  readonly bond?: number;
}
export interface PanelGrade {
  readonly rows: readonly GradeRow[];
  readonly source: Origin;
}

const EN_312_MODULUS = 'table as declared by panel makers';
/** Least values a graded panel must reach. Only rows that were seen or are marked; a thickness outside is refused. */
export const PANEL_GRADES = {
  'EN 312 P2': {
    source: { title: 'EN 312', edition: '2010 (bending strength), as declared', place: EN_312_MODULUS },
    rows: [
      { over: 6, upTo: 13, rupture: 11, modulus: 1800 },
      { over: 13, upTo: 20, rupture: 11, modulus: 1600 },
      { over: 20, upTo: 25, rupture: 10.5, modulus: 1500 },
      { over: 25, upTo: 32, rupture: 9.5, modulus: 1350 },
      { over: 32, upTo: 40, rupture: 8.5 },
    ],
  },
  'EN 312 P5': {
    source: { title: 'EN 312', place: EN_312_MODULUS },
    rows: [
      { over: 13, upTo: 20, modulus: 2400 },
      { over: 20, upTo: 25, modulus: 2150 },
      { over: 25, upTo: 32, modulus: 1900 },
    ],
  },
  'EN 622-5 MDF': {
    source: 'from memory',
    rows: [
      { over: 9, upTo: 12, rupture: 22, modulus: 2500 },
      { over: 12, upTo: 19, rupture: 20, modulus: 2200 },
      { over: 19, upTo: 30, rupture: 18, modulus: 2100 },
    ],
  },
  'ANSI A208.2 MDF 210': {
    source: { title: 'ANSI A208.2', edition: '2009', place: 'table 2' },
    rows: [{ over: 0, upTo: 9.5, rupture: 18.9, bond: 0.32 }],
  },
  'ANSI A208.2 MDF 220': {
    source: { title: 'ANSI A208.2', edition: '2009', place: 'table 2' },
    rows: [{ over: 0, upTo: 9.5, rupture: 28.9, bond: 0.54 }],
  },
  'ANSI A208.2 MDF 230': {
    source: { title: 'ANSI A208.2', edition: '2009', place: 'table 2' },
    rows: [{ over: 0, upTo: 9.5, rupture: 28.9, bond: 0.9 }],
  },
  'ANSI A208.2 MDF 130': { source: 'from memory', rows: [{ over: 9.5, upTo: 50, rupture: 21.6, modulus: 2160 }] },
  'ANSI A208.2 MDF 155': { source: 'from memory', rows: [{ over: 9.5, upTo: 50, rupture: 27.9, modulus: 2790 }] },
  'ANSI A208.1-1999 particleboard M-2': {
    source: 'from memory',
    rows: [{ over: 0, upTo: 50, rupture: 14.5, modulus: 2250, bond: 0.45 }],
  },
  'ANSI A208.1-1999 particleboard M-3': {
    source: 'from memory',
    rows: [{ over: 0, upTo: 50, rupture: 16.5, modulus: 2750, bond: 0.55 }],
  },
} as const satisfies Record<string, PanelGrade>;
export type PanelGradeName = keyof typeof PANEL_GRADES;
export const PANEL_GRADE_NAMES = Object.keys(PANEL_GRADES) as readonly PanelGradeName[];

/** The row for a thickness in mm; undefined where the table has none. */
export const gradeRow = (grade: PanelGradeName, thickness: number): GradeRow | undefined =>
  (PANEL_GRADES[grade].rows as readonly GradeRow[]).find((row) => thickness > row.over && thickness <= row.upTo);

/** Typical declared density of EN 312 P2 board by thickness in mm, kg/m³. Source: a maker's technical data. */
export const PARTICLEBOARD_DENSITY = [
  [10, 700],
  [18, 650],
  [25, 640],
  [38, 600],
] as const;

/** Common sheet sizes, mm. Source: makers' lists; sizes of other regions from memory. */
export const SHEET_SIZES = {
  '4 x 8 ft': { length: 2440, width: 1220 },
  '5 x 5 ft': { length: 1525, width: 1525 },
  '2800 x 2070': { length: 2800, width: 2070 },
  '2620 x 2070': { length: 2620, width: 2070 },
} as const;

/** US plywood Performance Categories by name, in inches. */
const CATEGORIES = {
  '1/4': 1 / 4,
  '5/16': 5 / 16,
  '11/32': 11 / 32,
  '3/8': 3 / 8,
  '7/16': 7 / 16,
  '15/32': 15 / 32,
  '1/2': 1 / 2,
  '9/16': 9 / 16,
  '19/32': 19 / 32,
  '5/8': 5 / 8,
  '23/32': 23 / 32,
  '3/4': 3 / 4,
  '7/8': 7 / 8,
  '1': 1,
  '1-1/8': 9 / 8,
} as const;
export type PanelCategory = keyof typeof CATEGORIES;
/** By thickness; the order of the record would put '1' first. */
export const PANEL_CATEGORIES: readonly PanelCategory[] = (Object.keys(CATEGORIES) as PanelCategory[]).sort(
  (a, b) => CATEGORIES[a] - CATEGORIES[b],
);

/**
 * What a plywood panel sold under a Performance Category really measures, mm: least, most, and the recommended label.
 *
 * ±1/32 in up to 13/16 in, ±5 % above. The label is 1.03 times the least below 9/16 in; from there on the least thickness
 * of a sanded panel: 1/64 in under the category up to 13/16 in, 3 % under it above.
 * Source: US PS 1-09 / PS 2-10, Performance Category thickness table.
 */
export function panelThickness(category: PanelCategory): { least: number; most: number; label: number } {
  const nominal = CATEGORIES[category];
  const spread = nominal <= 13 / 16 ? 1 / 32 : 0.05 * nominal;
  const least = nominal - spread;
  const label = nominal < 9 / 16 ? 1.03 * least : nominal <= 13 / 16 ? nominal - 1 / 64 : 0.97 * nominal;
  return { least: inch(least), most: inch(nominal + spread), label: inch(label) };
}
