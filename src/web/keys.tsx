import { useEffect, useRef, useState } from 'preact/compat';
import { later, ONE_MOMENT } from './later.tsx';

/** Loaded when it is opened. */
const KeysList = later(() => import('./keys-list.tsx'), ONE_MOMENT);

/** What the keys do: a button that says so, and the question mark from anywhere. */
export function Keys() {
  const dialog = useRef<HTMLDialogElement>(null);
  const [open, setOpen] = useState(false);
  const show = () => {
    setOpen(true);
    dialog.current?.showModal();
  };
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== '?' || event.ctrlKey || event.metaKey) return;
      if (event.target instanceof HTMLElement && event.target.matches('input, textarea, select')) return;
      if (document.querySelector('dialog[open]')) return;
      event.preventDefault();
      show();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
  return (
    <>
      <button type="button" className="keys-button" aria-haspopup="dialog" onClick={show}>
        Keys <kbd>?</kbd>
      </button>
      <dialog
        ref={dialog}
        aria-labelledby="keys-title"
        onPointerDown={(e) => e.target === dialog.current && dialog.current?.close()}
      >
        <div className="dialog-body">
          <h2 id="keys-title">By keyboard</h2>
          {open && <KeysList />}
          <button type="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </dialog>
    </>
  );
}
