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
export { formatLength, type InchFraction, type LengthFormat, type LengthUnit, parseLength } from './length.ts';
export { type NumberRead, readNumber } from './number.ts';
export * from './units.ts';
