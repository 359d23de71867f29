import type { Tally } from '../core/bill/index.ts';
import type { CutProblem, CutProblemAnswer } from '../core/cutting/index.ts';
import type { PageView, RegisterEntry } from '../core/drawing/index.ts';
import type { Note } from '../core/notes/index.ts';
import type { SetFindings } from '../core/outcome.ts';
import type { Edit, Piece, PlainValue } from '../core/plan/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import type { Easel } from '../print/canvas.ts';

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
/** The canvas over the window that the drawing is looked at through: its size in pixels, and what is marked in the drawing. */
export interface Pane extends Easel {
  readonly width: number;
  readonly height: number;
  readonly selected: string | undefined;
  readonly note: string | undefined;
}

/** First what lies there, then what edits of it are under the hand; the view is to stay where it is. */
export type ToHand = { readonly revision: number } & (
  | { readonly type: 'lies'; readonly lying: Lying }
  | { readonly type: 'held'; readonly edits: readonly Edit[]; readonly hold?: PageView; readonly pane: Pane }
);

/** A piece as it stands, without what it is made of. */
export type Standing = Omit<PlacedPiece, 'parts' | 'joints' | 'fittings'>;

/** One state of the bench, told by how it follows from what was told before it. */
export interface Told {
  readonly tally: Tally;
  /** Of what lies there: the pieces that are written otherwise, by their place in the option, and those that stand otherwise. */
  readonly pieces: readonly (readonly [number, Piece])[];
  readonly standing: readonly Standing[];
  /** A number is the place of a note that was told before. */
  readonly notes: readonly (number | Note)[];
  /** Rough cutting plans that were not known. */
  readonly cutting: Cutting;
}
/**
 * Two messages answer each that comes: first what there is to say of it, undefined when it cannot be read with these edits (what was told
 * before stands); then that the worker is done with it, and whether its drawing is on the canvas. The page takes over the first while the
 * drawing is made.
 */
export type FromHand = { readonly revision: number } & (
  | { readonly type: 'told'; readonly told: Told | undefined }
  | { readonly type: 'done'; readonly painted: boolean }
);
