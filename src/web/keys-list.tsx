import { useEffect, useRef } from 'preact/compat';

const KEYS: readonly (readonly [string, string])[] = [
  ['Tab', 'from piece to piece on the drawing, then to its bays'],
  ['Arrows', 'move the piece; with Shift further'],
  ['Alt and arrows', 'make it wider, narrower, higher, lower; with Shift by more'],
  ['Ctrl D', 'copy it'],
  ['M', 'mirror it'],
  ['Delete', 'take it away'],
  ['Escape', 'let go of what is dragged; bring back what stood in a field'],
  ['Enter', 'keep what was typed in a field'],
  ['Ctrl Z, Ctrl Y', 'undo, do again: without end, also after the page was loaded again'],
  ['Arrows in the register', 'from page to page; Enter opens one'],
  ['Ctrl and the wheel', 'closer to the drawing, further from it'],
  ['Alt while dragging', 'nothing catches'],
  ['?', 'this list'],
];

/** What the keys do. */
export default function KeysList({ onClose }: { readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog
      ref={dialog}
      aria-labelledby="keys-title"
      onClose={onClose}
      // a press beside the sheet closes it
      onPointerDown={(e) => e.target === dialog.current && dialog.current?.close()}
    >
      <div className="dialog-body">
        <h2 id="keys-title">By keyboard</h2>
        <dl className="keys">
          {KEYS.map(([key, words]) => (
            <div key={key}>
              <dt>{key}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
    </dialog>
  );
}
