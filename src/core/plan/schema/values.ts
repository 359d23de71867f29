import { z } from 'zod';
import type { Result } from '../../issue/index.ts';
import type { Kg, Mm, Money } from '../../quantity/index.ts';

/** How this plan writes its quantities: bare numbers are in its own unit. Made once the plan's `units` are known. */
export interface Readers {
  readonly length: (written: string | number) => Result<Mm>;
  readonly mass: (written: string | number) => Result<Kg>;
  readonly money: (written: string | number) => Result<Money>;
}

/** A figure taken at a place along a wall. */
export interface Measured {
  /** From the wall's left end. */
  readonly at: Mm;
  readonly value: Mm;
}

/** Text of a quantity on the way in, a branded number on the way out; the reader's own words where it cannot be read. */
function quantity<T>(read: (written: string | number) => Result<T>, what: string) {
  const written = z.union([z.string(), z.number()], { error: `expected ${what}` });
  return written.meta({ description: what }).transform((raw, ctx): T => {
    const result = read(raw);
    if (result.ok) return result.value;
    for (const issue of result.issues) {
      ctx.addIssue({ code: 'custom', message: issue.message, params: { issue }, input: raw });
    }
    return z.NEVER;
  });
}

/** The kinds of value that fields of the plan are made of, for one way of writing them. */
export function makeValues(readers: Readers) {
  const anyLength = quantity(readers.length, 'a length, written any way: 3\' 4-1/2", 40 1/2, 1029 mm, 1.03 m');
  const length = anyLength.meta({
    id: 'Length',
    description: 'a length, written any way: 3\' 4-1/2", 40 1/2, 1029 mm, 1.03 m',
  });
  const positive = anyLength
    .refine((v) => v > 0, { error: 'must be more than 0', abort: true })
    .meta({ id: 'PositiveLength', description: 'a length of more than 0' });
  const notNegative = anyLength
    .refine((v) => v >= 0, { error: 'must not be negative', abort: true })
    .meta({ id: 'LengthOrZero', description: 'a length, or 0' });
  const mass = quantity(readers.mass, 'a mass: 25 lb, 11 kg')
    .refine((v) => v >= 0, { error: 'must not be negative' })
    .meta({ id: 'Mass', description: 'a mass: 25 lb, 11 kg' });
  const money = quantity(readers.money, "an amount of money in the plan's currency: 48.00")
    .refine((v) => v >= 0, { error: 'must not be negative' })
    .meta({ id: 'Money', description: "an amount of money in the plan's currency: 48.00" });
  /** A size along a row or column: a length, or a share of what is left: `1*`, `2*`. */
  const share = z
    .string()
    .regex(/^\s*\d*\.?\d*\s*\*\s*$/, { error: 'expected a length, or a share such as 1*' })
    .meta({ description: 'a share of the space that is left: 1*, 2*' })
    .transform((text): { share: number } => ({ share: text.trim() === '*' ? 1 : Number.parseFloat(text) }))
    .refine(({ share }) => share > 0, { error: 'a share must be more than 0' })
    .meta({ id: 'Share', description: 'a share of the space that is left: 1*, 2*' });
  const sizeOrShare = z
    .union([share, positive])
    .meta({ id: 'SizeOrShare', description: 'a length, or a share of the space that is left' });
  const date = z.iso
    .date({ error: 'expected a date such as 2026-10-02', abort: true })
    .meta({ id: 'Date', description: 'a date: 2026-10-02' });
  /** A bare number is a name too: `id: 1`. */
  const nameOf = (id: string, letters: RegExp, error: string, description: string) =>
    z
      .union([z.string(), z.number()], { error: `expected ${description}` })
      .transform(String)
      .pipe(z.string().regex(letters, { error }).max(60))
      .meta({ id, description });
  const id = nameOf(
    'Name',
    /^[\p{L}\p{N}][\p{L}\p{N} ._'’()&+-]*$/u,
    "a name begins with a letter or digit, and is made of letters, digits, spaces and . _ - ' ( ) & +",
    'a short name, unique among its kind',
  );
  /** Stock goes by the sizes it is sold in: `birch 3/4`, `8' poplar 1x2`. */
  const stockId = nameOf(
    'StockName',
    /^[\p{L}\p{N}][\p{L}\p{N} ._'’()&+/⁄"″′×#,½¼¾⅛⅜⅝⅞-]*$/u,
    'the name of a stock begins with a letter or digit, and is made of letters, digits, spaces and the marks of sizes',
    'the name of a stock, unique among its kind: birch 3/4',
  );
  /** Words or a bare number, kept as text: `nominal: 3/4`, `nominal: 18`. */
  const words = z
    .union([z.string(), z.number()], { error: 'expected text' })
    .transform(String)
    .pipe(z.string().max(120));
  /** A key that is a length. */
  const lengthKey = z
    .string()
    .superRefine((key, ctx) => {
      const result = readers.length(key);
      if (result.ok) return;
      for (const issue of result.issues)
        ctx.addIssue({ code: 'custom', message: issue.message, params: { issue }, input: key });
    })
    .meta({ description: 'a distance from the left end' });
  /** Figures by their distance from the left end: written as keys, read as a list from left to right, each place once. */
  const along = (description: string) =>
    z
      .record(lengthKey, length)
      .meta({ description })
      .transform((written, ctx): readonly Measured[] => {
        const list = Object.entries(written).flatMap(([key, value]) => {
          const at = readers.length(key);
          return at.ok ? [{ at: at.value, value, key }] : [];
        });
        list.sort((a, b) => a.at - b.at);
        list.forEach(({ at, key }, i) => {
          if (i === 0 || list[i - 1]!.at !== at) return;
          const issue = { path: [key], message: `the same place as '${list[i - 1]!.key}', written in another way` };
          ctx.addIssue({ code: 'custom', message: issue.message, params: { issue } });
        });
        return list.map(({ at, value }) => ({ at, value }));
      });
  const count = z.int().min(0).max(100_000);
  const angle = z.number().min(0).max(360);
  return {
    length,
    positive,
    notNegative,
    mass,
    money,
    share,
    sizeOrShare,
    date,
    id,
    stockId,
    words,
    along,
    count,
    angle,
  };
}
export type Values = ReturnType<typeof makeValues>;
