import type { ReactNode } from 'preact/compat';
import { orderedCutUp, type Share } from '../core/bill/index.ts';
import { byUrgency } from '../core/notes/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { printersFor } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { realLayouts, stockName } from '../core/stock/index.ts';
import type { FigureName } from './tally-figures.ts';
import WorkingView from './working-view.tsx';

/** How a figure of the tally came about. */
export default function TallyDetail({
  name,
  outcome,
}: {
  readonly name: FigureName;
  readonly outcome: Outcome;
}): ReactNode {
  const { tally, plan } = outcome;
  switch (name) {
    case 'Cost':
      return <MoneyDetail outcome={outcome} />;
    case 'Panels':
      return <StockDetail outcome={outcome} from="panel" />;
    case 'Boards':
      return <StockDetail outcome={outcome} from="board" />;
    case 'Cuts':
      return <CutsDetail outcome={outcome} />;
    case 'Parts':
      return <PartsDetail outcome={outcome} />;
    case 'Heaviest lift':
      return (
        <>
          <p>{unbroken(`${tally.heaviestIs}: ${printersFor(plan.units).mass(tally.heaviest)}`)}.</p>
          <WorkingView working={tally.heaviestWorking} />
        </>
      );
    case 'Hours':
      return <WorkingView working={tally.hoursWorking} />;
    case 'Notes':
      return <NotesDetail outcome={outcome} />;
  }
}

/** What is open, numbered as in the margin. */
function NotesDetail({ outcome }: { readonly outcome: Outcome }) {
  const open = outcome.notes.filter((n) => n.verdict !== 'fine').sort(byUrgency);
  return (
    <>
      {open.length > 0 && (
        <ol className="noted">
          {open.map(({ id, verdict, title }, i) => (
            <li key={id} className={verdict}>
              <span className="balloon">{i + 1}</span>
              <span>
                <strong>{verdict === 'stop' ? 'Stop' : 'Caution'}:</strong> {unbroken(title)}
              </span>
            </li>
          ))}
        </ol>
      )}
      <p>
        {outcome.tally.fines} {open.length > 0 ? 'more were' : 'were'} checked and hold. Each note opens in the margin.
      </p>
    </>
  );
}

/** Where the money goes: by piece, by material, by supplier. */
function MoneyDetail({ outcome }: { readonly outcome: Outcome }) {
  const { bill, plan } = outcome;
  const { money } = printersFor(plan.units);
  const table = (title: string, shares: readonly Share[]) => (
    <table>
      <caption>{title}</caption>
      <tbody>
        {shares.map((share) => (
          <tr key={share.id}>
            <th scope="row">{share.name}</th>
            <td className="figure">{money(share.cost)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
  return (
    <>
      <p>
        {money(bill.net)} and {money(bill.tax)} tax
        {bill.complete ? '.' : ' of what has a price; something has none yet, so this is not the whole cost.'}
      </p>
      {table('By piece', bill.byPiece)}
      {table('By material', bill.byMaterial)}
      {table('By supplier', bill.bySupplier)}
    </>
  );
}

/** Where the cuts are made: by what is cut. */
function CutsDetail({ outcome }: { readonly outcome: Outcome }) {
  const { cuts, plan } = outcome;
  const cutUp = orderedCutUp(plan);
  const rows = cuts.map(({ job, answer }) => {
    const layouts = realLayouts(job, answer);
    return { stock: job.stock, layouts: layouts.length, cuts: layouts.reduce((n, l) => n + cutUp(l).cuts, 0) };
  });
  return (
    <>
      <p>Cuts at the saw, trimming of edges counted, in the order the layouts number them.</p>
      <table>
        <thead>
          <tr>
            <th scope="col">From</th>
            <th scope="col" className="figure">
              Layouts
            </th>
            <th scope="col" className="figure">
              Cuts
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.stock}>
              <th scope="row">{stockName(plan.stock, row.stock)}</th>
              <td className="figure">{row.layouts}</td>
              <td className="figure">{row.cuts}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

/** How many parts each piece has, and what all of them weigh. */
function PartsDetail({ outcome }: { readonly outcome: Outcome }) {
  return (
    <>
      <table>
        <caption>By piece</caption>
        <tbody>
          {outcome.pieces
            .filter(({ parts }) => parts.length > 0)
            .map(({ id, title, parts }) => (
              <tr key={id}>
                <th scope="row">{title}</th>
                <td className="figure">{parts.length}</td>
              </tr>
            ))}
        </tbody>
      </table>
      <WorkingView working={outcome.tally.massWorking} />
    </>
  );
}

/** How many of each are taken, and whether fewer would do: the proof of each cutting plan. */
function StockDetail({ outcome, from }: { readonly outcome: Outcome; readonly from: 'panel' | 'board' }) {
  const cuts = outcome.cuts.filter(({ job }) => job.from === from);
  return (
    <ul>
      {cuts.length === 0 && <li>None are needed.</li>}
      {cuts.map(({ job, answer }) => {
        const layouts = realLayouts(job, answer);
        const bought = layouts.filter((l) => l.source.kind === 'buy').length;
        return (
          <li key={job.stock}>
            {unbroken(stockName(outcome.plan.stock, job.stock))}:{' '}
            {answer.status === 'infeasible'
              ? `cannot be cut: ${unbroken(answer.issues[0]?.message ?? '')}`
              : `${bought} bought${layouts.length > bought ? `, ${layouts.length - bought} from the rack` : ''}; ${
                  answer.status === 'optimal'
                    ? 'no way of cutting is cheaper (proven)'
                    : 'the best found; a cheaper way is not ruled out'
                }`}
          </li>
        );
      })}
    </ul>
  );
}
