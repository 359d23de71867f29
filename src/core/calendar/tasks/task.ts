import type { Bill, Cut } from '../../bill/index.ts';
import type { Option, Plan } from '../../plan/index.ts';
import type { PlacedRoom } from '../../room/index.ts';
import type { PartId, PlacedPiece } from '../../scene/index.ts';
import type { Counted } from '../paces.ts';

export interface TasksInput {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  readonly cuts: readonly Cut[];
  readonly bill: Bill;
  /** kg of a part, where it is known. */
  readonly massOf?: (part: PartId) => number | undefined;
  /** Share of the steps of putting a piece together that want a second person; left out: none. */
  readonly helpedShare?: (piece: string) => number;
}

export const PHASES = ['room', 'buying', 'cutting', 'assembly', 'finish', 'fitting', 'last'] as const;
export type Phase = (typeof PHASES)[number];
export type Tool = 'saws' | 'benches' | 'clamps' | 'floor';
/** Whose hours: the maker's, those with a helper, or the maker's while a shop is open. */
export type WhoseHours = 'own' | 'helped' | { readonly supplier: string };

/** One task of the job, as counted; times in minutes. */
export interface JobTask {
  readonly id: string;
  /** As it is told to do: `Cut birch 3/4`. */
  readonly title: string;
  /** As it is spoken of: `the cutting of birch 3/4`. */
  readonly noun: string;
  readonly phase: Phase;
  /** What it is done to; of a batch all of them. Nothing for what is done to the room or to stock. */
  readonly pieces?: readonly string[];
  readonly counts: readonly { readonly counted: Counted; readonly count: number }[];
  /** The maker's likely time, exactly; a part of it where one task is told in several. */
  readonly minutes: number;
  readonly hours: WhoseHours;
  /** A second person is wanted, and why. */
  readonly helper?: string;
  /** What is fetched or ordered, `3 × birch 3/4, 8' 0" × 4' 0"`, or of a batch that is only counted, what is in it. */
  readonly list?: readonly string[];
  readonly whole: boolean;
  readonly place: 'room' | 'shop' | 'away';
  readonly air?: { readonly kind: 'dust' | 'wet'; readonly beyond: number };
  readonly holds: readonly { readonly tool: Tool; readonly amount: number; readonly beyond: number }[];
  readonly after: readonly { readonly task: number; readonly wait: number; readonly why?: string }[];
}
