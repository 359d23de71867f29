import { type FormEvent, type KeyboardEvent, useId, useLayoutEffect, useState } from 'preact/compat';
import { explainThere } from '../core/issue/index.ts';
import type { Edit, Path } from '../core/plan/index.ts';
import { change } from './bench.ts';

/** One value of the plan to be typed. It is kept on Enter or on leaving; Escape brings back what was there. */
export function Field({
  name,
  path,
  shown,
  hint,
  edits = (text) => [text === '' ? { op: 'remove', path } : { op: 'set', path, value: text }],
}: {
  readonly name: string;
  readonly path: Path;
  readonly shown: string;
  readonly hint?: string;
  readonly edits?: (text: string) => readonly Edit[];
}) {
  const id = useId();
  const [text, setText] = useState(shown);
  const [wrong, setWrong] = useState('');
  // at once: a frame later it would take away what was typed meanwhile
  useLayoutEffect(() => {
    setText(shown);
    setWrong('');
  }, [shown]);
  const keep = (event?: FormEvent) => {
    event?.preventDefault();
    if (text.trim() === shown) return setText(shown);
    const issue = change(`${name} ${text.trim()}`, edits(text.trim()))[0];
    setWrong(issue ? explainThere(issue) : '');
  };
  const onKey = (event: KeyboardEvent<HTMLElement>) => {
    if (event.key !== 'Escape') return;
    setText(shown);
    setWrong('');
  };
  return (
    <form onSubmit={keep} className="field">
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        value={text}
        placeholder={hint}
        autoComplete="off"
        spellcheck={false}
        aria-invalid={wrong !== '' || undefined}
        aria-describedby={wrong === '' ? undefined : `${id}-wrong`}
        onChange={(e) => setText(e.currentTarget.value)}
        onBlur={() => keep()}
        onKeyDown={onKey}
      />
      {wrong !== '' && (
        <p id={`${id}-wrong`} className="wrong">
          {wrong}
        </p>
      )}
    </form>
  );
}

export function Choice<T extends string>({
  name,
  value,
  of,
  onChange,
}: {
  readonly name: string;
  readonly value: T;
  readonly of: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{name}</label>
      <select id={id} value={value} onChange={(e) => onChange(e.currentTarget.value as T)}>
        {of.map(([key, words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}
