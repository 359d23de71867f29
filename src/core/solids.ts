import { partMass } from './bill/index.ts';
import { type Built, buildPiece, leastPartsOf, wallBehindPiece } from './casework/index.ts';
import type { Issue } from './issue/index.ts';
import { nameOf, type Option, type Piece, type Plan, printersFor, settingOf, sharing } from './plan/index.ts';
import { remember } from './remember.ts';
import { type PlacedRoom, type Placings, placePieces, placeRoom } from './room/index.ts';
import type { Fitting, Part, PartId, PlacedPiece } from './scene/index.ts';

/** The solids of one option: the room, every piece in its place, every part. What cannot be built is an issue. */
export interface Solids {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
  readonly parts: readonly Part[];
  /** Of the pieces by themselves. */
  readonly fittings: readonly Fitting[];
  /** Where else things may stand. */
  readonly alternatives: Placings['alternatives'];
  readonly issues: readonly Issue[];
}

const rooms = remember<Plan['room'], { readonly room: PlacedRoom; readonly issues: readonly Issue[] }>();
const builds = remember<Piece, Built>();
const masses = remember<readonly Part[], ReadonlyMap<PartId, number | undefined>>();
const massOfPart = remember<Part, number | undefined>();

/** Plan and option → solids, parts, fittings. Of a plan under the hand, only the pieces that moved or changed are built anew. */
export function solidsOf(plan: Plan, option: Option): Solids {
  const { room, issues } = rooms(plan.room, [], () => placeRoom(plan.room));
  // told again in the plan's own units; the room itself has none
  const roomIssues = issues.length === 0 ? issues : placeRoom(plan.room, printersFor(plan.units)).issues;
  const at = plan.options.indexOf(option);
  const { places, alternatives, issues: placeIssues } = placePieces(option, room, ['options', at]);
  const setting = settingOf(plan);
  const from = [...roomIssues, ...placeIssues];
  const tooMany = (piece: Piece): Solids => {
    const issues = [...from, tooManyParts(piece, at)];
    return { plan, option, room, pieces: [], parts: [], fittings: [], alternatives, issues };
  };
  // counted before anything is built: a slip of the pen is refused at once
  const asked = beyondMost(option.pieces, (piece) =>
    'case' in piece ? CARCASS + leastPartsOf(piece.inside ?? {}) : 'shelf' in piece || 'lining' in piece ? 1 : 0,
  );
  if (asked) return tooMany(asked);
  const byName = new Map<string, Piece>();
  for (const piece of option.pieces) if (!byName.has(nameOf(piece))) byName.set(nameOf(piece), piece);
  const built: Built[] = [];
  let parts = 0;
  for (const [i, piece] of option.pieces.entries()) {
    const placing = places.get(nameOf(piece));
    if (!placing) continue;
    // a strip of lights takes its size from what it runs along
    const led = 'along' in piece && piece.along !== undefined ? byName.get(piece.along) : undefined;
    const { frame, wall } = placing;
    const { x, y, z } = frame.origin;
    const made = builds(piece, [setting, at, i, led, x, y, z, frame.turn, wall?.id, wall?.from], () =>
      likeBefore(setting, `${at} ${nameOf(piece)}`, buildPiece(piece, plan, placing, wallBehindPiece(room, placing))),
    );
    parts += made.placed.parts.length;
    if (parts > MOST_PARTS_OF_OPTION) return tooMany(piece);
    built.push(made);
  }
  const pieces = built.map((b) => b.placed);
  return {
    plan,
    option,
    room,
    pieces,
    parts: pieces.flatMap((p) => p.parts),
    fittings: pieces.flatMap((p) => p.fittings),
    alternatives,
    issues: [...from, ...built.flatMap((b) => b.issues)],
  };
}

/** What each piece was built as last, by the setting it was built in. */
const lasts = new WeakMap<object, Map<string, Built>>();

/** A piece that moved is made of the same parts, and whatever was worked out from these stays. */
function likeBefore(setting: object, name: string, built: Built): Built {
  const known = lasts.get(setting) ?? new Map<string, Built>();
  lasts.set(setting, known);
  const shared = sharing(known.get(name), built);
  known.set(name, shared);
  return shared;
}

/** Thirty times a large job: more is a slip of the pen, and no cutting plan of it would ever end. */
export const MOST_PARTS_OF_OPTION = 5_000;

/** Two sides, a top and a bottom. */
const CARCASS = 4;

/** The first piece with which there are more parts than that. */
function beyondMost(pieces: readonly Piece[], count: (piece: Piece) => number): Piece | undefined {
  let parts = 0;
  return pieces.find((piece) => {
    parts += count(piece);
    return parts > MOST_PARTS_OF_OPTION;
  });
}

/** Then nothing of the option is worked out: half of it would be no answer, and take long. */
const tooManyParts = (piece: Piece, option: number): Issue => ({
  path: ['options', option, 'pieces'],
  message: 'this option has more parts than can be worked out',
  found: `more than ${MOST_PARTS_OF_OPTION}, from ${piece.title ?? nameOf(piece)} on`,
  expected: `at most ${MOST_PARTS_OF_OPTION}; the rest in another option or plan`,
});

/** kg of each part, worked out once. */
export function massesOf({ parts, plan }: Pick<Solids, 'parts' | 'plan'>): (part: PartId) => number | undefined {
  const from = [plan.stock];
  const all = masses(
    parts,
    from,
    () => new Map(parts.map((part) => [part.id, massOfPart(part, from, () => partMass(part, plan))])),
  );
  return (part) => all.get(part);
}
