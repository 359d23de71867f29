import type { ShelfPiece } from '../plan/index.ts';
import { fromTicks, toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import { divide, equally, type Ticks } from './divide.ts';
import { beside, cuboid, type Draft, long, type Span, solidOf } from './draft.ts';
import type { WallContext } from './wall.ts';

/** The rods of a floating shelf and the plate they stand out of, as they lie in it. */
export interface Rods {
  readonly diameter: Ticks;
  readonly play: Ticks;
  /** From left to right. */
  readonly centres: readonly Ticks[];
  /** What each takes of the width, so that the shelf can still slide. */
  readonly ways: readonly Span[];
  readonly y: Span;
  readonly z: Span;
  /** How high the plate reaches. */
  readonly plate: Span;
}
/** What they have to lie in: between the ends, between the skins, and behind the lip. */
export interface Hollow {
  readonly x: Span;
  readonly y: Span;
  readonly front: Ticks;
}

/** Undefined, with an issue, where they do not fit. `spacer`: how thick those along the way of each are. */
export function rodsOf(
  draft: Draft,
  piece: ShelfPiece,
  context: WallContext,
  hollow: Hollow,
  spacer: Ticks,
): Rods | undefined {
  const { rods } = piece;
  const usual = DEFAULTS.rod;
  const high = long(hollow.y);
  const diameter = toTicks(rods?.diameter ?? usual.diameter);
  const length = rods?.length === undefined ? hollow.front - toTicks(usual.short) : toTicks(rods.length);
  const plate = rods?.plate === undefined ? Math.min(toTicks(usual.plate), high) : toTicks(rods.plate);
  const recess = toTicks(usual.plateThickness);
  const play = toTicks(piece.play ?? DEFAULTS.shelfPlay);
  const { notLess, notMore } = draft;
  const misfit = (key: string, message: string, found: Ticks, most: Ticks, least?: Ticks): void => {
    const expected = `${least === undefined ? '' : `more than ${notLess(least)}, `}${notMore(most)} at most`;
    draft.issues.push({ path: [...draft.path, 'rods', key], message, found: beside(draft, found, most), expected });
  };
  const fits = {
    diameter: diameter <= high,
    length: length <= hollow.front && length > recess,
    plate: plate <= high,
  };
  if (!fits.diameter) misfit('diameter', 'the rods are thicker than the hollow', diameter, high);
  if (!fits.length) misfit('length', 'the rods do not lie within the shelf', length, hollow.front, recess);
  if (!fits.plate) misfit('plate', 'the wall plate is higher than the hollow', plate, high);
  if (!(fits.diameter && fits.length && fits.plate)) return undefined;

  const way = diameter + play;
  const middle = Math.floor((hollow.y[0] + hollow.y[1]) / 2);
  const centres = rodCentres(draft, piece, context, hollow.x, Math.ceil(way / 2) + spacer);
  return (
    centres && {
      diameter,
      play,
      centres,
      ways: centres.map((centre) => about(centre, way)),
      y: about(middle, diameter),
      z: [recess, length],
      plate: about(middle, plate),
    }
  );
}

/** A stretch of a length about a middle. */
const about = (middle: Ticks, length: Ticks): Span => {
  const from = middle - Math.floor(length / 2);
  return [from, from + length];
};

/** Where the rods stand; undefined, with an issue, when they cannot. Each keeps room for its way and its spacers: `margin` to either side. */
function rodCentres(
  draft: Draft,
  piece: ShelfPiece,
  context: WallContext,
  [left, right]: Span,
  margin: Ticks,
): readonly Ticks[] | undefined {
  const reach: Span = [left + margin, right - margin];
  const count = piece.rods?.count;
  const within = (at: Ticks) => at >= reach[0] && at <= reach[1];
  let centres: Ticks[];
  if (piece.rods?.at) {
    centres = piece.rods.at.map(toTicks).sort((a, b) => a - b);
  } else {
    const studs = context.studs
      .map((stud) => toTicks(stud.at))
      .filter(within)
      .sort((a, b) => a - b);
    if (studs.length >= 2 && studs.length >= (count ?? 2)) {
      const wanted = count ?? studs.length;
      centres = Array.from({ length: wanted }, (_, i) => studs[Math.round((i * (studs.length - 1)) / (wanted - 1))]!);
    } else {
      // over the whole shelf, with whatever closes its ends
      const width = left + right;
      const spread = count ?? Math.max(2, Math.round(width / toTicks(DEFAULTS.rod.spacing)));
      const cells = divide(width, equally(spread));
      if (!cells.fits) return undefined;
      let at = 0;
      centres = cells.sizes.map((cell) => {
        at += cell;
        return at - Math.floor(cell / 2);
      });
    }
  }
  const least = 2 * margin;
  const wrong = centres.find((at, i) => !within(at) || (i > 0 && at - centres[i - 1]! < least));
  if (wrong === undefined && centres.length > 0) return centres;
  draft.issues.push({
    path: [...draft.path, 'rods', ...(piece.rods?.at ? ['at'] : [])],
    message: 'the rods are too near each other or to an end of the shelf for their spacers and the play',
    found: centres.map((at) => beside(draft, at, reach[1])).join(', '),
    expected: `${draft.range(reach)}, ${draft.notLess(least)} apart`,
  });
  return undefined;
}

/** The rods and their plate, as they are bought and as they stand. */
export function addRods(draft: Draft, { diameter, plate, play, centres, y, z }: Rods, hollow: Hollow): void {
  const [recess, tip] = z;
  centres.forEach((centre, i) => {
    draft.fittings.push({
      id: `${draft.piece}/rod-${i + 1}`,
      piece: draft.piece,
      use: 'rod',
      name: `rod ${i + 1}, ${draft.showAsSold(diameter)}`,
      count: 1,
      diameter: fromTicks(diameter),
      amount: { value: fromTicks(tip), unit: 'mm' },
      solid: solidOf(cuboid(about(centre, diameter), y, z)),
    });
  });
  const beyond = toTicks(DEFAULTS.rod.plateBeyond);
  const x: Span = [
    Math.max(centres[0]! - beyond, hollow.x[0] + Math.ceil(play / 2)),
    Math.min(centres.at(-1)! + beyond, hollow.x[1] - Math.ceil(play / 2)),
  ];
  draft.fittings.push({
    id: `${draft.piece}/wall-plate`,
    piece: draft.piece,
    use: 'wall plate',
    name: 'wall plate of the rods',
    count: 1,
    amount: { value: fromTicks(long(x)), unit: 'mm' },
    solid: solidOf(cuboid(x, plate, [0, recess])),
  });
}
