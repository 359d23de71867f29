import type { Bill } from '../../bill/index.ts';
import type { Job } from './job.ts';
import { type After, after, afterAll } from './list.ts';

type Line = Bill['lines'][number];

export interface Errands {
  /** All that is bought by the pack is there. */
  readonly packs: readonly (After | undefined)[];
  /** What is bought of one stock is there. */
  readonly stock: (stock: string) => readonly (After | undefined)[];
  /** What serves for one of these uses is there. */
  readonly fetched: (...uses: readonly string[]) => readonly (After | undefined)[];
}

/** By kind too: a panel and a pack may share an id. */
const keyOf = ({ kind, stock }: Line): string => `${kind} ${stock}`;

/** Buying: an order where a shop delivers, and the way there. */
export function errandTasks({ input: { plan, bill }, add }: Job): Errands {
  // in lists, as one panel may come from several shops
  const errands = new Map<string, number[]>();
  for (const { supplier, name, lines } of bill.shopping) {
    const said = plan.stock.suppliers.find((s) => s.id === supplier);
    const called = name || supplier || 'other shops';
    const lead = said?.lead ?? 0;
    const list = lines.map(({ count, name: what, detail }) => `${count} × ${what}${detail ? `, ${detail}` : ''}`);
    const order =
      lead > 0
        ? add({
            id: `order ${called}`,
            title: `Order from ${called}`,
            noun: `order from ${called}`,
            phase: 'buying',
            counts: [['order', 1]],
            list,
            whole: true,
            place: 'away',
            after: [],
          })
        : undefined;
    const errand = add({
      id: `buy ${called}`,
      title: `Buy at ${called}`,
      noun: `errand to ${called}`,
      phase: 'buying',
      counts: [
        ['errand', 1],
        ['line', lines.length],
      ],
      list,
      hours: said?.open ? { supplier } : 'own',
      whole: true,
      trip: true,
      place: 'away',
      after: [after(order, lead * 1440, `${called} takes ${lead} ${lead === 1 ? 'day' : 'days'} to deliver`)],
    });
    if (errand !== undefined)
      for (const line of lines) {
        const key = keyOf(line);
        errands.set(key, [...(errands.get(key) ?? []), errand]);
      }
  }

  const waiting = (which: (line: Line) => boolean): readonly (After | undefined)[] =>
    afterAll([...new Set(bill.lines.filter(which).flatMap((line) => errands.get(keyOf(line)) ?? []))]);
  const useOf = new Map(plan.stock.packs.map((p) => [p.id, p.use.toLowerCase()]));
  return {
    packs: waiting((line) => line.kind === 'pack'),
    stock: (stock) => waiting((line) => line.kind !== 'pack' && line.stock === stock),
    fetched: (...uses) =>
      waiting(({ kind, stock }) => kind === 'pack' && uses.some((use) => useOf.get(stock)?.startsWith(use))),
  };
}
