import { inch, type Mm, snap } from '../../quantity/index.ts';

/**
 * Nominal and actual sizes of US lumber.
 *
 * Softwood: American Softwood Lumber Standard PS 20, minimum dressed sizes, dry (≤ 19 % moisture content) and green.
 * Hardwood: surfaced thickness by quarters. Both in inches as printed.
 */
export type Seasoning = 'dry' | 'green';
type Sizes = Readonly<Record<string, readonly [dry: number, green: number]>>;

/** PS 20, boards and dimension: nominal thickness → dressed. */
const THICKNESS: Sizes = {
  '3/8': [5 / 16, 11 / 32],
  '1/2': [7 / 16, 15 / 32],
  '5/8': [9 / 16, 19 / 32],
  '3/4': [5 / 8, 11 / 16],
  '1': [3 / 4, 25 / 32],
  '5/4': [1, 1 + 1 / 32],
  '6/4': [1 + 1 / 4, 1 + 9 / 32],
  '2': [1.5, 1 + 9 / 16],
  '2-1/2': [2, 2 + 1 / 16],
  '3': [2.5, 2 + 9 / 16],
  '3-1/2': [3, 3 + 1 / 16],
  '4': [3.5, 3 + 9 / 16],
  '4-1/2': [4, 4 + 1 / 16],
};
/** PS 20, boards and dimension: nominal width → dressed. */
const WIDTH: Sizes = {
  '2': [1.5, 1 + 9 / 16],
  '3': [2.5, 2 + 9 / 16],
  '4': [3.5, 3 + 9 / 16],
  '5': [4.5, 4 + 5 / 8],
  '6': [5.5, 5 + 5 / 8],
  '7': [6.5, 6 + 5 / 8],
  '8': [7.25, 7.5],
  '9': [8.25, 8.5],
  '10': [9.25, 9.5],
  '11': [10.25, 10.5],
  '12': [11.25, 11.5],
  '14': [13.25, 13.5],
  '16': [15.25, 15.5],
};
/** A thickness such as `5/4`, `2-1/2` or `2` in inches. */
function nominalThickness(name: string): number {
  const [, whole, over, under] = /^(?:(\d+)-)?(\d+)(?:\/(\d+))?$/.exec(name)!;
  return Number(whole ?? 0) + Number(over) / Number(under ?? 1);
}
const ALIASES: Readonly<Record<string, string>> = { '1-1/4': '5/4', '1-1/2': '6/4' };

/** Every size that may be asked for, thin to thick. */
export const NOMINAL_SIZES: readonly string[] = ['1', '5/4', '6/4', '2', '2-1/2', '3', '3-1/2', '4'].flatMap(
  (thickness) =>
    Object.keys(WIDTH)
      .filter((width) => Number(width) >= nominalThickness(thickness))
      .map((width) => `${thickness}x${width}`),
);

export interface ActualSize {
  readonly thickness: Mm;
  readonly width: Mm;
}

/**
 * What a softwood board sold as `1x4`, `2 x 10` or `5/4x6` measures. Undefined when PS 20 has no such size.
 * Source: American Softwood Lumber Standard, PS 20, minimum dressed sizes; timbers 5 in and thicker are left out.
 */
export function actualSize(nominal: string, seasoning: Seasoning = 'dry'): ActualSize | undefined {
  const match = /^([\d/-]+)\s*(?:["″]|in)?\s*[x×X]\s*([\d/-]+)\s*(?:["″]|in)?$/.exec(nominal.trim());
  if (!match) return undefined;
  const which = seasoning === 'dry' ? 0 : 1;
  const [a, b] = [ALIASES[match[1]!] ?? match[1]!, ALIASES[match[2]!] ?? match[2]!];
  const thickness = THICKNESS[a]?.[which];
  const width = WIDTH[b]?.[which];
  return thickness === undefined || width === undefined || Number(b) < nominalThickness(a)
    ? undefined
    : { thickness: snap(inch(thickness)), width: snap(inch(width)) };
}

/** Hardwood by quarters: rough, surfaced one side, surfaced two sides, inches. */
export const HARDWOOD = {
  '4/4': [1, 7 / 8, 13 / 16],
  '5/4': [1.25, 1 + 1 / 8, 1 + 1 / 16],
  '6/4': [1.5, 1 + 3 / 8, 1 + 5 / 16],
  '8/4': [2, 1 + 13 / 16, 1.75],
  '12/4': [3, 2 + 13 / 16, 2.75],
  '16/4': [4, 3 + 13 / 16, 3.75],
} as const satisfies Record<string, readonly [number, number, number]>;
export type HardwoodQuarter = keyof typeof HARDWOOD;
