import { faceColours, type Staged } from '../surroundings/index.ts';
import { paintSpectrum, toBands } from './cast.ts';
import { linearToSrgb, parseHex, srgbToXyz, toHex } from './colour.ts';

/** For a plan that names no paints. */
const USUAL_PAINTS = [
  { name: 'white', colour: '#f0f0ee' },
  { name: 'light grey', colour: '#cfcfcb' },
  { name: 'mid grey', colour: '#9a9b9a' },
  { name: 'dark grey', colour: '#55585a' },
] as const;

/** Reflectance of the lightest wood, for what a dark set costs: `WOOD` of a plan that says nothing. Common practice. */
const PALE = '#c8ab7d';
/** Kept out, to see what it does. */
export const DAYLIGHT = 'daylight (kept out)';
export const PALE_SET = 'pale set';

const spectra = new Map<string, readonly number[]>();
/** What a colour sends back, by band. */
export function bandsOf(colour: string): readonly number[] {
  const known = spectra.get(colour);
  if (known) return known;
  const made = toBands(paintSpectrum(colour)).map((r) => Math.min(0.97, r));
  spectra.set(colour, made);
  return made;
}

const greyOf = (colour: string): string => {
  const y = linearToSrgb(srgbToXyz(parseHex(colour))[1]);
  return toHex([y, y, y]);
};

/** One way of painting: the room's faces, and whether what stands in it keeps its colours. */
export interface Way {
  readonly floor: string;
  readonly ceiling: string;
  readonly walls: readonly string[];
  readonly set?: 'grey' | 'pale';
  /** No daylight comes in. */
  readonly shut?: boolean;
}

/** Ways to paint, each with what it is tried for. */
export interface Ways {
  /** As it will be painted, as it is now, each of the paints on all walls, and then each of the tests; under the hand the first alone. */
  readonly all: readonly Way[];
  readonly paints: readonly { readonly name: string; readonly colour: string }[];
  /** One thing made a grey as bright as it is, or kept out, or the set made pale. */
  readonly tests: readonly { readonly what: string; readonly way: Way }[];
}

export function waysOf(staged: Staged, daylight: boolean, quick: boolean): Ways {
  const then = faceColours(staged, true);
  if (quick) return { all: [then], paints: [], tests: [] };
  const paints = staged.plan.paints ?? USUAL_PAINTS;
  const tests: Ways['tests'] = [
    { what: 'walls', way: { ...then, walls: then.walls.map(greyOf) } },
    { what: 'floor', way: { ...then, floor: greyOf(then.floor) } },
    { what: 'ceiling', way: { ...then, ceiling: greyOf(then.ceiling) } },
    { what: 'cases, furniture and absorbers', way: { ...then, set: 'grey' } },
    { what: PALE_SET, way: { ...then, set: 'pale' } },
    ...(daylight ? [{ what: DAYLIGHT, way: { ...then, shut: true } }] : []),
  ];
  const tried = paints.map(({ colour }): Way => ({ ...then, walls: then.walls.map(() => colour) }));
  return { all: [then, faceColours(staged, false), ...tried, ...tests.map((t) => t.way)], paints, tests };
}

const MADE: ReadonlySet<string> = new Set(['case', 'shelf', 'lining', 'absorber']);

/** The colour of a thing of this kind where the room is painted so. */
export function setColour({ set }: Way, colour: string, kind: string): string {
  if (set === 'grey') return greyOf(colour);
  return set === 'pale' && MADE.has(kind) ? lighter(colour) : colour;
}

/** The paler of a colour and the lightest wood. */
function lighter(colour: string): string {
  const of = (c: string): number => srgbToXyz(parseHex(c))[1];
  return of(colour) < of(PALE) ? PALE : colour;
}
