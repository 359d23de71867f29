import type { Issue } from '../issue/index.ts';

/**
 * The neutral cutting problems and their answers. No plan is needed to state one: `setwright solve` reads them one JSON object
 * a line, and the casework states its own the same way.
 *
 * Lengths here are millimetres; every solver turns them into whole ticks (1/640 mm) at its door and works exactly in those.
 * Length runs along x, width along y. `kerf` is what the blade takes between parts, `trim` what is taken off each edge of the
 * stock before anything else. Costs are any non-negative numbers of one unit.
 */
export interface PanelStock {
  readonly id: string;
  readonly length: number;
  readonly width: number;
  readonly cost: number;
  /** How many there are; null is as many as wanted. */
  readonly count: number | null;
}
export interface PanelPart {
  readonly id: string;
  readonly length: number;
  readonly width: number;
  readonly count: number;
  /** May lie turned by a quarter. Left out means no: the grain decides. */
  readonly turn?: boolean;
}
export interface PanelProblem {
  readonly name: string;
  readonly kind: 'panels';
  readonly kerf: number;
  readonly trim: number;
  readonly stock: readonly PanelStock[];
  readonly parts: readonly PanelPart[];
}

export interface LengthStock {
  readonly id: string;
  readonly length: number;
  readonly cost: number;
  readonly count: number | null;
  /**
   * Stretches no part may touch (a knot, a split, a bad end), measured from the start of the board before trimming. The blade runs
   * inside such a stretch; one narrower than the kerf counts as one kerf wide, from its `from` on.
   */
  readonly unusable?: readonly { readonly from: number; readonly to: number }[];
}
export interface LengthPart {
  readonly id: string;
  /** Long point to long point where an end is mitred. */
  readonly length: number;
  readonly count: number;
  /**
   * Degrees off square at either end, 0 ≤ angle ≤ 75; left out, both ends are square. The part may be turned end for end and
   * over, so that two neighbours of one angle a and one face width share a single cut: measured along the board the next long
   * point then lies kerf/cos a − faceWidth·tan a after the last one (before it, when negative). All other neighbours keep one
   * kerf between their long points, measured along the board at the steeper of the two ends: kerf/cos a.
   */
  readonly ends?: readonly [number, number];
  /** The width of the face the mitre runs across, mm; needed where an end is mitred. */
  readonly faceWidth?: number;
}
export interface LengthProblem {
  readonly name: string;
  readonly kind: 'lengths';
  readonly kerf: number;
  readonly trim: number;
  readonly stock: readonly LengthStock[];
  readonly parts: readonly LengthPart[];
}

/** Length and width as they lie: a turned part has them exchanged. x and y are of its corner nearest the stock's origin, trim included. */
export interface PlacedPart {
  readonly part: string;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}
export interface PlacedLength {
  readonly part: string;
  readonly x: number;
  readonly length: number;
  /** Lies end for end: its second end comes first. Only said of a part whose ends differ. */
  readonly turned?: boolean;
}
/** One arrangement of one stock item, cut `times` times. */
export interface Layout<P> {
  readonly stock: string;
  readonly times: number;
  readonly placed: readonly P[];
}
export type PanelLayout = Layout<PlacedPart>;
export type LengthLayout = Layout<PlacedLength>;

/**
 * `optimal` only when the cost equals a proven bound. `feasible` carries the bound so that the gap can be said.
 * `infeasible` names what does not fit. `steps` is the search effort spent, the same on every machine.
 */
export type CutAnswer<P> =
  | {
      readonly name: string;
      readonly kind: 'panels' | 'lengths';
      readonly status: 'optimal' | 'feasible';
      readonly cost: number;
      readonly bound: number;
      readonly steps: number;
      /** True when a time limit or a stop ended the search before its steps were spent. */
      readonly cutShort?: boolean;
      readonly layouts: readonly Layout<P>[];
    }
  | {
      readonly name: string;
      readonly kind: 'panels' | 'lengths';
      readonly status: 'infeasible';
      readonly issues: readonly Issue[];
    };
export type PanelAnswer = CutAnswer<PlacedPart>;
export type LengthAnswer = CutAnswer<PlacedLength>;

/** How hard to try. Steps are counted, not timed, so that the answer is the same everywhere; a caller may also stop the search. */
export interface Effort {
  /** Unit steps of search; each method says what it counts. */
  readonly steps: number;
  /** Asked often (well under every 50 ms); true ends the search with the best answer so far. */
  readonly shouldStop?: () => boolean;
  /** Called with each better answer as it is found, the first within milliseconds. */
  readonly onBetter?: (answer: PanelAnswer | LengthAnswer) => void;
  /** Chance comes only from here. */
  readonly seed?: number;
}
