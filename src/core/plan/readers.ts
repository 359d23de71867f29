import {
  type AreaUnit,
  formatArea,
  formatLength,
  formatMass,
  formatMoney,
  type LengthFormat,
  type MassUnit,
  type Mm,
  parseLength,
  parseMass,
  parseMoney,
} from '../quantity/index.ts';
import { remember } from '../remember.ts';
import type { Units } from './schema/plan.ts';
import type { Readers } from './schema/values.ts';

const imperial = (units: Pick<Units, 'length'>): boolean => units.length === 'ft-in' || units.length === 'in';
export const massUnitOf = (units: Pick<Units, 'length'>): MassUnit => (imperial(units) ? 'lb' : 'kg');
export const areaUnitOf = (units: Pick<Units, 'length'>): AreaUnit => (imperial(units) ? 'ft²' : 'm²');

/** How a plan with these units reads its quantities: bare lengths in its unit of length, bare masses in pounds or kilograms. */
export function readersFor(units: Pick<Units, 'length' | 'currency'>): Readers {
  const mass = { unit: massUnitOf(units) };
  return {
    length: (written) => parseLength(written, { unit: units.length }),
    mass: (written) => parseMass(written, mass),
    money: (written) => parseMoney(written, units.currency),
  };
}

/** How a plan with these units prints its quantities. */
export interface Printers {
  readonly length: (length: Mm | number, more?: Partial<LengthFormat>) => string;
  /** Of a panel or board, as a gauge shows it: `0.703"`, whatever fraction the plan's other lengths are told in. */
  readonly thickness: (length: Mm | number) => string;
  readonly mass: (kilograms: number) => string;
  readonly area: (squareMillimetres: number) => string;
  readonly money: (minorUnits: number) => string;
}
const printers = remember<Units, Printers>();
export const printersFor = (units: Units): Printers => printers(units, [], () => makePrinters(units));

function makePrinters(units: Units): Printers {
  const { length: unit, fraction, decimals, currency } = units;
  const format: LengthFormat = imperial(units) ? { unit, fraction: fraction ?? '1/32' } : { unit, decimals };
  const gauge: LengthFormat = imperial(units) ? { unit: 'in', decimals: 3 } : format;
  return {
    length: (length, more) => formatLength(length, more ? { ...format, ...more } : format),
    thickness: (length) => formatLength(length, gauge),
    mass: (kilograms) => formatMass(kilograms, { unit: massUnitOf(units) }),
    area: (squareMillimetres) => formatArea(squareMillimetres, { unit: areaUnitOf(units) }),
    money: (minorUnits) => formatMoney(minorUnits, currency),
  };
}
