import { convert, STANDARD_GRAVITY } from '../quantity/index.ts';

/** One row of fixings in a plate or rail: how far above the edge it turns about, and how many there are. */
export interface FixingRow {
  readonly height: number;
  readonly count?: number;
}

/**
 * Tension in each fixing of a stiff plate that turns about its lower edge under a moment: T = M y / Σ n y².
 * Heights mm above that edge, moment N·mm, tensions N, in the order of the rows. Statics with equal fixings.
 * @throws RangeError without a row above the edge.
 */
export function bracketTensions(moment: number, rows: readonly FixingRow[]): readonly number[] {
  const sum = rows.reduce((total, row) => total + (row.count ?? 1) * row.height ** 2, 0);
  if (!(sum > 0)) throw new RangeError('no fixing stands above the edge the bracket turns about');
  if (rows.some((row) => row.height < 0)) throw new RangeError('heights are measured up from the lower edge');
  return rows.map((row) => (moment * row.height) / sum);
}

export interface BracketReactions {
  /** Per fixing of each row, N, pulling out of the wall. */
  readonly tension: readonly number[];
  /** Per fixing, N, down the wall: shared evenly. */
  readonly shear: number;
  /** N, pressing on the wall at the lower edge. */
  readonly thrust: number;
}

/** What a load on a bracket asks of its fixings: mass kg at a reach mm in front of the wall. */
export function bracketReactions(mass: number, reach: number, rows: readonly FixingRow[]): BracketReactions {
  const weight = mass * STANDARD_GRAVITY;
  const tension = bracketTensions(weight * reach, rows);
  const fixings = rows.reduce((total, row) => total + (row.count ?? 1), 0);
  const thrust = rows.reduce((total, row, i) => total + (row.count ?? 1) * tension[i]!, 0);
  return { tension, shear: weight / fixings, thrust };
}

/** Pull at a height that just tips a free-standing case: m g (d/2)/h, N; lengths mm. Its mass is taken to be in its middle. */
export const tippingPull = (mass: number, depth: number, height: number): number =>
  (mass * STANDARD_GRAVITY * depth) / 2 / height;

/**
 * Hole patterns of flat displays: spacing in mm, screw, and the mass up to which the pattern is meant, kg.
 * Source: VESA Flat Display Mounting Interface (FDMI), MIS-B to MIS-F; mass of MIS-F, and patterns B and C, from memory.
 */
export const DISPLAY_PATTERNS = {
  'MIS-B 50x20': { across: 50, up: 20, screw: 4, mass: 2 },
  'MIS-C 75x35': { across: 75, up: 35, screw: 4, mass: 4.5 },
  'MIS-D 75x75': { across: 75, up: 75, screw: 4, mass: 14 },
  'MIS-D 100x100': { across: 100, up: 100, screw: 4, mass: 14 },
  'MIS-E 200x100': { across: 200, up: 100, screw: 4, mass: 22.7 },
  'MIS-F 200x200': { across: 200, up: 200, screw: 6, mass: 113.6 },
  'MIS-F 400x400': { across: 400, up: 400, screw: 6, mass: 113.6 },
  'MIS-F 600x200': { across: 600, up: 200, screw: 6, mass: 113.6 },
  'MIS-F 600x400': { across: 600, up: 400, screw: 8, mass: 113.6 },
  'MIS-F 800x400': { across: 800, up: 400, screw: 8, mass: 113.6 },
} as const;
export type DisplayPattern = keyof typeof DISPLAY_PATTERNS;

/** Total load a mount is tested with, kg: W + the greater of 3 W and 10 lb. Source: UL product standards, mounting means test. */
export const mountProofMass = (mass: number): number => mass + Math.max(3 * mass, convert(10, 'lb', 'mass'));

/** Force added in the wall-mount test, N: the lesser of 3 W and W + 880 N. Source: IEC 62368-1:2014, 8.7 (from memory). */
export const mountTestForce = (mass: number): number => {
  const weight = mass * STANDARD_GRAVITY;
  return Math.min(3 * weight, weight + 880);
};

/**
 * Gypsum wallboard. Flexural strength across and along the board in lbf (ASTM C473 method A), stiffness per inch of width in
 * lb·in²; weight in psf. Source: GA-235-10; weights from memory.
 */
export const GYPSUM_BOARDS = {
  '1/2 in': { across: 110, along: 40, stiffness: [1500, 4000], weight: 1.7 },
  '5/8 in': { across: 150, along: 50, stiffness: [3000, 8000], weight: 2.3 },
} as const;
