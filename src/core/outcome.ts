import { type Built, buildCase } from './casework/index.ts';
import { conflictNotes } from './fit/index.ts';
import type { Issue } from './issue/index.ts';
import type { Note } from './notes/index.ts';
import { nameOf, type Option, type Plan, printersFor } from './plan/index.ts';
import { type PlacedRoom, placePieces, placeRoom } from './room/index.ts';
import type { Fitting, Part, PlacedPiece } from './scene/index.ts';

/** The solids of one option: the room, every piece in its place, every part. What cannot be built is an issue. */
export interface Scene {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  readonly parts: readonly Part[];
  readonly fittings: readonly Fitting[];
  readonly issues: readonly Issue[];
  readonly notes: readonly Note[];
}

/** The plan's option of this name; left out, the one that is to be built. Undefined when there is none of that name. */
export function findOption(plan: Plan, id?: string): Option | undefined {
  const wanted = id ?? plan.build;
  return wanted === undefined ? plan.options[0] : plan.options.find((option) => option.id === wanted);
}

/** Results kept for as long as what they were made from is. An edit makes new values, so `===` means there is nothing to redo. */
function remembered<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const kept = new WeakMap<K, V>();
  return (key) => {
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = make(key);
    kept.set(key, made);
    return made;
  };
}

const placedRoom = remembered((room: Plan['room']) => placeRoom(room));

/** Plan and option → solids, parts, fittings, and notes on what is in whose way. */
export function sceneOf(plan: Plan, option: Option): Scene {
  const { room, issues: roomIssues } = placedRoom(plan.room);
  const path = ['options', plan.options.indexOf(option)];
  const { places, issues: placeIssues } = placePieces(option, room, path);
  const built: Built[] = [];
  for (const piece of option.pieces) {
    const placing = places.get(nameOf(piece));
    if (placing && 'case' in piece) built.push(buildCase(piece, plan, placing));
  }
  const pieces = built.map((b) => b.placed);
  return {
    plan,
    option,
    room,
    pieces,
    parts: pieces.flatMap((p) => p.parts),
    fittings: pieces.flatMap((p) => p.fittings),
    issues: [...roomIssues, ...placeIssues, ...built.flatMap((b) => b.issues)],
    notes: conflictNotes(room, pieces, { show: printersFor(plan.units).length }),
  };
}
