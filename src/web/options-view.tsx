import { useLayoutEffect, useMemo, useRef } from 'preact/compat';
import { COMPARED, costSaid } from '../core/bill/index.ts';
import { drawLive, isLivePage } from '../core/drawing/index.ts';
import { compareOutcomes, type Outcome, packetInput } from '../core/outcome.ts';
import { type Edit, lookUp, type PlainValue, type Plan, paperOf, printersFor } from '../core/plan/index.ts';
import { change, useBench } from './bench.ts';
import { Field } from './field.tsx';
import { firstPage, firstPages } from './first-pages.ts';
import { setFindingsOf } from './register.ts';
import { SheetSvg } from './sheet-svg.tsx';
import { regionOf } from './sight.tsx';
import { toDrawing } from './to-drawing.ts';
import { today } from './today.ts';
import { freshName, MOST_LETTERS, shortened } from './whole-pieces.ts';
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
  // a new answer of the cutter comes with a new `current`
  const all = useMemo(() => plan.options.map((option) => workHere(plan, option)), [plan, current]);
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
  const wall = wallOf(current.outcome);
  return (
    <section className="sheet-like">
      <h2>Options side by side</h2>
      <div className="options">
        {all.map(({ outcome }, index) => (
          <OptionCard
            key={outcome.option.id}
            outcome={outcome}
            plan={plan}
            index={index}
            wall={wall}
            isWorkedOn={outcome.option === current.outcome.option}
          />
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
                    {!isKnown(i)
                      ? '…'
                      : value === undefined
                        ? costSaid(c.tally.known, false, print.money)
                        : shown(key, value)}
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

/** The elevation on which most is built; the plan of the room where nothing is. */
function wallOf(outcome: Outcome): string {
  const page = firstPage(outcome, firstPages(outcome));
  return isLivePage(page) ? page : 'plan';
}

/** Another of the kind, beside it. */
function copyOption(plan: Plan, index: number): void {
  const { plain } = useBench.getState();
  if (plain === undefined) return;
  const own = lookUp(plain, ['options', index]) as { readonly [key: string]: PlainValue };
  const id = freshName(
    plan.options.map((o) => o.id),
    String(own.id),
  );
  const titles = plan.options.map((o) => o.title ?? o.id);
  // with room for a number behind it
  const another = (title: string): string => `${shortened(title, MOST_LETTERS.title - 12)}, another`;
  const title =
    typeof own.title === 'string' ? { title: freshName(titles, another(own.title), MOST_LETTERS.title) } : {};
  const edits = [{ op: 'insert' as const, path: ['options', index + 1], value: { ...own, id, ...title } }];
  if (change('Another option', edits).length === 0) useBench.setState({ option: id });
}
function dropOption({ options, build }: Plan, index: number): void {
  const edits: readonly Edit[] = [{ op: 'remove', path: ['options', index] }];
  const isBuilt = build === options[index]!.id;
  change('Option taken away', isBuilt ? [...edits, { op: 'remove', path: ['build'] }] : edits);
  toDrawing();
}

/** One option: the same wall of each, from close by, and what can be done with it. */
function OptionCard({
  outcome,
  plan,
  index,
  wall,
  isWorkedOn,
}: {
  readonly outcome: Outcome;
  readonly plan: Plan;
  readonly index: number;
  readonly wall: string;
  readonly isWorkedOn: boolean;
}) {
  const { option } = outcome;
  const page = useMemo(() => {
    const pages = firstPages(outcome);
    const id = pages.some((p) => p.id === wall) ? wall : wallOf(outcome);
    return drawLive(packetInput(outcome, [], today()), { paper: paperOf(plan) }, pages, id);
  }, [outcome, plan, wall]);
  const host = useRef<HTMLDivElement>(null);
  const buttons = useRef<HTMLDivElement>(null);
  const build = (): void => {
    change('Another option is built', [{ op: 'set', path: ['build'], value: option.id }]);
    // the button has done its work and is gone: the keys go on beside it
    requestAnimationFrame(() => buttons.current?.querySelector('button')?.focus());
  };
  useLayoutEffect(() => {
    const region = page && regionOf(page, outcome.room);
    const svg = host.current?.querySelector('svg');
    if (!region || !svg) return;
    const { x, y } = region;
    const [width, height] = [x[1] - x[0], y[1] - y[0]];
    svg.setAttribute('viewBox', `${x[0]} ${y[0]} ${width} ${height}`);
    // its own shape is that of the sheet
    svg.style.setProperty('aspect-ratio', `${width} / ${height}`);
  }, [page, outcome.room]);
  const built = (plan.build ?? plan.options[0]!.id) === option.id;
  const title = option.title ?? option.id;
  return (
    <article aria-label={title}>
      <h3>
        {title} {built && <span className="state">is to be built</span>}
      </h3>
      <div ref={host}>{page && <SheetSvg page={page} />}</div>
      <Field name="title" path={['options', index, 'title']} shown={option.title ?? ''} hint={option.id} />
      {option.remark && <p>{option.remark}</p>}
      <div className="buttons" ref={buttons}>
        <button type="button" aria-pressed={isWorkedOn} onClick={() => useBench.setState({ option: option.id })}>
          Work on it
        </button>
        {!built && (
          <button type="button" onClick={build}>
            Build this one
          </button>
        )}
        <button type="button" onClick={() => copyOption(plan, index)}>
          Copy it
        </button>
        {plan.options.length > 1 && (
          <button type="button" onClick={() => dropOption(plan, index)}>
            Take it away
          </button>
        )}
      </div>
    </article>
  );
}
