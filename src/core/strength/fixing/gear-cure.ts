import type { Note } from '../../notes/index.ts';
import type { Subject, WallInput } from '../plan-input.ts';
import { fromTop } from './case-back.ts';
import { strongerScrews } from './fastener.ts';
import { hangsFlat } from './gear-group.ts';
import { AS_THEY_ARE, moreCure, rowsBetween } from './more-cure.ts';

/** What hangs on a wall by screws: on stronger ones of those that are sold; then, where it lies against the wall, with more rows of them. */
export function gearCure(input: WallInput, subject: Subject): Note['cure'] {
  const { min, max } = subject.placed.outside;
  const edge = fromTop(input);
  const rows = hangsFlat(input, subject) ? rowsBetween(input, edge, max.y - min.y - edge, 2) : [];
  return moreCure(input, subject, [AS_THEY_ARE, ...rows], strongerScrews(input, subject));
}
