import { useState } from 'react';
import { partNumbers } from '../core/drawing/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { printersFor } from '../core/plan/index.ts';
import { useBench } from './bench.ts';
import { useWorked } from './desk.tsx';
import { Choice } from './field.tsx';
import { PartCard } from './part-card.tsx';
import { go, type Route } from './route.ts';
import { type ShopCut, type ShopLayout, shopDay } from './shop-day.ts';
import { tick, useDone, useTicks } from './ticks.ts';

/** The shop view: big type, one thing at a time, for a phone in a gloved hand. */
export default function Shop({ route }: { readonly route: Route }) {
  const worked = useWorked();
  const name = useBench((b) => b.name);
  const queued = useTicks((t) => t.queued.length);
  const [wanted, setWanted] = useState('');
  const done = useDone(name);
  if (!worked) return <p className="empty">The plan cannot be read; see it on the laptop.</p>;
  const { outcome } = worked;
  return (
    <div className="shop" data-ready>
      <header>
        <h1>{outcome.plan.title}</h1>
        <form
          onSubmit={(e) => {
            e.preventDefault();
            const part = partCalled(outcome, wanted);
            if (part !== undefined) go({ to: 'part', id: part });
          }}
        >
          <label htmlFor="part-wanted">Part number, or the code's words</label>
          <div className="shop-row">
            <input id="part-wanted" value={wanted} onChange={(e) => setWanted(e.target.value)} autoComplete="off" />
            <button type="submit">Find</button>
          </div>
        </form>
        {queued > 0 && (
          <p role="status">
            {queued} {queued === 1 ? 'tick waits' : 'ticks wait'} for the connection.
          </p>
        )}
      </header>
      <main>
        {route.to === 'part' ? (
          <PartPage id={route.id} outcome={outcome} />
        ) : (
          <Cuts outcome={outcome} plan={name} done={done} />
        )}
      </main>
      <footer>
        <button type="button" onClick={() => go({ to: 'shop' })}>
          Cuts
        </button>
        <button type="button" onClick={() => go({ to: 'page', id: '' })}>
          Drawings
        </button>
      </footer>
    </div>
  );
}

/** `12`, or what a label's code says: `12 scores/left-side | Alder Lane`. */
function partCalled(outcome: Outcome, words: string): string | undefined {
  const number = Number.parseInt(words, 10);
  const id = words
    .split('|')[0]!
    .replace(/^\s*\d+\s*/, '')
    .trim();
  const byId = outcome.parts.find((p) => p.id === id || p.label.name === words.trim());
  return byId?.id ?? partNumbers(outcome.pieces).find((p) => p.number === number)?.part.id;
}

function PartPage({ id, outcome }: { readonly id: string; readonly outcome: Outcome }) {
  const part = outcome.parts.find((p) => p.id === id);
  return part ? (
    <PartCard part={part} outcome={outcome} onPart={(other) => go({ to: 'part', id: other })} />
  ) : (
    <p>There is no such part in the option that is built. It may have changed since the label was printed.</p>
  );
}

function Cuts({
  outcome,
  plan,
  done,
}: {
  readonly outcome: Outcome;
  readonly plan: string;
  readonly done: (about: string) => boolean;
}) {
  const day = shopDay(outcome);
  const first = day.find((l) => l.cuts.some((c) => !done(c.about)));
  const [chosen, setChosen] = useState<string>();
  const layout = day.find((l) => l.id === chosen) ?? first ?? day[0];
  if (!layout) return <p>Nothing is to be cut yet.</p>;
  const next = layout.cuts.find((c) => !done(c.about));
  const made = day.flatMap((l) => l.cuts).filter((c) => done(c.about)).length;
  const all = day.reduce((n, l) => n + l.cuts.length, 0);
  return (
    <>
      <p className="progress">
        {made} of {all} cuts done
        <progress value={made} max={all} aria-label="Cuts done" />
      </p>
      <Choice
        name="Layout"
        value={layout.id}
        of={day.map((l) => [l.id, `${l.cuts.every((c) => done(c.about)) ? '✓ ' : ''}${l.title}`] as const)}
        onChange={setChosen}
      />
      <LayoutPicture layout={layout} outcome={outcome} next={next} done={done} />
      {next ? (
        <section className="next" aria-live="polite">
          <p className="next-tool">
            Cut {next.number} of {layout.cuts.length} · {next.tool}
          </p>
          <p className="next-setting">{next.setting}</p>
          <p>{next.words}</p>
          {next.frees.length > 0 && <p className="frees">Gives {next.frees.join(' and ')}</p>}
          <button type="button" className="primary big" onClick={() => tick(plan, next.about, true)}>
            Done
          </button>
        </section>
      ) : (
        <section className="next">
          <p className="next-setting">All cut</p>
          {first && (
            <button type="button" className="primary big" onClick={() => setChosen(undefined)}>
              Next layout
            </button>
          )}
        </section>
      )}
      <ol className="ticks">
        {layout.cuts.map((cut) => (
          <li key={cut.about}>
            <label>
              <input
                type="checkbox"
                checked={done(cut.about)}
                onChange={(e) => tick(plan, cut.about, e.target.checked)}
              />
              <span>
                {cut.words} {cut.setting}
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
        {layout.placed.map((p) => (
          <g key={p.part}>
            <rect x={p.x} y={p.y} width={p.length} height={p.width} className="panel-part" strokeWidth={type / 10} />
            <text
              x={p.x + p.length / 2}
              y={p.y + p.width / 2 + type / 3}
              fontSize={Math.min(type, p.width * 0.8)}
              textAnchor="middle"
              className="panel-number"
            >
              {numbers.get(p.part)}
            </text>
          </g>
        ))}
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
            strokeWidth={type / 2}
          />
        )}
      </svg>
      <figcaption>
        {print.length(length)} × {print.length(width)}
      </figcaption>
    </figure>
  );
}
