import type { Note } from '../../notes/index.ts';
import type { Edit, Piece } from '../../plan/index.ts';
import { formatSold } from '../../quantity/index.ts';
import type { PlacedPiece } from '../../scene/index.ts';
import { exact, imperial, marked, type Subject, set, type WallInput } from '../plan-input.ts';
import type { Screw } from '../screw-sizes.ts';
import type { FixKind } from './point.ts';
import { railsOf } from './rails.ts';
import { changed, holds } from './trial.ts';

type Fix = NonNullable<Piece['fix']>;

/** Where more holes are, from the lower edge or the left end of their piece, mm, and what a maker calls that. */
export interface More {
  readonly heights?: readonly number[];
  readonly at?: readonly number[];
  readonly words: string;
}
/** The holes as they are. */
export const AS_THEY_ARE: More = { words: '' };

export interface Sort extends Partial<Screw> {
  readonly kind: FixKind;
}

/** The first of some fixings, in their order and wherever their holes are said to be, that holds. */
export function moreCure(
  input: WallInput,
  subject: Subject,
  ways: readonly More[],
  sorts: readonly Sort[],
  verb = 'Fix it',
): Note['cure'] {
  const { fix } = subject.said;
  for (const { words, ...where } of ways)
    for (const sort of sorts) {
      const tried = { ...fix, ...sort, ...where } as Fix;
      if (!holds(input, changed(subject, { fix: tried }))) continue;
      const show = (size: number) => formatSold(size, imperial(input));
      const { kind, diameter, length } = sort;
      const which = diameter && length ? ` with ${kind}s ${show(diameter)} × ${show(length)}` : '';
      return {
        title: `${verb}${which}${words && `, ${words}`}`,
        edits: fixEdits(input, subject, sort, where),
      };
    }
  return undefined;
}

/** Other fixings, or others of their places, for what is fixed already or was not said to be. */
export function fixEdits(
  input: WallInput,
  { path, said }: Pick<Subject, 'path' | 'said'>,
  { kind, diameter, length }: Sort,
  { heights, at }: { readonly [key in 'heights' | 'at']?: readonly number[] | undefined },
): readonly Edit[] {
  const each = (sizes: readonly number[]) => sizes.map((size) => exact(input, size));
  const words = {
    kind,
    ...(diameter && { diameter: exact(input, diameter) }),
    ...(length && { length: exact(input, length) }),
    ...(heights && { heights: each(heights) }),
    ...(at && { at: each(at) }),
  };
  if (!said.fix) return [set([...path, 'fix'], words)];
  return Object.entries(words).map(([key, value]) => set([...path, 'fix', key], value));
}

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six'];
export const numberWord = (count: number): string => NUMBERS[count] ?? String(count);

/** Nearer to one another nobody puts rows of screws up a back, mm. Common practice. */
const ROW = 100;

/** More rows than so many are no maker's answer. */
const MOST = 5;

/** Rows from one height to another, evenly: first as few as asked. */
export const rowsBetween = (input: WallInput, low: number, high: number, least: number): readonly More[] =>
  Array.from({ length: MOST - least + 1 }, (_, i) => least + i)
    .filter((rows) => high - low >= ROW * (rows - 1))
    .map((rows) => ({
      heights: Array.from({ length: rows }, (_, i) => marked(input, low + ((high - low) * i) / (rows - 1))),
      words: `in ${numberWord(rows)} rows`,
    }));

/** In a rail, from its edges to the screws and from one to the next over it: four diameters of the thickest, 8 mm, apart (NDS-2018, table 12.5.1B, from memory; the edge common practice). */
const RAIL_EDGE = 25;
const APART = 32;

/** At each stud so many screws over one another in the upper rail, and in the lower one: that hangs from its ends, and gets the fewer. */
const IN_RAILS = [
  [2, 1],
  [2, 2],
  [3, 1],
  [3, 2],
  [3, 3],
] as const;

/** More screws in the rails of a case that have room for them. */
export function rowsInRails(input: WallInput, placed: PlacedPiece, where = 'at each stud'): readonly More[] {
  const edges = railsOf(placed).map(({ solid: { box } }) => [box.min.y, box.max.y] as const);
  const [upper, lower] = edges.toSorted((a, b) => b[0] - a[0]);
  if (!upper) return [];
  const rows = ([low, high]: readonly [number, number], count: number) =>
    Array.from({ length: count }, (_, i) =>
      marked(
        input,
        count === 1 ? (low + high) / 2 : low + RAIL_EDGE + ((high - low - 2 * RAIL_EDGE) * i) / (count - 1),
      ),
    );
  const takes = ([low, high]: readonly [number, number], count: number) =>
    high - low >= 2 * RAIL_EDGE + APART * (count - 1);
  return (lower ? IN_RAILS : ([[2], [3]] as const))
    .filter(([above, below = 0]) => takes(upper, above) && (!lower || takes(lower, below)))
    .map(([above, below = 0]) => ({
      heights: [...(lower ? rows(lower, below) : []), ...rows(upper, above)],
      words:
        !lower || above === below
          ? [numberWord(above), where, ...(lower ? ['in each rail'] : [])].filter(Boolean).join(' ')
          : [where, `${numberWord(above)} in the upper rail and ${numberWord(below)} in the lower`]
              .filter(Boolean)
              .join(' '),
    }));
}
