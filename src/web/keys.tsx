import { useEffect, useState } from 'preact/compat';
import { later } from './later.tsx';

/** Loaded when it is opened. */
const KeysList = later(() => import('./keys-list.tsx'), null, <span className="heed">Not loaded yet</span>);

/** What the keys do: a button that says so, and the question mark from anywhere. */
export function Keys() {
  const [open, setOpen] = useState(false);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== '?' || event.ctrlKey || event.metaKey) return;
      if (event.target instanceof HTMLElement && event.target.matches('input, textarea, select')) return;
      if (document.querySelector('dialog[open]')) return;
      event.preventDefault();
      setOpen(true);
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
  return (
    <>
      <button type="button" className="keys-button" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        Keys <kbd>?</kbd>
      </button>
      {open && <KeysList onClose={() => setOpen(false)} />}
    </>
  );
}
