import type { Source } from '../notes/index.ts';

const EC5_3_2: Source = { title: 'EN 1995-1-1', edition: '2004+A1', place: 'table 3.2, k_def' };
const EC5_3_1: Source = { title: 'EN 1995-1-1', edition: '2004+A1', place: 'table 3.1, k_mod' };

export { EC5_3_1, EC5_3_2 };

/** Service class 1: a heated room. 2: under a roof, unheated. 3: weather. Undefined: the product may not be used there. */
type ByClass = readonly [first: number | undefined, second: number | undefined, third: number | undefined];
export const SERVICE_CLASSES = ['1', '2', '3'] as const;
export type ServiceClass = (typeof SERVICE_CLASSES)[number];

/**
 * Deformation factor k_def: what a permanent load adds to the first deflection over the years.
 * Source: EN 1995-1-1:2004, table 3.2.
 */
export const CREEP = {
  'solid timber': [0.6, 0.8, 2.0],
  'glued laminated timber': [0.6, 0.8, 2.0],
  LVL: [0.6, 0.8, 2.0],
  'plywood EN 636-1': [0.8, undefined, undefined],
  'plywood EN 636-2': [0.8, 1.0, undefined],
  'plywood EN 636-3': [0.8, 1.0, 2.5],
  'OSB/2': [2.25, undefined, undefined],
  'OSB/3': [1.5, 2.25, undefined],
  'OSB/4': [1.5, 2.25, undefined],
  'particleboard P4': [2.25, undefined, undefined],
  'particleboard P5': [2.25, 3.0, undefined],
  'particleboard P6': [1.5, undefined, undefined],
  'particleboard P7': [1.5, 2.25, undefined],
  'hardboard HB.LA': [2.25, undefined, undefined],
  'hardboard HB.HLA': [2.25, 3.0, undefined],
  'MDF.LA': [2.25, undefined, undefined],
  'MDF.HLS': [2.25, 3.0, undefined],
} as const satisfies Record<string, ByClass>;
export type CreepProduct = keyof typeof CREEP;
export const CREEP_PRODUCTS = Object.keys(CREEP) as readonly CreepProduct[];

/** @throws RangeError where the table has no value: the product is not meant for that service class. */
export function deformationFactor(product: CreepProduct, service: ServiceClass): number {
  const value = (CREEP[product] as ByClass)[Number(service) - 1];
  if (value === undefined)
    throw new RangeError(
      `EN 1995-1-1 has no creep factor for ${product} in service class ${service}: it is not meant for it`,
    );
  return value;
}

export const LOAD_DURATIONS = ['permanent', 'long', 'medium', 'short', 'instantaneous'] as const;
export type LoadDuration = (typeof LOAD_DURATIONS)[number];
type ByDuration = readonly [number, number, number, number, number];
const BOARD: ByDuration = [0.3, 0.45, 0.65, 0.85, 1.1];
const BOARD_DAMP: ByDuration = [0.2, 0.3, 0.45, 0.6, 0.8];
const BETTER_BOARD: ByDuration = [0.4, 0.5, 0.7, 0.9, 1.1];
const BETTER_BOARD_DAMP: ByDuration = [0.3, 0.4, 0.55, 0.7, 0.9];
const TIMBER: ByDuration = [0.6, 0.7, 0.8, 0.9, 1.1];
const TIMBER_WET: ByDuration = [0.5, 0.55, 0.65, 0.7, 0.9];
const MDF: ByDuration = [0.2, 0.4, 0.6, 0.8, 1.1];

/** Strength modification factor k_mod by service class and load duration. Source: EN 1995-1-1:2004, table 3.1. */
const DURATION = {
  'solid timber': [TIMBER, TIMBER, TIMBER_WET],
  plywood: [TIMBER, TIMBER, TIMBER_WET],
  LVL: [TIMBER, TIMBER, TIMBER_WET],
  'OSB/2': [BOARD],
  'OSB/3': [BETTER_BOARD, BETTER_BOARD_DAMP],
  'particleboard P4': [BOARD],
  'particleboard P5': [BOARD, BOARD_DAMP],
  'particleboard P6': [BETTER_BOARD],
  'particleboard P7': [BETTER_BOARD, BETTER_BOARD_DAMP],
  'hardboard HB.LA': [BOARD],
  'hardboard HB.HLA': [BOARD, BOARD_DAMP],
  MDF: [MDF],
} as const satisfies Record<string, readonly ByDuration[]>;
export type DurationProduct = keyof typeof DURATION;
export const DURATION_PRODUCTS = Object.keys(DURATION) as readonly DurationProduct[];

/** @throws RangeError where the table has no value. */
export function strengthFactor(product: DurationProduct, service: ServiceClass, duration: LoadDuration): number {
  const row = (DURATION[product] as readonly ByDuration[])[Number(service) - 1];
  if (!row) throw new RangeError(`EN 1995-1-1 has no k_mod for ${product} in service class ${service}`);
  return row[LOAD_DURATIONS.indexOf(duration)]!;
}

/** Final deflection: u_fin = u_inst (1 + ψ₂ k_def). Source: EN 1995-1-1:2004, eqs. (2.3), (2.4). */
export const finalSag = (initial: number, kdef: number, share = 1): number => initial * (1 + share * kdef);

/**
 * The creep classes a shelf is reckoned with: K_cr of NDS 3.5.2 for lumber, 1 + k_def of EN 1995-1-1 (service class 1) for
 * the rest. NDS: total = K_cr Δ_long + Δ_short.
 */
export const CREEP_CLASSES = {
  none: 1,
  'seasoned lumber': 1.5,
  'unseasoned lumber': 2,
  'solid timber': 1.6,
  plywood: 1.8,
  LVL: 1.6,
  OSB: 3.25,
  particleboard: 3.25,
  MDF: 3.25,
  hardboard: 3.25,
} as const;
export type CreepClass = keyof typeof CREEP_CLASSES;

/** Which creep class a handbook material falls into; 'none' for metals. The worst grade of each panel kind, on the safe side. */
export function creepClassOf(material: { readonly name: string; readonly group: string }): CreepClass {
  if (material.group === 'metal') return 'none';
  if (material.group === 'solid wood') return 'solid timber';
  const kinds: readonly CreepClass[] = ['particleboard', 'MDF', 'hardboard', 'OSB', 'LVL'];
  return kinds.find((kind) => material.name.startsWith(kind)) ?? 'plywood';
}
