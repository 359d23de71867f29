import { type Box, box, centre, enclose, type Prism, side, toRoom, type Vec3, vec } from '../geometry/index.ts';
import { type LampPiece, nameOf, type Option, type Piece, type Plan, type StripPiece } from '../plan/index.ts';
import type { PlacedRoom } from '../room/index.ts';
import type { BayOpening, PlacedPiece } from '../scene/index.ts';

/**
 * The finished set as light, sound and camera meet it: the room as a prism, what stands in it as upright boxes, lamps and strips where
 * they shine from. Lengths mm, in the room.
 */
export interface Staged {
  readonly plan: Plan;
  readonly option: Option;
  readonly room: PlacedRoom;
  readonly pieces: readonly PlacedPiece[];
}

export const prismOf = ({ outline, ceiling }: PlacedRoom): Prism => ({ outline, height: ceiling });

/** The upright box round something of a piece as it stands in the room; larger than it where the piece stands askew. */
export const bodyOf = (piece: PlacedPiece, of: Box = piece.outside): Box =>
  enclose(
    [of.min, of.max].flatMap((a) =>
      [of.min, of.max].map((b) => {
        const p = toRoom(piece.frame, vec(a.x, a.y, b.z));
        const q = toRoom(piece.frame, vec(b.x, b.y, b.z));
        const r = toRoom(piece.frame, vec(b.x, b.y, a.z));
        return enclose([box(p, p), box(q, q), box(r, r)]);
      }),
    ),
  );

/** Kinds that stand in the way of light and sight. People, lamps and cameras do not: they are what it is reckoned for. */
const SOLID: ReadonlySet<string> = new Set(['case', 'shelf', 'display', 'lining', 'thing', 'absorber']);

export interface Body {
  readonly piece: PlacedPiece;
  readonly box: Box;
  readonly colour: string;
}
/** Every solid piece as one box, a hair inside the room so that none lies in a wall. */
export function bodiesOf({ plan, option, room, pieces }: Staged): readonly Body[] {
  const byName = new Map(option.pieces.map((p) => [nameOf(p), p]));
  return pieces
    .filter((p) => SOLID.has(p.kind))
    .map((piece) => {
      const whole = bodyOf(piece);
      const high = Math.min(whole.max.y, room.ceiling - 1);
      return {
        piece,
        box: box(whole.min, vec(whole.max.x, high, whole.max.z)),
        colour: colourOf(byName.get(piece.id), plan),
      };
    });
}

/** Where a plan gives no colour: raw wood, and the grey of a screen that is off. Common practice. */
const WOOD = '#c8ab7d';
const SCREEN = '#1c1d1f';

