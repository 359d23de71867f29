import { toRoom, vec } from '../core/geometry/index.ts';
import {
  applyToPlain,
  type Edit,
  kindOf,
  lookUp,
  nameOf,
  type Path,
  type PieceKind,
  type PlainValue,
  planOf,
} from '../core/plan/index.ts';
import { isInches } from '../core/quantity/index.ts';
import type { PlacedRoom } from '../core/room/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';
import { CLOSE, type Found, findPiece, type Place, type Scene, set, without, written } from './arrange.ts';

/** Copying, mirroring, adding and taking away whole pieces, each as edits of the plan. Pure: the bench applies them. */

/** `scores 2`, the first number that is free; a number at the end counts on, and so do those that are numbered from one. */
export function freshName(taken: readonly string[], like: string, most: number = MOST_LETTERS.name): string {
  const stem = shortened(like.replace(/ \d+$/, ''), most);
  if (!taken.includes(stem) && !taken.includes(`${stem} 1`)) return stem;
  for (let n = 2; ; n++) {
    const name = withNumber(stem, n, most);
    if (!taken.includes(name)) return name;
  }
}
/** As a plan holds them at most: what is made of a long one must not be refused. */
export const MOST_LETTERS = { name: 60, title: 80 } as const;
/** No half of a letter that is written as two. */
export const shortened = (text: string, most: number): string =>
  text.length <= most
    ? text
    : text
        .slice(0, most)
        .replace(/[\ud800-\udbff]$/, '')
        .trimEnd();
const withNumber = (stem: string, n: number | string, most: number): string =>
  `${shortened(stem, most - `${n}`.length - 1)} ${n}`;

/** Another of the same beside it; what stood after it now stands after the copy. */
export function copyEdits(
  scene: Scene,
  plain: PlainValue,
  { piece, path, placed }: Found,
): {
  readonly edits: readonly Edit[];
  readonly name: string;
} {
  const kind = kindOf(piece);
  const name = freshName(scene.option.pieces.map(nameOf), nameOf(piece));
  const { [kind]: _, title, from, centre, gap, on, after, at, ...rest } = lookUp(plain, path) as Fields;
  const own = nameOf(piece);
  const where: Fields =
    at !== undefined && piece.at
      ? { at: { ...(at as Fields), x: written(scene.plan.units, piece.at.x + piece.size.width + 100) } }
      : { after: own };
  const copy: PlainValue = {
    [kind]: name,
    ...(typeof title === 'string' && {
      title: withNumber(title.replace(/ \d+$/, ''), name.match(/\d+$/)?.[0] ?? 2, MOST_LETTERS.title),
    }),
    ...rest,
    ...(rest.above === undefined && placed && placed.frame.origin.y > CLOSE && !piece.at
      ? { above: written(scene.plan.units, placed.frame.origin.y) }
      : {}),
    ...where,
  };
  const followers = scene.option.pieces.flatMap((p, i): readonly Edit[] =>
    !at && p.after === own ? [set([...path.slice(0, -1), i, 'after'], name)] : [],
  );
  const index = path.at(-1) as number;
  return { name, edits: [...followers, { op: 'insert', path: [...path.slice(0, -1), index + 1], value: copy }] };
}
type Fields = { readonly [key: string]: PlainValue };

