import type { CasePiece, Make, Plan } from '../plan/index.ts';
import { toTicks } from '../quantity/index.ts';
import { DEFAULTS } from './defaults.ts';
import type { Ticks } from './divide.ts';
import { beside, type Draft, type Path } from './draft.ts';
import { findMaterial, type Material } from './material.ts';

/** How one case is made: its own words first, then the plan's habits, then the defaults; everything looked up and in ticks. */
export interface Habits {
  readonly panel: Material;
  readonly front: Material;
  readonly joint: 'butt' | 'rabbet' | 'dado';
  readonly let: Ticks;
  readonly capped: boolean;
  readonly back:
    | { readonly kind: 'applied' | 'rabbeted' | 'grooved'; readonly panel: Material; readonly inset: Ticks }
    | undefined;
  readonly style: 'inset' | 'overlay';
  readonly gap: Ticks;
  readonly reveal: Ticks;
  readonly frame: { readonly board: Material; readonly stile: Ticks; readonly rail: Ticks } | undefined;
  readonly band: { readonly id: string; readonly thickness: Ticks } | undefined;
  readonly setback: Ticks;
  readonly play: Ticks;
  readonly drawer: {
    readonly panel: Material;
    readonly bottom: Material;
    readonly side: Ticks;
    readonly above: Ticks;
    readonly below: Ticks;
    readonly rear: Ticks;
    readonly slides: readonly Ticks[];
    readonly groove: Ticks;
  };
}

/** Where in the plan a habit was said, for an issue to point at. */
export type Said = (...key: string[]) => Path;
export const saidIn =
  (piece: CasePiece, plan: Plan, path: Path): Said =>
  (...key) => {
    const has = (from: unknown): boolean =>
      key.reduce<unknown>((at, k) => (at as Record<string, unknown> | undefined)?.[k], from) !== undefined;
    return has(piece.make) || !has(plan.make) ? [...path, 'make', ...key] : ['make', ...key];
  };

/** Undefined, with issues, when a stock the carcass cannot do without is missing. */
export function settleHabits(piece: CasePiece, plan: Plan, draft: Draft, said: Said): Habits | undefined {
  const [own, usual]: readonly [Partial<Make>, Make] = [piece.make ?? {}, plan.make];
  const asked: Asked = { own, usual, plan, draft, said };
  const panel = carcassPanel(asked);
  if (!panel) return undefined;
  return {
    panel,
    front: panelOr(asked, panel, own.front ?? usual.front, 'front'),
    joint: own.joint ?? usual.joint ?? DEFAULTS.joint,
    let: letDepth(asked, panel.thickness),
    capped: own.capped ?? usual.capped ?? DEFAULTS.capped,
    back: backOf(asked, panel),
    style: own.style ?? usual.style ?? DEFAULTS.style,
    gap: toTicks(own.gap ?? usual.gap ?? DEFAULTS.gap),
    reveal: toTicks(own.reveal ?? usual.reveal ?? DEFAULTS.reveal),
    frame: frameOf(asked, panel.thickness),
    band: bandOf(asked),
    setback: toTicks(own.setback ?? usual.setback ?? DEFAULTS.setback),
    play: toTicks(own.play ?? usual.play ?? DEFAULTS.play),
    drawer: drawerOf(asked, panel),
  };
}

/** What a case says of its making, and what the plan says of every case. */
interface Asked {
  readonly own: Partial<Make>;
  readonly usual: Make;
  readonly plan: Plan;
  readonly draft: Draft;
  readonly said: Said;
}

/** What everything of a case is made of that says nothing else: undefined, with an issue, where none is named or there is none of that name. */
function carcassPanel(asked: Asked): Material | undefined {
  const { own, usual, plan, draft, said } = asked;
  const id = own.panel ?? usual.panel;
  if (id !== undefined) return stockOf(asked, id, ['panel'], ['panel']);
  const known = plan.stock.panels.map((p) => p.id).slice(0, 12);
  draft.issues.push({
    path: said('panel'),
    message: 'no stock is named for the carcass',
    expected: `the id of one of the stock's panels${known.length > 0 ? `: ${known.join(', ')}` : ''}`,
  });
  return undefined;
}

