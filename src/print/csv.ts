import Papa from 'papaparse';
import type { BillLine } from '../core/bill/index.ts';
import { type PacketInput, partNumbers } from '../core/drawing/index.ts';
import { printersFor } from '../core/plan/index.ts';
import { plainMoney } from '../core/quantity/index.ts';

/** Cells that a spreadsheet would take for a formula are defused; lines end as RFC 4180 has them. */
const write = (rows: readonly object[], columns: readonly string[]): string =>
  `${Papa.unparse(rows as object[], { columns: [...columns], escapeFormulae: true, newline: '\r\n' })}\r\n`;

/** To the tick, without the noise of binary fractions: 1/640 mm has six decimals. */
const mm = (value: number): number => Number(value.toFixed(6));

const PART_COLUMNS = [
  'number',
  'id',
  'piece',
  'place',
  'name',
  'role',
  'stock',
  'cut length',
  'cut width',
  'thickness',
  'cut length mm',
  'cut width mm',
  'thickness mm',
  'finished length mm',
  'finished width mm',
  'grain',
  'banded edges',
  'mass kg',
] as const;

/** To the gram: what is beyond it is nobody's. */
const inGrams = (kg: number | undefined): string => (kg === undefined ? '' : String(Number(kg.toFixed(3))));

/** One row a part, in the order of the labels; sizes both as the plan writes them and in millimetres. */
export function partsCsv({ plan, pieces, massOf }: Pick<PacketInput, 'plan' | 'pieces' | 'massOf'>): string {
  const { length: show, thickness } = printersFor(plan.units);
  const rows = partNumbers(pieces).map(({ number, part, piece }) => ({
    number,
    id: part.id,
    piece: piece.title,
    place: part.label.place,
    name: part.label.name,
    role: part.role,
    stock: part.stock,
    'cut length': show(part.cut.length),
    'cut width': show(part.cut.width),
    thickness: thickness(part.size.thickness),
    'cut length mm': mm(part.cut.length),
    'cut width mm': mm(part.cut.width),
    'thickness mm': mm(part.size.thickness),
    'finished length mm': mm(part.size.length),
    'finished width mm': mm(part.size.width),
    grain: part.grain === 'fixed' ? 'along the length' : 'any',
    'banded edges': part.edges.map((e) => e.towards).join(' '),
    'mass kg': inGrams(massOf?.(part.id)),
  }));
  return write(rows, PART_COLUMNS);
}

const BILL_COLUMNS = [
  'count',
  'kind',
  'stock',
  'name',
  'size',
  'for',
  'supplier',
  'price of',
  'each',
  'net',
  'tax',
  'cost',
  'currency',
] as const;

/** One row a line of the bill. Money in whole units of the plan's currency; a price that is not known is left empty, never 0. */
export function billCsv({ plan, bill }: Pick<PacketInput, 'plan' | 'bill'>): string {
  const { currency } = plan.units;
  const money = (minor: number | undefined): string => (minor === undefined ? '' : plainMoney(minor, currency));
  const rows = bill.lines.map((l: BillLine) => ({
    count: l.count,
    kind: l.kind,
    stock: l.stock,
    name: l.name,
    size: l.detail ?? '',
    for: l.why ?? '',
    supplier: l.supplier ?? '',
    'price of': l.date ?? '',
    each: money(l.price),
    net: money(l.total),
    tax: money(l.tax),
    cost: money(l.cost),
    currency,
  }));
  return write(rows, BILL_COLUMNS);
}
