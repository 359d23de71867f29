import { vec } from '../geometry/index.ts';
import { type Issue, nearest } from '../issue/index.ts';
import { kindOf, nameOf, type Option, type Piece } from '../plan/index.ts';
import { type Mm, mm, snap } from '../quantity/index.ts';
import type { PlacedRoom, PlacedWall, Placing } from './room.ts';
import { pointOnWall, wallOf } from './walls.ts';

export interface Placings {
  /** By the piece's name, in the order of the option. A piece that cannot be placed is left out and has an issue. */
  readonly places: ReadonlyMap<string, Placing>;
  /** Where else a thing may stand, by its name: each with the name the plan gives that place. */
  readonly alternatives: ReadonlyMap<string, readonly { readonly name: string; readonly placing: Placing }[]>;
  readonly issues: readonly Issue[];
}

/** Width, height and depth of any piece; a lining's depth is not in the plan and counts as nothing here. */
export function sizeOf(piece: Piece): { readonly width: Mm; readonly height: Mm; readonly depth: Mm } {
  const { size } = piece;
  return { width: size.width, height: size.height, depth: 'depth' in size ? size.depth : mm(0) };
}

/** A placing on its way: also what later pieces lean on. */
interface Resolved {
  readonly placing: Placing;
  readonly above: number;
  readonly out: number;
}

/** What another piece is placed by, and where that is. */
interface Leaned {
  readonly piece: Piece;
  readonly at: Resolved;
}

/**
 * Resolves how the plan says where pieces are into frames. `after` puts a piece to the right of another, `on` on top of it and
 * flush with its left end, its back in line with the other's. Otherwise a piece at a wall starts at the wall's left end, on the
 * floor (or level with a piece of its own kind that it stands after) and against the wall. Sizes come from the plan alone, so placing needs no parts.
 *
 * @param path where the option stands in the document, for issues
 */
export function placePieces(option: Option, room: PlacedRoom, path: readonly (string | number)[] = []): Placings {
  const issues: Issue[] = [];
  const index = new Map<string, number>();
  option.pieces.forEach((piece, i) => {
    if (!index.has(nameOf(piece))) index.set(nameOf(piece), i);
  });
  const done = new Map<string, Resolved | undefined>();
  const open: string[] = [];

  const issue = (piece: Piece, field: string | undefined, message: string, more: Partial<Issue> = {}): undefined => {
    const at = [...path, 'pieces', index.get(nameOf(piece))!];
    issues.push({ path: field === undefined ? at : [...at, field], message, ...more });
  };

  function resolve(name: string): Resolved | undefined {
    if (done.has(name)) return done.get(name);
    const piece = option.pieces[index.get(name)!]!;
    open.push(name);
    const resolved = place(piece);
    open.pop();
    done.set(name, resolved);
    return resolved;
  }

  /** The piece another leans on; 'lost' when it cannot be had, which has been said. */
  function leanOn(piece: Piece, field: 'after' | 'on' | 'along'): Leaned | 'lost' | undefined {
    const name = field === 'along' ? ('along' in piece ? piece.along : undefined) : piece[field];
    if (name === undefined) return undefined;
    const found = index.get(name);
    if (found === undefined) {
      const near = nearest(name, index.keys());
      issue(piece, field, 'no piece of this option has that name', {
        found: `'${name}'`,
        ...(near !== undefined && { nearest: near }),
      });
      return 'lost';
    }
    const loop = open.indexOf(name);
    if (loop >= 0) {
      const round = [...open.slice(loop), name].map((n) => `'${n}'`).join(' → ');
      issue(piece, field, `these pieces are placed by each other in a circle: ${round}`, {
        found: `'${name}'`,
        expected: "at least one of them placed by 'from', 'centre' or 'at'",
      });
      return 'lost';
    }
    const at = resolve(name);
    return at ? { piece: option.pieces[found]!, at } : 'lost';
  }

  function place(piece: Piece): Resolved | undefined {
    for (const [a, b] of CLASHES)
      if (piece[a] !== undefined && piece[b] !== undefined)
        return issue(piece, b, `'${a}' and '${b}' both say where this piece is; keep one`);
    const along = leanOn(piece, 'along');
    if (along === 'lost') return undefined;
    if (along) return along.at;
    const after = leanOn(piece, 'after');
    const on = leanOn(piece, 'on');
    if (after === 'lost' || on === 'lost') return undefined;
    if (piece.gap !== undefined && !after)
      return issue(piece, 'gap', "'gap' needs 'after': the piece it is measured from");
    const alike = after && kindOf(after.piece) === kindOf(piece) ? after.at.above : undefined;
    const above = on ? on.at.above + sizeOf(on.piece).height : (piece.above ?? alike);
    // A lamp that does not say how high it is hangs at the ceiling.
    const ceiling = 'lamp' in piece && above === undefined ? room.ceiling - piece.size.height : undefined;
    const hangs = kindOf(piece) === 'shelf' || kindOf(piece) === 'display';
    if (above === undefined && hangs)
      return issue(piece, 'above', `a ${kindOf(piece)} needs its height`, { expected: "'above' or 'on'" });

    if (piece.at) {
      const { x, y: z, turn } = piece.at;
      const height = piece.above ?? above ?? ceiling ?? 0;
      return { placing: { frame: { origin: vec(x, height, z), turn } }, above: height, out: 0 };
    }
    const leaned = after ?? on;
    const wallId = piece.wall ?? leaned?.at.placing.wall?.id;
    if (leaned && leaned.at.placing.wall?.id !== wallId)
      return issue(piece, 'wall', `'${nameOf(leaned.piece)}', which it is placed by, is not at this wall`, {
        found: `'${wallId}'`,
        ...(leaned.at.placing.wall && { expected: `'${leaned.at.placing.wall.id}'` }),
      });
    if (wallId === undefined)
      return leaned
        ? besideFree(piece, after, leaned, above ?? 0)
        : issue(piece, undefined, 'nothing says where this piece is', { expected: "'wall', 'after', 'on' or 'at'" });
    const wall = wallOf(room, wallId);
    if (!wall) {
      const near = nearest(
        wallId,
        room.walls.map((w) => w.id),
      );
      return issue(piece, 'wall', 'the room has no such wall', {
        found: `'${wallId}'`,
        ...(near !== undefined && { nearest: near }),
      });
    }
    return onWall(piece, wall, after, on, above ?? ceiling ?? 0);
  }

  const places = new Map<string, Placing>();
  for (const name of index.keys()) {
    const resolved = resolve(name);
    if (resolved) places.set(name, resolved.placing);
  }
  return { places, alternatives: alternativesOf(option), issues };
}

