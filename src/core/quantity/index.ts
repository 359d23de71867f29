export { type AreaUnit, formatArea } from './area.ts';
export {
  CANONICAL_UNIT,
  convert,
  convertTo,
  DIMENSIONS,
  type Dimension,
  findUnit,
  formatNumber,
  formatQuantity,
  parseQuantities,
  parseQuantity,
  STANDARD_GRAVITY,
} from './dimensions.ts';
export {
  DECIMALS,
  denominator,
  formatLength,
  formatSold,
  isInches,
  LENGTH_UNITS,
  type LengthFormat,
  type LengthUnit,
  parseLength,
  printedStep,
  roundly,
} from './length.ts';
export { formatMass, type MassUnit, parseMass } from './mass.ts';
export { formatMoney, minorUnits, parseMoney, plainMoney } from './money.ts';
export { isSaidOtherwise, type SaidIn, sayValue } from './said.ts';
export { UNBROKEN_SPACE, unbroken } from './unbroken.ts';
export * from './units.ts';
