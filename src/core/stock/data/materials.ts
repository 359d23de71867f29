import type { Origin } from '../../notes/index.ts';
import { PANEL_KIND_NAMES, type PanelKindName, panelKindOf } from './panels.ts';
import { SPECIES_NAMES, type SpeciesName, speciesOf } from './species.ts';

/** Everything the handbook data can give a stiffness and a density for. */
export type MaterialName = SpeciesName | PanelKindName;
export const MATERIAL_NAMES: readonly MaterialName[] = [...SPECIES_NAMES, ...PANEL_KIND_NAMES];

export interface HandbookMaterial {
  readonly name: MaterialName;
  readonly group: 'solid wood' | 'panel' | 'metal';
  /** MPa: mean of clear wood, or the low end of a panel's range. */
  readonly modulus: number;
  readonly modulusSource: Origin;
  /** MPa, where known. */
  readonly rupture?: number;
  /** kg/m³: wood at 12 % moisture content, or the high end of a panel's range (for lifting, the heavy side is the safe one). */
  readonly density: number;
  readonly densitySource: Origin;
}

const isSpecies = (name: MaterialName): name is SpeciesName => (SPECIES_NAMES as readonly string[]).includes(name);

/** kg/m³ of wood of a specific gravity (oven-dry mass, volume at test) at a moisture content in %. Source: FPL-GTR-190 ch. 4. */
export const woodDensity = (gravity: number, moisture: number): number => 1000 * gravity * (1 + moisture / 100);

export function materialOf(name: MaterialName): HandbookMaterial {
  if (isSpecies(name)) {
    const species = speciesOf(name);
    return {
      name,
      group: 'solid wood',
      modulus: species.modulus,
      modulusSource: species.stiffnessSource,
      ...(species.rupture !== undefined && { rupture: species.rupture }),
      density: woodDensity(species.gravity, 12),
      densitySource: species.stiffnessSource,
    };
  }
  const kind = panelKindOf(name);
  return {
    name,
    group: name === 'steel' || name === 'aluminium' ? 'metal' : 'panel',
    modulus: kind.modulus[0],
    modulusSource: kind.source,
    ...(kind.rupture && { rupture: kind.rupture[0] }),
    density: kind.density[1],
    densitySource: kind.densitySource,
  };
}
