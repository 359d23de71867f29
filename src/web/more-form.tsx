import { useState } from 'preact/compat';
import type { Outcome } from '../core/outcome.ts';
import { type Path, printersFor, type Units } from '../core/plan/index.ts';
import type { Kg, Mm } from '../core/quantity/index.ts';
import type { Found } from './arrange.ts';
import { type Asked, choiceEdits, editsOf, type Holds, lengthIn } from './asked/asked.ts';
import { askedOf } from './asked/asked-pieces.ts';
import { askedOfPlace } from './asked/asked-place.ts';
import { small } from './asked/small.ts';
import { change } from './bench.ts';
import { Choice, Field } from './field.tsx';

/** Which of the groups stand open: they stay so from one piece to the next. */
const opened = new Set<string>();

/** What else may be said of a piece, each group of it shut until it is asked for. */
export function MoreForm({ outcome, found }: { readonly outcome: Outcome; readonly found: Found }) {
  const { plan } = outcome;
  const { piece, path, placed } = found;
  const groups = [...askedOfPlace(outcome, found), ...askedOf(plan, piece, placed?.wall !== undefined)];
  return (
    <>
      {groups.map(({ title, asked }) => (
        <Group key={title} title={title}>
          {() =>
            asked.map((one) => <One key={one.key.join()} asked={one} piece={piece} path={path} units={plan.units} />)
          }
        </Group>
      ))}
    </>
  );
}

function Group({ title, children }: { readonly title: string; readonly children: () => preact.ComponentChildren }) {
  const [open, setOpen] = useState(opened.has(title));
  return (
    <details
      className="more-form"
      open={open}
      onToggle={(event) => {
        const now = event.currentTarget.open;
        opened[now ? 'add' : 'delete'](title);
        setOpen(now);
      }}
    >
      <summary>{title}</summary>
      {open && <div className="fields">{children()}</div>}
    </details>
  );
}

interface Shown {
  readonly asked: Asked;
  readonly piece: Found['piece'];
  readonly path: Path;
  readonly units: Units;
}
function One({ asked, piece, path, units }: Shown) {
  const { key, words } = asked;
  const said = key.reduce<unknown>((at, step) => (at as Record<string, unknown> | undefined)?.[step], piece);
  if ('of' in asked)
    return (
      <Choice
        name={words}
        value={asked.now ?? (said === undefined ? '' : String(said))}
        of={asked.of}
        onChange={(text) =>
          change(`${words} ${asked.of.find(([each]) => each === text)?.[1] ?? ''}`, choiceEdits(asked, path, text))
        }
      />
    );
  const { holds, hint } = asked;
  return (
    <Field
      name={words}
      path={[...path, ...key]}
      shown={said === undefined ? '' : shownAs(holds, said, units)}
      edits={editsOf(holds)}
      {...lengthIn(holds, units)}
      {...(hint !== undefined && { hint })}
    />
  );
}

function shownAs(holds: Holds, said: unknown, units: Units): string {
  const print = printersFor(units);
  if (typeof holds === 'object') {
    const { keys, of, between } = holds;
    return keys.map((key) => shownAs(of, (said as Record<string, unknown>)[key], units)).join(` ${between} `);
  }
  if (holds === 'lengths') return (said as readonly Mm[]).map((length) => print.length(length)).join('; ');
  if (holds === 'mass') return print.mass(said as Kg);
  if (holds === 'small') return small(units, said as Mm);
  return holds === 'length' ? print.length(said as Mm) : String(said);
}
