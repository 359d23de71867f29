import type { DisplayPiece, Edit, Piece, ShelfPiece } from '../../plan/index.ts';
import { type Subject, set, type WallInput } from '../plan-input.ts';
import { fixingFor } from './held.ts';
import { holdsWell } from './point.ts';

/** The same piece said otherwise, in place of its own words: what a cure would make of it. */
export function changed(subject: Subject, change: Partial<DisplayPiece> | Partial<ShelfPiece>): Subject {
  return { ...subject, said: { ...subject.said, ...change } as Piece };
}

/** Its fixings hold, with a little left over. */
export const holds = (input: WallInput, subject: Subject): boolean => holdsWell(fixingFor(input, subject));

/** Puts a piece's middle at a place along its wall, whichever way the plan says where it is. */
export function moveTo(
  said: DisplayPiece | ShelfPiece,
  path: Subject['path'],
  centre: number,
  width: number,
): readonly Edit[] {
  if (said.centre !== undefined) return [set([...path, 'centre'], `${centre} mm`)];
  if (said.from !== undefined) return [set([...path, 'from'], `${centre - width / 2} mm`)];
  const edits: Edit[] = [set([...path, 'centre'], `${centre} mm`)];
  if (said.after !== undefined) edits.push({ op: 'remove', path: [...path, 'after'] });
  if (said.gap !== undefined) edits.push({ op: 'remove', path: [...path, 'gap'] });
  return edits;
}
