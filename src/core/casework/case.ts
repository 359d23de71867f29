import { type CasePiece, type Plan, settingOf } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import { fillBay } from './bays.ts';
import { buildCarcass, buildSurround, buildToe, rootSpace } from './carcass.ts';
import { layOut } from './carcass-planes.ts';
import { DEFAULTS } from './defaults.ts';
import {
  type Built,
  cuboid,
  type Draft,
  type DraftMachining,
  type DraftPart,
  finishPart,
  type Made,
  MOST_PARTS,
  made,
  newDraft,
  type Path,
  pathOf,
  refuseMore,
  stand,
  type TickBox,
  takenFrom,
} from './draft.ts';
import { saidIn, settleHabits } from './habits.ts';
import { buildRails } from './hanging-rails.ts';
import { leastPartsOf } from './walk.ts';
import { BARE_WALL, type WallContext } from './wall.ts';

export interface CaseOptions {
  /** Which side takes the tick left over when a width is divided; `right` builds the exact mirror image of the mirrored case. */
  readonly oddTick?: 'left' | 'right';
}

/**
 * Builds a case: every part a solid in the case's own frame (x to the right, y up, z out of the wall, origin at the lower left
 * rear corner of its outside), with the joints between them and what is bought for it.
 *
 * From the wall forward: back, carcass, face frame, overlay fronts. From the left: filler, end panel, side. From the floor: toe,
 * bottom, top, separate top. With a face frame a bay's clear opening is what the frame leaves; floors lie flush with the upper
 * edges of the rails, uprights are centred behind the stiles, and inside a bay with a door there is no frame.
 *
 * `joint` rabbet lets the top, and a bottom at the very end of the sides, into rabbets and butts the rest; dado lets every fixed
 * panel in. A socket, switch or data point that lies behind one bay is cut out of the back. Never throws for what a plan says: what does not fit comes back as issues, and the rest is built where it can be.
 */
export function buildCase(
  piece: CasePiece,
  plan: Plan,
  placing: Placing,
  context: WallContext = BARE_WALL,
  options: CaseOptions = {},
): Built {
  const { draft, back, made } = bodyOf(piece, plan, options);
  const holes = back ? serviceHoles(draft, back, context) : [];
  if (!back || holes.length === 0) return stand(made, placing);
  const holed = finishPart(piece.case, { ...back, taken: [...back.taken, ...holes] });
  const parts = made.placed.parts.map((part) => (part.id === back.id ? holed : part));
  return stand({ ...made, placed: { ...made.placed, parts } }, placing);
}

/** A case wherever it stands: all of it but what the wall behind it asks for. */
interface Body {
  readonly draft: Draft;
  readonly back: DraftPart | undefined;
  readonly made: Made;
}
/** The last few, by what else of a plan they are made from, and by their place in it. */
const bodies = new WeakMap<object, Map<string, (readonly [shape: string, body: Body])[]>>();
/** Of one in the plan, and of one that is only tried: a heavy case is parted in all the ways there are. */
const [KEPT, KEPT_TRIED] = [2, 8];

/** Of a case under the hand only what the wall asks for is made anew with every step, as long as its own sizes stay. */
function bodyOf(piece: CasePiece, plan: Plan, options: CaseOptions): Body {
  const { from: _from, centre: _centre, gap: _gap, out: _out, above: _above, ...own } = piece;
  const path = pathOf(plan.options, piece, piece.case);
  const place = path.join('/');
  const shape = JSON.stringify([own, options]);
  const setting = settingOf(plan);
  const known = bodies.get(setting) ?? new Map<string, (readonly [string, Body])[]>();
  bodies.set(setting, known);
  const list = known.get(place) ?? [];
  const at = list.findIndex(([key]) => key === shape);
  const [, body] = at >= 0 ? list.splice(at, 1)[0]! : [shape, shaped(piece, plan, path, options)];
  known.set(place, [[shape, body] as const, ...list].slice(0, path.length > 1 ? KEPT : KEPT_TRIED));
  return body;
}

function shaped(piece: CasePiece, plan: Plan, path: Path, options: CaseOptions): Body {
  const draft = newDraft('case', piece.case, piece.title, path, plan);
  const oddAtEnd = options.oddTick === 'right';
  const said = saidIn(piece, plan, path);
  const [width, height, depth] = [toTicks(piece.size.width), toTicks(piece.size.height), toTicks(piece.size.depth)];
  const over = {
    left: toTicks(piece.top?.left ?? 0),
    right: toTicks(piece.top?.right ?? 0),
    front: toTicks(piece.top?.front ?? 0),
  };
  const outside = cuboid([-over.left, width + over.right], [0, height], [0, depth + over.front]);
  const habits = settleHabits(piece, plan, draft, said);
  const carcass = habits && layOut(piece, plan, draft, habits, { width, height, depth, over }, said);
  if (habits && carcass) {
    buildCarcass(draft, habits, carcass);
    if (piece.rails) {
      const { left, right, top, bottom, back } = carcass.made;
      buildRails(draft, piece.rails, habits, plan, said, {
        path,
        inner: carcass.inner,
        clear: [carcass.bottom[1], carcass.top[0]],
        made: { left, right, top, bottom, back },
      });
    }
    buildToe(draft, carcass, habits, oddAtEnd);
    buildSurround(draft, habits, carcass);
    const inside = piece.inside ?? { open: true };
    // counted before it is filled: to be refused must not take as long as to be built
    if (leastPartsOf(inside) > MOST_PARTS) refuseMore(draft);
    else
      fillBay({ draft, habits, carcassFront: carcass.z[1], oddAtEnd, said }, inside, rootSpace(carcass, habits, path));
  }
  return { draft, back: carcass?.made.back, made: made(draft, outside) };
}

/**
 * What one plugs into or switches is cut out of the back, so that it can be reached, when all of it and the clearance round it lie
 * behind one open or doored bay; behind drawers, an upright, a shelf or a hanging rail there is nothing a hole would help.
 */
function serviceHoles(draft: Draft, back: DraftPart, context: WallContext): readonly DraftMachining[] {
  const clear = toTicks(DEFAULTS.serviceClear);
  return context.features.flatMap(({ id, kind, x, y }) => {
    if (!REACHABLE.has(kind)) return [];
    const hole = cuboid(
      [toTicks(x[0]) - clear, toTicks(x[1]) + clear],
      [toTicks(y[0]) - clear, toTicks(y[1]) + clear],
      [back.box.min.z, back.box.max.z],
    );
    const holds = (box: TickBox) =>
      hole.min.x > box.min.x && hole.max.x < box.max.x && hole.min.y > box.min.y && hole.max.y < box.max.y;
    const meets = (box: TickBox) =>
      hole.min.x < box.max.x && hole.max.x > box.min.x && hole.min.y < box.max.y && hole.max.y > box.min.y;
    const behind = draft.bays.some((bay) => (bay.kind === 'open' || bay.kind === 'door') && holds(bay.clear));
    const drawers = draft.bays.some((bay) => bay.kind === 'drawers' && meets(bay.clear));
    const barred = draft.parts.some(({ role, box }) => BARS.has(role) && meets(box));
    return behind && !drawers && !barred ? takenFrom(back, { kind: 'cut-out', box: hole, why: id }) : [];
  });
}
const BARS: ReadonlySet<string> = new Set(['upright', 'fixed shelf', 'hanging rail']);
const REACHABLE: ReadonlySet<string> = new Set(['outlet', 'switch', 'data']);
