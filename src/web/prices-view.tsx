import { type FormEvent, useEffect, useRef, useState } from 'preact/compat';
import { explain, explainThere } from '../core/issue/index.ts';
import { type Path, printersFor } from '../core/plan/index.ts';
import { minorUnits, parseMoney, plainMoney } from '../core/quantity/index.ts';
import { dayNumber, stockName } from '../core/stock/index.ts';
import {
  API,
  type NewPrice,
  type PriceBook,
  type PriceImport,
  type PriceImported,
  priceEdits,
} from '../core/workspace/index.ts';
import { change, say } from './bench.ts';
import { chosen } from './chosen.ts';
import { Entry } from './entry.tsx';
import { Field } from './field.tsx';
import { today } from './today.ts';
import type { WorkedPlan } from './worked-plan.ts';
import { ask, uniqueId, useDesk } from './workspace.ts';

interface Row {
  readonly stock: string;
  /** Of a pack: it has no size that the book knows it by. */
  readonly holds?: string;
  readonly size: string;
  readonly supplier: string;
  readonly price: number | undefined;
  readonly date: string | undefined;
  readonly path: Path;
}

/** What everything costs in this plan and how old that is; the book of all prices there ever were, pasted into and read from. */
export function PricesView({ worked: { plan } }: { readonly worked: WorkedPlan }) {
  const [book, setBook] = useState<PriceBook>({ suppliers: [], prices: [] });
  const [history, setHistory] = useState<string>();
  const dialog = useRef<HTMLDialogElement>(null);
  const event = useDesk((d) => d.event);
  const session = useDesk((d) => d.session);
  const print = printersFor(plan.units);
  // the book is read anew when the server says it changed
  useEffect(() => {
    if (event === undefined || event.type === 'prices' || event.type === 'hello' || event.type === 'again')
      void ask<PriceBook>('GET', '/prices').then((answer) => answer.ok && setBook(answer.value));
  }, [event]);
  const rows = rowsOf(plan, print.length);
  const newer = priceEdits(plan, book.prices, today());
  const put = async (prices: readonly NewPrice[]) => {
    const answer = await ask<PriceBook>('POST', '/prices', { prices });
    if (answer.ok) {
      setBook(answer.value);
      say(prices.length === 1 ? 'In the price book.' : `${prices.length} prices are in the price book.`);
    } else say(answer.refusal.error.message);
  };
  const known = rows.flatMap((row) => forBook(row, plan.units.currency));
  const old = history === undefined ? [] : book.prices.filter((p) => p.stock === history);
  return (
    <section className="sheet-like">
      <h2>Price book</h2>
      {newer.length > 0 && (
        <p>
          The book has newer prices than this plan.{' '}
          <button type="button" onClick={() => change('Prices of the book', newer)}>
            Take them over
          </button>
        </p>
      )}
      <p>{ageWords(rows, plan.stock.stale)}</p>
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
          {rows.map((row) => {
            const age = row.date === undefined ? undefined : dayNumber(today()) - dayNumber(row.date);
            const stale = age !== undefined && age > plan.stock.stale;
            return (
              <tr key={row.path.join('.')}>
                <td>{stockName(plan.stock, row.stock)}</td>
                <td className="one-line">{row.holds ?? row.size}</td>
                <td>{plan.stock.suppliers.find((s) => s.id === row.supplier)?.name ?? row.supplier}</td>
                <td>
                  <Field
                    name={`price of ${row.stock} ${row.size}`}
                    path={[...row.path, 'price']}
                    shown={row.price === undefined ? '' : print.money(row.price)}
                    hint="not known"
                    edits={(text) =>
                      text === ''
                        ? [{ op: 'remove', path: [...row.path, 'price'] }]
                        : [
                            { op: 'set', path: [...row.path, 'price'], value: written(text, plan.units.currency) },
                            { op: 'set', path: [...row.path, 'date'], value: today() },
                          ]
                    }
                  />
                </td>
                <td className="one-line">
                  {row.date ?? 'no day'}
                  {stale && <strong className="heed"> stale: {age} days</strong>}
                </td>
                <td>
                  <button
                    type="button"
                    onClick={() => {
                      setHistory(row.stock);
                      dialog.current?.showModal();
                    }}
                  >
                    History<span className="unseen"> of {row.stock}</span>
                  </button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
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
      <dialog
        ref={dialog}
        aria-labelledby="history-title"
        onClose={() => setHistory(undefined)}
        onPointerDown={(e) => e.target === dialog.current && dialog.current?.close()}
      >
        <div className="dialog-body">
          <h2 id="history-title">What {history !== undefined && stockName(plan.stock, history)} has cost</h2>
          {old.length === 0 ? (
            <p>The book has nothing on it yet. “Write these into the book” keeps today's prices for later.</p>
          ) : (
            <table>
              <tbody>
                {old.map((p) => (
                  <tr key={p.number}>
                    <th scope="row">{p.date}</th>
                    <td>{p.size}</td>
                    <td>{book.suppliers.find((s) => s.id === p.supplier)?.name ?? p.supplier}</td>
                    <td className="figure">
                      {p.price} {p.currency}
                      {p.withdrawn && ', withdrawn'}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          <button type="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </dialog>
      <Paste currency={plan.units.currency} onBook={setBook} />
      <NewSupplier plan={plan} />
    </section>
  );
}

/** Rows from a spreadsheet: looked at first, then kept. */
function Paste({ currency, onBook }: { readonly currency: string; readonly onBook: (book: PriceBook) => void }) {
  const [csv, setCsv] = useState('');
  const [read, setRead] = useState<PriceImported>();
  const [wrong, setWrong] = useState<readonly string[]>([]);
  // what is kept is what was looked at
  const paste = (text: string) => {
    setCsv(text);
    setRead(undefined);
    setWrong([]);
  };
  const send = async (dryRun: boolean) => {
    const body: PriceImport = { csv, currency, date: today(), dryRun };
    const answer = await ask<PriceImported>('POST', '/prices/import', body);
    if (!answer.ok) {
      setRead(undefined);
      const { issues, message } = answer.refusal.error;
      return setWrong(issues?.map(explain) ?? [message]);
    }
    setWrong([]);
    setRead(dryRun ? answer.value : undefined);
    if (!dryRun) {
      onBook(answer.value.book);
      setCsv('');
      say(`${answer.value.read.length} prices read, ${answer.value.known} of them known before.`);
    }
  };
  return (
    <section aria-labelledby="paste-title">
      <h3 id="paste-title">Paste from a spreadsheet</h3>
      <div className="field">
        <label htmlFor="paste">
          First row: stock, size, supplier, price, currency, date (all but stock and price may be left out)
        </label>
        <textarea id="paste" rows={5} value={csv} onChange={(e) => paste(e.currentTarget.value)} />
      </div>
      {wrong.slice(0, 5).map((words) => (
        <p key={words} className="wrong" role="alert">
          {words}
        </p>
      ))}
      {read && (
        <p role="status">
          {read.read.length === 1 ? '1 price' : `${read.read.length} prices`} would be read, {read.known} of them from
          before:{' '}
          {read.read
            .slice(0, 3)
            .map((p) => `${p.stock} ${p.size} ${p.price} ${p.currency}`)
            .join('; ')}
          {read.read.length > 3 && ' …'}
        </p>
      )}
      <div className="buttons">
        <label className="button">
          Read a CSV file
          <input
            className="unseen"
            type="file"
            accept=".csv,.tsv,.txt,text/csv"
            onChange={(e) => {
              const file = chosen(e.currentTarget, 'price list', (why) => setWrong([why]));
              void file?.text().then((text) => {
                paste(text);
                if (text.trim() === '') setWrong([`${file.name} is empty.`]);
              });
            }}
          />
        </label>
        <button type="button" disabled={csv.trim() === ''} onClick={() => void send(true)}>
          Look at it
        </button>
        <button type="button" disabled={!read?.read.length} onClick={() => void send(false)}>
          Keep it
        </button>
      </div>
    </section>
  );
}

function NewSupplier({ plan }: { readonly plan: WorkedPlan['plan'] }) {
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

/** A price as it stands in the file: a number where it is one, else as it was typed, so that the reader can say what is wrong. */
function written(text: string, currency: string): number | string {
  const amount = parseMoney(text, currency);
  return amount.ok ? amount.value / 10 ** minorUnits(currency) : text;
}

const are = (count: number): string => (count === 1 ? 'is' : 'are');

/** How many prices are old or missing, in a sentence. */
function ageWords(rows: readonly Row[], stale: number): string {
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

function rowsOf(plan: WorkedPlan['plan'], show: (mm: number) => string): readonly Row[] {
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
