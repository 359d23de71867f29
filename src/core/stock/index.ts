export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export {
  type ActualSize,
  actualSize,
  HARDWOOD,
  type HardwoodQuarter,
  NOMINAL_SIZES,
  type Seasoning,
} from './data/lumber.ts';
export { type HandbookMaterial, MATERIAL_NAMES, type MaterialName, materialOf, woodDensity } from './data/materials.ts';
export {
  PANEL_CATEGORIES,
  PANEL_GRADES,
  PANEL_KIND_NAMES,
  PANEL_KINDS,
  PARTICLEBOARD_DENSITY,
  type PanelCategory,
  type PanelGradeName,
  type PanelKindName,
  panelKindOf,
  panelThickness,
  SHEET_SIZES,
} from './data/panels.ts';
export { SPECIES, SPECIES_NAMES, type Species, type SpeciesName, speciesOf } from './data/species.ts';
export {
  type BoardSection,
  boardItem,
  boardSection,
  type Density,
  densityNotes,
  densityOf,
  fixingLength,
  fixingThickness,
  isAsThick,
  materialNameOf,
  packItem,
  panelItem,
  stockName,
  supplierName,
} from './items.ts';
export {
  type CutJob,
  cutJobs,
  kerfOf,
  type LengthJob,
  type PanelJob,
  type RealLayout,
  realLayouts,
  type Source,
  type SourceEntry,
  toLengthProblem,
  toPanelProblem,
} from './jobs.ts';
export { ageOf, dayNumber, type Offer, offersOf, packOffer, priceNotes, taxOn } from './prices.ts';
export { massOf } from './reckon/matter.ts';
export {
  changeCoefficient,
  coefficientOf,
  equilibriumMoisture,
  seasonalMovement,
  woodMovement,
} from './reckon/moisture.ts';
export { boardFeet } from './reckon/sizes.ts';
