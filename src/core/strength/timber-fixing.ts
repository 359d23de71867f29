import { convert, convertTo } from '../quantity/index.ts';

/**
 * Fixings in the side grain of wood by the National Design Specification for Wood Construction (NDS), reference values at
 * normal load duration, before any adjustment factor. The NDS formulas are in inches, pounds and psi; lengths here are mm,
 * forces N, forces per length N/mm.
 */
const inches = (mm: number): number => convertTo(mm, 'in', 'length');
const newtons = (pounds: number): number => convert(pounds, 'lbf', 'force');
const perMm = (poundsPerInch: number): number => convert(poundsPerInch, 'lb/in', 'line load') / 1000;

/** W = 1800 G^1.5 D^0.75 lb/in. Source: NDS-2018, eq. (12.2-1). D is the unthreaded shank. */
export const lagWithdrawal = (gravity: number, diameter: number): number =>
  perMm(1800 * gravity ** 1.5 * inches(diameter) ** 0.75);
/** W = 2850 G² D lb/in. Source: NDS-2018, eq. (12.2-2). */
export const woodScrewWithdrawal = (gravity: number, diameter: number): number =>
  perMm(2850 * gravity ** 2 * inches(diameter));
/** W = 1380 G^2.5 D lb/in, plain shank. Source: NDS-2018, eq. (12.2-3). */
export const nailWithdrawal = (gravity: number, diameter: number): number =>
  perMm(1380 * gravity ** 2.5 * inches(diameter));
/** Breaking, not allowed: 15 700 G² D lb/in. Source: FPL-GTR-190 (2010), eq. (8-10). */
export const screwWithdrawalUltimate = (gravity: number, diameter: number): number =>
  perMm(15700 * gravity ** 2 * inches(diameter));

/** Screw numbers and their shank diameters, inches. Source: NDS appendix L, table L3; No. 14 to ANSI/ASME B18.6.1. */
export const WOOD_SCREWS = {
  '6': 0.138,
  '7': 0.151,
  '8': 0.164,
  '9': 0.177,
  '10': 0.19,
  '12': 0.216,
  '14': 0.242,
  '16': 0.268,
  '18': 0.294,
  '20': 0.32,
} as const;
export type WoodScrew = keyof typeof WOOD_SCREWS;

export const FASTENERS = ['nail', 'wood screw', 'lag screw'] as const;
export type Fastener = (typeof FASTENERS)[number];

/** Bending yield strength by diameter, psi. Source: NDS-2018, appendix I, table I1. */
export function bendingYield(fastener: Fastener, diameter: number): number {
  const D = inches(diameter);
  const steps: readonly (readonly [upTo: number, psi: number])[] =
    fastener === 'lag screw'
      ? [
          [0.25, 70_000],
          [0.3125, 60_000],
          [Number.POSITIVE_INFINITY, 45_000],
        ]
      : [
          [0.142, 100_000],
          [0.177, 90_000],
          [0.236, 80_000],
          [0.273, 70_000],
          [0.344, 60_000],
          [Number.POSITIVE_INFINITY, 45_000],
        ];
  return steps.find(([upTo]) => D <= upTo + 1e-9)![1];
}

/** Dowel bearing strength of wood, psi. Source: NDS-2018, table 12.3.3: 16 600 G^1.84 below 1/4 in; by grain above. */
export function dowelBearing(gravity: number, diameter: number, acrossGrain: boolean): number {
  const D = inches(diameter);
  if (D < 0.25) return 16_600 * gravity ** 1.84;
  return acrossGrain ? (6100 * gravity ** 1.45) / Math.sqrt(D) : 11_200 * gravity;
}

/** Root of the thread of the numbered wood screws, inches. Source: NDS appendix L, table L3, from memory. */
const WOOD_SCREW_ROOTS: Readonly<Record<WoodScrew, number>> = {
  '6': 0.113,
  '7': 0.122,
  '8': 0.131,
  '9': 0.142,
  '10': 0.152,
  '12': 0.171,
  '14': 0.196,
  '16': 0.209,
  '18': 0.232,
  '20': 0.255,
};
/** The same of lag screws by their nominal diameter. Source: ANSI/ASME B18.2.1-2012, table 6, D₁; NDS appendix L, table L2 takes them from there. */
const LAG_ROOTS = [
  [1 / 4, 0.173],
  [5 / 16, 0.227],
  [3 / 8, 0.265],
  [7 / 16, 0.328],
  [1 / 2, 0.371],
] as const;
/**
 * Of metric and other screws, whose nominal diameter is that over the thread. Lag screws have the thread of DIN 7998, from memory: 4.2 mm
 * at 6 mm, 5.6 mm at 8 mm. Others are cut slimmer: 0.6 is the least of EN 14592, from memory.
 */
const ROOT = { 'lag screw': 0.7, 'wood screw': 0.6 } as const;

/** Diameter at the root of the thread, mm, of a screw of a nominal diameter. */
export function rootOf(fastener: 'wood screw' | 'lag screw', diameter: number): number {
  const D = inches(diameter);
  const numbers = Object.entries(WOOD_SCREWS) as readonly (readonly [WoodScrew, number])[];
  const sizes: readonly (readonly [number, number])[] =
    fastener === 'lag screw' ? LAG_ROOTS : numbers.map(([number, shank]) => [shank, WOOD_SCREW_ROOTS[number]] as const);
  const root = sizes.find(([size]) => Math.abs(size - D) < 0.0005)?.[1];
  return root === undefined ? ROOT[fastener] * diameter : convert(root, 'in', 'length');
}

