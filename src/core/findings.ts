import { mouldingNotes } from './finish/index.ts';
import { conflictNotes } from './fit/index.ts';
import type { Note } from './notes/index.ts';
import { nameOf, type Option, type Piece, printersFor, settingOf } from './plan/index.ts';
import { remember } from './remember.ts';
import type { PlacedPiece } from './scene/index.ts';
import { finishingIn, inWallFittings, timberFittings, wallNotes } from './setting-out/index.ts';
import { massesOf, type Solids } from './solids.ts';
import {
  bendingNotes,
  carryingNotes,
  fixIssues,
  fixingNotes,
  framingNotes,
  partitionNotes,
  stoodOnNotes,
  type WallInput,
} from './strength/index.ts';

/** Kept for a piece as it stands, and for what it is made of wherever that stands. */
const kept = () => ({
  here: remember<PlacedPiece, readonly Note[]>(),
  anywhere: remember<object, readonly Note[]>(),
});
/**
 * The wall behind a case asks for holes in its back, and no more: where these are does not matter to what bends or is carried, but what
 * is left to be carried does.
 */
const madeOf = ({ kind, parts, joints }: PlacedPiece, massOf: WallInput['massOf']): readonly [object, ...unknown[]] =>
  kind === 'case' ? [joints, ...parts.map(({ id }) => massOf(id))] : [parts];
const bending = kept();
const carrying = kept();

/** How a piece says where along its wall it is, and how far out: nothing that bends or is carried looks at it. */
const PLACED_BY: ReadonlySet<string> = new Set(['from', 'centre', 'gap', 'out', 'at']);

/** A piece wherever it stands, but for its height: the values it is made of, but for its parts. */
function shapeOf(piece: PlacedPiece, said: Piece | undefined): readonly unknown[] {
  const { frame, wall, parts: _, ...made } = piece;
  const words = Object.entries(said ?? {}).flatMap(([key, value]) => (PLACED_BY.has(key) ? [] : [key, value]));
  // one that is placed by its middle is placed by its left end where it is parted
  const middle = said?.centre === undefined ? undefined : wall?.from;
  return [frame.origin.y, wall?.id, middle, ...Object.values(made), ...words];
}

/** What pieces say of one another: where they lean, and the names that are taken. */
const leaningOf = ({ pieces }: Option): string =>
  pieces.map((p) => [nameOf(p), p.after, p.on, 'along' in p ? p.along : '', p.wall].join('\u001f')).join('\u001e');

/** The solids of one option with what follows from them alone. */
export interface Scene extends Solids {
  readonly notes: readonly Note[];
}

/** Solids with the mouldings that finish them and the notes on them: quick enough for every frame of a drag. */
export function sceneFrom(solids: Solids): Scene {
  const { plan, option, room, pieces } = solids;
  // one object: what several ask of it is worked out once
  const input: WallInput = { plan, option, room, pieces, massOf: massesOf(solids) };
  const notes = sceneNotes(solids, input);
  const finishing = finishingIn(input);
  const inWall = [...inWallFittings(input), ...timberFittings(input)];
  const meant = fixIssues(option, plan.options.indexOf(option));
  if (finishing.trim.length + finishing.fittings.length + finishing.issues.length + meant.length + inWall.length === 0)
    return { ...solids, notes };
  return {
    ...solids,
    pieces: [...pieces, ...finishing.trim],
    parts: [...solids.parts, ...finishing.trim.flatMap((piece) => piece.parts)],
    fittings: [...solids.fittings, ...finishing.fittings, ...inWall],
    issues: [...solids.issues, ...meant, ...finishing.issues],
    notes,
  };
}

/** What is in whose way, what holds, what goes in. */
function sceneNotes({ plan, option, room, pieces, alternatives }: Solids, input: WallInput): readonly Note[] {
  const from = [settingOf(plan), plan.options.indexOf(option), leaningOf(option)];
  const at = new Map(option.pieces.map((said, i) => [nameOf(said), { i, said }]));
  // what a piece answers by itself is asked again only when it changed
  const each = (known: typeof bending, notes: (input: WallInput) => readonly Note[]): readonly Note[] =>
    pieces.flatMap((piece) => {
      const told = at.get(piece.id);
      const { here, anywhere } = known;
      return here(piece, [...from, told?.i, told?.said], () => {
        const [made, ...masses] = madeOf(piece, input.massOf);
        return anywhere(made, [...from, told?.i, ...masses, ...shapeOf(piece, told?.said)], () =>
          notes({ ...input, pieces: [piece] }),
        );
      });
    });
  return [
    ...conflictNotes(room, pieces, { show: printersFor(plan.units).length, alternatives }),
    ...each(bending, bendingNotes),
    ...framingNotes(input),
    ...fixingNotes(input),
    ...partitionNotes(input),
    ...stoodOnNotes(input),
    ...each(carrying, carryingNotes),
    ...mouldingNotes(input),
    ...wallNotes(input),
  ];
}
