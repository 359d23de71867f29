import { fail, type Issue, nearest, ok, type Result } from '../issue/index.ts';
import { parseLength } from './length.ts';
import { readNumber } from './number.ts';
import { MM_PER_INCH } from './units.ts';

/**
 * What a calculator may ask for, each with the one unit its function receives and returns, and the units a person may type.
 *
 * Factors are built from the exact definitions below, so that a conversion carries no rounding of its own.
 * Source: NIST SP 811 (2008), appendix B.8 (factors) and B.9; the printed seven-digit factors are in dimensions.test.ts.
 */
const INCH = MM_PER_INCH / 1000; // m, exact
const MIL = MM_PER_INCH / 1000; // mm
const FOOT = 12 * INCH;
const POUND = 0.45359237; // kg, exact
const STANDARD_GRAVITY = 9.80665; // m/s², exact (CGPM 1901)
const POUND_FORCE = POUND * STANDARD_GRAVITY; // N
const US_GALLON = 231 * INCH ** 3; // m³, exact
const DEGREE = 1;

export { STANDARD_GRAVITY };

/** canonical = typed · factor + shift */
export interface Unit {
  readonly symbol: string;
  readonly names: readonly string[];
  readonly factor: number;
  readonly shift: number;
}
const unit = (factor: number, symbol: string, ...names: string[]): Unit => ({ symbol, names, factor, shift: 0 });
const shifted = (factor: number, shift: number, symbol: string, ...names: string[]): Unit => ({
  symbol,
  names,
  factor,
  shift,
});

const areaUnits = (perSquareMetre: number): readonly Unit[] => [
  unit(perSquareMetre, 'm²', 'sq m', 'sqm', 'square metre', 'square metres', 'square meter', 'square meters'),
  unit(perSquareMetre * 1e-4, 'cm²', 'sq cm'),
  unit(perSquareMetre * 1e-6, 'mm²', 'sq mm'),
  unit(perSquareMetre * FOOT ** 2, 'ft²', 'sq ft', 'sqft', 'sf', 'square foot', 'square feet'),
  unit(perSquareMetre * INCH ** 2, 'in²', 'sq in', 'sqin', 'square inch', 'square inches'),
  unit(perSquareMetre * (3 * FOOT) ** 2, 'yd²', 'sq yd', 'square yard', 'square yards'),
];
const volumeUnits = (perCubicMetre: number): readonly Unit[] => [
  unit(perCubicMetre, 'm³', 'cu m', 'cubic metre', 'cubic metres', 'cubic meter', 'cubic meters'),
  unit(perCubicMetre * 1e-3, 'L', 'l', 'dm³', 'litre', 'litres', 'liter', 'liters'),
  unit(perCubicMetre * 1e-6, 'mL', 'ml', 'cm³', 'cc', 'millilitre', 'millilitres', 'milliliter', 'milliliters'),
  unit(perCubicMetre * 1e-9, 'mm³'),
  unit(perCubicMetre * FOOT ** 3, 'ft³', 'cu ft', 'cubic foot', 'cubic feet'),
  unit(perCubicMetre * INCH ** 3, 'in³', 'cu in', 'cubic inch', 'cubic inches'),
  unit(perCubicMetre * (3 * FOOT) ** 3, 'yd³', 'cu yd', 'cubic yard', 'cubic yards'),
  unit(perCubicMetre * US_GALLON, 'gal', 'US gal', 'gallon', 'gallons'),
  unit((perCubicMetre * US_GALLON) / 4, 'qt', 'quart', 'quarts'),
  unit((perCubicMetre * US_GALLON) / 8, 'pt', 'pint', 'pints'),
  unit((perCubicMetre * US_GALLON) / 128, 'fl oz', 'floz', 'fluid ounce', 'fluid ounces'),
  unit(perCubicMetre * 144 * INCH ** 3, 'bd ft', 'bf', 'bdft', 'fbm', 'board foot', 'board feet'),
];

const litresFirst = ([cubicMetre, litre, ...others]: readonly Unit[]): readonly Unit[] => [
  { ...litre!, factor: 1 },
  cubicMetre!,
  ...others,
];

