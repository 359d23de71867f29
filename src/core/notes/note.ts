import type { Working } from './working.ts';

/** stop: do not build it like this. caution: look before you go on. fine: checked, and it holds (what was checked is said). */
export type Verdict = 'stop' | 'caution' | 'fine';

const URGENCY: Readonly<Record<Verdict, number>> = { stop: 0, caution: 1, fine: 2 };
/** The order in which notes are numbered and listed, everywhere. */
export const byUrgency = (a: Pick<Note, 'verdict'>, b: Pick<Note, 'verdict'>): number =>
  URGENCY[a.verdict] - URGENCY[b.verdict];

/**
 * A finding about the plan. The id comes from what the note is about (`shelf-sag:scores/shelf-2`), so that it is the same
 * after an edit and a screen keeps its place. `at` is a point of the room in mm (x east, y up, z south).
 */
export interface Note {
  readonly id: string;
  readonly about: string;
  readonly at?: { readonly x: number; readonly y: number; readonly z: number };
  readonly verdict: Verdict;
  readonly title: string;
  readonly advice: string;
  readonly working?: Working;
  /** A change to the plan that settles the note, where one is known: edits as data (see plan/edit). */
  readonly cure?: { readonly title: string; readonly edits: readonly unknown[] };
  /** What settles it has to be tried out: core/cures.ts is asked for that. */
  readonly tried?: true;
}
