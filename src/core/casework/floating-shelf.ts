import type { Plan, ShelfPiece } from '../plan/index.ts';
import { fromTicks, toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import { DEFAULTS } from './defaults.ts';
import { divide, equally, type Ticks } from './divide.ts';
import {
  addPart,
  type Built,
  beside,
  cuboid,
  type Draft,
  type DraftPart,
  finish,
  join,
  long,
  newDraft,
  pathOf,
  type Span,
  solidOf,
  take,
} from './draft.ts';
import { findMaterial, type Material } from './material.ts';
import { BARE_WALL, type WallContext } from './wall.ts';

/**
 * Builds a floating shelf: two skins the whole width, the lip before them, ends between them, hollow over rods that stand out of a
 * plate on the wall. Bearers run lengthwise behind the plate's recess and at the tips of the rods, notched from below so that they
 * ride on the rods; the notches are wider than a rod by `play`, so that the shelf can still slide sideways. A spacer stands at
 * either side of each rod's way. A hollow no higher than the rods has no bearers: the skins themselves ride on the rods.
 *
 * Rods stand at the studs of the wall unless the plan says where; without two studs in reach they are spread evenly.
 */
export function buildShelf(piece: ShelfPiece, plan: Plan, placing: Placing, context: WallContext = BARE_WALL): Built {
  const path = pathOf(plan.options, piece, piece.shelf);
  const draft = newDraft('shelf', piece.shelf, piece.title, path, plan);
  const [width, height, depth] = [toTicks(piece.size.width), toTicks(piece.size.height), toTicks(piece.size.depth)];
  const outside = cuboid([0, width], [0, height], [0, depth]);
  const stock = (id: string, key: readonly string[], kinds: readonly ('panel' | 'board')[]): Material | undefined => {
    const found = findMaterial(plan, id, [...path, ...key], kinds);
    if (found.ok) return found.material;
    draft.issues.push(found.issue);
    return undefined;
  };
  const skin = stock(piece.skin, ['skin'], ['panel']);
  const core = piece.core === undefined ? skin : stock(piece.core, ['core'], ['panel', 'board']);
  const lip = piece.lip === undefined ? skin : stock(piece.lip.stock, ['lip', 'stock'], ['panel', 'board']);
  if (skin && core && lip) layUp(draft, piece, { skin, core, lip }, { width, height, depth }, context);
  return finish(draft, placing, outside);
}

interface Stocks {
  readonly skin: Material;
  readonly core: Material;
  readonly lip: Material;
}
interface Size {
  readonly width: Ticks;
  readonly height: Ticks;
  readonly depth: Ticks;
}

function layUp(
  draft: Draft,
  piece: ShelfPiece,
  { skin, core, lip }: Stocks,
  { width, height, depth }: Size,
  context: WallContext,
): void {
  const { path } = draft;
  const { notLess, notMore } = draft;
  const [t, lipDepth] = [skin.thickness, lip.thickness];
  const hollow: Span = [t, height - t];
  const front = depth - lipDepth;
  if (long(hollow) <= 0 || front <= 0) {
    const high = long(hollow) <= 0;
    draft.issues.push({
      path: [...path, 'size', high ? 'height' : 'depth'],
      message: high ? 'two skins leave no hollow for the rods' : 'the lip is deeper than the shelf',
      found: notMore(high ? height : depth),
      expected: `more than ${notLess(high ? 2 * t : lipDepth)}`,
    });
    return;
  }
  let lipHeight = piece.lip?.height === undefined ? height : toTicks(piece.lip.height);
  if (lipHeight > height || lipHeight < height - t) {
    draft.issues.push({
      path: [...path, 'lip', 'height'],
      message: 'the lip must cover the hollow and not reach past the shelf',
      found: beside(draft, lipHeight, height),
      expected: draft.range([height - t, height]),
    });
    lipHeight = height;
  }
  const part = (
    id: string,
    role: string,
    material: Material,
    box: ReturnType<typeof cuboid>,
    length: 'x' | 'z',
    thickness: 'x' | 'y' | 'z',
  ) =>
    addPart(draft, {
      id,
      name: id.replaceAll('-', ' '),
      role,
      material,
      box,
      length,
      thickness,
      grainMatters: role === 'skin' || role === 'lip' || role === 'end',
      show: role === 'end' ? (id.startsWith('left') ? 'left' : 'right') : 'front',
      path: role === 'lip' ? [...path, 'lip'] : role === 'bearer' || role === 'spacer' ? [...path, 'core'] : path,
    });
  const glued = ['glue', 'brads'] as const;
  const deep: Span = [0, front];
  const bottomSkin = part('bottom-skin', 'skin', skin, cuboid([0, width], [0, t], deep), 'x', 'y');
  const topSkin = part('top-skin', 'skin', skin, cuboid([0, width], [hollow[1], height], deep), 'x', 'y');
  const skins = [bottomSkin, topSkin];
  const lipPart = part('lip', 'lip', lip, cuboid([0, width], [height - lipHeight, height], [front, depth]), 'x', 'z');
  for (const s of skins) join(draft, 'applied', lipPart, s, glued);
  const closed = piece.ends === 'closed';
  if (closed) {
    for (const [id, x] of [
      ['left-end', [0, t]],
      ['right-end', [width - t, width]],
    ] as const) {
      const end = part(id, 'end', skin, cuboid(x, hollow, deep), 'z', 'x');
      for (const s of skins) join(draft, 'butt', end, s, glued);
      join(draft, 'butt', end, lipPart, glued);
    }
  }

  const usual = DEFAULTS.rod;
  const diameter = toTicks(piece.rods?.diameter ?? usual.diameter);
  const length = piece.rods?.length === undefined ? front - toTicks(usual.short) : toTicks(piece.rods.length);
  const plate =
    piece.rods?.plate === undefined ? Math.min(toTicks(usual.plate), long(hollow)) : toTicks(piece.rods.plate);
  const recess = toTicks(usual.plateThickness);
  const play = toTicks(piece.play ?? DEFAULTS.shelfPlay);
  const check = (wrong: boolean, key: string, message: string, found: Ticks, most: Ticks, expected: string) => {
    if (wrong)
      draft.issues.push({ path: [...path, 'rods', key], message, found: beside(draft, found, most), expected });
    return wrong;
  };
  const bad = [
    check(
      diameter > long(hollow),
      'diameter',
      'the rods are thicker than the hollow',
      diameter,
      long(hollow),
      `${notMore(long(hollow))} at most`,
    ),
    check(
      length > front || length <= recess,
      'length',
      'the rods do not lie within the shelf',
      length,
      front,
      `more than ${notLess(recess)}, ${notMore(front)} at most`,
    ),
    check(
      plate > long(hollow),
      'plate',
      'the wall plate is higher than the hollow',
      plate,
      long(hollow),
      `${notMore(long(hollow))} at most`,
    ),
  ].some(Boolean);
  if (bad) return;

  const way = diameter + play;
  const inner: Span = closed ? [t, width - t] : [0, width];
  const margin = Math.ceil(way / 2) + core.thickness;
  const reach: Span = [inner[0] + margin, inner[1] - margin];
  const centres = rodCentres(draft, piece, context, width, reach, margin);
  if (!centres) return;
  const middle = Math.floor(height / 2);
  const rodY: Span = [middle - Math.floor(diameter / 2), middle - Math.floor(diameter / 2) + diameter];
  const ways = centres.map((centre): Span => [centre - Math.floor(way / 2), centre - Math.floor(way / 2) + way]);

  // what is left of a bearer above the notches must still be wood
  const bearing = hollow[1] - rodY[1] >= toTicks(usual.leastBearing);
  const bearers: (DraftPart | undefined)[] = [];
  let between: Span = [recess, front];
  if (bearing) {
    const rear: Span = [recess, recess + core.thickness];
    const tips: Span = [length - core.thickness, length];
    const bearer = (id: string, z: Span) => {
      const made = part(id, 'bearer', core, cuboid(inner, hollow, z), 'x', 'z');
      for (const x of ways) take(made, { kind: 'notch', box: cuboid(x, [hollow[0], rodY[1]], z), why: 'rod' });
      for (const s of skins) join(draft, 'butt', made, s, glued);
      for (const end of draft.parts.filter((p) => p.role === 'end')) join(draft, 'butt', made, end, glued);
      bearers.push(made);
    };
    bearer('rear-bearer', rear);
    if (tips[0] > rear[1]) bearer('front-bearer', tips);
    between = [rear[1], tips[0] > rear[1] ? tips[0] : front];
  }
  if (between[1] > between[0]) {
    ways.forEach((x, i) => {
      for (const [side, at] of [
        ['left', [x[0] - core.thickness, x[0]]],
        ['right', [x[1], x[1] + core.thickness]],
      ] as const) {
        const spacer = part(`spacer-${i + 1}-${side}`, 'spacer', core, cuboid(at, hollow, between), 'z', 'x');
        for (const s of skins) join(draft, 'butt', spacer, s, glued);
        for (const b of bearers) join(draft, 'butt', spacer, b, ['glue']);
      }
    });
  }
  const solid = (x: Span, y: Span, z: Span) => solidOf(cuboid(x, y, z));
  centres.forEach((centre, i) => {
    const x: Span = [centre - Math.floor(diameter / 2), centre - Math.floor(diameter / 2) + diameter];
    draft.fittings.push({
      id: `${draft.piece}/rod-${i + 1}`,
      piece: draft.piece,
      use: 'rod',
      name: `rod ${i + 1}, ${draft.showAsSold(diameter)}`,
      count: 1,
      diameter: fromTicks(diameter),
      amount: { value: fromTicks(length), unit: 'mm' },
      solid: solid(x, rodY, [recess, length]),
    });
  });
  const beyond = toTicks(usual.plateBeyond);
  const from = Math.max(centres[0]! - beyond, inner[0] + Math.ceil(play / 2));
  const to = Math.min(centres.at(-1)! + beyond, inner[1] - Math.ceil(play / 2));
  draft.fittings.push({
    id: `${draft.piece}/wall-plate`,
    piece: draft.piece,
    use: 'wall plate',
    name: 'wall plate of the rods',
    count: 1,
    amount: { value: fromTicks(to - from), unit: 'mm' },
    solid: solid([from, to], [middle - Math.floor(plate / 2), middle - Math.floor(plate / 2) + plate], [0, recess]),
  });
}

/** Where the rods stand, left to right; undefined, with an issue, when they cannot. Each keeps room for its way and its spacers. */
function rodCentres(
  draft: Draft,
  piece: ShelfPiece,
  context: WallContext,
  width: Ticks,
  reach: Span,
  margin: Ticks,
): Ticks[] | undefined {
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
