import { type Mm, mm } from '../quantity/index.ts';
import { type ShelfSection, shelfSection } from './section.ts';

/** How a shelf is held at its ends. `two-span`: one board over a middle support, every span equal and equally loaded. */
export const SUPPORTS = ['simple', 'fixed', 'propped', 'two-span', 'cantilever'] as const;
export type Supports = (typeof SUPPORTS)[number];

interface BeamConstants {
  /** Largest deflection δ = k W L³ / (E I), W the total load on a span. */
  readonly bending: number;
  /** Largest bending moment = m W L. */
  readonly moment: number;
  /** Shear deflection at that place δ_s = k_s W L / (G A′), where the handbook has it. */
  readonly shear?: number;
}

const PROPPED_UNIFORM = (39 + 55 * Math.sqrt(33)) / 65536; // = 1/184.6, at 0.4215 L from the free-turning end

/**
 * Euler–Bernoulli beams under a uniform load.
 * Source: Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed., table 8.1, cases 2a, 2c, 2d, 2e; the two-span
 * beam is two propped ones by symmetry. k_s: FPL-GTR-190 (2010), table 9-1.
 */
export const UNIFORM: Readonly<Record<Supports, BeamConstants>> = {
  simple: { bending: 5 / 384, moment: 1 / 8, shear: 1 / 8 },
  fixed: { bending: 1 / 384, moment: 1 / 12, shear: 1 / 8 },
  propped: { bending: PROPPED_UNIFORM, moment: 1 / 8 },
  'two-span': { bending: PROPPED_UNIFORM, moment: 1 / 8 },
  cantilever: { bending: 1 / 8, moment: 1 / 2, shear: 1 / 2 },
};
/** The same for one load in the middle of each span, or at the tip of a cantilever. Roark, table 8.1, cases 1a to 1e. */
export const POINT: Readonly<Record<Supports, BeamConstants>> = {
  simple: { bending: 1 / 48, moment: 1 / 4, shear: 1 / 4 },
  fixed: { bending: 1 / 192, moment: 1 / 8, shear: 1 / 4 },
  propped: { bending: 1 / (48 * Math.sqrt(5)), moment: 3 / 16 },
  'two-span': { bending: 1 / (48 * Math.sqrt(5)), moment: 3 / 16 },
  cantilever: { bending: 1 / 3, moment: 1, shear: 1 },
};

export interface SpanLoad {
  readonly span: number;
  readonly supports: Supports;
  /** Total uniform load on one span, N. */
  readonly uniform: number;
  /** Load in the middle of the span (or at the tip), N. */
  readonly point?: number;
}

/**
 * Largest deflection of one span, mm, downwards; E·I in N·mm². Elastic and short-term: creep is a separate factor, shear is
 * left out (under 4 % while L/h ≥ 20 at E/G = 16). Uniform and point deflections are added though their peaks may lie a
 * little apart on a propped beam: never too small.
 * @throws RangeError if the span or the stiffness is not positive.
 */
export function beamSag({ span, supports, uniform, point = 0 }: SpanLoad, stiffness: number): Mm {
  if (!(span > 0 && stiffness > 0)) throw new RangeError('the span and the stiffness of a shelf must be more than 0');
  return mm(((UNIFORM[supports].bending * uniform + POINT[supports].bending * point) * span ** 3) / stiffness);
}

/** Largest bending moment of one span, N·mm; never too small. */
export const beamMoment = ({ span, supports, uniform, point = 0 }: SpanLoad): number =>
  (UNIFORM[supports].moment * uniform + POINT[supports].moment * point) * span;

/** Sag of a shelf of a given section under a load: what the plan's notes ask. */
export const shelfSagOfSection = (section: ShelfSection, load: SpanLoad): Mm =>
  beamSag(load, shelfSection(section).stiffness);

/**
 * Mid-span deflection of a plain board on two supports: δ = 5 w L⁴ / (384 E I), I = b h³/12; w in N/mm, E in MPa, lengths mm.
 * Source: Young & Budynas, Roark's Formulas for Stress and Strain, 7th ed., table 8.1, case 2e.
 * @throws RangeError if a dimension or the modulus is not positive.
 */
export function midspanSag(
  shelf: { readonly span: number; readonly depth: number; readonly thickness: number; readonly modulus: number },
  w: number,
): Mm {
  if (!(shelf.span > 0 && shelf.depth > 0 && shelf.thickness > 0 && shelf.modulus > 0))
    throw new RangeError('shelf size and modulus must be more than 0');
  return shelfSagOfSection(shelf, { span: shelf.span, supports: 'simple', uniform: w * shelf.span });
}

/** Bending stress at a distance from the neutral axis, MPa: σ = E M y / (E I). */
export const bendingStress = (moment: number, modulus: number, distance: number, stiffness: number): number =>
  (modulus * moment * distance) / stiffness;

/**
 * Shear deflection over bending deflection of a rectangular beam: (k_s/k_b)(E/G)(1.2/12)(h/L)².
 * Source: FPL-GTR-190 (2010), eq. (9-2) with A′ = 5/6 b h.
 */
export const shearShare = (constants: BeamConstants, thickness: number, span: number, moduliRatio: number): number =>
  (constants.shear! / constants.bending) * moduliRatio * 0.1 * (thickness / span) ** 2;

/** Where to put two supports under a board of length L with equal overhangs a, as a fraction a/L. */
export const OVERHANG_RULES = ['equal sag', 'equal moment', 'level ends'] as const;
export type OverhangRule = (typeof OVERHANG_RULES)[number];

/**
 * equal sag: the middle goes down as far as the tips; solved from 5l⁴/384 − a²l²/16 = a⁴/8 + a³l/4 − al³/24, l = L − 2a.
 * equal moment: (√2 − 1)/2. level ends: tips stay level, supports L/√3 apart (G. B. Airy, 1846).
 */
export function overhangFraction(rule: OverhangRule): number {
  if (rule === 'equal moment') return (Math.SQRT2 - 1) / 2;
  if (rule === 'level ends') return (1 - 1 / Math.sqrt(3)) / 2;
  let [low, high] = [0.2, 0.25];
  for (let i = 0; i < 60; i++) {
    const a = (low + high) / 2;
    const { middle, tip } = overhangSags(a);
    if (middle > tip) low = a;
    else high = a;
  }
  return (low + high) / 2;
}

/** Deflections below the supports of a unit-length, unit-stiffness board under a unit load per length. */
export function overhangSags(a: number): { middle: number; tip: number } {
  const l = 1 - 2 * a;
  return {
    middle: (5 * l ** 4) / 384 - (a ** 2 * l ** 2) / 16,
    tip: a ** 4 / 8 + (a ** 3 * l) / 4 - (a * l ** 3) / 24,
  };
}
