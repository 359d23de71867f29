import { fail, ok, type Result } from '../issue/index.ts';
import { type Grammar, readCompound } from './compound.ts';
import { toPlaces } from './decimal.ts';
import { exact, toNumber } from './exact.ts';
import type { Kg } from './units.ts';

export type MassUnit = 'kg' | 'g' | 'lb' | 'oz';

/** Exact. Source: NIST SP 811 (2008), appendix B.8, "pound (avoirdupois)" and its footnote; 16 oz, and 14 lb to the stone. */
const pounds = (over: number, under = 1) => exact(45_359_237n * BigInt(over), 100_000_000n * BigInt(under));
type Name = MassUnit | 't' | 'st';
const GRAMMAR: Grammar<Name> = {
  what: 'mass',
  factor: { kg: exact(1), g: exact(1, 1000), t: exact(1000), lb: pounds(1), oz: pounds(1, 16), st: pounds(14) },
  names: {
    kg: 'kg',
    kilo: 'kg',
    kilos: 'kg',
    kilogram: 'kg',
    kilograms: 'kg',
    g: 'g',
    gram: 'g',
    grams: 'g',
    t: 't',
    tonne: 't',
    tonnes: 't',
    lb: 'lb',
    lbs: 'lb',
    pound: 'lb',
    pounds: 'lb',
    oz: 'oz',
    ounce: 'oz',
    ounces: 'oz',
    st: 'st',
    stone: 'st',
    stones: 'st',
  },
  smaller: { st: { lb: 14 }, lb: { oz: 16 }, kg: { g: 1000 } },
  units: 'kg, g, t, lb, oz or st',
};

/** Reads a mass: `25 lb`, `2 lb 4 oz`, `11.5 kg`, `1/2 lb`, `800 g`, `11 st 4 lb`. A bare number is in `unit`. */
export function parseMass(written: string | number, { unit }: { readonly unit: MassUnit }): Result<Kg> {
  const expected = 'a mass such as 25 lb, 11.5 kg or 800 g';
  const read = readCompound(written, GRAMMAR, unit, expected);
  if (!read.ok) return read;
  const kilograms = toNumber(read.value);
  if (Math.abs(kilograms) > 1e6)
    return fail({ path: [], message: 'this is more than 1000 t', found: `${written}`, expected });
  return ok(kilograms as Kg);
}

/** `25.5 lb`, `11.57 kg`; at most so many decimals (left out: 1, in grams and ounces none), a half away from zero. */
export function formatMass(
  mass: number,
  { unit, decimals }: { readonly unit: MassUnit; readonly decimals?: number | undefined },
): string {
  if (!Number.isFinite(mass)) throw new RangeError(`expected a finite mass, got ${mass} kg`);
  const places = decimals ?? (unit === 'g' || unit === 'oz' ? 0 : 1);
  return `${toPlaces(mass / toNumber(GRAMMAR.factor[unit]), places)} ${unit}`;
}
