import { type FormEvent, useEffect, useState } from 'react';
import { kindOf, nameOf, type Option, type Plan, printersFor } from '../core/plan/index.ts';
import { change, useBench } from './bench.ts';

const PLACE = ['from', 'above', 'out', 'gap', 'centre'] as const;
const SIZE = ['width', 'height', 'depth'] as const;

/** What is selected, with its lengths as typed fields. A length may be typed any way. */
export function Inspector({ plan, option }: { readonly plan: Plan; readonly option: Option }) {
  const selected = useBench((b) => b.selected)?.split('/')[0];
  const index = option.pieces.findIndex((piece) => nameOf(piece) === selected);
  const piece = option.pieces[index];
  const path = ['options', plan.options.indexOf(option), 'pieces', index] as const;
  const print = printersFor(plan.units);
  return (
    <section aria-labelledby="piece-title" className="inspector">
      <h2 id="piece-title">Piece</h2>
      <label>
        Selected
        <select
          value={selected && piece ? selected : ''}
          onChange={(e) => useBench.setState({ selected: e.target.value || undefined })}
        >
          <option value="">none</option>
          {option.pieces.map((p) => (
            <option key={nameOf(p)} value={nameOf(p)}>
              {p.title ?? nameOf(p)} ({kindOf(p)})
            </option>
          ))}
        </select>
      </label>
      {piece && (
        <div className="fields">
          {SIZE.filter((key) => key in piece.size).map((key) => (
            <Field
              key={`${selected}-${key}`}
              name={key}
              path={[...path, 'size', key]}
              shown={print.length((piece.size as Record<string, number>)[key]!)}
            />
          ))}
          {PLACE.filter((key) => piece[key] !== undefined).map((key) => (
            <Field key={`${selected}-${key}`} name={key} path={[...path, key]} shown={print.length(piece[key]!)} />
          ))}
        </div>
      )}
    </section>
  );
}

function Field({
  name,
  path,
  shown,
}: {
  readonly name: string;
  readonly path: readonly (string | number)[];
  readonly shown: string;
}) {
  const [text, setText] = useState(shown);
  useEffect(() => setText(shown), [shown]);
  const keep = (event: FormEvent) => {
    event.preventDefault();
    if (text !== shown) change(`${name} ${text}`, [{ op: 'set', path, value: text }]);
  };
  return (
    <form onSubmit={keep}>
      <label>
        {name}
        <input value={text} inputMode="text" onChange={(e) => setText(e.target.value)} onBlur={keep} />
      </label>
    </form>
  );
}
