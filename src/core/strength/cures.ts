import type { Note } from '../notes/index.ts';
import { cureOf } from './fixing/cure.ts';
import { subjectsOf, type WallInput } from './plan-input.ts';

/** What makes the fixings of a piece hold: looked for among what may be changed, until one holds. */
export function fixingCure(input: WallInput, piece: string): Note['cure'] {
  const subject = subjectsOf(input).find(({ placed }) => placed.id === piece);
  return subject && cureOf(input, subject);
}
