import type { Note } from '../notes/index.ts';
import { fixingNotes } from './fixing/notes.ts';
import { subjectsOf, type WallInput } from './plan-input.ts';
import { liftNotes } from './plan-lifting.ts';
import { movementNotes } from './plan-movement.ts';
import { standUpNotes, wayInNotes } from './plan-moving.ts';
import { floatingNotes, shelfNotes } from './plan-shelves.ts';

/**
 * Whether it holds: sag of every shelf of every case, solid wood that cannot move, what each piece hangs from. Each with its working, and a cure as edits where
 * one was found that settles it.
 */
export const strengthNotes = (input: WallInput): readonly Note[] => [...bendingNotes(input), ...fixingNotes(input)];

/** Of strength, what each piece answers by itself, whatever stands beside it. */
export const bendingNotes = (input: WallInput): readonly Note[] =>
  subjectsOf(input).flatMap((subject) => [
    ...shelfNotes(input, subject),
    ...floatingNotes(input, subject),
    ...movementNotes(input, subject),
  ]);

/** Whether it goes in: stood up under the ceiling, through the door, round the hall, in the vehicle; by one person or two. */
export const carryingNotes = (input: WallInput): readonly Note[] =>
  subjectsOf(input).flatMap((subject) => [
    ...standUpNotes(input, subject),
    ...wayInNotes(input, subject),
    ...liftNotes(input, subject),
  ]);
