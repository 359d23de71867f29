import { useRef, useState } from 'react';
import type { Outcome } from '../core/outcome.ts';
import { API, type PairingCode } from '../core/workspace/index.ts';
import { useBench } from './bench.ts';
import { Choice } from './field.tsx';
import { paperOf } from './paper.ts';
import { putOn, THEMES, type Theme, themeNow } from './theme.ts';
import { today } from './today.ts';
import { ask, openPlan, planPath, useDesk } from './workspace.ts';

/** Plans, printing, other devices, light and dark. */
export default function Menu({ outcome }: { readonly outcome: Outcome }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const name = useBench((b) => b.name);
  const { plans, session } = useDesk();
  const [theme, setTheme] = useState<Theme>(themeNow);
  const [code, setCode] = useState<PairingCode>();
  const [wrong, setWrong] = useState('');
  const printed = new URLSearchParams({ option: outcome.option.id, paper: paperOf(outcome.plan), today: today() });
  const pair = async () => {
    const answer = await ask<PairingCode>('POST', '/pair/code');
    if (answer.ok) setCode(answer.value);
    else setWrong(answer.refusal.error.message);
  };
  return (
    <>
      <a className="button" href={`${API}${planPath(name)}/packet.pdf?${printed}`} target="_blank" rel="noreferrer">
        Print packet
      </a>
      <button type="button" aria-haspopup="dialog" onClick={() => dialog.current?.showModal()}>
        Plans and more
      </button>
      <dialog
        ref={dialog}
        aria-labelledby="menu-title"
        onPointerDown={(e) => e.target === dialog.current && dialog.current?.close()}
      >
        <div className="dialog-body">
          <h2 id="menu-title">Plans and more</h2>
          <h3>Plans in {session?.workspace ?? 'this folder'}</h3>
          <ul className="plans">
            {plans.map((plan) => (
              <li key={plan.name}>
                <button
                  type="button"
                  disabled={plan.name === name}
                  onClick={() => {
                    dialog.current?.close();
                    void openPlan(plan.name);
                  }}
                >
                  {plan.title} <small>{plan.name}</small>
                </button>
              </li>
            ))}
          </ul>
          <div className="buttons">
            <button
              type="button"
              onClick={() => {
                dialog.current?.close();
                useDesk.setState({ state: 'empty', why: '' });
              }}
            >
              New plan
            </button>
            <a className="button" href={`${API}${planPath(name)}/export`} download>
              Take the file along
            </a>
          </div>
          <h3>Look</h3>
          <Choice
            name="Paper and ink"
            value={theme}
            of={THEMES.map((t) => [t, t === 'system' ? 'as the system' : t] as const)}
            onChange={(next) => {
              setTheme(next);
              putOn(next);
            }}
          />
          {session?.here && session.lan && (
            <>
              <h3>Another device</h3>
              {code ? (
                <p>
                  Open {code.addresses.join(' or ')} there and type <strong className="pair-code">{code.code}</strong>
                </p>
              ) : (
                <button type="button" onClick={() => void pair()}>
                  Show a pairing code
                </button>
              )}
              {wrong !== '' && <p role="alert">{wrong}</p>}
            </>
          )}
          <h3>By keyboard</h3>
          <dl className="keys">
            <dt>Tab</dt>
            <dd>from piece to piece on the drawing, then to its bays</dd>
            <dt>Arrows, with Shift</dt>
            <dd>move the piece, further</dd>
            <dt>Alt and arrows</dt>
            <dd>make it wider, narrower, higher, lower</dd>
            <dt>Delete, Ctrl D, M</dt>
            <dd>take it away, copy it, mirror it</dd>
            <dt>Ctrl Z, Ctrl Y</dt>
            <dd>undo, redo</dd>
            <dt>Alt while dragging</dt>
            <dd>nothing catches</dd>
          </dl>
          <button type="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </dialog>
    </>
  );
}
