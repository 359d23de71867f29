import { type CasePiece, type Plan, settingOf } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import type { Placing } from '../room/index.ts';
import { fillBay } from './bays.ts';
import { DEFAULTS } from './defaults.ts';
import { divide, equally, type Ticks } from './divide.ts';
import {
  addPart,
  type Built,
  cuboid,
  type Draft,
  type DraftMachining,
  type DraftPart,
  finishPart,
  join,
  letInto,
  long,
  type Made,
  MOST_PARTS,
  made,
  newDraft,
  type PartWanted,
  type Path,
  pathOf,
  refuseMore,
  type Span,
  stand,
  type TickBox,
  take,
  takenFrom,
} from './draft.ts';
import { type Habits, saidIn, settleHabits } from './habits.ts';
import { buildRails } from './hanging-rails.ts';
import { findMaterial, type Material } from './material.ts';
import type { Space } from './space.ts';
import { frontsOf, leastPartsOf } from './walk.ts';
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

interface Carcass {
  readonly path: Path;
  readonly size: {
    readonly width: Ticks;
    readonly height: Ticks;
    readonly depth: Ticks;
    readonly over: { readonly left: Ticks; readonly right: Ticks; readonly front: Ticks };
  };
  /** Outside of the sides, inside of the sides. */
  readonly x: Span;
  readonly inner: Span;
  /** Underside of the bottom region (top of the toe), and underside of a separate top. */
  readonly y: Span;
  readonly bottom: Span;
  readonly top: Span;
  /** Rear and front edges of the carcass panels. */
  readonly z: Span;
  /** Front of the back panel: where the inside begins. */
  readonly inside: Ticks;
  /** Front of carcass and face frame; overlay fronts lie on it. */
  readonly face: Ticks;
  readonly sideFoot: Ticks;
  readonly toe: { readonly kind: 'notch' | 'plinth'; readonly board: Material; readonly z: Span } | undefined;
  readonly lid: Material | undefined;
  readonly ends: { readonly left: Material | undefined; readonly right: Material | undefined };
  readonly fillers: { readonly left: Ticks; readonly right: Ticks; readonly stock: Material };
  made: {
    left?: DraftPart | undefined;
    right?: DraftPart | undefined;
    top?: DraftPart | undefined;
    bottom?: DraftPart | undefined;
    back?: DraftPart | undefined;
    frame: {
      left?: DraftPart | undefined;
      right?: DraftPart | undefined;
      top?: DraftPart | undefined;
      bottom?: DraftPart | undefined;
    };
  };
}

