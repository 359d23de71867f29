import { useState } from 'preact/compat';
import { explain } from '../core/issue/index.ts';
import type { Plan } from '../core/plan/index.ts';
import { type PriceBook, type PriceImport, type PriceImported, strangeTo } from '../core/workspace/index.ts';
import { say } from './bench.ts';
import { chosen } from './chosen.ts';
import { today } from './today.ts';
import { ask } from './workspace.ts';

/** Rows from a spreadsheet: looked at first, then kept. */
export function Paste({ plan, onBook }: { readonly plan: Plan; readonly onBook: (book: PriceBook) => void }) {
  const { currency } = plan.units;
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
  const strange = read ? strangeTo(plan, read.read).map((name) => `“${name}”`) : [];
  return (
    <section aria-labelledby="paste-title">
      <h3 id="paste-title">Paste from a spreadsheet</h3>
      <div className="field">
        <label htmlFor="paste">
          First row: stock, size, supplier, price, currency, date (all but stock and price may be left out). A stock and
          a supplier may be told by name
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
          {strange.length > 0 && `. Nothing in the stock of this plan is called ${strange.slice(0, 3).join(', ')}`}
          {strange.length > 3 && `, nor ${strange.length - 3} more`}
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
