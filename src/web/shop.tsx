import { type CSSProperties, useLayoutEffect, useMemo, useState } from 'preact/compat';
import { partNumbers } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { printersFor } from '../core/plan/index.ts';
import { useBench } from './bench.ts';
import { useWorked } from './desk.tsx';
import { Choice } from './field.tsx';
import { useFindings } from './findings.ts';
import { later, NotCome, ONE_MOMENT } from './later.tsx';
import { numberPlaces } from './layout-numbers.ts';
import PartCard from './part-card.tsx';
import { PartFinder, PartList } from './part-finder.tsx';
import { go, hashOf, type Route } from './route.ts';
import { certainCuts, type ShopCut, type ShopLayout, shopDay } from './shop-day.ts';
import { Today } from './shop-today.tsx';
import ShutOut from './shut-out.tsx';
import { tick, useTickStates, useTicks } from './ticks.ts';
import { useDesk } from './workspace.ts';

const Unread = later(() => import('./unread.tsx'), ONE_MOMENT);

/** The shop view: big type, one thing at a time, for a phone in a gloved hand. */
export default function Shop({ route }: { readonly route: Route }) {
  const worked = useWorked();
  const name = useBench((b) => b.name);
  const queued = useTicks((t) => t.queued.length);
  const states = useTickStates(name);
  const why = useTicks((t) => t.why);
  const shut = useDesk((d) => d.shut);
  const missing = useFindings((f) => f.missing);
  const done = (about: string): boolean => states.get(about)?.done ?? false;
  const cutBy = useMemo(() => worked && certainCuts(worked, missing), [worked, missing]);
  // a part, or a list, begins at its top, from its first picture on
  useLayoutEffect(() => scrollTo(0, 0), [route]);
  if (!worked) return <Unread />;
  const { outcome, whole } = worked;
  const part = route.to === 'part' ? outcome.parts.find((p) => p.id === route.id) : undefined;
  const tab = (to: Route, words: string, current: boolean) => (
    <a href={hashOf(to)} aria-current={current ? 'page' : undefined}>
      {words}
    </a>
  );
  return (
    <div className="shop" data-ready>
      <header>
        <h1>{outcome.plan.title}</h1>
        <p>{outcome.option.title ?? outcome.option.id}</p>
      </header>
      <main>
        {shut && (
          <p role="status" className="waits">
            <ShutOut />
          </p>
        )}
        {missing && (
          <div className="waits">
            <NotCome
              what="What works out mouldings and days"
              more={route.to === 'part' ? '' : 'Panels are cut as shown here; the boards come with it.'}
            />
          </div>
        )}
        {route.to !== 'part' && <Today worked={worked} plan={name} states={states} />}
        {route.to !== 'part' &&
          (cutBy ? (
            <Cuts outcome={cutBy} whole={whole} plan={name} done={done} />
          ) : (
            <p role="status">Working out how to cut …</p>
          ))}
        {part && <PartCard part={part} outcome={outcome} onPart={(id) => go({ to: 'part', id })} />}
        {route.to === 'part' && (
          <>
            {!part && route.id !== '' && !whole && <p role="status">Looking for the part among the mouldings …</p>}
            {!part && route.id !== '' && whole && (
              <p role="alert">
                There is no such part in the option that is built. It may have changed since the label was printed.
              </p>
            )}
            <PartFinder outcome={outcome} whole={whole} />
            {!part && <PartList outcome={outcome} />}
          </>
        )}
      </main>
      {queued > 0 && (
        <p role="status" className="waits at-foot">
          {queued} {queued === 1 ? 'tick waits' : 'ticks wait'} {why ? 'on this device.' : 'for the connection.'} Go on:
          nothing is lost. {!shut && why}
        </p>
      )}
      <nav aria-label="Shop">
        {tab({ to: 'shop' }, 'Cuts', route.to !== 'part')}
        {tab({ to: 'part', id: '' }, 'Parts', route.to === 'part')}
        {tab({ to: 'page', id: '' }, 'Drawings', false)}
      </nav>
    </div>
  );
}

