import type { Note } from '../notes/index.ts';
import { remember } from '../remember.ts';
import type { PlacedRoom, Placings } from '../room/index.ts';
import type { PlacedPiece } from '../scene/index.ts';
import { blockingNotes } from './blocking.ts';
import { isSolid, type Standing, standing } from './bodies.ts';
import { insideNotes } from './inside.ts';
import { meetingNote } from './meeting.ts';
import { areNear } from './oriented.ts';
import { named, plainMm, type Show } from './said.ts';
import { slideNotes } from './slides.ts';
import { oneAtATimeNotes, openingNotes, openingNotesInRoom } from './use.ts';

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
  const solid = all.filter((s) => isSolid(s.piece));
  const notes = asTheyStand(room, all, solid, show);
  if (!alternatives) return notes;
  const usual = new Set(notes.map((n) => n.id));
  const elsewhere = all.flatMap((s) => {
    const places = alternatives.get(s.piece.id);
    if (!places) return [];
    const at = solid.indexOf(s);
    return movedTo(s.piece, places).flatMap((moved, j) => {
      const { name } = places[j]!;
      // what the others say of one another is as usual
      const near = at < 0 ? ALONE : nearOf(moved, solid, at);
      return ofOne(room, moved, near, show)
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

/** The solid pieces that one can have to do with: those before it in the list, and those behind it. */
interface Near {
  readonly before: Standing[];
  readonly behind: Standing[];
}
const ALONE: Near = { before: [], behind: [] };
/** All that is said of a piece and those near it follows from these. */
const from = (room: PlacedRoom, show: Show, { before, behind }: Near): readonly unknown[] => [
  room,
  show,
  before.length,
  ...before,
  ...behind,
];

/** Of each of a list. */
function nearOfAll(solid: readonly Standing[]): readonly Near[] {
  const near = solid.map((): Near => ({ before: [], behind: [] }));
  for (const [j, b] of solid.entries())
    for (let i = 0; i < j; i++) {
      const a = solid[i]!;
      if (!areNear(a.reach, b.reach)) continue;
      near[j]!.before.push(a);
      near[i]!.behind.push(b);
    }
  return near;
}
/** Of one in the place of another of the list. */
function nearOf(moved: Standing, solid: readonly Standing[], at: number): Near {
  const near: Near = { before: [], behind: [] };
  for (const [i, s] of solid.entries())
    if (i !== at && areNear(s.reach, moved.reach)) (i < at ? near.before : near.behind).push(s);
  return near;
}

interface Told {
  readonly meets: readonly Note[];
  readonly opens: readonly Note[];
  readonly atOnce: readonly Note[];
}
const told = remember<Standing, Told>();

/** Each pair is judged with the later of the two. */
function asTheyStand(
  room: PlacedRoom,
  all: readonly Standing[],
  solid: readonly Standing[],
  show: Show,
): readonly Note[] {
  const near = nearOfAll(solid);
  const each = solid.map((s, i) => {
    const { before, behind } = near[i]!;
    return told(s, from(room, show, near[i]!), () => ({
      meets: before.flatMap((a) => meetingNote(a, s, show) ?? []),
      opens: openingNotesInRoom(room, s, [...before, ...behind], show),
      atOnce: oneAtATimeNotes(s, before),
    }));
  });
  return [
    ...each.flatMap(({ meets }) => meets),
    ...insideNotes(room, all, show),
    ...blockingNotes(room, solid, show),
    ...each.flatMap(({ opens }) => opens),
    ...each.flatMap(({ atOnce }) => atOnce),
    ...slideNotes(
      solid.map(({ piece }) => piece),
      show,
    ),
  ];
}

const toldOfOne = remember<Standing, readonly Note[]>();

/** The notes that one piece is part of, in the same order. */
const ofOne = (room: PlacedRoom, one: Standing, near: Near, show: Show): readonly Note[] =>
  toldOfOne(one, from(room, show, near), () => {
    const inside = insideNotes(room, [one], show);
    if (!isSolid(one.piece)) return inside;
    const { before, behind } = near;
    return [
      ...before.flatMap((a) => meetingNote(a, one, show) ?? []),
      ...behind.flatMap((b) => meetingNote(one, b, show) ?? []),
      ...inside,
      ...blockingNotes(room, [one], show),
      ...before.flatMap((a) => openingNotes(a, [one], show)),
      ...openingNotesInRoom(room, one, [...before, ...behind], show),
      ...behind.flatMap((b) => openingNotes(b, [one], show)),
      ...oneAtATimeNotes(one, before),
      ...behind.flatMap((b) => oneAtATimeNotes(b, [one])),
      ...slideNotes([one.piece], show),
    ];
  });
