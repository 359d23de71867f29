import { type Finishing, finishingOf } from '../finish/index.ts';
import { WALL_FIXING } from '../scene/index.ts';
import { boltRows, type WallInput } from '../strength/index.ts';
import { settingOut } from './marks.ts';
import { floorFits, type Run, runsOf } from './wall-fit.ts';

/** Less than this no shim goes in, mm: the thinnest that is sold. Common practice. */
const SHIM = 0.5;

/** The finishing of an option: its mouldings, and what holes, joints, gaps, patches and paint take. */
export function finishingIn(input: WallInput): Finishing {
  const holes = settingOut(input).flatMap((wall) => wall.holes);
  return finishingOf({
    plan: input.plan,
    option: input.option,
    room: input.room,
    pieces: input.pieces,
    holes: holes.map(({ point: { kind, open, fixing, diameter, length, washer }, shim }) => ({
      use: open ? WALL_FIXING : kind,
      name: fixing,
      ...(diameter !== undefined && { diameter }),
      ...(length !== undefined && { length }),
      shim: (shim ?? 0) >= SHIM,
      ...(washer && { washer }),
    })),
    floorShims: floorFits(input).reduce((sum, fit) => sum + fit.shims.filter((s) => s.shim >= SHIM).length, 0),
    bolts: runsOf(input).flatMap(boltsOf),
  });
}

/** Bolts of each joint between two cases of a run that touch, side by side or one on the other. */
function boltsOf({ pieces }: Run): readonly number[] {
  const boxes = pieces.map((p) => ({
    x: [p.wall!.from + p.outside.min.x, p.wall!.from + p.outside.max.x] as const,
    y: [p.frame.origin.y + p.outside.min.y, p.frame.origin.y + p.outside.max.y] as const,
  }));
  const shared = (a: readonly [number, number], b: readonly [number, number]): number =>
    Math.min(a[1], b[1]) - Math.max(a[0], b[0]);
  return boxes.flatMap((a, i) =>
    boxes.slice(i + 1).flatMap((b) => {
      const [along, up] = [shared(a.x, b.x), shared(a.y, b.y)];
      const touch = Math.abs(along) < 1 ? up : Math.abs(up) < 1 ? along : 0;
      return touch > 100 ? [2 * boltRows(touch)] : [];
    }),
  );
}
