import { type FormEvent, useState } from 'preact/compat';
import { explain, explainThere, type Issue } from '../core/issue/index.ts';
import { type Edit, printersFor } from '../core/plan/index.ts';
import { stockName } from '../core/stock/index.ts';
import { farTooLong, readRack, writeRack } from '../core/workspace/index.ts';
import { written } from './arrange.ts';
import { bareLength } from './bare-length.ts';
import { change, say } from './bench.ts';
import { chosen } from './chosen.ts';
import { Entry } from './entry.tsx';
import { Choice, Field } from './field.tsx';
import { saveAs } from './save-as.ts';
import type { WorkedPlan } from './worked-plan.ts';

/** What the rack holds, what this option takes from it, and what it puts back. */
export function RackView({ worked: { outcome, plan } }: { readonly worked: WorkedPlan }) {
  const { rack } = plan.stock;
  const { taken, left } = outcome.bill.rack;
  const print = printersFor(plan.units);
  const stocks = [...plan.stock.panels, ...plan.stock.boards].map((s) => s.id);
  const isPanel = (id: string): boolean => plan.stock.panels.some((p) => p.id === id);
  const size = (length: number, width: number | undefined): string =>
    width === undefined ? print.length(length) : `${print.length(length)} × ${print.length(width)}`;
  const told = ({ stock, length, width }: Omit<(typeof left)[number], 'from'>): string =>
    `${stockName(plan.stock, stock)}, ${size(length, isPanel(stock) ? width : undefined)}`;
  const putBack = () => {
    const edits = left.map(
      ({ stock, length, width }, i): Edit => ({
        op: 'insert',
        path: ['stock', 'rack', rack.length + i],
        value: {
          stock,
          length: written(plan.units, length),
          ...(isPanel(stock) && { width: written(plan.units, width) }),
          where: 'from this plan',
        },
      }),
    );
    change('Left over, put on the rack', rackThere(plan, edits));
  };
  return (
    <section className="sheet-like">
      <h2>Rack</h2>
      <OnRack plan={plan} size={size} />
      {stocks.length > 0 && <NewOffcut stocks={stocks} isPanel={isPanel} plan={plan} />}
      <h3>This option takes</h3>
      <Sizes of={taken.map((offcut) => `${told(offcut)} ${offcut.where ?? ''}`)} none="Nothing." />
      <h3>This option puts back</h3>
      <Sizes of={left.map(told)} none="Nothing worth keeping." />
      <div className="buttons">
        {left.length > 0 && (
          <button type="button" onClick={putBack}>
            Put these on the rack
          </button>
        )}
        <button type="button" onClick={() => saveAs('rack.csv', writeRack(plan), 'text/csv')}>
          Save as CSV
        </button>
        <ReadRack plan={plan} />
      </div>
    </section>
  );
}

interface Of {
  readonly plan: WorkedPlan['plan'];
}
const OnRack = ({ plan, size }: Of & { readonly size: (length: number, width: number | undefined) => string }) => (
  <table className="rows rack">
    <caption>On the rack</caption>
    <thead>
      <tr>
        <th scope="col">Of</th>
        <th scope="col">Size</th>
        <th scope="col">How many</th>
        <th scope="col">Where</th>
        <th scope="col">
          <span className="unseen">What to do</span>
        </th>
      </tr>
    </thead>
    <tbody>
      {plan.stock.rack.map((item, i) => (
        <tr key={`${item.id ?? ''} ${i}`}>
          <td>
            {stockName(plan.stock, item.stock)}
            {item.id !== undefined && <small> {item.id}</small>}
          </td>
          <td>{size(item.length, item.width)}</td>
          <td data-name="How many">{item.count}</td>
          <td>
            <Field
              name={`where ${item.id ?? i + 1} lies`}
              path={['stock', 'rack', i, 'where']}
              shown={item.where ?? ''}
            />
          </td>
          <td>
            <button
              type="button"
              onClick={() => change('Taken off the rack', [{ op: 'remove', path: ['stock', 'rack', i] }])}
            >
              Take off<span className="unseen"> {item.id ?? i + 1}</span>
            </button>
          </td>
        </tr>
      ))}
      {plan.stock.rack.length === 0 && (
        <tr>
          <td colSpan={5}>The rack is empty.</td>
        </tr>
      )}
    </tbody>
  </table>
);

const Sizes = ({ of, none }: { readonly of: readonly string[]; readonly none: string }) => (
  <ul className="sizes">
    {of.map((words, i) => (
      <li key={`${words} ${i}`}>{words}</li>
    ))}
    {of.length === 0 && <li>{none}</li>}
  </ul>
);

const ReadRack = ({ plan }: Of) => (
  <label className="button">
    Read a CSV
    <input
      className="unseen"
      type="file"
      accept=".csv,text/csv"
      onChange={(e) => {
        const file = chosen(e.currentTarget, 'rack', say);
        void file?.text().then((text) => {
          const edits = readRack(text, plan);
          if (edits.ok) change('The rack as in the file', edits.value);
          else say(explain(edits.issues[0]!));
        });
      }}
    />
  </label>
);

/** A plan that says nothing of a rack gets one first. */
const rackThere = (plan: WorkedPlan['plan'], edits: readonly Edit[]): readonly Edit[] =>
  plan.stock.rack.length > 0
    ? edits
    : [{ op: 'set', path: ['stock', 'rack'], value: edits.flatMap((e) => ('value' in e ? [e.value] : [])) }];

function NewOffcut({
  stocks,
  isPanel,
  plan,
}: {
  readonly stocks: readonly string[];
  readonly isPanel: (id: string) => boolean;
  readonly plan: WorkedPlan['plan'];
}) {
  const [stock, setStock] = useState(stocks[0]!);
  const [length, setLength] = useState('');
  const [width, setWidth] = useState('');
  const [wrong, setWrong] = useState<Issue>();
  const add = (event: FormEvent) => {
    event.preventDefault();
    const value = { stock, length, ...(isPanel(stock) && { width }) };
    const path = ['stock', 'rack', plan.stock.rack.length];
    const issue =
      farTooLong(plan, stock, length) ??
      change('On the rack', rackThere(plan, [{ op: 'insert', path, value }]), true)[0];
    setWrong(issue);
    if (issue) return;
    setLength('');
    setWidth('');
  };
  const isOfWidth = wrong?.path.at(-1) === 'width';
  const words = wrong && explainThere(wrong);
  return (
    <form className="fields" onSubmit={add} noValidate>
      <Choice name="Put on the rack" value={stock} of={stocks.map((s) => [s, s] as const)} onChange={setStock} />
      <Entry
        name="length"
        value={length}
        read={bareLength(plan.units, length)}
        wrong={isOfWidth ? undefined : words}
        onChange={setLength}
      />
      {isPanel(stock) && (
        <Entry
          name="width"
          value={width}
          read={bareLength(plan.units, width)}
          wrong={isOfWidth ? words : undefined}
          onChange={setWidth}
        />
      )}
      <button type="submit">Add</button>
    </form>
  );
}
