import { useMemo } from 'preact/compat';
import { COMPARED } from '../core/bill/index.ts';
import { drawLive } from '../core/drawing/index.ts';
import { compareOutcomes, packetInput } from '../core/outcome.ts';
import { lookUp, type PlainValue, printersFor } from '../core/plan/index.ts';
import { freshName } from './arrange.ts';
import { change, useBench } from './bench.ts';
import { askFor } from './cutting.ts';
import { firstPages } from './first-pages.ts';
import { paperOf } from './paper.ts';
import { setFindingsOf } from './register.ts';
import { SheetSvg } from './sheet-svg.tsx';
import { today } from './today.ts';
import { type WorkedPlan, workHere } from './worked-plan.ts';

const WORDS: Readonly<Record<(typeof COMPARED)[number], string>> = {
  cost: 'Cost',
  panels: 'Panels',
  boards: 'Boards',
  cuts: 'Cuts',
  parts: 'Parts',
  mass: 'Weight',
  heaviest: 'Heaviest lift',
  hours: 'Hours',
  stops: 'Stop notes',
  cautions: 'Cautions',
};

/** The options side by side: drawing, tally, and what each has over the first. */
export function OptionsView({ worked: current }: { readonly worked: WorkedPlan }) {
  const { plan } = current;
  const plain = useBench((b) => b.plain);
  // a new answer of the cutter comes with a new `current`
  const all = useMemo(() => plan.options.map((option) => workHere(plan, option)), [plan, current]);
  const waiting = all.flatMap((w) => w.unknown);
  if (waiting.length > 0) askFor(current.waiting, waiting, false);
  /** Cut, and with all that the finished set comes to: a half of one is not held against the whole of another. */
  const isKnown = (i: number): boolean =>
    all[i]!.unknown.length === 0 && all[i]!.whole && setFindingsOf(all[i]!.outcome.option.id) !== undefined;
  const compared = compareOutcomes(all.map((w) => w.outcome));
  const print = printersFor(plan.units);
  const shown = (key: (typeof COMPARED)[number], value: number): string =>
    key === 'cost'
      ? print.money(value)
      : key === 'mass' || key === 'heaviest'
        ? print.mass(value)
        : key === 'hours'
          ? value.toFixed(0)
          : String(value);
  const index = plan.options.indexOf(current.outcome.option);
  const copy = () => {
    if (plain === undefined) return;
    const own = lookUp(plain, ['options', index]) as { readonly [key: string]: PlainValue };
    const id = freshName(
      plan.options.map((o) => o.id),
      String(own.id),
    );
    const title = typeof own.title === 'string' ? { title: `${own.title}, another` } : {};
    if (
      change('Another option', [{ op: 'insert', path: ['options', index + 1], value: { ...own, id, ...title } }])
        .length === 0
    )
      useBench.setState({ option: id });
  };
  return (
    <section className="sheet-like">
      <h2>Options side by side</h2>
      <div className="buttons">
        <button type="button" onClick={copy}>
          Copy “{current.outcome.option.title ?? current.outcome.option.id}” as another option
        </button>
        {plan.options.length > 1 && (
          <button
            type="button"
            onClick={() => {
              const edits = [{ op: 'remove' as const, path: ['options', index] }];
              change(
                'Option taken away',
                plan.build === current.outcome.option.id ? [...edits, { op: 'remove', path: ['build'] }] : edits,
              );
            }}
          >
            Take it away
          </button>
        )}
      </div>
      <div className="options">
        {all.map(({ outcome }) => (
          <OptionCard key={outcome.option.id} outcome={outcome} plan={current} />
        ))}
      </div>
      <table className="compared">
        <thead>
          <tr>
            <td />
            {compared.map((c) => (
              <th key={c.id} scope="col" className="figure">
                {c.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {COMPARED.map((key) => (
            <tr key={key}>
              <th scope="row">{WORDS[key]}</th>
              {compared.map((c, i) => {
                const value = c.tally[key as keyof typeof c.tally] as number | undefined;
                const by = c.difference[key];
                return (
                  <td key={c.id} className="figure">
                    {!isKnown(i) ? '…' : value === undefined ? 'not known' : shown(key, value)}
                    {i > 0 && isKnown(0) && isKnown(i) && by !== undefined && by !== 0 && (
                      <small>
                        {' '}
                        {by > 0 ? '+' : '−'}
                        {shown(key, Math.abs(by))}
                      </small>
                    )}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function OptionCard({
  outcome,
  plan: { plan },
}: {
  readonly outcome: WorkedPlan['outcome'];
  readonly plan: WorkedPlan;
}) {
  const current = useBench((b) => b.option);
  const { option } = outcome;
  const page = useMemo(() => {
    const pages = firstPages(outcome);
    const id = pages.find((p) => p.id.startsWith('elevation'))?.id ?? 'plan';
    return drawLive(packetInput(outcome, [], today()), { paper: paperOf(plan) }, pages, id);
  }, [outcome, plan]);
  const built = (plan.build ?? plan.options[0]!.id) === option.id;
  return (
    <article>
      <h3>
        {option.title ?? option.id} {built && <span className="state">is built</span>}
      </h3>
      {page && <SheetSvg page={page} />}
      {option.remark && <p>{option.remark}</p>}
      <div className="buttons">
        <button
          type="button"
          aria-pressed={current === option.id}
          onClick={() => useBench.setState({ option: option.id })}
        >
          Work on it
        </button>
        {!built && (
          <button
            type="button"
            onClick={() => change('Another option is built', [{ op: 'set', path: ['build'], value: option.id }])}
          >
            Build this one
          </button>
        )}
      </div>
    </article>
  );
}
