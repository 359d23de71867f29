import type { ShelfPiece } from '../../plan/index.ts';
import type { PlacedWall } from '../../room/index.ts';
import { allWeighed, ownMass, type Subject, type WallInput } from '../plan-input.ts';
import { standingOn } from '../plan-shelf-box.ts';
import { apartOf } from './crowd.ts';
import type { Fixing } from './fastener.ts';
import type { Group } from './group.ts';

/** Rods' wall plate: two fixings at each rod, one to either side; plugs and anchors as far apart as they must stand to count each. */
export function shelfGroup(
  input: WallInput,
  subject: Subject,
  said: ShelfPiece,
  wall: PlacedWall,
  fixing: Fixing,
): Group | undefined {
  const { placed } = subject;
  const plate = placed.fittings.find((f) => f.use === 'wall plate')?.solid?.box;
  const rods = placed.fittings.flatMap((f) => (f.use === 'rod' && f.solid ? [f.solid.box] : []));
  if (!plate || rods.length === 0) return undefined;
  const left = placed.wall!.from;
  const bottom = placed.frame.origin.y - wall.frame.origin.y;
  const rows = (said.fix?.heights ?? [(plate.min.y + plate.max.y) / 2]).map((h) => bottom + h);
  const columns =
    said.fix?.at?.map((x) => left + x) ??
    rods.flatMap(({ min, max }) => {
      const off = Math.max((max.x - min.x) / 2 + 5, apartOf(fixing.kind, fixing.diameter) / 2);
      // they stay within the plate
      const centre = Math.max(plate.min.x + off, Math.min(plate.max.x - off, (min.x + max.x) / 2));
      return [left + centre - off, left + centre + off];
    });
  const holes = columns.flatMap((x) => rows.map((y) => ({ x, y })));
  return {
    holes,
    hanging: {
      mass: standingOn(subject) + ownMass(input, placed),
      partly: !allWeighed(input, placed),
      at: left + said.size.width / 2,
      reach: said.size.depth / 2,
      edge: bottom + plate.min.y,
    },
  };
}
