import { type Plan, printersFor } from '../core/plan/index.ts';
import { optionOf, redo, undo, useBench, type Worked, work } from './bench.ts';
import { today } from './today.ts';

/** The headline figures along the top, with the difference from the option it is compared with. */
export function Tally({ plan, worked }: { readonly plan: Plan; readonly worked: Worked }) {
  const against = useBench((b) => b.against);
  const [done, undone] = [useBench((b) => b.done), useBench((b) => b.undone)];
  const print = printersFor(plan.units);
  const { tally, option } = worked.outcome;
  const other =
    against === undefined || against === option.id ? undefined : work(plan, optionOf(plan, against), today());
  const pending = worked.waiting.length > 0 && worked.outcome.cuts.length < worked.waiting.length;
  const figures: readonly (readonly [string, string, string | undefined])[] = [
    [
      'Cost',
      tally.cost === undefined || pending ? '…' : print.money(tally.cost),
      difference(tally.cost, other?.outcome.tally.cost, print.money),
    ],
    ['Panels', String(tally.panels), difference(tally.panels, other?.outcome.tally.panels, String)],
    ['Boards', String(tally.boards), difference(tally.boards, other?.outcome.tally.boards, String)],
    ['Cuts', String(tally.cuts), difference(tally.cuts, other?.outcome.tally.cuts, String)],
    ['Parts', String(tally.parts), difference(tally.parts, other?.outcome.tally.parts, String)],
    [
      'Heaviest lift',
      print.mass(tally.heaviest),
      difference(tally.heaviest, other?.outcome.tally.heaviest, print.mass),
    ],
    ['Hours', tally.hours.toFixed(0), difference(tally.hours, other?.outcome.tally.hours, (h) => h.toFixed(0))],
    ['Notes', `${tally.stops} stop, ${tally.cautions} caution`, undefined],
  ];
  return (
    <header className="tally">
      <h1>{plan.title}</h1>
      <label>
        Option
        <select value={option.id} onChange={(e) => useBench.setState({ option: e.target.value })}>
          {plan.options.map((o) => (
            <option key={o.id} value={o.id}>
              {o.title ?? o.id}
            </option>
          ))}
        </select>
      </label>
      <label>
        Compared with
        <select value={against ?? ''} onChange={(e) => useBench.setState({ against: e.target.value || undefined })}>
          <option value="">nothing</option>
          {plan.options
            .filter((o) => o.id !== option.id)
            .map((o) => (
              <option key={o.id} value={o.id}>
                {o.title ?? o.id}
              </option>
            ))}
        </select>
      </label>
      <dl>
        {figures.map(([name, value, by]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              {value}
              {by && <small>{by}</small>}
            </dd>
          </div>
        ))}
      </dl>
      <div className="history">
        <button type="button" disabled={done.length === 0} onClick={undo}>
          Undo
        </button>
        <button type="button" disabled={undone.length === 0} onClick={redo}>
          Redo
        </button>
      </div>
    </header>
  );
}

function difference(
  now: number | undefined,
  then: number | undefined,
  show: (value: number) => string,
): string | undefined {
  if (now === undefined || then === undefined || now === then) return undefined;
  return `${now > then ? '+' : '−'}${show(Math.abs(now - then))}`;
}