const UNITS = {
  length: [
    unit(1, 'mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
    unit(10, 'cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
    unit(1000, 'm', 'metre', 'metres', 'meter', 'meters'),
    unit(1e6, 'km', 'kilometre', 'kilometres', 'kilometer', 'kilometers'),
    unit(1e-3, 'µm', 'um', 'micron', 'microns', 'micrometre', 'micrometres', 'micrometer', 'micrometers'),
    unit(1e-6, 'nm', 'nanometre', 'nanometres', 'nanometer', 'nanometers'),
    unit(MM_PER_INCH, 'in', '"', 'inch', 'inches', 'in.'),
    unit(12 * MM_PER_INCH, 'ft', "'", 'foot', 'feet', 'ft.'),
    unit(36 * MM_PER_INCH, 'yd', 'yard', 'yards'),
    unit(MIL, 'mil', 'mils', 'thou'),
  ],
  area: areaUnits(1),
  volume: volumeUnits(1),
  mass: [
    unit(1, 'kg', 'kilogram', 'kilograms', 'kilo', 'kilos'),
    unit(1e-3, 'g', 'gram', 'grams'),
    unit(1000, 't', 'tonne', 'tonnes'),
    unit(POUND, 'lb', 'lbs', 'lbm', 'pound', 'pounds'),
    unit(POUND / 16, 'oz', 'ounce', 'ounces'),
  ],
  force: [
    unit(1, 'N', 'newton', 'newtons'),
    unit(1000, 'kN', 'kilonewton', 'kilonewtons'),
    unit(POUND_FORCE, 'lbf', 'lb', 'lbs', 'pound', 'pounds'),
    unit(1000 * POUND_FORCE, 'kip', 'kips'),
    unit(STANDARD_GRAVITY, 'kgf', 'kp'),
  ],
  moment: [
    unit(1, 'N·m', 'Nm'),
    unit(1e-3, 'N·mm', 'Nmm'),
    unit(1000, 'kN·m', 'kNm'),
    unit(POUND_FORCE * INCH, 'lbf·in', 'in·lb', 'in·lbf', 'lb·in', 'in lb', 'in-lb', 'in-lbf', 'lb in', 'lb-in'),
    unit(POUND_FORCE * FOOT, 'lbf·ft', 'ft·lb', 'ft·lbf', 'lb·ft', 'ft lb', 'ft-lb', 'ft-lbf', 'lb ft', 'lb-ft'),
  ],
  stress: [
    unit(1, 'MPa', 'N/mm²', 'MN/m²'),
    unit(1e-6, 'Pa', 'N/m²'),
    unit(1e-3, 'kPa', 'kN/m²'),
    unit(1000, 'GPa', 'kN/mm²'),
    unit((POUND_FORCE / INCH ** 2) * 1e-6, 'psi', 'lb/in²', 'lbf/in²'),
    unit((POUND_FORCE / INCH ** 2) * 1e-3, 'ksi', 'kip/in²', '10^3 psi'),
    unit(POUND_FORCE / INCH ** 2, 'Mpsi', '10^6 psi', 'million psi'),
    unit((POUND_FORCE / FOOT ** 2) * 1e-6, 'psf', 'lb/ft²', 'lbf/ft²'),
  ],
  'line load': [
    unit(1, 'N/m'),
    unit(1000, 'N/mm', 'kN/m'),
    unit(POUND_FORCE / FOOT, 'lbf/ft', 'lb/ft', 'plf', 'lb per ft', 'lb per foot', 'lbs/ft'),
    unit(POUND_FORCE / INCH, 'lbf/in', 'lb/in', 'pli', 'lb per in', 'lb per inch', 'lbs/in'),
    // what lies on a shelf is weighed, so a mass is taken as its weight under standard gravity
    unit(STANDARD_GRAVITY, 'kg/m', 'kg per m', 'kgf/m'),
  ],
  'area load': [
    unit(1, 'N/m²', 'Pa'),
    unit(1000, 'kN/m²', 'kPa'),
    unit(1e6, 'N/mm²', 'MPa'),
    unit(POUND_FORCE / FOOT ** 2, 'psf', 'lb/ft²', 'lbf/ft²', 'lb per sq ft', 'lb/sq ft'),
    unit(POUND_FORCE / INCH ** 2, 'psi', 'lb/in²', 'lbf/in²'),
    unit(STANDARD_GRAVITY, 'kg/m²', 'kgf/m²'),
  ],
  density: [
    unit(1, 'kg/m³'),
    unit(1000, 'g/cm³', 'kg/L', 'kg/dm³', 'g/mL', 't/m³'),
    unit(POUND / FOOT ** 3, 'lb/ft³', 'pcf', 'lb/cu ft'),
    unit(POUND / INCH ** 3, 'lb/in³'),
  ],
  'second moment of area': [
    unit(1, 'mm⁴', 'mm4', 'mm^4'),
    unit(1e4, 'cm⁴', 'cm4', 'cm^4'),
    unit(MM_PER_INCH ** 4, 'in⁴', 'in4', 'in^4'),
  ],
  angle: [
    unit(DEGREE, '°', 'deg', 'degree', 'degrees'),
    unit(180 / Math.PI, 'rad', 'radian', 'radians'),
    unit(1 / 60, 'arcmin', '′'),
  ],
  temperature: [
    shifted(1, 0, '°C', 'C', 'deg C', 'degC', 'celsius'),
    shifted(5 / 9, -160 / 9, '°F', 'F', 'deg F', 'degF', 'fahrenheit'),
    shifted(1, -273.15, 'K', 'kelvin'),
  ],
  'temperature difference': [unit(1, 'K', 'kelvin', '°C', 'C', 'deg C'), unit(5 / 9, '°F', 'F', 'deg F')],
  time: [
    unit(1, 's', 'sec', 'second', 'seconds'),
    unit(1e-3, 'ms', 'millisecond', 'milliseconds'),
    unit(1e-6, 'µs', 'us', 'microsecond', 'microseconds'),
    unit(60, 'min', 'minute', 'minutes'),
    unit(3600, 'h', 'hr', 'hrs', 'hour', 'hours'),
    unit(86400, 'd', 'day', 'days'),
    unit(604800, 'week', 'weeks'),
  ],
  frequency: [unit(1, 'Hz', 'hertz', '1/s'), unit(1000, 'kHz'), unit(1e6, 'MHz')],
  'rate per minute': [
    unit(1, '/min', '1/min', 'per min', 'per minute', 'a minute'),
    unit(1 / 60, '/h', '1/h', 'per h', 'per hour'),
    unit(60, '/s', '1/s', 'per s', 'Hz'),
  ],
  speed: [unit(1, 'm/s'), unit(1 / 3.6, 'km/h'), unit(FOOT, 'ft/s', 'fps')],
  power: [
    unit(1, 'W', 'watt', 'watts', 'VA'),
    unit(1e-3, 'mW', 'milliwatt'),
    unit(1000, 'kW', 'kilowatt', 'kilowatts'),
  ],
  voltage: [unit(1, 'V', 'volt', 'volts'), unit(1e-3, 'mV', 'millivolt', 'millivolts'), unit(1000, 'kV')],
  current: [
    unit(1, 'A', 'amp', 'amps', 'ampere', 'amperes'),
    unit(1e-3, 'mA', 'milliamp', 'milliamps'),
    unit(1e-6, 'µA', 'uA'),
  ],
  resistance: [
    unit(1, 'Ω', 'ohm', 'ohms', 'Ohm', 'R'),
    unit(1e-3, 'mΩ', 'mohm', 'milliohm', 'milliohms'),
    unit(1000, 'kΩ', 'kohm'),
  ],
  'resistance per length': [
    unit(1, 'Ω/km', 'ohm/km', 'mΩ/m', 'mohm/m'),
    unit(1000, 'Ω/m', 'ohm/m'),
    unit(1 / (FOOT * 1000) / 1e-3, 'Ω/kft', 'ohm/kft', 'ohm/1000 ft', 'ohm/1000ft', 'mohm/ft'),
    unit(1000 / FOOT, 'Ω/ft', 'ohm/ft'),
  ],
  'conductor area': [
    unit(1, 'mm²', 'sq mm', 'sqmm'),
    unit((Math.PI / 4) * MIL ** 2 * 1000, 'kcmil', 'MCM'),
    unit((Math.PI / 4) * MIL ** 2, 'cmil', 'circular mil', 'circular mils'),
    unit(MM_PER_INCH ** 2, 'in²', 'sq in'),
  ],
  'luminous flux': [unit(1, 'lm', 'lumen', 'lumens'), unit(1000, 'klm')],
  'luminous intensity': [unit(1, 'cd', 'candela', 'candelas')],
  illuminance: [
    unit(1, 'lx', 'lux', 'lm/m²'),
    unit(1 / FOOT ** 2, 'fc', 'footcandle', 'footcandles', 'foot-candle', 'foot-candles', 'lm/ft²'),
  ],
  luminance: [
    unit(1, 'cd/m²', 'nit', 'nits'),
    unit(1 / (Math.PI * FOOT ** 2), 'fL', 'footlambert', 'footlamberts', 'foot-lambert'),
  ],
  'colour temperature': [unit(1, 'K', 'kelvin'), unit(1000, 'kK')],
  'sound level': [unit(1, 'dB', 'decibel', 'decibels', 'dBA', 'dB(A)', 'dB SPL')],
  'sound absorption': [unit(1, 'm²', 'metric sabin', 'metric sabins'), unit(FOOT ** 2, 'sabin', 'sabins', 'ft²')],
  coverage: [
    unit(1, 'm²/L', 'm²/l', 'sq m/L'),
    unit(FOOT ** 2 / (US_GALLON * 1000), 'ft²/gal', 'sq ft/gal', 'sqft/gal', 'ft² per gal'),
    unit((FOOT ** 2 * 4) / (US_GALLON * 1000), 'ft²/qt', 'sq ft/qt'),
  ],
  'liquid volume': litresFirst(volumeUnits(1000)),
  stiffness: [unit(1, 'N/mm', 'kN/m'), unit(1e-3, 'N/m'), unit((POUND_FORCE / INCH) * 1e-3, 'lbf/in', 'lb/in')],
  attenuation: [unit(1, 'dB/km'), unit(1000, 'dB/m'), unit(1 / FOOT, 'dB/kft', 'dB/1000 ft')],
  'per length': [
    unit(1, '1/m', '/m', 'per m', 'per metre', 'per meter'),
    unit(1 / FOOT, '1/ft', '/ft', 'per ft', 'per foot'),
    unit(1 / INCH, '1/in', '/in', 'per in', 'per inch'),
  ],
  'current per length': [unit(1, 'A/m'), unit(1e-3, 'mA/m'), unit(1 / FOOT, 'A/ft')],
  'conductance per length': [unit(1, 'S/m')],
  'power per area': [unit(1, 'W/m²'), unit(1 / FOOT ** 2, 'W/ft²')],
  'surface resistance': [unit(1, 'm²·K/W', 'm²K/W')],
  'luminous efficacy': [unit(1, 'lm/W')],
  'time per length': [unit(1, 's/m'), unit(1e-3, 'ms/m'), unit(1 / FOOT, 's/ft')],
  money: [unit(1, '')],
  ratio: [unit(1, ''), unit(0.01, '%', 'percent', 'per cent')],
  percent: [unit(1, '%', 'percent', 'per cent')],
  count: [unit(1, '')],
  number: [unit(1, '')],
} satisfies Record<string, readonly Unit[]>;

export type Dimension = keyof typeof UNITS;
export const DIMENSIONS = Object.keys(UNITS) as readonly Dimension[];

/** The units of a dimension, the canonical one first. */
export const unitsOf = (dimension: Dimension): readonly Unit[] => UNITS[dimension];

/** The one unit each dimension is reckoned in: the first of its list. */
export const CANONICAL_UNIT = Object.fromEntries(
  DIMENSIONS.map((dimension) => [dimension, UNITS[dimension][0]!.symbol]),
) as Readonly<Record<Dimension, string>>;

/** One spelling for each way of writing a unit: superscripts, dots and spaces. Letters keep their case. */
const plain = (name: string): string =>
  name
    .trim()
    .replaceAll('²', '2')
    .replaceAll('³', '3')
    .replaceAll('⁴', '4')
    .replace(/\^(?=[234](?!\d))/g, '')
    .replace(/[·⋅*]/g, '.')
    .replaceAll('μ', 'µ')
    .replaceAll('Ω', 'Ω')
    .replace(/[″”“]/g, '"')
    .replace(/[′’‘]/g, "'")
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ');

/** A unit by any of its names: as written first, then without regard to capitals where only one unit would answer. */
export function findUnit(name: string, dimension: Dimension): Unit | undefined {
  const { exact, loose } = spelled(dimension);
  const found = exact.get(name);
  if (found) return found;
  const wanted = plain(name);
  return exact.get(wanted) ?? loose.get(wanted.toLowerCase()) ?? undefined;
}

/** The units of a dimension by how they are spelled; without capitals, those that two units would answer to are null. */
interface Spellings {
  readonly exact: ReadonlyMap<string, Unit>;
  readonly loose: ReadonlyMap<string, Unit | null>;
}
const SPELLINGS = new Map<Dimension, Spellings>();
function spelled(dimension: Dimension): Spellings {
  const known = SPELLINGS.get(dimension);
  if (known) return known;
  const exact = new Map<string, Unit>();
  const loose = new Map<string, Unit | null>();
  for (const one of unitsOf(dimension))
    for (const spelling of [one.symbol, ...one.names].map(plain)) {
      if (!exact.has(spelling)) exact.set(spelling, one);
      const low = spelling.toLowerCase();
      const other = loose.get(low);
      loose.set(low, other === undefined || other === one ? one : null);
    }
  const made = { exact, loose };
  SPELLINGS.set(dimension, made);
  return made;
}

/** A value in a named unit, in the canonical unit. @throws RangeError on a unit the dimension does not have. */
export function convert(value: number, unitName: string, dimension: Dimension): number {
  const found = findUnit(unitName, dimension);
  if (!found) throw new RangeError(`${dimension} has no unit '${unitName}'`);
  return value * found.factor + found.shift;
}

/** A value in the canonical unit, in a named unit. @throws RangeError on a unit the dimension does not have. */
export function convertTo(value: number, unitName: string, dimension: Dimension): number {
  const found = findUnit(unitName, dimension);
  if (!found) throw new RangeError(`${dimension} has no unit '${unitName}'`);
  return (value - found.shift) / found.factor;
}

export interface ParseOptions {
  /** What a bare number means; the canonical unit when left out. */
  readonly defaultUnit?: string;
}

/**
 * Reads a quantity as a person writes it (`25 lb`, `1.2 kN`, `70 F`, `11-1/4"`, `3' 4-1/2"`, `½ in`, `65%`) into the
 * dimension's canonical unit. A bare number is in `defaultUnit`. What cannot be read for sure is refused with the reason.
 */
export function parseQuantity(text: string, dimension: Dimension, options: ParseOptions = {}): Result<number> {
  const typed = plain(text);
  if (typed === '') return fail(issue(text, dimension, 'nothing is written here'));
  const power = /^10\^([36]) (?=[a-z])/i.exec(typed);
  const number = power ? undefined : readNumber(typed);
  if (!number) return fail(issue(text, dimension, 'no number is found at its start'));
  if (number.ambiguous !== undefined) return fail(issue(text, dimension, number.ambiguous));
  // feet and inches, metres and centimetres: two numbers, each with its unit
  if (dimension === 'length' && /[\d¼-¾⅐-⅞]/.test(number.rest)) return parseLength(text, { unit: 'in' });
  const unitName = number.rest === '' ? (options.defaultUnit ?? CANONICAL_UNIT[dimension]) : number.rest;
  const found = findUnit(unitName, dimension);
  if (!found) {
    const near = nearest(
      unitName,
      unitsOf(dimension).flatMap((u) => [u.symbol, ...u.names]),
    );
    return fail({
      ...issue(text, dimension, `'${unitName}' is not a unit of ${dimension}`),
      ...(near === undefined ? {} : { nearest: near }),
    });
  }
  return ok(settled(number.value * found.factor + found.shift));
}

/** 6 in are 152.4 mm, not 152.39999999999998: what a product of two decimals is off by in its last bit is nobody's. */
const settled = (value: number): number => Number(value.toPrecision(15));

/**
 * Reads a list: `0, 12, 24 in`, `0,5; 1,25 m`, `10 20 30 mm`. A semicolon parts the values, else a comma, else spaces.
 * Bare values take the unit of the first later value that has one.
 */
export function parseQuantities(
  text: string,
  dimension: Dimension,
  options: ParseOptions = {},
): Result<readonly number[]> {
  const trimmed = text.trim();
  if (trimmed === '') return ok([]);
  // a semicolon leaves the comma to the decimals
  const mark = trimmed.includes(';') ? /\s*;\s*/ : trimmed.includes(',') ? /\s*,\s*/ : undefined;
  if (!mark) {
    const single = parseQuantity(trimmed, dimension, options);
    if (single.ok) return ok([single.value]);
  }
  const items = trimmed.split(mark ?? /\s+(?=[\d.¼-¾⅐-⅞+-])/);
  const values: number[] = [];
  const issues: Issue[] = [];
  let later: string | undefined = options.defaultUnit;
  for (let i = items.length - 1; i >= 0; i--) {
    const item = items[i]!;
    const rest = readNumber(plain(item))?.rest ?? '';
    if (rest !== '' && findUnit(rest, dimension)) later = rest;
    const value = parseQuantity(item, dimension, later === undefined ? {} : { defaultUnit: later });
    if (value.ok) values.unshift(value.value);
    else issues.unshift(...value.issues.map((problem) => ({ ...problem, path: [i, ...problem.path] })));
  }
  return issues.length > 0 ? fail(...issues) : ok(values);
}

const issue = (text: string, dimension: Dimension, message: string): Issue => ({
  path: [],
  message,
  found: `'${text.trim()}'`,
  expected: expectedText(dimension),
});

const EXAMPLES: Partial<Record<Dimension, string>> = {
  length: `a length such as 900 mm, 36 in, 11-1/4" or 3' 4-1/2"`,
  ratio: 'a number such as 0.65, 3/4 or 65%',
};
function expectedText(dimension: Dimension): string {
  const example = EXAMPLES[dimension];
  if (example !== undefined) return example;
  const symbols = unitsOf(dimension).map((u) => u.symbol);
  return symbols.length === 1 && symbols[0] === ''
    ? 'a plain number'
    : `a number with a unit of ${dimension}: ${symbols.filter((s) => s !== '').join(', ')}`;
}

export interface FormatOptions {
  /** The unit to show it in; the canonical unit when left out. */
  readonly unit?: string;
  /** Significant digits; 4 when left out. Whole numbers are never cut short. */
  readonly digits?: number;
}

/** `12.5 mm`, `1.2 kN`: a value of the canonical unit for reading. What is shown rounds; what is kept does not. */
export function formatQuantity(value: number, dimension: Dimension, options: FormatOptions = {}): string {
  const symbol = options.unit ?? CANONICAL_UNIT[dimension];
  return [formatNumber(convertTo(value, symbol, dimension), options.digits), symbol]
    .filter((part) => part !== '')
    .join(symbol === '°' || symbol === '%' ? '' : ' ');
}

/** A number to so many significant digits, never in powers of ten unless it is very large or very small. */
export function formatNumber(value: number, digits = 4): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e12 || size < 1e-6) return value.toExponential(Math.max(0, digits - 1)).replace('e+', 'e');
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  const text = value.toFixed(Math.min(decimals, 20));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
