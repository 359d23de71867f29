import type { Tally } from '../core/bill/index.ts';
import type { CutProblem, CutProblemAnswer } from '../core/cutting/index.ts';
import type { Page, PageView, RegisterEntry } from '../core/drawing/index.ts';
import type { Note } from '../core/notes/index.ts';
import type { SetFindings } from '../core/outcome.ts';
import type { Edit, Piece, PlainValue } from '../core/plan/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import type { SvgParts } from '../print/svg.ts';
import type { Patch } from './redraw.ts';

export type Cutting = readonly (readonly [CutProblem, CutProblemAnswer])[];

/** What lies on the bench while no hand is on it: the plan, the page that is looked at, and all that is known of them. */
export interface Lying {
  readonly plain: PlainValue;
  readonly option: string;
  readonly page: string;
  readonly register: readonly RegisterEntry[];
  readonly found: SetFindings | undefined;
  readonly today: string;
  readonly cutting: Cutting;
}
/** First what lies there, then what edits of it are under the hand; the view is to stay where it is. */
export type ToHand = { readonly revision: number } & (
  | { readonly type: 'lies'; readonly lying: Lying }
  | { readonly type: 'held'; readonly edits: readonly Edit[]; readonly hold?: PageView }
);

/** A piece as it stands, without what it is made of. */
export type Standing = Omit<PlacedPiece, 'parts' | 'joints' | 'fittings'>;

/** One state of the bench, told by how it follows from what was told before it. */
export interface Told {
  /** Without its marks. */
  readonly page: Page;
  readonly around: Pick<SvgParts, 'head' | 'tail'>;
  readonly patch: Patch;
  readonly tally: Tally;
  /** Of what lies there: the pieces that are written otherwise, by their place in the option, and those that stand otherwise. */
  readonly pieces: readonly (readonly [number, Piece])[];
  readonly standing: readonly Standing[];
  /** A number is the place of a note that was told before. */
  readonly notes: readonly (number | Note)[];
  /** Rough cutting plans that were not known. */
  readonly cutting: Cutting;
}
/** Undefined when it cannot be read with these edits: what was told before stands. */
export interface FromHand {
  readonly revision: number;
  readonly told: Told | undefined;
}
