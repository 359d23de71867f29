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
export function orderedCutUp(plan: Plan): (layout: RealLayout) => CutUp {
  const shops = new Map<string, string>();
  const shopOf = (stock: string): string => {
    const shop = shops.get(stock) ?? JSON.stringify(cutShopOf(plan, stock));
    shops.set(stock, shop);
    return shop;
  };
  return (layout) =>
    apart(layout, [plan.stock, plan.shop], () => {
      // of other layouts, too, most are as they were: the parts on them did not change
      const shop = `${layout.from} ${shopOf(layout.stock)}`;
      const key = figureOf(layout);
      const known = cutUps.get(key);
      if (known?.shop === shop && isAlike(known.layout, layout)) return known.made;
      const order = orderFor(plan, layout);
      const made: CutUp = order
        ? {
            rests: [...order.offcuts, ...order.waste].map(({ x, y, length, width }) => ({ x, y, length, width })),
            cuts: order.steps.length,
            possible: true,
          }
        : cutUp(layout);
      if (cutUps.size >= MOST_KEPT) cutUps.delete(cutUps.keys().next().value!);
      cutUps.set(key, { layout, shop, made });
      return made;
    });
}
const apart = remember<RealLayout, CutUp>();

/** Layouts taken apart, by a figure of where their parts lie: one of the same figure that lies otherwise takes the place of the first. */
const cutUps = new Map<number, { readonly layout: RealLayout; readonly shop: string; readonly made: CutUp }>();
const MOST_KEPT = 500;

function figureOf({ length, width, placed }: RealLayout): number {
  let figure = Math.imul(length, 31) + width;
  // an even number of equal places would be nothing without a step for each number
  for (const part of placed)
    for (const mm of [part.x, part.y, part.length, part.width]) figure = (Math.imul(figure, 31) + mm * 64) | 0;
  return figure;
}

/** Whether the same cuts take both apart, whatever their parts are called. */
const isAlike = (a: RealLayout, b: RealLayout): boolean =>
  a.length === b.length &&
  a.width === b.width &&
  a.trim === b.trim &&
  a.kerf === b.kerf &&
  a.placed.length === b.placed.length &&
  a.placed.every((p, i) => {
    const q = b.placed[i]!;
    return p.x === q.x && p.y === q.y && p.length === q.length && p.width === q.width;
  });
