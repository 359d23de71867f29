export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export {
  constantPowerVoltage,
  ladderDropOneEnd,
  ladderDropTwoEnds,
  resistiveEndVoltage,
  type Tapped,
  type TappedAnswer,
  tappedLine,
  uniformDrop,
  uniformLoss,
  uniformTwoEnds,
} from './closed-form.ts';
export {
  areaForDrop,
  type ConductorClass,
  copperResistance,
  gaugeArea,
  gaugeDiameter,
  gaugeOfArea,
  RESISTANCE_AT_75,
  railResistance,
  STANDARD_AREAS,
  type Stranding,
  standardResistance,
  twoWireDrop,
} from './conductor.ts';
export {
  chooseWire,
  type Run,
  type SharedOut,
  shareOut,
  type WireChoice,
  type WireCut,
  type WireSize,
  wireCuts,
  wireSizes,
} from './design.ts';
export { powerFittings } from './fittings.ts';
export {
  type Demand,
  demandAt,
  type Load,
  type Network,
  type NetworkAnswer,
  type Resistor,
  type Source as NetworkSource,
  solveNetwork,
} from './network.ts';
export { powerNotes } from './notes.ts';
export {
  cutToFit,
  frameTime,
  PIXEL_KINDS,
  type PixelKind,
  pitch,
  pixelCurrent,
  pixelKind,
  pixelsForRate,
  pixelTime,
} from './pixel.ts';
export { powerOf } from './plan.ts';
export {
  CLASS_2_VOLTS,
  class2Limit,
  continuousLimit,
  deviceFor,
  ELECTRICAL_CAUTION,
  FUSES,
  fuseFor,
  LIMITED_CABLE,
  PROTECTION_BY_AREA,
  PROTECTION_BY_GAUGE,
  protectionFor,
  SEPARATION,
  SUPPLY_RATINGS,
  supplyFor,
} from './rules.ts';
export {
  channelRise,
  chooseFeeds,
  type FeedPlan,
  type Installation,
  type InstallationAnswer,
  type Lead,
  type StripRun,
  type StripState,
  type Supply,
  solveInstallation,
} from './strip.ts';
export type { DataLine, Joining, PowerPlan, SuppliedStrips, WiredStrip } from './wired.ts';
