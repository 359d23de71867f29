import { type BillLine, costSaid } from '../../bill/index.ts';
import { area, LETTER, text } from '../draw.ts';
import { textWidth } from '../font/measure.ts';
import { type Column, layTable, type TableRow } from '../layout/table.ts';
import type { Desk } from './desk.ts';
import type { Draft } from './sheet.ts';

/** What to buy, by supplier, with a box to tick; what it costs, and the day each price was true. */
export function shoppingPages({ input, letter, sheet }: Desk): readonly Draft[] {
  const { bill, plan } = input;
  if (bill.lines.length === 0) return [];
  const money = (value: number | undefined): string => (value === undefined ? 'not known' : letter.money(value));
  const columns: Column<BillLine>[] = [
    { head: '', cell: () => '', tick: true },
    { head: 'Count', cell: (l) => `${l.count}`, align: 'right', bold: true },
    { head: 'What', cell: (l) => l.name, share: 2, bold: true },
    { head: 'Size', cell: (l) => l.detail ?? '', most: 44 },
    ...(bill.lines.some((l) => l.why) ? [{ head: 'Amount', cell: (l: BillLine) => l.why ?? '', most: 40 }] : []),
    { head: 'Price of', cell: (l) => l.date ?? 'no date' },
    { head: 'Each', cell: (l) => money(l.price), align: 'right' },
    { head: 'Together', cell: (l) => money(l.total), align: 'right', bold: true },
  ];
  const rows = bill.shopping.flatMap(({ name, supplier, lines, net }): readonly TableRow<BillLine>[] => [
    {
      heading: name || supplier || 'Supplier not known',
      aside: costSaid(
        net,
        lines.every((l) => l.total !== undefined),
        letter.money,
      ),
    },
    ...lines.map((row) => ({ row })),
  ]);
  const foot = 16;
  const { body } = sheet;
  const laid = (spared: number) =>
    layTable(columns, rows, () => area(body.x, body.y, body.width, body.height - spared));
  // the sums want room under the last row only
  const whole = laid(0);
  const { pieces, end } = whole.end + foot <= body.y + body.height ? whole : laid(foot);
  const sums: (readonly [string, string])[] = [
    ...(bill.tax === 0 ? [] : [[`Tax, ${plan.stock.tax} %`, letter.money(bill.tax)] as const]),
    [
      bill.total === undefined ? 'Altogether, without what has no price' : 'Altogether',
      costSaid(bill.known, bill.complete, letter.money),
    ],
  ];
  const heightOf = (i: number) => (i === sums.length - 1 ? LETTER.head : LETTER.small);
  const widest = Math.max(28, ...sums.map(([, value], i) => textWidth(value, heightOf(i), true)));
  const total = sums.map(([name, value], i) => [
    text(body.x + body.width - widest - 6, end + 6 + i * 5.4, name, { align: 'right', tone: 'faint' }),
    text(body.x + body.width, end + 6 + i * 5.4, value, {
      align: 'right',
      bold: true,
      height: heightOf(i),
    }),
  ]);
  return pieces.map((marks, i) => ({
    id: `shopping-${i + 1}`,
    chapter: 'Buying',
    title: pieces.length === 1 ? 'Shopping list' : `Shopping list, ${i + 1} of ${pieces.length}`,
    marks: i === pieces.length - 1 ? [...marks, ...total.flat()] : marks,
  }));
}
