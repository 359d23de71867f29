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
  const own: Partial<Make> = piece.make ?? {};
  const usual = plan.make;
  const fault = (path: Path, message: string, found: string, expected: string) =>
    draft.issues.push({ path, message, found, expected });

  const stock = (
    id: string | undefined,
    key: readonly string[],
    kinds: readonly ('panel' | 'board')[],
    what: string,
  ) => {
    if (id === undefined) {
      draft.issues.push({
        path: said(...key),
        message: `no stock is named for ${what}`,
        expected: `the id of one of the stock's panels${
          plan.stock.panels.length > 0
            ? `: ${plan.stock.panels
                .map((p) => p.id)
                .slice(0, 12)
                .join(', ')}`
            : ''
        }`,
      });
      return undefined;
    }
    const found = findMaterial(plan, id, said(...key), kinds);
    if (found.ok) return found.material;
    draft.issues.push(found.issue);
    return undefined;
  };
  const panelId = own.panel ?? usual.panel;
  const panel = stock(panelId, ['panel'], ['panel'], 'the carcass');
  if (!panel) return undefined;
  const orPanel = (id: string | undefined, ...key: string[]) =>
    id === undefined ? panel : (stock(id, key, ['panel'], 'it') ?? panel);

  const thickness = panel.thickness;
  const third = (of: Ticks) => Math.floor(of * DEFAULTS.letFraction);
  let letDepth = third(thickness);
  const letAsked = own.let ?? usual.let;
  if (letAsked !== undefined) {
    if (toTicks(letAsked) * 2 < thickness) letDepth = toTicks(letAsked);
    else
      fault(
        said('let'),
        'joints are let in too deep: two from both faces would meet',
        draft.notLess(toTicks(letAsked)),
        `less than half of the panel, ${draft.notMore(thickness / 2)}`,
      );
  }

  const backKind = own.back?.kind ?? usual.back?.kind ?? DEFAULTS.back;
  const back =
    backKind === 'none'
      ? undefined
      : {
          kind: backKind,
          panel: orPanel(own.back?.panel ?? usual.back?.panel, 'back', 'panel'),
          inset: toTicks(own.back?.inset ?? usual.back?.inset ?? DEFAULTS.backInset),
        };

  const frameAsked = own.frame ?? usual.frame ?? 'none';
  let frame: Habits['frame'];
  if (frameAsked !== 'none') {
    const board = stock(frameAsked.board, ['frame', 'board'], ['board', 'panel'], 'the face frame');
    if (board) {
      const widest = board.width ?? Number.POSITIVE_INFINITY;
      const member = (asked: number | undefined, key: 'stile' | 'rail'): Ticks => {
        const wanted = asked === undefined ? (board.width ?? 2 * thickness) : toTicks(asked);
        if (wanted >= thickness && wanted <= widest) return wanted;
        fault(
          said('frame', asked === undefined ? 'board' : key),
          wanted < thickness
            ? `a ${key} of the face frame does not cover the edge of the panel behind it`
            : `a ${key} is wider than its board`,
          beside(draft, wanted, widest),
          `${draft.notLess(thickness)} or more${widest < Number.POSITIVE_INFINITY ? `, ${draft.notMore(widest)} at most` : ''}`,
        );
        return Math.max(thickness, Math.min(wanted, widest));
      };
      frame = { board, stile: member(frameAsked.stile, 'stile'), rail: member(frameAsked.rail, 'rail') };
      if (frame.stile > widest || frame.rail > widest) frame = undefined;
    }
  }

  const bandId = own.band ?? usual.band ?? 'none';
  let band: Habits['band'];
  if (bandId !== 'none') {
    const pack = plan.stock.packs.find((item) => item.id === bandId);
    if (pack) band = { id: bandId, thickness: toTicks(pack.thickness ?? 0) };
    else
      fault(
        said('band'),
        'there is no such pack in the stock',
        bandId,
        'the id of an edge band under stock packs, or none',
      );
  }

  const [ownDrawer, usualDrawer, usually] = [own.drawer ?? {}, usual.drawer ?? {}, DEFAULTS.drawer];
  const boxPanel = orPanel(ownDrawer.panel ?? usualDrawer.panel, 'drawer', 'panel');
  const bottomId = ownDrawer.bottom ?? usualDrawer.bottom;
  return {
    panel,
    front: orPanel(own.front ?? usual.front, 'front'),
    joint: own.joint ?? usual.joint ?? DEFAULTS.joint,
    let: letDepth,
    capped: own.capped ?? usual.capped ?? DEFAULTS.capped,
    back,
    style: own.style ?? usual.style ?? DEFAULTS.style,
    gap: toTicks(own.gap ?? usual.gap ?? DEFAULTS.gap),
    reveal: toTicks(own.reveal ?? usual.reveal ?? DEFAULTS.reveal),
    frame,
    band,
    setback: toTicks(own.setback ?? usual.setback ?? DEFAULTS.setback),
    play: toTicks(own.play ?? usual.play ?? DEFAULTS.play),
    drawer: {
      panel: boxPanel,
      bottom:
        bottomId === undefined
          ? boxPanel
          : (stock(bottomId, ['drawer', 'bottom'], ['panel'], 'drawer bottoms') ?? boxPanel),
      side: toTicks(ownDrawer.side ?? usualDrawer.side ?? usually.side),
      above: toTicks(ownDrawer.above ?? usualDrawer.above ?? usually.above),
      below: toTicks(ownDrawer.below ?? usualDrawer.below ?? usually.below),
      rear: toTicks(ownDrawer.rear ?? usualDrawer.rear ?? usually.rear),
      slides: (ownDrawer.slides ?? usualDrawer.slides ?? usually.slides).map(toTicks),
      groove: toTicks(ownDrawer.groove ?? usualDrawer.groove ?? usually.groove),
    },
  };
}
