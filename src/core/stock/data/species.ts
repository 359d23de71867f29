import type { Origin, Source } from '../../notes/index.ts';
import { convert } from '../../quantity/index.ts';

const HANDBOOK = 'Wood Handbook: Wood as an Engineering Material, FPL-GTR-190';
const TABLE_5_3A: Source = { title: HANDBOOK, edition: '2010', place: 'table 5-3a (metric)' };
const TABLE_5_3B: Source = { title: HANDBOOK, edition: '2010', place: 'table 5-3b' };
const TABLE_12_1: Source = { title: HANDBOOK, edition: '2010', place: 'table 12-1' };
const TABLE_4_3: Source = { title: HANDBOOK, edition: '2010', place: 'table 4-3' };

/** Clear, straight-grained wood at 12 % moisture content: means of many trees, not values for a graded board. */
export interface Species {
  readonly kind: 'hardwood' | 'softwood';
  /** Oven-dry mass over volume at 12 % moisture content, relative to water. */
  readonly gravity: number;
  /** Modulus of elasticity in static bending, MPa. */
  readonly modulus: number;
  /** Modulus of rupture, MPa. */
  readonly rupture?: number;
  readonly stiffnessSource: Origin;
  /** Shrinkage from green to oven-dry, % of the green size: across the rings, along the rings, of the volume. */
  readonly shrinkage: { readonly radial: number; readonly tangential: number; readonly volumetric: number };
  readonly shrinkageSource: Origin;
}

const wood = (
  kind: Species['kind'],
  [gravity, modulus, rupture]: readonly [number, number, number?],
  stiffnessSource: Origin,
  [radial, tangential, volumetric]: readonly [number, number, number],
  shrinkageSource: Origin = TABLE_4_3,
): Species => ({
  kind,
  gravity,
  modulus,
  ...(rupture !== undefined && { rupture }),
  stiffnessSource,
  shrinkage: { radial, tangential, volumetric },
  shrinkageSource,
});

/** As the tables print it: specific gravity, modulus in million psi, rupture in psi. */
const us = (gravity: number, millionPsi: number, psi?: number): readonly [number, number, number?] => [
  gravity,
  convert(millionPsi, 'Mpsi', 'stress'),
  ...(psi === undefined ? ([] as const) : ([convert(psi, 'psi', 'stress')] as const)),
];
const REMEMBERED: Origin = 'from memory';

/** Woods a maker meets, by their handbook names. */
export const SPECIES = {
  'American beech': wood('hardwood', us(0.64, 1.72), TABLE_5_3B, [5.5, 11.9, 17.2]),
  basswood: wood('hardwood', us(0.37, 1.46), TABLE_5_3B, [6.6, 9.3, 15.8]),
  'black cherry': wood('hardwood', us(0.5, 1.49), TABLE_5_3B, [3.7, 7.1, 11.5]),
  'black walnut': wood('hardwood', us(0.55, 1.68, 14600), REMEMBERED, [5.5, 7.8, 12.8]),
  'northern red oak': wood('hardwood', us(0.63, 1.82, 14300), TABLE_5_3B, [4.0, 8.6, 13.7], REMEMBERED),
  'paper birch': wood('hardwood', us(0.55, 1.59), TABLE_5_3B, [6.3, 8.6, 16.2]),
  'quaking aspen': wood('hardwood', us(0.38, 1.18), TABLE_5_3B, [3.5, 6.7, 11.5]),
  'red alder': wood('hardwood', us(0.41, 1.38), TABLE_5_3B, [4.4, 7.3, 12.6]),
  'red maple': wood('hardwood', us(0.54, 1.64, 13400), TABLE_12_1, [4.0, 8.2, 12.6], REMEMBERED),
  'shagbark hickory': wood('hardwood', us(0.72, 2.16), TABLE_5_3B, [7.0, 10.5, 16.7], REMEMBERED),
  'sugar maple': wood('hardwood', us(0.63, 1.83, 15800), TABLE_5_3B, [4.8, 9.9, 14.7], REMEMBERED),
  'white ash': wood('hardwood', us(0.6, 1.74), TABLE_5_3B, [4.9, 7.8, 13.3]),
  'white oak': wood('hardwood', us(0.68, 1.78, 15200), TABLE_12_1, [5.6, 10.5, 16.3]),
  'yellow birch': wood('hardwood', us(0.62, 2.01), TABLE_5_3B, [7.3, 9.5, 16.8]),
  'yellow-poplar': wood('hardwood', us(0.42, 1.58, 10100), TABLE_5_3B, [4.6, 8.2, 12.7]),
  'Douglas-fir (coast)': wood('softwood', us(0.48, 1.95, 12400), TABLE_12_1, [4.8, 7.6, 12.4]),
  'longleaf pine': wood('softwood', us(0.59, 1.98, 14500), TABLE_12_1, [5.1, 7.5, 12.2], REMEMBERED),
  'ponderosa pine': wood('softwood', [0.4, 8900, 65], TABLE_5_3A, [3.9, 6.2, 9.7], REMEMBERED),
  'redwood (old growth)': wood('softwood', [0.4, 9200, 69], TABLE_5_3A, [2.6, 4.4, 6.8], REMEMBERED),
  'slash pine': wood('softwood', [0.59, 13700, 112], TABLE_5_3A, [5.4, 7.6, 12.1], REMEMBERED),
  'sugar pine': wood('softwood', [0.36, 8200, 57], TABLE_5_3A, [2.9, 5.6, 7.9], REMEMBERED),
  'eastern white pine': wood('softwood', us(0.35, 1.24, 8600), REMEMBERED, [2.1, 6.1, 8.2], REMEMBERED),
  'Sitka spruce': wood('softwood', us(0.4, 1.57, 10200), REMEMBERED, [4.3, 7.5, 11.5], REMEMBERED),
  'western redcedar': wood('softwood', us(0.32, 1.11, 7500), REMEMBERED, [2.4, 5.0, 6.8]),
  'western white pine': wood('softwood', us(0.38, 1.46, 9700), TABLE_12_1, [4.1, 7.4, 11.8], REMEMBERED),
} as const satisfies Record<string, Species>;
export type SpeciesName = keyof typeof SPECIES;
export const SPECIES_NAMES = Object.keys(SPECIES) as readonly SpeciesName[];
export const speciesOf = (name: SpeciesName): Species => SPECIES[name];
