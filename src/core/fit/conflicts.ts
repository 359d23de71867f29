import type { Note } from '../notes/index.ts';
import { remember } from '../remember.ts';
import type { PlacedRoom, Placings } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { blockingNotes } from './blocking.ts';
import { isSolid, type Standing, standing } from './bodies.ts';
import { insideNotes } from './inside.ts';
import { meetingNotes } from './meeting.ts';
import { named, plainMm, type Show } from './said.ts';
import { slideNotes } from './slides.ts';
import { useNotes } from './use.ts';

export interface ConflictOptions {
  /** How lengths are written in titles and advice; millimetres when left out. */
  readonly show?: Show;
  /** Where else things may stand; each place is judged with all else as it is. */
  readonly alternatives?: Placings['alternatives'];
}

/**
 * Everything about where pieces stand that the maker should hear of before building: pieces that meet, stick out of the room, cover
 * what is on the wall, or cannot be opened. Judged from the solids as they stand, turned pieces included; lengths in mm.
 * Ids come from the names of what is concerned, so they survive an edit.
 */
export function conflictNotes(
  room: PlacedRoom,
  pieces: readonly PlacedPiece[],
  { show = plainMm, alternatives }: ConflictOptions = {},
): readonly Note[] {
  const all = pieces.map(standing);
  const notes = allNotes(room, all, show);
  if (!alternatives) return notes;
  const usual = new Set(notes.map((n) => n.id));
  const elsewhere = all.flatMap((s, i) => {
    const places = alternatives.get(s.piece.id) ?? [];
    return movedTo(s.piece, places).flatMap((moved, j) => {
      const { name } = places[j]!;
      // what the others say of one another is as usual
      return allNotes(room, all.with(i, moved), show, moved)
        .filter((n) => !usual.has(n.id))
        .map((n) => ({ ...n, id: `${n.id}@${name}`, title: `${named(s.piece)} at “${name}”: ${n.title}` }));
    });
  });
  return [...notes, ...elsewhere];
}

type Places = NonNullable<ReturnType<Placings['alternatives']['get']>>;
const moves = remember<PlacedPiece, readonly Standing[]>();
const movedTo = (piece: PlacedPiece, places: Places): readonly Standing[] =>
  moves(piece, [JSON.stringify(places)], () =>
    places.map(({ placing }) => {
      // Free in the room now, so whatever wall it stood at is forgotten.
      const { wall: _, ...rest } = piece;
      return standing({ ...rest, frame: placing.frame });
    }),
  );

/** With `only`, the notes that one of the pieces is part of. */
function allNotes(room: PlacedRoom, all: readonly Standing[], show: Show, only?: Standing): readonly Note[] {
  const solid = all.filter((s) => isSolid(s.piece));
  const alone = only ? [only] : all;
  const aloneSolid = alone.filter((s) => isSolid(s.piece));
  return [
    ...(aloneSolid.length > 0 ? meetingNotes(solid, show, only) : []),
    ...insideNotes(room, alone, show),
    ...blockingNotes(room, aloneSolid, show),
    ...(aloneSolid.length > 0 ? useNotes(room, solid, show, only) : []),
    ...slideNotes(
      aloneSolid.map(({ piece }) => piece),
      show,
    ),
  ];
}
