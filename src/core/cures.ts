import type { Note } from './notes/index.ts';
import { massesOf, type Solids } from './solids.ts';
import { fixingCure } from './strength/cures.ts';

/**
 * The change that settles a note: the one it carries, or the one that is found by building and trying what may. That takes up to a
 * tenth of a second, too long for every step of a hand, and is therefore asked for by whoever shows the note. Undefined where none is known.
 */
export function cureOf(solids: Solids, note: Note): Note['cure'] {
  if (note.cure || !note.tried) return note.cure;
  const { plan, option, room, pieces } = solids;
  return fixingCure({ plan, option, room, pieces, massOf: massesOf(solids) }, note.about);
}

/** Notes with the change that settles each, where one is known. */
export const withCures = (solids: Solids, notes: readonly Note[]): readonly Note[] =>
  notes.map(({ tried, ...note }) => {
    const cure = cureOf(solids, tried ? { ...note, tried } : note);
    return cure ? { ...note, cure } : note;
  });
