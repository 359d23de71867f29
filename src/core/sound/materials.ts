import type { Origin } from '../notes/index.ts';

/**
 * Random-incidence absorption coefficients by octave band, 125 Hz … 4 kHz. Most come from reverberation rooms of long ago: a
 * maker's data sheet is better where there is one. Two families of gypsum board are carried because sources differ threefold at 125 Hz.
 */
export interface SurfaceMaterial {
  readonly id: string;
  readonly coefficients: readonly [number, number, number, number, number, number];
  readonly source: Origin;
}
export const MATERIAL_BANDS = [125, 250, 500, 1000, 2000, 4000] as const;

const BARRON: Origin = { title: 'R. F. Barron, Industrial Noise Control and Acoustics (2003), appendix D' };
const EVEREST: Origin = { title: 'F. A. Everest, The Master Handbook of Acoustics, reverberation examples' };
const TABLE_27: Origin = { title: 'Table 27.1 "Coefficients of absorption", a reprinted handbook table' };
const TABLE_3_4: Origin = { title: 'Table 3.4 "Sound absorption coefficients", audio-engineering handbook p. 103' };
const REPRINT: Origin = { title: 'Table of absorption coefficients, a reprint' };
const WIDELY: Origin = {
  title: 'Widely reprinted table of absorption coefficients of building materials and finishes',
};

