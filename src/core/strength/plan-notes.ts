import type { Note } from '../notes/index.ts';
import { subjectsOf, type WallInput } from './plan-input.ts';
import { liftNotes } from './plan-lifting.ts';
import { movementNotes } from './plan-movement.ts';
import { standUpNotes, wayInNotes } from './plan-moving.ts';
import { boxNotes } from './plan-shelf-box.ts';
import { floatingNotes, shelfNotes } from './plan-shelves.ts';

/** Of strength, what each piece answers by itself, whatever stands beside it. */
export const bendingNotes = (input: WallInput): readonly Note[] =>
  subjectsOf(input).flatMap((subject) => [
    ...shelfNotes(input, subject),
    ...floatingNotes(input, subject),
    ...boxNotes(input, subject),
    ...movementNotes(input, subject),
  ]);

/** Whether it goes in: stood up under the ceiling, through the door, round the hall, in the vehicle; by one person or two. */
export const carryingNotes = (input: WallInput): readonly Note[] =>
  subjectsOf(input).flatMap((subject) => [
    ...standUpNotes(input, subject),
    ...wayInNotes(input, subject),
    ...liftNotes(input, subject),
  ]);
