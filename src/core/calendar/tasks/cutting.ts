import { orderedCutUp } from '../../bill/index.ts';
import type { PartId } from '../../scene/index.ts';
import { densityOf, panelItem, realLayouts, stockName } from '../../stock/index.ts';
import type { Errands } from './errands.ts';
import type { Job } from './job.ts';
import { after } from './list.ts';

/** Breaking down and cutting, stock by stock: the tasks after which each part is there. */
export function cuttingTasks(
  { input: { plan, cuts }, add, lift }: Job,
  errands: Errands,
): ReadonlyMap<PartId, readonly number[]> {
  const cutUp = orderedCutUp(plan);
  const layouts = cuts.flatMap(({ job, answer }) => realLayouts(job, answer));
  const cutOf = new Map<PartId, readonly number[]>();
  for (const stock of [...new Set(layouts.map((l) => l.stock))]) {
    const own = layouts.filter((l) => l.stock === stock);
    const whole = own.filter((l) => l.from === 'panel' && l.source.kind === 'buy');
    const name = stockName(plan.stock, stock);
    const thickness = panelItem(plan.stock, stock)?.thickness;
    const density = densityOf(plan.stock, stock);
    const heaviest =
      thickness && density
        ? Math.max(0, ...whole.map((l) => l.length * l.width * thickness * 1e-9 * density.value))
        : 0;
    const bought = errands.stock(stock);
    const broken = add({
      id: `break down ${stock}`,
      title: `Break down ${name}`,
      noun: `breaking down of ${name}`,
      phase: 'cutting',
      counts: [['panels', whole.length]],
      helper: heaviest > lift ? 'a whole panel is heavier than one person lifts' : undefined,
      place: 'shop',
      air: 'dust',
      holds: [{ tool: 'saws', amount: 1, beyond: 0 }],
      after: bought,
    });
    const cut = add({
      id: `cut ${stock}`,
      title: `Cut ${name}`,
      noun: `cutting of ${name}`,
      phase: 'cutting',
      counts: [['cuts', own.reduce((sum, l) => sum + cutUp(l).cuts, 0)]],
      place: 'shop',
      air: 'dust',
      holds: [{ tool: 'saws', amount: 1, beyond: 0 }],
      after: broken === undefined ? bought : [after(broken)],
    });
    const done = cut ?? broken;
    const there = done === undefined ? bought.flatMap((b) => (b ? [b.task] : [])) : [done];
    for (const layout of own) for (const { part } of layout.placed) cutOf.set(part, there);
  }
  return cutOf;
}
