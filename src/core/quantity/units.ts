/**
 * Quantities carry their unit in their type; at run time they are plain numbers.
 *
 * One unit inside for each dimension: lengths mm, areas mm², masses kg; forces N, moments N·mm, stresses MPa (N/mm²) go by plain numbers.
 * Text is turned into these where it enters and back where it leaves, nowhere else.
 */
declare const unit: unique symbol;
export type Quantity<U extends string> = number & { readonly [unit]: U };

export type Mm = Quantity<'mm'>;
export type Mm2 = Quantity<'mm²'>;
export type Kg = Quantity<'kg'>;
/** Whole smallest units of the plan's currency (cents, pence, yen), so that sums of money are exact. */
export type Money = Quantity<'money'>;
/** 1/640 mm: a tenth of a millimetre is 64 ticks and 1/128 in is 127, so every length a tape can read is whole. */
export type Tick = Quantity<'tick'>;

/** Guards the border: NaN and ±∞ stop here. Arithmetic on the result yields a bare number; name its unit again. */
export function mm(value: number): Mm {
  if (!Number.isFinite(value)) throw new RangeError(`expected a finite length, got ${value} mm`);
  return value as Mm;
}

export const TICKS_PER_MM = 640;
/** Exact by definition. Source: NIST SP 811 (2008), appendix B.8, "inch". */
export const MM_PER_INCH = 25.4;

/** A length in inches. Exact by definition. Source: NIST SP 811 (2008), appendix B.8, "inch". */
export const inch = (value: number): Mm => mm(value * MM_PER_INCH);

/** The nearest whole number of ticks. */
export const toTicks = (length: number): Tick => Math.round(mm(length) * TICKS_PER_MM) as Tick;
export const fromTicks = (ticks: number): Mm => mm(ticks / TICKS_PER_MM);

/** The nearest length that is a whole number of ticks: what is kept after a division, so that sums come out even. */
export const snap = (length: number): Mm => fromTicks(toTicks(length));
