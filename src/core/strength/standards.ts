import type { Origin } from '../notes/index.ts';
import { convert, inch, STANDARD_GRAVITY } from '../quantity/index.ts';

const AWS: Origin = {
  title: 'Architectural Woodwork Standards',
  edition: 'ed. 1, 2009',
  place: 'sec. 10, item 1.2.21',
};
const KCMA: Origin = { title: 'ANSI/KCMA A161.1', place: 'structural tests 5.1 and 5.2' };

const psf = (value: number): number => convert(value, 'psf', 'area load');

/** Loads shelves and floors are designed or tested for, N/m². */
export const DESIGN_LOADS = {
  'casework: books, school, library': { load: psf(50), source: AWS, note: 'at most 200 lb on a shelf' },
  'casework: all other': { load: psf(40), source: AWS, note: 'at most 200 lb on a shelf' },
  'kitchen cabinet test': { load: psf(15), source: KCMA, note: 'held for seven days' },
  'library shelf': { load: psf(40), source: 'from memory', note: 'ANSI/NISO Z39.73-1994' },
  'floor: library stack room': {
    load: psf(150),
    source: { title: 'IBC / ASCE 7', place: 'table of live loads' },
    note: 'for the floor, not the shelf',
  },
  'floor: library reading room': {
    load: psf(60),
    source: { title: 'IBC / ASCE 7', place: 'table of live loads' },
    note: 'for the floor, not the shelf',
  },
} as const satisfies Record<string, { load: number; source: Origin; note: string }>;
export type DesignLoad = keyof typeof DESIGN_LOADS;

/** AWS 1.2.21: no shelf is taken to carry more than this, N. */
export const SHELF_LOAD_CAP = convert(200, 'lb', 'force');
/** kg that a shelf of so many mm is designed for, evenly spread. */
export const designMassOf = (design: DesignLoad, width: number, depth: number): number =>
  Math.min(DESIGN_LOADS[design].load * 1e-6 * width * depth, SHELF_LOAD_CAP) / STANDARD_GRAVITY;
/** ANSI/KCMA A161.1: a mounted wall cabinet is loaded to this, N. */
export const WALL_CABINET_PROOF = convert(500, 'lb', 'force');

interface SagLimit {
  readonly limit: (span: number) => number;
  readonly text: string;
  readonly source: Origin;
}
/** How far a shelf may sag, mm, by its span in mm. */
export const SAG_LIMITS = {
  'L/144': { limit: (span) => span / 144, text: 'L/144, casework standard', source: AWS },
  'L/240': {
    limit: (span) => span / 240,
    text: 'L/240, trade limit for particleboard and MDF',
    source: 'common practice',
  },
  'L/360': { limit: (span) => span / 360, text: 'L/360', source: 'common practice' },
  'kitchen cabinet': {
    limit: (span) => Math.min(inch(0.25), (inch(1 / 16) * span) / inch(12)),
    text: '1/16 in per foot, at most 1/4 in',
    source: KCMA,
  },
  'plywood trade': { limit: () => inch(3 / 16), text: '3/16 in, trade limit for plywood', source: 'common practice' },
  'seen by eye': {
    limit: (span) => (inch(0.02) * span) / inch(12),
    text: '0.02 in per foot, where the eye begins to see it',
    source: 'from memory',
  },
  library: { limit: () => inch(3 / 16), text: '3/16 in on a 36 in shelf, ANSI/NISO Z39.73', source: 'from memory' },
} as const satisfies Record<string, SagLimit>;
export type SagLimitName = keyof typeof SAG_LIMITS;
export const SAG_LIMIT_NAMES = Object.keys(SAG_LIMITS) as readonly SagLimitName[];

/** Longest spans from a workshop rule, mm, for about 42 lb in the middle. A guide, no standard. */
export const SPAN_GUIDE = {
  '3/4 in particleboard': inch(24),
  '3/4 in plywood': inch(30),
  '13/16 in solid wood': inch(36),
  '1-5/16 in solid wood': inch(60),
} as const;

/** Weight of a row of books per length, N/m: 20 lb a foot; 25 for large books (from memory). */
export const BOOKS = { ordinary: convert(20, 'lb/ft', 'line load'), large: convert(25, 'lb/ft', 'line load') } as const;
