import type { Bill, Cut, Tally } from '../bill/index.ts';
import type { Note, Working } from '../notes/index.ts';
import type { Option, Plan } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { PartId, PlacedPiece } from '../scene/index.ts';
import type { RealLayout } from '../stock/index.ts';

/** One step of cutting up a layout, in words; its line in the layout's own coordinates, where it is a saw cut. */
export interface CutStep {
  readonly number: number;
  /** Said once before the first step at another saw. */
  readonly heading?: string;
  readonly tool: string;
  readonly words: string;
  readonly line?: {
    readonly from: { readonly x: number; readonly y: number };
    readonly to: { readonly x: number; readonly y: number };
  };
  /** More than one person should manage, or the saw can do. */
  readonly heed?: string;
}
/** What is left of a layout: kept for the rack under a name, or waste without one. */
export interface Leftover {
  readonly name?: string;
  /** Spacers of the assembly that are cut out of it: S1, S2. */
  readonly spacers?: string;
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

/** Everything the packet draws, worked out before it gets here. */
export interface PacketInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  /** All of the option's notes. Those with a working get it on the workings pages. */
  readonly notes: readonly Note[];
  /** Further workings worth printing, such as the hours. */
  readonly workings?: readonly Working[];
  readonly cuts: readonly Cut[];
  readonly bill: Bill;
  readonly tally: Tally;
  /** The plan's other options, for comparison. */
  readonly others?: readonly { readonly title: string; readonly tally: Tally }[];
  /** kg of a part, where it is known. */
  readonly massOf?: (part: PartId) => number | undefined;
  /** The order of cuts of a panel layout; left out, the packet works it out itself. */
  readonly orderOf?: (layout: RealLayout) => LayoutPlan | undefined;
  /** The day it was worked out: 2026-10-02. */
  readonly date?: string;
}
