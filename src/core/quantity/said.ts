import { convert, convertTo, type Dimension, formatNumber } from './dimensions.ts';
import { denominator, formatLength, isInches, type LengthUnit } from './length.ts';
import { MM_PER_INCH } from './units.ts';

/**
 * The unit in which a plan in feet and inches says what is reckoned in another, so that a formula that holds in one set of units holds in
 * the other: in, lb, lbf, psi and what is made of them. Volts, seconds, lux, decibels and kelvins are the same on both sides.
 */
const IN_INCHES: Readonly<Record<string, readonly [Dimension, string]>> = {
  mm: ['length', 'in'],
  m: ['length', 'ft'],
  'mm²': ['area', 'in²'],
  'm²': ['area', 'ft²'],
  'mm³': ['volume', 'in³'],
  'm³': ['volume', 'ft³'],
  L: ['liquid volume', 'qt'],
  kg: ['mass', 'lb'],
  N: ['force', 'lbf'],
  N·m: ['moment', 'lbf·in'],
  MPa: ['stress', 'psi'],
  'N/m': ['line load', 'lbf/ft'],
  'N/mm': ['stiffness', 'lbf/in'],
  'N/m²': ['area load', 'psf'],
  'kg/m³': ['density', 'lb/ft³'],
  'mm⁴': ['second moment of area', 'in⁴'],
  '°C': ['temperature', '°F'],
  'm/s': ['speed', 'ft/s'],
  'Ω/km': ['resistance per length', 'Ω/kft'],
  'Ω/m': ['resistance per length', 'Ω/ft'],
  'm²/L': ['coverage', 'ft²/gal'],
  'dB/km': ['attenuation', 'dB/kft'],
  '1/m': ['per length', '1/ft'],
  'A/m': ['current per length', 'A/ft'],
  'W/m²': ['power per area', 'W/ft²'],
  's/m': ['time per length', 's/ft'],
};

export interface SaidIn {
  readonly length: LengthUnit;
  readonly fraction?: string | undefined;
}

const MILLION = 1e6;
/** Significant digits of a figure in a working. */
const DIGITS = 5;
const print = (value: number, unit: string): string => {
  const number = formatNumber(value, DIGITS).replace(/^-/, '−');
  return unit === '' ? number : unit === '°' || unit === '%' ? `${number}${unit}` : `${number}\u00a0${unit}`;
};

/** Inches as a fraction where the plan's own fraction says it exactly, else as a decimal, as a gauge or a caliper has it. */
function inchesOf(mm: number, fraction: string | undefined): string {
  const count = (mm / MM_PER_INCH) * denominator(fraction);
  const isOnGrid = Math.abs(count - Math.round(count)) < 1e-6;
  if (isOnGrid) return formatLength(mm, { unit: 'in', fraction, glyphs: true });
  return `${print(mm / MM_PER_INCH, '')}″`;
}

/** One value, or a row of them, of a unit that is reckoned in, as a plan says it in its own: `12 1⁄2″`, `0.0205″`, `65.46 lb`. */
export function sayValue(value: number | readonly number[], unit: string, units: SaidIn): string {
  const values = typeof value === 'number' ? [value] : value;
  const other = isInches(units.length) ? IN_INCHES[unit] : undefined;
  if (unit === 'mm' && other) return values.map((each) => inchesOf(each, units.fraction)).join(', ');
  const [own, symbol] = other
    ? [values.map((each) => convertTo(convert(each, unit, other[0]), other[1], other[0])), other[1]]
    : [values, unit];
  // a modulus in psi has more figures than anyone reads
  if (symbol === 'psi' && own.some((each) => Math.abs(each) >= MILLION))
    return own.map((each, i) => print(each / MILLION, i === own.length - 1 ? 'million psi' : '')).join(', ');
  // of a row the unit is told once
  return own.map((each, i) => print(each, i === own.length - 1 ? symbol : '')).join(', ');
}

/** Whether a plan says this unit in another one. */
export const isSaidOtherwise = (unit: string, units: SaidIn): boolean => isInches(units.length) && unit in IN_INCHES;