function Cuts({
  outcome,
  whole,
  plan,
  done,
}: {
  readonly outcome: Outcome;
  readonly whole: boolean;
  readonly plan: string;
  readonly done: (about: string) => boolean;
}) {
  const day = useMemo(() => shopDay(outcome, whole), [outcome, whole]);
  const first = day.find((l) => l.cuts.some((c) => !done(c.about)));
  const [chosen, setChosen] = useState<string>();
  const layout = day.find((l) => l.id === chosen) ?? first ?? day[0];
  if (!layout && !whole) return null;
  if (!layout) return <p role="status">Nothing is to be cut yet: the plan has no parts.</p>;
  const next = layout.cuts.find((c) => !done(c.about));
  const made = day.flatMap((l) => l.cuts).filter((c) => done(c.about)).length;
  const all = day.reduce((n, l) => n + l.cuts.length, 0);
  return (
    <>
      <div className="shop-top">
        <Choice
          name={whole ? `Layout, of ${day.length}` : 'Layout'}
          value={layout.id}
          of={day.map((l) => [l.id, `${l.cuts.every((c) => done(c.about)) ? '✓ ' : ''}${l.title}`] as const)}
          onChange={setChosen}
        />
        <p className="progress">
          {made} of {all} cuts done
          <progress value={made} max={all} aria-label="Cuts done" />
        </p>
      </div>
      <LayoutPicture layout={layout} outcome={outcome} next={next} done={done} />
      {next ? (
        <section className="next" aria-live="polite">
          <p className="next-tool">
            Cut {next.number} of {layout.cuts.length} · {next.tool}
          </p>
          <p>{next.words}</p>
          <Setting words={next.setting} />
          {next.side && <p>{next.side}</p>}
          {next.frees.length > 0 && (
            <p className="frees">
              Gives <b>{next.frees.join(' and ')}</b>
            </p>
          )}
          {next.heed.map((words) => (
            <p key={words} className="heed">
              {words}
            </p>
          ))}
          <button type="button" className="primary big" onClick={() => tick(plan, next.about, true)}>
            Done
          </button>
        </section>
      ) : (
        <section className="next">
          <Setting words={first ? 'This one is cut' : 'All cut'} />
          {first && (
            <button type="button" className="primary big" onClick={() => setChosen(undefined)}>
              Next layout
            </button>
          )}
        </section>
      )}
      <h2 className="ticks-title">Cuts of this layout</h2>
      <ol className="ticks">
        {layout.cuts.map((cut) => (
          <li key={cut.about}>
            <label>
              <input
                type="checkbox"
                checked={done(cut.about)}
                onChange={(e) => tick(plan, cut.about, e.currentTarget.checked)}
              />
              <span>
                {cut.number}. {cut.words} {cut.setting}
                {cut.frees.length > 0 && <small>{cut.frees.join(', ')}</small>}
              </span>
            </label>
          </li>
        ))}
      </ol>
    </>
  );
}

/** The layout with the next cut lit. What is free already is hatched out by its own outline only. */
function LayoutPicture({
  layout: { layout, cuts, title },
  outcome,
  next,
  done,
}: {
  readonly layout: ShopLayout;
  readonly outcome: Outcome;
  readonly next: ShopCut | undefined;
  readonly done: (about: string) => boolean;
}) {
  const print = printersFor(outcome.plan.units);
  const numbers = new Map(partNumbers(outcome.pieces).map(({ part, number }) => [part.id, number]));
  const { length, width } = layout;
  const numbered = layout.placed.map((p) => ({ ...p, number: `${numbers.get(p.part) ?? ''}` }));
  const pad = Math.max(length, width) * 0.02;
  const type = Math.max(length, width) / 22;
  return (
    <figure>
      <svg
        className="layout-picture"
        viewBox={`${-pad} ${-pad} ${length + 2 * pad} ${width + 2 * pad}`}
        role="img"
        aria-label={`${title}, ${print.length(length)} by ${print.length(width)}`}
      >
        <rect width={length} height={width} className="panel-edge" strokeWidth={type / 5} />
        {layout.placed.map((p, i) => (
          <rect
            key={`${p.part} ${i}`}
            x={p.x}
            y={p.y}
            width={p.length}
            height={p.width}
            className="panel-part"
            strokeWidth={type / 10}
          />
        ))}
        {next?.piece && (
          <rect
            x={next.piece.x}
            y={next.piece.y}
            width={next.piece.length}
            height={next.piece.width}
            className="on-saw"
            strokeWidth={type / 4}
          />
        )}
        {cuts
          .filter((cut) => cut.line && done(cut.about))
          .map(({ about, line }) => (
            <line
              key={about}
              x1={line!.from.x}
              y1={line!.from.y}
              x2={line!.to.x}
              y2={line!.to.y}
              className="cut-done"
              strokeWidth={type / 6}
            />
          ))}
        {next?.line && (
          <line
            x1={next.line.from.x}
            y1={next.line.from.y}
            x2={next.line.to.x}
            y2={next.line.to.y}
            className="cut-next"
            strokeWidth={type / 3}
          />
        )}
        {/* over every line: which part it is can be read whatever runs along its edge */}
        {numberPlaces(numbered, type).map(({ x, y, size }, i) => (
          <text
            key={`${numbered[i]!.part} ${i}`}
            x={x}
            y={y + size / 3}
            fontSize={size}
            textAnchor="middle"
            className="panel-number"
          >
            {numbered[i]!.number}
          </text>
        ))}
      </svg>
      <figcaption>
        {print.length(length)} × {print.length(width)}
        {next?.piece && '; what is on the saw is outlined, the cut is the heavy line'}
      </figcaption>
    </figure>
  );
}

/** As large as its letters leave room for in one line. */
function Setting({ words }: { readonly words: string }) {
  return (
    <p className="next-setting" style={{ '--letters': words.length } as CSSProperties}>
      {words}
    </p>
  );
}
