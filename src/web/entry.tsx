import { type ReactNode, useId } from 'preact/compat';

/** Something to be typed that is not in the plan yet, with what is wrong with it beside it. */
export function Entry({
  name,
  value,
  wrong = '',
  most,
  onChange,
}: {
  readonly name: string;
  readonly value: string;
  readonly wrong?: string | undefined;
  /** Characters. */
  readonly most?: number;
  readonly onChange: (value: string) => void;
}): ReactNode {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        value={value}
        maxLength={most}
        autoComplete="off"
        spellcheck={false}
        aria-invalid={wrong !== '' || undefined}
        aria-describedby={wrong === '' ? undefined : `${id}-wrong`}
        onChange={(e) => onChange(e.currentTarget.value)}
      />
      {wrong !== '' && (
        <p className="wrong" id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
