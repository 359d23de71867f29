import {
  type Edit,
  kindOf,
  nameOf,
  type Option,
  type Path,
  type Piece,
  type PieceKind,
  type PlainValue,
  type Plan,
  printersFor,
  readersFor,
  type Units,
} from '../core/plan/index.ts';
import type { PlacedRoom } from '../core/room/index.ts';
import type { PlacedPiece } from '../core/scene/index.ts';

/** Placing, sizing, copying and taking away pieces, each as edits of the plan. Pure: the bench applies them. */

export interface Scene {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
}
/** A piece as the plan writes it, where it is written, and as it stands. */
export interface Found {
  readonly path: Path;
  readonly piece: Piece;
  readonly placed: PlacedPiece | undefined;
}

export function findPiece({ plan, option, pieces }: Omit<Scene, 'room'>, name: string | undefined): Found | undefined {
  const index = option.pieces.findIndex((piece) => nameOf(piece) === name);
  const piece = option.pieces[index];
  if (!piece) return undefined;
  return {
    path: ['options', plan.options.indexOf(option), 'pieces', index],
    piece,
    placed: pieces.find((p) => p.id === name),
  };
}

/** A length as the plan would write it: on its own grid where that says it exactly, otherwise in millimetres. */
export function written(units: Units, length: number): string {
  const text = printersFor(units).length(length);
  const back = readersFor(units).length(text);
  return back.ok && Math.abs(back.value - length) < 0.002 ? text : `${Number(length.toFixed(3))} mm`;
}

export const CLOSE = 0.05;
export const set = (path: Path, value: PlainValue): Edit => ({ op: 'set', path, value });
export const without = (piece: Piece, path: Path, keys: readonly (keyof Piece)[]): Edit[] =>
  keys.filter((key) => piece[key] !== undefined).map((key): Edit => ({ op: 'remove', path: [...path, key as string] }));

/** Where a piece is to stand: along its wall, above the floor, out from the wall; or free, by its rear left corner. All in mm. */
export interface Place {
  readonly along?: number;
  readonly above?: number;
  readonly out?: number;
  readonly x?: number;
  readonly z?: number;
  readonly turn?: number;
}

/** Keeps to the way in which the plan says where the piece is, as far as that way can say the new place. */
export function placeEdits(scene: Scene, { piece, path, placed }: Found, to: Place): readonly Edit[] {
  // its place follows from that of another piece
  if ('along' in piece && piece.along !== undefined) return [];
  const { units } = scene.plan;
  const edits: Edit[] = [];
  const say = (key: string, length: number) => edits.push(set([...path, key], written(units, length)));
  if (piece.at) {
    if (to.x !== undefined) edits.push(set([...path, 'at', 'x'], written(units, to.x)));
    if (to.z !== undefined) edits.push(set([...path, 'at', 'y'], written(units, to.z)));
    if (to.turn !== undefined) edits.push(set([...path, 'at', 'turn'], to.turn));
  } else if (to.along !== undefined) {
    if (piece.after !== undefined) {
      const before = scene.pieces.find((p) => p.id === piece.after);
      const beforePiece = scene.option.pieces.find((p) => nameOf(p) === piece.after);
      const gap = before?.wall && beforePiece ? to.along - before.wall.from - beforePiece.size.width : -1;
      if (gap >= CLOSE) say('gap', gap);
      else if (gap > -CLOSE) edits.push(...without(piece, path, ['gap']));
      else {
        edits.push(...without(piece, path, ['after', 'gap']));
        if (piece.wall === undefined && placed?.wall) edits.push(set([...path, 'wall'], placed.wall.id));
        if (piece.above === undefined && placed && placed.frame.origin.y > CLOSE && to.above === undefined)
          say('above', placed.frame.origin.y);
        say('from', to.along);
      }
    } else if (piece.centre !== undefined) say('centre', to.along + piece.size.width / 2);
    else say('from', to.along);
  }
  if (to.above !== undefined && piece.on === undefined) {
    const hangs = kindOf(piece) === 'shelf' || kindOf(piece) === 'display';
    if (to.above < CLOSE && !hangs) edits.push(...without(piece, path, ['above']));
    else say('above', to.above);
  }
  if (to.out !== undefined && !piece.at) {
    if (to.out < CLOSE) edits.push(...without(piece, path, ['out']));
    else say('out', to.out);
  }
  return edits;
}

export type Side = 'left' | 'right' | 'top' | 'bottom' | 'front';

/**
 * How much a piece grows whose side is pulled outwards by a length, inwards when negative: nothing gets smaller than `LEAST`, or reaches
 * below the floor. Undefined where that size cannot be changed.
 */
export function grownBy({ piece, placed }: Found, side: Side, by: number): number | undefined {
  const dimension = dimensionOf(side);
  const before = sizesOf(piece)[dimension];
  if (before === undefined || !sizedIn(piece).includes(dimension)) return undefined;
  const most = side === 'bottom' && placed ? placed.frame.origin.y : Infinity;
  return Math.max(LEAST, before + Math.min(by, most)) - before;
}
/** The edits that pull one side of a piece outwards by a length. */
export function sizeEdits(scene: Scene, found: Found, side: Side, by: number): readonly Edit[] {
  const { piece, path, placed } = found;
  const dimension = dimensionOf(side);
  const grown = grownBy(found, side, by);
  if (grown === undefined) return [];
  const after = sizesOf(piece)[dimension]! + grown;
  const edits: Edit[] = [set([...path, 'size', dimension], written(scene.plan.units, after))];
  // the middle is what the plan says: pulling one side leaves the other where it was
  if (piece.centre !== undefined && dimension === 'width')
    edits.push(
      set([...path, 'centre'], written(scene.plan.units, piece.centre + (side === 'right' ? grown / 2 : -grown / 2))),
    );
  else if (side === 'left' && placed?.wall)
    edits.push(...placeEdits(scene, found, { along: placed.wall.from - grown }));
  else if (side === 'left' && piece.at) edits.push(...placeEdits(scene, found, { x: piece.at.x - grown }));
  if (side === 'bottom' && placed) edits.push(...placeEdits(scene, found, { above: placed.frame.origin.y - grown }));
  return edits;
}
const LEAST = 20;

/** Kinds that say their size themselves; of the others it follows from what they hang along, or is usual. */
export const SIZED: ReadonlySet<PieceKind> = new Set([
  'case',
  'shelf',
  'display',
  'lining',
  'thing',
  'lamp',
  'absorber',
]);
export type Dimension = 'width' | 'height' | 'depth';
/** What of the size of a piece can be changed. */
export function sizedIn(piece: Piece): readonly Dimension[] {
  if (SIZED.has(kindOf(piece))) return ['width', 'height', 'depth'];
  return 'strip' in piece && piece.along === undefined ? ['width'] : [];
}
export const dimensionOf = (side: Side): Dimension =>
  side === 'left' || side === 'right' ? 'width' : side === 'front' ? 'depth' : 'height';
export const sizesOf = (piece: Piece): Readonly<Record<string, number>> =>
  'size' in piece && piece.size ? (piece.size as Readonly<Record<string, number>>) : {};