/** Takes a piece away; whatever leaned on it stays where it is. */
export function removeEdits(scene: Scene, plain: PlainValue, found: Found): readonly Edit[] {
  const own = nameOf(found.piece);
  const list = found.path.slice(0, -1);
  const edits = scene.option.pieces.flatMap((piece, i): readonly Edit[] => {
    if (piece.after !== own && piece.on !== own) return [];
    const path = [...list, i];
    const placed = scene.pieces.find((p) => p.id === nameOf(piece));
    const { units } = scene.plan;
    const wall = placed?.wall;
    const high = placed?.frame.origin.y ?? 0;
    return [
      ...without(piece, path, ['after', 'gap', 'on']),
      ...(wall
        ? [set([...path, 'wall'], wall.id), set([...path, 'from'], written(units, wall.from))]
        : placed
          ? [
              ...without(piece, path, ['wall', 'from', 'centre', 'out']),
              set([...path, 'at'], {
                x: written(units, placed.frame.origin.x),
                y: written(units, placed.frame.origin.z),
                turn: placed.frame.turn,
              }),
            ]
          : []),
      ...(high > CLOSE ? [set([...path, 'above'], written(units, high))] : []),
    ];
  });
  const all: Edit[] = [...edits, { op: 'remove', path: found.path }];
  // what else names it loses the name; what cannot be without it (a light along its edge) goes too
  for (let round = 0; round < MOST_NAMED; round++) {
    const changed = applyToPlain(plain, all);
    const issue = changed.ok ? planOf(changed.value).issues.find((i) => i.found === `'${own}'`) : undefined;
    if (!changed.ok || !issue) break;
    const piecePath = issue.path.slice(0, found.path.length);
    const loose: Edit = { op: 'remove', path: issue.path };
    const without = applyToPlain(changed.value, [loose]);
    const stillWrong = without.ok && planOf(without.value).issues.some((i) => isBelow(i.path, piecePath));
    all.push(stillWrong ? { op: 'remove', path: piecePath } : loose);
  }
  return all;
}
const MOST_NAMED = 200;
const isBelow = (path: Path, above: Path): boolean => above.every((step, i) => path[i] === step);

/** The piece mirrored in itself: columns the other way round, hinges on the other side, what is left of it now right. */
export function mirrorEdits(plain: PlainValue, { piece, path }: Found): readonly Edit[] {
  const own = lookUp(plain, path) as Fields;
  const edits: Edit[] = [];
  if ('inside' in own) edits.push(set([...path, 'inside'], mirroredBay(own.inside!)));
  for (const key of ['ends', 'fillers', 'top'])
    if (typeof own[key] === 'object' && own[key] !== null) edits.push(set([...path, key], swapped(own[key] as Fields)));
  if ('rods' in piece && piece.rods?.at) {
    const { width } = piece.size;
    edits.push(
      set([...path, 'rods', 'at'], piece.rods.at.map((at) => `${Number((width - at).toFixed(3))} mm`).reverse()),
    );
  }
  return edits;
}
function swapped({ left, right, ...rest }: Fields): PlainValue {
  return { ...rest, ...(right !== undefined && { left: right }), ...(left !== undefined && { right: left }) };
}
function mirroredBay(bay: PlainValue): PlainValue {
  if (typeof bay !== 'object' || bay === null || Array.isArray(bay)) return bay;
  const fields = bay as Fields;
  const { columns, rows, door } = fields;
  return {
    ...fields,
    ...(Array.isArray(columns) && { columns: columns.map(mirroredBay).reverse() }),
    ...(Array.isArray(rows) && { rows: rows.map(mirroredBay) }),
    ...(door === 'left' && { door: 'right' }),
    ...(door === 'right' && { door: 'left' }),
  };
}

/** The place that is as far from the right end of the wall as the piece now is from the left. */
export function otherSide(scene: Scene, { piece, placed }: Found): Place | undefined {
  const wall = scene.room.walls.find((w) => w.id === placed?.wall?.id);
  return wall && placed?.wall ? { along: wall.length - placed.wall.from - piece.size.width } : undefined;
}

const NEW_SIZES: Readonly<Record<PieceKind, { readonly inch: readonly number[]; readonly metric: readonly number[] }>> =
  {
    case: { inch: [36, 30, 15], metric: [900, 760, 380] },
    shelf: { inch: [36, 2.25, 8], metric: [900, 60, 200] },
    display: { inch: [43.5, 25, 2.5], metric: [1100, 640, 60] },
    lining: { inch: [48, 48], metric: [1200, 1200] },
    thing: { inch: [24, 30, 24], metric: [600, 750, 600] },
    strip: { inch: [36, 0.5, 0.75], metric: [1000, 10, 17] },
    lamp: { inch: [24, 2.5, 24], metric: [600, 60, 600] },
    absorber: { inch: [48, 48, 2], metric: [1200, 1200, 50] },
    seat: { inch: [20, 18, 20], metric: [500, 450, 500] },
    camera: { inch: [5, 4, 5], metric: [130, 100, 120] },
  };
