import { type Box, boxAt } from '../geometry/index.ts';
import { nameOf } from '../plan/index.ts';
import { type Mm, mm } from '../quantity/index.ts';
import { type PlacedRoom, placePieces } from '../room/index.ts';
import { optionOf, thing } from '../room/room.testing.ts';
import type { BayOpening, Part, PlacedPiece } from '../scene/index.ts';

type Size = readonly [width: number, height: number, depth: number];

const part = (piece: string, role: string, name: string, b: Box): Part => {
  const size = { length: mm(b.max.x - b.min.x), width: mm(b.max.z - b.min.z), thickness: mm(b.max.y - b.min.y) };
  return {
    id: `${piece}/${name}`,
    piece,
    label: { place: piece, name, up: 'up', show: 'front' },
    role,
    stock: 'ply',
    from: 'panel',
    solid: { box: b, taken: [] },
    axes: { length: 'x', width: 'z', thickness: 'y' },
    size,
    cut: size,
    grain: 'free',
    edges: [],
  };
};

/** A piece at a place of the room, put there by the same words as in a plan. Without parts: its outside is all there is. */
export function plainPiece(
  room: PlacedRoom,
  id: string,
  size: Size,
  place: object,
  more: Partial<PlacedPiece> = {},
): PlacedPiece {
  const piece = thing(id, size, place);
  const placing = placePieces(optionOf(piece), room).places.get(nameOf(piece));
  if (!placing) throw new Error(`'${id}' has no place`);
  return {
    id,
    kind: 'thing',
    title: '',
    ...placing,
    outside: boxAt(0, 0, 0, ...size),
    needs: [],
    parts: [],
    joints: [],
    fittings: [],
    bays: [],
    ...more,
  };
}

/** An 18 mm case of two bays side by side with a 6 mm back; `kinds` says what the bays are. A door or drawer needs `reach` in front. */
export function boxCase(
  room: PlacedRoom,
  id: string,
  [w, h, d]: Size,
  place: object,
  {
    kinds = ['open', 'open'],
    back = true,
    reach = 400,
  }: { kinds?: readonly BayOpening['kind'][]; back?: boolean; reach?: number } = {},
): PlacedPiece {
  const t = 18;
  const rear = back ? 6 : 0;
  const bayWidth = (w - 3 * t) / 2;
  const lefts = [t, 2 * t + bayWidth];
  const parts = [
    part(id, 'side', 'left-side', boxAt(0, 0, rear, t, h, d - rear)),
    part(id, 'side', 'right-side', boxAt(w - t, 0, rear, t, h, d - rear)),
    part(id, 'divider', 'divider', boxAt(t + bayWidth, t, rear, t, h - 2 * t, d - rear)),
    part(id, 'bottom', 'bottom', boxAt(t, 0, rear, w - 2 * t, t, d - rear)),
    part(id, 'top', 'top', boxAt(t, h - t, rear, w - 2 * t, t, d - rear)),
    ...(back ? [part(id, 'back', 'back', boxAt(0, 0, 0, w, h, rear))] : []),
  ];
  const bays = lefts.map(
    (x, i): BayOpening => ({
      id: `bay-${i + 1}`,
      kind: kinds[i] ?? 'open',
      clear: boxAt(x, t, rear, bayWidth, h - 2 * t, d - rear),
      level: 1,
    }),
  );
  const needs = bays.flatMap((bay) =>
    bay.kind === 'open'
      ? []
      : [
          {
            what: `${bay.kind} of ${bay.id}`,
            part: `${id}/${bay.id}/front`,
            box: boxAt(bay.clear.min.x, t, d, bayWidth, h - 2 * t, reach),
          },
        ],
  );
  return plainPiece(room, id, [w, h, d], place, { kind: 'case', parts, bays, needs });
}

const mirrorBox = (b: Box, width: number): Box => ({
  min: { ...b.min, x: width - b.max.x },
  max: { ...b.max, x: width - b.min.x },
});

/** The room as a looking glass standing north to south at x = 0 shows it. */
export function mirrorRoom(room: PlacedRoom): PlacedRoom {
  const flip = (range: readonly [Mm, Mm], length: number): readonly [Mm, Mm] => [
    mm(length - range[1]),
    mm(length - range[0]),
  ];
  const walls = room.walls.map((wall, i) => {
    const angle = (wall.frame.turn * Math.PI) / 180;
    const end = {
      x: wall.frame.origin.x + Math.cos(angle) * wall.length,
      z: wall.frame.origin.z + Math.sin(angle) * wall.length,
    };
    return {
      ...wall,
      frame: { origin: { x: -end.x, y: wall.frame.origin.y, z: end.z }, turn: (360 - wall.frame.turn) % 360 },
      corner: room.walls[(i - 1 + room.walls.length) % room.walls.length]!.corner,
    };
  });
  const mirrorFeature = (f: PlacedRoom['openings'][number]) => {
    const { length } = room.walls.find((w) => w.id === f.wall)!;
    return {
      ...f,
      x: flip(f.x, length),
      ...(f.hinge && { hinge: f.hinge === 'left' ? ('right' as const) : ('left' as const) }),
    };
  };
  return {
    ...room,
    outline: room.outline.map((p) => ({ ...p, x: -p.x })).toReversed(),
    walls: walls.toReversed(),
    openings: room.openings.map(mirrorFeature),
    services: room.services.map(mirrorFeature),
  };
}

export function mirrorPiece(piece: PlacedPiece, room: PlacedRoom): PlacedPiece {
  const width = piece.outside.max.x;
  const { origin, turn } = piece.frame;
  const angle = (turn * Math.PI) / 180;
  const wall = piece.wall && room.walls.find((w) => w.id === piece.wall!.id)!;
  return {
    ...piece,
    frame: {
      origin: { x: -(origin.x + Math.cos(angle) * width), y: origin.y, z: origin.z + Math.sin(angle) * width },
      turn: (((360 - turn) % 360) + 360) % 360,
    },
    outside: mirrorBox(piece.outside, width),
    ...(wall && { wall: { id: wall.id, from: mm(wall.length - piece.wall!.from - width) } }),
    needs: piece.needs.map((n) => ({ ...n, box: mirrorBox(n.box, width) })),
    parts: piece.parts.map((p) => ({
      ...p,
      solid: {
        box: mirrorBox(p.solid.box, width),
        taken: p.solid.taken.map((t) => ({ ...t, box: mirrorBox(t.box, width) })),
      },
    })),
    bays: piece.bays.map((b) => ({ ...b, clear: mirrorBox(b.clear, width) })),
  };
}

/** The room and all in it moved bodily, without a turn. */
export function moved(
  room: PlacedRoom,
  pieces: readonly PlacedPiece[],
  by: { x: number; z: number },
): { room: PlacedRoom; pieces: readonly PlacedPiece[] } {
  const shift = <T extends { readonly x: number; readonly z: number }>(p: T): T => ({
    ...p,
    x: p.x + by.x,
    z: p.z + by.z,
  });
  return {
    room: {
      ...room,
      outline: room.outline.map(shift),
      walls: room.walls.map((w) => ({ ...w, frame: { ...w.frame, origin: shift(w.frame.origin) } })),
    },
    pieces: pieces.map((p) => ({ ...p, frame: { ...p.frame, origin: shift(p.frame.origin) } })),
  };
}
