import type { Edit, PlainValue } from '../core/plan/index.ts';

/** First the plan as it stands, then, with every step of the hand, the edits that are under it. */
export type ToGlance = { readonly revision: number; readonly option: string } & (
  | { readonly type: 'plan'; readonly plain: PlainValue }
  | { readonly type: 'hand'; readonly edits: readonly Edit[] }
);

/** What the set does in its room, as coarse as one frame allows. */
export interface Glance {
  /** The first of those who are lit; undefined where nobody or nothing is. */
  readonly face: { readonly title: string; readonly lux: number } | undefined;
  /** The longest of the middle bands with nobody in the room, s, and its speech index. */
  readonly rings: number;
  readonly index: number;
}
export interface FromGlance {
  readonly revision: number;
  /** Undefined when it cannot be read with these edits: what was told before stands. */
  readonly glance: Glance | undefined;
}