const HIGH: Readonly<Partial<Record<PieceKind, { readonly inch: number; readonly metric: number }>>> = {
  shelf: { inch: 60, metric: 1500 },
  display: { inch: 40, metric: 1000 },
  lining: { inch: 36, metric: 900 },
  strip: { inch: 60, metric: 1500 },
  absorber: { inch: 36, metric: 900 },
  camera: { inch: 48, metric: 1200 },
};
/** Stands free in the room, not at a wall. */
const FREE: ReadonlySet<PieceKind> = new Set(['thing', 'lamp', 'seat', 'camera']);
const MM_PER_INCH = 25.4;

/**
 * Where a new piece of this width, between these heights, stands clear of everything on its wall: right of the last of its kind where that
 * goes, else as far left as it can. Where there is no such place, where it runs into least.
 */
function freePlace(
  room: PlacedRoom,
  pieces: readonly PlacedPiece[],
  wall: PlacedRoom['walls'][number],
  kind: PieceKind,
  wide: number,
  [bottom, top]: readonly [number, number],
): { readonly from: number; readonly isFree: boolean } {
  const there = pieces.filter((p) => p.wall?.id === wall.id);
  const taken = [
    ...there
      .filter((p) => p.frame.origin.y + p.outside.min.y < top && bottom < p.frame.origin.y + p.outside.max.y)
      .map(
        (p) =>
          [
            p.wall!.from + p.outside.min.x,
            p.wall!.from + p.outside.max.x,
            shared(p.frame.origin.y + p.outside.min.y, p.frame.origin.y + p.outside.max.y, bottom, top),
          ] as const,
      ),
    ...room.openings
      .filter((o) => o.wall === wall.id && o.y[0] < top && bottom < o.y[1])
      .map((o) => [...o.x, shared(...o.y, bottom, top)] as const),
  ];
  const last = Math.max(0, ...there.filter((p) => p.kind === kind).map((p) => p.wall!.from + p.outside.max.x));
  const starts = [last, 0, ...taken.map(([, end]) => end).sort((a, b) => a - b)];
  const fits = (start: number): boolean =>
    start + wide <= wall.length + CLOSE &&
    taken.every(([from, to]) => start + wide <= from + CLOSE || to - CLOSE <= start);
  const free = starts.find(fits);
  if (free !== undefined) return { from: free, isFree: true };
  const covered = (start: number): number =>
    taken.reduce((sum, [from, to, high]) => sum + shared(from, to, start, start + wide) * high, 0);
  const end = Math.max(0, wall.length - wide);
  const places = [0, end, ...taken.flatMap(([from, to]) => [from - wide, to])].filter((x) => 0 <= x && x <= end);
  return { from: places.toSorted((a, b) => covered(a) - covered(b) || a - b)[0]!, isFree: false };
}
/** How much of one stretch lies in another. */
const shared = (from: number, to: number, low: number, high: number): number =>
  Math.max(0, Math.min(to, high) - Math.max(from, low));

/** Between one place that is tried and the next, and how far in front of the rear wall a camera stands, mm. */
const STEP = 300;
const BEHIND = 600;
/** Where a free piece stands clear of the others that do: right of where it would stand, then further back. A camera looks from the rear. */
function freeSpot(
  room: PlacedRoom,
  pieces: readonly PlacedPiece[],
  kind: PieceKind,
  usual: readonly [x: number, z: number],
  [wide, deep]: readonly [number, number],
): readonly [x: number, z: number] {
  const [width, depth] = [Math.max(...room.outline.map((p) => p.x)), Math.max(...room.outline.map((p) => p.z))];
  const taken = pieces
    // lamps hang above everything else
    .filter((p) => !p.wall && (p.kind === 'lamp') === (kind === 'lamp'))
    .map(({ frame, outside: { min, max } }) => {
      const corners = [min.x, max.x].flatMap((x) => [min.z, max.z].map((z) => toRoom(frame, vec(x, 0, z))));
      const [xs, zs] = [corners.map((c) => c.x), corners.map((c) => c.z)];
      return [Math.min(...xs), Math.max(...xs), Math.min(...zs), Math.max(...zs)] as const;
    });
  const isClear = (x: number, z: number): boolean =>
    taken.every(([x0, x1, z0, z1]) => x + wide <= x0 || x1 <= x || z + deep <= z0 || z1 <= z);
  const first = kind === 'camera' ? Math.max(usual[1], depth - BEHIND) : usual[1];
  // where nothing is free there, anywhere
  for (const [fromX, fromZ] of [
    [usual[0], first],
    [0, 0],
  ] as const)
    for (let z = fromZ; z + deep <= depth; z += STEP)
      for (let x = fromX; x + wide <= width; x += STEP) if (isClear(x, z)) return [x, z];
  return usual;
}

