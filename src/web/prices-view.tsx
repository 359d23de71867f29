import { type FormEvent, type RefObject, useEffect, useRef, useState } from 'preact/compat';
import { explainThere } from '../core/issue/index.ts';
import { type Plan, printersFor } from '../core/plan/index.ts';
import { stockName, supplierName } from '../core/stock/index.ts';
import { API, type NewPrice, type PriceBook, priceEdits } from '../core/workspace/index.ts';
import { change, say } from './bench.ts';
import { Entry } from './entry.tsx';
import { Paste } from './price-paste.tsx';
import { ageWords, forBook, rowsOf } from './price-rows.ts';
import { PriceTable } from './price-table.tsx';
import { today } from './today.ts';
import type { WorkedPlan } from './worked-plan.ts';
import { ask, useDesk } from './workspace.ts';

/** What everything costs in this plan and how old that is; the book of all prices there ever were, pasted into and read from. */
export function PricesView({ worked: { plan } }: { readonly worked: WorkedPlan }) {
  const [book, setBook] = useState<PriceBook>({ suppliers: [], prices: [] });
  const [history, setHistory] = useState<string>();
  const dialog = useRef<HTMLDialogElement>(null);
  const event = useDesk((d) => d.event);
  const session = useDesk((d) => d.session);
  // the book is read anew when the server says it changed
  useEffect(() => {
    if (event === undefined || event.type === 'prices' || event.type === 'hello' || event.type === 'again')
      void ask<PriceBook>('GET', '/prices').then((answer) => answer.ok && setBook(answer.value));
  }, [event]);
  const rows = rowsOf(plan, printersFor(plan.units).length);
  const newer = priceEdits(plan, book.prices, today());
  // each has a day
  const count = newer.filter((edit) => edit.op === 'set' && edit.path.at(-1) === 'date').length;
  const put = async (prices: readonly NewPrice[]) => {
    const answer = await ask<PriceBook>('POST', '/prices', { prices });
    if (answer.ok) {
      setBook(answer.value);
      say(prices.length === 1 ? 'In the price book.' : `${prices.length} prices are in the price book.`);
    } else say(answer.refusal.error.message);
  };
  const known = rows.flatMap((row) => forBook(row, plan.units.currency));
  return (
    <section className="sheet-like">
      <h2>Price book</h2>
      {newer.length > 0 && (
        <p>
          The book has {count === 1 ? 'a newer price' : `${count} newer prices`} than this plan.{' '}
          <button type="button" onClick={() => change('Prices of the book', newer)}>
            Take them over
          </button>
        </p>
      )}
      <p>{ageWords(rows, plan.stock.stale)}</p>
      <PriceTable
        plan={plan}
        rows={rows}
        onHistory={(stock) => {
          setHistory(stock);
          dialog.current?.showModal();
        }}
      />
      <div className="buttons">
        <button type="button" disabled={known.length === 0} onClick={() => void put(known)}>
          Write these into the book
        </button>
        {session && (
          <a className="button" href={`${API}/prices.csv`} download>
            Save the book as CSV
          </a>
        )}
      </div>
      <History plan={plan} book={book} of={history} dialog={dialog} onClose={() => setHistory(undefined)} />
      <Paste plan={plan} onBook={setBook} />
      <NewSupplier plan={plan} />
    </section>
  );
}

/** What the book knows of one stock. */
function History({
  plan,
  book,
  of,
  dialog,
  onClose,
}: {
  readonly plan: Plan;
  readonly book: PriceBook;
  readonly of: string | undefined;
  readonly dialog: RefObject<HTMLDialogElement | null>;
  readonly onClose: () => void;
}) {
  const old = book.prices.filter((p) => p.stock === of);
  const close = (): void => dialog.current?.close();
  return (
    <dialog
      ref={dialog}
      aria-labelledby="history-title"
      onClose={onClose}
      onPointerDown={(e) => e.target === dialog.current && close()}
    >
      <div className="dialog-body">
        <h2 id="history-title">What {of !== undefined && stockName(plan.stock, of)} has cost</h2>
        {old.length === 0 ? (
          <p>The book has nothing on it yet. “Write these into the book” keeps today's prices for later.</p>
        ) : (
          <table>
            <tbody>
              {old.map((p) => (
                <tr key={p.number}>
                  <th scope="row">{p.date}</th>
                  <td>{p.size}</td>
                  <td>
                    {book.suppliers.find((s) => s.id === p.supplier)?.name ?? supplierName(plan.stock, p.supplier)}
                  </td>
                  <td className="figure">
                    {p.price} {p.currency}
                    {p.withdrawn && ', withdrawn'}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
        <button type="button" onClick={close}>
          Close
        </button>
      </div>
    </dialog>
  );
}

function NewSupplier({ plan }: { readonly plan: Plan }) {
  const [name, setName] = useState('');
  const [wrong, setWrong] = useState('');
  const add = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === '') return setWrong('a supplier needs a name');
    const id =
      name
        .trim()
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, '-') || 'supplier';
    const entry = { id, name: name.trim() };
    const { suppliers } = plan.stock;
    const edits =
      suppliers.length === 0
        ? [{ op: 'set' as const, path: ['stock', 'suppliers'], value: [entry] }]
        : [{ op: 'insert' as const, path: ['stock', 'suppliers', suppliers.length], value: entry }];
    const issue = change(`Supplier ${name.trim()}`, edits, true)[0];
    setWrong(issue ? explainThere(issue) : '');
    if (!issue) setName('');
  };
  return (
    <section aria-labelledby="suppliers-title">
      <h3 id="suppliers-title">Suppliers</h3>
      <ul>
        {plan.stock.suppliers.map((s) => (
          <li key={s.id}>
            {s.name ?? s.id} {s.remark}
          </li>
        ))}
      </ul>
      <form className="fields" onSubmit={add} noValidate>
        <Entry name="Another supplier" value={name} wrong={wrong} maxLength={120} onChange={setName} />
        <button type="submit">Add</button>
      </form>
    </section>
  );
}
