import { fromRoom } from '../../core/geometry/index.ts';
import { type Edit, kindOf, nameOf, type Piece, type PieceKind } from '../../core/plan/index.ts';
import { type PlacedWall, sizeOf, wallOf } from '../../core/room/index.ts';
import type { PlacedPiece } from '../../core/scene/index.ts';
import { CLOSE, type Found, type Scene, set, written } from '../arrange.ts';
import type { Asked, AskedGroup } from './asked.ts';

/** The ways in which the plan says where a piece is. */
type Way = 'from' | 'centre' | 'after' | 'on' | 'at';
const WAYS: readonly (readonly [Way, string])[] = [
  ['from', 'its left end, along a wall'],
  ['centre', 'its middle, along a wall'],
  ['after', 'the piece at its left'],
  ['on', 'the piece under it'],
  ['at', 'a free place in the room'],
];
const wayOf = ({ at, on, after, centre }: Piece): Way => {
  if (at) return 'at';
  if (after !== undefined) return 'after';
  if (on !== undefined) return 'on';
  return centre !== undefined ? 'centre' : 'from';
};

/** What another piece can stand beside, and what can carry one. */
const LEANED: Readonly<Record<'after' | 'on', ReadonlySet<PieceKind>>> = {
  after: new Set(['case', 'shelf', 'display', 'lining', 'thing', 'absorber']),
  on: new Set(['case', 'shelf', 'thing']),
};
/** What hangs on its wall, and is of no use without one. */
const HUNG: ReadonlySet<PieceKind> = new Set(['shelf', 'display', 'lining', 'absorber']);

/**
 * What says where a piece is. Whichever way is chosen, the piece stays where it stands as far as that way can say so: only what is to
 * stand on another is put there, and what stood free is turned as the wall is that it now belongs to.
 */
export function askedOfPlace(scene: Scene, found: Found): readonly AskedGroup[] {
  const { piece, placed } = found;
  if (!placed || ('along' in piece && piece.along !== undefined)) return [];
  const here: Here = { scene, found, placed };
  const now = wayOf(piece);
  const others = { after: leanable(here, 'after'), on: leanable(here, 'on') };
  const can = (way: Way): boolean => {
    if (way === 'after' || way === 'on') return others[way].length > 0;
    return way !== 'at' || !(HUNG.has(kindOf(piece)) || holdsAtWall(here));
  };
  const lean = now === 'after' || now === 'on' ? now : undefined;
  const asked: readonly Asked[] = [
    {
      key: [now],
      words: 'its place is told by',
      of: WAYS.filter(([way]) => way === now || can(way)),
      now,
      edits: (way) => wayEdits(here, way as Way),
    },
    ...(lean
      ? [
          {
            key: [lean],
            words: lean === 'after' ? 'it stands to the right of' : 'it stands on',
            of: others[lean].map((p) => [nameOf(p), p.title ?? nameOf(p)] as const),
            edits: (name: string) => leanEdits(here, lean, name),
          },
        ]
      : []),
  ];
  return [{ title: 'How its place is told', asked }];
}

interface Here {
  readonly scene: Scene;
  readonly found: Found;
  readonly placed: PlacedPiece;
}
const placedOf = ({ scene }: Here, piece: Piece): PlacedPiece | undefined =>
  scene.pieces.find((p) => p.id === nameOf(piece));

/** This piece and all that are placed by it, also by way of others. */
function ledBy({ scene, found }: Here): ReadonlySet<string> {
  const led = new Set([nameOf(found.piece)]);
  for (let before = 0; before !== led.size; ) {
    before = led.size;
    for (const p of scene.option.pieces) if (led.has(p.after ?? '') || led.has(p.on ?? '')) led.add(nameOf(p));
  }
  return led;
}
/** Whether another is placed by it that says its wall itself. */
const holdsAtWall = (here: Here): boolean => {
  const led = ledBy(here);
  return here.scene.option.pieces.some((p) => p !== here.found.piece && p.wall !== undefined && led.has(nameOf(p)));
};

/** The pieces that this one may be placed by: on its wall where it has one, and none that is placed by it. */
function leanable(here: Here, field: 'after' | 'on'): readonly Piece[] {
  const { pieces } = here.scene.option;
  const led = ledBy(here);
  const wall = here.placed.wall?.id;
  return pieces.filter((p) => {
    const placed = placedOf(here, p);
    return placed && LEANED[field].has(kindOf(p)) && !led.has(nameOf(p)) && (!wall || placed.wall?.id === wall);
  });
}

/** All that says where a piece is. */
interface Told {
  readonly wall?: string | undefined;
  readonly from?: number;
  readonly centre?: number;
  readonly after?: string;
  readonly gap?: number | undefined;
  readonly on?: string;
  readonly at?: { readonly x: number; readonly z: number; readonly turn: number };
  readonly out?: number | undefined;
  readonly above?: number | undefined;
}
const KEYS = ['wall', 'from', 'centre', 'after', 'gap', 'on', 'at', 'out', 'above'] as const;

