import type { LengthAnswer, LengthProblem, PanelAnswer, PanelProblem } from '../cutting/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Option, Plan } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { PartId, PlacedPiece } from '../scene/index.ts';

/** The headline figures of one option. A cost that is not known in full is left out, never nothing. */
export interface TallyFigures {
  /** Smallest units of the plan's currency. */
  readonly cost?: number;
  readonly panels: number;
  readonly boards: number;
  readonly cuts: number;
  readonly parts: number;
  /** kg, of everything built. */
  readonly mass: number;
  /** kg, the heaviest thing to be lifted. */
  readonly heaviest: number;
  readonly hours?: number;
  readonly stops: number;
  readonly cautions: number;
}

/** One straight saw cut of a layout, in the order it is made; x and y as in the layout. */
export interface CutLine {
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}
/** One step of cutting up a layout, in words. */
export interface CutStep {
  readonly number: number;
  readonly tool: string;
  readonly words: string;
  readonly line?: CutLine;
  /** More than one person should manage, or the saw can do. */
  readonly heed?: string;
}
/** What is left of a layout: kept for the rack under a name, or waste without one. */
export interface Leftover {
  readonly name?: string;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/** What the drawing of one layout shows beside the parts. */
export interface LayoutPlan {
  readonly steps: readonly CutStep[];
  readonly left: readonly Leftover[];
}
/** All panels of one stock, and how they are cut. */
export interface PanelCutting {
  readonly stock: string;
  readonly problem: PanelProblem;
  readonly answer: PanelAnswer;
  /** The parts that stand behind each part of the problem. */
  readonly parts: ReadonlyMap<string, readonly PartId[]>;
  /** One for each layout of the answer. */
  readonly plans?: readonly LayoutPlan[];
}
export interface LengthCutting {
  readonly stock: string;
  readonly problem: LengthProblem;
  readonly answer: LengthAnswer;
  readonly parts: ReadonlyMap<string, readonly PartId[]>;
}

/** One line of what to buy. Money in smallest units; a price that is not known is left out. */
export interface BuyLine {
  readonly name: string;
  readonly detail?: string;
  readonly count: number;
  readonly price?: number;
  readonly total?: number;
  readonly supplier?: string;
  readonly date?: string;
  readonly kind: 'panel' | 'board' | 'pack';
  readonly why?: string;
}
export interface BillFigures {
  readonly lines: readonly BuyLine[];
  readonly tax?: number;
  readonly total?: number;
}

/** Everything the packet draws, worked out before it gets here. */
export interface PacketInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  readonly notes: readonly Note[];
  readonly workings?: readonly Working[];
  readonly panels: readonly PanelCutting[];
  readonly boards: readonly LengthCutting[];
  readonly bill?: BillFigures;
  readonly tally: TallyFigures;
  /** The plan's other options, for comparison. */
  readonly others?: readonly { readonly title: string; readonly tally: TallyFigures }[];
  /** kg of a part, where it is known. */
  readonly massOf?: (part: PartId) => number | undefined;
  /** The day it was worked out: 2026-10-02. */
  readonly date?: string;
}
