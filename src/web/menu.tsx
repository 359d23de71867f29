import { memo, useRef, useState } from 'preact/compat';
import type { PaperName } from '../core/drawing/index.ts';
import { explainThere, type Issue } from '../core/issue/index.ts';
import { API } from '../core/workspace/index.ts';
import { say, useBench } from './bench.ts';
import { later, ONE_MOMENT } from './later.tsx';
import { today } from './today.ts';
import { planPath } from './workspace.ts';

/** What is seldom wanted is loaded when it is opened. */
const MenuSheet = later(() => import('./menu-sheet.tsx'), ONE_MOMENT);

/** The packet to print, and what opens into plans, other devices, light and dark. */
function Menu({
  option,
  paper,
  fault,
}: {
  readonly option: string;
  readonly paper: PaperName;
  /** Why there is no packet of it. */
  readonly fault: Issue | undefined;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const name = useBench((b) => b.name);
  const [open, setOpen] = useState(false);
  const wanted = new URLSearchParams({ option, paper, today: today() });
  const packet = `${API}${planPath(name)}/packet.pdf?${wanted}`;
  const close = () => dialog.current?.close();
  return (
    <>
      <PrintPacket href={packet} fault={fault} />
      <button
        type="button"
        aria-haspopup="dialog"
        onClick={() => {
          setOpen(true);
          dialog.current?.showModal();
        }}
      >
        More
      </button>
      <dialog ref={dialog} aria-labelledby="menu-title" onPointerDown={(e) => e.target === dialog.current && close()}>
        <div className="dialog-body">
          <h2 id="menu-title">Plans and more</h2>
          {open && <MenuSheet print={<PrintPacket href={packet} fault={fault} onRefused={close} />} onDone={close} />}
          <button type="button" onClick={close}>
            Close
          </button>
        </div>
      </dialog>
    </>
  );
}

function PrintPacket({
  href,
  fault,
  onRefused,
}: {
  readonly href: string;
  readonly fault: Issue | undefined;
  /** What is said at the foot of the page is to be seen. */
  readonly onRefused?: () => void;
}) {
  const unlessFaulty = (event: Event): void => {
    if (!fault) return;
    event.preventDefault();
    onRefused?.();
    say(`There is no packet yet: ${explainThere(fault)}.`);
  };
  return (
    <a className="button print-packet" href={href} target="_blank" rel="noreferrer" onClick={unlessFaulty}>
      Print packet
    </a>
  );
}

export default memo(Menu);