/** The edits after which a piece says this and no more; a length that is said already stays in its own words. */
function told({ scene, found: { piece, path } }: Here, words: Told): readonly Edit[] {
  const { units } = scene.plan;
  return KEYS.flatMap((key): readonly Edit[] => {
    const [had, value] = [piece[key], words[key]];
    if (value === undefined) return had === undefined ? [] : [{ op: 'remove', path: [...path, key] }];
    if (typeof value === 'string') return had === value ? [] : [set([...path, key], value)];
    if (typeof value === 'number')
      return typeof had === 'number' && Math.abs(had - value) < CLOSE
        ? []
        : [set([...path, key], written(units, value))];
    const { x, z, turn } = value;
    return [set([...path, key], { x: written(units, x), y: written(units, z), turn: Number(turn.toFixed(3)) })];
  });
}

/** The wall it is at, or of one that stands free the wall it stands before and is turned most as, and its place in that wall's frame. */
function wallHere({ scene: { room }, placed }: Here) {
  const own = placed.wall && wallOf(room, placed.wall.id);
  const inFrame = (wall: PlacedWall) => ({ wall, at: fromRoom(wall.frame, placed.frame.origin) });
  if (own) return inFrame(own);
  const worth = ({ wall, at }: ReturnType<typeof inFrame>): number => {
    const turned = Math.abs(((((placed.frame.turn - wall.frame.turn) % 360) + 540) % 360) - 180);
    const isBefore = at.z >= -CLOSE && at.x >= -CLOSE && at.x <= wall.length;
    return (isBefore ? 0 : 1e9) + Math.round(turned) * 1e5 + Math.abs(at.z);
  };
  return room.walls.map(inFrame).reduce((best, each) => (worth(each) < worth(best) ? each : best));
}

/** How high it stands, unless that is where it would stand anyway. */
function aboveOf({ scene: { room }, found: { piece }, placed }: Here, beside?: number): number | undefined {
  const kind = kindOf(piece);
  const high = placed.frame.origin.y;
  const lamp = kind === 'lamp' ? room.ceiling - sizeOf(piece).height : undefined;
  const usual = beside ?? (kind === 'shelf' || kind === 'display' ? undefined : (lamp ?? 0));
  return usual !== undefined && Math.abs(high - usual) < CLOSE ? undefined : high;
}
function outOf({ found: { piece } }: Here, out: number): number | undefined {
  const reach = 'mount' in piece && piece.mount?.kind === 'arm' ? piece.mount.reach : undefined;
  return Math.abs(out - (reach ?? 0)) < CLOSE ? undefined : Math.max(out, 0);
}

function wayEdits(here: Here, way: Way): readonly Edit[] {
  const { found, placed } = here;
  if (way === wayOf(found.piece)) return [];
  if (way === 'after' || way === 'on') {
    const other = likely(here, way);
    return other ? leanEdits(here, way, nameOf(other)) : [];
  }
  const above = aboveOf(here);
  if (way === 'at') {
    const { origin, turn } = placed.frame;
    return told(here, { at: { x: origin.x, z: origin.z, turn: turn % 360 }, above });
  }
  const { wall, at } = wallHere(here);
  const where = way === 'from' ? { from: at.x } : { centre: at.x + sizeOf(found.piece).width / 2 };
  return told(here, { wall: wall.id, ...where, out: outOf(here, at.z), above });
}

/** What it most likely is to be placed by: what ends next before it, or what reaches up to it from below. */
function likely(here: Here, field: 'after' | 'on'): Piece | undefined {
  const left = here.placed.wall?.from ?? 0;
  const distance = (other: Piece): number => {
    const placed = placedOf(here, other)!;
    const [from, { width, height }] = [placed.wall?.from ?? 0, sizeOf(other)];
    if (field === 'after') return gapOf(left, from + width);
    const isUnder = from < left + sizeOf(here.found.piece).width && left < from + width;
    return (isUnder ? 0 : 1e6) + gapOf(here.placed.frame.origin.y, placed.frame.origin.y + height);
  };
  return leanable(here, field).toSorted((a, b) => distance(a) - distance(b))[0];
}
/** From an end to what begins after it; what begins before it comes last. */
const gapOf = (begin: number, end: number): number => (begin - end > -CLOSE ? begin - end : 1e7 + end - begin);

function leanEdits(here: Here, field: 'after' | 'on', name: string): readonly Edit[] {
  const { scene, found, placed } = here;
  const { piece } = found;
  const other = scene.option.pieces.find((p) => nameOf(p) === name);
  const beside = other && placedOf(here, other);
  if (!beside) return [];
  const atWall = placed.wall && wallHere(here).at;
  const wall = placed.wall ? piece.wall : undefined;
  if (field === 'on') {
    const centre = wayOf(piece) === 'centre' ? piece.centre : undefined;
    const from = atWall && Math.abs(atWall.x - (beside.wall?.from ?? 0)) >= CLOSE ? atWall.x : undefined;
    return told(here, {
      wall,
      on: name,
      ...(centre !== undefined ? { centre } : from !== undefined && { from }),
      out: piece.out,
    });
  }
  const gap = atWall ? atWall.x - (beside.wall?.from ?? 0) - sizeOf(other).width : 0;
  return told(here, {
    wall,
    after: name,
    gap: gap >= CLOSE ? gap : undefined,
    out: atWall ? outOf(here, atWall.z) : undefined,
    above: aboveOf(here, kindOf(other) === kindOf(piece) ? beside.frame.origin.y : undefined),
  });
}
