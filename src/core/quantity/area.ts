import { fail, ok, type Result } from '../issue/index.ts';
import { type Grammar, readCompound } from './compound.ts';
import { toPlaces } from './decimal.ts';
import { exact, toNumber } from './exact.ts';
import type { Mm2 } from './units.ts';

export type AreaUnit = 'm²' | 'cm²' | 'mm²' | 'ft²' | 'in²';

const spellings = <U extends AreaUnit>(unit: U, letters: string, ...words: string[]): [string, U][] =>
  [unit, `${letters}2`, `${letters}^2`, `sq ${letters}`, `sq. ${letters}`, `sq${letters}`]
    .concat(words.map((word) => `square ${word}`))
    .map((name) => [name, unit]);
/** Squares of the exact inch. Source: NIST SP 811 (2008), appendix B.8, "square foot", "square inch". */
const GRAMMAR: Grammar<AreaUnit> = {
  what: 'area',
  factor: {
    'm²': exact(1_000_000),
    'cm²': exact(100),
    'mm²': exact(1),
    'ft²': exact(9_290_304, 100),
    'in²': exact(64_516, 100),
  },
  names: Object.fromEntries([
    ...spellings('m²', 'm', 'metre', 'metres', 'meter', 'meters'),
    ...spellings('cm²', 'cm', 'centimetres', 'centimeters'),
    ...spellings('mm²', 'mm', 'millimetres', 'millimeters'),
    ...spellings('ft²', 'ft', 'foot', 'feet'),
    ...spellings('in²', 'in', 'inch', 'inches'),
    ['sf', 'ft²'],
  ]),
  smaller: {},
  units: 'm², cm², mm², ft² or in²',
};

/** Reads an area: `12 ft²`, `12 sq ft`, `1.5 m²`, `1,5 m2`. A bare number is in `unit`. */
export function parseArea(written: string | number, { unit }: { readonly unit: AreaUnit }): Result<Mm2> {
  const expected = 'an area such as 12 sq ft or 1.5 m²';
  const read = readCompound(written, GRAMMAR, unit, expected);
  if (!read.ok) return read;
  const area = toNumber(read.value);
  if (Math.abs(area) > 1e14)
    return fail({ path: [], message: 'this is more than 100 km²', found: `${written}`, expected });
  return ok(area as Mm2);
}

/** `12.5 ft²`, `1.16 m²`; at most so many decimals (left out: 2 in m², else 1), a half away from zero. */
export function formatArea(
  area: number,
  { unit, decimals }: { readonly unit: AreaUnit; readonly decimals?: number | undefined },
): string {
  if (!Number.isFinite(area)) throw new RangeError(`expected a finite area, got ${area} mm²`);
  return `${toPlaces(area / toNumber(GRAMMAR.factor[unit]), decimals ?? (unit === 'm²' ? 2 : 1))} ${unit}`;
}