/** Undefined, with an issue, where there is none of that name. */
function stockOf(
  { plan, draft, said }: Asked,
  id: string,
  key: readonly string[],
  kinds: readonly ('panel' | 'board')[],
): Material | undefined {
  const found = findMaterial(plan, id, said(...key), kinds);
  if (found.ok) return found.material;
  draft.issues.push(found.issue);
  return undefined;
}

/** A panel of its own where one is named, else the one that stands in for it. */
const panelOr = (asked: Asked, other: Material, id: string | undefined, ...key: string[]): Material =>
  id === undefined ? other : (stockOf(asked, id, key, ['panel']) ?? other);

function letDepth({ own, usual, draft, said }: Asked, thickness: Ticks): Ticks {
  const usually = Math.floor(thickness * DEFAULTS.letFraction);
  const wanted = own.let ?? usual.let;
  if (wanted === undefined) return usually;
  const depth = toTicks(wanted);
  if (depth * 2 < thickness) return depth;
  draft.issues.push({
    path: said('let'),
    message: 'joints are let in too deep: two from both faces would meet',
    found: draft.notLess(depth),
    expected: `less than half of the panel, ${draft.notMore(thickness / 2)}`,
  });
  return usually;
}

function backOf(asked: Asked, panel: Material): Habits['back'] {
  const [own, usual] = [asked.own.back, asked.usual.back];
  const kind = own?.kind ?? usual?.kind ?? DEFAULTS.back;
  if (kind === 'none') return undefined;
  return {
    kind,
    panel: panelOr(asked, panel, own?.panel ?? usual?.panel, 'back', 'panel'),
    inset: toTicks(own?.inset ?? usual?.inset ?? DEFAULTS.backInset),
  };
}

/** A face frame covers the edges of the panels behind it, of this thickness. */
function frameOf(asked: Asked, thickness: Ticks): Habits['frame'] {
  const { own, usual, draft, said } = asked;
  const frame = own.frame ?? usual.frame ?? 'none';
  if (frame === 'none') return undefined;
  const board = stockOf(asked, frame.board, ['frame', 'board'], ['board', 'panel']);
  if (!board) return undefined;
  const widest = board.width ?? Number.POSITIVE_INFINITY;
  const member = (key: 'stile' | 'rail'): Ticks => {
    const width = frame[key];
    const wanted = width === undefined ? (board.width ?? 2 * thickness) : toTicks(width);
    if (wanted >= thickness && wanted <= widest) return wanted;
    draft.issues.push({
      path: said('frame', width === undefined ? 'board' : key),
      message:
        wanted < thickness
          ? `a ${key} of the face frame does not cover the edge of the panel behind it`
          : `a ${key} is wider than its board`,
      found: beside(draft, wanted, widest),
      expected: `${draft.notLess(thickness)} or more${widest < Number.POSITIVE_INFINITY ? `, ${draft.notMore(widest)} at most` : ''}`,
    });
    return Math.max(thickness, Math.min(wanted, widest));
  };
  const [stile, rail] = [member('stile'), member('rail')];
  return stile > widest || rail > widest ? undefined : { board, stile, rail };
}

function bandOf({ own, usual, plan, draft, said }: Asked): Habits['band'] {
  const id = own.band ?? usual.band ?? 'none';
  if (id === 'none') return undefined;
  const pack = plan.stock.packs.find((item) => item.id === id);
  if (pack) return { id, thickness: toTicks(pack.thickness ?? 0) };
  draft.issues.push({
    path: said('band'),
    message: 'there is no such pack in the stock',
    found: id,
    expected: 'the id of an edge band under stock packs, or none',
  });
  return undefined;
}

function drawerOf(asked: Asked, panel: Material): Habits['drawer'] {
  const [own, usual, usually] = [asked.own.drawer ?? {}, asked.usual.drawer ?? {}, DEFAULTS.drawer];
  const box = panelOr(asked, panel, own.panel ?? usual.panel, 'drawer', 'panel');
  return {
    panel: box,
    bottom: panelOr(asked, box, own.bottom ?? usual.bottom, 'drawer', 'bottom'),
    side: toTicks(own.side ?? usual.side ?? usually.side),
    above: toTicks(own.above ?? usual.above ?? usually.above),
    below: toTicks(own.below ?? usual.below ?? usually.below),
    rear: toTicks(own.rear ?? usual.rear ?? usually.rear),
    slides: (own.slides ?? usual.slides ?? usually.slides).map(toTicks),
    groove: toTicks(own.groove ?? usual.groove ?? usually.groove),
  };
}