/** All the planes of a case, or issues when they do not leave an inside. */
function layOut(
  piece: CasePiece,
  plan: Plan,
  draft: Draft,
  habits: Habits,
  size: Carcass['size'],
  said: ReturnType<typeof saidIn>,
): Carcass | undefined {
  const { path } = draft;
  const before = draft.issues.length;
  const t = habits.panel.thickness;
  const fault = (
    at: Path,
    message: string,
    found: Ticks,
    bound: Ticks,
    than: 'more than' | 'at least' | 'less than' = 'more than',
  ) =>
    draft.issues.push({
      path: at,
      message,
      found: than === 'less than' ? draft.notLess(found) : draft.notMore(found),
      expected: `${than} ${than === 'less than' ? draft.notMore(bound) : draft.notLess(bound)}`,
    });
  const stock = (id: string | undefined, at: Path, kinds: readonly ('panel' | 'board')[]): Material | undefined => {
    if (id === undefined) return undefined;
    const found = findMaterial(plan, id, at, kinds);
    if (found.ok) return found.material;
    draft.issues.push(found.issue);
    return undefined;
  };
  const lid = stock(piece.top?.stock, [...path, 'top', 'stock'], ['panel', 'board']);
  const ends = {
    left: stock(piece.ends?.left, [...path, 'ends', 'left'], ['panel']),
    right: stock(piece.ends?.right, [...path, 'ends', 'right'], ['panel']),
  };
  const fillers = {
    left: toTicks(piece.fillers?.left ?? 0),
    right: toTicks(piece.fillers?.right ?? 0),
    stock:
      habits.frame &&
      (habits.frame.board.width ?? 0) >= Math.max(toTicks(piece.fillers?.left ?? 0), toTicks(piece.fillers?.right ?? 0))
        ? habits.frame.board
        : habits.front,
  };
  const toeBoard = piece.toe && (stock(piece.toe.board, [...path, 'toe', 'board'], ['panel', 'board']) ?? habits.panel);
  if (draft.issues.length > before) return undefined;

  const overlay = frontsOf(piece.inside ?? { open: true }, habits.style).some((style) => style === 'overlay');
  const face = size.depth - (overlay ? habits.front.thickness : 0);
  const carcassFront = face - (habits.frame?.board.thickness ?? 0);
  const back = habits.back;
  const rear = back?.kind === 'applied' ? back.panel.thickness : 0;
  const inside = !back ? 0 : back.panel.thickness + (back.kind === 'grooved' ? back.inset : 0);
  if (inside >= carcassFront)
    fault(
      [...path, 'size', 'depth'],
      'back, face frame and fronts leave no depth inside',
      size.depth,
      size.depth - carcassFront + inside,
    );

  if (fillers.left + fillers.right > 0 && fillers.stock.thickness > face)
    fault(
      [...path, 'size', 'depth'],
      'the case is shallower than its fillers are thick',
      size.depth,
      fillers.stock.thickness,
    );
  const x: Span = [
    fillers.left + (ends.left?.thickness ?? 0),
    size.width - fillers.right - (ends.right?.thickness ?? 0),
  ];
  const inner: Span = [x[0] + t, x[1] - t];
  const member = { x: habits.frame?.stile ?? t, y: habits.frame?.rail ?? t };
  if (long(x) <= 2 * member.x)
    fault(
      [...path, 'size', 'width'],
      'sides, ends and fillers leave no width inside',
      size.width,
      size.width - long(x) + 2 * member.x,
    );

  const toeHeight = piece.toe ? toTicks(piece.toe.height) : 0;
  const y: Span = [toeHeight, size.height - (lid?.thickness ?? 0)];
  if (long(y) <= 2 * member.y)
    fault(
      [...path, 'size', 'height'],
      'toe, bottom and top leave no height inside',
      size.height,
      size.height - long(y) + 2 * member.y,
    );
  let toe: Carcass['toe'];
  if (piece.toe && toeBoard) {
    const setback = toTicks(piece.toe.setback ?? DEFAULTS.toeSetback);
    const z: Span = [face - setback - toeBoard.thickness, face - setback];
    const least = piece.toe.kind === 'plinth' ? rear + toeBoard.thickness : rear;
    // of a case too shallow for anything the depth alone is told
    const room = face - toeBoard.thickness - least;
    if (z[0] <= least && room > 0)
      fault(
        [...path, 'toe', 'setback'],
        'the toe is set back beyond the depth of the case',
        setback,
        room,
        'less than',
      );
    else if (z[0] <= least && draft.issues.length === before)
      fault([...path, 'size', 'depth'], 'the case is too shallow for its toe board', size.depth, size.depth - room);
    if (z[0] > carcassFront)
      fault(
        [...path, 'toe', 'setback'],
        'the toe board would stand free before the sides',
        setback,
        face - carcassFront - toeBoard.thickness,
        'at least',
      );
    toe = { kind: piece.toe.kind, board: toeBoard, z };
  }
  if (overlay) {
    const least = Math.min(member.x, member.y);
    if (habits.reveal >= least)
      fault(said('reveal'), 'the reveal leaves an overlay front nothing to cover', habits.reveal, least, 'less than');
    if (habits.gap >= least)
      fault(
        said('gap'),
        'the gap between overlay fronts is as wide as the edge behind it',
        habits.gap,
        least,
        'less than',
      );
  }
  if (draft.issues.length > before) return undefined;
  const bottomTop = y[0] + member.y;
  return {
    path,
    size,
    x,
    inner,
    y,
    bottom: [bottomTop - t, bottomTop],
    top: [y[1] - t, y[1]],
    z: [rear, carcassFront],
    inside,
    face,
    sideFoot: toe?.kind === 'plinth' ? y[0] : 0,
    toe,
    lid,
    ends,
    fillers,
    made: { frame: {} },
  };
}

