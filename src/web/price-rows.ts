import type { Path, Plan } from '../core/plan/index.ts';
import { plainMoney } from '../core/quantity/index.ts';
import { dayNumber } from '../core/stock/index.ts';
import type { NewPrice } from '../core/workspace/index.ts';
import { today } from './today.ts';
import { uniqueId } from './workspace.ts';

/** One price of a plan, and where it stands there. */
export interface Row {
  readonly stock: string;
  /** Of a pack: it has no size that the book knows it by. */
  readonly holds?: string;
  readonly size: string;
  readonly supplier: string;
  readonly price: number | undefined;
  readonly date: string | undefined;
  readonly path: Path;
}

const are = (count: number): string => (count === 1 ? 'is' : 'are');

/** How many prices are old or missing, in a sentence. */
export function ageWords(rows: readonly Row[], stale: number): string {
  if (rows.length === 0) return 'This plan buys nothing yet: its stock has no panels, boards or packs.';
  const missing = rows.filter((row) => row.price === undefined).length;
  const old = rows.filter((row) => row.date !== undefined && dayNumber(today()) - dayNumber(row.date) > stale).length;
  if (missing + old === 0) return `All ${rows.length} prices are known, none is older than ${stale} days.`;
  if (missing === rows.length) return `None of ${rows.length} prices is known.`;
  const parts = [
    missing > 0 && `${missing} ${are(missing)} not known`,
    old > 0 && `${old} ${are(old)} older than ${stale} days`,
  ];
  return `Of ${rows.length} prices ${parts.filter(Boolean).join(' and ')}.`;
}

export function rowsOf(plan: Plan, show: (mm: number) => string): readonly Row[] {
  const { panels, boards, packs } = plan.stock;
  const row = (
    stock: string,
    size: string,
    path: Path,
    offer: {
      readonly price?: number | undefined;
      readonly supplier?: string | undefined;
      readonly date?: string | undefined;
    },
  ): Row => ({ stock, size, path, price: offer.price, supplier: offer.supplier ?? '', date: offer.date });
  return [
    ...panels.flatMap((p, i) =>
      p.sizes.map((s, j) => row(p.id, `${show(s.length)} × ${show(s.width)}`, ['stock', 'panels', i, 'sizes', j], s)),
    ),
    ...boards.flatMap((b, i) =>
      b.lengths.map((l, j) => row(b.id, show(l.length), ['stock', 'boards', i, 'lengths', j], l)),
    ),
    ...packs.map((p, i) => ({
      ...row(p.id, '', ['stock', 'packs', i], p),
      holds: typeof p.holds === 'number' ? `pack of ${p.holds}` : p.holds,
    })),
  ];
}

/** A price of the plan as the book takes it; nothing where it is not known. */
export const forBook = ({ stock, size, supplier, price, date }: Omit<Row, 'path'>, currency: string): NewPrice[] =>
  price === undefined
    ? []
    : [
        {
          id: uniqueId(),
          stock,
          size,
          supplier,
          price: plainMoney(price, currency),
          currency,
          date: date ?? today(),
        },
      ];
