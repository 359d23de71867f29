import {
  type AreaUnit,
  DECIMALS,
  formatArea,
  formatLength,
  formatMass,
  formatMoney,
  isInches,
  type LengthFormat,
  type MassUnit,
  type Mm,
  parseLength,
  parseMass,
  parseMoney,
  printedStep,
} from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { Units } from './schema/plan.ts';
import type { Readers } from './schema/values.ts';

export const massUnitOf = (units: Pick<Units, 'length'>): MassUnit => (isInches(units.length) ? 'lb' : 'kg');
export const areaUnitOf = (units: Pick<Units, 'length'>): AreaUnit => (isInches(units.length) ? 'ft²' : 'm²');

/** How a plan with these units reads its quantities: bare lengths in its unit of length, bare masses in pounds or kilograms. */
export function readersFor(units: Pick<Units, 'length' | 'currency'>): Readers {
  const mass = { unit: massUnitOf(units) };
  return {
    length: (written) => parseLength(written, { unit: units.length }),
    mass: (written) => parseMass(written, mass),
    money: (written) => parseMoney(written, units.currency),
  };
}

/** The finest length that a plan with these units prints, mm. */
export const finestOf = ({ length: unit, fraction, decimals }: Units): number =>
  printedStep({ unit, fraction, decimals });

/** How a plan with these units prints its quantities. */
export interface Printers {
  readonly length: (length: Mm | number, more?: Partial<LengthFormat>) => string;
  /** As a bound that holds as it is printed: the next printed length that is not less, or not more, than this. */
  readonly notLess: (length: Mm | number) => string;
  readonly notMore: (length: Mm | number) => string;
  /** Of a panel or board, as a gauge shows it: `0.703"`, whatever fraction the plan's other lengths are told in. */
  readonly thickness: (length: Mm | number) => string;
  readonly mass: (kilograms: number) => string;
  readonly area: (squareMillimetres: number) => string;
  readonly money: (minorUnits: number) => string;
}
const printers = remember<Units, Printers>();
export const printersFor = (units: Units): Printers => printers(units, [], () => makePrinters(units));

/** What a division may leave of a length that is a whole number of steps. */
const EVEN = 1e-6;

function makePrinters(units: Units): Printers {
  const { length: unit, fraction, decimals, currency } = units;
  const format: LengthFormat = isInches(units.length) ? { unit, fraction: fraction ?? '1/32' } : { unit, decimals };
  const gauge: LengthFormat = isInches(units.length)
    ? { unit: 'in', decimals: DECIMALS.in }
    : { unit, decimals: Math.max(decimals ?? 0, DECIMALS[unit]) };
  const fine = finestOf(units);
  return {
    notLess: (length) => formatLength(Math.ceil(length / fine - EVEN) * fine, format),
    notMore: (length) => formatLength(Math.floor(length / fine + EVEN) * fine, format),
    length: (length, more) => formatLength(length, more ? { ...format, ...more } : format),
    thickness: (length) => formatLength(length, gauge),
    mass: (kilograms) => formatMass(kilograms, { unit: massUnitOf(units) }),
    area: (squareMillimetres) => formatArea(squareMillimetres, { unit: areaUnitOf(units) }),
    money: (minorUnits) => formatMoney(minorUnits, currency),
  };
}
