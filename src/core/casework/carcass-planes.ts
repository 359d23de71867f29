import type { CasePiece, Plan } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import type { Ticks } from './divide.ts';
import { type Draft, type DraftPart, long, type Path, type Span } from './draft.ts';
import type { Habits, saidIn } from './habits.ts';
import { findMaterial, type Material } from './material.ts';
import { frontsOf } from './walk.ts';

/** All the planes of a case, and what stands along them. */
export interface Carcass {
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

/** Undefined, with issues, when they do not leave an inside. */
export function layOut(
  piece: CasePiece,
  plan: Plan,
  draft: Draft,
  habits: Habits,
  size: Carcass['size'],
  said: ReturnType<typeof saidIn>,
): Carcass | undefined {
  const before = draft.issues.length;
  const { toeBoard, ...stocks } = stocksOf(piece, plan, draft, habits);
  if (draft.issues.length > before) return undefined;
  const { fillers, ends, lid } = stocks;
  const t = habits.panel.thickness;
  const depths = depthsOf(piece, draft, habits, size, fillers);
  const x: Span = [
    fillers.left + (ends.left?.thickness ?? 0),
    size.width - fillers.right - (ends.right?.thickness ?? 0),
  ];
  const y: Span = [piece.toe ? toTicks(piece.toe.height) : 0, size.height - (lid?.thickness ?? 0)];
  const member = { x: habits.frame?.stile ?? t, y: habits.frame?.rail ?? t };
  const { path } = draft;
  if (long(x) <= 2 * member.x)
    fault(
      draft,
      [...path, 'size', 'width'],
      'sides, ends and fillers leave no width inside',
      size.width,
      size.width - long(x) + 2 * member.x,
    );
  if (long(y) <= 2 * member.y)
    fault(
      draft,
      [...path, 'size', 'height'],
      'toe, bottom and top leave no height inside',
      size.height,
      size.height - long(y) + 2 * member.y,
    );
  const toe = piece.toe && toeBoard && toeOf(piece.toe, draft, toeBoard, size, depths, draft.issues.length > before);
  if (depths.overlay) checkCover(draft, habits, Math.min(member.x, member.y), said);
  if (draft.issues.length > before) return undefined;
  const floor = y[0] + member.y;
  return {
    ...stocks,
    path,
    size,
    x,
    inner: [x[0] + t, x[1] - t],
    y,
    bottom: [floor - t, floor],
    top: [y[1] - t, y[1]],
    z: [depths.rear, depths.front],
    inside: depths.inside,
    face: depths.face,
    sideFoot: toe?.kind === 'plinth' ? y[0] : 0,
    toe,
    made: { frame: {} },
  };
}

/** What is found, and the bound it does not keep, each rounded so that it still says so. */
function fault(
  { issues, notLess, notMore }: Draft,
  path: Path,
  message: string,
  found: Ticks,
  bound: Ticks,
  than: 'more than' | 'at least' | 'less than' = 'more than',
): void {
  const less = than === 'less than';
  const expected = `${than} ${less ? notMore(bound) : notLess(bound)}`;
  issues.push({ path, message, found: less ? notLess(found) : notMore(found), expected });
}

function stocksOf(
  { top, ends, fillers, toe }: CasePiece,
  plan: Plan,
  draft: Draft,
  { frame, front, panel }: Habits,
): Pick<Carcass, 'lid' | 'ends' | 'fillers'> & { readonly toeBoard: Material | undefined } {
  const stock = (id: string | undefined, key: Path, kinds: readonly ('panel' | 'board')[]): Material | undefined => {
    if (id === undefined) return undefined;
    const found = findMaterial(plan, id, [...draft.path, ...key], kinds);
    if (found.ok) return found.material;
    draft.issues.push(found.issue);
    return undefined;
  };
  const [left, right] = [toTicks(fillers?.left ?? 0), toTicks(fillers?.right ?? 0)];
  return {
    lid: stock(top?.stock, ['top', 'stock'], ['panel', 'board']),
    ends: {
      left: stock(ends?.left, ['ends', 'left'], ['panel']),
      right: stock(ends?.right, ['ends', 'right'], ['panel']),
    },
    fillers: { left, right, stock: frame && (frame.board.width ?? 0) >= Math.max(left, right) ? frame.board : front },
    toeBoard: toe && (stock(toe.board, ['toe', 'board'], ['panel', 'board']) ?? panel),
  };
}

interface Depths {
  /** Fronts lie before the carcass. */
  readonly overlay: boolean;
  readonly face: Ticks;
  /** Front and rear edges of the carcass panels. */
  readonly front: Ticks;
  readonly rear: Ticks;
  readonly inside: Ticks;
}

function depthsOf(
  piece: CasePiece,
  draft: Draft,
  { style, front, frame, back }: Habits,
  { depth }: Carcass['size'],
  fillers: Carcass['fillers'],
): Depths {
  const overlay = frontsOf(piece.inside ?? { open: true }, style).some((one) => one === 'overlay');
  const face = depth - (overlay ? front.thickness : 0);
  const edge = face - (frame?.board.thickness ?? 0);
  const inside = !back ? 0 : back.panel.thickness + (back.kind === 'grooved' ? back.inset : 0);
  const path = [...draft.path, 'size', 'depth'];
  if (inside >= edge)
    fault(draft, path, 'back, face frame and fronts leave no depth inside', depth, depth - edge + inside);
  if (fillers.left + fillers.right > 0 && fillers.stock.thickness > face)
    fault(draft, path, 'the case is shallower than its fillers are thick', depth, fillers.stock.thickness);
  return { overlay, face, front: edge, rear: back?.kind === 'applied' ? back.panel.thickness : 0, inside };
}

function toeOf(
  { kind, setback: said = DEFAULTS.toeSetback }: NonNullable<CasePiece['toe']>,
  draft: Draft,
  board: Material,
  { depth }: Carcass['size'],
  { face, front, rear }: Depths,
  isFaulty: boolean,
): Carcass['toe'] {
  const path = [...draft.path, 'toe', 'setback'];
  const setback = toTicks(said);
  const z: Span = [face - setback - board.thickness, face - setback];
  const least = kind === 'plinth' ? rear + board.thickness : rear;
  // of a case too shallow for anything the depth alone is told
  const room = face - board.thickness - least;
  if (z[0] <= least && room > 0)
    fault(draft, path, 'the toe is set back beyond the depth of the case', setback, room, 'less than');
  else if (z[0] <= least && !isFaulty)
    fault(draft, [...draft.path, 'size', 'depth'], 'the case is too shallow for its toe board', depth, depth - room);
  if (z[0] > front)
    fault(
      draft,
      path,
      'the toe board would stand free before the sides',
      setback,
      face - front - board.thickness,
      'at least',
    );
  return { kind, board, z };
}

/** Fronts that lie before the carcass must cover some of the edge behind them: `least`, the narrowest of these. */
function checkCover(draft: Draft, { reveal, gap }: Habits, least: Ticks, said: ReturnType<typeof saidIn>): void {
  if (reveal >= least)
    fault(draft, said('reveal'), 'the reveal leaves an overlay front nothing to cover', reveal, least, 'less than');
  if (gap >= least)
    fault(
      draft,
      said('gap'),
      'the gap between overlay fronts is as wide as the edge behind it',
      gap,
      least,
      'less than',
    );
}
