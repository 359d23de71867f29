import type { Plan, ShelfPiece } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import { DEFAULTS } from './defaults.ts';
import type { Ticks } from './divide.ts';
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
  type PartWanted,
  pathOf,
  type Span,
  take,
} from './draft.ts';
import { addRods, type Hollow, type Rods, rodsOf } from './floating-shelf-rods.ts';
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
/** What a shelf is laid up of and how far each reaches. */
interface LayUp extends Stocks, Size {
  readonly draft: Draft;
  readonly hollow: Hollow;
}
const GLUED = ['glue', 'brads'] as const;

function layUp(draft: Draft, piece: ShelfPiece, stocks: Stocks, size: Size, context: WallContext): void {
  const { skin, core, lip } = stocks;
  const { width, height, depth } = size;
  const t = skin.thickness;
  const closed = piece.ends === 'closed';
  const hollow: Hollow = {
    x: closed ? [t, width - t] : [0, width],
    y: [t, height - t],
    front: depth - lip.thickness,
  };
  if (!hasHollow(draft, hollow, stocks, size)) return;
  const shelf = { draft, ...stocks, ...size, hollow };
  const shell = addShell(shelf, closed, lipHeight(draft, piece, size, t));
  const rods = rodsOf(draft, piece, context, hollow, core.thickness);
  if (!rods) return;
  addCore(shelf, shell, rods);
  addRods(draft, rods, hollow);
}

function hasHollow(draft: Draft, { y, front }: Hollow, { skin, lip }: Stocks, { height, depth }: Size): boolean {
  const high = long(y) <= 0;
  if (!high && front > 0) return true;
  draft.issues.push({
    path: [...draft.path, 'size', high ? 'height' : 'depth'],
    message: high ? 'two skins leave no hollow for the rods' : 'the lip is deeper than the shelf',
    found: draft.notMore(high ? height : depth),
    expected: `more than ${draft.notLess(high ? 2 * skin.thickness : lip.thickness)}`,
  });
  return false;
}

function lipHeight(draft: Draft, { lip }: ShelfPiece, { height }: Size, skin: Ticks): Ticks {
  const said = lip?.height === undefined ? height : toTicks(lip.height);
  if (said <= height && said >= height - skin) return said;
  draft.issues.push({
    path: [...draft.path, 'lip', 'height'],
    message: 'the lip must cover the hollow and not reach past the shelf',
    found: beside(draft, said, height),
    expected: draft.range([height - skin, height]),
  });
  return height;
}

interface Shell {
  readonly skins: readonly (DraftPart | undefined)[];
  readonly ends: readonly (DraftPart | undefined)[];
}

/** The skins, the lip before them and, where it is closed, its ends. */
function addShell(shelf: LayUp, closed: boolean, lipHigh: Ticks): Shell {
  const { draft, skin, lip, width, height, depth, hollow } = shelf;
  const deep: Span = [0, hollow.front];
  const seen = { grainMatters: true, path: draft.path } as const;
  const plank = { ...seen, role: 'skin', material: skin, length: 'x', thickness: 'y' } as const;
  const skins = [
    part(draft, { ...plank, id: 'bottom-skin', box: cuboid([0, width], [0, hollow.y[0]], deep) }),
    part(draft, { ...plank, id: 'top-skin', box: cuboid([0, width], [hollow.y[1], height], deep) }),
  ];
  const front = part(draft, {
    id: 'lip',
    role: 'lip',
    material: lip,
    box: cuboid([0, width], [height - lipHigh, height], [hollow.front, depth]),
    length: 'x',
    thickness: 'z',
    grainMatters: true,
    path: [...draft.path, 'lip'],
  });
  for (const s of skins) join(draft, 'applied', front, s, GLUED);
  if (!closed) return { skins, ends: [] };
  const ends = (['left', 'right'] as const).map((show) => {
    const x: Span = show === 'left' ? [0, hollow.x[0]] : [hollow.x[1], width];
    const box = cuboid(x, hollow.y, deep);
    const end = part(draft, {
      ...seen,
      id: `${show}-end`,
      role: 'end',
      material: skin,
      box,
      length: 'z',
      thickness: 'x',
      show,
    });
    for (const s of skins) join(draft, 'butt', end, s, GLUED);
    join(draft, 'butt', end, front, GLUED);
    return end;
  });
  return { skins, ends };
}

/** What lies between the skins: bearers that ride on the rods, and spacers along the way of each rod. */
function addCore({ draft, core, hollow }: LayUp, { skins, ends }: Shell, { ways, y, z: [recess, tip] }: Rods): void {
  const inside = { material: core, grainMatters: false, path: [...draft.path, 'core'] } as const;
  const bearer = (id: string, z: Span) => {
    const box = cuboid(hollow.x, hollow.y, z);
    const made = part(draft, { ...inside, id, role: 'bearer', box, length: 'x', thickness: 'z' });
    for (const x of ways) take(made, { kind: 'notch', box: cuboid(x, [hollow.y[0], y[1]], z), why: 'rod' });
    for (const s of skins) join(draft, 'butt', made, s, GLUED);
    for (const end of ends) join(draft, 'butt', made, end, GLUED);
    return made;
  };
  const rear: Span = [recess, recess + core.thickness];
  const tips: Span = [tip - core.thickness, tip];
  // what is left of a bearer above the notches must still be wood
  const bears = hollow.y[1] - y[1] >= toTicks(DEFAULTS.rod.leastBearing);
  const atTips = bears && tips[0] > rear[1];
  const bearers = [...(bears ? [bearer('rear-bearer', rear)] : []), ...(atTips ? [bearer('front-bearer', tips)] : [])];
  const between: Span = [bears ? rear[1] : recess, atTips ? tips[0] : hollow.front];
  if (long(between) <= 0) return;
  ways.forEach((way, i) => {
    for (const [side, x] of [
      ['left', [way[0] - core.thickness, way[0]]],
      ['right', [way[1], way[1] + core.thickness]],
    ] as const) {
      const [id, box] = [`spacer-${i + 1}-${side}`, cuboid(x, hollow.y, between)];
      const spacer = part(draft, { ...inside, id, role: 'spacer', box, length: 'z', thickness: 'x' });
      for (const s of skins) join(draft, 'butt', spacer, s, GLUED);
      for (const b of bearers) join(draft, 'butt', spacer, b, ['glue']);
    }
  });
}

const part = (draft: Draft, wanted: Omit<PartWanted, 'name'>): DraftPart | undefined =>
  addPart(draft, { show: 'front', ...wanted, name: wanted.id.replaceAll('-', ' ') });