function onWall(
  piece: Piece,
  wall: PlacedWall,
  after: Leaned | undefined,
  on: Leaned | undefined,
  height: number,
): Resolved {
  const from = snap(
    after
      ? after.at.placing.wall!.from + sizeOf(after.piece).width + (piece.gap ?? 0)
      : (startOf(piece) ?? on?.at.placing.wall?.from ?? 0),
  );
  const reach = 'mount' in piece && piece.mount?.kind === 'arm' ? piece.mount.reach : undefined;
  const out = piece.out ?? on?.at.out ?? reach ?? 0;
  return {
    placing: {
      frame: { origin: pointOnWall(wall, from, height, out), turn: wall.frame.turn },
      wall: { id: wall.id, from },
    },
    above: height,
    out,
  };
}

/** Beside or on a piece that stands free: in that piece's own frame, `from` counted from its left end. */
function besideFree(piece: Piece, after: Leaned | undefined, lean: Leaned, above: number): Resolved {
  const along = after ? sizeOf(after.piece).width + (piece.gap ?? 0) : (startOf(piece) ?? 0);
  const { origin, turn } = lean.at.placing.frame;
  const floor = { frame: { origin: vec(origin.x, 0, origin.z), turn } };
  const back = pointOnWall(floor, snap(along), above, piece.out ?? 0);
  return { placing: { frame: { origin: back, turn } }, above, out: 0 };
}

/** Where its left end is by the plan's own figure. */
const startOf = (piece: Piece): number | undefined =>
  piece.centre !== undefined ? piece.centre - sizeOf(piece).width / 2 : piece.from;

const alternativesOf = ({ pieces }: Option): Placings['alternatives'] =>
  new Map(
    pieces.flatMap((piece) => {
      if (!('thing' in piece || 'seat' in piece) || !piece.places) return [];
      const places = piece.places.map(({ name, at: { x, y: z, turn } }) => ({
        name,
        placing: { frame: { origin: vec(x, 0, z), turn } },
      }));
      return [[nameOf(piece), places] as const];
    }),
  );

/** Ways of saying where that exclude each other. */
const CLASHES = [
  ['at', 'wall'],
  ['at', 'from'],
  ['at', 'after'],
  ['at', 'centre'],
  ['at', 'on'],
  ['at', 'out'],
  ['from', 'centre'],
  ['from', 'after'],
  ['centre', 'after'],
  ['after', 'on'],
  ['above', 'on'],
] as const;
