import type { Origin } from '../../notes/index.ts';

/** Lumber for framing, sold by a group of species or by a strength class: specific gravity for fastenings, oven-dry mass over oven-dry volume. */
export interface FramingLumber {
  readonly gravity: number;
  readonly source: Origin;
  /** Other words for it. Common practice. */
  readonly also?: readonly string[];
}

/** Read at second hand. */
const NDS: Origin = { title: 'NDS-2018', place: 'table 12.3.3A' };
/** EN 338:2016, table 1: mean density at 12 % moisture content, over 1.12. */
const EN_338: Origin = 'from memory';

export const FRAMING_LUMBER = {
  'Douglas Fir-Larch': { gravity: 0.5, source: NDS, also: ['DF-L', 'DFL'] },
  'Douglas Fir-South': { gravity: 0.46, source: NDS, also: ['DF-S'] },
  'Hem-Fir': { gravity: 0.43, source: NDS, also: ['HF'] },
  'Southern Pine': { gravity: 0.55, source: NDS, also: ['SYP', 'southern yellow pine'] },
  'Spruce-Pine-Fir': { gravity: 0.42, source: NDS, also: ['SPF', 'S-P-F'] },
  'Spruce-Pine-Fir (South)': { gravity: 0.36, source: NDS, also: ['SPF-S', 'SPF (South)'] },
  C16: { gravity: 0.33, source: EN_338 },
  C18: { gravity: 0.34, source: EN_338 },
  C24: { gravity: 0.375, source: EN_338 },
  C30: { gravity: 0.41, source: EN_338 },
} as const satisfies Record<string, FramingLumber>;
export type FramingName = keyof typeof FRAMING_LUMBER;
export const FRAMING_NAMES = Object.keys(FRAMING_LUMBER) as readonly FramingName[];

const folded = (words: string): string => words.toLowerCase().replaceAll(/[^a-z0-9]+/g, '');

/** The group or class that a plan's word names, whatever its hyphens and capitals; undefined where it names none. */
export function framingLumber(words: string): FramingName | undefined {
  const said = folded(words);
  return FRAMING_NAMES.find((name) => {
    const { also = [] }: FramingLumber = FRAMING_LUMBER[name];
    return [name, ...also].some((one) => folded(one) === said);
  });
}
