import type { Mm } from '../quantity/index.ts';
import { mm } from '../quantity/index.ts';
import type { PlacedRoom, Placing } from '../room/index.ts';

/** What is on and in the wall behind a piece, measured in the piece's own frame: x from its left end, y from its lowest edge. */
export interface WallContext {
  readonly features: readonly {
    readonly id: string;
    readonly kind: string;
    readonly x: readonly [Mm, Mm];
    readonly y: readonly [Mm, Mm];
  }[];
  readonly studs: readonly { readonly at: Mm; readonly width: Mm }[];
}

export const BARE_WALL: WallContext = { features: [], studs: [] };

/** The wall behind a placed piece as that piece sees it; a bare wall when it stands at none. */
export function wallBehindPiece(room: PlacedRoom, placing: Placing): WallContext {
  const wall = placing.wall && room.walls.find(({ id }) => id === placing.wall!.id);
  if (!wall || !placing.wall) return BARE_WALL;
  const [x, y] = [placing.wall.from, placing.frame.origin.y - wall.frame.origin.y];
  return {
    features: [...room.openings, ...room.services]
      .filter((feature) => feature.wall === wall.id)
      .map(({ id, kind, x: across, y: high }) => ({
        id,
        kind,
        x: [mm(across[0] - x), mm(across[1] - x)],
        y: [mm(high[0] - y), mm(high[1] - y)],
      })),
    studs: wall.studs.map((stud) => ({ at: mm(stud.at - x), width: stud.width })),
  };
}