/** Dowel bearing of steel side plates, psi: 1.375 F_u of thin sheet, 1.5 F_u of A36 plate. Source: NDS-2018, appendix I. */
export const STEEL_BEARING = { 'sheet steel': 61_850, 'steel plate': 87_000 } as const;

export interface LateralJoint {
  readonly fastener: Fastener;
  /** Diameter that bends: the shank of a nail, the root of a thread that crosses the joint. */
  readonly diameter: number;
  /** Nominal diameter, which decides the reduction term and how deep it must go. */
  readonly nominal?: number;
  readonly sideThickness: number;
  readonly penetration: number;
  readonly mainGravity: number;
  readonly side: { readonly gravity: number } | { readonly steel: keyof typeof STEEL_BEARING };
  /** Load across the grain of the main member (a shelf load on a stud runs along it). */
  readonly acrossGrain?: boolean;
  /** Between the two members, mm: hollow, or a board that is crushed before it bears. 0 when left out. */
  readonly gap?: number;
}

export const YIELD_MODES = ['Im', 'Is', 'II', 'IIIm', 'IIIs', 'IV'] as const;
export type YieldMode = (typeof YIELD_MODES)[number];

/**
 * Reference lateral design value of one fastener in single shear: the least of six yield modes, N.
 * Source: NDS-2018, tables 12.3.1A and 12.3.1B; with a gap the general dowel equations of AWC TR12, from memory, which are those of the
 * tables without one and follow from the balance of moments at the hinges. Between 6 and 10 diameters of penetration the value is also taken down in
 * proportion, as the tables' notes do.
 * @throws RangeError below six diameters of penetration (four for lag screws).
 */
export function lateralValue(joint: LateralJoint): {
  value: number;
  mode: YieldMode;
  modes: Record<YieldMode, number>;
} {
  const nominal = joint.nominal ?? joint.diameter;
  const least = joint.fastener === 'lag screw' ? 4 : 6;
  if (joint.penetration < least * nominal * (1 - 1e-9))
    throw new RangeError(
      `the ${joint.fastener} must go at least ${least} diameters (${least * nominal} mm) into the framing`,
    );
  const whole = (joint.fastener === 'lag screw' ? 8 : 10) * nominal;
  const modes = yieldModes(joint, joint.penetration);
  const reduced = Math.min(1, joint.penetration / whole);
  const capped = yieldModes(joint, Math.max(joint.penetration, whole));
  const mode = YIELD_MODES.reduce((a, b) => (modes[b] < modes[a] ? b : a));
  const table = reduced * Math.min(...YIELD_MODES.map((m) => capped[m]));
  return { value: Math.min(modes[mode], table), mode, modes };
}

function yieldModes(joint: LateralJoint, penetration: number): Record<YieldMode, number> {
  const D = inches(joint.diameter);
  const nominal = inches(joint.nominal ?? joint.diameter);
  const [lm, ls] = [inches(penetration), inches(joint.sideThickness)];
  const across = joint.acrossGrain ?? false;
  const bearingDiameter = joint.nominal ?? joint.diameter;
  const Fem = dowelBearing(joint.mainGravity, bearingDiameter, across);
  const Fes =
    'steel' in joint.side ? STEEL_BEARING[joint.side.steel] : dowelBearing(joint.side.gravity, bearingDiameter, across);
  const Fyb = bendingYield(joint.fastener, joint.nominal ?? joint.diameter);
  // lb/in along the fastener, and lb·in of a hinge in it
  const [qm, qs, M] = [Fem * D, Fes * D, (Fyb * D ** 3) / 6];
  const gap = inches(joint.gap ?? 0);
  /** Pounds at which a mode yields: A P² + B P = C. */
  const yields = (A: number, B: number, C: number): number => (Math.sqrt(B ** 2 + 4 * A * C) - B) / (2 * A);
  const K_D = D <= 0.17 ? 2.2 : 10 * D + 0.5;
  const K_θ = across ? 1.25 : 1;
  // a root below 1/4 in in a fastener of 1/4 in and more: R_d = K_D K_θ (note to table 12.3.1B)
  const small = D < 0.25;
  const Rd = (large: number) => (small ? K_D * (nominal >= 0.25 ? K_θ : 1) : large * K_θ);
  return {
    Im: newtons((lm * qm) / Rd(4)),
    Is: newtons((ls * qs) / Rd(4)),
    II: newtons(yields(1 / (4 * qs) + 1 / (4 * qm), (ls + lm) / 2 + gap, (qs * ls ** 2 + qm * lm ** 2) / 4) / Rd(3.6)),
    IIIm: newtons(yields(1 / (2 * qs) + 1 / (4 * qm), lm / 2 + gap, (qm * lm ** 2) / 4 + M) / Rd(3.2)),
    IIIs: newtons(yields(1 / (4 * qs) + 1 / (2 * qm), ls / 2 + gap, (qs * ls ** 2) / 4 + M) / Rd(3.2)),
    IV: newtons(yields(1 / (2 * qs) + 1 / (2 * qm), gap, 2 * M) / Rd(3.2)),
  };
}

/**
 * Resistance of a screw pulled at an angle α to the surface: Z′α = W Z / (W cos²α + Z sin²α).
 * Source: NDS-2018, eq. (12.4-1). Angle in degrees: 0 along the surface, 90 straight out.
 */
export function combinedResistance(withdrawal: number, lateral: number, angle: number): number {
  const α = (angle * Math.PI) / 180;
  return (withdrawal * lateral) / (withdrawal * Math.cos(α) ** 2 + lateral * Math.sin(α) ** 2);
}