function buildCarcass(draft: Draft, habits: Habits, carcass: Carcass): void {
  const { x, inner, bottom, top, z, made } = carcass;
  const { panel, joint, let: depth, capped, back } = habits;
  const corner = joint === 'butt' ? 0 : depth;
  const bottomLet = joint === 'dado' || (joint === 'rabbet' && bottom[0] === carcass.sideFoot) ? depth : 0;
  const edge = (...towards: ('front' | 'up' | 'left' | 'right')[]) =>
    habits.band && { ...habits.band, towards: habits.frame ? towards.filter((d) => d !== 'front') : towards };
  const part = (wanted: Omit<PartWanted, 'material' | 'path'> & { material?: Material }) =>
    addPart(draft, { material: panel, path: carcass.path, ...wanted });

  const sideTop = capped ? top[0] + corner : top[1];
  const sideY: Span = [carcass.sideFoot, sideTop];
  const bare = !carcass.lid && !capped;
  const side = (which: 'left' | 'right', at: Span) =>
    part({
      id: `${which}-side`,
      name: `${which} side`,
      role: 'side',
      box: cuboid(at, sideY, z),
      length: 'y',
      thickness: 'x',
      band: bare ? edge('front', 'up') : edge('front'),
      show: carcass.ends[which] ? (which === 'left' ? 'right' : 'left') : which,
    });
  made.left = side('left', [x[0], inner[0]]);
  made.right = side('right', [inner[1], x[1]]);
  made.bottom = part({
    id: 'bottom',
    name: 'bottom',
    role: 'bottom',
    box: cuboid([inner[0] - bottomLet, inner[1] + bottomLet], bottom, z),
    length: 'x',
    thickness: 'y',
    band: edge('front'),
  });
  const shown = capped && !carcass.lid;
  const topEdges: ('front' | 'left' | 'right')[] = ['front'];
  if (shown && !carcass.ends.left && carcass.fillers.left === 0) topEdges.push('left');
  if (shown && !carcass.ends.right && carcass.fillers.right === 0) topEdges.push('right');
  made.top = part({
    id: 'top',
    name: 'top',
    role: 'top',
    box: cuboid(capped ? x : [inner[0] - corner, inner[1] + corner], top, z),
    length: 'x',
    thickness: 'y',
    band: edge(...topEdges),
  });
  for (const s of [made.left, made.right]) {
    letInto(
      draft,
      bottom[0] === carcass.sideFoot ? 'rabbet' : 'dado',
      made.bottom,
      s,
      bottomLet > 0 ? ['glue', 'brads'] : ['glue', 'screws'],
    );
    const fasten = corner > 0 ? (['glue', 'brads'] as const) : (['glue', 'screws'] as const);
    if (capped) letInto(draft, 'rabbet', s, made.top, fasten);
    else letInto(draft, 'rabbet', made.top, s, fasten);
  }

  if (back) {
    const applied = back.kind === 'applied';
    const at: Span =
      back.kind === 'grooved' ? [back.inset, back.inset + back.panel.thickness] : [0, back.panel.thickness];
    made.back = part({
      id: 'back',
      name: 'back',
      role: 'back',
      // wide backs need the sheet's length across: which way their grain runs is nobody's sorrow (common practice)
      grainMatters: false,
      material: back.panel,
      box: applied
        ? cuboid(x, carcass.y, at)
        : cuboid([inner[0] - depth, inner[1] + depth], [bottom[1] - depth, top[0] + depth], at),
      length: 'y',
      thickness: 'z',
    });
    for (const p of [made.left, made.right, made.top, made.bottom]) {
      if (applied) join(draft, 'applied', made.back, p, ['glue', 'brads']);
      else
        letInto(
          draft,
          back.kind === 'grooved' ? 'groove' : 'rabbet',
          made.back,
          p,
          back.kind === 'grooved' ? ['glue'] : ['glue', 'brads'],
        );
    }
  }
  if (habits.frame) buildFrame(draft, habits, carcass);
}

