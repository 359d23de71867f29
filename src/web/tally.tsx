import { memo, type ReactNode, useId, useRef, useState } from 'preact/compat';
import { costSaid, openWords, type Tally as TallyOf } from '../core/bill/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { type Plan, printersFor } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { optionOf, useBench } from './bench.ts';
import { Choice } from './field.tsx';
import { later, ONE_MOMENT } from './later.tsx';
import { setFindingsOf } from './register.ts';
import type { FigureName } from './tally-figures.ts';
import { canUndo, redo, undo } from './undo.ts';
import type { Worked } from './work.ts';
import { workHere } from './worked-plan.ts';

/** What a figure opens into is loaded when it is opened. */
const TallyDetail = later(() => import('./tally-detail.tsx'), ONE_MOMENT);

interface Figure {
  readonly name: FigureName;
  readonly value: string;
  readonly change: string | undefined;
  /** Something that adds to it is still being worked out. */
  readonly unfinished?: boolean;
}

/** The headline figures along the top, with the difference from the option it is compared with. Each opens into its working. */
export function Tally({
  plan,
  worked,
  menu,
}: {
  readonly plan: Plan;
  readonly worked: Worked;
  readonly menu: ReactNode;
}) {
  const against = useBench((b) => b.against);
  const dragging = useBench((b) => b.dragging);
  const { outcome, unknown } = worked;
  const { tally, option } = outcome;
  // strips and wires, mouldings and notes come behind the drawing: until then a figure that they add to says that it is not done
  const uncut = unknown.length > 0 || !worked.whole;
  const unfinished = uncut || !setFindingsOf(option.id);
  const compared = useRef<Worked>(undefined);
  // what is under the hand is of one option: the other is as it was
  if (!dragging || compared.current?.outcome.option.id !== against)
    compared.current =
      against === undefined || against === option.id || !setFindingsOf(against) || !setFindingsOf(option.id)
        ? undefined
        : workHere(plan, optionOf(plan, against));
  // what is not cut yet has no figures to be held against
  const other = compared.current?.unknown.length === 0 ? compared.current.outcome.tally : undefined;
  const figures = figuresOf(tally, other, printersFor(plan.units), { uncut, unfinished });
  return (
    <header className="tally">
      <h1 title={plan.title}>{plan.title}</h1>
      <Options plan={plan} shown={option.id} against={against} />
      <ul className="figures" aria-label="Tally">
        {figures.map((figure) => (
          <FigureItem key={figure.name} {...figure} outcome={outcome} held={dragging} />
        ))}
      </ul>
      <UndoAndRedo>{menu}</UndoAndRedo>
    </header>
  );
}

/** Of a tally, and how much more or less it is than the other. What waits for the cutting, or for what comes behind it, is not told as done. */
function figuresOf(
  tally: TallyOf,
  other: TallyOf | undefined,
  print: ReturnType<typeof printersFor>,
  { uncut, unfinished }: { readonly uncut: boolean; readonly unfinished: boolean },
): readonly Figure[] {
  const figure = (
    name: FigureName,
    of: 'panels' | 'boards' | 'cuts' | 'parts' | 'heaviest' | 'hours',
    show: (value: number) => string,
    waits = false,
  ): Figure => ({
    name,
    value: waits ? '…' : show(tally[of]),
    unfinished: waits,
    change: difference(tally[of], other?.[of], show),
  });
  return [
    {
      name: 'Cost',
      value: uncut ? '…' : costSaid(tally.known, tally.cost !== undefined, print.money),
      unfinished,
      change: difference(tally.cost, other?.cost, print.money),
    },
    figure('Panels', 'panels', String, uncut),
    figure('Boards', 'boards', String, uncut),
    figure('Cuts', 'cuts', String, uncut),
    figure('Parts', 'parts', String),
    figure('Heaviest lift', 'heaviest', print.mass),
    figure('Hours', 'hours', (hours) => hours.toFixed(0)),
    {
      name: 'Notes',
      value: unfinished && tally.stops + tally.cautions === 0 ? '…' : openWords(tally),
      unfinished,
      change: undefined,
    },
  ];
}

function Options({
  plan,
  shown,
  against,
}: {
  readonly plan: Plan;
  readonly shown: string;
  readonly against: string | undefined;
}) {
  const all = plan.options.map(({ id, title = id }) => [id, title] as const);
  return (
    <div className="choices">
      <Choice name="Option" value={shown} of={all} onChange={(id) => useBench.setState({ option: id })} />
      <Choice
        name="Compared with"
        value={against ?? ''}
        of={[['', 'nothing'], ...all.filter(([id]) => id !== shown)]}
        onChange={(id) => useBench.setState({ against: id || undefined })}
      />
    </div>
  );
}

/** The last step takes the focus from neither: where there is nothing to do they do nothing. */
function UndoAndRedo({ children }: { readonly children: ReactNode }) {
  const last = useBench((b) => b.done.at(-1)?.title);
  const more = useBench(canUndo);
  const undone = useBench((b) => b.undone);
  return (
    <div className="history">
      <button
        type="button"
        aria-disabled={!more}
        onClick={() => void undo()}
        title={last ?? (more ? 'back by the revisions that were saved' : undefined)}
      >
        Undo
      </button>
      <button
        type="button"
        aria-disabled={undone.length === 0}
        onClick={() => void redo()}
        title={undone.at(-1)?.title}
      >
        Redo
      </button>
      {children}
    </div>
  );
}

interface Item extends Figure {
  readonly outcome: Outcome;
  /** Nothing is opened while a piece is held: what a figure opens into is not needed. */
  readonly held: boolean;
}
const looksSame = (a: Item, b: Item): boolean =>
  a.value === b.value &&
  a.change === b.change &&
  a.unfinished === b.unfinished &&
  (a.outcome === b.outcome || (a.held && b.held));

const FigureItem = memo(function FigureItem({ name, value, change, unfinished, outcome }: Item) {
  const [open, setOpen] = useState(false);
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  return (
    <li>
      <button
        type="button"
        className="figure-button"
        aria-haspopup="dialog"
        onClick={() => {
          setOpen(true);
          dialog.current?.showModal();
        }}
      >
        <span className="figure-name">{name}</span>
        <span className={unfinished ? 'figure-value unfinished' : 'figure-value'}>
          {value}
          {unfinished && value !== '…' && <span aria-hidden="true"> …</span>}
          {unfinished && <span className="unseen">, still being worked out</span>}
          {change && <small>{change}</small>}
        </span>
      </button>
      <dialog
        ref={dialog}
        aria-labelledby={id}
        onClose={() => setOpen(false)}
        // a press beside the sheet closes it
        onPointerDown={(e) => e.target === dialog.current && dialog.current?.close()}
      >
        <div className="dialog-body">
          <h2 id={id}>
            {name}: {unbroken(value)}
          </h2>
          {open && <TallyDetail name={name} outcome={outcome} />}
          <button type="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </dialog>
    </li>
  );
}, looksSame);

function difference(
  now: number | undefined,
  then: number | undefined,
  show: (value: number) => string,
): string | undefined {
  if (now === undefined || then === undefined) return undefined;
  const by = show(Math.abs(now - then));
  return by === show(0) ? '±0' : `${now > then ? '+' : '−'}${by}`;
}
