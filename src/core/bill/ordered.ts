import { type CutOrder, type CutShop, orderOfCuts } from '../cutting/index.ts';
import type { Plan } from '../plan/index.ts';
import { remember } from '../remember.ts';
import { densityOf, panelItem, type RealLayout } from '../stock/index.ts';
import { KEEP } from './bill.ts';
import { type CutUp, cutUp, LEAST_STRIP } from './rests.ts';

/** What one person lifts where the shop does not say, kg: the load constant. Source: Waters et al., revised NIOSH lifting equation (1993). */
const LOAD_CONSTANT = 23;

/** The shop's limits as the order of cuts wants them, for panels of one stock. */
export function cutShopOf(plan: Plan, stockId: string): CutShop {
  const { rip, table, track, lift, keep } = plan.shop;
  const thickness = panelItem(plan.stock, stockId)?.thickness;
  const density = densityOf(plan.stock, stockId);
  return {
    keep: keep ?? KEEP,
    keepWidth: LEAST_STRIP,
    lift: lift ?? LOAD_CONSTANT,
    ...(rip !== undefined && { rip }),
    ...(table && { table }),
    ...(track !== undefined && { track }),
    ...(thickness !== undefined && density && { arealDensity: (thickness / 1000) * density.value }),
  };
}

/** The order of cuts of one panel of a plan; undefined for a board, or where it cannot be cut edge to edge. */
export const orderFor = (plan: Plan, layout: RealLayout): CutOrder | undefined =>
  layout.from === 'panel' ? orderOfCuts(layout, cutShopOf(plan, layout.stock)) : undefined;

/**
 * Takes layouts apart in the order one person makes the cuts, trimming counted: for `makeBill` and `makeTally`, so that what goes to
 * the rack is what the numbered drawing of the layout says.
 */
export const orderedCutUp =
  (plan: Plan) =>
  (layout: RealLayout): CutUp =>
    apart(layout, [plan.stock, plan.shop], () => {
      const { source: _, ...cut } = layout;
      // of other layouts, too, most are as they were: the parts on them did not change
      const key = JSON.stringify([cut, cutShopOf(plan, layout.stock)]);
      const known = cutUps.get(key);
      if (known) return known;
      const order = orderFor(plan, layout);
      const made: CutUp = order
        ? {
            rests: [...order.offcuts, ...order.waste].map(({ x, y, length, width }) => ({ x, y, length, width })),
            cuts: order.steps.length,
            possible: true,
          }
        : cutUp(layout);
      if (cutUps.size >= MOST_KEPT) cutUps.delete(cutUps.keys().next().value!);
      cutUps.set(key, made);
      return made;
    });
const apart = remember<RealLayout, CutUp>();
/** Layouts taken apart, by all that the order of their cuts comes from. */
const cutUps = new Map<string, CutUp>();
const MOST_KEPT = 500;