function buildFrame(draft: Draft, habits: Habits, carcass: Carcass): void {
  const { frame } = habits;
  if (!frame) return;
  const { x, y, made } = carcass;
  const z: Span = [carcass.z[1], carcass.face];
  const across: Span = [x[0] + frame.stile, x[1] - frame.stile];
  const member = (id: string, name: string, role: string, box: ReturnType<typeof cuboid>, length: 'x' | 'y') =>
    addPart(draft, { id, name, role, material: frame.board, box, length, thickness: 'z', path: carcass.path });
  const f = made.frame;
  f.left = member('left-stile', 'left stile', 'stile', cuboid([x[0], across[0]], y, z), 'y');
  f.right = member('right-stile', 'right stile', 'stile', cuboid([across[1], x[1]], y, z), 'y');
  f.bottom = member('bottom-rail', 'bottom rail', 'rail', cuboid(across, [y[0], y[0] + frame.rail], z), 'x');
  f.top = member('top-rail', 'top rail', 'rail', cuboid(across, [y[1] - frame.rail, y[1]], z), 'x');
  for (const rail of [f.bottom, f.top])
    for (const stile of [f.left, f.right]) join(draft, 'butt', rail, stile, ['glue', 'screws']);
  for (const which of ['left', 'right', 'bottom', 'top'] as const)
    join(draft, 'applied', f[which], made[which], ['glue', 'brads']);
}

/** The toe board in its notches, or the plinth the case stands on. Both run on under a filler that has no end panel before it. */
function buildToe(draft: Draft, carcass: Carcass, habits: Habits, oddAtEnd: boolean): void {
  const { toe, x, y, z, made } = carcass;
  if (!toe) return;
  const t = toe.board.thickness;
  const along: Span = [carcass.ends.left ? x[0] : 0, carcass.ends.right ? x[1] : carcass.size.width];
  const high: Span = [0, y[0]];
  const board = (id: string, name: string, box: ReturnType<typeof cuboid>, axis: 'x' | 'z') =>
    addPart(draft, {
      id,
      name,
      role: toe.kind === 'notch' ? 'toe board' : 'plinth',
      material: toe.board,
      box,
      length: axis,
      thickness: axis === 'x' ? 'z' : 'x',
      path: [...carcass.path, 'toe'],
    });
  if (toe.kind === 'notch') {
    const front = board('toe-board', 'toe board', cuboid(along, high, toe.z), 'x');
    const plane = toe.z[0];
    for (const side of [made.left, made.right]) {
      take(side, { kind: 'notch', box: cuboid(x, high, [plane, carcass.size.depth]), why: 'toe space' });
      const edge = side && cuboid([side.box.min.x, side.box.max.x], high, [plane, plane]);
      join(draft, 'butt', front, side, ['glue', 'brads'], edge);
    }
    if (!habits.frame) join(draft, 'butt', front, made.bottom, ['glue', 'brads']);
    return;
  }
  const front = board('plinth-front', 'plinth front', cuboid(along, high, toe.z), 'x');
  const rear = board('plinth-rear', 'plinth rear', cuboid(x, high, [z[0], z[0] + t]), 'x');
  const between: Span = [z[0] + t, toe.z[0]];
  const runs = Math.max(1, Math.ceil((long(x) - t) / (toTicks(DEFAULTS.plinthSpan) + t)));
  const clear = divide(long(x) - (runs + 1) * t, equally(runs), oddAtEnd);
  if (!clear.fits) {
    draft.issues.push({
      path: [...carcass.path, 'toe', 'board'],
      message: 'the plinth leaves no room between its cross pieces',
      found: `${draft.notMore(long(x))} wide`,
    });
    return;
  }
  let at = x[0];
  for (let i = 0; i <= runs; i++) {
    const name = i === 0 ? 'left end' : i === runs ? 'right end' : `cross piece ${i}`;
    const cross = board(
      `plinth-${name.replaceAll(' ', '-')}`,
      `plinth ${name}`,
      cuboid([at, at + t], high, between),
      'z',
    );
    for (const rail of [front, rear]) join(draft, 'butt', cross, rail, ['glue', 'screws']);
    if (i === 0) join(draft, 'butt', made.left, cross, ['screws']);
    if (i === runs) join(draft, 'butt', made.right, cross, ['screws']);
    at += t + (clear.sizes[i] ?? 0);
  }
  for (const side of [made.left, made.right])
    for (const rail of [front, rear]) join(draft, 'butt', side, rail, ['screws']);
}

