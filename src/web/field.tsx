import {
  type FormEvent,
  type InputHTMLAttributes,
  type KeyboardEvent,
  memo,
  useId,
  useLayoutEffect,
  useRef,
  useState,
} from 'preact/compat';
import { explainThere } from '../core/issue/index.ts';
import type { Edit, Path, Units } from '../core/plan/index.ts';
import { unbroken } from '../core/quantity/index.ts';
import { bareLength } from './bare-length.ts';
import { change } from './bench.ts';

interface Typed {
  readonly name: string;
  readonly path: Path;
  readonly shown: string;
  readonly hint?: string;
  readonly edits?: (text: string, path: Path) => readonly Edit[];
  /** Of a length: how a bare number is read in them is said while it is typed. */
  readonly units?: Units;
}
const isSameField = (a: Typed, b: Typed): boolean =>
  a.name === b.name &&
  a.shown === b.shown &&
  a.hint === b.hint &&
  a.edits === b.edits &&
  a.units === b.units &&
  a.path.length === b.path.length &&
  a.path.every((step, i) => step === b.path[i]);

const setOrLeaveOut = (text: string, path: Path): readonly Edit[] => [
  text === '' ? { op: 'remove', path } : { op: 'set', path, value: text },
];

export interface Typing
  extends Pick<InputHTMLAttributes<HTMLInputElement>, 'placeholder' | 'maxLength' | 'onBlur' | 'onKeyDown'> {
  readonly name: string;
  readonly value: string;
  readonly wrong?: string | undefined;
  readonly onChange: (value: string) => void;
}
/** A name, what is typed there, and what is wrong with it: nobody else says so. */
export function Line({ name, wrong, onChange, ...input }: Typing) {
  const id = useId();
  return (
    <>
      <label htmlFor={id}>{name}</label>
      <input
        {...input}
        id={id}
        autoComplete="off"
        spellcheck={false}
        aria-invalid={wrong ? true : undefined}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(e) => onChange(e.currentTarget.value)}
      />
      {wrong && (
        <p id={`${id}-wrong`} className="wrong" role="alert">
          {unbroken(wrong)}
        </p>
      )}
    </>
  );
}

/** One value of the plan to be typed. It is kept on Enter or on leaving; Escape brings back what was there. */
export const Field = memo(function Field({ name, path, shown, hint, edits = setOrLeaveOut, units }: Typed) {
  const [text, setText] = useState(shown);
  const [wrong, setWrong] = useState('');
  const typing = useRef(false);
  // at once: a frame later it would take away what was typed meanwhile; what is half typed stays, whoever changed the value elsewhere
  useLayoutEffect(() => {
    if (typing.current) return;
    setText(shown);
    setWrong('');
  }, [shown]);
  const keep = (event?: FormEvent) => {
    event?.preventDefault();
    const typed = text.trim();
    if (units && / ([-+−x×*÷/]|of) /i.test(typed))
      void import('./sum.ts').then(
        ({ summed }) => put(summed(units, typed) ?? typed),
        () => put(typed),
      );
    else put(typed);
  };
  const put = (typed: string) => {
    typing.current = false;
    const issue = typed === shown ? undefined : change(`${name} ${typed}`, edits(typed, path), true)[0];
    setWrong(issue ? explainThere(issue) : '');
    // what says the same in other words is shown as it was
    if (!issue) setText(shown);
  };
  const onKey = (event: KeyboardEvent<HTMLElement>) => {
    if (event.key !== 'Escape') return;
    typing.current = false;
    setText(shown);
    setWrong('');
  };
  const read = units && wrong === '' && text !== shown && bareLength(units, text);
  return (
    <form onSubmit={keep} className="field">
      <Line
        name={name}
        value={text}
        wrong={wrong}
        placeholder={hint}
        onChange={(now) => {
          typing.current = now !== shown;
          setText(now);
        }}
        onBlur={() => keep()}
        onKeyDown={onKey}
      />
      {read && <output>{unbroken(read)}</output>}
    </form>
  );
}, isSameField);

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
  const isLong = of.some(([, words]) => words.length > SHORT);
  return (
    <div className={isLong ? 'field long' : 'field'}>
      <label htmlFor={id}>{name}</label>
      {/* a very long one may be cut */}
      <select
        id={id}
        value={value}
        title={of.find(([key]) => key === value)?.[1]}
        onChange={(e) => onChange(e.currentTarget.value as T)}
      >
        <Words of={of} />
      </select>
    </div>
  );
}

/** As many letters can be read in half the width of the margin. */
const SHORT = 13;

interface Offered {
  readonly of: readonly (readonly [string, string])[];
}
/** A list may be long, and stays as it is while a piece is moved. */
const Words = memo(
  ({ of }: Offered) =>
    of.map(([key, words]) => (
      <option key={key} value={key}>
        {words}
      </option>
    )),
  (a: Offered, b: Offered) =>
    a.of.length === b.of.length && a.of.every(([key, words], i) => key === b.of[i]![0] && words === b.of[i]![1]),
);