/** The colour a piece shows most of. */
export function colourOf(piece: Piece | undefined, plan: Plan): string {
  if (!piece) return WOOD;
  if ('display' in piece) return SCREEN;
  if (('thing' in piece || 'absorber' in piece) && piece.colour && /^#[0-9a-f]{6}$/i.test(piece.colour))
    return piece.colour;
  const id =
    'case' in piece
      ? (piece.make?.front ?? plan.make.front ?? piece.make?.panel ?? plan.make.panel)
      : 'shelf' in piece
        ? piece.skin
        : 'lining' in piece
          ? piece.panel
          : undefined;
  const stock = id === undefined ? undefined : [...plan.stock.panels, ...plan.stock.boards].find((s) => s.id === id);
  return stock?.colour && /^#[0-9a-f]{6}$/i.test(stock.colour) ? stock.colour : WOOD;
}

/** White emulsion and oiled boards, where the plan says nothing of a face. Common practice. */
const UNSAID = { wall: '#e9e7e1', ceiling: '#f3f2ee', floor: '#a08463' } as const;

/** Colours of floor, ceiling and each wall, as they are or as the option paints them. */
export function faceColours(
  { plan, option }: Staged,
  painted: boolean,
): { readonly floor: string; readonly ceiling: string; readonly walls: readonly string[] } {
  const paint = painted ? option.paint : undefined;
  const { faces, walls } = plan.room;
  return {
    floor: paint?.floor ?? faces?.floor?.colour ?? UNSAID.floor,
    ceiling: paint?.ceiling ?? faces?.ceiling?.colour ?? UNSAID.ceiling,
    walls: walls.map((w) => paint?.walls ?? w.colour ?? UNSAID.wall),
  };
}

export const wallIndex = (room: PlacedRoom, id: string): number => room.walls.findIndex((w) => w.id === id);

/** One stretch of a strip: from an end to the other, with the way it shines. */
export interface StripStretch {
  readonly id: string;
  readonly strip: StripPiece;
  readonly title: string;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly space: number;
}

/** Whether a bay is open in rows, which are bays themselves. */
const rowsOf = ({ bays }: PlacedPiece, { id }: BayOpening): boolean => bays.some((b) => b.id.startsWith(`${id}-`));

/** What a bay is called: by the plan's word, a row by that of the bay it is in and its place from the top, else by its number. */
function bayWords({ bays }: PlacedPiece, id: string, title: string | undefined): string {
  if (title !== undefined) return title;
  const [, within, row] = /^(.*)-(\d+)$/.exec(id) ?? [];
  const named = bays.find((b) => b.id === within)?.title;
  return named === undefined
    ? `bay ${/[\d-]+$/.exec(id)?.[0].replace(/^-/, '').replaceAll('-', '.')}`
    : `${named} ${row}`;
}

/** Where each strip lies: by itself, or one stretch under the front of each open bay of a case, or under a shelf. */
export function stripRuns({ option, pieces }: Staged): readonly StripStretch[] {
  const placed = new Map(pieces.map((p) => [p.id, p]));
  return option.pieces.flatMap((piece): readonly StripStretch[] => {
    if (!('strip' in piece)) return [];
    const own = placed.get(piece.strip);
    if (!own) return [];
    const title = piece.title ?? piece.strip;
    const led = piece.along === undefined ? undefined : placed.get(piece.along);
    const stretch = (
      id: string,
      of: PlacedPiece,
      x: readonly [number, number],
      y: number,
      z: number,
      name: string,
    ) => ({
      id,
      strip: piece,
      title: name,
      from: toRoom(of.frame, vec(x[0], y, z)),
      to: toRoom(of.frame, vec(x[1], y, z)),
      space: x[1] - x[0],
    });
    const { min, max } = own.outside;
    if (!led) return [stretch(piece.strip, own, [min.x, max.x], max.y, max.z, title)];
    const open = led.bays.filter((b) => b.kind === 'open' && !rowsOf(led, b));
    if (open.length === 0) {
      const o = led.outside;
      return [stretch(piece.strip, led, [o.min.x, o.max.x], o.min.y, o.max.z - piece.size.depth, title)];
    }
    return open.map(({ clear, id, ...own }) =>
      stretch(
        `${piece.strip}/${id}`,
        led,
        [clear.min.x, clear.max.x],
        clear.max.y,
        clear.max.z - piece.size.depth,
        `${title}, ${bayWords(led, id, own.title)}`,
      ),
    );
  });
}

export interface Lit {
  readonly id: string;
  readonly title: string;
  readonly piece: LampPiece;
  /** The middle of what shines. */
  readonly at: Vec3;
}
/** Lamps with the point they shine from: the middle of their lower face, of a bulb their middle. */
export function lampsOf({ option, pieces }: Staged): readonly Lit[] {
  const placed = new Map(pieces.map((p) => [p.id, p]));
  return option.pieces.flatMap((piece): readonly Lit[] => {
    if (!('lamp' in piece)) return [];
    const own = placed.get(piece.lamp);
    if (!own) return [];
    const middle = centre(own.outside);
    const at =
      piece.shape === 'all round' ? middle : vec(middle.x, middle.y - side(own.outside, 'y') / 2 - 1, middle.z);
    return [{ id: piece.lamp, title: piece.title ?? piece.lamp, piece, at: toRoom(own.frame, at) }];
  });
}
