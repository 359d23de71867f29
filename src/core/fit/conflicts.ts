import type { Note } from '../notes/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { blockingNotes } from './blocking.ts';
import { standing } from './bodies.ts';
import { insideNotes } from './inside.ts';
import { meetingNotes } from './meeting.ts';
import { plainMm, type Show } from './said.ts';
import { useNotes } from './use.ts';

export interface ConflictOptions {
  /** How lengths are written in titles and advice; millimetres when left out. */
  readonly show?: Show;
}

/**
 * Everything about where pieces stand that the maker should hear of before building: pieces that meet, stick out of the room, cover
 * what is on the wall, or cannot be opened. Judged from the solids as they stand, turned pieces included; lengths in mm.
 * Ids come from the names of what is concerned, so they survive an edit.
 */
export function conflictNotes(
  room: PlacedRoom,
  pieces: readonly PlacedPiece[],
  { show = plainMm }: ConflictOptions = {},
): readonly Note[] {
  const all = pieces.map(standing);
  return [
    ...meetingNotes(all, show),
    ...insideNotes(room, all, show),
    ...blockingNotes(room, all, show),
    ...useNotes(room, all, show),
  ];
}
