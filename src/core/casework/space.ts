import type { SizeOrShare } from '../plan/index.ts';
import { divide, type Ticks } from './divide.ts';
import type { Draft, DraftPart, Path, Span } from './draft.ts';
import type { Habits, Said } from './habits.ts';

export type Around<T> = { readonly left: T; readonly right: T; readonly top: T; readonly bottom: T };
type Bounds = Partial<Around<DraftPart | undefined>>;

/** The space of one bay, before anything is put in it. */
export interface Space {
  /** Between the panels round it. */
  readonly x: Span;
  readonly y: Span;
  /** From the face of the back to where its contents must end. */
  readonly z: Span;
  /** What is clear seen from the front: between the members of the face frame, or the same as x and y without one. */
  readonly open: { readonly x: Span; readonly y: Span };
  /** The plane of the outer face of inset fronts. */
  readonly face: Ticks;
  /** Behind a door: no face frame, and every front is inset. */
  readonly behind: boolean;
  readonly panels: Bounds;
  /** What a door of this bay hangs from: the face frame, or the panels. */
  readonly members: Bounds;
  /** How far an overlay front reaches past the opening at each edge. */
  readonly cover: Around<Ticks>;
  readonly back: DraftPart | undefined;
  /** After the piece's own name; empty for the whole inside of the case. */
  readonly id: string;
  readonly number: string;
  /** What the plan calls it. */
  readonly title?: string | undefined;
  readonly level: number;
  /** Which of its sizes the plan may give: width in a row of columns, height in a column of rows, neither for the whole inside. */
  readonly sized?: 'width' | 'height';
  readonly path: Path;
}

/** What building the inside of a case needs throughout. */
export interface Job {
  readonly draft: Draft;
  readonly habits: Habits;
  /** Front edge of sides and uprights. */
  readonly carcassFront: Ticks;
  readonly oddAtEnd: boolean;
  readonly said: Said;
}

/** Shares out one direction of a bay, or says why that cannot be done. */
export function shareOut(
  { draft }: Job,
  total: Ticks,
  wanted: readonly SizeOrShare[],
  fromEnd: boolean,
  path: Path,
  what: string,
): readonly Ticks[] | undefined {
  const division = divide(total, wanted, fromEnd);
  if (division.fits) return division.sizes;
  const { over } = division;
  draft.issues.push(
    over < 0
      ? {
          path,
          message: `the ${what} leave some over`,
          found: `${draft.show(total + over)}`,
          expected: `${draft.show(Math.max(total, 0))} in all, or a share such as 1* for one of them`,
        }
      : {
          path,
          message: `the ${what} do not fit`,
          ...(wanted.every((w) => typeof w === 'number')
            ? { found: draft.show(total + over), expected: `${draft.show(Math.max(total, 0))} in all` }
            : {
                found: `${draft.notLess(total + over)}, and something for each share`,
                expected: `less than ${draft.notMore(Math.max(total, 0))} in all`,
              }),
        },
  );
  return undefined;
}

/** Id, name and place of a part of this bay; `what` is the end of its id. */
export const partOf = (space: Space, what: string) => ({
  id: `${space.id ? `${space.id}/` : ''}${what}`,
  name: `${what.replace(/-(?=\d+$)/, ' ').replaceAll('-', ' ')}${space.number ? ` of bay ${space.number}` : ''}`,
  bay: space.title ?? (space.number ? `bay ${space.number}` : undefined),
});
