export { type AreaUnit, formatArea, parseArea } from './area.ts';
export {
  CANONICAL_UNIT,
  convert,
  convertTo,
  DIMENSIONS,
  type Dimension,
  type FormatOptions,
  findUnit,
  formatNumber,
  formatQuantity,
  type ParseOptions,
  parseQuantities,
  parseQuantity,
  STANDARD_GRAVITY,
  type Unit,
  unitsOf,
} from './dimensions.ts';
export {
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
export { formatMoney, type MoneyFormat, minorUnits, parseMoney, plainMoney } from './money.ts';
export { type NumberRead, readNumber } from './number.ts';
export { isSaidOtherwise, type SaidIn, sayValue } from './said.ts';
export { UNBROKEN_SPACE, unbroken } from './unbroken.ts';
export * from './units.ts';
