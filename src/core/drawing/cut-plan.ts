import { type CutStep as Cut, type CutPiece, type CutShop, orderOfCuts } from '../cutting/index.ts';
import type { Plan } from '../plan/index.ts';
import { densityOf, type RealLayout } from '../stock/index.ts';
import type { CutStep, LayoutPlan } from './input.ts';
import type { Lettering } from './lettering.ts';

/** What one person will handle where the plan does not say, kg: the load constant of the NIOSH lifting equation (1994), table 1. */
const LIFT = 23;
/** Offcuts with both sides shorter than this are waste where the plan does not say, mm (see the plan's `shop.keep`). */
const KEEP = 150;

const KIND = { trim: 'Trim', rip: 'Rip', crosscut: 'Crosscut' } as const;
const PLACE = { 'guided saw': 'On the floor, guided saw', 'table saw': 'At the table saw' } as const;

/** The order of cuts of a layout in words: `called` says what a part is called on the drawing. No steps where it has none. */
export function cutPlan(
  layout: RealLayout,
  plan: Plan,
  letter: Lettering,
  called: (part: string) => string,
): LayoutPlan {
  const order = orderOfCuts(layout, shopOf(plan, layout.stock));
  if (!order) return { steps: [], left: [] };
  // no number stands on another line than its word, nor what divides two pieces at the beginning of one
  const name = ({ is, name: own }: CutPiece): string => {
    if (is === 'part') return called(own!);
    return is === 'sheet' ? 'the panel' : (is === 'offcut' ? `offcut ${own}` : (own ?? 'waste')).replace(' ', '\u00a0');
  };
  // one lift after another of what is too heavy for one person: said once, with the steps it holds for
  const heavy = order.steps.map(({ warnings: [own, ...more] }) =>
    own?.what === 'mass' && more.length === 0 ? own : undefined,
  );
  const heedAt = (i: number): string => {
    const own = heavy[i];
    if (!own) return order.steps[i]!.warnings.map((w) => heedOf(w, letter)).join('; ');
    if (heavy[i - 1]) return '';
    let last = i;
    while (heavy[last + 1]) last++;
    const words = heedOf(own, letter);
    return last === i ? words : `${words}, to step ${order.steps[last]!.number}`;
  };
  // a sliver that is no more than the rounding of the figures is told as a blade is
  const set = (mm: number): string =>
    mm > 0.01 && letter.figure(mm) === letter.figure(0) ? letter.blade(mm) : letter.figure(mm);
  const steps = order.steps.map((step, i): CutStep => {
    const heed = heedAt(i);
    return {
      number: step.number,
      tool: KIND[step.kind],
      words: `${name(step.piece)}, ${step.against} ${set(step.setting)}: ${step.gives.map(name).join('\u00a0| ')}`,
      line: step.line,
      ...(step.tool !== order.steps[i - 1]?.tool && { heading: PLACE[step.tool] }),
      ...(heed !== '' && { heed }),
    };
  });
  const left = [...order.offcuts, ...order.waste].map((piece) => ({
    x: piece.x,
    y: piece.y,
    length: piece.length,
    width: piece.width,
    ...(piece.is === 'offcut' && { name: name(piece) }),
  }));
  return { steps, left };
}

function shopOf({ shop, stock }: Plan, panel: string): CutShop {
  const thickness = stock.panels.find((p) => p.id === panel)?.thickness;
  const density = densityOf(stock, panel)?.value;
  return {
    keep: shop.keep ?? KEEP,
    lift: shop.lift ?? LIFT,
    ...(shop.rip !== undefined && { rip: shop.rip }),
    ...(shop.table && { table: shop.table }),
    ...(shop.track !== undefined && { track: shop.track }),
    ...(thickness !== undefined && density !== undefined && { arealDensity: (thickness / 1000) * density }),
  };
}

function heedOf({ what, is, limit }: Cut['warnings'][number], letter: Lettering): string {
  if (what === 'mass') return `two people: ${letter.mass(is)}, over ${letter.mass(limit)}`;
  if (what === 'reach') return `two people: ${letter.length(is)} long`;
  if (what === 'track') return `${letter.length(is)} to cut, the track does ${letter.length(limit)}`;
  return `fence at ${letter.length(is)}, the saw goes to ${letter.length(limit)}`;
}
