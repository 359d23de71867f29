export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export { FRAMING_NAMES } from './data/framing.ts';
export { actualSize } from './data/lumber.ts';
export { MATERIAL_NAMES, type MaterialName, materialOf } from './data/materials.ts';
export { PANEL_KINDS } from './data/panels.ts';
export { SPECIES_NAMES, type SpeciesName, speciesOf } from './data/species.ts';
export {
  boardItem,
  boardSection,
  densityNotes,
  densityOf,
  fixingLength,
  fixingThickness,
  isAsThick,
  materialNameOf,
  panelItem,
  rackNotes,
  slipNotes,
  stockName,
  supplierName,
} from './items.ts';
export { type CutJob, cutJobs, kerfOf, type RealLayout, realLayouts, toPanelProblem } from './jobs.ts';
export { dayNumber, type Offer, packOffer, priceNotes, sizeOf, taxOn } from './prices.ts';
export { seasonalMovement } from './reckon/moisture.ts';
export { gravityOfWood, woodNames } from './woods.ts';