/** End panels, fillers and the separate top. */
function buildSurround(draft: Draft, habits: Habits, carcass: Carcass): void {
  const { x, y, size, made, ends, fillers, face } = carcass;
  for (const which of ['left', 'right'] as const) {
    const left = which === 'left';
    const material = ends[which];
    let beside = [made.frame[which], made[which]];
    if (material) {
      const panel = addPart(draft, {
        id: `${which}-end`,
        name: `${which} end panel`,
        role: 'end panel',
        material,
        box: cuboid(left ? [x[0] - material.thickness, x[0]] : [x[1], x[1] + material.thickness], [0, y[1]], [0, face]),
        length: 'y',
        thickness: 'x',
        band: habits.band && { ...habits.band, towards: ['front'] },
        show: which,
        path: [...carcass.path, 'ends', which],
      });
      join(draft, 'applied', panel, made[which], ['screws']);
      beside = [panel];
    }
    const wide = fillers[which];
    if (wide > 0) {
      const strip = addPart(draft, {
        id: `${which}-filler`,
        name: `${which} filler`,
        role: 'filler',
        material: fillers.stock,
        box: cuboid(
          left ? [0, wide] : [size.width - wide, size.width],
          [material || !carcass.toe ? 0 : y[0], y[1]],
          [face - fillers.stock.thickness, face],
        ),
        length: 'y',
        thickness: 'z',
        path: [...carcass.path, 'fillers', which],
      });
      beside.some((p) => join(draft, 'butt', strip, p, ['screws']));
    }
  }
  if (carcass.lid) {
    const lid = addPart(draft, {
      id: 'separate-top',
      name: 'separate top',
      role: 'separate top',
      material: carcass.lid,
      box: cuboid(
        [-size.over.left, size.width + size.over.right],
        [y[1], size.height],
        [0, size.depth + size.over.front],
      ),
      length: 'x',
      thickness: 'y',
      band: habits.band && { ...habits.band, towards: ['front', 'left', 'right'] },
      path: [...carcass.path, 'top'],
    });
    join(draft, 'applied', lid, made.top, ['screws']);
  }
}

function rootSpace(carcass: Carcass, habits: Habits, path: Path): Space {
  const { inner, bottom, top, made, x, y } = carcass;
  const { frame, reveal, panel } = habits;
  const open = frame
    ? { x: [x[0] + frame.stile, x[1] - frame.stile] as Span, y: [bottom[1], y[1] - frame.rail] as Span }
    : { x: inner, y: [bottom[1], top[0]] as Span };
  const [acrossX, acrossY] = [(frame?.stile ?? panel.thickness) - reveal, (frame?.rail ?? panel.thickness) - reveal];
  return {
    x: inner,
    y: [bottom[1], top[0]],
    z: [carcass.inside, carcass.z[1]],
    open,
    face: carcass.face,
    behind: false,
    panels: { left: made.left, right: made.right, top: made.top, bottom: made.bottom },
    members: frame ? made.frame : { left: made.left, right: made.right, top: made.top, bottom: made.bottom },
    cover: { left: acrossX, right: acrossX, top: acrossY, bottom: acrossY },
    back: made.back,
    id: '',
    number: '',
    level: 0,
    path: [...path, 'inside'],
  };
}
