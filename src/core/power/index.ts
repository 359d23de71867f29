export { calculators } from './calculators.ts';
export { checks } from './checks.ts';
export { powerFittings } from './fittings.ts';
export { powerNotes } from './notes.ts';
export { PIXEL_KINDS } from './pixel.ts';
export { powerOf } from './plan.ts';
export { CLASS_2_VOLTS, class2Limit, ELECTRICAL_CAUTION, LIMITED_CABLE, SEPARATION } from './rules.ts';
export type { Joining, PowerPlan, SuppliedStrips, WiredStrip } from './wired.ts';
