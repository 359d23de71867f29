import { type Plan, printersFor } from '../core/plan/index.ts';
import { minorUnits, parseMoney } from '../core/quantity/index.ts';
import { dayNumber, stockName, supplierName } from '../core/stock/index.ts';
import { Field } from './field.tsx';
import type { Row } from './price-rows.ts';
import { today } from './today.ts';

export function PriceTable({
  plan,
  rows,
  onHistory,
}: {
  readonly plan: Plan;
  readonly rows: readonly Row[];
  readonly onHistory: (stock: string) => void;
}) {
  return (
    <table className="rows prices">
      <caption>Prices in this plan; changing one sets its day to today</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Size</th>
          <th scope="col">From</th>
          <th scope="col">Price</th>
          <th scope="col">Of the day</th>
          <th scope="col">
            <span className="unseen">History</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <PriceRow key={row.path.join('.')} plan={plan} row={row} onHistory={() => onHistory(row.stock)} />
        ))}
      </tbody>
    </table>
  );
}

function PriceRow({
  plan: { stock, units },
  row,
  onHistory,
}: {
  readonly plan: Plan;
  readonly row: Row;
  readonly onHistory: () => void;
}) {
  const age = row.date === undefined ? undefined : dayNumber(today()) - dayNumber(row.date);
  const [price, date] = [
    [...row.path, 'price'],
    [...row.path, 'date'],
  ];
  return (
    <tr>
      <td>{stockName(stock, row.stock)}</td>
      <td className="one-line">{row.holds ?? row.size}</td>
      <td>
        <span>{supplierName(stock, row.supplier)}</span>
      </td>
      <td>
        <Field
          name={`price of ${row.stock} ${row.size}`}
          path={price}
          shown={row.price === undefined ? '' : printersFor(units).money(row.price)}
          hint="not known"
          edits={(text) =>
            text === ''
              ? [{ op: 'remove', path: price }]
              : [
                  { op: 'set', path: price, value: written(text, units.currency) },
                  { op: 'set', path: date, value: today() },
                ]
          }
        />
      </td>
      <td className="one-line">
        {row.date ?? 'no day'}
        {age !== undefined && age > stock.stale && <strong className="heed"> stale: {age} days</strong>}
      </td>
      <td>
        <button type="button" onClick={onHistory}>
          History<span className="unseen"> of {row.stock}</span>
        </button>
      </td>
    </tr>
  );
}

/** A price as it stands in the file: a number where it is one, else as it was typed, so that the reader can say what is wrong. */
function written(text: string, currency: string): number | string {
  const amount = parseMoney(text, currency);
  return amount.ok ? amount.value / 10 ** minorUnits(currency) : text;
}