export const SURFACE_MATERIALS: readonly SurfaceMaterial[] = [
  { id: 'brick, unglazed', coefficients: [0.03, 0.03, 0.03, 0.04, 0.05, 0.07], source: BARRON },
  { id: 'concrete block, painted', coefficients: [0.1, 0.05, 0.06, 0.07, 0.09, 0.08], source: BARRON },
  { id: 'poured concrete, painted', coefficients: [0.01, 0.01, 0.01, 0.02, 0.02, 0.02], source: BARRON },
  {
    id: 'gypsum board 1/2 in on studs, light framing',
    coefficients: [0.29, 0.1, 0.05, 0.04, 0.07, 0.09],
    source: EVEREST,
  },
  { id: 'gypsum board 1/2 in on 2x4 at 16 in', coefficients: [0.1, 0.08, 0.05, 0.03, 0.03, 0.03], source: TABLE_27 },
  { id: 'plasterboard 12 mm on studs', coefficients: [0.29, 0.1, 0.06, 0.05, 0.04, 0.04], source: 'from memory' },
  { id: 'carpet, heavy, on concrete', coefficients: [0.02, 0.06, 0.14, 0.37, 0.6, 0.65], source: TABLE_3_4 },
  { id: 'carpet, heavy, on felt or foam', coefficients: [0.08, 0.24, 0.57, 0.69, 0.71, 0.73], source: TABLE_3_4 },
  { id: 'carpet, thin', coefficients: [0.01, 0.02, 0.06, 0.15, 0.25, 0.45], source: REPRINT },
  { id: 'wood floor on joists', coefficients: [0.15, 0.11, 0.1, 0.07, 0.06, 0.07], source: TABLE_27 },
  { id: 'wood parquet on concrete', coefficients: [0.04, 0.04, 0.07, 0.06, 0.06, 0.07], source: TABLE_27 },
  { id: 'linoleum or vinyl tile on concrete', coefficients: [0.02, 0.03, 0.03, 0.03, 0.03, 0.02], source: WIDELY },
  { id: 'plate glass, large panes', coefficients: [0.18, 0.06, 0.04, 0.03, 0.02, 0.02], source: TABLE_27 },
  { id: 'window glass', coefficients: [0.35, 0.25, 0.18, 0.12, 0.07, 0.04], source: TABLE_27 },
  { id: 'wood panel door', coefficients: [0.1, 0.07, 0.05, 0.04, 0.04, 0.04], source: BARRON },
  { id: 'plaster on brick or tile', coefficients: [0.013, 0.015, 0.02, 0.03, 0.04, 0.05], source: BARRON },
  { id: 'plaster on lath', coefficients: [0.14, 0.1, 0.06, 0.04, 0.04, 0.03], source: BARRON },
  { id: 'velour, medium, draped to half', coefficients: [0.07, 0.31, 0.49, 0.75, 0.7, 0.6], source: TABLE_27 },
  { id: 'plywood 1/8 in, 2-1/4 in air space', coefficients: [0.28, 0.2, 0.1, 0.1, 0.08, 0.08], source: BARRON },
  { id: 'plywood 3/16 in, 2 in air space', coefficients: [0.38, 0.24, 0.17, 0.1, 0.08, 0.05], source: BARRON },
  { id: 'acoustical tile 3/4 in', coefficients: [0.09, 0.28, 0.78, 0.84, 0.73, 0.64], source: EVEREST },
  { id: 'open-cell foam 1/2 in', coefficients: [0.09, 0.11, 0.22, 0.6, 0.88, 0.94], source: WIDELY },
  { id: 'open-cell foam 1 in', coefficients: [0.13, 0.22, 0.68, 1.0, 0.92, 0.97], source: WIDELY },
  { id: 'contoured open-cell foam 2 in', coefficients: [0.06, 0.25, 0.56, 0.81, 0.9, 0.91], source: WIDELY },
  { id: 'contoured open-cell foam 4 in', coefficients: [0.33, 0.9, 0.84, 0.99, 0.98, 0.99], source: WIDELY },
  { id: 'glass-fibre board 1 in', coefficients: [0.18, 0.34, 0.79, 0.99, 0.93, 0.9], source: BARRON },
  { id: 'rigid glass-fibre board 2 in', coefficients: [0.22, 0.82, 0.99, 0.99, 0.99, 0.99], source: WIDELY },
  { id: 'glass-fibre roll 2 in', coefficients: [0.17, 0.55, 0.8, 0.9, 0.85, 0.8], source: WIDELY },
  { id: 'upholstered seats, empty', coefficients: [0.49, 0.66, 0.8, 0.88, 0.82, 0.7], source: REPRINT },
  { id: 'upholstered seats, occupied', coefficients: [0.6, 0.74, 0.88, 0.96, 0.93, 0.85], source: REPRINT },
  { id: 'wood or metal seats, empty', coefficients: [0.15, 0.19, 0.22, 0.39, 0.38, 0.3], source: WIDELY },
  // the table has 0.25 to 0.75 for an opening into a furnished space: what lies behind is not known
  { id: 'open passage', coefficients: [0.25, 0.25, 0.25, 0.25, 0.25, 0.25], source: TABLE_27 },
];

/** The coefficient of a material in an octave band. @throws RangeError for a material or band the table does not have. */
export function coefficientOf(id: string, band: number): number {
  const material = SURFACE_MATERIALS.find((m) => m.id === id);
  if (!material) throw new RangeError(`no surface material '${id}'`);
  const value = material.coefficients[MATERIAL_BANDS.indexOf(band as (typeof MATERIAL_BANDS)[number])];
  if (value === undefined) throw new RangeError(`the bands are ${MATERIAL_BANDS.join(', ')} Hz, not ${band}`);
  return value;
}

/**
 * Absorption of one person mid-band, m². Source: textbooks (I. A. Shaikh, Applied Physics I, ch. 4, and two more) print 0.44 to
 * 0.46 m², which is 4.7 to 5 sabins in square feet.
 */
export const PERSON_ABSORPTION = 0.46;

/** Wood of furniture, kg/m³, where only its mass is known. Common practice. */
export const FURNITURE_DENSITY = 600;

/**
 * Absorption of a hard object such as a table or a shelf unit that stands free, m²: V^(2/3), V its own volume in m³, in every band.
 * Source: EN 12354-6:2003, clause 4.3, hard irregular objects (from memory).
 */
export const objectAbsorption = (volume: number): number => volume ** (2 / 3);