/** A new piece of a usual size at a wall, clear of what stands there, or free in the middle of the room for a thing. */
export function addEdits(
  { plan, option, room, pieces }: Scene,
  kind: PieceKind,
  wallId: string,
  plain?: PlainValue,
): { readonly edits: readonly Edit[]; readonly name: string; readonly why?: string; readonly remark?: string } {
  const imperial = isInches(plan.units.length);
  const say = (inches: number, metric: number): string => written(plan.units, imperial ? inches * MM_PER_INCH : metric);
  const sizes = NEW_SIZES[kind];
  const [width, height, depth] = sizes.inch.map((inches, i) => say(inches, sizes.metric[i]!));
  const name = freshName(option.pieces.map(nameOf), kind);
  const wide = imperial ? sizes.inch[0]! * MM_PER_INCH : sizes.metric[0]!;
  const wall = room.walls.find((w) => w.id === wallId);
  const high = HIGH[kind];
  const [bottom, tall] = imperial
    ? [(high?.inch ?? 0) * MM_PER_INCH, sizes.inch[1]! * MM_PER_INCH]
    : [high?.metric ?? 0, sizes.metric[1]!];
  const atWall =
    wall && !FREE.has(kind) ? freePlace(room, pieces, wall, kind, wide, [bottom, bottom + tall]) : undefined;
  const deep = imperial ? (sizes.inch[2] ?? 0) * MM_PER_INCH : (sizes.metric[2] ?? 0);
  const usual = imperial ? ([48 * MM_PER_INCH, 60 * MM_PER_INCH] as const) : ([1200, 1500] as const);
  const spot = freeSpot(room, pieces, kind, usual, [wide, deep]);
  const thinnest = [...plan.stock.panels].sort((a, b) => a.thickness - b.thickness)[0];
  if ((kind === 'shelf' || kind === 'lining') && !thinnest)
    return { edits: [], name, why: 'The plan has no panel in its stock yet: add one first.' };
  const like = option.pieces.findLast((piece) => kindOf(piece) === 'shelf');
  const made =
    plain !== undefined && like
      ? (lookUp(plain, findPiece({ plan, option, pieces }, nameOf(like))!.path) as Fields)
      : {};
  const value: PlainValue = {
    [kind]: name,
    ...(FREE.has(kind)
      ? { at: { x: written(plan.units, spot[0]), y: written(plan.units, spot[1]) } }
      : { wall: wallId, from: written(plan.units, atWall?.from ?? 0) }),
    ...(high && { above: say(high.inch, high.metric) }),
    size: { width: width!, height: height!, ...(depth !== undefined && { depth }) },
    ...(kind === 'shelf' && {
      skin: made.skin ?? thinnest!.id,
      ...((made.core ?? plan.make.panel) !== undefined && { core: made.core ?? plan.make.panel! }),
      load: made.load ?? (imperial ? '10 lb' : '5 kg'),
      ...(made.rods !== undefined && { rods: made.rods }),
    }),
    ...(kind === 'lining' && { panel: thinnest!.id }),
    ...(kind === 'display' && { mass: imperial ? '30 lb' : '14 kg' }),
    ...(kind === 'lamp' && { lumens: 3000 }),
    ...(kind === 'camera' && { focal: '24 mm' }),
    ...(kind === 'case' && { inside: { open: true, shelves: 1 } }),
  };
  return {
    name,
    ...(atWall?.isFree === false && {
      remark: `New ${kind}: this wall has no free place for it, so it is where it covers least.`,
    }),
    edits: [{ op: 'insert', path: ['options', plan.options.indexOf(option), 'pieces', option.pieces.length], value }],
  };
}
